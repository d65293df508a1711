"""Charts too large for a page: cut to parts that overlap, and what is left out is said."""

from collections import Counter
from itertools import pairwise

from booklet.drawings.chart_cut import MOST_UP
from booklet.drawings.chart_marks import count_worked
from booklet.drawings.chart_sheet import FULL_MM, HEIGHT_MM, FlatChart, plan_flat
from booklet.drawings.charts import chart_pieces, draw_charts
from booklet.drawings.picture import Ink
from booklet.drawings.plan import overlap, shape_box
from booklet.pipeline import Proof, prove_text


def prove(rows: list[str]) -> Proof:
    body = "\n\n".join(rows)
    proof = prove_text(f"---\ntitle: Case\n---\n\n{body}\n", "case.md")
    assert proof.worked
    assert {row.status for row in proof.worked.parts[0].rows[0]} == {"worked"}
    return proof


def write_tall(rows: int) -> list[str]:
    """Rows of 20 stitches of which no two are alike: a dc wanders among the sc."""
    lines = ["Ch 21.", "Row 1: Sc in 2nd ch from hook and in each ch across. (20 sc)"]
    for number in range(2, rows + 1):
        first, second = 1 + number * 7 % 17, 1 + number // 17
        words = f"sc in next {first} sts, dc in next st, sc in next {18 - first} sts, tr in next st"
        if second % 2:
            words = f"tr in next st, sc in next {18 - first} sts, dc in next st, sc in next {first} sts"
        lines.append(f"Row {number}: Ch 1, turn, {words}. (20 sts)")
    return lines


def write_wide(stitches: int) -> list[str]:
    """Two rows in which nothing repeats: groups that grow by one."""
    lines = [f"Ch {stitches + 1}.", f"Row 1: Sc in 2nd ch from hook and in each ch across. ({stitches} sc)"]
    for number in (2, 3, 4):
        steps, done, group = [], 0, number
        while done + group + 1 < stitches:
            steps.append(f"sc in next {group} sts, dc in next st")
            done, group = done + group + 1, group + 1
        steps.append(f"sc in each of next {stitches - done} sts")
        lines.append(f"Row {number}: Ch 1, turn, {', '.join(steps)}. ({stitches} sts)")
    return lines


def test_a_chart_too_high_goes_on_from_its_last_row(ink: Ink) -> None:
    proof = prove(write_tall(100))
    assert proof.worked
    assert proof.pattern
    charts = chart_pieces(proof.worked, 0)
    assert 2 <= len(charts) <= MOST_UP
    for before, after in pairwise(charts):
        assert before.goes_on
        assert before.left == 0
        assert after.rows[0].name == before.rows[-1].name
    rows = [row for chart in charts for row in chart.rows[1:]]
    assert len({row.name for row in rows}) == len(rows)
    assert len(rows) + charts[-1].left == 100
    for chart in charts:
        drawn = Counter((glyph.row, glyph.kind) for glyph in chart.glyphs)
        for index, row in enumerate(chart.rows):
            assert {kind: count for (at, kind), count in drawn.items() if at == index} == count_worked(row.row)
    captions = [picture.caption for picture in draw_charts(proof.pattern, proof.worked, 0, ink)]
    assert "The next chart goes on from its last row." in captions[0]
    assert not any("in words alone" in caption for caption in captions[: len(charts) - 1])


def test_rows_that_do_not_fit_the_last_part_are_told(ink: Ink) -> None:
    proof = prove(write_tall(280))
    assert proof.worked
    assert proof.pattern
    charts = chart_pieces(proof.worked, 0)
    assert len(charts) == MOST_UP
    assert charts[-1].left > 0
    caption = draw_charts(proof.pattern, proof.worked, 0, ink)[MOST_UP - 1].caption
    assert f"The {charts[-1].left} further rows are in words alone." in caption


def test_a_wide_chart_of_five_parts_holds_every_stitch(ink: Ink) -> None:
    proof = prove(write_wide(320))
    assert proof.worked
    charts = chart_pieces(proof.worked, 0)
    assert len(charts) == 5
    for index, row in enumerate(charts[0].rows):
        drawn = Counter(
            glyph.kind for glyph in {glyph for chart in charts for glyph in chart.glyphs if glyph.row == index}
        )
        assert drawn == count_worked(row.row)
    for chart in charts:
        assert isinstance(chart.drawn, FlatChart)
        plan = plan_flat(chart.drawn, ink)
        assert plan.width <= FULL_MM + 2
        assert plan.height <= HEIGHT_MM + 15
        boxes = [shape_box(text) for text in plan.texts]
        assert not any(overlap(one, other) for at, one in enumerate(boxes) for other in boxes[at + 1 :])


def test_parts_that_are_left_out_are_told(ink: Ink) -> None:
    proof = prove(write_wide(700))
    assert proof.worked
    assert proof.pattern
    charts = chart_pieces(proof.worked, 0)
    assert len(charts) == 3
    windows = [chart.drawn.window for chart in charts if isinstance(chart.drawn, FlatChart)]
    numbers = [window.number for window in windows if window]
    count = max(numbers)
    assert numbers == [count - 2, count - 1, count]  # the first row begins at the right
    caption = draw_charts(proof.pattern, proof.worked, 0, ink)[0].caption
    assert f"The other {count - 3} parts are in words alone." in caption
