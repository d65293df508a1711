"""Every edition on paper of every pattern in content/, looked at as a reader's eye and a copier would."""

import re
import shutil
import subprocess
import sys
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property
from io import BytesIO
from pathlib import Path

import pikepdf
import pypdfium2
import pypdfium2.raw as pdfium
import pytest
from pikepdf.form import Form
from PIL import Image

from booklet.editions.commission import Commission, take_commission
from booklet.editions.one_size import take_one_size
from booklet.model.editions import EDITIONS
from booklet.pages.booklet_view import view_booklet
from booklet.pages.theme import load_theme
from booklet.pages.views import BookletView
from booklet.pipeline import Order, Proof, make_booklet, prove_file

CONTENT = Path(__file__).parents[1] / "content"
# Two of the demos, so that continuous integration stays short; the others take minutes each.
SOURCES = [str(CONTENT / name) for name in ("four-fields-blanket", "lantern-hat")]
ON_PAPER = tuple(name for name in EDITIONS if name in
                 ("print", "single-size", "handout", "large-print", "folded", "tester"))  # fmt: skip
LIST = re.compile(r"\d+ ?\(\d+[,)]")
MOST_BYTES = 1_000_000  # of a PDF without the author's photographs
LARGEST_THIRD = 1 / 3
POINTS_PER_PIXEL = 0.75

pytestmark = pytest.mark.slow


@dataclass(frozen=True)
class Pdf:
    """One PDF with the edition that it is."""

    source: str
    proof: Proof
    edition: str
    size: int | None
    path: Path

    @cached_property
    def document(self) -> pypdfium2.PdfDocument:
        return pypdfium2.PdfDocument(self.path)

    @cached_property
    def texts(self) -> list[str]:
        return [page.get_textpage().get_text_range() for page in self.document]

    @property
    def is_imposed(self) -> bool:
        return "-to-fold-on-" in self.path.name

    def view(self) -> BookletView:
        commission = commission_of(self.proof)
        if self.size is not None:
            commission, _ = take_one_size(commission, self.size, draws=False)
        return view_booklet(commission.manuscript)


def commission_of(proof: Proof) -> Commission:
    assert proof.parsed is not None
    assert proof.worked is not None
    assert proof.amounts is not None
    theme, _ = load_theme("")
    commission, _ = take_commission(proof.parsed, proof.worked, proof.amounts, theme)
    return commission


@pytest.fixture(scope="module")
def pdfs(tmp_path_factory: pytest.TempPathFactory) -> list[Pdf]:
    """All editions on A4, and what is different on Letter."""
    out = tmp_path_factory.mktemp("build")
    made: list[Pdf] = []
    for source in SOURCES:
        proof = prove_file(source)
        assert proof.pattern is not None
        names = [name.replace(" ", "-") for name in proof.pattern.size_names]
        for paper, editions in (("A4", ON_PAPER), ("Letter", ("print", "handout", "folded"))):
            for edition in editions:
                paths, findings = make_booklet(proof, Order(out, (edition,), (paper,)))
                assert [finding.message for finding in findings] == [], (source, edition)
                for path in paths:
                    size = next((n for n, name in enumerate(names) if name and f"-US-{name}-" in path.name), None)
                    made.append(Pdf(source, proof, edition, size, path))
    return made


def squeeze(text: str) -> str:
    """Without white space and without the marks at the ends of lines."""
    return re.sub(r"[\s\u00a0\u202f\ufffe\u00ad]+", "", text)


def list_rows(view: BookletView) -> Iterator[str]:
    for section in view.sections:
        for piece in section.pieces:
            for passage in piece.passages:
                if passage.row is not None:
                    label = f"{passage.row.label}:" if passage.row.label else ""
                    yield squeeze(f"{label}{passage.row.body.striptags()}{passage.row.count}")


def test_there_is_every_edition(pdfs: list[Pdf]) -> None:
    for source in SOURCES:
        sizes = {len(pdf.proof.pattern.size_names) for pdf in pdfs if pdf.source == source}  # type: ignore[union-attr]
        wanted = set(ON_PAPER) if sizes != {1} else set(ON_PAPER) - {"single-size"}
        assert {pdf.edition for pdf in pdfs if pdf.source == source} == wanted


def test_rows_stand_in_order_and_none_is_split(pdfs: list[Pdf]) -> None:
    """Each row with its count is whole on one page, and the rows follow as they do in the source."""
    for pdf in pdfs:
        if pdf.is_imposed:
            continue
        pages = [squeeze(text) for text in pdf.texts]
        page, at = 0, 0
        for row in list_rows(pdf.view()):
            while page < len(pages) and row not in pages[page][at:]:
                page, at = page + 1, 0
            assert page < len(pages), (pdf.path.name, row)
            at = pages[page].index(row, at) + len(row)


