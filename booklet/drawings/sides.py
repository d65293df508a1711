"""The two sides of an opening at the upper edge of a flat piece, such as the shoulders beside a neck.

Both worked at once, each row has two edges (`Split`); worked one after the other, the second side's first row
stands lower than the row before it. Either way the drawings see two towers on one body.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Protocol

from booklet.drawings.edges import Edge, Split, Straight
from booklet.drawings.plan import Point

LEVEL_CM = 1e-6


class Banded(Protocol):
    """A row in place, between the edge it is worked on and the edge it leaves."""

    @property
    def base(self) -> Edge: ...

    @property
    def top(self) -> Edge: ...


Tower = tuple[tuple[Straight, Straight], ...]  # of each row its lower and its upper edge, from below


@dataclass(frozen=True, slots=True)
class Sides:
    """How many bands lie below the opening, and the tower on its left and on its right."""

    body: int
    left: Tower
    right: Tower


def find_sides(bands: Sequence[Banded]) -> Sides | None:
    """The sides of the opening that the bands end with; None where they end in one edge."""
    if not bands or bands[0].base.closed:
        return None
    if isinstance(bands[-1].top, Split):
        return _pair_splits(bands)
    seconds = [at for at in range(1, len(bands)) if _height(bands[at].base) > _height(bands[at - 1].top) + LEVEL_CM]
    if len(seconds) != 1:
        return None
    second = seconds[0]
    foot = _height(bands[second].base)
    body = next((at for at in range(second) if abs(_height(bands[at].base) - foot) < LEVEL_CM), 0)
    towers = _stack(bands[body:second]), _stack(bands[second:])
    if not body or not all(towers):
        return None
    left, right = sorted(towers, key=lambda tower: tower[0][0].left)
    return Sides(body, left, right)


def _pair_splits(bands: Sequence[Banded]) -> Sides | None:
    left: list[tuple[Straight, Straight]] = []
    right: list[tuple[Straight, Straight]] = []
    for band in reversed(bands):
        if not (isinstance(band.base, Split) and isinstance(band.top, Split)):
            break
        left.insert(0, (band.base.sides[0], band.top.sides[0]))
        right.insert(0, (band.base.sides[-1], band.top.sides[-1]))
    body = len(bands) - len(left)
    return Sides(body, tuple(left), tuple(right)) if body and left else None


def _stack(bands: Sequence[Banded]) -> Tower:
    edges = [(band.base, band.top) for band in bands]
    return tuple((base, top) for base, top in edges if isinstance(base, Straight) and isinstance(top, Straight))


def _height(edge: Edge) -> float:
    return edge.point(0)[1]


def trace_sides(bands: Sequence[Banded], sides: Sides) -> list[Point]:
    """The outline of a piece with an opening: up on the right, down into the opening, up again, down on the left."""
    body = [(band.base, band.top) for band in bands[: sides.body]]
    right_edge = [edge.point(1) for row in (*body, *sides.right) for edge in row]
    down = [edge.point(0) for row in reversed(sides.right) for edge in reversed(row)]
    up = [edge.point(1) for row in sides.left for edge in row]
    left_edge = [edge.point(0) for row in reversed((*body, *sides.left)) for edge in reversed(row)]
    return [bands[0].base.point(0), *right_edge, *down, *up, *left_edge]
