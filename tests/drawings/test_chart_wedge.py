"""Rounds too wide for a page, drawn as one repeat or as what lies about an increase.

Every count is held against the rows of the whole piece, not against those of the wedge.
"""

from collections import Counter
from pathlib import Path

import pytest

from booklet.drawings.chart_cut import Chart
from booklet.drawings.chart_marks import LINK, STITCH, list_marks
from booklet.drawings.chart_sheet import LEAST_MM, FlatChart, RoundChart, fit_flat, plan_flat
from booklet.drawings.chart_wedge import cut_rows, find_wedge
from booklet.drawings.charts import chart_pieces, draw_charts
from booklet.drawings.picture import Ink
from booklet.drawings.plan import Symbol
from booklet.model.work import WorkedRow
from booklet.pipeline import Proof, prove_file, prove_text

from .checking import check_frame

SOUND = Path(__file__).parents[1] / "patterns" / "sound"
JOIN = "join with sl st in top of ch-3."
LACE = "*dc in next st, ch 1, sk next st; rep from * around"


def prove(rows: str) -> Proof:
    return prove_text(f"---\ntitle: Case\n---\n\nCh 3 counts as a dc throughout.\n\n{rows}", "case.md")


def wheel(rounds: int) -> str:
    """A flat circle of dc: 12 more in every round (common practice)."""
    lines = [f"Rnd 1: Ch 3, 11 dc in a magic ring, {JOIN} (12 dc)"]
    lines.append(f"Rnd 2: Ch 3, dc in same st, 2 dc in each st around, {JOIN} (24 dc)")
    for number in range(3, rounds + 1):
        plain = f"dc in next {number - 2} sts"
        again = f"*2 dc in next st, {plain}; rep from * around"
        lines.append(f"Rnd {number}: Ch 3, dc in same st, {plain}, {again}, {JOIN} ({12 * number} dc)")
    return "\n\n".join(lines)


def square(rounds: int) -> str:
    """A solid square: 2 dc, ch 2, 2 dc in each corner."""
    corner = "dc in each st to next ch-2 sp, (2 dc, ch 2, 2 dc) in next ch-2 sp"
    first = "Rnd 1: Ch 3, 2 dc in a magic ring, ch 2, *3 dc in ring, ch 2; rep from * 2 more times,"
    lines = [f"{first} {JOIN} (12 dc, 4 ch-2 sps)"]
    for number in range(2, rounds + 1):
        rest = "" if number == 2 else "dc in each rem st, "
        lines.append(f"Rnd {number}: Ch 3, {corner}, *{corner}; rep from * 2 more times, {rest}{JOIN}")
    return "\n\n".join(lines)


def yoke() -> str:
    """Eight repeats of a neck of 96, with a lace round amid the increases."""

    def grow(number: int, plain: int, count: int) -> str:
        again = f"*2 dc in next st, dc in next {plain + 1} sts; rep from * to last st, 2 dc in last st"
        return f"Rnd {number}: Ch 3, dc in next {plain} sts, {again}, {JOIN} ({count} dc)"

    return "\n\n".join(
        [
            "Ch 96, join with sl st in first ch.",
            f"Rnd 1: Ch 3, dc in each ch around, {JOIN} (96 dc)",
            grow(2, 6, 108),
            f"Rnd 3: Ch 4 (counts as dc, ch 1), sk next st, {LACE}, join with sl st in 3rd ch of ch-4.",
            f"Rnd 4: Ch 3, dc in next ch-1 sp, *dc in next dc, dc in next ch-1 sp; rep from * around, {JOIN} (108 dc)",
            *(grow(number, number + 2, 12 * number + 60) for number in range(5, 13)),
        ]
    )


def charts_of(proof: Proof) -> tuple[Chart, ...]:
    assert proof.worked is not None
    return chart_pieces(proof.worked, 0)


def rows_of(proof: Proof) -> dict[str, WorkedRow]:
    assert proof.worked is not None
    return {str(row.number): row for row in proof.worked.parts[0].rows[0] if row.kind == "round"}


def count_heads(row: WorkedRow) -> Counter[str]:
    """Stitches of a round, a chain at its start as the stitch that it stands for, and its chains in spaces."""
    counts: Counter[str] = Counter()
    for mark in list_marks(row.fabric):
        if mark.role == LINK or (mark.kind == "ch" and not mark.tops):
            continue
        counts[mark.kind] += max(1, mark.chains) if mark.kind == "ch" else 1
    return counts


