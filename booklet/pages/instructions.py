"""Pieces with their rows, in the author's order under a proper order of headings."""

from collections.abc import Iterable, Mapping

from markupsafe import Markup

from booklet.model.pattern import Part, RowLine
from booklet.model.work import WorkedRow
from booklet.pages.manuscript import BookletInput
from booklet.pages.outline import Placed
from booklet.pages.prose import render_prose
from booklet.pages.row_texts import show_row
from booklet.pages.typography import set_type
from booklet.pages.views import Passage, Piece

FIRST_LEVEL = 3  # under the section's own h2
LAST_LEVEL = 6


def show_pieces(
    placed: Iterable[Placed], manuscript: BookletInput, worked: Mapping[int, list[list[WorkedRow]]], prefix: str
) -> tuple[Piece, ...]:
    """Every part as a piece; anchors are the prefix and the number of the piece in its section."""
    pieces: list[Piece] = []
    depths: list[int] = []  # of the headings that are open, so that no level is skipped
    for number, place in enumerate(placed, start=1):
        while depths and depths[-1] >= place.depth:
            depths.pop()
        level = min(FIRST_LEVEL + len(depths), LAST_LEVEL)
        if place.part.title:
            depths.append(place.depth)
        pieces.append(_show_piece(place.part, f"{prefix}-{number}", level, manuscript, worked))
    return tuple(piece for piece in pieces if piece.title or piece.passages)


def _show_piece(
    part: Part, anchor: str, level: int, manuscript: BookletInput, worked: Mapping[int, list[list[WorkedRow]]]
) -> Piece:
    passages: list[Passage] = []
    for number, block in enumerate(part.blocks, start=1):
        if isinstance(block, RowLine):
            passages.append(Passage(show_row(block, f"{anchor}-row-{number}", manuscript, worked), None))
        elif prose := render_prose(block.text, manuscript.numbers):
            passages.append(Passage(None, prose))
    return Piece(
        title=set_type(part.title),
        anchor=anchor,
        level=level,
        make=f"Make {part.make}" if part.make > 1 else "",
        passages=tuple(passages),
    )


def join_prose(pieces: Iterable[Piece]) -> Markup:
    """The prose of pieces that have neither rows nor headings of their own."""
    return Markup("\n").join(passage.prose for piece in pieces for passage in piece.passages if passage.prose)
