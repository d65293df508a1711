"""A gauge of whole motifs measures the motif and scales its yarn."""

import math

import pytest

from booklet.pipeline import Proof, prove_text

SQUARE = """
Rnd 1: 12 dc in magic ring, join. (12 dc)

Rnd 2: Ch 3 (counts as dc), (dc, ch 2, 2 dc) in same st, dc in next 2 sts,
*(2 dc, ch 2, 2 dc) in next st, dc in next 2 sts; rep from * 2 more times; join. (24 dc, 4 ch-2 sps)
"""
CIRCLE = """
Rnd 1: 12 dc in magic ring, join. (12 dc)

Rnd 2: Ch 3 (counts as dc), dc in same st, 2 dc in each st around; join. (24 dc)
"""


def prove(gauge: str, rounds: str, title: str = "Square") -> Proof:
    text = f"""---
title: Gate
gauge: {gauge}
yarn: {{weight: 4 Medium, fibre: wool, ball: 100 g = 200 m}}
hook: 5 mm
---
## {title}
{rounds}"""
    proof = prove_text(text, "pattern.md")
    assert not [finding for finding in proof.findings if finding.code != "amount-uncertain"], proof.findings
    return proof


@pytest.mark.parametrize("gauge", ["{square: 1 square = 10 cm}", "{square: 2 squares = 20 cm}", "1 square = 10 cm"])
def test_a_square_is_as_wide_as_its_gauge_says(gauge: str) -> None:
    proof = prove(gauge, SQUARE)
    assert proof.amounts is not None
    (across,) = proof.amounts.measures
    assert (across.name, across.cm, across.count) == ("width across", pytest.approx((10.0,)), (2,))


def test_the_way_round_is_that_of_the_shape() -> None:
    """24 dc go along four sides of 10 cm, and along the edge of a circle 10 cm across."""
    square, circle = prove("{square: 1 square = 10 cm}", SQUARE), prove("{circle: 1 circle = 10 cm}", CIRCLE, "Circle")
    assert square.sized is not None
    assert circle.sized is not None
    assert square.sized.pattern.gauges[0].sts_per_cm == pytest.approx(24 / 40)
    assert circle.sized.pattern.gauges[0].sts_per_cm == pytest.approx(24 / (10 * math.pi))


def test_a_larger_motif_of_the_same_stitches_needs_more_yarn() -> None:
    small, large = prove("{square: 1 square = 10 cm}", SQUARE), prove("{square: 1 square = 12 cm}", SQUARE)
    assert small.amounts is not None
    assert large.amounts is not None
    assert large.amounts.yarn.needs[0].metres > small.amounts.yarn.needs[0].metres


def test_what_follows_from_a_motif_is_no_gauge_of_the_author() -> None:
    proof = prove("{square: 1 square = 10 cm}", SQUARE)
    assert proof.sized is not None
    assert [gauge.motif for gauge in proof.sized.pattern.stated_gauges] == ["square"]
