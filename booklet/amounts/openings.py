"""Rows worked on both sides of an opening, such as a neck: one side after the other, or both with a ball each.

A side that is worked after the other stands on the same row as the first; the two are as high as the taller one.
With a ball each, a row passes over many places at one spot and goes on at once behind them; the rows above it keep
to their sides. Lace passes over places too, but over few, more than once in a row, or with chains across.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from booklet.amounts.gauges import count_width
from booklet.model.work import Fabric, WorkedRow

LEAST_PASSED = 6  # places; a group of shells passes over fewer


@dataclass(frozen=True, slots=True)
class Opening:
    """The sides of an opening and what lies between them, in stitches.

    `start` is the index of the first row of the sides, `rows` how many the taller one has.
    """

    start: int
    rows: int
    first: int
    second: int
    between: int


def find_opening(rows: Sequence[WorkedRow]) -> Opening | None:
    """The opening that a piece ends with; None where it ends otherwise."""
    sides = find_sides(rows)
    if sides is not None:
        start, second = sides
        widths = count_width(rows[second - 1].fabric), count_width(rows[-1].fabric)
        height = max(second - start, len(rows) - second)
        return Opening(start, height, *widths, count_width(rows[start - 1].fabric) - sum(widths))
    breaks = find_breaks(rows)
    at = breaks[-1] if breaks else None
    if at is None:
        return None
    start = max(index for index, known in enumerate(breaks) if known is None) + 1
    first, behind = count_sides(rows[-1].fabric, at)
    return Opening(start, len(rows) - start, first, behind, count_width(rows[start - 1].fabric) - first - behind)


def find_sides(rows: Sequence[WorkedRow]) -> tuple[int, int] | None:
    """Where a piece ends in two sides worked one after the other: the index at which each begins."""
    seconds = [index for index, row in enumerate(rows) if row.over is not None]
    if len(seconds) != 1:
        return None
    second, over = seconds[0], rows[seconds[0]].over or 0
    if not over < second - 1 or any(row.kind != "row" for row in rows[over + 1 :]):
        return None
    ends = count_width(rows[second - 1].fabric) + count_width(rows[-1].fabric)
    return (over + 1, second) if 0 < ends < count_width(rows[over].fabric) else None


def stack_rows(rows: Sequence[WorkedRow]) -> Sequence[WorkedRow]:
    """The rows that lie on top of one another: of two sides worked one after the other, the one with more rows."""
    sides = find_sides(rows)
    if sides is None:
        return rows
    start, second = sides
    first_side, second_side = rows[start:second], rows[second:]
    return [*rows[:start], *max(first_side, second_side, key=len)]


def find_breaks(rows: Sequence[WorkedRow]) -> list[int | None]:
    """For each row the first of its sites that lies behind the opening, in working order; None where it has none."""
    breaks: list[int | None] = []
    below: Fabric | None = None
    known: dict[tuple[int, int, int | None], int | None] = {}
    for row in rows:
        at = None
        if below is not None and row.kind == "row":
            before = breaks[-1]
            key = (id(row.fabric), id(below), before)
            if key not in known:
                known[key] = find_break(row.fabric, below, before)
            at = known[key]
        breaks.append(at)
        below = row.fabric
    return breaks


def find_break(fabric: Fabric, below: Fabric, before: int | None) -> int | None:
    """Where the row's second side begins, over a row whose own began at site `before`."""
    placed = sorted((stitch for stitch in fabric.stitches if stitch.into and stitch.top >= 0), key=lambda s: s.top)
    neighbours = [(first, second) for first, second in pairwise(placed) if second.top == first.top + 1]
    if before is not None:
        for first, second in neighbours:
            if (first.into[0] < before) != (second.into[0] < before):
                return second.top
        return None
    jumps = []
    for first, second in neighbours:
        passed = min(abs(a - b) for a in first.into for b in second.into) - 1
        if passed >= LEAST_PASSED:
            jumps.append((second.top, passed))
    if len(jumps) != 1:
        return None
    at, passed = jumps[0]
    return at if count_width(fabric) <= count_width(below) - passed + 2 else None


def count_sides(fabric: Fabric, at: int) -> tuple[int, int]:
    """Stitches before and behind the opening, in working order."""
    first = sum(site.counts for site in fabric.sites[:at])
    return first, count_width(fabric) - first
