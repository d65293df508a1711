"""Where the stitches of rows stand along their rows, so that each is over what it is worked into.

Every row wants its stitches straight above their feet, and gives way only where they would touch.
Where the rows above want more room than the first one gives, all rows are moved up and down until
they fit one another. Units are stitches.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from booklet.drawings.chart_glyphs import CHAIN_STEP
from booklet.drawings.chart_marks import CHAIN, STITCH, ChartRow, Mark
from booklet.drawings.chart_sides import find_feet
from booklet.drawings.chart_spread import fill_gaps, spread

CHAIN_ROOM = {0: 1.0, 1: 1.6, 2: 2.0}  # least distance of two stitches by the chains between them
LONG_CHAIN_ROOM = 2.5
EVEN_WIDTHS = 1.35  # rows that differ by less are a rectangle
CROWDED = 1.06  # from here on the rows above want more room than the first one gives
SWEEPS = 3


@dataclass(slots=True)
class Columns:
    """The marks of a row from left to right that stand in columns of their own, and the chains between them."""

    marks: list[Mark]
    gaps: list[float]
    xs: list[float]


def _in_order(row: ChartRow, way: int) -> list[Mark]:
    return list(row.marks if way > 0 else reversed(row.marks))


def list_columns(row: ChartRow, way: int) -> Columns:
    if row.row.kind == "foundation":
        chain = _in_order(row, way)
        return Columns(chain, [CHAIN_STEP * 1.08] * (len(chain) - 1), [])
    marks: list[Mark] = []
    gaps: list[float] = []
    chains = 0
    for mark in _in_order(row, way):
        if mark.role == CHAIN:
            chains += mark.chains
        if not mark.is_column:
            continue
        if marks:
            room = CHAIN_ROOM.get(chains, LONG_CHAIN_ROOM)
            gaps.append(room + (_half_width(marks[-1]) + _half_width(mark) - 1.0))
        marks.append(mark)
        chains = 0
    return Columns(marks, gaps, [])


def _half_width(mark: Mark) -> float:
    return max(1, len(mark.tops) if mark.role == STITCH else 1) / 2


def place_columns(rows: Sequence[ChartRow], columns: Sequence[Columns], directions: Sequence[int]) -> None:
    """Finds x for every column: upwards, and for a rectangle back down and up again, so that rows fit one another."""
    sites: list[list[float]] = []
    for row, cols, way, foot in zip(rows, columns, directions, find_feet(rows), strict=True):
        below = sites[foot] if foot >= 0 else []
        wishes = fill_gaps([_foot_x(mark, below) for mark in cols.marks])
        cols.xs = spread(wishes, cols.gaps)
        sites.append(site_xs(row, cols, way))
    widths = [cols.xs[-1] - cols.xs[0] + 1 for cols in columns if cols.xs]
    if not widths or max(widths) > EVEN_WIDTHS * min(widths) or max(widths) < widths[0] * CROWDED:
        return
    for _ in range(SWEEPS):
        for index in range(len(rows) - 2, -1, -1):
            cols = columns[index]
            own = site_xs(rows[index], cols, directions[index])
            cols.xs = spread(_wishes_from_above(rows[index], cols, columns[index + 1], own), cols.gaps)
        for index in range(1, len(rows)):
            below = site_xs(rows[index - 1], columns[index - 1], directions[index - 1])
            cols = columns[index]
            cols.xs = spread(fill_gaps([_foot_x(mark, below) for mark in cols.marks]), cols.gaps)


def _wishes_from_above(row: ChartRow, cols: Columns, above: Columns, sites: Sequence[float]) -> list[float]:
    """Where each column would stand to be under what is worked into it, or into the chains beside it."""
    shifts: dict[int, list[float]] = {}
    for mark, x in zip(above.marks, above.xs, strict=True):
        foot = _foot_x(mark, sites)
        if foot is not None:
            for at in mark.feet:
                shifts.setdefault(at, []).append(x - foot)
    by_space: dict[int, list[float]] = {}
    column = -1
    order = row.marks if not cols.marks or cols.marks[0] is _first_column(row) else row.marks[::-1]
    for mark in order:
        column += mark.is_column or row.row.kind == "foundation"
        if mark.role == CHAIN and row.row.kind != "foundation":
            moved = [shift for top in mark.tops for shift in shifts.get(top, ())]
            for beside in (column, column + 1):
                by_space.setdefault(beside, []).extend(moved)
    moves: list[float | None] = []
    for index, mark in enumerate(cols.marks):
        own = [shift for top in mark.tops for shift in shifts.get(top, ())] or by_space.get(index, [])
        moves.append(sum(own) / len(own) if own else None)
    if all(move is None for move in moves):
        return list(cols.xs)
    return [x + move for x, move in zip(cols.xs, fill_gaps(moves, 0.0), strict=True)]


def _first_column(row: ChartRow) -> Mark | None:
    return next((mark for mark in row.marks if mark.is_column or row.row.kind == "foundation"), None)


def _foot_x(mark: Mark, below: Sequence[float]) -> float | None:
    found = [below[foot] for foot in mark.feet if foot < len(below)]
    return sum(found) / len(found) if found else None


def site_xs(row: ChartRow, cols: Columns, way: int) -> list[float]:
    """x of every site that the row offers, chains spaced evenly between the columns beside them."""
    xs: list[float | None] = [None] * len(row.row.fabric.sites)
    for mark, x in zip(cols.marks, cols.xs, strict=True):
        for number, top in enumerate(mark.tops):
            xs[top] = x + way * (number - (len(mark.tops) - 1) / 2)
    return fill_gaps(xs, CHAIN_STEP * way)
