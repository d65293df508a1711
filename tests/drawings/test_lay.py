"""Pieces laid flat: widths, heights, directions and places of rows."""

import math
from itertools import pairwise
from pathlib import Path

import pytest

from booklet.amounts.measures import measure_parts
from booklet.amounts.piece_edges import find_underarm
from booklet.drawings.areas import border_lines, find_areas
from booklet.drawings.edges import Frame, Ring
from booklet.drawings.lay import Lay
from booklet.drawings.pieces import CROWN, lay_pieces
from booklet.model.work import Stitch, WorkedPart
from booklet.pipeline import prove_file

from .conftest import (
    SPAN,
    make_blanket,
    make_border,
    make_chain,
    make_circle,
    make_fabric,
    make_hat,
    make_pattern,
    make_row,
    make_shaped,
    make_square,
    make_tube,
    make_worked,
    plain_row,
)

STITCH, ROW = 10 / 16, 10 / 17  # of the gauge "moss"


def lay(*parts: WorkedPart) -> tuple[Lay, ...]:
    return lay_pieces(make_pattern().pattern, make_worked(*parts), 0)


def test_a_rectangle_is_as_wide_as_its_stitches_and_as_long_as_its_rows() -> None:
    (piece,) = lay(make_blanket(61, 60))
    assert piece.width == pytest.approx(61 * STITCH)
    assert piece.height == pytest.approx(60 * ROW)  # the foundation chain is no row
    assert len(piece.outline) == 4


def test_right_side_rows_go_from_right_to_left() -> None:
    (piece,) = lay(make_blanket(21, 20))
    assert [band.direction for band in piece.bands[:4]] == [-1, 1, -1, 1]


def test_colours_lie_where_they_were_worked() -> None:
    (piece,) = lay(make_blanket(61, 60))
    # Row 7 is worked from right to left with A first, so A lies on the right
    assert [run.letter for run in piece.bands[6].runs()] == ["C", "B", "A"]
    assert [run.letter for run in piece.bands[7].runs()] == ["C", "B", "A"]
    assert piece.bands[6].runs()[1].start == pytest.approx(20 / 61)


def test_decreases_at_one_edge_slope_that_edge_alone() -> None:
    rows, below = [make_chain(20)], 20
    for number in range(1, 11):
        # each row leaves the last stitch of a right-side row, and the first of a wrong-side row
        count = below - 1
        skipped = 1 if number % 2 == 0 else 0
        stitches = [Stitch("sc", "A", (below - 1 - skipped - at,)) for at in range(count)]
        rows.append(make_row(number, make_fabric(stitches), gauge="moss"))
        below = count
    (piece,) = lay(WorkedPart("Front", 1, (tuple(rows),), SPAN, gauge="moss"))
    rights = {round(band.top.point(1)[0], 6) for band in piece.bands}
    lefts = [band.top.point(0)[0] for band in piece.bands]
    assert len(rights) == 1
    assert lefts == pytest.approx([lefts[0] + STITCH * step for step in range(10)])


def test_a_wide_bind_off_is_a_step_and_a_single_decrease_a_slant() -> None:
    rows = [make_chain(20)]
    for number, (count, below) in enumerate([(20, 20), (20, 20), (12, 20), (12, 12)], 1):
        first = below - 1 if number != 3 else below - 5
        stitches = [Stitch("sc", "A", (first - at,)) for at in range(count)]
        rows.append(make_row(number, make_fabric(stitches), gauge="moss"))
    (piece,) = lay(WorkedPart("Yoke", 1, (tuple(rows),), SPAN, gauge="moss"))
    assert len(piece.outline) == 8  # a rectangle on a rectangle, steps on both sides
    assert all(
        a[0] == pytest.approx(b[0]) or a[1] == pytest.approx(b[1])
        for a, b in zip(piece.outline, (*piece.outline[1:], piece.outline[0]), strict=True)
    )


