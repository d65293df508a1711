"""Codes that lead to addresses: read back by a reader that is not ours."""

from dataclasses import replace
from io import BytesIO

import pytest
from PIL import Image

from booklet.drawings.codes import MODULE_MM, QUIET, draw_code, draw_codes
from booklet.model.pattern import Publisher
from booklet.pipeline import prove_text

zxingcpp = pytest.importorskip("zxingcpp")

ADDRESS = "https://lanternlane.example/watch?list=hats&film=2"


def read(data: bytes) -> list[str]:
    with Image.open(BytesIO(data)) as image:
        return [found.text for found in zxingcpp.read_barcodes(image.convert("L"))]


@pytest.mark.parametrize("address", [ADDRESS, "https://a.example", "https://a.example/" + "x" * 180])
def test_the_code_reads_as_its_address(address: str) -> None:
    picture = draw_code("page", "Page", address)
    assert read(picture.png) == [address]
    assert picture.alt == f"QR code that leads to {address}"


def test_its_quiet_zone_and_modules_are_as_wide_as_the_standard_asks() -> None:
    """Four modules of white all round (ISO/IEC 18004, 9.1, from memory)."""
    picture = draw_code("page", "Page", ADDRESS)
    with Image.open(BytesIO(picture.png)) as image:
        modules = round(picture.width_mm / MODULE_MM)
        pixels = image.width // modules
        left, top, right, bottom = image.point(lambda value: 255 - value).getbbox() or (0, 0, 0, 0)
        assert (left, top) == (QUIET * pixels, QUIET * pixels)
        assert (image.width - right, image.height - bottom) == (QUIET * pixels, QUIET * pixels)
        assert (modules - 2 * QUIET - 17) % 4 == 0  # a symbol of 21, 25, 29 … modules


def test_a_pattern_has_a_code_for_each_address_that_it_gives() -> None:
    pattern = prove_text(f"---\ntitle: Dune\npage: {ADDRESS}\n---\nRow 1: Ch 3.\n", "dune.md").pattern
    assert pattern is not None
    assert [picture.name for picture in draw_codes(pattern)] == ["code-page"]
    errata = replace(pattern, page="", publisher=Publisher(errata="https://a.example/errata"))
    assert [picture.name for picture in draw_codes(errata)] == ["code-errata"]
    assert draw_codes(replace(pattern, page="", publisher=Publisher(errata="write to us"))) == ()
