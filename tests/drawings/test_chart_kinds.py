"""Charts of ovals, of pieces with rows on trust, and for left-handed makers, looked at as plans."""

import math
import re
from collections import Counter
from pathlib import Path

import pytest

from booklet.drawings.chart_blocks import BlockChart
from booklet.drawings.chart_cut import Chart
from booklet.drawings.chart_marks import count_worked
from booklet.drawings.chart_sheet import FlatChart, RoundChart, plan_blocks, plan_flat, plan_rounds
from booklet.drawings.charts import chart_pieces, draw_charts, mirror_words
from booklet.drawings.picture import Ink
from booklet.drawings.plan import Plan, Symbol, shape_box
from booklet.pipeline import Proof, prove_file, prove_text

SOUND = Path(__file__).parents[1] / "patterns" / "sound"
DISH = """Ch 14.

Rnd 1: 3 dc in 4th ch from hook (skipped ch count as dc), dc in next 9 ch, 6 dc in last ch, working along other side
of chain, dc in next 9 ch, 2 dc in last ch, join with sl st in top of beg ch. (30 dc)

Rnd 2: Ch 3 (counts as dc), dc in same st, 2 dc in each of next 3 sts, dc in next 9 sts, 2 dc in each of next 6 sts,
dc in next 9 sts, 2 dc in each of last 2 sts, join with sl st in top of ch-3. (42 dc)
"""
TRUST = """Ch 21.

Row 1: Sc in 2nd ch from hook and in each ch across. (20 sc)

Row 2: Ch 1, turn, sc in each st across. (20 sc)

Row 3: Ch 1, turn, sc in first st, woggle the next 18 sts, sc in last st. (20 sts)

Row 4: Ch 1, turn, woggle back across. (20 sts)

Row 5: Ch 3 (counts as dc), turn, sk first st, dc in each st across. (20 dc)

Row 6: Ch 1, turn, sc in each st across. (20 sc)
"""
TRUST_ROUNDS = """Rnd 1: 6 sc in magic ring. (6 sc)

Rnd 2: 2 sc in each st around. (12 sc)

Rnd 3: Wiggle once around. (18 sts)

Rnd 4: (Sc in next 2 sts, 2 sc in next st) 6 times. (24 sc)

Rnd 5: (Sc in next 3 sts, 2 sc in next st) 6 times. (30 sc)
"""


def prove(rows: str) -> Proof:
    return prove_text(f"---\ntitle: Case\n---\n\n{rows}", "case.md")


def chart_of(proof: Proof) -> Chart:
    assert proof.worked
    (chart,) = chart_pieces(proof.worked, 0)
    return chart


def plan_of(chart: Chart, ink: Ink, is_mirrored: bool = False) -> Plan:
    drawn = chart.drawn
    assert isinstance(drawn, FlatChart | RoundChart)
    return plan_flat(drawn, ink, is_mirrored) if isinstance(drawn, FlatChart) else plan_rounds(drawn, ink, is_mirrored)


def count_symbols(plan: Plan) -> dict[int, Counter[str]]:
    counts: dict[int, Counter[str]] = {}
    for shape in plan.shapes:
        if isinstance(shape, Symbol):
            counts.setdefault(shape.row, Counter())[shape.kind] += 1
    return counts


def oval_of(name: str) -> Chart:
    return chart_of(prove_file(str(SOUND / "oval-sole.md")) if name == "sole" else prove(DISH))


@pytest.mark.parametrize("name", ["sole", "dish"])
def test_an_oval_goes_round_its_chain(name: str, ink: Ink) -> None:
    chart = oval_of(name)
    assert isinstance(chart.drawn, RoundChart)
    assert chart.drawn.is_oval
    drawn = count_symbols(plan_of(chart, ink))
    for index, row in enumerate(chart.rows):
        assert drawn[index] == count_worked(row.row)
    half = chart.drawn.shape.half
    first = [glyph for glyph in chart.glyphs if glyph.row == 1 and glyph.kind in ("sc", "dc")]
    above = [glyph for glyph in first if glyph.head[1] > 0 and abs(glyph.feet[0][0]) < half - 0.1]
    below = [glyph for glyph in first if glyph.head[1] < 0 and abs(glyph.feet[0][0]) < half - 0.1]
    assert len(above) == len(below) == 9  # "in next 9 ch" on either side
    for over, under in zip(above, reversed(below), strict=True):
        assert over.feet[0][0] == pytest.approx(under.feet[0][0])  # the same chain from its two sides
    far = [glyph for glyph in first if glyph.feet[0][0] < -half + 0.1]
    assert len(far) == (4 if name == "sole" else 6)


def test_rounds_of_an_oval_lie_outside_one_another() -> None:
    chart = oval_of("sole")
    assert isinstance(chart.drawn, RoundChart)
    shape = chart.drawn.shape
    for glyph in chart.glyphs:
        if glyph.kind == "sc":
            _, head = shape.outward(glyph.head)
            _, foot = shape.outward(glyph.feet[0])
            assert head > foot


