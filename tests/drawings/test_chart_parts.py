"""The parts of stitch charts: moving apart, symbols, rings, measuring aids."""

import math
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from booklet.drawings.chart_glyphs import CHAIN_STEP, lay_chain
from booklet.drawings.chart_ring import RingShape, spread_round
from booklet.drawings.chart_spread import fill_gaps, spread
from booklet.drawings.measuring import list_hook_sizes, plan_hooks, plan_square
from booklet.drawings.picture import Ink
from booklet.drawings.plan import Area, Line, Polyline, Rect, bound_shapes
from booklet.drawings.symbols import Pen, draw_look, say_look

NUMBERS = st.floats(-50, 50, allow_nan=False)


@given(st.lists(NUMBERS, min_size=1, max_size=30))
def test_things_moved_apart_keep_their_order_and_their_middle(wanted: list[float]) -> None:
    placed = spread(wanted, [1.0] * (len(wanted) - 1))
    assert all(after - before >= 1.0 - 1e-6 for before, after in pairwise(placed))
    # least squares leaves the mean where it was
    assert sum(placed) == pytest.approx(sum(wanted), abs=1e-6)


def test_things_with_room_stay_where_they_are() -> None:
    assert spread([0.0, 2.0, 7.0], [1.0, 1.0]) == [0.0, 2.0, 7.0]
    assert spread([3.0, 3.0, 3.0], [1.0, 1.0]) == [2.0, 3.0, 4.0]


def test_wishes_that_are_not_known_lie_between_their_neighbours() -> None:
    assert fill_gaps([None, 1.0, None, 3.0, None]) == [0.0, 1.0, 2.0, 3.0, 4.0]
    assert fill_gaps([None, None], 2.0) == [0.0, 2.0]


def test_stitches_round_a_circle_keep_apart_over_the_seam() -> None:
    shares = spread_round([0.0, 0.01, 0.98, 0.99], [0.1] * 4)
    ordered = sorted(share % 1 for share in shares)
    assert min((after - before) % 1 for before, after in zip(ordered, [*ordered[1:], ordered[0]], strict=True)) > 0.0999


# Published descriptions (Craft Yarn Council, as secondary pages report them): a T for the half double, and
# one slash across the stem for every yarn over of the taller stitches.
@pytest.mark.parametrize(("look", "slashes"), [("hdc", 0), ("dc", 1), ("tr", 2), ("dtr", 3), ("trtr", 4)])
def test_one_slash_for_every_yarn_over(look: str, slashes: int) -> None:
    pen = Pen(0.1, "#000000")
    draw_look(look, [(0.0, 0.0)], (0.0, -3.0), 1.0, pen)
    lines = [stroke for stroke in pen.strokes if isinstance(stroke, Polyline)]
    upright = [line for line in lines if abs(line.points[0][0] - line.points[-1][0]) < 1e-9]
    level = [line for line in lines if abs(line.points[0][1] - line.points[-1][1]) < 1e-9]
    assert len(upright) == 1
    assert len(level) == 1
    assert len(lines) - 2 == slashes


def test_a_chain_is_an_open_oval_and_a_slip_stitch_a_filled_one() -> None:
    chain, slip = Pen(0.1, "#000000"), Pen(0.1, "#000000")
    draw_look("ch", [(0.0, 0.0)], (0.8, 0.0), 1.0, chain)
    draw_look("sl st", [(0.0, 0.0)], (0.0, -0.4), 1.0, slip)
    assert isinstance(chain.strokes[0], Polyline)
    assert chain.strokes[0].closed
    left, top, right, bottom = bound_shapes(chain.strokes)
    assert right - left > bottom - top
    assert [type(stroke) for stroke in slip.strokes] == [Area]


@pytest.mark.parametrize("number", [2, 3, 4])
def test_stitches_worked_together_lean_to_one_top(number: int) -> None:
    pen = Pen(0.1, "#000000")
    feet = [(float(at), 0.0) for at in range(number)]
    draw_look(f"dc{number}tog", feet, ((number - 1) / 2, -2.0), 1.0, pen)
    stems = [
        stroke for stroke in pen.strokes if isinstance(stroke, Polyline) and abs(stroke.points[-1][1] + 1.95) < 0.01
    ]
    tops = {stem.points[-1] for stem in stems if stem.points[0][1] > -1}
    assert len(tops) == 1
    assert len([stem for stem in stems if stem.points[0][1] > -1]) == number


def test_every_symbol_has_words_of_its_own() -> None:
    looks = ["ch", "sl st", "sc", "hdc", "dc", "tr", "dtr", "trtr", "rsc", "esc", "sc2tog", "dc3tog", "FPdc", "BPdc"]
    assert len({say_look(look) for look in looks}) == len(looks)


def test_chains_with_room_lie_straight_and_others_on_an_arch() -> None:
    straight = lay_chain((0.0, 0.0), (5.0, 0.0), 3, 0, (0.0, 1.0))
    assert all(glyph.head[1] == pytest.approx(0.0) for glyph in straight)
    arch = lay_chain((0.0, 0.0), (3.0, 0.0), 7, 0, (0.0, 1.0))
    middles = [((g.feet[0][0] + g.head[0]) / 2, (g.feet[0][1] + g.head[1]) / 2) for g in arch]
    assert max(y for _, y in middles) > 1.0
    steps = [math.dist(one, other) for one, other in pairwise(middles)]
    assert steps == pytest.approx([CHAIN_STEP] * 6, rel=0.08)


@pytest.mark.parametrize("sides", [3, 4, 6, 8])
def test_corners_of_a_ring_lie_where_they_are_said_to(sides: int) -> None:
    shape = RingShape(sides, 0.05)
    for number in range(sides):
        corner = shape.point(0.05 + number / sides, 10.0)
        assert math.hypot(*corner) == pytest.approx(10.0 / math.cos(math.pi / sides))
        assert shape.lift(0.05 + number / sides, 5.0, 10.0) % 1 == pytest.approx((0.05 + number / sides) % 1)
        middle = shape.point(0.05 + (number + 0.5) / sides, 10.0)
        assert math.hypot(*middle) == pytest.approx(10.0)


def test_the_square_is_ten_centimetres_and_the_broken_line_four_inches(ink: Ink) -> None:
    plan = plan_square(ink)
    lines = [shape for shape in plan.shapes if isinstance(shape, Line)]
    full = [line for line in lines if math.dist(line.start, line.end) == pytest.approx(100.0)]
    assert len(full) == 4
    broken = [line for line in lines if line.dash]
    assert [math.dist(line.start, line.end) for line in broken] == pytest.approx([101.6, 101.6])  # 25.4 mm to the inch


def test_bars_are_as_wide_as_hooks_are_thick(ink: Ink) -> None:
    bars = [shape.width for shape in plan_hooks([5.0], ink).shapes if isinstance(shape, Rect)]
    assert bars == pytest.approx([mm for mm, _ in list_hook_sizes()])
    assert (5.0, "H-8") in list_hook_sizes()  # Craft Yarn Council, hooks and needles, as a secondary page reports it