def test_one_size_has_no_list_of_sizes_left(pdfs: list[Pdf]) -> None:
    for pdf in pdfs:
        if pdf.edition == "single-size":
            assert LIST.findall("\n".join(pdf.texts)) == [], pdf.path.name


def test_the_handout_is_one_sheet_in_black(pdfs: list[Pdf]) -> None:
    for pdf in pdfs:
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


def test_large_print_has_nothing_under_24_point(pdfs: list[Pdf]) -> None:
    """The low-vision rules ask for 22 to 24 point."""
    for pdf in pdfs:
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


def test_no_page_but_the_last_is_less_than_a_third_full(pdfs: list[Pdf]) -> None:
    for pdf in pdfs:
        if pdf.is_imposed:
            continue
        for number, page in enumerate(pdf.document, start=1):
            if number == len(pdf.document):
                continue
            height = page.get_height()
            top, foot = height * 0.92, height * 0.075  # of the text, without running heads and page numbers
            bottoms = [bottom for _, bottom, _, upper in boxes(page) if bottom > foot and upper < top + 15]
            bottoms += [max(image.get_bounds()[1], 0) for image in page.get_objects([pdfium.FPDF_PAGEOBJ_IMAGE])]
            assert (top - min(bottoms)) / (top - foot) > LARGEST_THIRD, (pdf.path.name, number)


def test_no_heading_ends_a_page(pdfs: list[Pdf]) -> None:
    """Under each bookmark there is text on its page, running foot aside."""
    for pdf in pdfs:
        if pdf.is_imposed:
            continue
        for mark in pdf.document.get_toc():
            target = mark.get_dest()
            page = pdf.document[target.get_index()]
            _, view = target.get_view()
            lines = {round(bottom) for _, bottom, _, upper in boxes(page) if upper < view[1] and bottom > 50}
            assert len(lines) >= 2 or target.get_index() == 0, (pdf.path.name, mark.get_title())


def test_contents_name_the_pages_where_sections_are(pdfs: list[Pdf]) -> None:
    for pdf in pdfs:
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


def test_files_are_small_and_open_to_everyone(pdfs: list[Pdf]) -> None:
    for pdf in pdfs:
        assert pdf.path.stat().st_size < MOST_BYTES, (pdf.path.name, pdf.path.stat().st_size)
        with pikepdf.open(pdf.path) as opened:
            assert not opened.is_encrypted
            assert str(opened.Root.Lang) in ("en-US", "en-GB")
            assert opened.docinfo.get("/Title"), pdf.path.name
            assert "/StructTreeRoot" in opened.Root
            assert "/Outlines" in opened.Root


def test_files_pass_the_checkers(pdfs: list[Pdf]) -> None:
    """qpdf for the file, pdfua for what a screen reader needs."""
    for pdf in pdfs:
        if shutil.which("qpdf") is not None:
            ran = subprocess.run(["qpdf", "--check", str(pdf.path)], capture_output=True, text=True, check=False)
            assert ran.returncode == 0, ran.stdout + ran.stderr
        command = [str(Path(sys.executable).with_name("pdfua")), "check", "--format", "json", str(pdf.path)]
        ran = subprocess.run(command, capture_output=True, text=True, check=False)
        assert ran.returncode == 0, ran.stdout + ran.stderr


def test_every_face_of_the_text_is_embedded_in_part(pdfs: list[Pdf]) -> None:
    """Helvetica and ZapfDingbats are what viewers type with in fields; no text of the page is set in them."""
    for pdf in pdfs:
        with pikepdf.open(pdf.path) as opened:
            for font in opened.pages[0].Resources.Font.values():
                (face,) = font.DescendantFonts
                descriptor = face.FontDescriptor
                assert any(key in descriptor for key in ("/FontFile", "/FontFile2", "/FontFile3")), pdf.path.name
                assert "+" in str(font.BaseFont)


def test_the_testers_form_can_be_filled_in(pdfs: list[Pdf], tmp_path: Path) -> None:
    for pdf in pdfs:
        if pdf.edition != "tester":
            continue
        with pikepdf.open(pdf.path) as opened:
            fields = {str(field.T): field for field in opened.Root.AcroForm.Fields}
            assert {"name", "dates", "hours", "hook", "gauge-sts-1", "notes", "line-1", "error-10"} <= set(fields)
            assert all(str(field.TU) for field in fields.values())
            letters = {colour.letter for colour in pdf.proof.pattern.colours}  # type: ignore[union-attr]
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


def test_the_same_source_gives_the_same_bytes(tmp_path: Path) -> None:
    for edition in ("handout", "folded", "tester", "text"):
        kept = []
        for place in ("one", "two"):
            paths, _ = make_booklet(prove_file(SOURCES[-1]), Order(tmp_path / place, (edition,), ("A4",)))
            kept.append({path.name: BytesIO(path.read_bytes()).getvalue() for path in paths})
        assert kept[0] == kept[1], edition
