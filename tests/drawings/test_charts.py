"""Stitch charts, looked at as plans: what stands on paper is what was worked, where it was worked."""

from collections import Counter
from functools import cache
from itertools import combinations
from pathlib import Path

import pytest

from booklet.drawings.chart_blocks import BlockChart
from booklet.drawings.chart_cut import Chart
from booklet.drawings.chart_marks import ChartRow, count_worked, list_chart_rows
from booklet.drawings.chart_repeat import lies_in
from booklet.drawings.chart_sheet import FULL_MM, HEIGHT_MM, FlatChart, plan_blocks, plan_flat, plan_rounds
from booklet.drawings.chart_words import Names
from booklet.drawings.charts import chart_pieces, draw_charts
from booklet.drawings.picture import Ink
from booklet.drawings.pieces import pick_size
from booklet.drawings.plan import Plan, Symbol, overlap, shape_box
from booklet.drawings.symbol_key import list_key, list_signs
from booklet.pipeline import Proof, prove_file, prove_text

from .conftest import make_blanket, make_pattern, make_worked

ROOT = Path(__file__).parents[2]
DEMOS = sorted(ROOT.glob("content/*/pattern.md"))
SOUND = sorted(ROOT.glob("tests/patterns/sound/*.md"))


def name_of(path: Path) -> str:
    return path.parent.name if path.name == "pattern.md" else path.stem


@cache
def prove(path: Path) -> Proof:
    return prove_file(str(path))


def charts_of(path: Path, size: int | None = None) -> tuple[Chart, ...]:
    proof = prove(path)
    assert proof.pattern
    assert proof.worked
    return chart_pieces(proof.worked, pick_size(proof.pattern) if size is None else size)


def plan_of(chart: Chart, ink: Ink, is_mirrored: bool = False) -> Plan:
    drawn = chart.drawn
    if isinstance(drawn, BlockChart):
        return plan_blocks(drawn, ink, is_mirrored)
    return plan_flat(drawn, ink, is_mirrored) if isinstance(drawn, FlatChart) else plan_rounds(drawn, ink, is_mirrored)


def is_part(chart: Chart) -> bool:
    return isinstance(chart.drawn, FlatChart) and chart.drawn.window is not None


def drawn_rows(chart: Chart) -> list[tuple[int, ChartRow]]:
    """The rows that a chart draws, without those left to the words."""
    return [(index, row) for index, row in enumerate(chart.rows) if not row.blank]


def count_symbols(plan: Plan) -> dict[int, Counter[str]]:
    counts: dict[int, Counter[str]] = {}
    for shape in plan.shapes:
        if isinstance(shape, Symbol):
            counts.setdefault(shape.row, Counter())[shape.kind] += 1
    return counts


@pytest.mark.parametrize("path", [*DEMOS, *SOUND], ids=name_of)
def test_every_row_has_a_symbol_for_each_stitch_worked(path: Path, ink: Ink) -> None:
    charts = charts_of(path)
    assert charts
    for chart in (chart for chart in charts if not is_part(chart)):
        drawn = count_symbols(plan_of(chart, ink))
        across = chart.drawn.across if isinstance(chart.drawn, FlatChart) else None
        for index, row in drawn_rows(chart):
            counts = drawn[index]
            if across:  # what the repeat stands for
                for glyph in chart.glyphs:
                    if glyph.row == index and lies_in(glyph, across):
                        counts[glyph.kind] += across.times - across.shown
            assert counts == count_worked(row.row), f"{chart.title}: {row.row.label}"


@pytest.mark.parametrize("path", [*DEMOS, *SOUND], ids=name_of)
def test_stitches_beside_chains_are_those_that_the_row_counts(path: Path) -> None:
    """The row's own list of stitches, one by one, is another account of the same row."""
    for chart in (chart for chart in charts_of(path) if not is_part(chart)):
        across = chart.drawn.across if isinstance(chart.drawn, FlatChart) else None
        for index, row in drawn_rows(chart):
            fabric = row.row.fabric
            listed = Counter(
                stitch.kind
                for stitch in fabric.stitches
                if stitch.kind != "ch" and not (stitch.top >= 0 and fabric.sites[stitch.top].chains)
            )
            drawn: Counter[str] = Counter()
            for glyph in chart.glyphs:
                if glyph.row == index and glyph.kind != "ch":
                    is_repeated = across is not None and lies_in(glyph, across)
                    drawn[glyph.kind] += 1 + (across.times - across.shown if across and is_repeated else 0)
            assert drawn == listed


