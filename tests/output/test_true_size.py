"""The gauge square as a ruler would find it on the printed page: measured from the PDF's own pixels."""

from pathlib import Path

import pypdfium2
import pytest
from PIL import Image

from booklet.pages.theme import list_themes, themes_folder
from booklet.pipeline import Order, make_booklet, prove_text

DPI = 1200
TEXT = """---
title: Harebell Square
gauge: 16 sts and 18 rows = 10 cm, 5 mm hook
hook: 5 mm
---

## Square

Ch 11.

Row 1: Sc in 2nd ch from hook and in each ch across. (10 sc)

Row 2: Ch 1 (does not count as a st), turn, sc in each st across. (10 sc)
"""


def find_lines(image: Image.Image, is_upright: bool, dpi: int = DPI) -> list[float]:
    """Middles in mm of dark lines that run on for 9 cm or more, from the upper left corner of the page."""
    line_up = image if is_upright else image.transpose(Image.Transpose.TRANSPOSE)
    dark = line_up.convert("L").point(lambda grey: 255 if grey < 160 else 0)
    shares = list(dark.resize((dark.width, 1), Image.Resampling.BOX).tobytes())
    least = 255 * 90 / 25.4 * dpi / dark.height
    found, run = [], []
    for at, share in enumerate([*shares, 0]):
        if share >= least:
            run.append(at)
        elif run:
            found.append((run[0] + run[-1] + 1) / 2 / dpi * 25.4)
            run = []
    return found


def find_true_sizes(path: Path) -> list[tuple[float, float]]:
    """Width and height in mm of the square's sides on each page that has it.

    Its picture is the one in which black lines 100 mm long, at 300 dots to the inch 1,181 pixels apart, run down and
    across; the page says at which size it is set.
    """
    sides = []
    for page in pypdfium2.PdfDocument(path):
        if "Measuring aids" not in page.get_textpage().get_text_range():
            continue
        for item in page.get_objects(filter=[pypdfium2.raw.FPDF_PAGEOBJ_IMAGE]):
            image = item.get_bitmap().to_pil()
            left, bottom, right, top = item.get_bounds()
            found = [find_lines(image, is_upright, 300) for is_upright in (True, False)]
            if all(len(lines) >= 2 for lines in found):
                across, down = ((right - left) / image.width, (top - bottom) / image.height)
                pairs = zip(found, (across, down), strict=True)
                near = [min((b - a for a in lines for b in lines if b > a), key=_off) * s for lines, s in pairs]
                sides.append((near[0] * 300 / 72, near[1] * 300 / 72))
    return sides


def _off(side: float) -> float:
    return abs(side - 100.0)


@pytest.mark.parametrize("theme", list_themes([themes_folder()]))
def test_the_gauge_square_has_its_size_in_every_theme(theme: str, tmp_path: Path) -> None:
    proof = prove_text(TEXT, str(tmp_path / "case.md"))
    order = Order(tmp_path / "out", editions=("print", "tester"), papers=("A4",), theme=theme)
    paths, findings = make_booklet(proof, order)
    assert len(paths) == 2, findings
    for path in paths:
        assert find_true_sizes(path) == [pytest.approx((100.0, 100.0), abs=0.2)], path.name


@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_the_gauge_square_measures_ten_centimetres(paper: str, tmp_path: Path) -> None:
    proof = prove_text(TEXT, str(tmp_path / "case.md"))
    paths, findings = make_booklet(proof, Order(tmp_path / "out", editions=("print",), papers=(paper,)))
    assert paths, findings
    book = pypdfium2.PdfDocument(paths[0])
    pages = [page for page in book if "Measuring aids" in page.get_textpage().get_text_range()]
    image = pages[-1].render(scale=DPI / 72, grayscale=True).to_pil()
    for is_upright in (True, False):
        lines = find_lines(image, is_upright)
        assert len(lines) >= 2
        sides = [other - one for one in lines for other in lines if other > one]
        assert min(abs(side - 100.0) for side in sides) <= 0.2, lines
