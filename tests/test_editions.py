"""Every edition on paper of every demo in every theme, looked at as a reader's eye and a copier would."""

import re
from collections.abc import Iterator
from io import BytesIO
from itertools import combinations
from pathlib import Path
from typing import Any

import pikepdf
import pypdfium2
import pypdfium2.raw as pdfium
import pytest
from pikepdf.form import Form
from PIL import Image

from booklet.editions.commission import Commission, take_commission
from booklet.editions.one_size import take_one_size
from booklet.pages.booklet_view import view_booklet
from booklet.pages.theme import load_theme
from booklet.pages.views import BookletView
from booklet.pipeline import Order, Proof, make_booklet, prove_file

CONTENT = Path(__file__).parents[1] / "content"
SOUND = Path(__file__).parent / "patterns" / "sound"
GAUGED = "gauge: 18 sts and 20 rows = 10 cm in sc\n"
ON_PAPER = {"print", "single-size", "handout", "large-print", "folded", "tester"}
LIST = re.compile(r"\d+ ?\(\d+[,)]")
MOST_BYTES = 1_000_000  # of a PDF without the author's photographs
LARGEST_THIRD = 1 / 3
POINTS_PER_PIXEL = 0.75

pytestmark = pytest.mark.slow


def view_of(book: Any, size: int | None) -> BookletView:
    """What the booklet says, taken anew from the proof: of all sizes, or of one by its place."""
    commission = commission_of(book.proof)
    if size is not None:
        commission, _ = take_one_size(commission, size, draws=False)
    return view_booklet(commission.manuscript)


def commission_of(proof: Proof) -> Commission:
    assert proof.parsed is not None
    assert proof.worked is not None
    assert proof.amounts is not None
    theme, _ = load_theme("")
    with pytest.MonkeyPatch.context() as patch:  # pictures take long and hold no rows
        patch.setattr("booklet.editions.commission.draw_pictures", lambda *given: ((), ()))
        commission, _ = take_commission(proof.parsed, proof.worked, proof.amounts, theme)
    return commission


def squeeze(text: str) -> str:
    """Without white space and without the marks at the ends of lines."""
    return re.sub(r"[\s\u00a0\u202f\ufffe\u00ad]+", "", text)


def list_rows(view: BookletView) -> Iterator[str]:
    for section in view.sections:
        for piece in section.pieces:
            for passage in piece.passages:
                if passage.row is not None:
                    label = f"{passage.row.label}:" if passage.row.label else ""
                    count = re.sub("<[^>]*>", "", passage.row.count)
                    yield squeeze(f"{label}{passage.row.body.striptags()}{count}")


def test_there_is_every_edition(book: Any) -> None:
    wanted = ON_PAPER if len(book.sizes) > 1 else ON_PAPER - {"single-size"}
    assert {pdf.edition for pdf in book.pdfs} == wanted
    if book.theme == "wayside" and len(book.sizes) > 1:
        alone = {(pdf.size, pdf.paper) for pdf in book.pdfs if pdf.edition == "single-size"}
        papers = {pdf.paper for pdf in book.pdfs if pdf.edition == "print"}
        on = {paper for _, paper in alone}  # made on one paper, to keep the session of tests short
        assert on <= papers
        assert bool(on) == bool(book.alone)
        assert alone == {(size, paper) for size in book.alone for paper in on}


def test_rows_stand_in_order_and_none_is_split(book: Any) -> None:
    """Each row with its count is whole on one page, and the rows follow as they do in the source."""
    rows = {size: list(list_rows(view_of(book, size))) for size in {pdf.size for pdf in book.pdfs}}
    for pdf in book.pdfs:
        if pdf.is_imposed:
            continue
        pages = [squeeze(text) for text in pdf.texts]
        page, at = 0, 0
        for row in rows[pdf.size]:
            while page < len(pages) and row not in pages[page][at:]:
                page, at = page + 1, 0
            assert page < len(pages), (pdf.path.name, row)
            at = pages[page].index(row, at) + len(row)


