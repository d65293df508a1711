"""Drawings cut to what is drawn, at the same scale."""

from io import BytesIO

import pytest
from PIL import Image, ImageDraw

from booklet.drawings.picture import Picture
from booklet.drawings.trimming import EDGE_MM, trim_picture


def draw(box: tuple[int, int, int, int] | None, mode: str = "RGB") -> Picture:
    """A sheet of 100 x 80 mm at 10 pixels a millimetre with a frame at `box`."""
    image = Image.new(mode, (1000, 800), "white")
    if box:
        ImageDraw.Draw(image).rectangle(box, outline="black", width=3)
    file = BytesIO()
    image.save(file, "PNG")
    return Picture("plan", file.getvalue(), 100, 80, "A frame")


@pytest.mark.parametrize("mode", ["RGB", "L"])
def test_empty_paper_is_cut_off_and_the_scale_stays(mode: str) -> None:
    trimmed = trim_picture(draw((300, 100, 699, 699), mode))
    assert trimmed.width_mm == pytest.approx(40 + 2 * EDGE_MM)
    assert trimmed.height_mm == pytest.approx(60 + 2 * EDGE_MM)
    with Image.open(BytesIO(trimmed.png)) as image:
        assert image.size == (430, 630)
        assert image.mode == mode


@pytest.mark.parametrize("box", [None, (0, 0, 999, 799), (10, 5, 990, 795)])
def test_a_picture_without_paper_to_spare_stays(box: tuple[int, int, int, int] | None) -> None:
    picture = draw(box)
    assert trim_picture(picture) is picture
