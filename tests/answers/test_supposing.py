"""What if: a gauge, a number or a yarn is another."""

from collections.abc import Callable

import pytest

from booklet.answers.asked import OtherGauge, read_other_gauge, read_other_number, read_other_yarn
from booklet.answers.supposing import Known, suppose_gauge, suppose_number, suppose_yarn
from booklet.answers.telling import tell_supposition
from booklet.reading.quantities import UnreadError

Prove = Callable[[str], Known]

SCARF = """---
title: Long Row
gauge: {gauge}
yarn: {{weight: 4 Medium, fibre: wool, ball: 100 g = 200 m}}
colours: {{A: Slate}}
---
Row 1: Ch {chain}, sc in 2nd ch from hook and in each ch across. ({sts} sc)

Row 2: Ch 1, turn, sc in each st across. ({sts} sc)
"""


def test_a_gauge_of_28_instead_of_29_over_4_in_makes_290_sts_41_43_in(prove: Prove) -> None:
    # Worked case: tracykm.blogspot.com 2010, 28 against 29 sts over 4 in on 40 in.
    known = prove(SCARF.format(gauge="29 sts and 30 rows = 4 in in single crochet", chain=291, sts=290))
    width = suppose_gauge(known, OtherGauge("", 28)).measures[0]
    assert (width.inches, width.then_inches) == (pytest.approx(40), pytest.approx(41.43, abs=0.005))


def test_13_instead_of_14_is_answered_for_every_size(blanket: Known) -> None:
    answer = suppose_gauge(blanket, read_other_gauge("13"))
    widths = [measure for measure in answer.measures if measure.name == "width"]
    # stitches / 13 x 10 cm, by hand
    assert [(m.size, round(m.then_cm or 0, 2)) for m in widths] == [("Lap", 98.46), ("Throw", 129.23), ("Bed", 172.31)]
    lengths = [measure for measure in answer.measures if measure.name == "length"]
    assert all(measure.cm == measure.then_cm for measure in lengths)
    assert answer.rows_as_stated
    assert {need.size for need in answer.yarn} == {"Lap", "Throw", "Bed"}
    assert all(need.then_metres > need.metres for need in answer.yarn)


def test_fewer_stitches_than_stated_ask_for_a_smaller_hook_and_more_for_a_larger(blanket: Known) -> None:
    # Direction: the trade body's course and creativepartnersllc.com; one tutorial in print has it backwards.
    fewer = suppose_gauge(blanket, read_other_gauge("13")).hook
    more = suppose_gauge(blanket, read_other_gauge("15")).hook
    assert fewer is not None
    assert (fewer.direction, fewer.used_mm, fewer.try_mm, fewer.us) == ("smaller", 5.5, 5.0, "US H-8")
    assert more is not None
    assert (more.direction, more.try_mm) == ("larger", 6.0)


def test_the_stated_gauge_over_another_length_changes_nothing(blanket: Known) -> None:
    answer = suppose_gauge(blanket, read_other_gauge("28 sts and 24 rows = 20 cm"))
    assert answer.hook is None
    assert answer.reworked is None
    for measure in answer.measures:
        assert measure.then_cm == pytest.approx(measure.cm)
    for need in answer.yarn:
        assert need.then_metres == pytest.approx(need.metres)


def test_other_numbers_keep_the_measures(blanket: Known) -> None:
    reworked = suppose_gauge(blanket, read_other_gauge("13")).reworked
    assert reworked is not None
    assert reworked.proves
    # width / 4 x 1.3 sts to the cm, to the nearest even number: 29.6, 39 and 52
    assert [(number.name, number.then) for number in reworked.numbers] == [("panel", (30, 40, 52))]
    stitches = {row.line: row.then_made for row in reworked.rows if row.label == "Row 1"}
    assert set(stitches.values()) == {(120, 160, 208)}


def test_a_smaller_size_is_named_where_it_comes_nearer(hat: Known) -> None:
    # At 11 sts in 10 cm the Newborn's 40 sts are 36.4 cm round: what Baby was to be.
    sizes = {choice.wanted: choice.work for choice in suppose_gauge(hat, read_other_gauge("11")).sizes}
    assert sizes["Baby"] == "Newborn"
    assert sizes["Adult"] == "Child"


def test_a_swatch_keeps_its_weight_at_another_gauge(blanket: Known) -> None:
    """The swatch was made at the stated gauge; calibrated anew, looser stitches would seem to take no more yarn."""
    assert blanket.pattern.swatch is not None
    yarn = suppose_gauge(blanket, read_other_gauge("12")).yarn
    assert all(1.0 < need.then_metres / need.metres < 14 / 12 for need in yarn)


