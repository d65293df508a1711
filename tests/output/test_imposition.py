"""Two pages to a side: in which order, where they lie, and whether tags and links came along."""

import re
import shutil
import subprocess
from collections.abc import Callable
from io import BytesIO
from pathlib import Path

import pikepdf
import pytest

from booklet.output.imposition import PAPER_MM, POINTS_PER_MM, impose_pages, order_spreads
from booklet.output.pdf import PrintJob, write_pdf
from booklet.source import SourceFile

# What psbook of psutils 1.17 prints for so many pages: left and right of each side in turn, * for a blank.
PSBOOK = {
    4: "4 1 2 3",
    5: "* 1 2 * * 3 4 5",
    8: "8 1 2 7 6 3 4 5",
    11: "* 1 2 11 10 3 4 9 8 5 6 7",
    16: "16 1 2 15 14 3 4 13 12 5 6 11 10 7 8 9",
    20: "20 1 2 19 18 3 4 17 16 5 6 15 14 7 8 13 12 9 10 11",
    32: "32 1 2 31 30 3 4 29 28 5 6 27 26 7 8 25 24 9 10 23 22 11 12 21 20 13 14 19 18 15 16 17",
}
SHEET, PAGE = (297.0, 210.0), (148.0, 210.0)


def write_order(pages: int) -> str:
    return " ".join("*" if at is None else str(at + 1) for spread in order_spreads(pages) for at in spread)


@pytest.mark.parametrize("pages", PSBOOK)
def test_the_order_is_that_of_psbook(pages: int) -> None:
    assert write_order(pages) == PSBOOK[pages]


@pytest.mark.parametrize("pages", range(4, 33))
def test_the_order_is_that_of_psbook_where_it_is_installed(pages: int) -> None:
    if shutil.which("psbook") is None:
        pytest.skip("psutils is not installed")
    stub = "".join(f"%%Page: {page} {page}\nshowpage\n" for page in range(1, pages + 1))
    ran = subprocess.run(
        ["psbook"],
        input=f"%!PS-Adobe-3.0\n%%Pages: {pages}\n%%EndComments\n%%EndProlog\n{stub}%%Trailer\n%%EOF\n",
        capture_output=True,
        text=True,
        check=True,
    )
    labels = re.findall(r"^%%Page: \(?([^\s)]+)", ran.stdout, re.MULTILINE)
    assert write_order(pages) == " ".join(label if label.isdigit() else "*" for label in labels)


@pytest.mark.parametrize("pages", range(1, 41))
def test_every_page_lies_once_and_follows_when_folded(pages: int) -> None:
    spreads = order_spreads(pages)
    assert sorted(at for spread in spreads for at in spread if at is not None) == list(range(pages))
    assert len(spreads) % 2 == 0
    for front, back in zip(spreads[::2], spreads[1::2], strict=True):
        # What is printed on the back of the right page of the front is the left page of the back.
        assert front[1] is None or back[0] in (front[1] + 1, None)


@pytest.fixture(scope="module")
def book() -> bytes:
    fonts = Path(__file__).parents[2] / "themes" / "fonts"
    links = "".join(f'<p><a href="#part-{part}">to part {part}</a></p>' for part in range(1, 7))
    parts = "".join(
        f'<section style="break-before:page"><h2 id="part-{part}">Part {part}</h2><p>Words of part {part}.</p>'
        '<table><thead><tr><th scope="col">A</th></tr></thead>'
        f"<tbody><tr><td>{part}</td></tr></tbody></table></section>"
        for part in range(1, 7)
    )
    html = (
        '<!DOCTYPE html><html lang="en"><head><meta charset="utf-8"><title>Dune Wrap</title>'
        '<style>@page { size: 148mm 210mm; margin: 15mm } body { font-family: "Source Serif 4" }</style></head>'
        f"<body><h1>Dune Wrap</h1>{links}{parts}</body></html>"
    )
    data, findings = write_pdf(PrintJob("test", html, {}, (fonts,), SourceFile("wrap.md", "x").whole()))
    assert data is not None
    assert findings == ()
    return data


def test_pages_lie_against_the_fold_and_inner_ones_nearer_to_it(book: bytes) -> None:
    with pikepdf.open(BytesIO(impose_pages(book, SHEET, PAGE))) as pdf:
        assert len(pdf.pages) == 4
        assert [round(float(side)) for side in pdf.pages[0].mediabox] == [0, 0, 842, 595]
        moved = [
            float(instruction.operands[4])
            for page in pdf.pages
            for instruction in pikepdf.parse_content_stream(page)
            if str(instruction.operator) == "cm" and [str(o) for o in instruction.operands[:4]] == ["1", "0", "0", "1"]
        ]
    middle = SHEET[0] / 2 * POINTS_PER_MM
    left = middle - PAGE[0] * POINTS_PER_MM
    creep = PAPER_MM * POINTS_PER_MM
    expected = {middle, left, middle - creep, left + creep}
    assert {round(value, 2) for value in expected} <= {round(value, 2) for value in moved}


def test_the_same_pages_give_the_same_bytes(book: bytes) -> None:
    assert impose_pages(book, SHEET, PAGE) == impose_pages(book, SHEET, PAGE)


def test_links_and_bookmarks_lead_to_the_side_with_their_page(book: bytes) -> None:
    with pikepdf.open(BytesIO(impose_pages(book, SHEET, PAGE))) as pdf:
        sides = {page.obj.objgen for page in pdf.pages}
        names = pdf.Root.Names.Dests.Names
        assert len(names) == 12
        assert {target[0].objgen for target in list(names)[1::2]} <= sides
        links = [link for page in pdf.pages for link in page.obj.get("/Annots", ())]
        assert len(links) == 6
        middle = SHEET[0] / 2 * POINTS_PER_MM
        assert all(float(link.Rect[0]) > middle for link in links)  # page 1 is the right one
        with pdf.open_outline() as outline:
            assert outline.root[0].title == "Dune Wrap"


def test_the_tags_read_in_the_order_of_the_text(book: bytes, tmp_path: Path) -> None:
    if shutil.which("pdfinfo") is None:
        pytest.skip("poppler-utils is not installed")
    texts = []
    for name, data in (("plain.pdf", book), ("folded.pdf", impose_pages(book, SHEET, PAGE))):
        (tmp_path / name).write_bytes(data)
        ran = subprocess.run(
            ["pdfinfo", "-struct-text", str(tmp_path / name)], capture_output=True, text=True, check=True
        )
        texts.append(re.sub(r"Object \d+ \d+", "Object", ran.stdout))
    assert "Words of part 6." in texts[0]
    assert texts[0] == texts[1]


def test_error_pages_of_several_origins(make_job: Callable[..., PrintJob]) -> None:
    data, _ = write_pdf(make_job("<h1>One</h1>"))
    assert data is not None
    with pikepdf.open(BytesIO(data)) as pdf, pikepdf.open(BytesIO(data)) as other:
        pdf.pages.extend(other.pages)
        file = BytesIO()
        pdf.save(file)
    with pytest.raises(ValueError, match="share their resources"):
        impose_pages(file.getvalue(), SHEET, PAGE)
