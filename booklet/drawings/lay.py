"""A worked piece laid flat: every row in its place in centimetres, for all drawings alike.

Widths follow the stitches that each row made, heights the row gauge, and each row sits where the
stitches that it was worked into are. Pieces in the round are laid as a maker lays them on a table:
a tube or hat pressed flat, half its circumference wide; a motif seen from above.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from itertools import pairwise
from statistics import median

from booklet.amounts.gauges import count_width, find_gauge, is_row, measure_rows, measure_stitches
from booklet.amounts.measures import fits_below
from booklet.amounts.openings import find_breaks
from booklet.amounts.openings import find_sides as find_row_sides
from booklet.drawings.cells import Run, along_edge, clip_runs, cut_runs, find_runs, join_letters, middle, place_sites
from booklet.drawings.edges import HAIR, Edge, Split, Straight, trace_edge
from booklet.drawings.plan import Box, Point
from booklet.drawings.sides import find_sides, trace_sides
from booklet.model.pattern import Pattern
from booklet.model.work import Fabric, WorkedPart, WorkedRow

# A stitch's usual height in stitch widths, for fabric whose row gauge is not given
# (common practice: chains that stand for the stitch; 2 pi / increases of a flat circle).
USUAL_HEIGHT = {"sl st": 0.4, "ch": 0.9, "sc": 0.95, "hdc": 1.27, "dc": 1.9, "tr": 2.6, "dtr": 3.2, "trtr": 3.8}
USUAL_WIDTH_CM = 0.6
STEP_STITCHES = 1.6  # an edge that moves further in one row is a step, not a slant


@dataclass(frozen=True, slots=True)
class Band:
    """One row in place, between the edge it is worked on and the edge it leaves.

    `direction` is +1 where the row was worked along the edges, -1 against them. `seen` are the
    shares of the row that show: all of a flat row, the front half of a round pressed flat. `shown` are the colours
    that are seen in each place, from left to right, where they are not those that the row is worked in: in mosaic.
    """

    row: WorkedRow
    base: Edge
    top: Edge
    direction: int
    seen: tuple[float, float] = (0.0, 1.0)
    shown: tuple[str, ...] = ()

    def all_runs(self) -> tuple[Run, ...]:
        """The colours that are seen along the whole row, from left to right."""
        return join_letters(self.shown) if self.shown else find_runs(self.row.fabric, self.direction)

    def runs(self) -> tuple[Run, ...]:
        """The colours that show, from left to right."""
        runs = clip_runs(self.all_runs(), *self.seen)
        return cut_runs(runs, self.top.bends()) if isinstance(self.top, Split) else runs


@dataclass(frozen=True, slots=True)
class Lay:
    """A piece laid flat. `shape` is flat, tube, dome (closed at one end or both), circle or a number
    of equal sides ("square" …). `start` says in words where the work begins. `parts` are the titles
    of the pattern's parts in it: its own, and that of a border worked round it. `across` are rows that lie
    sideways: a band under the first row, or rows along the sides.

    `is_to_scale` is False where a gauge is missing and usual proportions stand in for it.
    """

    title: str
    parts: tuple[str, ...]
    make: int
    shape: str
    bands: tuple[Band, ...]
    border: tuple[Band, ...]
    outline: tuple[Point, ...]
    box: Box
    own_box: Box
    start: str
    goes_up: bool
    stitch_cm: float
    is_to_scale: bool
    across: tuple[Band, ...] = ()

    @property
    def width(self) -> float:
        return self.box[2] - self.box[0]

    @property
    def height(self) -> float:
        return self.box[3] - self.box[1]

    @property
    def all_bands(self) -> tuple[Band, ...]:
        return self.across + self.bands + self.border


@dataclass(frozen=True, slots=True)
class Sizing:
    """How large stitches are, by the pattern's gauges."""

    pattern: Pattern
    part: WorkedPart

    def stitch_cm(self, row: WorkedRow) -> float:
        gauge = find_gauge(self.pattern, self.part, row)
        return measure_stitches(1, gauge).cm if gauge else USUAL_WIDTH_CM

    def row_cm(self, row: WorkedRow) -> float:
        gauge = find_gauge(self.pattern, self.part, row)
        height = measure_rows(1, gauge) if gauge else None
        return height.cm if height else self.stitch_cm(row) * usual_height(row)

    def knows(self, row: WorkedRow) -> bool:
        gauge = find_gauge(self.pattern, self.part, row)
        return gauge is not None and bool(gauge.rows)

    def find_sides(self, rows: Sequence[WorkedRow]) -> tuple[int, int] | None:
        """Where two sides that are worked one after the other begin, among rows that take up room."""
        ids = [id(row) for row in rows]
        full = next((full for full in self.part.rows if [id(row) for row in full if takes_room(row)] == ids), ())
        sides = find_row_sides(full)
        if sides is None:
            return None
        start, second = (sum(takes_room(row) for row in full[:at]) for at in sides)
        return start, second

    def widths_cm(self, rows: Sequence[WorkedRow]) -> list[float]:
        """How wide each row lies. A row of loops longer than what they pass over lies as the row below."""
        widths: list[float] = []
        below = 0
        for row in rows:
            count = count_width(row.fabric)
            is_sure = not widths or count == below or fits_below(row.fabric)
            widths.append(count * self.stitch_cm(row) if is_sure else widths[-1])
            below = count
        return widths


