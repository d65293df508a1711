"""Ovals against plain geometry: a straight part with half a circle at either end, all rounds of one height."""

import pytest

from booklet.amounts.ovals import goes_round_chain, straight_part
from booklet.model.amounts import Measure
from booklet.pipeline import Proof, prove_text

HEAD = "---\ntitle: Oval\ngauge: 16 sts and 20 rows = 10 cm in sc\n---\n\n"
BASE = (
    "Ch 21.\n\nRnd 1: 2 sc in 2nd ch from hook, sc in next 18 ch, 4 sc in last ch; working along opposite side of "
    "foundation ch, sc in next 18 ch, 2 sc in same ch as first 2 sc; join with sl st in first sc. (44 sc)\n\n"
    "Rnd 2: Ch 1, 2 sc in each of first 2 sc, sc in next 18 sc, 2 sc in each of next 4 sc, sc in next 18 sc, "
    "2 sc in each of last 2 sc; join. (52 sc)\n\n"
)
SIDES = "Rnds 3-16: Ch 1, sc in each sc around; join. (52 sc)\n"


def measure(body: str) -> tuple[Proof, dict[str, Measure]]:
    proof = prove_text(HEAD + body, "oval.md")
    assert proof.amounts is not None
    return proof, {measure.name: measure for measure in proof.amounts.measures}


def test_a_bag_has_a_base_and_sides() -> None:
    _, measures = measure(BASE + SIDES)
    assert list(measures) == ["circumference", "base length", "base width", "depth"]
    assert measures["base width"].cm[0] == pytest.approx(4 * 0.5)
    assert measures["base length"].cm[0] == pytest.approx(19 * 0.625 + 4 * 0.5)
    assert measures["depth"].cm[0] == pytest.approx(14 * 0.5)


def test_a_flat_oval_is_long_and_wide() -> None:
    _, measures = measure(BASE)
    assert list(measures) == ["length", "width across"]
    assert measures["length"].cm[0] == pytest.approx(19 * 0.625 + 4 * 0.5)


def test_a_tube_on_a_ring_of_chains_is_no_oval() -> None:
    proof, measures = measure(
        "Ch 40, join with sl st in first ch.\n\nRnds 1-9: Ch 1, sc in each st around; join. (40 sc)\n"
    )
    assert list(measures) == ["circumference", "length"]
    assert proof.worked is not None
    rows = proof.worked.parts[0].rows[0]
    assert not goes_round_chain(rows[1])
    assert straight_part(rows) == 0