def test_the_plain_text_has_the_same_rows(demo_book: Any) -> None:
    """Row by row in order, by its name spelt out, and every count of stitches that the booklet prints."""
    for size, name in [(None, "")] if len(demo_book.sizes) == 1 else list(enumerate(demo_book.sizes)):
        text = " ".join(demo_book.pick(f"{name}-text.txt".lstrip("-")).read_text(encoding="utf-8").split())
        at, rows = text.index("Instructions"), 0
        for section in view_of(demo_book, size).sections:
            for piece in section.pieces if section.key == "instructions" else ():
                for row in (passage.row for passage in piece.passages if passage.row is not None):
                    label = re.sub(r"\b([Rr])nd", r"\1ound", row.label).partition(" (")[0]
                    label = re.sub(r"(\d+)[–-](\d+)", r"\1 to \2", label).replace("\u00a0", " ")
                    counts = re.findall(r"\d+", row.count)
                    for word in (label, *counts):
                        found = text.find(word, at)
                        assert found >= 0, (demo_book.demo, name, row.label, word)
                        at = found + len(word)
                    rows += 1
        assert rows > 5


def test_one_size_has_no_list_of_sizes_left(book: Any) -> None:
    for pdf in book.pdfs:
        if pdf.edition == "single-size":
            assert LIST.findall("\n".join(pdf.texts)) == [], pdf.path.name


def test_the_handout_is_one_sheet_in_black(book: Any) -> None:
    for pdf in book.pdfs:
        if pdf.edition != "handout":
            continue
        assert len(pdf.document) <= 2, pdf.path.name
        with pikepdf.open(pdf.path) as opened:
            for page in opened.pages:
                for instruction in pikepdf.parse_content_stream(page):
                    if str(instruction.operator) in ("rg", "RG"):
                        shades = {float(value) for value in instruction.operands}
                        assert shades in ({0.0}, {1.0}), pdf.path.name
                for image in page.Resources.get("/XObject", {}).values():
                    assert image.get("/ColorSpace", "/DeviceGray") == "/DeviceGray"
        largest = max(
            (image.get_bounds() for page in pdf.document for image in page.get_objects([pdfium.FPDF_PAGEOBJ_IMAGE])),
            key=lambda box: box[3] - box[1],
            default=(0, 0, 0, 0),
        )
        assert largest[3] - largest[1] <= pdf.document[0].get_height() / 2


def test_large_print_has_nothing_under_24_point(book: Any) -> None:
    """The low-vision rules ask for 22 to 24 point."""
    for pdf in book.pdfs:
        if pdf.edition != "large-print":
            continue
        for page in pdf.document:
            text = page.get_textpage()
            sizes = {
                round(pdfium.FPDFText_GetFontSize(text, at) * POINTS_PER_PIXEL, 1)
                for at in range(text.count_chars())
                if not chr(pdfium.FPDFText_GetUnicode(text, at)).isspace()
            }
            assert all(size >= 24 for size in sizes), (pdf.path.name, sizes)
            assert page.get_width() - max(right for _, _, right, _ in boxes(page)) > 24 / 25.4 * 72


def boxes(page: pypdfium2.PdfPage) -> list[tuple[float, float, float, float]]:
    text = page.get_textpage()
    return [text.get_rect(at) for at in range(text.count_rects())]


def text_area(pdf: Any, number: int) -> tuple[float, float]:
    """The upper and lower edge of a page's text in points, running head and foot left out."""
    height = pdf.document[number].get_height()
    return height * 0.92, height * 0.075


def test_no_page_but_the_last_is_less_than_a_third_full(book: Any) -> None:
    for pdf in book.pdfs:
        if pdf.is_imposed:
            continue
        for number, page in enumerate(pdf.document):
            if number == len(pdf.document) - 1:
                continue
            top, foot = text_area(pdf, number)
            bottoms = [bottom for _, bottom, _, upper in boxes(page) if bottom > foot and upper < top + 15]
            bottoms += [max(image.get_bounds()[1], 0) for image in page.get_objects([pdfium.FPDF_PAGEOBJ_IMAGE])]
            assert (top - min(bottoms)) / (top - foot) > LARGEST_THIRD, (pdf.path.name, number + 1)


