"""All pictures of a pattern at once."""

import time
from dataclasses import replace
from io import BytesIO
from pathlib import Path

import pytest
from PIL import Image

from booklet.amounts.measures import measure_parts
from booklet.drawings.faces import set_text
from booklet.drawings.pattern import draw_pattern
from booklet.drawings.picture import Ink, Picture
from booklet.drawings.piece_drawings import draw_narrow
from booklet.findings import Finding
from booklet.model.amounts import Amounts
from booklet.model.pattern import Image as ImageLine
from booklet.model.pattern import SizedPattern
from booklet.model.work import Fabric, WorkedPart, WorkedPattern

from .conftest import (
    SPAN,
    make_blanket,
    make_circle,
    make_hat,
    make_pattern,
    make_row,
    make_shaped,
    make_tube,
    make_worked,
)


def draw(sized: SizedPattern, worked: WorkedPattern, ink: Ink) -> tuple[dict[str, Picture], tuple[Finding, ...]]:
    amounts = Amounts(measure_parts(sized, worked)[0], None, (), (), ())
    pictures, findings = draw_pattern(sized, worked, amounts, ink)
    assert len({picture.name for picture in pictures}) == len(pictures)
    return {picture.name: picture for picture in pictures}, findings


def test_a_blanket_has_all_its_pictures(ink: Ink) -> None:
    pictures, findings = draw(make_pattern(), make_worked(make_blanket()), ink)
    assert findings == ()
    names = ["patch-A", "patch-B", "patch-C", "patch-D", "schematic", "colour-plan", "chart-1"]
    symbols = ["symbol-1", "symbol-2", "symbol-3", "symbol-4"]
    assert list(pictures) == [*names, *symbols, "measuring-square", "measuring-hooks", "fabric"]
    for picture in pictures.values():
        image = Image.open(BytesIO(picture.png))
        is_line_drawing = picture.name.startswith(("schematic", "chart", "symbol", "measuring"))
        assert image.mode == ("L" if is_line_drawing else "RGB")
        assert image.width / image.height == pytest.approx(picture.width_mm / picture.height_mm, rel=0.01)
        assert max(picture.width_mm, picture.height_mm) <= 200
        assert picture.alt


def test_line_drawings_have_300_dots_to_the_inch(ink: Ink) -> None:
    pictures, _ = draw(make_pattern(), make_worked(make_blanket()), ink)
    for name in ("patch-A", "schematic", "colour-plan"):
        image = Image.open(BytesIO(pictures[name].png))
        assert image.width == pytest.approx(pictures[name].width_mm / 25.4 * 300, abs=1)


def test_words_say_what_the_schematic_shows(ink: Ink) -> None:
    pictures, _ = draw(make_pattern(3), make_worked(make_blanket(sizes=3)), ink)
    schematic = pictures["schematic"]
    assert schematic.alt == (
        "Schematic in size Size 2. A rectangle, worked upwards from the foundation edge; "
        "letter a, width 44.5 cm (17¾ in), letter b, length 40 cm (16 in); "
        "half way up, from left to right, C Rust, B Slate and A Chalk."
    )
    assert schematic.caption == (
        "The finished piece, right side facing, drawn to scale in size Size 2. "
        "The letters lead to the table of all sizes."
    )
    assert schematic.table[0] == ("Letter", "Measure", "Size 1", "Size 2", "Size 3")


def test_words_say_what_the_colour_plan_shows(ink: Ink) -> None:
    pictures, _ = draw(make_pattern(), make_worked(make_blanket()), ink)
    assert pictures["colour-plan"].alt == (
        "Colour plan in A Chalk, C Rust and B Slate. 60 rows; begins in A Chalk, "
        "has half way C Rust, B Slate and A Chalk and ends in A Chalk."
    )


def test_more_pieces_than_a_sheet_holds_stand_on_several(ink: Ink) -> None:
    parts = [make_hat(3, 5, title=f"Bud {n}") if n % 2 else make_shaped(3, 11, 12, f"Leaf {n}") for n in range(1, 13)]
    sized, worked = make_pattern(), make_worked(*parts)
    pictures, _ = draw(sized, worked, ink)
    sheets = [picture for name, picture in pictures.items() if name.startswith("schematic")]
    assert [picture.name for picture in sheets] == [f"schematic-{n}" for n in range(1, len(sheets) + 1)]
    assert all(picture.height_mm <= 166 for picture in sheets)
    letters = [row[0] for picture in sheets for row in picture.table[1:]]
    assert sorted(letters) == sorted(measure.key for measure in measure_parts(sized, worked)[0])
    assert sheets[0].caption.endswith(f"Sheet 1 of {len(sheets)}.")
    narrow = draw_narrow(sized.pattern, worked, Amounts(measure_parts(sized, worked)[0], None, (), (), ()), ink)
    assert [name for name in narrow if name.startswith("schematic")] == [picture.name for picture in sheets]
    assert all(picture.width_mm <= 81 for picture in narrow.values())


