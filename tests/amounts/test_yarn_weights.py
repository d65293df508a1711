"""Yarn over the whole space: every weight from lace to jumbo with every kind of stitch."""

from typing import Any

import pytest

from booklet.amounts.scales import scale_by_usual
from booklet.amounts.stitch_yarn import describe_stitch, measure_stitch, reference_width
from booklet.amounts.usual_gauge import middle
from booklet.model.pattern import Hook
from booklet.terms import load_table

YARD = 36.0
WEIGHTS = range(8)
FABRICS = ["sc", "hdc", "dc", "tr", "dtr", "FPdc", "BPhdc", "esc", "edc"]
KINDS = [*FABRICS, "ch", "sl st", "rsc", "fsc", "sc2tog", "dc3tog", "3-dc cl", "5-dc bobble", "puff", "pc",
         "5-dc shell", "v-st", "1-row long sc", "picot ch", "magic ring"]  # fmt: skip
# Metres in 100 g in the middle of a shop's table of weights; lace 600 and more, jumbo under 40.
METRES = {0: 600, 1: 450, 2: 330, 3: 230, 4: 165, 5: 105, 6: 60, 7: 40}


def length_of(make: Any, kind: str, weight: int) -> float:
    """Inches of yarn in one stitch at the middle of the weight's band."""
    scale, stitch = scale_by_usual(make.pattern(yarn=make.yarn(weight=weight))), describe_stitch(kind)
    assert scale is not None
    assert stitch is not None
    return measure_stitch(stitch, scale)


def rate_of(make: Any, kind: str, weight: int) -> float:
    """Yards to the square inch of a fabric of the stitch."""
    stitch = describe_stitch(kind)
    assert stitch is not None
    width = 4 / middle(load_table("yarn_weights")[weight]["sc_per_4in"])
    height = stitch.height * width / reference_width()
    return length_of(make, kind, weight) / YARD / (width * height)


@pytest.mark.parametrize("kind", KINDS)
def test_a_heavier_yarn_takes_more_for_a_stitch(make: Any, kind: str) -> None:
    lengths = [length_of(make, kind, weight) for weight in WEIGHTS]
    assert lengths == sorted(lengths)
    assert lengths[0] > 0.3
    assert lengths[7] < 65


@pytest.mark.parametrize("kind", FABRICS)
def test_a_heavier_yarn_takes_less_for_an_area(make: Any, kind: str) -> None:
    rates = [rate_of(make, kind, weight) for weight in WEIGHTS]
    assert rates == sorted(rates, reverse=True)


# Published totals by the square inch (blankets compared): worsted 0.83-0.94, super bulky about 0.4 at 6 to 7 sts in
# 4 in; the middle of its band is 8. Plain fabric weighs half a kilogram to 1.7 kg a square metre (common practice).
@pytest.mark.parametrize("kind", ["sc", "hdc", "dc", "tr"])
def test_plain_fabric_of_every_weight_is_a_blanket(make: Any, kind: str) -> None:
    assert 0.75 <= rate_of(make, kind, 4) <= 0.94
    assert 0.37 <= rate_of(make, kind, 6) * 7 / 8 <= 0.5
    for weight in WEIGHTS:
        metres = rate_of(make, kind, weight) * 0.9144 * 1550  # square inches in a square metre
        assert 400 <= metres / METRES[weight] * 100 <= 1700


# A stitch never takes less than one that it is built on.
@pytest.mark.parametrize(
    ("less", "more"),
    [("ch", "sl st"), ("sl st", "sc"), ("sc", "hdc"), ("hdc", "dc"), ("dc", "tr"), ("tr", "dtr"), ("dc", "FPdc"),
     ("sc", "esc"), ("sc", "1-row long sc"), ("dc", "edc"), ("sc", "rsc"), ("sc", "sc2tog"), ("dc", "2-dc cl"),
     ("3-dc cl", "4-dc cl"), ("4-dc cl", "5-dc bobble"), ("5-dc bobble", "pc"), ("3-hdc cl", "3-hdc puff")],
)  # fmt: skip
@pytest.mark.parametrize("weight", WEIGHTS)
def test_what_is_built_on_a_stitch_takes_more(make: Any, less: str, more: str, weight: int) -> None:
    assert length_of(make, less, weight) < length_of(make, more, weight)


# A larger hook makes larger stitches, a smaller one smaller: from half to twice the middle of the guide's band.
@pytest.mark.parametrize("weight", WEIGHTS)
def test_a_larger_hook_takes_more_for_a_stitch(make: Any, weight: int) -> None:
    mm = middle(load_table("yarn_weights")[weight]["hook_mm"])
    scales = []
    for hook in (mm / 2, mm, mm * 2):
        scale = scale_by_usual(
            make.pattern(yarn=make.yarn(weight=weight), hooks=(Hook(hook, f"{hook:g} mm", make.span),))
        )
        assert scale is not None
        scales.append(scale.width)
    assert scales == sorted(scales)
    assert scales[1] == pytest.approx(scale_by_usual(make.pattern(yarn=make.yarn(weight=weight))).width)  # type: ignore[union-attr]
    assert scales[2] / scales[0] < 2.1
