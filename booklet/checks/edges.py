"""Seams and folds: the pieces and the edges that they name are there."""

from collections.abc import Iterator

from booklet.amounts.piece_edges import find_part, has_edge, has_fold, list_edges
from booklet.checks import messages_edges as messages
from booklet.findings import Finding
from booklet.model.parsed import ParsedPattern
from booklet.model.work import WorkedPart, WorkedPattern


def check_seams(parsed: ParsedPattern, worked: WorkedPattern) -> Iterator[Finding]:
    """A seam that names a piece or an edge that the pattern does not have, told once for each."""
    parts = [part for part in worked.parts if any(part.rows)]
    titles = tuple(part.title for part in parts if part.title)
    for seam in parsed.sized.pattern.seams:
        for edge in seam.edges:
            part = find_part(parts, edge.piece)
            if part is not None and has_edge(part, edge):
                continue
            if part is None and (owner := _find_owner(parts, edge.piece)):
                wrong = edge.piece[len(owner.title) :].strip(" ,:")
                yield messages.edge_missing(owner.title, wrong, _list_common(owner), seam.span)
            elif part is None:
                yield messages.piece_missing("a seam", edge.piece, titles, seam.span)
            else:
                yield messages.edge_missing(part.title, edge.edge, _list_common(part), seam.span)


def check_folds(parsed: ParsedPattern, worked: WorkedPattern) -> Iterator[Finding]:
    """A fold of a piece that is not there, or at a row that the piece does not have."""
    parts = [part for part in worked.parts if any(part.rows)]
    titles = tuple(part.title for part in parts if part.title)
    for fold in parsed.sized.pattern.folds:
        part = find_part(parts, fold.piece)
        if part is None:
            yield messages.piece_missing("a fold", fold.piece, titles, fold.span)
        elif not has_fold(part, fold):
            yield messages.fold_row_missing(part.title, fold.row, fold.span)


def _find_owner(parts: list[WorkedPart], words: str) -> WorkedPart | None:
    """The piece whose title the words begin with: the rest is meant for an edge."""
    return next((part for part in parts if part.title and words.lower().startswith(f"{part.title.lower()} ")), None)


def _list_common(part: WorkedPart) -> tuple[str, ...]:
    """The edges that the piece has in all sizes."""
    sizes = [list_edges(part, size) for size in range(len(part.rows))]
    return tuple(edge for edge in sizes[0] if all(edge in size for size in sizes))