def test_a_half_is_explained_where_it_is_drawn(ink: Ink) -> None:
    hat, _ = draw(make_pattern(), make_worked(make_hat()), ink)
    blanket, _ = draw(make_pattern(), make_worked(make_blanket()), ink)
    assert "½" in hat["schematic"].caption
    assert "½" not in blanket["schematic"].caption


def test_without_a_gauge_there_is_no_schematic_but_the_rest(ink: Ink) -> None:
    pictures, _ = draw(make_pattern(gauges=False), make_worked(make_blanket()), ink)
    assert "schematic" not in pictures
    assert "usual" in pictures["colour-plan"].caption
    assert "fabric" in pictures


def test_a_piece_of_one_colour_has_no_colour_plan(ink: Ink) -> None:
    pictures, _ = draw(make_pattern(), make_worked(make_shaped(20, 30, 20)), ink)
    assert "colour-plan" not in pictures


def test_nothing_worked_gives_patches_alone(ink: Ink) -> None:
    pictures, findings = draw(make_pattern(), make_worked(), ink)
    assert [name for name in pictures if not name.startswith("patch")] == []
    assert findings == ()


def test_rows_taken_on_trust_are_drawn_too(ink: Ink) -> None:
    blank = Fabric((), (), {}, {}, {("A", "sc"): 20}, 20)
    rows = tuple(replace(make_row(number, blank, gauge="moss"), status="trusted") for number in range(1, 9))
    pictures, _ = draw(make_pattern(), make_worked(WorkedPart("Square", 1, (rows,), SPAN, gauge="moss")), ink)
    assert {"schematic", "fabric"} <= set(pictures)


def test_the_author_s_cover_takes_the_place_of_the_fabric(ink: Ink, tmp_path: Path) -> None:
    Image.radial_gradient("L").resize((1600, 2000)).convert("RGB").save(tmp_path / "chair.jpg")
    sized = make_pattern(folder=tmp_path)
    cover = ImageLine("chair.jpg", "The blanket over a chair", "", SPAN)
    broken = ImageLine("none.jpg", "", "", SPAN)
    sized = replace(sized, pattern=replace(sized.pattern, cover=cover, images=(broken, cover)))
    pictures, findings = draw(sized, make_worked(make_blanket()), ink)
    assert "fabric" not in pictures
    assert pictures["cover"].alt == "The blanket over a chair"
    assert "photo-2" in pictures
    assert [finding.code for finding in findings] == ["picture-unreadable"]


def test_error_a_theme_without_fonts(tmp_path: Path) -> None:
    pictures, findings = draw(make_pattern(), make_worked(make_blanket()), Ink(tmp_path))
    assert pictures == {}
    assert [finding.code for finding in findings] == ["fonts-missing"]


def test_files_that_are_no_fonts_are_passed_over(tmp_path: Path, ink: Ink) -> None:
    (tmp_path / "broken.ttf").write_bytes(b"no font")
    good = ink.fonts / ink.regular
    (tmp_path / "good.ttf").write_bytes(good.read_bytes())
    assert set_text(Ink(tmp_path), "Hat").width == pytest.approx(set_text(ink, "Hat").width)


@pytest.mark.parametrize("title", ["", "  ", "Ærø – cowl № 3", "ニット", "x" * 300, "a\tb", "<b>&amp;"])
def test_any_title_can_be_drawn(title: str, ink: Ink) -> None:
    pictures, _ = draw(make_pattern(), make_worked(make_tube(title=title), make_circle(title=title)), ink)
    assert "schematic" in pictures


def test_the_same_bytes_twice(ink: Ink) -> None:
    worked = make_worked(make_blanket(31, 24))
    assert draw(make_pattern(), worked, ink) == draw(make_pattern(), worked, ink)


def test_a_large_blanket_is_drawn_in_under_two_seconds(ink: Ink) -> None:
    worked = make_worked(make_blanket(183, 150))
    started = time.process_time()
    draw(make_pattern(), worked, ink)
    assert time.process_time() - started < 2
