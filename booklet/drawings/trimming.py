"""Drawings without the empty paper around them, so that pages can set them beside their tables."""

from dataclasses import replace
from io import BytesIO

from PIL import Image, ImageChops

from booklet.drawings.picture import Picture

EDGE_MM = 1.5
SMALLEST_TRIM_MM = 3.0


def trim_picture(picture: Picture) -> Picture:
    """The picture at the same scale, cut to what is drawn and a narrow edge; one without white paper stays."""
    with Image.open(BytesIO(picture.png)) as opened:
        opened.load()
        image = opened
    drawn = ImageChops.invert(image.convert("L").point(lambda grey: 255 if grey > 250 else grey)).getbbox()
    if drawn is None:
        return picture
    per_mm = image.width / picture.width_mm
    edge = round(EDGE_MM * per_mm)
    left, top, right, bottom = drawn
    box = (max(0, left - edge), max(0, top - edge), min(image.width, right + edge), min(image.height, bottom + edge))
    if image.width - (box[2] - box[0]) + image.height - (box[3] - box[1]) < SMALLEST_TRIM_MM * per_mm:
        return picture
    file = BytesIO()
    image.crop(box).save(file, "PNG", dpi=opened.info.get("dpi", (300, 300)))
    return replace(
        picture,
        png=file.getvalue(),
        width_mm=(box[2] - box[0]) / per_mm,
        height_mm=(box[3] - box[1]) / per_mm,
        media_type="image/png",
    )
