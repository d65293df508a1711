"""The named edges of a laid piece as paths along its outline, in centimetres, with the piece on their left.

On the left as one walks along them, that is counter-clockwise round the piece, as its outline runs: along the lower
edge, up on the right, back along the upper edge, down on the left.
"""

import math
from collections.abc import Sequence
from itertools import pairwise

from booklet.amounts.piece_edges import find_underarm
from booklet.drawings.edges import trace_edge
from booklet.drawings.lay import Lay
from booklet.drawings.plan import Point
from booklet.drawings.sides import find_sides
from booklet.model.seams import AT_ROW, LENGTHWISE, Fold

Path = tuple[Point, ...]
LEVEL_CM = 1e-3
PAIRS = {
    "sides": ("right edge", "left edge"),
    "armholes": ("right armhole", "left armhole"),
    "shoulders": ("right shoulder", "left shoulder"),
    "ends": ("lower edge", "upper edge"),
}


def trace_paths(piece: Lay, outline: Sequence[Point], name: str) -> list[Path]:
    """The paths of an edge by its name in `terms/edges.yaml`; none where the piece has no such edge.

    `outline` is the piece's own as it is drawn, smoothed or not.
    """
    if name in PAIRS:
        return [path for part in PAIRS[name] for path in trace_paths(piece, outline, part)]
    ring = _turn_round(outline)
    if name == "all round":
        return [(*ring, ring[0])]
    if piece.shape != "flat":
        return _trace_round(piece, ring, name)
    corners = find_corners(piece)
    start, end = _ends_of(name, corners)
    if start is None or end is None:
        return []
    path = cut_ring(ring, start, end)
    return [path] if len(path) > 1 and _length(path) > LEVEL_CM else []


def _turn_round(outline: Sequence[Point]) -> Path:
    """The outline so that it runs counter-clockwise as seen, with y downwards."""
    area = sum(x * y2 - x2 * y for (x, y), (x2, y2) in pairwise((*outline, outline[0])))
    return tuple(outline) if area < 0 else tuple(reversed(outline))


def _trace_round(piece: Lay, ring: Path, name: str) -> list[Path]:
    bands = piece.bands
    if name == "last round" and bands[-1].top.closed:
        return [(*ring, ring[0])]
    edge = bands[-1].top if name == "last round" else bands[0].base if name == "first round" else None
    if edge is None or edge.closed:
        return []
    path = trace_edge(edge)
    is_below = path[0][1] > (piece.own_box[1] + piece.own_box[3]) / 2
    return [path if is_below else tuple(reversed(path))]


def find_corners(piece: Lay) -> dict[str, Point]:
    """Where the edges of a flat piece begin and end: lower, upper, under (the arm) and neck, each left and right."""
    corners = {f"lower {hand}": point for hand, point in _ends_at(piece, is_lower=True).items()}
    sides = find_sides(piece.bands)
    if sides is None:
        corners |= {f"upper {hand}": point for hand, point in _ends_at(piece, is_lower=False).items()}
    else:
        left, right = sides.left[-1][1], sides.right[-1][1]
        corners |= {"upper left": left.point(0), "neck left": left.point(1)}
        corners |= {"neck right": right.point(0), "upper right": right.point(1)}
    rows = [band.row for band in piece.bands]
    underarm = find_underarm(rows)
    if underarm is not None:
        below = piece.bands[next(at for at, row in enumerate(rows) if row is underarm) - 1]
        corners |= {"under left": below.top.point(0), "under right": below.top.point(1)}
    return corners


def _ends_at(piece: Lay, is_lower: bool) -> dict[str, Point]:
    """The leftmost and the rightmost corner at the lower or the upper end of the piece."""
    heights = [y for _, y in piece.outline]
    level = max(heights) if is_lower else min(heights)
    points = [point for point in piece.outline if abs(point[1] - level) < LEVEL_CM]
    return {"left": min(points), "right": max(points)}