def test_nothing_reaches_over_the_margin(book: Any) -> None:
    """The narrowest margin is 13 mm, on folded pages."""
    for pdf in book.pdfs:
        for page in () if pdf.is_imposed else pdf.document:
            reach = max((right for _, _, right, _ in boxes(page)), default=0)
            assert reach < page.get_width() - 11 / 25.4 * 72, (pdf.path.name, page)


def find_collisions(page: pypdfium2.PdfPage) -> list[tuple[str, str]]:
    """Words that stand on other words, by more than a point each way."""
    text, found = page.get_textpage(), boxes(page)
    return [
        (text.get_text_bounded(*one), text.get_text_bounded(*other))
        for one, other in combinations(found, 2)
        if min(one[2], other[2]) - max(one[0], other[0]) > 1 and min(one[3], other[3]) - max(one[1], other[1]) > 1
    ]


def test_no_words_stand_on_others(book: Any) -> None:
    for pdf in book.pdfs:
        for number, page in enumerate(() if pdf.is_imposed else pdf.document):
            assert find_collisions(page) == [], (pdf.path.name, number + 1)


def test_a_long_table_beside_a_drawing_stands_in_one_column(tmp_path: Path) -> None:
    """A colour plan is 150 mm wide or less, and a table of few lines stands on its right."""
    text = (SOUND / "inset-mosaic.md").read_text(encoding="utf-8")
    source = tmp_path / "reed-bed-cloth.md"
    source.write_text(text.replace("title:", f"{GAUGED}title:", 1), encoding="utf-8")
    paths, _ = make_booklet(prove_file(str(source)), Order(tmp_path, ("print", "folded"), ("A4", "Letter")))
    documents = [pypdfium2.PdfDocument(path) for path in paths if "fold-on" not in path.name]
    assert len(documents) == 4
    for document in documents:
        pages = [page for page in document if "Colour plan" in page.get_textpage().get_text_range()]
        assert any("Rows 15–16" in page.get_textpage().get_text_range() for page in pages)
        for page in document:
            assert find_collisions(page) == []
            assert max(right for _, _, right, _ in boxes(page)) < page.get_width() - 11 / 25.4 * 72


def test_no_heading_ends_a_page(book: Any) -> None:
    """Under each bookmark there is text or a picture on its page, running foot aside."""
    for pdf in book.pdfs:
        if pdf.is_imposed:
            continue
        for mark in pdf.document.get_toc():
            target = mark.get_dest()
            page = pdf.document[target.get_index()]
            _, view = target.get_view()
            foot = page.get_height() * 0.065
            lines = {round(bottom) for _, bottom, _, upper in boxes(page) if upper < view[1] and bottom > foot}
            pictures = [image.get_bounds() for image in page.get_objects([pdfium.FPDF_PAGEOBJ_IMAGE])]
            seen = len(lines) + sum(upper < view[1] for _, _, _, upper in pictures)
            assert seen >= 2 or target.get_index() == 0, (pdf.path.name, mark.get_title())


def list_elements(node: Any, wanted: str) -> Iterator[Any]:
    """The elements of a kind in the tree of tags, in the order of reading."""
    kids = node.get("/K")
    for kid in kids if isinstance(kids, pikepdf.Array) else [kids]:
        if isinstance(kid, pikepdf.Dictionary) and kid.get("/S") is not None:
            if wanted == kid.S:
                yield kid
            yield from list_elements(kid, wanted)


def pages_of(element: Any) -> set[Any]:
    """The pages, by their object numbers, that marked content of the element stands on."""
    kids = element.get("/K")
    found: set[Any] = set()
    for kid in kids if isinstance(kids, pikepdf.Array) else [kids]:
        if isinstance(kid, pikepdf.Dictionary):
            if kid.get("/Type") == "/MCR" and "/Pg" in kid:
                found.add(kid.Pg.objgen)
            elif kid.get("/S") is not None:
                found |= pages_of(kid)
        elif kid is not None and "/Pg" in element:
            found.add(element.Pg.objgen)
    return found


def test_a_figure_stays_with_its_caption_and_a_paragraph_of_a_row_on_its_page(book: Any) -> None:
    """By the tags: a figure and its caption, a line of a table, stand on one page each."""
    for pdf in book.pdfs:
        if pdf.is_imposed:
            continue
        with pikepdf.open(pdf.path) as opened:
            for kind in ("/Figure", "/TR"):
                for element in list_elements(opened.Root.StructTreeRoot, kind):
                    assert len(pages_of(element)) <= 1, (pdf.path.name, kind)