def test_words_of_an_oval(ink: Ink) -> None:
    proof = prove_file(str(SOUND / "oval-sole.md"))
    assert proof.pattern
    assert proof.worked
    picture = draw_charts(proof.pattern, proof.worked, 0, ink)[0]
    assert "4 rounds round a chain, along both of its sides" in picture.alt
    assert "from the chain in the middle" in picture.caption


@pytest.mark.parametrize(("radius", "step"), [(0.25, 0.01), (3.0, 0.01)])
def test_shares_of_an_oval_are_even_along_its_edge(radius: float, step: float) -> None:
    chart = oval_of("sole")
    assert isinstance(chart.drawn, RoundChart)
    shape = chart.drawn.shape
    lengths = [math.dist(shape.point(at * step, radius), shape.point((at + 1) * step, radius)) for at in range(100)]
    assert sum(lengths) == pytest.approx(shape.around(radius), rel=0.02)
    for share in (0.05, 0.2, 0.45, 0.7, 0.99):
        inner = shape.point(share, radius)
        outer = shape.point(shape.lift(share, radius, radius + 1), radius + 1)
        assert math.dist(inner, outer) == pytest.approx(1.0, abs=1e-6)  # straight outside


def test_rows_on_trust_are_left_blank_and_said_to_be(ink: Ink) -> None:
    proof = prove(TRUST)
    assert proof.pattern
    assert proof.worked
    chart = chart_of(proof)
    assert [(row.name, row.blank) for row in chart.rows[1:]] == [("1", 0), ("2", 0), ("3–4", 2), ("5", 0), ("6", 0)]
    plan = plan_of(chart, ink)
    assert 3 not in count_symbols(plan)
    assert "in words" in [text.text for text in plan.texts]
    assert [laid.direction for laid in chart.drawn.laid[1:]] == [-1, 1, 1, -1, 1]  # type: ignore[union-attr]
    picture = draw_charts(proof.pattern, proof.worked, 0, ink)[0]
    assert "Rows 3–4 are left blank: the words alone say how to work there." in picture.caption
    assert ("Rows 3–4 (WS)", "in words alone; 20 sts at the end") in picture.table
    assert chart.left == 0


def test_rounds_on_trust_are_a_broken_ring(ink: Ink) -> None:
    chart = chart_of(prove(TRUST_ROUNDS))
    assert [row.blank for row in chart.rows] == [0, 0, 1, 0, 0]
    drawn = count_symbols(plan_of(chart, ink))
    assert 2 not in drawn
    assert drawn[3] == {"sc": 24}
    inner, outer = chart.drawn.laid[1].radius, chart.drawn.laid[2].radius  # type: ignore[union-attr]
    assert outer > inner + 1


def test_a_piece_mostly_on_trust_has_no_chart() -> None:
    rows = "Ch 11.\n\nRow 1: Sc in 2nd ch from hook and in each ch across. (10 sc)\n\n"
    rows += "\n\n".join(f"Row {number}: Ch 1, turn, woggle across. (10 sts)" for number in range(2, 7))
    rows += "\n\nRow 7: Ch 1, turn, sc in each st across. (10 sc)\n"
    proof = prove(rows)
    assert proof.worked
    assert chart_pieces(proof.worked, 0) == ()


@pytest.mark.parametrize("name", ["shell-blanket", "blo-ribbing", "overlay-mosaic", "granny-square", "oval-sole"])
def test_the_left_handed_set_is_the_mirror_of_the_other(name: str, ink: Ink) -> None:
    """Left-handed makers work a right-side row from left to right (common practice): numbers change sides with it."""
    proof = prove_file(str(SOUND / f"{name}.md"))
    chart = chart_of(proof)
    right, left = plan_of(chart, ink), plan_of(chart, ink, is_mirrored=True)
    assert count_symbols(right) == count_symbols(left)
    names = {row.name for row in chart.rows if row.name}
    if not isinstance(chart.drawn, FlatChart):
        assert {text.text for text in left.texts} == {text.text for text in right.texts}
        return

    def side(plan: Plan, name: str) -> float:
        symbols = [shape_box(shape) for shape in plan.shapes if isinstance(shape, Symbol)]
        middle = (min(box[0] for box in symbols) + max(box[2] for box in symbols)) / 2
        return math.copysign(1, next(text.centre[0] for text in plan.texts if text.text == name) - middle)

    for number in names:
        assert side(right, number) == -side(left, number)
    # the first row is the lowest in both
    first, last = min(names, key=int), max(names, key=int)
    heights = {text.text: text.centre[1] for text in left.texts}
    assert heights[first] > heights[last]


def test_words_of_the_left_handed_set(ink: Ink) -> None:
    proof = prove_file(str(SOUND / "shell-blanket.md"))
    assert proof.pattern
    assert proof.worked
    right = draw_charts(proof.pattern, proof.worked, 0, ink)
    left = draw_charts(proof.pattern, proof.worked, 0, ink, is_mirrored=True)
    assert [picture.name for picture in left] == [
        f"{picture.name}-left" for picture in right if picture.name.startswith("chart")
    ]
    assert (
        "black and read from left to right, those of the wrong side grey and read from right to left" in left[0].caption
    )
    assert left[0].caption.startswith("For left-handed makers.")
    # rows are worked in the same order, so their words and the text twin are those of the other set
    counts = re.compile(r"\d+ (?:sc|dc|ch)")
    assert counts.findall(left[0].alt) == counts.findall(right[0].alt)
    assert left[0].table == ()
    assert mirror_words("counter-clockwise") == "clockwise"


