"""Pictures for the screen: small enough, and still what they were."""

import random
from io import BytesIO

from PIL import Image, ImageDraw

from booklet.drawings.picture import Picture
from booklet.drawings.screen import MAX_BYTES, MAX_DRAWING_PIXELS, PHOTO_PIXELS, shrink_picture


def write(image: Image.Image, media_type: str) -> Picture:
    file = BytesIO()
    image.save(file, "PNG" if media_type == "image/png" else "JPEG", quality=92)
    return Picture("fabric", file.getvalue(), 160, 200, "Moss stitch", "Drawn", (), media_type)


def paint_stitches(width: int, height: int) -> Image.Image:
    """A surface as restless as a drawn fabric."""
    chance = random.Random(7)  # noqa: S311 - a picture, no secret
    image = Image.new("RGB", (width, height), "#a9552f")
    pen = ImageDraw.Draw(image)
    for _ in range(width * height // 500):
        x, y = chance.randrange(width), chance.randrange(height)
        shade = tuple(chance.randrange(60, 220) for _ in range(3))
        pen.line((x, y, x + 14, y + chance.randrange(-6, 7)), fill=shade, width=4)
    return image


def test_a_photograph_keeps_within_its_bytes_and_its_shape() -> None:
    shrunk = shrink_picture(write(paint_stitches(1400, 1750), "image/jpeg"))
    with Image.open(BytesIO(shrunk.png)) as image:
        assert (image.format, image.width in PHOTO_PIXELS) == ("JPEG", True)
        assert abs(image.height / image.width - 1.25) < 0.01
    assert len(shrunk.png) <= MAX_BYTES
    assert (shrunk.width_mm, shrunk.height_mm, shrunk.alt) == (160, 200, "Moss stitch")


def test_a_drawing_stays_without_loss_of_its_lines() -> None:
    image = Image.new("RGB", (1900, 1200), "white")
    ImageDraw.Draw(image).rectangle((50, 50, 1800, 1100), outline="#333333", width=4)
    shrunk = shrink_picture(write(image, "image/png"))
    with Image.open(BytesIO(shrunk.png)) as small:
        assert (small.format, small.width <= 1900) == ("PNG", True)
    assert shrunk.media_type == "image/png"
    assert MAX_DRAWING_PIXELS < 1900


def test_a_picture_that_is_small_already_comes_back_as_it_is() -> None:
    picture = write(Image.new("L", (40, 24), 200), "image/png")
    assert len(shrink_picture(picture).png) <= len(picture.png)
