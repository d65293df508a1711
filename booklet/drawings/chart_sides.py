"""The second side of an opening in a chart: on the row that the first side left, beside it.

Its stitches do not say which of the places it goes into: they are those at the end that the first side is further
from, the nearest to the edge first or last, as the first side's are.
"""

from collections.abc import Sequence
from dataclasses import replace

from booklet.drawings.chart_marks import ChartRow, Mark
from booklet.model.work import WorkedRow
from booklet.working.kinds import kind_of

LEAST_APART = 12  # stitches between the two sides: in less the numbers of their rows would meet


def place_sides(listed: Sequence[ChartRow], rows: Sequence[WorkedRow]) -> tuple[ChartRow, ...]:
    """The rows of a piece, each second side with the row that it stands on and the places it goes into.

    They end before a second side that cannot be placed. Free loops, which lie under other rows, stay as they are.
    """
    placed: list[ChartRow] = []
    for row in listed:
        over = row.row.over
        if over is None or any(mark.feet for mark in row.marks) or not _list_feet(rows[over + 1]):
            placed.append(row)
            continue
        side = _place_side(row, rows[over], rows[over + 1])
        if side is None:
            break
        placed.append(side)
    return tuple(placed)


def _place_side(row: ChartRow, on: WorkedRow, first: WorkedRow) -> ChartRow | None:
    own = _list_feet(first)
    count, used = len(on.fabric.sites), row.row.used
    before, behind = min(own[-1], own[0]), count - 1 - max(own)
    if max(before, behind) - used < LEAST_APART:
        return None
    places = list(range(used)) if before >= behind else list(range(count - used, count))
    if (own[0] > own[-1]) == (first.side == row.row.side):
        places.reverse()
    marks: list[Mark] = []
    group = -1
    for mark in row.marks:
        if not mark.is_column:
            marks.append(mark)
            continue
        if group < 0 or mark.cluster != group:
            takes = kind_of(mark.kind).uses
            taken, places = places[:takes], places[takes:]
        group = mark.cluster
        if not taken:
            return None
        marks.append(replace(mark, feet=tuple(sorted(taken))))
    return None if places else replace(row, marks=tuple(marks), on=on)


def _list_feet(row: WorkedRow) -> list[int]:
    """The places that the row goes into, in working order."""
    return [place for stitch in row.fabric.stitches for place in stitch.into]


def find_feet(rows: Sequence[ChartRow]) -> list[int]:
    """For each row which of those before it it stands on; -1 for the lowest, and where that row is not among them."""
    feet = []
    for at, row in enumerate(rows):
        on = at - 1
        while row.on is not None and on >= 0 and rows[on].row.fabric is not row.on.fabric:
            on -= 1
        feet.append(on)
    return feet


def keep_standing(rows: Sequence[ChartRow]) -> Sequence[ChartRow]:
    """The rows up to the first that stands on none of them."""
    lost = next((at for at, foot in enumerate(find_feet(rows)) if at and foot < 0), len(rows))
    return rows[:lost]
