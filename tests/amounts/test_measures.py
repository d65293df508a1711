"""Finished measures from worked rows, against published patterns and rules."""

import math
from collections.abc import Sequence
from dataclasses import replace
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from booklet.amounts.figures import print_cm, print_inches
from booklet.amounts.measures import measure_parts
from booklet.findings import Finding
from booklet.model.amounts import Measure
from booklet.model.measure import Length
from booklet.model.pattern import NumberRule, Sample, SizedNumber, YarnReport
from booklet.model.work import Fabric, Site, Stitch

INCHES_4 = Length(4, "in")


def by_name(measures: Sequence[Measure]) -> dict[str, Measure]:
    return {measure.name: measure for measure in measures}


def codes(findings: tuple[Finding, ...]) -> list[str]:
    return [finding.code for finding in findings]


def measure_panel(make: Any, sts: int, rows: int, gauge: Any) -> dict[str, Measure]:
    measures, findings = measure_parts(make.sized(gauges=(gauge,)), make.worked(make.part(make.panel("sc", sts, rows))))
    assert not findings
    return by_name(measures)


# Published: chain 106, 105 sc at 14 sc = 4 in is 30 in wide (computed from a leaflet's count and gauge).
def test_width_of_a_flat_piece(make: Any) -> None:
    width = measure_panel(make, 105, 40, make.gauge(14, 16, INCHES_4))["width"]
    assert width.inches[0] == pytest.approx(30)
    assert (width.count, width.unit, width.key) == ((105,), "sts", "a")


# A knitter's worked case (tracykm.blogspot.com, 2010): 290 sts at 28 in place of 29 to 4 in are 41.43, not 40 in.
def test_a_stitch_of_gauge_in_forty_inches(make: Any) -> None:
    width = measure_panel(make, 290, 10, make.gauge(28, 30, INCHES_4))["width"]
    assert width.inches[0] == pytest.approx(41.43, abs=0.005)
    assert measure_panel(make, 290, 10, make.gauge(29, 30, INCHES_4))["width"].inches[0] == pytest.approx(40)


# Published: 143 sts of moss stitch at 8 sts = 2 in and 202 rows at 20 rows = 5 in: 35.75 x 50.5 in
# (secretsfromtheheart-forex.blogspot.com, 2017; the rows' sum of colours computed).
def test_a_moss_stitch_blanket(make: Any) -> None:
    gauge = make.gauge(8, 8, Length(2, "in"))
    measures, _ = measure_parts(make.sized(gauges=(gauge,)), make.worked(make.part(make.moss(143, 202))))
    assert [measure.inches[0] for measure in measures] == pytest.approx([35.75, 50.5])


# Published: 7 stripes of 12 rows and 10 rows more are 94 rows (a leaflet, ch 106). The foundation is no row.
def test_length_counts_rows_without_the_foundation(make: Any) -> None:
    length = measure_panel(make, 105, 7 * 12 + 10, make.gauge())["length"]
    assert length.count == (94,)


def test_a_foundation_row_of_stitches_is_a_row(make: Any) -> None:
    rows = make.panel("sc", 20, 9, foundation="fsc")
    measures, _ = measure_parts(make.sized(gauges=(make.gauge(),)), make.worked(make.part(rows)))
    assert by_name(measures)["length"].count == (10,)


# Common practice: a gauge is stated over 4 in and 10 cm alike, so both units come from it and neither is converted.
def test_both_units_come_from_the_gauge(make: Any) -> None:
    metric = measure_panel(make, 80, 34, make.gauge(16, 17, Length(10, "cm")))
    imperial = measure_panel(make, 80, 34, make.gauge(16, 17, INCHES_4))
    for measures in (metric, imperial):
        assert (measures["width"].cm[0], measures["width"].inches[0]) == pytest.approx((50, 20))
        assert (measures["length"].cm[0], measures["length"].inches[0]) == pytest.approx((20, 8))
    assert (print_cm(50), print_inches(20)) == ("50", "20")


def test_shaped_piece_tells_its_first_and_last_width(make: Any) -> None:
    rows = [make.row(make.fabric(["sc"] * count)) for count in (20, 30, 40, 30)]
    measures, _ = measure_parts(make.sized(gauges=(make.gauge(),)), make.worked(make.part(rows)))
    counts = {measure.name: measure.count[0] for measure in measures}
    assert counts == {"width": 40, "width at the start": 20, "width at the end": 30, "length": 4}
    assert [measure.key for measure in measures] == ["a", "b", "c", "d"]


