"""Pictures that stand in the text, in every edition: where they stand, what goes with them, what is left out."""

import base64
import re
import subprocess
import sys
import zipfile
from io import BytesIO
from pathlib import Path

import pikepdf
import pypdfium2
import pytest
from PIL import Image

from booklet.pipeline import Order, make_booklet, prove_file

MADE = (
    "print", "single-size", "large-print", "folded", "tester", "handout", "text", "web", "fragment", "ebook",
)  # fmt: skip
ROWS = 9
FRONT = """---
title: Weir Coaster
sizes: {Small: {width: 10 cm}, Large: {width: 15 cm}}
gauge: 16 sts and 18 rows = 10 cm
yarn: {weight: DK, ball: 50 g = 120 m}
hook: 4 mm
numbers:
  panel: {measure: width, gauge: gauge}
---
"""
ROW_1 = "Row 1: Sc in 2nd ch from hook and in each ch across. (16 (24) sc)"


def write_pattern(folder: Path) -> Path:
    """Rows that have a picture each, more than a page holds, and a list in the finishing that has one."""
    folder.mkdir()
    exif = Image.Exif()
    exif[0x0112] = 6  # turned a quarter
    exif[0x8825] = {1: "N", 2: (51.0, 30.0, 0.0)}  # where it was taken
    light = Image.radial_gradient("L")
    for name, width, height, facts in (("row.jpg", 1500, 1000, None), ("turned.jpg", 1600, 1200, exif)):
        shade = light.resize((width, height))
        picture = Image.merge("RGB", (shade, shade.transpose(Image.Transpose.FLIP_LEFT_RIGHT), shade))
        picture.save(folder / name, **({"exif": facts} if facts is not None else {}))
    rows = [f'{ROW_1}\n\n![Row 1 on the hook](row.jpg "Picture of row 1 with 16 (24) sc")']
    row = "Row {0}: Ch 1, turn, sc in each st across. (16 (24) sc)"
    picture = '![Row {0} on the hook](row.jpg "Picture of row {0}")'
    rows += [f"{row}\n\n{picture}".format(n) for n in range(2, ROWS + 1)]
    finishing = (
        '1. Weave in. ![An end in its row](turned.jpg "Along the row")\n2. Block it. ![a](row.jpg) ![b](turned.jpg)'
    )
    text = f"{FRONT}\n## Square\n\nCh {{panel + 1}}.\n\n" + "\n\n".join(rows)
    (folder / "pattern.md").write_text(f"{text}\n\nFasten off.\n\n## Finishing\n\n{finishing}\n", encoding="utf-8")
    return folder


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> dict[str, Path]:
    """The files by what follows the terms in their name."""
    folder = tmp_path_factory.mktemp("weir")
    source = write_pattern(folder / "coaster")
    paths, findings = make_booklet(prove_file(str(source)), Order(folder / "build", MADE, ("A4",)))
    assert [finding.message for finding in findings] == []
    return {path.name.split("-US-")[1]: path for path in paths}


PRINTED = ("A4.pdf", "Small-A4.pdf", "large-print-A4.pdf", "A5.pdf", "tester-A4.pdf")


@pytest.mark.parametrize("name", PRINTED)
def test_a_picture_stays_with_its_row_on_paper(made: dict[str, Path], name: str) -> None:
    pages = [" ".join(page.get_textpage().get_text_range().split()) for page in pypdfium2.PdfDocument(made[name])]
    for number in range(1, ROWS + 1):
        row = [at for at, text in enumerate(pages) if re.search(rf"\bRow {number}:", text)]
        caption = [at for at, text in enumerate(pages) if re.search(rf"Picture of row {number}\b", text)]
        assert row == caption != []


@pytest.mark.parametrize("name", PRINTED)
def test_pages_with_pictures_pass_the_accessibility_check(made: dict[str, Path], name: str) -> None:
    checker = str(Path(sys.executable).with_name("pdfua"))
    ran = subprocess.run([checker, "check", "--format", "json", str(made[name])], capture_output=True, check=False)
    assert ran.returncode == 0, ran.stdout + ran.stderr


