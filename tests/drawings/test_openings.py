"""Pieces with an opening at their upper edge: where the sides lie, their outline and their dimensions."""

import math
from itertools import pairwise

import pytest

from booklet.amounts.measures import NECK
from booklet.drawings.edges import Split, Straight, trace_edge
from booklet.drawings.lay import Lay
from booklet.drawings.measured import place_measures
from booklet.drawings.pieces import lay_pieces
from booklet.pipeline import prove_text

ROWS = """---
title: Harbour
kind: top
gauge: 16 sts and 12 rows = 10 cm in half double crochet, 4.5 mm hook
yarn: {weight: 3 Light, ball: 50 g = 120 m}
---

Throughout, ch 1 does not count as a stitch.

## Front

Ch 42.

Row 1 (RS): Hdc in 3rd ch from hook (the skipped ch do not count as a st) and in each ch across. (40 hdc)

Row 2: Ch 1, turn, hdc in each st across. (40 hdc)

"""
AT_ONCE = """Row 3: Ch 1, turn, hdc in next 12 sts; sk next 16 sts; with a second ball, hdc in next 12 sts. (24 hdc)

Row 4: Ch 1, turn, hdc in next 10 sts, hdc2tog; with the other ball, hdc2tog, hdc in next 10 sts. (22 sts)

Rows 5-6: Ch 1, turn, hdc in next 11 sts; with the other ball, hdc in next 11 sts. (22 hdc)
"""
AFTER = """### First side

Row 3: Ch 1, turn, hdc in next 12 sts, leave rem sts unworked. (12 hdc)

Row 4: Ch 1, turn, hdc2tog, hdc in next 10 sts. (11 sts)

Rows 5-6: Ch 1, turn, hdc in each st across. (11 hdc)

Fasten off.

### Second side

With RS facing, sk next 16 sts of Row 2 and join yarn in next st.

Next row (RS): Ch 1, hdc in each st across. (12 hdc)

Next row: Ch 1, turn, hdc in next 10 sts, hdc2tog. (11 sts)

Next row: Ch 1, turn, hdc in each st across. (11 hdc)

Rep last row once more. (11 hdc)
"""
BOTH = pytest.mark.parametrize("sides", [AT_ONCE, AFTER], ids=["at once", "one after the other"])
STITCH, ROW = 10 / 16, 10 / 12


def lay(sides: str = AT_ONCE) -> tuple[Lay, object]:
    proof = prove_text(ROWS + sides, "harbour.md")
    assert [finding.message for finding in proof.findings] == []
    assert proof.sized is not None
    assert proof.worked is not None
    assert proof.amounts is not None
    (piece,) = lay_pieces(proof.sized.pattern, proof.worked, 0)
    return piece, proof.amounts.measures


def measure_area(points: tuple[tuple[float, float], ...]) -> float:
    """The area of a polygon by the shoelace formula."""
    return abs(sum(a[0] * b[1] - b[0] * a[1] for a, b in pairwise((*points, points[0])))) / 2


def test_each_side_lies_over_its_outer_edge() -> None:
    piece, _ = lay()
    tops = [band.top for band in piece.bands]
    assert [isinstance(top, Split) for top in tops] == [False, False, True, True, True, True]
    last = tops[-1]
    assert isinstance(last, Split)
    left, right = last.sides
    assert (left.left, left.right) == pytest.approx((0, 11 * STITCH), abs=1e-6)
    assert (right.left, right.right) == pytest.approx((29 * STITCH, 40 * STITCH))


@BOTH
def test_the_outline_goes_down_into_the_opening(sides: str) -> None:
    piece, _ = lay(sides)
    whole = 40 * STITCH * 2 * ROW
    # every row of a side is a trapezium between what it stands on and what it leaves
    towers = 2 * (12 * ROW + 11.5 * ROW + 2 * 11 * ROW) * STITCH
    assert measure_area(piece.outline) == pytest.approx(whole + towers, rel=1e-6)
    assert piece.width == pytest.approx(40 * STITCH)
    assert piece.height == pytest.approx(6 * ROW)


@BOTH
def test_dimensions_are_as_long_as_what_they_say(sides: str) -> None:
    piece, measures = lay(sides)
    placed, named = place_measures(piece, measures, 0)  # type: ignore[arg-type]
    assert named == ()
    lengths = {item.measure.name: math.dist(item.start, item.end) for item in placed}
    assert lengths[NECK[0]] == pytest.approx(11 * STITCH)
    assert lengths[NECK[1]] == pytest.approx(18 * STITCH)
    depth = next(item for item in placed if item.measure.name == NECK[2])
    assert abs(depth.end[1] - depth.start[1]) == pytest.approx(4 * ROW)


def test_no_colour_run_goes_on_across_the_opening() -> None:
    piece, _ = lay()
    for band in piece.bands:
        assert len(band.runs()) == (2 if isinstance(band.top, Split) else 1)
        assert sum(run.count for run in band.runs()) == band.row.made


def test_an_edge_in_two_sides_counts_along_the_sides_alone() -> None:
    edge = Split((Straight(0, 3, 5), Straight(7, 8, 5)))
    assert edge.bends() == (0.75,)
    assert [edge.point(share) for share in (0, 0.5, 0.75, 0.875, 1)] == [(0, 5), (2, 5), (3, 5), (7.5, 5), (8, 5)]
    assert [round(x, 6) for x, _ in trace_edge(edge)] == [0, 3, 7, 8]
    assert [round(x, 6) for x, _ in trace_edge(edge, 0.75, 1.0)] == [7, 8]


def test_the_second_side_lies_at_the_end_that_the_first_left() -> None:
    piece, _ = lay(AFTER)
    first, second = piece.bands[2], piece.bands[6]
    assert first.base.point(0)[1] == second.base.point(0)[1] == pytest.approx(-2 * ROW)
    places = sorted((band.top.point(0)[0], band.top.point(1)[0]) for band in (first, second))
    assert places == [pytest.approx((0, 12 * STITCH)), pytest.approx((28 * STITCH, 40 * STITCH))]
    assert [band.direction for band in piece.bands] == [-1, 1, -1, 1, -1, 1, -1, 1, -1, 1]