def test_lace_loops_are_no_width(make: Any) -> None:
    """A row of ch-3 loops over every other stitch has 2 sites a stitch; the plain rows tell the width."""
    plain = make.fabric(["sc"] * 21)
    sites: list[Site] = []
    stitches: list[Stitch] = []
    for at in range(0, 21, 2):
        if at:
            stitches.append(Stitch("ch", "", top=len(sites)))
            sites += [Site("ch", "", 3, chain) for chain in range(3)]
        stitches.append(Stitch("sc", "", (at,)))
        sites.append(Site("sc"))
    lace = Fabric(tuple(sites), tuple(stitches), {"sc": 11}, {3: 10}, {("", "sc"): 11, ("", "ch"): 30}, 11)
    rows = [make.row(plain), make.row(lace), make.row(plain)]
    measures, _ = measure_parts(make.sized(gauges=(make.gauge(),)), make.worked(make.part(rows)))
    assert by_name(measures)["width"].count == (21,)


def test_rows_of_two_gauges_add_up(make: Any) -> None:
    gauges = (make.gauge(16, 20, name="rib"), make.gauge(16, 10, name="body"))
    rib = [make.row(make.fabric(["dc"] * 32), gauge="rib")] * 10
    body = [make.row(make.fabric(["dc"] * 32), gauge="body")] * 10
    measures, _ = measure_parts(make.sized(gauges=gauges), make.worked(make.part(rib + body)))
    assert by_name(measures)["length"].cm[0] == pytest.approx(5 + 10)


def test_rounds_round_a_flat_piece_widen_and_lengthen_it(make: Any) -> None:
    rows = make.panel("sc", 32, 34) + make.rounds("sc", [140, 148])
    measures, _ = measure_parts(make.sized(gauges=(make.gauge(),)), make.worked(make.part(rows)))
    sides = 2 * 2 * 10 / 17
    assert by_name(measures)["width"].cm[0] == pytest.approx(20 + sides)
    assert by_name(measures)["length"].cm[0] == pytest.approx(20 + sides)


# Rule of thumb (hookthatyarn.wordpress.com, smalltowndreamz.blogspot.com): a hat of 22 in has a crown 7 in
# across, that is circumference / pi. With 6 sc a round the crown lies flat where row height / stitch width
# is 6 / 2 pi (computed).
def test_a_hat_in_rounds(make: Any) -> None:
    sts = 4.0 * 6 * 11 / 22  # 66 stitches are 22 in
    gauge = make.gauge(sts, sts / (6 / (2 * math.pi)), INCHES_4)
    counts = [6 * n for n in range(1, 12)] + [66] * 12
    part = make.part(make.rounds("sc", counts), in_rounds=True)
    measures, findings = measure_parts(make.sized(gauges=(gauge,)), make.worked(part))
    named = by_name(measures)
    assert not findings
    assert named["circumference"].inches[0] == pytest.approx(22)
    assert named["crown across"].inches[0] == pytest.approx(7.00, abs=0.01)
    assert named["depth"].count == (23,)


def test_a_flat_circle_is_measured_across(make: Any) -> None:
    part = make.part(make.rounds("dc", [12, 24, 36, 48]), in_rounds=True)
    measures, _ = measure_parts(make.sized(gauges=(make.gauge(14, 8),)), make.worked(part))
    assert [(measure.name, measure.count, measure.cm[0]) for measure in measures] == [("width across", (4,), 10)]


def test_a_tube_has_a_circumference_and_a_length(make: Any) -> None:
    part = make.part(make.rounds("hdc", [64] * 17), in_rounds=True)
    measures, _ = measure_parts(make.sized(gauges=(make.gauge(),)), make.worked(part))
    assert [measure.name for measure in measures] == ["circumference", "length"]
    assert [measure.cm[0] for measure in measures] == pytest.approx([40, 10])


def test_an_edging_has_only_a_depth(make: Any) -> None:
    part = make.part(make.rounds("sc", [200, 208]), title="Edging", in_rounds=True)
    measures, _ = measure_parts(make.sized(gauges=(make.gauge(),)), make.worked(part))
    assert [measure.name for measure in measures] == ["depth"]


def test_a_gauge_without_rows_gives_no_length(make: Any) -> None:
    measures, findings = measure_parts(
        make.sized(gauges=(make.gauge(rows=None),)), make.worked(make.part(make.panel("sc", 20, 9)))
    )
    assert [measure.name for measure in measures] == ["width"]
    assert not findings


def test_error_no_gauge(make: Any) -> None:
    measures, findings = measure_parts(make.sized(), make.worked(make.part(make.panel("sc", 20, 9))))
    assert measures == ()
    assert codes(findings) == ["gauge-missing"]
    assert findings[0].message == "no gauge is given, so the finished measures are not known"


