"""Rows on both sides of an opening, told from lace, and what they measure."""

import pytest

from booklet.amounts.openings import find_breaks, find_opening, stack_rows
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

AFTER = """### First side

Row 3: Ch 1, turn, hdc in next 12 sts, leave rem sts unworked. (12 hdc)

Row 4: Ch 1, turn, hdc2tog, hdc in next 10 sts. (11 sts)

Rows 5-6: Ch 1, turn, hdc in each st across. (11 hdc)

Fasten off.

### Second side

With RS facing, sk next 16 sts of Row 2 and join yarn in next st.

Next row (RS): Ch 1, hdc in each st across. (12 hdc)

Next row: Ch 1, turn, hdc in next 10 sts, hdc2tog. (11 sts)

Next row: Ch 1, turn, hdc in each st across. (11 hdc)

Rep last row once more. (11 hdc)
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


def test_a_side_worked_after_the_other_stands_beside_it() -> None:
    worked = prove(PLAIN + AFTER).worked
    assert worked is not None
    (part,) = (part for part in worked.parts if part.rows[0])
    rows = [row for row in part.rows[0] if row.kind == "row"]
    assert find_breaks(rows) == [None] * 10
    opening = find_opening(part.rows[0])
    assert opening is not None
    assert (opening.rows, opening.first, opening.second, opening.between) == (4, 11, 11, 18)
    assert [row.label for row in stack_rows(part.rows[0])][-4:] == ["Row 3", "Row 4", "Row 5", "Row 6"]


# 11 of 16 sts to 10 cm are 6.875 cm; between them 40 - 22 sts, 11.25 cm; 4 of 12 rows to 10 cm are 3.33 cm.
@pytest.mark.parametrize(
    ("kind", "names"),
    [
        ("top", ("shoulder", "neck width", "neck depth")),
        ("bag", ("each side at the end", "opening width", "opening depth")),
    ],
)
@pytest.mark.parametrize("sides", [NECK, AFTER], ids=["at once", "one after the other"])
def test_what_the_sides_and_the_opening_measure(kind: str, names: tuple[str, str, str], sides: str) -> None:
    amounts = prove(PLAIN + sides, kind).amounts
    assert amounts is not None
    measures = {measure.name: (measure.count[0], measure.cm[0]) for measure in amounts.measures}
    assert set(measures) == {"width", "length", *names}
    assert measures["length"] == (6, pytest.approx(5))
    assert measures[names[0]] == (11, pytest.approx(6.875))
    assert measures[names[1]] == (18, pytest.approx(11.25))
    assert measures[names[2]] == (4, pytest.approx(4 / 1.2))


def test_a_piece_without_an_opening_keeps_its_width_at_the_end() -> None:
    amounts = prove(PLAIN + "Row 3: Ch 1, turn, hdc2tog, hdc in each st to last 2 sts, hdc2tog. (38 sts)\n").amounts
    assert amounts is not None
    assert [measure.name for measure in amounts.measures] == ["width", "width at the end", "length"]
