"""Yarn that is not worked in stitches, strands held together, the swatch, and what is left."""

from typing import Any

import pytest

from booklet.amounts.stitch_yarn import Scale, describe_stitch, measure_stitch, reference_width
from booklet.amounts.yarn import measure_yarn
from booklet.model.amounts import YarnNeed, YarnUse
from booklet.model.measure import Length
from booklet.model.pattern import Colour, FinishingYarn, SizedNumber, Swatch
from booklet.pipeline import prove_text


def use_of(make: Any, letters: str = "", rows: int = 20, **facts: Any) -> YarnUse:
    letter = letters[:1]
    facts = {"gauges": (make.gauge(),), "yarn": make.yarn(weight=4, ball_grams=50, ball_metres=90)} | facts
    sized = make.sized(colours=facts.pop("colours", make.colours(letters)), **facts)
    use, findings = measure_yarn(sized, make.worked(make.part(make.panel("sc", 20, rows, letter))))
    assert use is not None
    assert findings == ()
    return use


def need_of(make: Any, letters: str = "", **facts: Any) -> YarnNeed:
    return use_of(make, letters, **facts).needs[0]


def finish(
    make: Any, kind: str, number: str, strands: int, length: str, times: float, colour: str = ""
) -> FinishingYarn:
    return FinishingYarn(kind, kind, number, strands, length, times, colour, make.span)


# Common practice: sewing takes three times the seam; strands of fringe are as long as they are cut, and a wrap of a
# pompom goes over both sides of its card.
@pytest.mark.parametrize(
    ("kind", "number", "strands", "length", "times", "metres"),
    [
        ("seam", "1", 1, "40 cm", 3, 1.2),
        ("seam", "1", 1, "2 * length", 3, 6.0),
        ("trimming", "panel / 2", 3, "30 cm", 1, 9.0),
        ("trimming", "4", 100, "6 cm", 2, 48.0),
    ],
)
def test_yarn_beside_the_stitches(
    make: Any, kind: str, number: str, strands: int, length: str, times: float, metres: float
) -> None:
    facts: dict[str, Any] = {
        "sizes": (make.size("Small", length=Length(1, "m")),),
        "named": (SizedNumber("panel", (20,), make.span),),
    }
    bare = need_of(make, **facts)
    need = need_of(make, finishing=(finish(make, kind, number, strands, length, times),), **facts)
    assert need.metres - bare.metres == pytest.approx(metres)
    assert (need.seam_metres if kind == "seam" else need.trimming_metres) == pytest.approx(metres)


# windchilde.com has 5.1 in of yarn in an inch of chain; drawn through the fabric it takes about a fifth more.
def test_a_line_of_surface_slip_stitch_takes_six_times_its_length(make: Any) -> None:
    stitch = describe_stitch("sl st")
    assert stitch is not None
    assert measure_stitch(stitch, Scale(1, 1)) / reference_width() == pytest.approx(6, rel=0.03)
    need = need_of(make, finishing=(finish(make, "seam", "1", 1, "2 m", 6),))
    assert need.seam_metres == pytest.approx(12)


def test_a_border_round_joined_squares_is_worked_once() -> None:
    text = """---
title: Four Squares
gauge: 14 sts and 8 rows = 10 cm
yarn: {weight: 4, ball: 100 g = 200 m}
---
## Square (make 4)

Ch 4, join with sl st in first ch to form a ring.

Rnd 1: Ch 3 (counts as dc), 2 dc in ring, ch 2, *3 dc in ring, ch 2; rep from * 2 more times, join with sl st in top of
beg ch-3. (12 dc)

## HEADING

Rnd 1: Join in any corner, ch 1, work 40 sc evenly around, join with sl st in first sc. (40 sc)
"""
    stitches = []
    for heading in ("Border", "Square border"):
        amounts = prove_text(text.replace("HEADING", heading), "squares.md").amounts
        assert amounts is not None
        assert amounts.yarn is not None
        stitches.append(amounts.yarn.totals[""].stitches)
    assert stitches[1] - stitches[0] == 3 * 43  # both joins and the chain too


def test_a_trimming_in_a_colour_of_its_own(make: Any) -> None:
    use = use_of(make, "AB", finishing=(finish(make, "trimming", "10", 2, "25 cm", 1, "B"),))
    assert [(need.letter, need.stitches) for need in use.needs][1] == ("B", 0)
    assert use.needs[1].metres == pytest.approx(5)


@pytest.mark.parametrize(("number", "length"), [("fields", "30 cm"), ("2", "widht"), ("2", "30"), ("1 - 5", "3 cm")])
def test_error_a_trimming_that_cannot_be_worked_out(make: Any, number: str, length: str) -> None:
    sized = make.sized(
        gauges=(make.gauge(),),
        yarn=make.yarn(ball_metres=90),
        finishing=(finish(make, "trimming", number, 1, length, 1),),
    )
    _, findings = measure_yarn(sized, make.worked(make.part(make.panel("sc", 20, 20))))
    assert [finding.code for finding in findings] == ["formula-wrong"]


def test_a_seam_in_an_unknown_colour_is_told(make: Any) -> None:
    sized = make.sized(
        gauges=(make.gauge(),),
        yarn=make.yarn(ball_metres=90),
        colours=make.colours("A"),
        finishing=(finish(make, "seam", "1", 1, "30 cm", 3, "Q"),),
    )
    _, findings = measure_yarn(sized, make.worked(make.part(make.panel("sc", 20, 20, "A"))))
    assert [finding.code for finding in findings] == ["yarn-unplaced"]


def test_a_fringe_that_is_given_is_not_missed(make: Any) -> None:
    use_of(make, has=("fringe 12 cm",), finishing=(finish(make, "fringe", "20", 2, "26 cm", 1),))