def test_a_shaped_piece_follows_its_row_widths() -> None:
    (piece,) = lay(make_shaped(20, 40, 50))
    widths = [band.top.point(1)[0] - band.top.point(0)[0] for band in piece.bands]
    assert widths[0] == pytest.approx(20 * STITCH)
    assert widths[-1] == pytest.approx(40 * STITCH)
    middles = [(band.top.point(1)[0] + band.top.point(0)[0]) / 2 for band in piece.bands]
    assert max(middles) - min(middles) <= 2 * STITCH


def test_a_tube_is_half_its_circumference_wide() -> None:
    (piece,) = lay(make_tube(40, 20))
    assert piece.shape == "tube"
    assert piece.width == pytest.approx(40 * STITCH / 2)
    assert piece.goes_up


def test_a_hat_is_pressed_flat_with_its_crown_on_top() -> None:
    hat, crown = lay(make_hat())
    stitch, height = 10 / 14, 10 / 11
    assert (hat.shape, crown.shape) == ("dome", CROWN)
    assert hat.width == pytest.approx(64 * stitch / 2)
    assert hat.height == pytest.approx(20 * height)
    assert not hat.goes_up
    for number, band in enumerate(hat.bands, 1):  # every round at half its own circumference
        assert band.top.point(1)[0] - band.top.point(0)[0] == pytest.approx(8 * min(number, 8) * stitch / 2)
        assert band.top.point(0.5)[1] == pytest.approx(number * height)
    ends = [band.top.point(0)[1] for band in hat.bands]
    assert ends == sorted(ends)
    assert crown.width == pytest.approx(2 * 8 * height)


def test_a_hat_from_the_brim_up_is_drawn_brim_down() -> None:
    rounds = [
        make_row(n, plain_row(c, "hdc", [("A", c)]), "round", "rounds")
        for n, c in enumerate([64] * 10 + [56, 48, 40, 32, 24, 16, 8], 1)
    ]
    (hat,) = lay(WorkedPart("Hat", 1, (tuple(rounds),), SPAN, in_rounds=True, gauge="rounds"))
    assert hat.shape == "dome"
    assert hat.goes_up
    assert hat.bands[0].base.point(0)[1] > hat.bands[-1].top.point(0)[1]


def test_a_ball_closes_at_both_ends() -> None:
    counts = [6, 12, 18, 24, 24, 24, 24, 24, 18, 12, 6]
    rounds = [make_row(n, plain_row(c, "sc", [("A", c)]), "round", "moss") for n, c in enumerate(counts, 1)]
    (ball,) = lay(WorkedPart("Head", 1, (tuple(rounds),), SPAN, in_rounds=True, gauge="moss"))
    ends = [band.top.point(0)[1] for band in ball.bands]
    assert ends == sorted(ends)
    assert ball.height == pytest.approx(11 * ROW)


def test_a_circle_has_the_radius_of_its_rounds() -> None:
    (piece,) = lay(make_circle(6))
    assert piece.shape == "circle"
    assert piece.width == pytest.approx(2 * 6 * ROW, rel=1e-3)


def test_a_square_has_its_corners_where_the_corner_stitches_are() -> None:
    (piece,) = lay(make_square(5))
    assert piece.shape == "square"
    assert len(piece.outline) == 4
    assert {(round(x, 3), round(y, 3)) for x, y in piece.outline} == {
        (sx * round(5 * ROW, 3), sy * round(5 * ROW, 3)) for sx in (-1, 1) for sy in (-1, 1)
    }
    ring = piece.bands[-1].top
    assert isinstance(ring, Ring)
    # the corner group is the first six stitches of each quarter: its middle is the turn
    fabric = piece.bands[-1].row.fabric
    assert ring.turn == pytest.approx(3 / len(fabric.sites))
    assert math.hypot(*ring.point(ring.turn)) == pytest.approx(5 * ROW * math.sqrt(2))


