"""The gauge square as a ruler would find it on the printed page: measured from the PDF's own pixels."""

from pathlib import Path

import pypdfium2
import pytest
from PIL import Image

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


def find_lines(image: Image.Image, is_upright: bool) -> list[float]:
    """Middles in mm of dark lines that run on for 9 cm or more, from the upper left corner of the page."""
    line_up = image if is_upright else image.transpose(Image.Transpose.TRANSPOSE)
    dark = line_up.convert("L").point(lambda grey: 255 if grey < 160 else 0)
    shares = list(dark.resize((dark.width, 1), Image.Resampling.BOX).tobytes())
    least = 255 * 90 / 25.4 * DPI / dark.height
    found, run = [], []
    for at, share in enumerate([*shares, 0]):
        if share >= least:
            run.append(at)
        elif run:
            found.append((run[0] + run[-1] + 1) / 2 / DPI * 25.4)
            run = []
    return found


@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_the_gauge_square_measures_ten_centimetres(paper: str, tmp_path: Path) -> None:
    proof = prove_text(TEXT, str(tmp_path / "case.md"))
    paths, findings = make_booklet(proof, Order(tmp_path / "out", editions=("print",), papers=(paper,)))
    assert paths, findings
    book = pypdfium2.PdfDocument(paths[0])
    pages = [page for page in book if "Measuring aids" in page.get_textpage().get_text_range()]
    image = pages[-1].render(scale=DPI / 72, grayscale=True).to_pil()
    half = image.crop((0, 0, image.width, round(image.height * 0.62)))  # the hook gauge stands below
    for is_upright in (True, False):
        lines = find_lines(half, is_upright)
        assert len(lines) >= 2
        sides = [other - one for one in lines for other in lines if other > one]
        assert min(abs(side - 100.0) for side in sides) <= 0.2, lines