@pytest.mark.parametrize("name", [*PRINTED, "handout-A4.pdf"])
def test_paper_has_each_picture_once_and_nothing_that_the_camera_wrote(made: dict[str, Path], name: str) -> None:
    found: set[tuple[int, int]] = set()
    with pikepdf.open(made[name]) as pdf:
        for item in pdf.objects:
            if isinstance(item, pikepdf.Stream) and item.get("/Subtype") == "/Image":
                assert b"Exif" not in item.read_raw_bytes()
                found.add((int(item.Width), int(item.Height)))
    # 104 mm at 300 to the inch is 1,228 pixels; what was turned is 80 mm high, 945 pixels
    expected = {(1228, 819), (709, 945)}
    assert (expected <= found) is (name != "handout-A4.pdf")
    assert bool(expected & found) is (name != "handout-A4.pdf")


def test_the_page_holds_its_pictures_at_the_size_of_a_screen(made: dict[str, Path]) -> None:
    page = made["web.html"].read_text(encoding="utf-8")
    figures = re.findall(r'<figure class="step"[^>]*><img src="data:image/jpeg;base64,([^"]+)" alt="([^"]+)"', page)
    assert len(figures) == ROWS + 3
    assert [alt for _, alt in figures[:2]] == ["Row 1 on the hook", "Row 2 on the hook"]
    for data, _ in figures:
        file = base64.b64decode(data)
        with Image.open(BytesIO(file)) as picture:
            assert 700 <= picture.width <= 1200  # one that stands upright has fewer pixels across
            assert max(picture.size) >= 800
        assert b"Exif" not in file
    assert re.findall(r'src="(?!data:)', page) == []


def test_a_list_goes_on_behind_its_picture(made: dict[str, Path]) -> None:
    page = made["web.html"].read_text(encoding="utf-8")
    assert '<ol start="2" style="counter-reset:list-item 1">' in page


def test_a_fragment_and_an_e_book_have_the_pictures_where_they_stand(made: dict[str, Path]) -> None:
    fragment = made["fragment.html"].read_text(encoding="utf-8")
    with zipfile.ZipFile(made["ebook.epub"]) as book:
        chapters = {name: book.read(name).decode() for name in book.namelist() if name.endswith(".xhtml")}
        assert len([name for name in book.namelist() if "/pictures/step-" in name]) == 2
    told = next(text for text in chapters.values() if "Row 1:" in text)
    for html in (fragment, told):
        assert re.search(
            r"Row 1:</strong>.*?</p>\s*<figure>\s*<img[^>]+>\s*<figcaption>Picture of row(&nbsp;|.)1", html, re.DOTALL
        )
    assert 'alt="An end in its row"' in fragment
    assert {"step-1.jpg", "step-2.jpg"} <= set(made)


def test_plain_text_says_what_the_pictures_show(made: dict[str, Path]) -> None:
    lines = made["Small-text.txt"].read_text(encoding="utf-8").splitlines()
    at = next(at for at, line in enumerate(lines) if line.startswith("Row 1."))
    assert lines[at + 1 : at + 3] == [
        "Picture: Row 1 on the hook",
        "Caption: Picture of row 1 with 16 single crochets",
    ]


def test_a_caption_follows_the_terms(tmp_path: Path) -> None:
    source = write_pattern(tmp_path / "coaster")
    files, _ = make_booklet(prove_file(str(source)), Order(tmp_path, ("fragment",), ("A4",), terms="UK"))
    file = next(path for path in files if path.suffix == ".html")
    assert "Picture of row&nbsp;1 with 16 (24) dc" in file.read_text(encoding="utf-8")


def test_a_picture_too_coarse_for_its_place_is_told(tmp_path: Path) -> None:
    source = write_pattern(tmp_path / "coaster")
    Image.radial_gradient("L").resize((600, 400)).save(source / "row.jpg")
    _, findings = make_booklet(prove_file(str(source)), Order(tmp_path, ("text",), ("A4",)))
    (told,) = findings
    # 600 px on 104 mm = 4.09 in
    assert (told.code, told.message) == ("picture-coarse", "the picture “row.jpg” prints at 147 dots to the inch")
    assert told.span.text.startswith("![Row")