def test_error_two_gauges_and_none_named(make: Any) -> None:
    gauges = (make.gauge(name="rib"), make.gauge(name="moss"))
    part = make.part(make.panel("sc", 20, 9), title="Sleeve")
    measures, findings = measure_parts(make.sized(gauges=gauges), make.worked(part))
    assert measures == ()
    assert findings[0].message == 'the gauge of "Sleeve" is not told, so its measures are not known'
    assert findings[0].expected == 'the name of one gauge: "rib" or "moss"'


def test_a_named_number_is_the_target(make: Any) -> None:
    number = SizedNumber("panel", (105, 113), make.span, measure="width", multiple=2, plus=1, target_cm=(70, 60))
    rule = NumberRule("panel", make.span, measure="width")
    sized = make.sized(
        [number], numbers=(rule,), gauges=(make.gauge(15, 17),), sizes=(make.size("Cot"), make.size("Lap"))
    )
    part = make.part(make.panel("sc", 105, 10), make.panel("sc", 113, 10))
    measures, findings = measure_parts(sized, make.worked(part))
    assert list(measures[0].target_cm) == [70, 60]
    assert codes(findings) == ["measure-off"]
    assert findings[0].message == "the width comes to 75.5 cm in size Lap, not 60 cm"
    assert findings[0].sizes == ("Lap",)
    assert findings[0].expected == "width 60 cm in Lap"


def test_a_measure_of_the_sizes_is_the_target(make: Any) -> None:
    sizes = (make.size("Small", width=Length(50, "cm"), length=Length(24, "cm")),)
    sized = make.sized(gauges=(make.gauge(),), sizes=sizes)
    measures, findings = measure_parts(sized, make.worked(make.part(make.panel("sc", 80, 34))))
    assert [measure.target_cm for measure in measures] == [(50,), (24,)]
    assert [finding.message for finding in findings] == ["the length comes to 20 cm in size Small, not 24 cm"]


def test_a_target_within_half_a_step_is_met(make: Any) -> None:
    sizes = (make.size("Small", width=Length(50.3, "cm")),)
    sized = make.sized(gauges=(make.gauge(),), sizes=sizes)
    _, findings = measure_parts(sized, make.worked(make.part(make.panel("sc", 80, 34))))
    assert findings == ()


@pytest.mark.parametrize("width", [Length(20, "in"), Length(50, "cm")])
def test_a_target_in_the_other_unit_is_met_by_the_trade_rule(make: Any, width: Length) -> None:
    sized = make.sized(gauges=(make.gauge(),), sizes=(make.size("Small", width=width),))
    _, findings = measure_parts(sized, make.worked(make.part(make.panel("sc", 80, 34))))
    assert findings == ()


def test_a_border_keeps_the_body_from_being_compared(make: Any) -> None:
    sized = make.sized(gauges=(make.gauge(),), sizes=(make.size("Small", width=Length(60, "cm")),))
    body = make.part(make.panel("sc", 80, 34), title="Body")
    border = make.part(make.rounds("sc", [200, 208]), title="Border", in_rounds=True)
    _, findings = measure_parts(sized, make.worked(body, border))
    assert findings == ()


# A border of sc round a blanket of dc is not as high as the blanket's rows. By the heights of the two stitches
# (windchilde.com; the flat circle) a round of sc is 0.52 of a row of dc.
@pytest.mark.parametrize(("kind", "share"), [("dc", 1.0), ("sc", 0.5226), ("hdc", 0.758), ("sl st", 0.171)])
def test_a_border_is_as_high_as_its_stitches(make: Any, kind: str, share: float) -> None:
    rows = make.panel("dc", 32, 10) + make.rounds(kind, [140, 148])
    for gauge in (make.gauge(16, 10), make.gauge(16, 10, stitch="dc")):
        measures, _ = measure_parts(make.sized(gauges=(gauge,)), make.worked(make.part(rows)))
        named = by_name(measures)
        assert named["width"].cm[0] == pytest.approx(20 + 4 * share, abs=0.01)
        assert named["length"].cm[0] == pytest.approx(10 + 4 * share, abs=0.01)


def test_an_edging_of_its_own_is_as_deep_as_its_stitches(make: Any) -> None:
    body = make.part(make.panel("dc", 32, 10), title="Body")
    edging = make.part(make.rounds("sc", [140, 148]), title="Border", in_rounds=True)
    measures, _ = measure_parts(make.sized(gauges=(make.gauge(16, 10),)), make.worked(body, edging))
    assert by_name(measures)["depth"].cm[0] == pytest.approx(2 * 0.5226, abs=0.01)