def test_contents_name_the_pages_where_sections_are(book: Any) -> None:
    for pdf in book.pdfs:
        if pdf.edition not in ("print", "large-print", "folded") or pdf.is_imposed:
            continue
        pages: dict[str, int] = {}
        for mark in pdf.document.get_toc():
            pages.setdefault(mark.get_title(), mark.get_dest().get_index() + 1)
        told = "\n".join(pdf.texts[:5])
        found = 0
        for title, number in pages.items():
            listed = re.search(rf"^{re.escape(title)}(?:, page)? (\d+)\s*$", told, re.MULTILINE)
            if listed is not None:
                assert int(listed[1]) == number, (pdf.path.name, title)
                found += 1
        assert found >= 8, pdf.path.name


def test_files_are_small_and_open_to_everyone(book: Any) -> None:
    for pdf in book.pdfs:
        assert pdf.path.stat().st_size < MOST_BYTES, (pdf.path.name, pdf.path.stat().st_size)
        with pikepdf.open(pdf.path) as opened:
            assert not opened.is_encrypted
            assert str(opened.Root.Lang) in ("en-US", "en-GB")
            assert opened.docinfo.get("/Title"), pdf.path.name
            assert "/StructTreeRoot" in opened.Root
            assert "/Outlines" in opened.Root


def test_every_face_of_the_text_is_embedded_in_part(book: Any) -> None:
    """Of pages, of the form and of the look of its fields: no font anywhere in the file is left to the viewer."""
    for pdf in book.pdfs:
        with pikepdf.open(pdf.path) as opened:
            fonts = [item for item in opened.objects if isinstance(item, pikepdf.Dictionary)]
            fonts = [
                font for font in fonts if font.get("/Type") == "/Font" and not str(font.Subtype).startswith("/CID")
            ]
            assert fonts
            for font in fonts:
                face = font.DescendantFonts[0] if "/DescendantFonts" in font else font
                descriptor = face.FontDescriptor
                assert any(key in descriptor for key in ("/FontFile", "/FontFile2", "/FontFile3")), pdf.path.name
                assert "+" in str(font.BaseFont)


def test_the_testers_form_can_be_filled_in(book: Any, tmp_path: Path) -> None:
    for pdf in book.pdfs:
        if pdf.edition != "tester":
            continue
        with pikepdf.open(pdf.path) as opened:
            fields = {str(field.T): field for field in opened.Root.AcroForm.Fields}
            assert {"name", "dates", "hours", "hook", "gauge-sts-1", "notes", "line-1", "error-10"} <= set(fields)
            assert all(str(field.TU) for field in fields.values())
            letters = {colour.letter for colour in book.proof.pattern.colours}  # type: ignore[union-attr]
            assert {f"grams-{letter}" for letter in letters} <= set(fields)
            form = Form(opened)
            form["notes"].value = "Line 56 makes 62, not 64."
            opened.save(tmp_path / "filled.pdf")
        filled = pypdfium2.PdfDocument(tmp_path / "filled.pdf")
        filled.init_forms()
        shown = filled[len(filled) - 1].render(scale=1, may_draw_forms=True).to_pil().convert("L")
        empty = pdf.document[len(pdf.document) - 1].render(scale=1).to_pil().convert("L")
        assert isinstance(shown, Image.Image)
        assert sum(shown.histogram()[:100]) > sum(empty.histogram()[:100])


@pytest.mark.of_book("lantern-hat")
def test_the_same_source_gives_the_same_bytes(tmp_path: Path) -> None:
    for edition in ("handout", "folded", "tester", "text"):
        kept = []
        for place in ("one", "two"):
            paths, _ = make_booklet(
                prove_file(str(CONTENT / "lantern-hat")), Order(tmp_path / place, (edition,), ("A4",))
            )
            kept.append({path.name: BytesIO(path.read_bytes()).getvalue() for path in paths})
        assert kept[0] == kept[1], edition