def test_four_stitches_more_in_each_panel(blanket: Known) -> None:
    reworked = suppose_number(blanket, read_other_number("panel+4")).reworked
    assert reworked is not None
    assert reworked.proves
    assert reworked.numbers[0].then == (36, 46, 60)
    width = next(measure for measure in reworked.measures if measure.name == "width")
    # 4 sts at 14 in 10 cm are 2.9 cm, in each of four panels
    assert (width.then_cm or 0) - (width.cm or 0) == pytest.approx(4 * 4 / 1.4)
    foundation = reworked.rows[0]
    assert (foundation.label, foundation.made, foundation.then_made) == (
        "Foundation",
        (129, 169, 225),
        (145, 185, 241),
    )
    assert all(need.then_metres > need.metres for need in reworked.yarn)


def test_a_number_that_breaks_the_rows_is_told(blanket: Known) -> None:
    reworked = suppose_number(blanket, read_other_number("panel+1")).reworked
    assert reworked is not None
    assert not reworked.proves
    assert any("error[" in line for line in reworked.findings)


def test_more_rows_in_a_band(blanket: Known) -> None:
    reworked = suppose_number(blanket, read_other_number("band+2")).reworked
    assert reworked is not None
    assert [(row.rows, row.then_rows) for row in reworked.rows] == [((30, 42, 58), (32, 44, 60))] * 4


def test_a_finer_yarn_makes_less_of_it_by_an_estimated_gauge(blanket: Known) -> None:
    answer = suppose_yarn(blanket, read_other_yarn("3 Light, 50 g = 150 m"))
    assert answer.basis == "estimated"
    # Middles of the bands of sc in 4 in (Craft Yarn Council): 14.5 for Light, 12.5 for Medium.
    assert answer.gauges[0].then_sts == pytest.approx(14 * 14.5 / 12.5)
    assert answer.hook_band_mm == (4.5, 5.5)
    width = answer.measures[0]
    assert width.then_cm == pytest.approx((width.cm or 0) * 12.5 / 14.5)
    assert all(need.then_balls and need.then_balls * 150 >= need.then_metres for need in answer.yarn)


# Craft Yarn Council: 32-42 dc in 4 in for Lace, 11-14 sc for Medium. Stitches times hook are the same for both.
def test_lace_is_counted_in_double_crochet(blanket: Known) -> None:
    answer = suppose_yarn(blanket, read_other_yarn("0 Lace, 50 g = 400 m"))
    assert answer.gauges[0].then_sts == pytest.approx(14 * 37 / 12.5)
    assert (answer.counted_in, answer.hook_band_mm) == ("dc", (1.4, 2.25))
    assert all(need.then_metres < need.metres for need in answer.yarn)
    assert any("counts lace in dc" in line for line in tell_supposition(blanket.pattern, answer))


# A pattern that states no gauge has its yarn from a size, a motif or what is usual; in a lighter yarn all are smaller.
@pytest.mark.parametrize(
    "given", ["sizes: {One: {width: 50 cm, length: 60 cm}}", "hook: 6 mm", "gauge: 1 square = 50 cm", ""]
)
def test_another_yarn_where_no_gauge_is_stated(prove: Prove, given: str) -> None:
    text = f"""---
title: Square
{given}
yarn: {{weight: 4 Medium, ball: 100 g = 200 m}}
---
Row 1: Ch 61, sc in 2nd ch from hook and in each ch across. (60)

Row 2: Ch 1 (does not count as a st), turn, sc in each st across. (60)

Rep last row until there are 60 rows.
"""
    (need,) = suppose_yarn(prove(text), read_other_yarn("3 Light")).yarn
    assert need.then_metres / need.metres == pytest.approx(12.5 / 14.5, rel=0.02)


def test_without_a_ball_no_balls_are_counted(blanket: Known) -> None:
    answer = suppose_yarn(blanket, read_other_yarn("5"))
    assert {need.then_balls for need in answer.yarn} == {None}
    assert answer.reworked is not None
    assert not any("ball-missing" in line for line in answer.reworked.findings)


@pytest.mark.parametrize(
    ("ask", "text", "words"),
    [
        ("gauge", "cables: 13", "has no gauge"),
        ("number", "pannel+4", "has no number"),
        ("number", "panel=1 (2)", "is given 2 values"),
        ("number", "panel-200", "comes to"),
    ],
)
def test_error_what_does_not_fit_the_pattern(blanket: Known, ask: str, text: str, words: str) -> None:
    def answer() -> object:
        if ask == "gauge":
            return suppose_gauge(blanket, read_other_gauge(text))
        if ask == "number":
            return suppose_number(blanket, read_other_number(text))
        return suppose_yarn(blanket, read_other_yarn(text))

    with pytest.raises(UnreadError, match=words):
        answer()


def test_error_several_gauges_ask_which(prove: Prove) -> None:
    text = SCARF.format(gauge="", chain=11, sts=10).replace(
        "gauge: ", "gauge:\n  sc: 14 sts and 16 rows = 10 cm\n  dc: 13 sts and 8 rows = 10 cm\n"
    )
    known = prove(text)
    with pytest.raises(UnreadError, match="has 2 gauges"):
        suppose_gauge(known, read_other_gauge("13"))
    assert suppose_gauge(known, read_other_gauge("dc: 12")).gauges[0].then_sts == 12