def _ends_of(name: str, corners: dict[str, Point]) -> tuple[Point | None, Point | None]:
    """Where an edge begins and ends, walked counter-clockwise."""
    has_underarm, has_neck = "under left" in corners, "neck left" in corners
    sides = ("under right", "under left") if has_underarm else ("upper right", "upper left")
    known = {
        "lower edge": ("lower left", "lower right"),
        "right edge": ("lower right", sides[0]),
        "left edge": (sides[1], "lower left"),
    }
    if has_underarm:
        known |= {"right armhole": ("under right", "upper right"), "left armhole": ("upper left", "under left")}
        known |= {} if has_neck else {"cap": ("under right", "under left")}
    if has_neck:
        known |= {"right shoulder": ("upper right", "neck right"), "left shoulder": ("neck left", "upper left")}
        known |= {"neck": ("neck right", "neck left")}
    else:
        known |= {"upper edge": ("upper right", "upper left")}
    start, end = known.get(name, ("", ""))
    return corners.get(start), corners.get(end)


def cut_ring(ring: Path, start: Point, end: Point) -> Path:
    """The stretch of a closed outline from the place nearest to one point, onwards to that nearest to another."""
    first, last = _project(ring, start), _project(ring, end)
    count = len(ring)
    if last < first:
        last += count
    inner = [ring[index % count] for index in range(math.floor(first) + 1, math.ceil(last))]
    path = [_point_at(ring, first), *inner, _point_at(ring, last)]
    return tuple(point for at, point in enumerate(path) if at == 0 or math.dist(point, path[at - 1]) > 1e-9)


def _project(ring: Path, point: Point) -> float:
    """The place of the ring nearest to the point, as the number of a corner and the share of the way to the next."""
    best, found = math.inf, 0.0
    for index, ((x, y), (x2, y2)) in enumerate(pairwise((*ring, ring[0]))):
        length = (x2 - x) ** 2 + (y2 - y) ** 2
        share = 0.0 if length == 0 else ((point[0] - x) * (x2 - x) + (point[1] - y) * (y2 - y)) / length
        share = min(1.0, max(0.0, share))
        off = math.dist(point, (x + (x2 - x) * share, y + (y2 - y) * share))
        if off < best - 1e-9:
            best, found = off, index + share
    return found % len(ring)


def _point_at(ring: Path, place: float) -> Point:
    index = math.floor(place)
    (x, y), (x2, y2) = ring[index % len(ring)], ring[(index + 1) % len(ring)]
    return x + (x2 - x) * (place - index), y + (y2 - y) * (place - index)


def _length(path: Sequence[Point]) -> float:
    return sum(math.dist(one, other) for one, other in pairwise(path))


def trace_fold(piece: Lay, outline: Sequence[Point], fold: Fold) -> list[Path]:
    """Where the fold crosses the piece: along the middle, across it, or at the upper edge of a row."""
    left, top, right, bottom = piece.own_box
    if fold.way == LENGTHWISE:
        middle = (left + right) / 2
        return [((middle, a), (middle, b)) for a, b in _cross(outline, middle, axis=0)]
    level = (top + bottom) / 2
    if fold.way == AT_ROW:
        if not fold.row < len(piece.bands) or piece.bands[fold.row - 1].top.closed:
            return []
        level = piece.bands[fold.row - 1].top.point(0)[1]
    return [((a, level), (b, level)) for a, b in _cross(outline, level, axis=1)]


def _cross(outline: Sequence[Point], at: float, axis: int) -> list[tuple[float, float]]:
    """The stretches that lie inside, of the upright (axis 0) or level (axis 1) line at a place."""
    meets = []
    for one, other in pairwise((*outline, outline[0])):
        low, high = one[axis], other[axis]
        if (low <= at) != (high <= at):
            share = (at - low) / (high - low)
            meets.append(one[1 - axis] + (other[1 - axis] - one[1 - axis]) * share)
    meets.sort()
    return list(zip(meets[::2], meets[1::2], strict=False))