def test_a_border_of_its_own_gauge_is_measured_by_it(make: Any) -> None:
    gauges = (make.gauge(16, 10, name="body"), make.gauge(16, 20, name="border"))
    body = make.part(make.panel("dc", 32, 10), title="Body", gauge="body")
    edging = make.part(make.rounds("sc", [140, 148]), title="Border", in_rounds=True, gauge="border")
    measures, _ = measure_parts(make.sized(gauges=gauges), make.worked(body, edging))
    assert by_name(measures)["depth"].cm[0] == pytest.approx(1)


# NIST Handbook 44, appendix C: 1 in = 2.54 cm, exactly. The trade's rule is 4 in = 10 cm.
@pytest.mark.parametrize(("cm_per_inch", "over", "cm", "inches"), [
    (2.5, Length(10, "cm"), 50, 20), (2.5, INCHES_4, 50, 20),
    (2.54, Length(10, "cm"), 50, 19.685), (2.54, INCHES_4, 50.8, 20),
])  # fmt: skip
def test_an_inch_by_the_trade_and_by_the_standard(
    make: Any, cm_per_inch: float, over: Length, cm: float, inches: float
) -> None:
    width = measure_panel(make, 80, 34, replace(make.gauge(16, 17, over), cm_per_inch=cm_per_inch))["width"]
    assert (width.cm[0], width.inches[0]) == pytest.approx((cm, inches), abs=0.001)


def test_a_measure_tells_its_target_and_how_far_it_is_off(make: Any) -> None:
    sizes = (make.size("Small", width=Length(50.3, "cm")), make.size("Large", width=Length(59, "cm")))
    sized = make.sized(gauges=(make.gauge(),), sizes=sizes)
    part = make.part(make.panel("sc", 80, 34), make.panel("sc", 96, 34))
    width = by_name(measure_parts(sized, make.worked(part))[0])["width"]
    assert (width.target_name, width.target_unit, width.target) == ("width", "cm", (50.3, 59))
    assert width.difference == pytest.approx((-0.3, 1.0))


def test_a_target_in_inches_is_compared_in_inches(make: Any) -> None:
    sizes = (make.size("Small", width=Length(19.75, "in")),)
    sized = make.sized(gauges=(make.gauge(over=INCHES_4),), sizes=sizes)
    width = by_name(measure_parts(sized, make.worked(make.part(make.panel("sc", 80, 34))))[0])["width"]
    assert (width.target_unit, width.target, width.difference) == (
        "in",
        pytest.approx((19.75,)),
        pytest.approx((0.25,)),
    )


def measure_sample(make: Any, **measures: Length) -> tuple[Finding, ...]:
    sample = Sample(YarnReport("", {}, make.span), measures, make.span)
    sized = make.sized(gauges=(make.gauge(16, 18),), sample=sample)
    return measure_parts(sized, make.worked(make.part(make.panel("sc", 80, 90))))[1]


# Common practice: the fabric of a blanket hangs longer than its swatch says; 90 rows at 18 in 10 cm are 50 cm.
def test_a_sample_that_its_gauge_contradicts_is_told_by_how_much(make: Any) -> None:
    (finding,) = measure_sample(make, length=Length(54, "cm"))
    assert finding.code == "sample-off"
    assert finding.message == "the sample's length is 54 cm, but the gauge makes it 50 cm"
    assert finding.label == "4 cm (7.4 %) longer than 90 rows at the gauge"
    assert finding.expected == "a swatch with the sample's 16.7 rows in 10 cm"
    (in_inches,) = measure_sample(make, width=Length(18, "in"))
    assert in_inches.message == "the sample's width is 18 in, but the gauge makes it 20 in"


def test_error_a_measure_of_the_sample_that_the_pattern_has_not(make: Any) -> None:
    (finding,) = measure_sample(make, lenght=Length(50, "cm"))
    assert finding.code == "yarn-unplaced"
    assert finding.message == 'the sample names measure "lenght", which is not there'
    assert finding.fix == 'write "length"'


@pytest.mark.parametrize("length", [Length(50.5, "cm"), Length(49, "cm"), Length(20, "in"), Length(51.4, "cm")])
def test_a_sample_within_a_few_percent_agrees(make: Any, length: Length) -> None:
    assert measure_sample(make, length=length) == ()


@given(sts=st.integers(1, 400), rows=st.integers(1, 400), per=st.floats(4, 40))
def test_centimetres_are_two_and_a_half_inches(make: Any, sts: int, rows: int, per: float) -> None:
    for measure in measure_panel(make, sts, rows, make.gauge(per, per)).values():
        assert measure.cm[0] == pytest.approx((measure.inches[0] or 0) * 2.5)
