"""Signs at the feet of symbols: which loop a stitch goes into, places between stitches, rows further down.

An arc at the foot for the back and the front loop, exchanged on wrong-side rows: a teaching page on chart symbols.
Which of the two arcs is which: from memory.
"""

from pathlib import Path

import pytest

from booklet.drawings.chart_feet import ARC, SIGNS, draw_feet
from booklet.drawings.chart_marks import list_chart_rows
from booklet.drawings.charts import chart_pieces, draw_charts
from booklet.drawings.picture import Ink
from booklet.drawings.symbol_key import list_signs, say_sign_entry
from booklet.drawings.symbols import Pen
from booklet.model.work import Fabric
from booklet.pipeline import Proof, prove_file, prove_text

SOUND = Path(__file__).parents[1] / "patterns" / "sound"
START = "Ch 13.\n\nRow 1: Sc in 2nd ch from hook and in each ch across.\n\nRow 2: Ch 1, turn, sc in each st across.\n\n"


def prove(rows: str) -> Proof:
    proof = prove_text(f"---\ntitle: Case\n---\n\n{START}{rows}", "case.md")
    assert not [found for found in proof.findings if found.code != "gauge-missing"]
    return proof


def last_row(rows: str) -> Fabric:
    proof = prove(rows)
    assert proof.worked
    return proof.worked.parts[0].rows[0][-1].fabric


@pytest.mark.parametrize(
    ("words", "loops"),
    [
        ("sc in BLO of each st across", {"back"}),
        ("sc in front loop only of each st across", {"front"}),
        ("hdc in third loop of each st across", {"third"}),
        ("working in back loops only, sc in each st across", {"back"}),
        ("working in back loops only, sc in each st to last st, sc in both loops of last st", {"back", ""}),
        ("sc in BLO of next 6 sts, sc in FLO of next 6 sts", {"back", "front"}),
        ("sc in each st across", {""}),
        ("FPdc around each st across", {""}),  # the name says it
        (
            "sc in first st, *dc between next 2 sts, sc in next st; rep from * to last st, sc in last st",
            {"between", ""},
        ),
    ],
)
def test_a_stitch_knows_its_loop(words: str, loops: set[str]) -> None:
    fabric = last_row(f"Row 3: Ch 1, turn, {words}.\n")
    assert {stitch.loop for stitch in fabric.stitches if stitch.kind != "ch"} == loops


def test_a_loop_named_throughout_holds_for_the_rows_that_follow() -> None:
    fabric = last_row(
        "Row 3: Ch 1, turn, working in BLO throughout, sc in each st across.\n\n"
        "Row 4: Ch 1, turn, sc in each st across.\n"
    )
    assert {stitch.loop for stitch in fabric.stitches if stitch.kind != "ch"} == {"back"}


@pytest.mark.parametrize(
    ("place", "loop", "down"),
    [
        ("st 2 rows below", "", 2),
        ("front loop of next st 2 rows below", "front", 2),
        ("front loop of the st in the row below the next st", "front", 2),
        ("FLO of the st two rows below next st", "front", 2),
        ("next st 3 rows below", "", 3),
    ],
)
def test_a_stitch_knows_how_deep_it_goes(place: str, loop: str, down: int) -> None:
    fabric = last_row(f"Row 3: Ch 1, turn, *dc in {place}, sc in next st; rep from * across. (12 sts)\n")
    deep = [stitch for stitch in fabric.stitches if stitch.kind == "dc"]
    assert {(stitch.loop, stitch.down) for stitch in deep} == {(loop, down)}
    assert [stitch.into for stitch in deep] == [(at,) for at in (11, 9, 7, 5, 3, 1)]


def test_a_stitch_between_two_others_stands_between_them() -> None:
    fabric = last_row("Row 3: Ch 1, turn, sc in first 2 sts, 2 dc between next 2 sts, sc in next 9 sts. (13 sts)\n")
    between = [stitch for stitch in fabric.stitches if stitch.loop == "between"]
    assert [stitch.into for stitch in between] == [(9, 8), (9, 8)]
    (chart,) = chart_pieces(
        prove("Row 3: Ch 1, turn, *sc between next 2 sts; rep from * to last st, sc in last st.\n").worked, 0
    )  # type: ignore[arg-type]
    below = chart.drawn.laid[-2].sites
    for glyph in (glyph for glyph in chart.glyphs if glyph.loop == "between"):
        (x, _), *_ = glyph.feet
        assert min(abs(x - at) for at, _ in below) > 0.2


