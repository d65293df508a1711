"""Stairs become slants, and steps that are meant stay."""

from itertools import pairwise
from pathlib import Path

import pytest

from booklet.drawings.lay import straighten
from booklet.drawings.pieces import lay_pieces
from booklet.drawings.plan import Point
from booklet.drawings.stairs import smooth_piece, smooth_stairs
from booklet.pipeline import prove_file

from .conftest import make_pattern, make_shaped, make_worked

CONTENT = Path(__file__).parents[2] / "content"


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


def test_rows_of_a_smooth_piece_fill_its_outline() -> None:
    """A shawl that grows by whole stitches: its rows are as high as before, and lie between its straight sides."""
    (piece,) = lay_pieces(make_pattern().pattern, make_worked(make_shaped(3, 201, 30, "Shawl")), 0)
    smooth_one = smooth_piece(piece)
    assert len(smooth_one.outline) < len(piece.outline)
    for before, after in zip(piece.bands, smooth_one.bands, strict=True):
        assert after.row is before.row
        assert [edge.point(0)[1] for edge in (after.base, after.top)] == [
            edge.point(0)[1] for edge in (before.base, before.top)
        ]
    for below, above in pairwise(smooth_one.bands):
        assert above.base.point(0)[0] == pytest.approx(below.top.point(0)[0], abs=0.01)
        assert above.base.point(1)[0] == pytest.approx(below.top.point(1)[0], abs=0.01)


def test_steps_that_are_meant_stay_in_a_smooth_piece() -> None:
    proof = prove_file(str(CONTENT / "millpond-tee"))
    assert proof.pattern is not None
    assert proof.worked is not None
    sleeve = next(piece for piece in lay_pieces(proof.pattern, proof.worked, 8) if piece.title == "Sleeve")
    widths = [band.top.point(1)[0] - band.top.point(0)[0] for band in smooth_piece(sleeve).bands]
    falls = [before - after for before, after in pairwise(widths)]
    assert max(falls) > 10 * sleeve.stitch_cm  # the stitches left at both underarms, in one row
