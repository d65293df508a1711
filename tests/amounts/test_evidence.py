"""What the yarn rests on: sample, swatch, unravelled length, published figures, and testers' reports."""

from collections.abc import Mapping
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from booklet.amounts.yarn import measure_yarn
from booklet.findings import Finding
from booklet.model.amounts import YarnNeed, YarnUse
from booklet.model.measure import Length
from booklet.model.pattern import Sample, Swatch, Unravelled, YarnAmount, YarnReport

SIZES = {"Cot": 20, "Lap": 40}  # rows of 20 sc in A, as many in B


def report(make: Any, size: str, used: Mapping[str, float], unit: str = "g") -> YarnReport:
    return YarnReport(size, {letter: YarnAmount(amount, unit) for letter, amount in used.items()}, make.span)


def use_of(make: Any, **facts: Any) -> tuple[YarnUse, tuple[Finding, ...]]:
    """A blanket of two stripes in two sizes, 1 g to 2 m."""
    rows = [[*make.panel("sc", 20, number, "A"), *make.panel("sc", 20, number, "B")[1:]] for number in SIZES.values()]
    sized = make.sized(
        gauges=(make.gauge(),),
        colours=make.colours("AB"),
        yarn=make.yarn(weight=4, ball_grams=100, ball_metres=200),
        sizes=tuple(make.size(name) for name in SIZES),
        **facts,
    )
    use, findings = measure_yarn(sized, make.worked(make.part(*rows)))
    assert use is not None
    return use, findings


def needs_of(make: Any, **facts: Any) -> dict[tuple[str, str], YarnNeed]:
    use, _ = use_of(make, **facts)
    return {(need.size, need.letter): need for need in use.needs}


def weigh(make: Any, **used: float) -> Sample:
    return Sample(report(make, "Cot", used), {}, make.span)


def test_published_lengths_where_nothing_was_measured(make: Any) -> None:
    use, _ = use_of(make)
    assert (use.basis, use.spread, use.reports, use.sample_size) == ("estimate", 0.20, 0, "")
    for need in use.needs:
        assert need.how == "estimated"
        assert (need.low_metres, need.high_metres) == pytest.approx((need.metres * 0.8, need.metres * 1.2))


# The order that designers follow: what the sample weighed, then a swatch, then an unravelled strand.
def test_each_is_taken_before_the_next(make: Any) -> None:
    undone = {"unravelled": Unravelled(10, Length(60, "cm"), "sc", make.span)}
    swatch = undone | {"swatch": Swatch(20, 20, 14.0, "sc", make.span)}
    sample = swatch | {"sample": weigh(make, A=20, B=19)}
    assert [use_of(make, **facts)[0].basis for facts in ({}, undone, swatch, sample)] == [
        "estimate",
        "unravelled",
        "swatch",
        "sample",
    ]
    spreads = [use_of(make, **facts)[0].spread for facts in ({}, undone, swatch, sample)]
    assert spreads == sorted(spreads, reverse=True)


# by-katerina.com: unravel 10 stitches of the swatch, measure, multiply by the count.
def test_an_unravelled_length_is_multiplied_by_the_count(make: Any) -> None:
    undone = Unravelled(10, Length(60, "cm"), "sc", make.span)
    need = needs_of(make, unravelled=undone)["Lap", "B"]
    assert need.how == "computed"
    assert need.metres - need.tail_metres == pytest.approx(20 * 40 * 0.06)


# franciscangypsydesigns.com: grams used x metres a gram, for each colour.
def test_the_samples_weight_is_what_is_printed(make: Any) -> None:
    needs = needs_of(make, sample=weigh(make, A=21, B=17))
    assert (needs["Cot", "A"].metres, needs["Cot", "B"].metres) == pytest.approx((42, 34))
    assert needs["Cot", "A"].how == "measured"
    assert needs["Lap", "A"].how == "computed"
    stitches = 17 * 2 - needs["Cot", "B"].tail_metres
    assert needs["Lap", "B"].metres == pytest.approx(stitches * 2 + needs["Lap", "B"].tail_metres)


def test_a_colour_that_was_not_weighed_follows_the_others(make: Any) -> None:
    bare, weighed = needs_of(make), needs_of(make, sample=weigh(make, A=21))
    share = (42 - 0.3) / (bare["Cot", "A"].metres - 0.3)
    assert weighed["Cot", "B"].how == "computed"
    assert weighed["Cot", "B"].metres - 0.3 == pytest.approx((bare["Cot", "B"].metres - 0.3) * share)


