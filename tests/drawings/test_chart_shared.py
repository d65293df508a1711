"""One chart for pieces that begin alike, and rows that stand for others of their colour alone."""

from pathlib import Path

import pytest

from booklet.drawings.chart_marks import condense_rows, list_chart_rows
from booklet.drawings.chart_sheet import FlatChart
from booklet.drawings.charts import chart_pieces, draw_charts
from booklet.drawings.picture import Ink
from booklet.pipeline import Proof, prove_file, prove_text

CONTENT = Path(__file__).parents[2] / "content"
COLOURS = 'colours:\n  A: {name: Fog, shade: "#c9ced2"}\n  B: {name: Kelp, shade: "#5b6b3a"}\n'


def prove(rows: str) -> Proof:
    return prove_text(f"---\ntitle: Case\n{COLOURS}---\n\n{rows}", "case.md")


@pytest.mark.parametrize(
    ("demo", "title", "pieces"), [("hedgerow-hare", "Head and Body", 7), ("millpond-tee", "Back and Front", 4)]
)
def test_pieces_that_begin_alike_share_a_chart(demo: str, title: str, pieces: int, ink: Ink) -> None:
    proof = prove_file(str(CONTENT / demo))
    assert proof.pattern is not None
    assert proof.worked is not None
    size = (len(proof.pattern.size_names) - 1) // 2
    charts = chart_pieces(proof.worked, size)
    shared = [chart for chart in charts if chart.also]
    assert len(shared) == 1
    assert len({name for chart in charts for name in (chart.title, *(also.title for also in chart.also))}) == pieces
    captions = [picture.caption for picture in draw_charts(proof.pattern, proof.worked, size, ink)]
    assert sum(caption.startswith(title) for caption in captions) == 1


def test_what_is_left_to_the_words_is_told_of_each_piece(ink: Ink) -> None:
    """The back and the front of a tee are one as far as they are drawn, and end differently."""
    proof = prove_file(str(CONTENT / "millpond-tee"))
    assert proof.pattern is not None
    assert proof.worked is not None
    chart = next(chart for chart in chart_pieces(proof.worked, 4) if chart.also)
    (also,) = chart.also
    assert chart.left != also.left
    caption = next(iter(draw_charts(proof.pattern, proof.worked, 4, ink))).caption
    assert f"Further rows are in words alone: {chart.left} of Back and {also.left} of Front." in caption


def test_pieces_in_other_colours_keep_charts_of_their_own() -> None:
    rows = "{colour}, ch 21.\n\nRow 1: Sc in 2nd ch from hook and in each ch across. (20 sc)\n\n"
    rows += "Row 2: Ch 1, turn, *sc in next st, dc in next st; rep from * across. (10 sc, 10 dc)\n\n"
    rows += "Row 3: Ch 1, turn, *sc in next dc, dc in next sc; rep from * across. (10 sc, 10 dc)\n\n"
    halves = [
        f"## {name}\n\n{rows.format(colour=f'With {letter}')}" for name, letter in (("Left", "A"), ("Right", "B"))
    ]
    proof = prove("\n".join(halves))
    assert proof.worked is not None
    assert [(chart.title, chart.also) for chart in chart_pieces(proof.worked, 0)] == [("Left", ()), ("Right", ())]


def test_a_round_stands_for_others_of_its_colour_alone(ink: Ink) -> None:
    """The arm of the hare: rounds of 8 sc in A, then stripes of two rounds each, B and C by turns."""
    proof = prove_file(str(CONTENT / "hedgerow-hare"))
    assert proof.worked is not None
    chart = next(chart for chart in chart_pieces(proof.worked, 0) if chart.title == "Arm")
    assert isinstance(chart.drawn, FlatChart)
    assert chart.drawn.shows_letters
    part = next(part for part in proof.worked.parts if part.title == "Arm")
    colour = {row.number: next(iter({letter for letter, _ in row.fabric.yarn})) for row in part.rows[0]}
    for repeated in chart.drawn.repeats:
        shown = [int(row.name) for row in chart.rows[repeated.first : repeated.first + repeated.count]]
        last = int(repeated.until)
        for number in range(shown[0], last + 1):
            assert colour[number] == colour[shown[(number - shown[0]) % len(shown)]], number
    plan_letters = {row.name: row.letters for row in chart.rows}
    assert all(plan_letters[name] == (colour[int(name)],) for name in plan_letters if name)


def test_rows_in_other_colours_are_told_apart_where_it_is_asked() -> None:
    turn = "Ch 1, turn, sc in each st across. (10 sc)"
    proof = prove(
        "With A, ch 11.\n\nRow 1: Sc in 2nd ch from hook and in each ch across. (10 sc)\n\n"
        + "\n\n".join(f"Row {number}: With {'AB'[number // 2 % 2]}, {turn.lower()}" for number in range(2, 10))
    )
    assert proof.worked is not None
    listed = list_chart_rows(proof.worked.parts[0].rows[0])
    without, with_colours = condense_rows(listed), condense_rows(listed, by_colour=True)
    assert len(without[0]) < len(with_colours[0])
    assert [repeated.count for repeated in with_colours[1]] == [4]