@pytest.mark.parametrize("path", [*DEMOS, *SOUND], ids=name_of)
def test_the_key_lists_the_symbols_used_and_no_others(path: Path, ink: Ink) -> None:
    proof = prove(path)
    assert proof.pattern
    assert proof.worked
    charts = charts_of(path)
    key = list_key(charts)
    assert {entry.look for entry in key} == {glyph.look for chart in charts for glyph in chart.glyphs}
    kinds = {kind for entry in key for kind in (*entry.kinds, *entry.back_kinds)}
    assert kinds == {glyph.kind.replace("picot ", "") for chart in charts for glyph in chart.glyphs}
    pictures = draw_charts(proof.pattern, proof.worked, pick_size(proof.pattern), ink)
    symbols = [picture for picture in pictures if picture.name.startswith("symbol")]
    signs = list_signs(charts)
    used = {sign for chart in charts for glyph in chart.glyphs for sign in (glyph.loop, "deep" if glyph.deep else "")}
    assert {entry.sign for entry in signs} == used - {""}
    assert len(symbols) == len(key) + len(signs)
    assert len({picture.caption for picture in symbols}) == len(symbols)
    assert len({picture.alt for picture in symbols}) == len(symbols)


def check_labels(plan: Plan) -> None:
    texts = [(text, shape_box(text)) for text in plan.texts]
    for text, (left, top, right, bottom) in texts:
        assert left >= 0, text.text
        assert top >= 0, text.text
        assert right <= plan.width + 1e-6, text.text
        assert bottom <= plan.height + 1e-6, text.text
    for (first, one), (second, other) in combinations(texts, 2):
        assert not overlap(one, other), f"{first.text} / {second.text}"


def met_by_labels(plan: Plan) -> list[str]:
    """Labels that touch a symbol, by the boxes of its strokes."""
    boxes = [shape_box(stroke) for shape in plan.shapes if isinstance(shape, Symbol) for stroke in shape.strokes]
    found = []
    for text in plan.texts:
        box = shape_box(text)
        if any(overlap(box, other, -0.15) for other in boxes):
            found.append(text.text)
    return found


@pytest.mark.parametrize("path", [*DEMOS, *SOUND], ids=name_of)
def test_labels_keep_clear_of_one_another_and_of_the_symbols(path: Path, ink: Ink) -> None:
    proof = prove(path)
    assert proof.pattern
    for size in range(len(proof.pattern.size_names)):
        for chart in charts_of(path, size):
            plan = plan_of(chart, ink)
            assert plan.width <= FULL_MM + 2
            assert plan.height <= HEIGHT_MM + 15
            check_labels(plan)
            assert met_by_labels(plan) == [], f"{chart.title}, size {size}"


@pytest.mark.parametrize("sizes", range(3, 11))
def test_charts_of_many_sizes_keep_within_their_frames(sizes: int, ink: Ink) -> None:
    worked = make_worked(make_blanket(31, 12, sizes))
    for size in range(sizes):
        for chart in chart_pieces(worked, size):
            check_labels(plan_of(chart, ink))


def test_a_wide_blanket_is_cut_to_one_repeat_with_both_edges(ink: Ink) -> None:
    (chart,) = chart_pieces(make_worked(make_blanket(185, 40)), 0)
    assert isinstance(chart.drawn, FlatChart)
    across = chart.drawn.across
    assert across is not None
    assert across.stitches == 2
    assert across.shown < across.times
    widths = [len([glyph for glyph in chart.glyphs if glyph.row == row]) for row in range(1, len(chart.rows))]
    assert max(widths) < 20
    pictures = draw_charts(make_pattern().pattern, make_worked(make_blanket(185, 40)), 0, ink)
    assert f"The grey strip marks one repeat of 2 sts, worked {across.times} times across" in pictures[0].caption
    assert "with both edges" in pictures[0].caption


def test_every_stitch_stands_over_what_it_is_worked_into() -> None:
    for path in SOUND:
        for chart in charts_of(path):
            if not isinstance(chart.drawn, FlatChart) or chart.drawn.hidden:
                continue
            for glyph in chart.glyphs:
                if glyph.look in ("ch", "sl st") or not glyph.row:
                    continue
                foot = sum(y for _, y in glyph.feet) / len(glyph.feet)
                assert glyph.head[1] > foot, f"{path.stem}: {glyph}"


