"""Stairs become slants, and steps that are meant stay."""

import pytest

from booklet.drawings.lay import straighten
from booklet.drawings.plan import Point
from booklet.drawings.stairs import smooth_stairs


def climb(start: Point, steps: list[tuple[float, float]]) -> list[Point]:
    """Up and then across, step by step."""
    x, y = start
    points = [start]
    for across, up in steps:
        points += [(x, y - up), (x + across, y - up)]
        x, y = x + across, y - up
    return points


def smooth(points: list[Point]) -> tuple[Point, ...]:
    return straighten(smooth_stairs(points), 0.1)


def test_a_triangle_from_a_corner_has_straight_edges() -> None:
    right = climb((2.0, 0.0), [(1.0, 1.0), (1.0, 1.0), (2.0, 2.0), (2.0, 2.0)] * 6)
    top_x, top_y = right[-1]
    left = [(1.0 - x + 2.0, y) for x, y in reversed(right)]
    shape = [*right, *left]
    assert smooth(shape)[0] == right[0]
    assert len(smooth(shape)) <= 6
    assert max(x for x, _ in smooth(shape)) == top_x
    assert min(y for _, y in smooth(shape)) == top_y


def test_the_edges_at_top_and_bottom_keep_their_width() -> None:
    right = climb((1.2, 0.0), [(1.0, 1.0)] * 10)
    shape = [(0.0, 0.0), *right, (0.0, right[-1][1])]
    smoothed = smooth_stairs(shape)
    assert {(0.0, 0.0), (1.2, 0.0), (0.0, right[-1][1])} <= set(smoothed)
    assert len(smoothed) == 5  # the last step, which lies at the top, stays level


@pytest.mark.parametrize(
    "steps",
    [
        [(1.0, 1.0)] * 3,  # too few
        [(1.0, 4.0), (4.0, 1.0), (1.0, 4.0), (4.0, 1.0), (1.0, 4.0)],  # unlike
        [(1.0, 1.0), (-1.0, 1.0)] * 4,  # to and fro
    ],
)
def test_other_steps_stay(steps: list[tuple[float, float]]) -> None:
    right = climb((20.0, 0.0), [*steps, (1.0, 9.0)])
    shape = [(0.0, 0.0), *right, (0.0, right[-1][1])]
    assert smooth_stairs(shape) == tuple(shape)


def test_an_edge_that_bends_keeps_its_bend() -> None:
    right = climb((20.0, 0.0), [(1.0, 2.0)] * 10 + [(2.0, 1.0)] * 10)
    shape = [(0.0, 0.0), *right, (0.0, right[-1][1])]
    bend = (30.0, -20.0)
    assert any(abs(x - bend[0]) < 1.5 and abs(y - bend[1]) < 1.5 for x, y in smooth_stairs(shape))
