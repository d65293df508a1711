"""Cards: a drawing is shown whole, as it has words at its edges; a picture of fabric fills its place."""

from io import BytesIO
from pathlib import Path

import pytest
from PIL import Image

from booklet.drawings.cards import CardStyle, CardWords, draw_cards
from booklet.drawings.picture import Ink, Picture

FONTS = Path(__file__).parents[2] / "themes" / "fonts"
CORNERS = {(250, 0, 0): (0, 0), (0, 250, 0): (-80, 0), (0, 0, 250): (0, -80), (250, 0, 250): (-80, -80)}


def make_picture(name: str, size: tuple[int, int]) -> Picture:
    """White, with a patch of its own colour in every corner."""
    image = Image.new("RGB", size, "white")
    for shade, (x, y) in CORNERS.items():
        left, top = x % size[0], y % size[1]
        image.paste(shade, (left, top, left + 80, top + 80))
    file = BytesIO()
    image.save(file, "PNG")
    return Picture(name, file.getvalue(), 100.0, 50.0, "A drawing", "")


def count_corners(card: Picture) -> int:
    with Image.open(BytesIO(card.png)) as opened:
        colours = opened.convert("RGB").getcolors(opened.width * opened.height) or []
    return sum(
        sum(count for count, seen in colours if is_near(seen, shade)) > 100  # pixels
        for shade in CORNERS
    )


def is_near(colour: object, shade: tuple[int, int, int]) -> bool:
    """Whether they are alike but for what JPEG does to them."""
    assert isinstance(colour, tuple)
    return all(abs(a - b) < 50 for a, b in zip(colour, shade, strict=True))


@pytest.mark.parametrize("size", [(1600, 700), (600, 1600)])
@pytest.mark.parametrize(("name", "corners"), [("colour-plan", 4), ("fabric", 0)])
def test_a_drawing_is_whole_and_fabric_fills(name: str, corners: int, size: tuple[int, int]) -> None:
    words = CardWords("Crochet pattern", "Hare", ("One size",), "Lantern Lane")
    style = CardStyle(Ink(FONTS), "#ffffff", "#8a3522")
    cards = draw_cards(words, ["#c79f68", "#3d4a6b"], make_picture(name, size), style)
    assert [count_corners(card) for card in cards] == [corners, corners]
