"""The shape that rounds take, and places along it, told by their share of the round.

Shares run counter-clockwise from below, 0 to 1; with its distance from the centre a share is a place.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from booklet.drawings.chart_glyphs import Glyph
from booklet.drawings.chart_marks import CHAIN, ChartRow
from booklet.drawings.chart_spread import spread
from booklet.drawings.plan import Point

Polar = tuple[float, float]  # share of the round, distance from the centre


@dataclass(frozen=True, slots=True)
class RingShape:
    """A circle, a shape of equal sides with corners at `turn` + k / sides of the round, or an oval.

    An oval is all that lies as far from a level axis through the centre, `half` to either side of it.
    """

    sides: int = 0
    turn: float = 0.0
    half: float = 0.0

    def around(self, radius: float) -> float:
        """Length of the edge at a distance from the centre."""
        if self.sides:
            return 2 * self.sides * radius * math.tan(math.pi / self.sides)
        return math.tau * radius + 4 * self.half

    def point(self, share: float, radius: float) -> Point:
        """Where a share of the round lies; y upwards, the first share below the centre."""
        if self.half:
            return self._oval_point(share, radius)
        if not self.sides:
            angle = math.tau * share - math.pi / 2
            return radius * math.cos(angle), radius * math.sin(angle)
        place = (share - self.turn) * self.sides
        side = math.floor(place)
        along = (2 * (place - side) - 1) * radius * math.tan(math.pi / self.sides)
        middle = math.tau * (self.turn + (side + 0.5) / self.sides) - math.pi / 2
        out, across = (math.cos(middle), math.sin(middle)), (-math.sin(middle), math.cos(middle))
        return radius * out[0] + along * across[0], radius * out[1] + along * across[1]

    def lift(self, share: float, inner: float, outer: float) -> float:
        """The share at `outer` that lies straight outside a share at `inner`; a corner stays a corner."""
        if self.half:
            part, along = self._oval_part(share, inner)
            ends = self._oval_ends(outer)
            return (ends[part] + (ends[part + 1] - ends[part]) * along) / self.around(outer)
        if not self.sides:
            return share
        place = (share - self.turn) * self.sides
        side = math.floor(place)
        at = 2 * (place - side) - 1
        low, high = (radius * math.tan(math.pi / self.sides) for radius in (inner, outer))
        along = at * low + math.copysign((high - low) * abs(at) ** 5, at)
        return self.turn + (side + (along / high + 1) / 2) / self.sides

    def outward(self, point: Point) -> tuple[Point, float]:
        """The unit vector from the centre, or the axis of an oval, to a point, and how far that lies from it."""
        x, y = point[0] - max(-self.half, min(self.half, point[0])), point[1]
        length = math.hypot(x, y)
        return ((x / length, y / length), length) if length > 1e-9 else ((0.0, 1.0), 0.0)

    def _oval_ends(self, radius: float) -> list[float]:
        """Where along the edge, from the middle below, its five parts begin and end: straight, round, straight …"""
        bend = math.pi * radius
        lengths = (self.half, bend, 2 * self.half, bend, self.half)
        ends = [0.0]
        for length in lengths:
            ends.append(ends[-1] + length)
        return ends

    def _oval_part(self, share: float, radius: float) -> tuple[int, float]:
        """The part of the edge that a share lies on, and how far along it, 0 to 1."""
        ends = self._oval_ends(radius)
        place = share % 1 * ends[-1]
        part = next((at for at in range(4) if place < ends[at + 1]), 4)
        return part, (place - ends[part]) / ((ends[part + 1] - ends[part]) or 1.0)

    def _oval_point(self, share: float, radius: float) -> Point:
        part, along = self._oval_part(share, radius)
        if part in (1, 3):
            angle = math.pi * along + (-math.pi / 2 if part == 1 else math.pi / 2)
            side = self.half if part == 1 else -self.half
            return side + radius * math.cos(angle), radius * math.sin(angle)
        x = {0: along, 2: 1 - 2 * along, 4: along - 1}[part] * self.half
        return x, radius if part == 2 else -radius

    def share_at(self, x: float, angle: float, radius: float) -> float:
        """The share of an oval's edge over a place on its axis; beyond its ends at an angle from the right."""
        ends = self._oval_ends(radius)
        if abs(x) < self.half - 1e-9:
            place = ends[2] + self.half - x if math.sin(angle) > 0 else (x if x > 0 else ends[5] + x)
        elif x > 0:
            place = ends[1] + radius * (angle + math.pi / 2)
        else:
            place = ends[3] + radius * (angle - math.pi / 2)
        return place / ends[-1]


