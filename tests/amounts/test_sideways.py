"""Rows that lie across the others are measured as they lie. The sums are worked out by hand."""

import pytest

from booklet.amounts.sideways import sort_rows
from booklet.pipeline import Proof, prove_text
from tests.patterns.sideways import BACK, FRONT, HAT, HEAD


def prove(text: str) -> Proof:
    proof = prove_text(text, "pattern.md")
    assert not [finding for finding in proof.findings if finding.severity == "error"]
    return proof


def measure(proof: Proof) -> dict[str, tuple[float, ...]]:
    assert proof.amounts is not None
    return {m.name: tuple(cm or 0.0 for cm in m.cm) for m in proof.amounts.measures}


def test_a_hat_stands_on_the_brim_that_its_first_round_goes_along() -> None:
    measures = measure(prove(HAT))
    assert set(measures) == {"circumference", "length", "band depth", "band length"}
    assert measures["circumference"] == pytest.approx((72 / 1.4, 78 / 1.4, 84 / 1.4))
    assert measures["band depth"] == pytest.approx((10 / 1.6,) * 3)
    assert measures["band length"] == pytest.approx((96 / 2, 104 / 2, 112 / 2))
    assert measures["length"] == pytest.approx((10 / 1.6 + 14 / 1.1,) * 3)


def test_a_back_stands_on_its_ribbing() -> None:
    measures = measure(prove(BACK))
    assert set(measures) == {"width", "length", "band depth", "band length"}
    assert measures["width"] == pytest.approx((66 / 1.4, 72 / 1.4, 78 / 1.4))
    assert measures["length"] == pytest.approx((10 / 1.6 + 40 / 1.1,) * 3)


def test_borders_along_the_sides_widen_a_panel_and_leave_its_length() -> None:
    measures = measure(prove(FRONT))
    assert measures["width"] == pytest.approx((30 / 1.4 + 2 * 6 / 1.8,))
    assert measures["length"] == pytest.approx((90 / 1.8,))


def test_rows_at_the_upper_edge_are_rows_like_the_others() -> None:
    text = FRONT.replace(
        "work 70 sc evenly along row ends of the right side. (70 sc)", "work 30 sc evenly across. (30 sc)"
    )
    text = text.split("Rows 2-6")[0]
    assert measure(prove(text))["length"] == pytest.approx((91 / 1.8,))


def test_a_border_all_round_is_no_band() -> None:
    around = FRONT.split("Fasten off.")[0] + "Rnd 1: Ch 1, sc 240 evenly around all edges; join. (240 sc)\n"
    proof = prove(around)
    part = proof.worked.parts[0] if proof.worked else None
    assert part is not None
    rows = sort_rows(proof.sized.pattern, part, part.rows[0]) if proof.sized else None
    assert rows is not None
    assert (rows.band, rows.sides) == ((), ())


def test_length_that_is_worked_to_counts_from_the_lower_edge_of_the_band() -> None:
    text = BACK.replace("Rows 2-40:", "Row 2:") + "\nRep Row 2 until piece measures 40 cm from beg.\n"
    assert measure(prove(text))["length"] == pytest.approx((40.0,) * 3, abs=10 / 11)


def test_a_heading_within_a_piece_names_the_gauge_of_its_rows() -> None:
    """Ribbing under its own heading is as high as its own gauge says, and no further."""
    text = f"""{HEAD}
## Sleeve

### Brim

Ch 29.

Row 1: Sc in 2nd ch from hook and in each ch across. (28 sc)

Rows 2-10: Ch 1, turn. Sc in each st across. (28 sc)

### Upper part

Rows 11-21: Ch 3 (counts as dc), turn. Dc in next st and in each st across. (28 dc)
"""
    proof = prove(
        text.replace("  brim: ", "  main: 14 sts and 11 rows = 10 cm in dc\n  brim: ").replace(
            "  body: 14 sts and 11 rows = 10 cm in dc\n", ""
        )
    )
    assert measure(proof)["length"] == pytest.approx((10 / 2 + 11 / 1.1,) * 3)
