"""Charts of diagonal work: blocks from one corner to the other, each row along the diagonal.

The first block lies in the corner below on the left, seen from the right side. Right-side rows go up to the left from
the right edge, their stitches upright and the chain of each block at its right; wrong-side rows come back from the
left edge, their stitches lying down and the chains on top. So each block stands on the chain of one of the row before
(worked out from rows in ordinary notation, step by step).
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from booklet.drawings.chart_glyphs import Glyph
from booklet.drawings.chart_marks import (
    CHAIN,
    LINK,
    OPENING,
    STITCH,
    ChartRow,
    Mark,
    count_marks,
    count_worked,
    list_marks,
    name_rows,
)
from booklet.drawings.plan import Point
from booklet.model.work import WorkedRow

SIDE = 3.5  # of a block
EDGE = 0.3  # from its chain to its side
FIRST, STEP = 1.15, 0.92  # from the side with the chain to the first stitch, and from stitch to stitch
LOW, HIGH = 0.45, 0.25  # room under and over a stitch
OUTSIDE = 1.2  # from a block to the number of its row


@dataclass(frozen=True, slots=True)
class LaidBlocks:
    """A row in place: the columns of its blocks in working order, and where its number stands."""

    row: ChartRow
    is_upright: bool
    columns: tuple[int, ...]
    label: Point


@dataclass(frozen=True, slots=True)
class BlockChart:
    """A chart of blocks."""

    laid: tuple[LaidBlocks, ...]
    glyphs: tuple[Glyph, ...]


def list_block_rows(rows: Sequence[WorkedRow]) -> tuple[ChartRow, ...]:
    """The rows as marks, up to the first that is not of blocks; none where the second has none."""
    listed: list[ChartRow] = []
    for number, row in enumerate(rows):
        if row.status != "worked" or (number and not row.fabric.groups.get("block")):
            break
        marks = _with_base(list_marks(row.fabric), row)
        if count_marks(marks) != count_worked(row):
            break
        listed.append(ChartRow(row, marks))
    return name_rows(listed) if len(listed) > 2 else ()


def _with_base(marks: tuple[Mark, ...], row: WorkedRow) -> tuple[Mark, ...]:
    """The marks with the chains that the first block is worked along, which are no place of the row."""
    base = count_worked(row)["ch"] - count_marks(marks)["ch"]
    first = next((at for at, mark in enumerate(marks) if mark.role in (CHAIN, OPENING)), None)
    if base <= 0 or first is None:
        return marks
    if marks[first].role == CHAIN:
        longer = replace(marks[first], chains=marks[first].chains + base)
        return (*marks[:first], longer, *marks[first + 1 :])
    return (*marks[:first], Mark(CHAIN, "ch", chains=base, colour=marks[first].colour), *marks[first:])


def lay_blocks(rows: Sequence[ChartRow]) -> BlockChart:
    """All rows, the first in the corner."""
    laid: list[LaidBlocks] = []
    glyphs: list[Glyph] = []
    low = high = 0
    for number, row in enumerate(rows):
        is_upright = number % 2 == 0
        blocks = _list_blocks(row)
        grows = blocks[0].base > 0
        if number == 0:
            columns = [0]
        elif is_upright:
            start = high + 1 if grows else high
            columns = [start - at for at in range(len(blocks))]
        else:
            start = low if grows else low + 1
            columns = [start + at for at in range(len(blocks))]
        drawer = _BlockDrawer(number, is_upright)
        for block, column in zip(blocks, columns, strict=True):
            drawer.draw_block(block, (column, number - column))
        drawer.draw_ends(row, columns[0], columns[-1])
        glyphs += drawer.glyphs
        laid.append(LaidBlocks(row, is_upright, tuple(columns), drawer.place_label(columns[0], grows)))
        low, high = min(columns), max(columns)
    return BlockChart(tuple(laid), tuple(glyphs))


@dataclass(slots=True)
class _Block:
    """One block: chains it is worked along, chains at its side, its stitches, and whether a slip stitch joins it."""

    base: int
    chains: int
    kinds: list[str]
    is_joined: bool


def _list_blocks(row: ChartRow) -> list[_Block]:
    blocks: list[_Block] = []
    base = 0
    is_joined = False
    for mark in row.marks:
        if mark.role == OPENING or (mark.role == CHAIN and mark.tops):
            side = mark.chains if mark.role == OPENING else len(mark.tops)
            blocks.append(_Block(base or mark.chains - side, side, [], is_joined))
            base, is_joined = 0, False
        elif mark.role == CHAIN:
            base = mark.chains
        elif mark.kind == "sl st":
            is_joined = mark.role == STITCH
        elif mark.role == STITCH:
            blocks[-1].kinds.append(mark.kind)
    return blocks


class _BlockDrawer:
    """The symbols of one row. Places in a block are told as in an upright one, and turned over where it lies."""

    def __init__(self, row: int, is_upright: bool) -> None:
        self.row, self.is_upright = row, is_upright
        self.glyphs: list[Glyph] = []

    def _at(self, cell: tuple[int, int], across: float, up: float) -> Point:
        x, y = (across, up) if self.is_upright else (up, across)
        return cell[0] * SIDE + x, cell[1] * SIDE + y

    def _add(self, kind: str, cell: tuple[int, int], start: Point, end: Point) -> None:
        look = "ch" if kind == "ch" else kind
        self.glyphs.append(Glyph(kind, look, self.row, (self._at(cell, *start),), self._at(cell, *end)))

    def draw_block(self, block: _Block, cell: tuple[int, int]) -> None:
        length = SIDE - 2 * EDGE
        for number in range(block.chains):
            low, high = (EDGE + length * (number + share) / block.chains for share in (0.03, 0.97))
            self._add("ch", cell, (SIDE - EDGE, low), (SIDE - EDGE, high))
        for number in range(block.base):
            step = (SIDE - FIRST + STEP / 2) / block.base
            right = SIDE - FIRST + STEP / 2 - number * step
            self._add("ch", cell, (right - 0.03, LOW - 0.25), (right - step + 0.03, LOW - 0.25))
        room = min(STEP, (SIDE - FIRST) / max(1, len(block.kinds) - 0.5))
        for number, kind in enumerate(block.kinds):
            across = SIDE - FIRST - number * room
            self._add(kind, cell, (across, LOW), (across, SIDE - HIGH))
        if block.is_joined:
            self._add("sl st", cell, (SIDE, -0.17), (SIDE, 0.17))

    def draw_ends(self, row: ChartRow, first: int, last: int) -> None:
        """Slip stitches that lead to the first block along the side of the one before, and the last one of the row."""
        travel = [mark for mark in row.marks if mark.role == LINK]
        below = (first, self.row - 1 - first) if self.is_upright else (first - 1, self.row - first)
        for number in range(len(travel)):
            # along the tops of the last stitches of the row before, on the side that this row is worked on
            share = (number + 0.5) / len(travel) * SIDE
            x, y = (below[0] * SIDE + share, below[1] * SIDE + SIDE)
            if self.is_upright:
                x, y = below[0] * SIDE + SIDE, below[1] * SIDE + share
            self.glyphs.append(Glyph("sl st", "sl st", self.row, ((x, y - 0.17),), (x, y + 0.17)))
        ending = next((mark for mark in reversed(row.marks) if mark.role in (STITCH, LINK)), None)
        if ending is not None and ending.role == STITCH and ending.kind == "sl st":
            following = last - 1 if self.is_upright else last + 1
            self._add("sl st", (following, self.row - following), (SIDE, -0.17), (SIDE, 0.17))

    def place_label(self, first: int, grows: bool) -> Point:
        """Outside the first block: beyond the chain it is worked along, or the chain at its side."""
        cell = (first, self.row - first)
        return (
            self._at(cell, SIDE / 2, -OUTSIDE) if grows or self.row == 0 else self._at(cell, SIDE + OUTSIDE, SIDE / 2)
        )