def test_tails_are_as_long_as_they_are_cut(make: Any) -> None:
    usual, longer = need_of(make), need_of(make, tail=Length(25, "cm"))
    assert longer.metres - usual.metres == pytest.approx(2 * 0.10)


def test_a_new_ball_is_joined_where_the_last_runs_out(make: Any) -> None:
    small, large = need_of(make, rows=20), need_of(make, rows=200)
    assert small.ends == 2
    assert large.ends == 2 + 2 * int((large.metres - large.tail_metres) // 90)
    assert large.tail_metres == pytest.approx(large.ends * 0.15)


# A shop's table of stranded yarns: n strands held together are n times the metres.
def test_two_strands_take_twice_the_yarn_of_one(make: Any) -> None:
    one = need_of(make)
    two = need_of(make, yarn=make.yarn(weight=4, ball_grams=50, ball_metres=90, strands=2))
    assert two.metres == pytest.approx(2 * one.metres)
    assert (two.ends, two.balls) == (2 * one.ends, 2)


def test_one_colour_alone_may_be_held_double(make: Any) -> None:
    double = (Colour("A", "Fog", "#808080", make.span, strands=2),)
    assert need_of(make, "A", colours=double).metres == pytest.approx(2 * need_of(make, "A").metres)


def test_a_swatch_of_doubled_yarn_holds_both_strands(make: Any) -> None:
    swatch = Swatch(20, 20, 20.0, "sc", make.span)
    facts = {"swatch": swatch, "yarn": make.yarn(weight=4, ball_grams=100, ball_metres=200, strands=2)}
    use = use_of(make, **facts)
    single = use_of(make, swatch=swatch, yarn=make.yarn(weight=4, ball_grams=100, ball_metres=200))
    worked = [u.needs[0].metres - u.needs[0].tail_metres for u in (use, single)]
    assert worked[0] == pytest.approx(worked[1])


def test_the_swatch_is_bought_besides(make: Any) -> None:
    swatch = Swatch(20, 20, 25.0, "", make.span)
    use = use_of(make, "AB", swatch=swatch, rows=30)
    need = use.needs[0]
    assert need.swatch_metres == pytest.approx(45)
    assert need.metres_to_buy == pytest.approx(need.metres * 1.1)
    assert (need.balls or 0) * 90 - need.metres_to_buy - 45 == pytest.approx(need.left_metres)
    assert use.totals[""].swatch_metres == pytest.approx(45)
    left_out = Swatch(20, 20, 25.0, "", make.span, included=False)
    assert need_of(make, "AB", swatch=left_out, rows=30).swatch_metres == 0


def test_several_swatches_are_bought_together(make: Any) -> None:
    swatches = (Swatch(20, 20, 25.0, "", make.span), Swatch(10, 20, 10.0, "rib", make.span))
    assert need_of(make, swatch=swatches[0], swatches=swatches).swatch_metres == pytest.approx(63)


def test_what_is_left_of_the_last_ball_in_grams_too(make: Any) -> None:
    need = need_of(make)
    assert need.left_grams == pytest.approx((need.left_metres or 0) * 50 / 90)


def test_small_colours_could_share_a_ball(make: Any) -> None:
    rows = [
        make.row(make.fabric(["sc"] * 20, letter))
        for letter, number in (("A", 66), ("B", 8), ("C", 8))
        for _ in range(number)
    ]
    sized = make.sized(
        gauges=(make.gauge(),), colours=make.colours("ABC"), yarn=make.yarn(ball_grams=50, ball_metres=90)
    )
    use, _ = measure_yarn(sized, make.worked(make.part(rows)))
    assert use is not None
    (shared,) = use.shared
    assert (shared.letters, shared.balls, shared.apart) == (("B", "C"), 1, 2)
    assert shared.metres_to_buy == pytest.approx(sum(need.metres_to_buy for need in use.needs[1:]))


def test_the_parts_of_a_need_add_up(make: Any) -> None:
    finishing = (finish(make, "seam", "1", 1, "40 cm", 3), finish(make, "trimming", "4", 2, "30 cm", 1))
    bare, need = need_of(make, tail=Length(1, "cm")), need_of(make, finishing=finishing, tail=Length(1, "cm"))
    assert need.metres == pytest.approx(bare.metres + need.seam_metres + need.trimming_metres)


# Common practice: a long or spike stitch is drawn up over the rows that it reaches down.
@pytest.mark.parametrize(
    ("words", "rows"),
    [
        ("sc in next st", 0),
        ("spike sc in next st", 1),
        ("long sc in next st", 1),
        ("sc in next st 2 rows below, sk next st", 1),
        ("spike sc in next st 3 rows below, sk next st", 2),
    ],
)
def test_long_stitches_are_counted_at_their_length(words: str, rows: int) -> None:
    text = f"""---
title: Spikes
gauge: 12.5 sts and 13.09 rows = 4 in in sc
yarn: {{weight: 4, ball: 100 g = 200 m}}
---
Row 1: Ch 31, sc in 2nd ch from hook and in each ch across. (30)

Row 2: Ch 1 (does not count as a st), turn, sc in each st across. (30)

Row 3: Ch 1 (does not count as a st), turn, sc in each st across. (30)

Row 4: Ch 1 (does not count as a st), turn, *sc in next 2 sts, {words}; rep from * across. (30)
"""
    lengths = []
    for source in (text, text.replace(words, "sc in next st")):
        amounts = prove_text(source, "spikes.md").amounts
        assert amounts is not None
        assert amounts.yarn is not None
        lengths.append(amounts.yarn.totals[""].metres)
    row = describe_stitch("sc")
    assert row is not None
    assert (lengths[0] - lengths[1]) * 100 / 2.54 == pytest.approx(10 * rows * 2 * row.height, rel=0.01)
