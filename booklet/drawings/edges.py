"""The edges along which rows lie, in centimetres: straight, sagging over a crown, round, or a frame.

Every edge answers the same question: where is the point that is the share `u` (0 to 1) of the way
along it, counted from the left as seen from the right side, or in working order where it closes?
"""

import math
from dataclasses import dataclass
from typing import Protocol

from booklet.drawings.plan import Point


class Edge(Protocol):
    """A line along which stitches sit. `easy` is a share of a closed one that a line from the right reaches."""

    @property
    def closed(self) -> bool: ...

    @property
    def easy(self) -> float: ...

    def point(self, u: float) -> Point: ...

    def corners(self, start: float, end: float) -> tuple[float, ...]:
        """The shares between which the edge is straight, from `start` to `end`, both included."""
        ...


def _steps(start: float, end: float, count: int) -> tuple[float, ...]:
    """Shares from `start` to `end`, as if the whole edge had `count` equal sides."""
    inner = range(math.floor(start * count) + 1, math.ceil(end * count))
    return (start, *(step / count for step in inner), end)


@dataclass(frozen=True, slots=True)
class Straight:
    """From `left` to `right` at height `y`, hanging lower by `sag` in the middle."""

    left: float
    right: float
    y: float
    sag: float = 0.0

    closed = False
    easy = 1.0

    def point(self, u: float) -> Point:
        return self.left + (self.right - self.left) * u, self.y + self.sag * 4 * u * (1 - u)

    def corners(self, start: float, end: float) -> tuple[float, ...]:
        return (start, end) if self.sag == 0 else _steps(start, end, 24)


@dataclass(frozen=True, slots=True)
class Upright:
    """From `top` to `bottom` at `x`: a row that lies sideways, its right side up as a row turned clockwise shows it."""

    x: float
    top: float
    bottom: float

    closed = False
    easy = 1.0

    def point(self, u: float) -> Point:
        return self.x, self.top + (self.bottom - self.top) * u

    def corners(self, start: float, end: float) -> tuple[float, ...]:
        return start, end


HAIR = 1e-9  # a share this far behind the end of one side is on the next


@dataclass(frozen=True, slots=True)
class Split:
    """Straight edges side by side at one height, with an opening between; shares count along the sides alone."""

    sides: tuple[Straight, ...]

    closed = False
    easy = 1.0

    @property
    def left(self) -> float:
        return self.sides[0].left

    @property
    def right(self) -> float:
        return self.sides[-1].right

    @property
    def width(self) -> float:
        return sum(side.right - side.left for side in self.sides)

    def bends(self) -> tuple[float, ...]:
        """The shares at which one side ends and the next begins."""
        ends, along = [], 0.0
        for side in self.sides[:-1]:
            along += side.right - side.left
            ends.append(along / self.width)
        return tuple(ends)

    def point(self, u: float) -> Point:
        along = u * self.width
        for side in self.sides[:-1]:
            length = side.right - side.left
            if along <= length:
                return side.point(along / length if length else 0.0)
            along -= length
        last = self.sides[-1]
        length = last.right - last.left
        return last.point(min(1.0, along / length) if length else 0.0)

    def corners(self, start: float, end: float) -> tuple[float, ...]:
        inner = [share for bend in self.bends() if start < bend < end for share in (bend - HAIR, bend + HAIR)]
        return (start + HAIR if start in self.bends() else start, *inner, end)


@dataclass(frozen=True, slots=True)
class Ring:
    """A circle, or a regular shape of `sides` sides with one of them below.

    `radius` is the distance from the centre to the middle of a side; `turn` is the share of the
    round where a corner lies. A circle begins below. Rounds run counter-clockwise, as a
    right-handed maker sees them from the right side.
    """

    centre: Point
    radius: float
    sides: int = 0
    turn: float = 0.0

    closed = True

    @property
    def easy(self) -> float:
        """On one ray for all rings of a piece, up to the right, so that lines to them do not cross."""
        return (0.35 - (0.5 / self.sides - self.turn if self.sides else 0.0)) % 1

    def point(self, u: float) -> Point:
        angle, reach = math.tau * u, self.radius
        if self.sides:
            side = math.tau / self.sides
            angle += side / 2 - math.tau * self.turn
            reach = self.radius / math.cos((angle - side / 2) % side - side / 2)
        return self.centre[0] + reach * math.sin(angle), self.centre[1] + reach * math.cos(angle)

    def corners(self, start: float, end: float) -> tuple[float, ...]:
        if not self.sides:
            return _steps(start, end, 120)
        bends = [(self.turn + step / self.sides) % 1 for step in range(self.sides)]
        return (start, *sorted(bend for bend in bends if start < bend < end), end)


@dataclass(frozen=True, slots=True)
class Frame:
    """The outside of a rectangle, counter-clockwise from its lower left corner."""

    left: float
    top: float
    right: float
    bottom: float

    closed = True

    @property
    def easy(self) -> float:
        first, second, _, _ = self._bends()
        return (first + second) / 2

    def _bends(self) -> tuple[float, float, float, float]:
        width, height = self.right - self.left, self.bottom - self.top
        around = 2 * (width + height)
        return width / around, (width + height) / around, (2 * width + height) / around, 1.0

    def point(self, u: float) -> Point:
        first, second, third, _ = self._bends()
        u = u % 1 if u != 1 else 1.0
        if u <= first:
            return self.left + (self.right - self.left) * u / first, self.bottom
        if u <= second:
            return self.right, self.bottom - (self.bottom - self.top) * (u - first) / (second - first)
        if u <= third:
            return self.right - (self.right - self.left) * (u - second) / (third - second), self.top
        return self.left, self.top + (self.bottom - self.top) * (u - third) / (1 - third)

    def corners(self, start: float, end: float) -> tuple[float, ...]:
        return (start, *(bend for bend in self._bends() if start < bend < end), end)


def trace_edge(edge: Edge, start: float = 0.0, end: float = 1.0) -> tuple[Point, ...]:
    """Points that draw the edge from share `start` to share `end`."""
    return tuple(edge.point(u) for u in edge.corners(start, end))
