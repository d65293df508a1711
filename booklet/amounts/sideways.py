"""Pieces of which some rows lie across the others: a brim worked to and fro, and the hat along the ends of its rows.

The counts alone do not say along which edge a row goes, so its length does: it is compared with the sides of what
is there, the foundation or last row, and, for rounds, the way round all of it. The nearest is meant. A band that is
stretched or eased in when it is worked along stays nearer to its own side than to any other edge.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

from booklet.amounts.gauges import Extent, count_width, find_gauge, is_row, measure_rows, measure_stitches
from booklet.model.pattern import Pattern
from booklet.model.work import WorkedPart, WorkedRow

BAND = ("band depth", "band length")
STRAIGHT = 0.95  # of the widest row is the narrowest where the sides are straight
MOST_EASE = 1.6  # a row more times longer or shorter than the nearest edge goes along none of them


@dataclass(frozen=True, slots=True)
class Sideways:
    """A piece in one size, its rows sorted by how they lie.

    `body` are its rows that lie one above the other; `band` are those that lie sideways under the first of them;
    `sides` are rows along the ends of the body's rows, in groups, each on one side.
    """

    body: tuple[WorkedRow, ...]
    band: tuple[WorkedRow, ...] = ()
    sides: tuple[tuple[WorkedRow, ...], ...] = ()


def sort_rows(pattern: Pattern, part: WorkedPart, rows: Sequence[WorkedRow]) -> Sideways:
    """The rows of one size by how they lie. All are `body` where none goes along the ends of others."""
    first = _find_along(rows, 1)
    if first is None or any(row.kind == "round" for row in rows[:first]):
        return Sideways(tuple(rows))
    size = _measure(pattern, part, rows[:first])
    after = rows[first:]
    if size is None or not _goes_along_side(pattern, part, after[0], size):
        return Sideways(tuple(rows))
    height = _add_rows(pattern, part, after)
    if height is not None and size[0] < height:
        return Sideways(tuple(after), band=tuple(rows[:first]))
    widths = [count_width(row.fabric) for row in rows[:first] if is_row(row)]
    if min(widths) < STRAIGHT * max(widths):
        return Sideways(tuple(rows))
    groups: list[list[WorkedRow]] = []
    for row in after:
        if row.along or not groups:
            groups.append([])
        groups[-1].append(row)
    if not all(_goes_along_side(pattern, part, group[0], size) for group in groups):
        return Sideways(tuple(rows))
    return Sideways(tuple(rows[:first]), sides=tuple(tuple(group) for group in groups))


def split_part(pattern: Pattern, part: WorkedPart) -> tuple[WorkedPart, WorkedPart | None, tuple[Sideways, ...]]:
    """The piece without what lies sideways on it, its band as a piece, and how each size was sorted.

    The band is None, and the piece whole, where the sizes do not agree.
    """
    sorted_sizes = tuple(sort_rows(pattern, part, rows) for rows in part.rows)
    if len({(bool(size.band), len(size.sides)) for size in sorted_sizes}) != 1:
        return part, None, tuple(Sideways(tuple(rows)) for rows in part.rows)
    body = replace(part, rows=tuple(size.body for size in sorted_sizes))
    band = replace(part, rows=tuple(size.band for size in sorted_sizes), in_rounds=False)
    return body, band if sorted_sizes and sorted_sizes[0].band else None, sorted_sizes


def _find_along(rows: Sequence[WorkedRow], start: int) -> int | None:
    """The first row along an edge that has rows under it."""
    return next(
        (at for at, row in enumerate(rows) if at >= start and row.along and any(map(is_row, rows[:at]))),
        None,
    )


def _measure(pattern: Pattern, part: WorkedPart, rows: Sequence[WorkedRow]) -> tuple[float, float] | None:
    """Width of the last row and height of the rows, in cm; None without a gauge that counts rows."""
    gauge = find_gauge(pattern, part, rows[-1])
    height = _add_rows(pattern, part, rows)
    if gauge is None or not height:
        return None
    return measure_stitches(count_width(rows[-1].fabric), gauge).cm, height


def _add_rows(pattern: Pattern, part: WorkedPart, rows: Sequence[WorkedRow]) -> float | None:
    total = 0.0
    for row in rows:
        gauge = find_gauge(pattern, part, row)
        height: Extent | None = measure_rows(1, gauge) if gauge is not None and is_row(row) else None
        if height is None and is_row(row):
            return None
        total += height.cm if height else 0.0
    return total


def _goes_along_side(pattern: Pattern, part: WorkedPart, row: WorkedRow, size: tuple[float, float]) -> bool:
    """Is the side the edge whose length is nearest to the row's?"""
    gauge = find_gauge(pattern, part, row)
    if gauge is None or not row.along:
        return False
    length = measure_stitches(count_width(row.fabric), gauge).cm
    width, height = size
    edges = {"side": height, "end": width, "around": 2 * (width + height)}
    if row.kind != "round":
        del edges["around"]
    off = {name: abs(math.log(length / edge)) for name, edge in edges.items() if length > 0 and edge > 0}
    nearest = min(off, key=off.__getitem__, default="")
    return nearest == "side" and off["side"] <= math.log(MOST_EASE)
