"""Yarn that is not the default one: made up as 25 % off, and found again from what a maker weighs or unravels."""

import random
from typing import Any

import pytest

from booklet.amounts.scales import yarn_of
from booklet.amounts.stitch_yarn import Scale, measure_stitch, reference_width
from booklet.amounts.yarn import measure_yarn
from booklet.model.amounts import YarnUse
from booklet.model.measure import CM_PER_INCH, Length
from booklet.model.pattern import Sample, Swatch, Unravelled, YarnAmount, YarnReport
from booklet.model.work import WorkedRow

METRES_A_GRAM = 2.0
# Fabrics of a blanket, as rows of so many stitches that are repeated.
FABRICS = {
    "sc": [["sc"] * 120],
    "dc": [["dc"] * 110],
    "moss": [["sc", "ch"] * 60 + ["sc"]],
    "mesh": [["dc", "ch"] * 50 + ["dc"]],
    "bobbles": [["sc"] * 120, ["sc", "sc", "sc", "5-dc bobble"] * 30],
    "waffle": [["FPdc", "dc", "dc"] * 40, ["dc", "FPdc", "FPdc"] * 40],
    "waves": [["sc", "hdc", "dc", "tr", "dc", "hdc"] * 20],
    "shells": [["sc", *["dc"] * 5] * 20],
}


def list_rows(make: Any, fabric: str, number: int = 160) -> list[WorkedRow]:
    made = [make.row(make.fabric(kinds)) for kinds in FABRICS[fabric]]
    return [made[at % len(made)] for at in range(number)]


def use_of(make: Any, rows: list[WorkedRow], **facts: Any) -> YarnUse:
    sized = make.sized(gauges=(make.gauge(14, 13),), yarn=make.yarn(weight=4, ball_grams=100, ball_metres=200), **facts)
    use, _ = measure_yarn(sized, make.worked(make.part(rows)))
    assert use is not None
    return use


def metres_of(use: YarnUse) -> float:
    return next(iter(use.totals.values())).metres


def work_truly(make: Any, rows: list[WorkedRow], off: float, seed: int) -> dict[str, float]:
    """What the rows would really take: every stitch so much off, and each kind 4 % off again in its own way."""
    chance = random.Random(seed)  # noqa: S311
    kinds = sorted({kind for row in rows for (_, kind) in row.fabric.yarn})
    own = {kind: off * chance.uniform(0.96, 1.04) for kind in kinds}
    use = use_of(make, rows)
    bare = metres_of(use) - next(iter(use.totals.values())).tail_metres
    scale = Scale(1, 1)  # the shares alone count
    by_kind: dict[str, float] = {}
    for row in rows:
        for (_, kind), number in row.fabric.yarn.items():
            by_kind[kind] = by_kind.get(kind, 0.0) + number * measure_stitch(yarn_of(kind), scale)
    whole = sum(by_kind.values())
    return {kind: bare * length / whole * own[kind] for kind, length in by_kind.items()}


# A swatch of 24 stitches by about as many rows, weighed to the gram on kitchen scales.
@pytest.mark.parametrize("fabric", FABRICS)
@pytest.mark.parametrize("off", [0.75, 1.25])
@pytest.mark.parametrize("rows", [16, 24])
def test_a_swatch_finds_a_yarn_that_is_a_quarter_off(make: Any, fabric: str, off: float, rows: int) -> None:
    worked = list_rows(make, fabric)
    truth = sum(work_truly(make, worked, off, seed=rows).values())
    places = sum(row.made for row in worked)
    grams = round(truth / METRES_A_GRAM / places * 24 * rows)
    before, after = use_of(make, worked), use_of(make, worked, swatch=Swatch(24, rows, grams, "", make.span))
    tails = next(iter(after.totals.values())).tail_metres
    assert abs(metres_of(before) - tails - truth) > 0.15 * truth
    assert metres_of(after) - tails == pytest.approx(truth, rel=0.07)
    total = next(iter(after.totals.values()))
    assert total.low_metres - tails <= truth <= total.high_metres - tails
    assert (after.basis, total.how) == ("swatch", "computed")


# A swatch of another fabric than the item's, measured too, carries the yarn over by published lengths: what it cannot
# tell is how the maker's stitches differ from one another, here up to 8 %.
@pytest.mark.parametrize("fabric", [name for name in FABRICS if name != "sc"])
@pytest.mark.parametrize("off", [0.75, 1.25])
def test_a_swatch_of_plain_stitches_carries_over(make: Any, fabric: str, off: float) -> None:
    worked = list_rows(make, fabric)
    truth = sum(work_truly(make, worked, off, seed=1).values())
    stitch = yarn_of("sc")
    scale = Scale(10 / 14 / CM_PER_INCH / reference_width(), 10 / 16 / CM_PER_INCH / stitch.height)
    grams = round(measure_stitch(stitch, scale) * 28 * 32 * off * CM_PER_INCH / 100 / METRES_A_GRAM)
    swatch = Swatch(28, 32, grams, "sc", make.span, after=(Length(20, "cm"), Length(20, "cm")))
    use = use_of(make, worked, swatch=swatch)
    tails = next(iter(use.totals.values())).tail_metres
    assert metres_of(use) - tails == pytest.approx(truth, rel=0.07)


# by-katerina.com: unravel 10 stitches of the swatch and measure, to the centimetre.
@pytest.mark.parametrize("fabric", FABRICS)
@pytest.mark.parametrize("off", [0.75, 1.25])
def test_an_unravelled_strand_finds_it_too(make: Any, fabric: str, off: float) -> None:
    worked = list_rows(make, fabric)
    truth = sum(work_truly(make, worked, off, seed=2).values())
    centimetres = round(truth * 100 / sum(row.made for row in worked) * 20)
    use = use_of(make, worked, unravelled=Unravelled(20, Length(centimetres, "cm"), "", make.span))
    tails = next(iter(use.totals.values())).tail_metres
    assert metres_of(use) - tails == pytest.approx(truth, rel=0.07)
    assert use.basis == "unravelled"


# The finished sample knows best: each colour by its weight, though swatch and strand say something else.
@pytest.mark.parametrize("off", [0.75, 1.25])
def test_the_sample_is_followed_whatever_swatch_and_strand_say(make: Any, off: float) -> None:
    rows = [make.row(make.fabric(["dc"] * 90, letter)) for letter in "AB" for _ in range(40)]
    colours = make.colours("AB")
    bare = {need.letter: need.metres for need in use_of(make, rows, colours=colours).needs}
    used = {"A": round(bare["A"] * off / METRES_A_GRAM), "B": round(bare["B"] * off * 1.1 / METRES_A_GRAM)}
    report = YarnReport("", {letter: YarnAmount(float(grams), "g") for letter, grams in used.items()}, make.span)
    misled = {
        "swatch": Swatch(20, 20, 19.0, "dc", make.span),
        "unravelled": Unravelled(10, Length(90, "cm"), "dc", make.span),
    }
    use = use_of(make, rows, colours=colours, sample=Sample(report, {}, make.span), **misled)
    assert use.basis == "sample"
    for need in use.needs:
        assert need.how == "measured"
        assert need.metres == pytest.approx(used[need.letter] * METRES_A_GRAM)
        assert need.high_metres - need.low_metres == pytest.approx(2 * 0.03 * need.metres)