def basic_kind(kind: str) -> str:
    """The plain stitch in a name: "dc" of FPdc, dc3tog or fdc; "" where there is none."""
    for plain in ("trtr", "dtr", "hdc", "sl st", "dc", "tr", "sc"):
        if plain in kind:
            return plain
    return "ch" if kind == "ch" else ""


def usual_height(row: WorkedRow) -> float:
    """Usual height of the row in stitch widths: that of its tallest stitch that is not rare."""
    counts = row.fabric.counts
    total = sum(counts.values())
    common = [USUAL_HEIGHT.get(basic_kind(kind), 1.3) for kind, n in counts.items() if n * 8 >= total]
    return max(common, default=0.95)


def list_rows(part: WorkedPart, size: int) -> list[WorkedRow]:
    """The rows of a piece that take up room: not the foundation chain, nor rows without stitches."""
    return [row for row in part.rows[size] if takes_room(row)]


def takes_room(row: WorkedRow) -> bool:
    return is_row(row) and count_width(row.fabric) > 0


def find_directions(rows: list[WorkedRow]) -> list[int]:
    """For every row +1 where it was worked from left to right, seen from the right side, else -1.

    A right-handed maker works right-side rows from right to left. The stitches tell which way a row
    goes over the one below; where they do not, its turn does.
    """
    relative = [1]
    for below, row in pairwise(rows):
        relative.append(relative[-1] * _same_way(below, row))
    sign = -1
    for row, way in zip(rows, relative, strict=True):
        if row.side in ("RS", "WS"):
            sign = -way if row.side == "RS" else way
            break
    directions = [sign * way for way in relative]
    for at, row in enumerate(rows):  # a second side begins anew, so its own side of the fabric tells
        if row.over is not None and row.side in ("RS", "WS") and directions[at] != (-1 if row.side == "RS" else 1):
            directions[at:] = [-way for way in directions[at:]]
    return directions


def _same_way(below: WorkedRow, row: WorkedRow) -> int:
    """+1 where the row goes on the way of the one below, -1 where it goes back."""
    firsts = [stitch.into[0] for stitch in row.fabric.stitches if stitch.into]
    if len(firsts) >= 2 and firsts[0] != firsts[-1] and row.kind == "row":
        return 1 if firsts[-1] > firsts[0] else -1
    return -1 if row.turned else 1


