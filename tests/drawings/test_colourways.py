"""Colourways side by side, and charts for left-handed makers, from what the front matter says."""

import pytest

from booklet.drawings.colour_plan import plan_colourways
from booklet.drawings.palette import mix_palette
from booklet.drawings.pattern import draw_pattern
from booklet.drawings.picture import Ink
from booklet.drawings.pieces import lay_pieces
from booklet.drawings.plan import overlap, shape_box
from booklet.pipeline import prove_text

FRONT = """title: Case
gauge: 16 sts and 17 rows = 10 cm
colours:
  A: {name: Fog, shade: "#c9ced2"}
  B: {name: Kelp, shade: "#5b6b3a"}
"""
WAYS = """colourways:
  Dusk:
    A: {name: Plum, shade: "#4a3b52"}
    B: {name: Straw, shade: "#e2cf9a"}
  Ember:
    B: {name: Brick, shade: "#9c4a32"}
"""
ROWS = """
With A, ch 11.

Row 1: Sc in 2nd ch from hook and in each ch across. (10 sc)

Row 2: With B, ch 1 (does not count as a st), turn, sc in each st across. (10 sc)
"""


def draw(front: str, ink: Ink) -> dict[str, tuple[str, str, tuple[tuple[str, ...], ...]]]:
    proof = prove_text(f"---\n{front}---\n{ROWS}", "case.md")
    assert proof.sized
    assert proof.worked
    assert proof.amounts
    pictures, _ = draw_pattern(proof.sized, proof.worked, proof.amounts, ink)
    return {picture.name: (picture.alt, picture.caption, picture.table) for picture in pictures}


def test_a_colourway_has_a_colour_for_every_letter() -> None:
    proof = prove_text(f"---\n{FRONT}{WAYS}---\n{ROWS}", "case.md")
    assert proof.pattern
    assert [(way.name, [colour.name for colour in way.colours]) for way in proof.pattern.colourways] == [
        ("Dusk", ["Plum", "Straw"]),
        ("Ember", ["Fog", "Brick"]),  # where it names none, the pattern's own
    ]


def test_error_a_letter_that_the_pattern_has_not() -> None:
    front = f'{FRONT}colourways:\n  Dusk:\n    C: {{name: Plum, shade: "#4a3b52"}}\n'
    proof = prove_text(f"---\n{front}---\n{ROWS}", "case.md")
    found = [finding for finding in proof.findings if finding.code == "wrong-value"]
    assert [finding.span.line for finding in found] == [9]
    assert "A, B" in found[0].expected


def test_colourways_are_drawn_beside_the_pattern_s_own_colours(ink: Ink) -> None:
    pictures = draw(FRONT + WAYS, ink)
    alt, _, table = pictures["colour-plan-colourways"]
    assert alt == (
        "The colour plan in 3 colourways, side by side. As in the list: A Fog and B Kelp. "
        "Dusk: A Plum and B Straw. Ember: A Fog and B Brick."
    )
    assert table == (
        ("Letter", "As in the list", "Dusk", "Ember"),
        ("A", "Fog", "Plum", "Fog"),
        ("B", "Kelp", "Straw", "Brick"),
    )
    assert "colour-plan-colourways" not in draw(FRONT, ink)


@pytest.mark.parametrize("count", range(1, 8))
def test_names_of_colourways_keep_clear_of_one_another(count: int, ink: Ink) -> None:
    proof = prove_text(f"---\n{FRONT}---\n{ROWS}", "case.md")
    assert proof.pattern
    assert proof.worked
    pieces = lay_pieces(proof.pattern, proof.worked, 0)
    ways = [(f"A rather long name, number {number}", mix_palette(proof.pattern.colours)) for number in range(count)]
    plan = plan_colourways(pieces, ways, ink)
    boxes = [shape_box(text) for text in plan.texts]
    assert all(box[0] >= 0 and box[1] >= 0 and box[2] <= plan.width and box[3] <= plan.height for box in boxes)
    assert not any(overlap(one, other) for at, one in enumerate(boxes) for other in boxes[:at])


def test_charts_for_left_handed_makers_are_printed_where_they_are_asked_for(ink: Ink) -> None:
    assert "chart-1-left" not in draw(FRONT, ink)
    pictures = draw(FRONT + "left-handed charts: true\n", ink)
    assert "right to left" in pictures["chart-1"][1]
    assert pictures["chart-1-left"][1].startswith("For left-handed makers. ")
    assert "side are black and read from left to right" in pictures["chart-1-left"][1]
