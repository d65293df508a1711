"""Rows that lie across the others: a band under the first row, and rows along the sides of a piece.

A band is drawn as long as the row that was worked along it, because that is how it lies once it is there. Of a band
closed to a ring and pressed flat, the front half of its rows shows, as it does of the rounds above.
"""

from collections.abc import Sequence
from dataclasses import replace

from booklet.amounts.sideways import Sideways
from booklet.drawings.edges import Upright
from booklet.drawings.lay import Band, Lay, Sizing, find_directions, takes_room
from booklet.drawings.plan import Box, Point
from booklet.model.work import WorkedRow

BAND_START = "start of the band"


def lay_across(piece: Lay, rows: Sideways, sizing: Sizing) -> Lay:
    """The piece with what lies sideways on it."""
    if rows.band:
        return _add_band(piece, [row for row in rows.band if takes_room(row)], sizing)
    return _add_sides(piece, [[row for row in side if takes_room(row)] for side in rows.sides], sizing)


def _add_band(piece: Lay, rows: list[WorkedRow], sizing: Sizing) -> Lay:
    """Columns from left to right under the first row, the first worked on the left."""
    if not rows:
        return piece
    first = piece.bands[0].base
    (left, y), (right, _) = first.point(0), first.point(1)
    depth = max(sizing.widths_cm(rows))
    is_pressed = piece.shape != "flat"
    shown = rows[: (len(rows) + 1) // 2] if is_pressed else rows
    edges = [left + (right - left) * at / len(shown) for at in range(len(shown) + 1)]
    across = tuple(
        Band(row, Upright(start, y, y + depth), Upright(end, y, y + depth), way)
        for row, start, end, way in zip(shown, edges, edges[1:], find_directions(rows), strict=False)
    )
    corners = [point for point in piece.outline if point not in ((left, y), (right, y))]
    outline = ((left, y + depth), (right, y + depth), (right, y), *corners, (left, y))
    return _with(piece, across, _drop_level(outline), BAND_START, sizing, rows)


def _add_sides(piece: Lay, sides: Sequence[list[WorkedRow]], sizing: Sizing) -> Lay:
    """Columns along the left side, and along the right side where there are two, each outside the one before."""
    left, top, right, bottom = piece.own_box
    across: list[Band] = []
    for number, rows in enumerate(sides):
        for row, way in zip(rows, find_directions(rows), strict=True):
            height = sizing.row_cm(row)
            if number % 2:
                across.append(Band(row, Upright(right, top, bottom), Upright(right + height, top, bottom), way))
                right += height
            else:
                across.append(Band(row, Upright(left, top, bottom), Upright(left - height, top, bottom), way))
                left -= height
    outline = ((left, bottom), (right, bottom), (right, top), (left, top))
    return _with(piece, tuple(across), outline, piece.start, sizing, [row for rows in sides for row in rows])


def _with(
    piece: Lay, across: tuple[Band, ...], outline: tuple[Point, ...], start: str, sizing: Sizing, rows: list[WorkedRow]
) -> Lay:
    box = _bound(outline)
    is_to_scale = piece.is_to_scale and all(sizing.knows(row) for row in rows)
    return replace(piece, across=across, outline=outline, box=box, own_box=box, start=start, is_to_scale=is_to_scale)


def _bound(points: Sequence[Point]) -> Box:
    xs, ys = zip(*points, strict=True)
    return min(xs), min(ys), max(xs), max(ys)


def _drop_level(points: Sequence[Point]) -> tuple[Point, ...]:
    """The outline without corners in the middle of an upright side."""
    kept: list[Point] = []
    for at, point in enumerate(points):
        before, after = points[at - 1], points[(at + 1) % len(points)]
        if abs(before[0] - point[0]) < 1e-9 and abs(after[0] - point[0]) < 1e-9:
            continue
        kept.append(point)
    return tuple(kept)