def test_parts_of_a_wide_chart_overlap_and_hold_every_stitch(ink: Ink) -> None:
    charts = charts_of(ROOT / "tests/patterns/sound/sized-cowl.md")
    assert [is_part(chart) for chart in charts] == [True, True]
    first, second = charts
    shared = set(first.glyphs) & set(second.glyphs)
    assert shared
    assert set(first.glyphs) != shared
    for index, row in enumerate(first.rows):
        drawn = Counter(glyph.kind for glyph in {*first.glyphs, *second.glyphs} if glyph.row == index)
        assert drawn == count_worked(row.row)
    assert [text.text for text in plan_of(first, ink).texts if text.text.startswith("part")] == ["part 2"]
    assert [text.text for text in plan_of(second, ink).texts if text.text.startswith("part")] == ["part 1"]


def test_a_mirrored_chart_has_the_same_symbols_the_other_way_round(ink: Ink) -> None:
    for name in ("shell-blanket", "granny-square"):
        (chart,) = charts_of(ROOT / "tests/patterns/sound" / f"{name}.md")
        right, left = plan_of(chart, ink), plan_of(chart, ink, is_mirrored=True)
        assert count_symbols(right) == count_symbols(left)

        def order(plan: Plan) -> list[tuple[str, float]]:
            found = [(s.kind, sum(shape_box(s)[::2]) / 2) for s in plan.shapes if isinstance(s, Symbol) and s.row == 1]
            first = found[0][1]
            return [(kind, round(x - first, 2)) for kind, x in found]

        # the symbols themselves keep their sides, so that one key serves both sets
        for (kind, x), (other, opposite) in zip(order(left), order(right), strict=True):
            assert kind == other
            assert x == pytest.approx(-opposite, abs=0.6)


def test_names_in_the_key_are_in_the_pattern_s_terms(ink: Ink) -> None:
    rows = "Ch 12.\n\nRow 1: Dc in 2nd ch from hook and in each ch across. (11 dc)\n"
    proof = prove_text(f"---\ntitle: Case\nterms: UK\n---\n\n{rows}", "case.md")
    assert proof.pattern
    assert proof.worked
    pictures = draw_charts(proof.pattern, proof.worked, 0, ink)
    captions = [picture.caption for picture in pictures if picture.name.startswith("symbol")]
    assert captions == ["ch: chain", "dc: double crochet"]
    assert "11 dc" in pictures[0].alt
    assert Names(proof.pattern, proof.worked).short("dc") == "tr"


def test_a_post_stitch_is_drawn_as_it_looks_from_the_right_side() -> None:
    """On the wrong side a front post stitch makes what looks like a back post stitch from the right side."""
    (chart,) = charts_of(ROOT / "tests/patterns/sound/waffle-washcloth.md")
    looks = {(chart.rows[glyph.row].row.side, glyph.kind, glyph.look) for glyph in chart.glyphs if "FP" in glyph.kind}
    assert looks == {("RS", "FPdc", "FPdc"), ("WS", "FPdc", "BPdc")}


def test_chains_that_a_first_row_skips_stand_beside_it() -> None:
    row = "Row 1: Dc in 4th ch from hook (skipped ch count as dc) and in each ch across. (10 dc)"
    proof = prove_text(f"---\ntitle: Case\n---\n\nCh 12.\n\n{row}\n", "case.md")
    assert proof.worked
    listed = list_chart_rows(proof.worked.parts[0].rows[0])
    assert listed[1].free == 3
    (chart,) = chart_pieces(proof.worked, 0)
    standing = [glyph for glyph in chart.glyphs if glyph.kind == "ch" and glyph.head[1] > 0.2]
    assert len(standing) == 3
    assert all(glyph.row == 0 for glyph in standing)
    assert sum(glyph.kind == "ch" for glyph in chart.glyphs) == 12
    assert sum(glyph.kind == "dc" for glyph in chart.glyphs) == 9


def test_the_words_of_a_chart_say_what_it_shows(ink: Ink) -> None:
    proof = prove(ROOT / "tests/patterns/sound/shell-blanket.md")
    assert proof.pattern
    assert proof.worked
    chart = draw_charts(proof.pattern, proof.worked, 0, ink)[0]
    assert chart.alt.startswith("Stitch chart of Tide Pool Blanket, 3 rows drawn one over the other. Row 1: ")
    assert "(sc, (5 dc in one place)) 10 times, sc" in chart.alt
    assert "150 dc" in chart.alt
    assert ("Row 1 (RS)", "(sc, (5 dc in one place)) 10 times, sc") in chart.table
    assert chart.table[1] == ("Foundation", "ch 62")