def test_a_border_goes_round_the_piece_before_it() -> None:
    blanket = make_blanket(31, 30)
    (piece,) = lay(blanket, make_border(blanket, 3))
    assert piece.parts == ("Blanket", "Border")
    assert piece.width == pytest.approx(31 * STITCH + 6 * ROW)
    assert piece.own_box[2] - piece.own_box[0] == pytest.approx(31 * STITCH)


def test_a_frame_is_walked_at_an_even_pace() -> None:
    frame = Frame(0, 0, 30, 10)
    steps = [frame.point(at / 80) for at in range(81)]
    assert steps[0] == pytest.approx((0, 10))
    assert steps[-1] == pytest.approx((0, 10))
    assert all(math.dist(a, b) <= 1.0 + 1e-9 for a, b in pairwise(steps))


def test_without_a_gauge_usual_proportions_stand_in() -> None:
    pattern = make_pattern(gauges=False)
    (piece,) = lay_pieces(pattern.pattern, make_worked(make_shaped(20, 20, 20)), 0)
    assert not piece.is_to_scale
    assert piece.height / piece.width == pytest.approx(0.95, abs=0.01)


def test_areas_of_a_blanket_in_panels() -> None:
    (piece,) = lay(make_blanket(61, 60))
    areas = find_areas(piece.bands)
    # A runs along both ribbed ends and its panel joins them
    assert [(area.letter, len(area.runs)) for area in areas] == [("A", 60), ("C", 50), ("B", 50)]
    assert sum(area.count for area in areas) == 61 * 60
    assert len(border_lines(piece.bands)) >= 4


def test_stitches_are_all_in_some_area() -> None:
    for part in (make_tube(), make_circle(), make_square(), make_shaped(5, 41, 30)):
        (piece,) = lay(part)
        for band in piece.all_bands:
            runs = band.runs()
            assert runs[0].start == pytest.approx(0)
            assert runs[-1].end == pytest.approx(1)
            assert all(a.end == pytest.approx(b.start) for a, b in pairwise(runs))


def test_what_is_drawn_has_the_measures_of_the_table() -> None:
    for part in (make_blanket(41, 30), make_tube(40, 12), make_circle(7), make_hat()):
        sized, worked = make_pattern(), make_worked(part)
        measures = {measure.name: measure.cm[0] for measure in measure_parts(sized, worked)[0]}
        pieces = lay_pieces(sized.pattern, worked, 0)
        body = pieces[0]
        if "circumference" in measures:
            assert body.width * 2 == pytest.approx(measures["circumference"])
        else:
            assert body.width == pytest.approx(measures.get("width", measures.get("width across")), rel=1e-3)
        for name in ("length", "depth"):
            if name in measures:
                assert body.height == pytest.approx(measures[name])
        if len(pieces) > 1:
            assert pieces[1].width == pytest.approx(measures["crown across"], rel=1e-3)


def test_an_armhole_begins_with_the_row_that_leaves_its_stitches() -> None:
    """Slip stitches lead over the underarm, and a chain stands at the start: the row is as wide as its own stitches."""
    proof = prove_file(str(Path(__file__).parents[2] / "content" / "millpond-tee"))
    assert proof.pattern is not None
    assert proof.worked is not None
    back = lay_pieces(proof.pattern, proof.worked, 0)[0]
    rows = [band.row for band in back.bands]
    underarm = find_underarm(rows)
    assert underarm is not None
    at = next(at for at, row in enumerate(rows) if row is underarm)
    widths = [band.top.point(1)[0] - band.top.point(0)[0] for band in back.bands[at - 1 : at + 1]]
    assert widths[0] - widths[1] == pytest.approx(2 * 3 * 10 / 16)  # 3 stitches at either end, 16 sts = 10 cm
    base = back.bands[at].base
    assert base.point(1)[0] - base.point(0)[0] == pytest.approx(widths[1])
