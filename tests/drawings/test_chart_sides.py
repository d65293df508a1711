"""The second side of an opening stands on the row that the first one left, at the same height."""

import pytest

from booklet.drawings.chart_sheet import FlatChart
from booklet.drawings.charts import chart_pieces
from booklet.pipeline import prove_text

VEST = """---
title: Reed Vest
gauge: 16 sts and 12 rows = 10 cm in hdc
---

## Front

Ch {chain}.

Row 1 (RS): Hdc in 3rd ch from hook (the skipped ch do not count as a st) and in each ch across. ({sts} hdc)

Row 2: Ch 1, turn, hdc in each st across. ({sts} hdc)

Row 3: Ch 1, turn, hdc in next 8 sts, hdc2tog, leave rem sts unworked. (9 sts)

Row 4: Ch 1, turn, hdc2tog, hdc in next 7 sts. (8 sts)

With RS facing, join yarn at the last unworked sts of Row 2.

Next row (RS): Skip next {skip} sts of Row 2, join yarn in next st, ch 1, hdc2tog, hdc in next 8 sts. (9 sts)

Next row: Ch 1, turn, hdc in next 7 sts, hdc2tog. (8 sts)
"""


def chart_vest(sts: int) -> FlatChart:
    proof = prove_text(VEST.format(chain=sts + 2, sts=sts, skip=sts - 20), "vest.md")
    assert not [finding.message for finding in proof.findings if finding.severity.value == "error"]
    assert proof.worked is not None
    (chart,) = chart_pieces(proof.worked, 0)
    assert isinstance(chart.drawn, FlatChart)
    return chart.drawn


def test_a_second_side_stands_beside_the_first() -> None:
    """By the words: 8 hdc and hdc2tog at either end of 40 sts; both sides are two rows high on Row 2."""
    laid = chart_vest(40).laid
    by_name = {row.row.name: row for row in laid}
    below, first, second = by_name["2"], by_name["3"], by_name["5"]
    assert second.base == pytest.approx(below.line)
    assert second.line == pytest.approx(first.line)
    assert by_name["6"].line == pytest.approx(by_name["4"].line)
    sides = sorted([(first.left, first.right), (second.left, second.right)])
    assert sides[0][0] == pytest.approx(below.left, abs=0.6)
    assert sides[1][1] == pytest.approx(below.right, abs=0.6)
    assert sides[1][0] - sides[0][1] > 15


def test_a_narrow_opening_has_one_side_drawn() -> None:
    """In less than twelve stitches the numbers of both sides would meet."""
    assert [row.row.name for row in chart_vest(26).laid if row.row.name] == ["1", "2", "3", "4"]