def test_rows_along_an_edge_have_a_chart_of_their_own(ink: Ink) -> None:
    proof = prove_file(str(SOUND / "mitten.md"))
    assert proof.pattern
    assert proof.worked
    cuff, hand, thumb = chart_pieces(proof.worked, 0)
    assert [chart.title for chart in (cuff, hand, thumb)] == ["Cuff", "Cuff: Hand", "Cuff: Thumb"]
    assert [chart.left for chart in (cuff, hand, thumb)] == [0, 0, 0]
    assert [row.name for row in thumb.rows] == ["1", "2", "10"]
    for chart in (hand, thumb):
        assert isinstance(chart.drawn, FlatChart)
        assert chart.drawn.stands_on_edge
        assert {laid.direction for laid in chart.drawn.laid} == {-1}  # rounds go to the left
        drawn = count_symbols(plan_of(chart, ink))
        if chart.drawn.across is None:
            for index, row in enumerate(chart.rows):
                assert drawn[index] == count_worked(row.row)
    captions = [picture.caption for picture in draw_charts(proof.pattern, proof.worked, 0, ink)]
    assert "the edge that the first row is worked along" in captions[1]
    assert "the edge" not in captions[0]


def test_blocks_lie_along_the_diagonal(ink: Ink) -> None:
    """12 rows that grow by a block, then 11 that lose one (the pattern's own counts): a square of 12 by 12."""
    proof = prove_file(str(SOUND / "corner-throw.md"))
    chart = chart_of(proof)
    drawn = chart.drawn
    assert isinstance(drawn, BlockChart)
    cells = [(column, number - column) for number, laid in enumerate(drawn.laid) for column in laid.columns]
    assert len(set(cells)) == len(cells) == 144
    assert {x for x, _ in cells} == {y for _, y in cells} == set(range(12))
    counts = count_symbols(plan_blocks(drawn, ink))
    for index, row in enumerate(chart.rows):
        assert counts[index] == count_worked(row.row)
    for number, laid in enumerate(drawn.laid):
        order = list(laid.columns)
        assert order == sorted(order, reverse=number % 2 == 0)  # to and fro, the right side first


def test_words_of_blocks(ink: Ink) -> None:
    proof = prove_file(str(SOUND / "corner-throw.md"))
    assert proof.pattern
    assert proof.worked
    chart = draw_charts(proof.pattern, proof.worked, 0, ink)[0]
    assert "23 rows of blocks from corner to corner, 12 in the longest" in chart.alt
    assert ("Row 3 (RS)", "ch 6, 3 dc, (sl st, ch 3, 3 dc in one place) 2 times") in chart.table
    left = draw_charts(proof.pattern, proof.worked, 0, ink, is_mirrored=True)[0]
    assert "the lowest block on the right" in left.caption


def test_skipped_chains_are_as_high_as_the_stitch_they_stand_for() -> None:
    """3 chains stand for a dc (Craft Yarn Council, as secondary pages report it), whatever stitch comes next."""
    words = "(Sc, ch 1, dc) in 5th ch from hook (first 3 skipped ch count as dc), sc in each ch across."
    proof = prove(f"Ch 12.\n\nRow 1: {words}\n")
    assert proof.worked
    first = proof.worked.parts[0].rows[0][1].fabric.sites[0]
    assert (first.kind, first.chains) == ("dc", 3)


def test_a_row_that_begins_along_its_own_chain_stands_on_it(ink: Ink) -> None:
    proof = prove("""Ch 11.

Row 1: Sc in 2nd ch from hook and in each ch across. (10 sc)

Row 2: Ch 1, turn, sc in each st across. (10 sc)

Row 3: Ch 6, turn, sc in 2nd ch from hook and in each of next 4 ch, sc in each st across. (15 sc)

Row 4: Ch 1, turn, sc in each st across. (15 sc)
""")
    assert proof.pattern
    assert proof.worked
    chart = chart_of(proof)
    drawn = count_symbols(plan_of(chart, ink))
    for index, row in enumerate(chart.rows):
        assert drawn[index] == count_worked(row.row)
    below = chart.drawn.laid[2].line  # type: ignore[union-attr]
    chains = [glyph for glyph in chart.glyphs if glyph.row == 3 and glyph.kind == "ch"]
    lying = [glyph for glyph in chains if glyph.head[1] == pytest.approx(glyph.feet[0][1])]
    assert len(chains) == 6
    assert len(lying) == 5
    assert all(glyph.head[1] < below for glyph in lying)
    table = draw_charts(proof.pattern, proof.worked, 0, ink)[0].table
    assert ("Row 3 (RS)", "ch 6, 15 sc") in table
