"""Yarn where no swatch is weighed: from the gauge, from what is usual for the hook and the yarn, or from a size."""

from dataclasses import replace
from typing import Any

import pytest

from booklet.amounts.scales import read_stitch
from booklet.amounts.usual_gauge import estimate_stitches, middle
from booklet.amounts.yarn import measure_yarn
from booklet.model.measure import Length
from booklet.model.pattern import Gauge, Hook
from booklet.terms import load_table

from .conftest import INCHES_4, metres_of, use_of


@pytest.mark.parametrize(
    ("words", "terms", "kind"),
    [("sc", "US", "sc"), ("Double Crochet", "US", "dc"), ("double crochet", "UK", "sc"), ("tr", "UK", "dc"),
     ("moss stitch", "US", ""), ("", "US", "")],
)  # fmt: skip
def test_a_stitch_is_read_in_the_patterns_terms(words: str, terms: str, kind: str) -> None:
    assert read_stitch(words, terms) == kind


def test_a_gauge_in_single_crochet_holds_taller_rows(make: Any) -> None:
    """Published: a gauge taken in sc for a fabric of taller groups. A dc there is as high as a dc, not as a sc."""
    single = (make.gauge(12, 13, INCHES_4, stitch="single crochet"),)
    mixed = (make.gauge(12, 13, INCHES_4),)
    part = make.part(make.panel("dc", 20, 20))
    assert metres_of(make, part, gauges=single) > 1.2 * metres_of(make, part, gauges=mixed)


# CYC bands, middle of Medium 12.5 and of Bulky 9.5 sc to 4 in: the thicker yarn takes more for the same stitches.
def test_without_a_gauge_the_yarn_weight_decides(make: Any) -> None:
    part = make.part(make.panel("sc", 50, 50))
    medium = use_of(make, part, yarn=make.yarn(weight=4, ball_metres=200))
    bulky = use_of(make, part, yarn=make.yarn(weight=5, ball_metres=100))
    assert bulky.needs[0].metres / medium.needs[0].metres == pytest.approx(12.5 / 9.5, rel=0.01)
    assert (medium.spread, medium.gauge_from) == (0.35, "weight")


# Published gauges of worsted: 16 sts on 4 mm, 13 on 5, 12.8 and 14.2 on 5.5 and 6, 12 on 6.5; 9 on 9 mm held double.
@pytest.mark.parametrize(
    ("mm", "strands", "sts"), [(4, 1, 16), (5, 1, 13), (5.5, 1, 12.8), (6, 1, 14.2), (6.5, 1, 12), (9, 2, 9)]
)
def test_the_gauge_that_is_usual_for_a_hook(make: Any, mm: float, strands: int, sts: float) -> None:
    hooks = (Hook(mm, str(mm), make.span),)
    usual = estimate_stitches(make.pattern(hooks=hooks, yarn=make.yarn(weight=4, strands=strands)))
    assert usual is not None
    assert usual == (pytest.approx(sts, rel=0.15), "weight")


# Craft Yarn Council: in the middle of its bands a weight makes 71 to 77 stitches in 4 in times millimetres.
@pytest.mark.parametrize("weight", [0, 1, 2, 3, 4, 5])
def test_a_hook_alone_tells_a_gauge(make: Any, weight: int) -> None:
    entry = load_table("yarn_weights")[weight]
    mm = middle(entry["hook_mm"])
    usual = estimate_stitches(make.pattern(hooks=(Hook(mm, str(mm), make.span),)))
    assert usual is not None
    assert usual == (pytest.approx(middle(entry["sc_per_4in"]), rel=0.09), "hook")


# A spinner's chart: 212 m in 100 g lie in the band of light yarn (901 to 1,200 yd to the pound).
@pytest.mark.parametrize(("metres", "weight"), [(500, 0), (400, 1), (300, 2), (212, 3), (160, 4), (100, 5), (60, 6)])
def test_a_ball_alone_tells_a_gauge(make: Any, metres: float, weight: int) -> None:
    usual = estimate_stitches(make.pattern(yarn=make.yarn(ball_grams=50, ball_metres=metres / 2)))
    assert usual == (pytest.approx(middle(load_table("yarn_weights")[weight]["sc_per_4in"])), "ball")


def test_a_square_of_known_side_is_as_good_as_a_gauge(make: Any) -> None:
    rounds = make.part(make.rounds("dc", [12, 24, 36]), title="Square", make=20)
    motif = Gauge("square", 1, None, Length(4, "in"), make.span, motif="square")
    use = use_of(make, rounds, motif_gauges=(motif,), yarn=make.yarn(weight=4, ball_metres=200))
    assert (use.gauge_from, use.spread) == ("motif", 0.20)
    larger = replace(motif, over=Length(8, "in"))
    twice = use_of(make, rounds, motif_gauges=(larger,), yarn=make.yarn(weight=4, ball_metres=200))
    bare = [u.needs[0].metres - u.needs[0].tail_metres for u in (use, twice)]
    assert bare[1] == pytest.approx(2 * bare[0])


def test_a_finished_size_is_as_good_as_a_gauge(make: Any) -> None:
    part = make.part(make.panel("sc", 50, 60, foundation="fsc"))
    gauge = make.gauge(12, 14, INCHES_4)
    size = make.size("", width=Length(50 / 3, "in"), length=Length(60 / 3.5, "in"))
    by_gauge, by_size = metres_of(make, part, gauges=(gauge,)), metres_of(make, part, sizes=(size,))
    assert by_size == pytest.approx(by_gauge, rel=0.01)
    hat = use_of(make, part, sizes=(size,), kind="hat", yarn=make.yarn(weight=4))
    assert hat.gauge_from == "weight"


def test_neither_gauge_nor_weight_gives_no_yarn(make: Any) -> None:
    assert measure_yarn(make.sized(), make.worked(make.part(make.panel("sc", 9, 9)))) == (None, ())


def test_nothing_worked_gives_no_yarn(make: Any) -> None:
    assert measure_yarn(make.sized(gauges=(make.gauge(),)), make.worked()) == (None, ())