def test_a_sample_weighed_as_a_whole_is_spread_over_its_colours(make: Any) -> None:
    use, _ = use_of(make, sample=Sample(report(make, "Cot", {"": 40}), {}, make.span))
    assert use.totals["Cot"].metres == pytest.approx(80)
    assert use.sample_size == "Cot"


def test_ounces_and_metres_are_as_good_as_grams(make: Any) -> None:
    in_metres = Sample(report(make, "Cot", {"A": 42, "B": 34}, "m"), {}, make.span)
    assert use_of(make, sample=in_metres)[0].needs == use_of(make, sample=weigh(make, A=21, B=17))[0].needs


# A designer's rule: testers' reports narrow the figure, and the higher one is printed.
def test_the_highest_report_is_printed(make: Any) -> None:
    bare = needs_of(make)
    grams = bare["Lap", "A"].metres / 2
    testers = (report(make, "Lap", {"A": grams * 1.12}), report(make, "Lap", {"A": grams * 0.95}))
    use, findings = use_of(make, testers=testers)
    needs = {(need.size, need.letter): need for need in use.needs}
    assert findings == ()
    assert needs["Lap", "A"].metres == pytest.approx(bare["Lap", "A"].metres * 1.12)
    assert needs["Cot", "A"].metres == pytest.approx(bare["Cot", "A"].metres * 1.12)
    assert needs["Lap", "B"] == bare["Lap", "B"]
    assert [needs["Lap", "A"].how, needs["Cot", "A"].how, needs["Lap", "B"].how] == [
        "measured",
        "computed",
        "estimated",
    ]
    assert (use.reports, use.raised) == (2, ("A",))


def test_reports_below_the_computed_figure_narrow_it_only(make: Any) -> None:
    bare = needs_of(make)["Lap", "A"]
    need = needs_of(make, testers=(report(make, "Lap", {"A": bare.metres / 2 * 0.97}),))["Lap", "A"]
    assert need.metres == pytest.approx(bare.metres)
    assert need.high_metres - need.low_metres < bare.high_metres - bare.low_metres
    assert need.low_metres < bare.metres * 0.97


@given(shares=st.lists(st.floats(0.7, 1.45), min_size=1, max_size=5))
def test_the_printed_figure_is_in_its_range_and_never_below_a_report(make: Any, shares: list[float]) -> None:
    bare = needs_of(make)
    testers = tuple(report(make, "Lap", {"B": bare["Lap", "B"].metres * share}, "m") for share in shares)
    for (size, letter), need in needs_of(make, testers=testers).items():
        assert need.low_metres <= need.metres <= need.high_metres
        if (size, letter) == ("Lap", "B"):
            assert need.metres >= bare["Lap", "B"].metres * max(shares) - 1e-6


def test_a_report_on_all_colours_raises_all(make: Any) -> None:
    bare = use_of(make)[0]
    use, _ = use_of(make, testers=(report(make, "Cot", {"": bare.totals["Cot"].metres * 1.1}, "m"),))
    assert use.totals["Cot"].metres == pytest.approx(bare.totals["Cot"].metres * 1.1)
    assert use.raised == ("A", "B")


@pytest.mark.parametrize(
    ("code", "facts"),
    [
        ("report-unlikely", {"testers": [("Cot", {"A": 80})]}),
        ("report-unlikely", {"testers": [("Cot", {"": 8})]}),
        ("yarn-unplaced", {"testers": [("Cott", {"A": 20})]}),
        ("yarn-unplaced", {"testers": [("", {"A": 20})]}),
        ("yarn-unplaced", {"sample": ("Cot", {"C": 20})}),
        ("unravelled-unlikely", {"unravelled": 300}),
    ],
)
def test_error_a_report_that_cannot_be_right(make: Any, code: str, facts: dict[str, Any]) -> None:
    given_facts: dict[str, Any] = {}
    if "testers" in facts:
        given_facts["testers"] = tuple(report(make, *told) for told in facts["testers"])
    if "sample" in facts:
        given_facts["sample"] = Sample(report(make, *facts["sample"]), {}, make.span)
    if "unravelled" in facts:
        given_facts["unravelled"] = Unravelled(10, Length(facts["unravelled"], "cm"), "sc", make.span)
    _, findings = use_of(make, **given_facts)
    assert [finding.code for finding in findings] == [code]
    assert all(len(finding.message) <= 72 and finding.expected and finding.fix for finding in findings)
