"""Rows worked on both sides of an opening, such as a neck, each side with its own ball.

Such a row passes over many places at one spot and goes on at once behind them; the rows above it keep to their
sides. Lace passes over places too, but over few, more than once in a row, or with chains across.
"""

from collections.abc import Sequence
from itertools import pairwise

from booklet.amounts.gauges import count_width
from booklet.model.work import Fabric, WorkedRow

LEAST_PASSED = 6  # places; a group of shells passes over fewer


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
