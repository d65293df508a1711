"""Rows on both sides of an opening, told from lace, and what they measure."""

import pytest

from booklet.amounts.openings import find_breaks
from booklet.pipeline import Proof, prove_text

FRONT = """---
title: Harbour
kind: {kind}
gauge: 16 sts and 12 rows = 10 cm in half double crochet, 4.5 mm hook
yarn: {{weight: 3 Light, ball: 50 g = 120 m}}
---

Throughout, ch 1 does not count as a stitch.

## Piece

"""
PLAIN = """Ch 42.

Row 1 (RS): Hdc in 3rd ch from hook (the skipped ch do not count as a st) and in each ch across. (40 hdc)

Row 2: Ch 1, turn, hdc in each st across. (40 hdc)

"""
SHELLS = (
    "Row 3: Ch 1, turn, sc in first st, *sk next 6 sts, 13 dc in next st, sk next 5 sts, sc in next st; "
    "rep from * across. (39 dc, 4 sc)"
)
NECK = """Row 3: Ch 1, turn, hdc in next 12 sts; sk next 16 sts; with a second ball, hdc in next 12 sts. (24 hdc)

Row 4: Ch 1, turn, hdc in next 10 sts, hdc2tog; with the other ball, hdc2tog, hdc in next 10 sts. (22 sts)

Rows 5-6: Ch 1, turn, hdc in next 11 sts; with the other ball, hdc in next 11 sts. (22 hdc)
"""


def prove(body: str, kind: str = "top") -> Proof:
    proof = prove_text(FRONT.format(kind=kind) + body, "harbour.md")
    assert [finding.message for finding in proof.findings] == []
    return proof


def breaks(body: str) -> list[int | None]:
    worked = prove(body).worked
    assert worked is not None
    return find_breaks([row for row in worked.parts[-1].rows[0] if row.kind == "row"])


def test_a_row_on_both_sides_of_a_neck_and_the_rows_above_it() -> None:
    assert breaks(PLAIN + NECK) == [None, None, 12, 11, 11, 11]


@pytest.mark.parametrize(
    "row",
    [
        SHELLS,
        "Row 3: Ch 1, turn, hdc in next 12 sts, ch 16, sk next 16 sts, hdc in next 12 sts. (24 hdc, 1 ch-16 sp)",
        "Row 3: Ch 1, turn, *hdc in next 3 sts, sk next st; rep from * across. (30 hdc)",
        "Row 3: Ch 1, turn, hdc in next 12 sts, leave rem sts unworked. (12 hdc)",
    ],
)  # fmt: skip
def test_lace_chains_and_short_rows_are_no_opening(row: str) -> None:
    assert breaks(PLAIN + row + "\n") == [None, None, None]


# 11 of 16 sts to 10 cm are 6.875 cm; between them 40 - 22 sts, 11.25 cm; 4 of 12 rows to 10 cm are 3.33 cm.
@pytest.mark.parametrize(
    ("kind", "names"),
    [
        ("top", ("shoulder", "neck width", "neck depth")),
        ("bag", ("each side at the end", "opening width", "opening depth")),
    ],
)
def test_what_the_sides_and_the_opening_measure(kind: str, names: tuple[str, str, str]) -> None:
    amounts = prove(PLAIN + NECK, kind).amounts
    assert amounts is not None
    measures = {measure.name: (measure.count[0], measure.cm[0]) for measure in amounts.measures}
    assert set(measures) == {"width", "length", *names}
    assert measures[names[0]] == (11, pytest.approx(6.875))
    assert measures[names[1]] == (18, pytest.approx(11.25))
    assert measures[names[2]] == (4, pytest.approx(4 / 1.2))


def test_a_piece_without_an_opening_keeps_its_width_at_the_end() -> None:
    amounts = prove(PLAIN + "Row 3: Ch 1, turn, hdc2tog, hdc in each st to last 2 sts, hdc2tog. (38 sts)\n").amounts
    assert amounts is not None
    assert [measure.name for measure in amounts.measures] == ["width", "width at the end", "length"]