@dataclass(frozen=True, slots=True)
class LaidRound:
    """A round in place; `label` is where its number goes."""

    row: ChartRow
    sites: tuple[Polar, ...]
    radius: float
    label: Point
    sides: int
    reach: float  # distance of the outermost symbol
    seam: Polar | None = None  # middle of the room between last and first stitch, and half of it, as shares


def find_corners(row: ChartRow) -> list[int]:
    """Where in the row's marks the chains of its corners are: chains between stitches that go into one place."""
    marks = row.marks
    standing = [at for at, mark in enumerate(marks) if mark.is_column]
    corners = []
    for at, mark in enumerate(marks):
        if mark.role != CHAIN or not standing:
            continue
        before = [other for other in standing if other < at]
        after = [other for other in standing if other > at]
        first, second = marks[before[-1] if before else standing[-1]], marks[after[0] if after else standing[0]]
        if first.feet == second.feet and first is not second:
            corners.append(at)
    return corners


def along_run(run: Sequence[Polar], share: float) -> Polar:
    """The place on a run of chains at a share of the round."""
    for (first, low), (second, high) in pairwise(run):
        if share <= second or second == run[-1][0]:
            at = max(0.0, min(1.0, (share - first) / ((second - first) or 1.0)))
            return first + (second - first) * at, low + (high - low) * at
    return run[0]


def space_evenly(wishes: Sequence[float | None], gaps: Sequence[float]) -> list[float]:
    """Columns evenly round by their room, turned as near to their wishes as they go."""
    total = sum(gaps)
    places = [0.0]
    for gap in gaps[:-1]:
        places.append(places[-1] + gap / total)
    off = [wish - place for wish, place in zip(wishes, places, strict=True) if wish is not None]
    if not off:
        turn = 0.5 * gaps[-1] / total
    else:
        turn = math.atan2(sum(math.sin(math.tau * x) for x in off), sum(math.cos(math.tau * x) for x in off)) / math.tau
    return [place + turn for place in places]


def spread_round(wishes: Sequence[float], gaps: Sequence[float]) -> list[float]:
    """Columns moved apart where they would touch, cut open where there is most room."""
    count = len(wishes)
    if count < 2:
        return list(wishes)
    following = [*wishes[1:], wishes[0] + 1]
    slack = [after - wish - gap for wish, after, gap in zip(wishes, following, gaps, strict=True)]
    cut = max(range(count), key=lambda index: slack[index]) + 1
    order = [*range(cut, count), *range(cut)] if cut < count else list(range(count))
    opened = [wishes[index] + (1 if index < order[0] else 0) for index in order]
    placed = spread(opened, [gaps[index] for index in order[:-1]])
    if placed[-1] + gaps[order[-1]] > placed[0] + 1 + 1e-9:
        return space_evenly(wishes, gaps)
    shares = [0.0] * count
    for index, share in zip(order, placed, strict=True):
        shares[index] = share - (1 if index < order[0] else 0)
    return shares


def upright_angle(shape: RingShape, seam: Point) -> float:
    """The angle that puts the middle of a side below, of all sides the one with the seam."""
    if not shape.sides:
        return 0.0
    level = -math.tau * (shape.turn + 0.5 / shape.sides)
    off = (-math.pi / 2 - math.atan2(seam[1], seam[0]) - level) / math.tau * shape.sides
    return level + round(off) * math.tau / shape.sides


def turn_point(point: Point, angle: float) -> Point:
    x, y = point
    return x * math.cos(angle) - y * math.sin(angle), x * math.sin(angle) + y * math.cos(angle)


def turn_round(laid: LaidRound, angle: float) -> LaidRound:
    return LaidRound(
        laid.row, laid.sites, laid.radius, turn_point(laid.label, angle), laid.sides, laid.reach, laid.seam
    )


def turn_glyph(glyph: Glyph, angle: float) -> Glyph:
    feet = tuple(turn_point(foot, angle) for foot in glyph.feet)
    deep = turn_point(glyph.deep, angle) if glyph.deep else None
    return replace(glyph, feet=feet, head=turn_point(glyph.head, angle), deep=deep)
