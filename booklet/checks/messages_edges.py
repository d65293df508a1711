"""The findings about seams and folds, and about places on other pieces."""

from booklet.findings import Finding, error, warning
from booklet.model.tree import What
from booklet.source import Span
from booklet.working.messages import name_place


def edge_missing(title: str, edge: str, known: tuple[str, ...], span: Span) -> Finding:
    return warning(
        "edge-missing",
        f"{title or 'the piece'} has no edge called “{edge}”",
        span,
        label="the seam is not drawn there",
        expected=f"one of {', '.join(known)}" if known else "a piece that is worked",
        fix=f"write “{f'{title} {known[0]}'.strip()}”, or another of these" if known else "",
    )


def piece_missing(what: str, title: str, known: tuple[str, ...], span: Span) -> Finding:
    named = f"a piece called “{title}”" if title else "a piece without its title"
    return warning(
        "edge-missing",
        f"{what} names {named}, which the pattern does not have",
        span,
        label=f"{what} is not drawn there",
        expected=f"one of {', '.join(known)}" if known else "a piece that is worked",
        fix="write the title of the piece as it stands in its heading, then the edge",
    )


def fold_row_missing(title: str, row: int, span: Span) -> Finding:
    where = f" at row {row}" if row else " across"
    return warning(
        "edge-missing",
        f"{title or 'the piece'} is not long enough to be folded{where}",
        span,
        label="the fold is not drawn",
        expected="a row below the last, counted from the start of the piece, in every size",
        fix="correct the number of the row",
    )


def not_on_piece(label: str, title: str, what: What, span: Span) -> Finding:
    place = name_place(what)
    return error(
        "no-such-place",
        f"{label} works into a {place} of {title or 'another piece'}, which has none",
        span,
        label=f"no {place} is made there",
        expected=f"a {place} in {title or 'a piece made before'}",
        fix="name a place that the other piece makes",
    )