def lay_rows(rows: list[WorkedRow], sizing: Sizing) -> tuple[Band, ...]:
    """Flat rows one above the other, the first at the bottom."""
    bands: list[Band] = []
    widths = sizing.widths_cm(rows)
    base: Straight | Split
    below: Straight | Split | None = None
    y = 0.0
    breaks = find_breaks(rows)
    second = sizing.find_sides(rows)
    for index, (row, direction) in enumerate(zip(rows, find_directions(rows), strict=True)):
        stitch = sizing.stitch_cm(row)
        if second is not None and index == second[1]:
            base, below = lay_second_side(bands[second[0] - 1], bands[second[0]], row, stitch, sizing.row_cm(row))
            y = below.y
            bands.append(Band(row, base, below, direction))
            continue
        at = breaks[index]
        sides = lay_sides(bands[-1], row, direction, at, stitch, y - sizing.row_cm(row)) if bands and at else None
        if sides:
            base, below = sides
            y -= sizing.row_cm(row)
            bands.append(Band(row, base, below, direction))
            continue
        if below is None:
            left = 0.0
            base = Straight(left, left + widths[index], y)
        else:
            under = bands[-1]
            left = below.left + _shift(under, row, direction, widths[index - 1], widths[index], stitch)
            right = left + widths[index]
            base = Straight(
                below.left if abs(below.left - left) <= STEP_STITCHES * stitch else left,
                below.right if abs(below.right - right) <= STEP_STITCHES * stitch else right,
                y,
            )
        y -= sizing.row_cm(row)
        below = Straight(left, left + widths[index], y)
        bands.append(Band(row, base, below, direction))
    return tuple(bands)


def lay_second_side(
    under: Band, first: Band, row: WorkedRow, stitch_cm: float, row_cm: float
) -> tuple[Straight, Straight]:
    """The edges of the row that begins a second side, at the end of the row below that the first side left."""
    (left, y), (right, _) = under.top.point(0), under.top.point(1)
    base, top = row.used * stitch_cm, count_width(row.fabric) * stitch_cm
    if first.base.point(0)[0] - left <= right - first.base.point(1)[0]:
        return Straight(right - base, right, y), Straight(right - top, right, y - row_cm)
    return Straight(left, left + base, y), Straight(left, left + top, y - row_cm)


def lay_sides(under: Band, row: WorkedRow, way: int, at: int, stitch_cm: float, y: float) -> tuple[Split, Split] | None:
    """The edges of a row that is worked on both sides of an opening; `at` is the site where its second side begins.

    The outer end of each side lies over the outer stitch that it is worked into. None where a side stands on nothing.
    """
    places_below, places = place_sites(under.row.fabric), place_sites(row.fabric)
    hair = HAIR if isinstance(under.top, Split) else 0.0
    width = count_width(row.fabric) * stitch_cm
    ends: list[tuple[float, float, float]] = []  # of each side: where it stands, from left to right, and its length
    for first, second in ((0, at), (at, len(places))):
        feet = [
            along_edge(share, under.direction)
            for stitch in row.fabric.stitches
            if first <= stitch.top < second
            for index in stitch.into
            if 0 <= index < len(places_below)
            for share in places_below[index]
        ]
        if not feet:
            return None
        length = sum(end - start for start, end in places[first:second]) * width
        ends.append((under.top.point(min(feet) + hair)[0], under.top.point(max(feet) - hair)[0], length))
    (left, inner_left, left_length), (inner_right, right, right_length) = ends if way > 0 else reversed(ends)
    if not left < left + left_length < right - right_length < right:
        return None
    base_y = under.top.point(0)[1]
    base = Split((Straight(left, inner_left, base_y), Straight(inner_right, right, base_y)))
    top = Split((Straight(left, left + left_length, y), Straight(right - right_length, right, y)))
    return base, top


def _shift(under: Band, row: WorkedRow, way: int, width_below: float, width: float, stitch_cm: float) -> float:
    """How far the row's left end lies to the right of the left end of the row below, in cm."""
    centred = (width_below - width) / 2
    shift = _shift_of(under.row.fabric, row.fabric, under.direction, way, width_below, width)
    if shift is None:
        return centred
    # half a stitch to a side is one stitch made or left at that edge, unless the widths are the same
    slack = 0.6 if abs(width_below - width) < 0.5 * stitch_cm else 0.3
    return centred if abs(shift - centred) <= slack * stitch_cm else shift