@pytest.mark.parametrize(
    ("text", "turns", "drawn"),
    [(wheel(26), 12, 26), (square(18), 4, 18), (yoke(), 6, 12)],
    ids=["wheel", "square", "yoke"],
)
def test_a_wedge_is_its_share_of_every_round(text: str, turns: int, drawn: int, ink: Ink) -> None:
    proof = prove(text)
    assert not any(finding.severity.value == "error" for finding in proof.findings)
    charts = charts_of(proof)
    chart = charts[-1]
    assert isinstance(chart.drawn, FlatChart)
    assert chart.drawn.wedge is not None
    assert chart.drawn.wedge.turns == turns
    assert chart.rows[-1].name == str(drawn)
    assert chart.left == 0
    whole = rows_of(proof)
    symbols: dict[int, Counter[str]] = {}
    for shape in plan_flat(chart.drawn, ink).shapes:
        if isinstance(shape, Symbol):
            symbols.setdefault(shape.row, Counter())[shape.kind] += 1
    for index, row in enumerate(chart.rows):
        if not row.name:
            continue
        own = symbols[index]
        opening = next(mark.chains for mark in row.marks if mark.counts and mark.role != STITCH)
        heads = Counter({"dc": own["dc"] + 1, "ch": own["ch"] - opening})  # the chain at the start is the first dc
        assert {kind: number * turns for kind, number in (+heads).items()} == count_heads(whole[row.name]), row.name


def test_a_large_motif_goes_on_as_a_wedge() -> None:
    """The round chart shows what fits, and the wedge begins with its last round."""
    inner, outer = charts_of(prove(wheel(26)))
    assert isinstance(inner.drawn, RoundChart)
    assert inner.goes_on
    assert inner.rows[-1].name == outer.rows[0].name
    assert inner.left == 0


def test_a_yoke_that_fits_no_page_is_drawn_whole_in_a_wedge(ink: Ink) -> None:
    """A raglan whose halves are alike: from the start of the round over a sleeve to the middle of the round."""
    proof = prove_file(str(SOUND / "raglan-yoke.md"))
    assert proof.worked is not None
    assert proof.pattern is not None
    (chart,) = chart_pieces(proof.worked, 1)
    assert isinstance(chart.drawn, FlatChart)
    assert chart.drawn.wedge is not None
    assert chart.drawn.wedge.turns == 2
    picture = next(iter(draw_charts(proof.pattern, proof.worked, 1, ink)))
    for words in (picture.alt, picture.caption):
        assert "Drawn is the first of the 2 repeats of each round; the others are worked like it." in words
    assert "further rounds are in words alone" in picture.caption


def test_rounds_that_do_not_repeat_are_cut_about_their_first_increase(ink: Ink) -> None:
    """Two increases, not opposite one another, each two stitches more in every round."""
    grow, last = "(dc, ch 1, dc) in next ch", f"dc in each rem dc, {JOIN}"
    first = f"Rnd 1: Ch 3, dc in next 79 ch, {grow}, dc in next 129 ch, {grow}, dc in next 99 ch, {JOIN}"
    again = "*dc in each dc to next ch-1 sp, (dc, ch 1, dc) in next ch-1 sp; rep from * once more"
    lines = ["Ch 310, join with sl st in first ch.", first]
    lines += [f"Rnd {number}: Ch 3, {again}, {last}" for number in range(2, 9)]
    proof = prove("\n\n".join(lines))
    whole = rows_of(proof)
    rows = proof.worked.parts[0].rows[0] if proof.worked else ()
    assert [row.status for row in rows] == ["worked"] * 9
    wedge = find_wedge(rows, 3)
    assert wedge is not None
    assert wedge.turns == 0
    assert wedge.stitches == 17  # the place of the increase, and 8 on either side of it
    chart = charts_of(proof)[-1]
    assert isinstance(chart.drawn, FlatChart)
    assert chart.drawn.wedge is not None
    assert (chart.drawn.wedge.turns, chart.drawn.wedge.stitches) == (0, 17)
    assert chart.left == 0
    for number, row in enumerate(wedge.rows[1:], 1):
        # of the whole round it is the corner with the stitches beside it, one more on either side in each round
        assert count_heads(row) == {"dc": 16 + 2 * number, "ch": 1}
        assert set(row.fabric.counts) <= set(whole[str(number)].fabric.counts)
    plan = plan_flat(chart.drawn, ink)
    check_frame(plan)
    assert "about the first increase" in [text.text for text in plan.texts]


@pytest.mark.parametrize("text", [wheel(26), square(18), yoke()], ids=["wheel", "square", "yoke"])
def test_wedges_fit_the_page_and_their_labels_stand_clear(text: str, ink: Ink) -> None:
    chart = charts_of(prove(text))[-1]
    assert isinstance(chart.drawn, FlatChart)
    assert fit_flat(chart.drawn) >= LEAST_MM
    plan = plan_flat(chart.drawn, ink)
    check_frame(plan)
    assert plan.width <= 170
    names = [text.text for text in plan.texts]
    assert all(row.name in names for row in chart.rows if row.name)


def test_a_small_circle_needs_no_wedge() -> None:
    (chart,) = charts_of(prove(wheel(9)))
    assert isinstance(chart.drawn, RoundChart)
    assert not chart.goes_on


def test_a_wedge_ends_where_rounds_turn() -> None:
    proof = prove(wheel(8).replace("Rnd 6: Ch 3,", "Rnd 6: Ch 3, turn,"))
    assert proof.worked is not None
    rows = [row for row in proof.worked.parts[0].rows[0] if row.kind == "round"]
    assert len(cut_rows(rows, 0, 1)) == 5