def test_arcs_are_as_the_fabric_looks_from_the_right_side() -> None:
    proof = prove_file(str(SOUND / "blo-ribbing.md"))
    assert proof.worked
    (chart,) = chart_pieces(proof.worked, 0)
    shown = {(chart.rows[glyph.row].row.side, glyph.loop) for glyph in chart.glyphs if glyph.row > 1 and glyph.loop}
    assert shown == {("WS", "front"), ("RS", "back"), ("RS", "front"), ("RS", "third")}
    said = [say_sign_entry(entry) for entry in list_signs((chart,))]
    assert said == [
        "BLO: in back loop only",
        "FLO: in front loop only; on the wrong side BLO",
        "third loop: in third loop only",
    ]


def test_words_and_table_say_the_loops(ink: Ink) -> None:
    proof = prove_file(str(SOUND / "blo-ribbing.md"))
    assert proof.pattern
    assert proof.worked
    chart = draw_charts(proof.pattern, proof.worked, 0, ink)[0]
    assert ("Row 2 (WS)", "ch 1, 9 sc in back loop, sc") in chart.table
    assert ("Rows 4 to 23", "Rows 2 and 3, 10 more times") in chart.table
    assert "In front loop: Row 25. In third loop: Row 27." in chart.alt
    assert "the key explains them" in chart.caption
    assert "the symbols do not" not in chart.caption


def test_a_key_without_signs_has_none() -> None:
    proof = prove("Row 3: Ch 1, turn, dc in each st across.\n")
    assert proof.worked
    assert list_signs(chart_pieces(proof.worked, 0)) == ()


@pytest.mark.parametrize("sign", [sign for sign in SIGNS if sign != "deep"])
def test_a_sign_stays_at_the_foot(sign: str) -> None:
    pen = Pen(0.1, "#000000")
    (foot,) = draw_feet(sign, [(0.0, 0.0)], (0.0, -1.0), None, pen)
    points = [p for s in pen.strokes for p in (s.points if hasattr(s, "points") else s.polygons[0])]
    assert points
    assert all(abs(x) <= ARC + 1e-9 and -0.25 <= y <= 0.05 for x, y in points)
    assert -0.25 <= foot[1] <= 0.0


def test_the_two_arcs_open_to_opposite_sides() -> None:
    middles = {}
    for sign in ("back", "front"):
        pen = Pen(0.1, "#000000")
        draw_feet(sign, [(0.0, 0.0)], (0.0, -1.0), None, pen)
        (arc,) = pen.strokes
        assert hasattr(arc, "points")
        middles[sign] = arc.points[len(arc.points) // 2][1] - arc.points[0][1]
    assert middles["back"] > 0 > middles["front"]  # y downwards: the cup of the back loop hangs below its ends


def test_a_tail_ends_in_the_row_that_is_named() -> None:
    proof = prove_file(str(SOUND / "overlay-mosaic.md"))
    assert proof.worked
    (chart,) = chart_pieces(proof.worked, 0)
    lines = [laid.line for laid in chart.drawn.laid]  # type: ignore[union-attr]
    deep = [glyph for glyph in chart.glyphs if glyph.deep]
    assert len(deep) == 6 + 7
    for glyph in deep:
        assert glyph.deep
        assert glyph.deep[1] == pytest.approx(lines[glyph.row - 2])
        assert glyph.loop == "front"


def test_rows_joined_anew_on_the_same_side_are_not_worked_back() -> None:
    proof = prove_file(str(SOUND / "overlay-mosaic.md"))
    assert proof.worked
    rows = proof.worked.parts[0].rows[0][1:]
    assert {row.side for row in rows} == {"RS"}
    assert not any(row.turned for row in rows[1:])
    listed = list_chart_rows(proof.worked.parts[0].rows[0])
    assert [mark.feet for mark in listed[3].marks if mark.is_column][:3] == [(0,), (1,), (2,)]