@lru_cache(maxsize=4096)  # equal rows share their fabric
def _shift_of(
    below: Fabric, fabric: Fabric, way_below: int, way: int, width_below: float, width: float
) -> float | None:
    """The shift by where the stitches are worked; None where none is worked into the row below."""
    places_below, places = place_sites(below), place_sites(fabric)
    offsets = []
    for stitch in fabric.stitches:
        foot, head = middle(places_below, stitch.into), middle(places, (stitch.top,))
        if foot is not None and head is not None:
            offsets.append(along_edge(foot, way_below) * width_below - along_edge(head, way) * width)
    return median(offsets) if offsets else None


def outline_bands(bands: tuple[Band, ...]) -> tuple[Point, ...]:
    """The outside of bands that lie one above the other, or of the outermost one that closes."""
    last = bands[-1].top
    if last.closed:
        ring = trace_edge(last)[:-1]
        return ring[1:] if len(ring) > 2 and _in_line(ring[-1], ring[0], ring[1]) else ring
    sides = find_sides(bands)
    if sides:
        return _without_repeats(trace_sides(bands, sides))
    right = [point for band in bands for point in (band.base.point(1), band.top.point(1))]
    left = [point for band in reversed(bands) for point in (band.top.point(0), band.base.point(0))]
    points = [*trace_edge(bands[0].base), *right, *reversed(trace_edge(last)), *left]
    return _without_repeats(points)


def straighten(points: tuple[Point, ...], slack: float) -> tuple[Point, ...]:
    """The outline with the corners that matter: none left out lies further than `slack` from what is left.

    Stitches made or left one at a time step an edge that a maker sees as a slant (Douglas and Peucker's way).
    """
    if len(points) < 4:
        return points
    far = max(range(len(points)), key=lambda index: math.dist(points[0], points[index]))
    there = _straighten_path([*points[: far + 1]], slack)
    back = _straighten_path([*points[far:], points[0]], slack)
    return tuple(there[:-1] + back[:-1])


def _straighten_path(path: list[Point], slack: float) -> list[Point]:
    kept, waiting = {0, len(path) - 1}, [(0, len(path) - 1)]
    while waiting:
        first, last = waiting.pop()
        if last - first < 2:
            continue
        far = max(range(first + 1, last), key=lambda index: _off_line(path[index], path[first], path[last]))
        if _off_line(path[far], path[first], path[last]) > slack:
            kept.add(far)
            waiting += [(first, far), (far, last)]
    return [path[index] for index in sorted(kept)]


def _off_line(point: Point, start: Point, end: Point) -> float:
    """How far a point lies from the line through two others."""
    length = math.dist(start, end)
    if length == 0:
        return math.dist(point, start)
    cross = (end[0] - start[0]) * (point[1] - start[1]) - (end[1] - start[1]) * (point[0] - start[0])
    return abs(cross) / length


def _without_repeats(points: list[Point]) -> tuple[Point, ...]:
    """The corners only: repeated points and points in the middle of a straight side left out."""
    kept: list[Point] = []
    for point in points:
        if kept and abs(point[0] - kept[-1][0]) + abs(point[1] - kept[-1][1]) < 1e-6:
            continue
        while len(kept) >= 2 and _in_line(kept[-2], kept[-1], point):
            kept.pop()
        kept.append(point)
    if len(kept) > 1 and abs(kept[0][0] - kept[-1][0]) + abs(kept[0][1] - kept[-1][1]) < 1e-6:
        kept.pop()
    return tuple(kept)


def _in_line(first: Point, second: Point, third: Point) -> bool:
    ahead = (second[0] - first[0], second[1] - first[1])
    onward = (third[0] - second[0], third[1] - second[1])
    cross = ahead[0] * onward[1] - ahead[1] * onward[0]
    return abs(cross) < 1e-7 and ahead[0] * onward[0] + ahead[1] * onward[1] > 0
