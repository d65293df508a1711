"""Where in an area a label fits: the middle of its roomiest part."""

from collections.abc import Sequence

from PIL import Image, ImageDraw, ImageFilter

from booklet.drawings.plan import Area as Shape
from booklet.drawings.plan import Point, bound_shapes

PIXELS_PER_MM = 3.0


def find_spot(polygons: Sequence[tuple[Point, ...]], side: float) -> Point | None:
    """The middle of a square of `side` mm that lies wholly in the polygons (mm); None where none fits.

    The area is painted small and worn away from all sides, ever further, until nothing is left: what was left last
    is the roomiest part, and what was left before that has nearly as much room and keeps to the middle.
    """
    left, top, right, bottom = bound_shapes([Shape(tuple(polygons), "#000000")])
    if min(right - left, bottom - top) < side:
        return None
    margin = 2
    width = round((right - left) * PIXELS_PER_MM) + 2 * margin
    height = round((bottom - top) * PIXELS_PER_MM) + 2 * margin
    mask = Image.new("L", (width, height), 0)
    pen = ImageDraw.Draw(mask)
    for polygon in polygons:
        pen.polygon(
            [((x - left) * PIXELS_PER_MM + margin, (y - top) * PIXELS_PER_MM + margin) for x, y in polygon], fill=255
        )
    radius = side / 2 * PIXELS_PER_MM
    best: list[Image.Image] = []
    while radius < max(width, height):
        kept = mask.filter(ImageFilter.BoxBlur(radius)).point([255 if level >= 254 else 0 for level in range(256)])
        if kept.getbbox() is None:
            break
        best = [*best[-1:], kept]
        radius *= 1.35
    if not best:
        return None
    x, y = _nearest_to_middle(best[0])
    return left + (x - margin + 0.5) / PIXELS_PER_MM, top + (y - margin + 0.5) / PIXELS_PER_MM


def _nearest_to_middle(mask: Image.Image) -> tuple[int, int]:
    """The set pixel that is nearest to the middle of all set pixels."""
    box = mask.getbbox()
    assert box is not None
    part = mask.crop(box)
    middle = ((part.width - 1) / 2, (part.height - 1) / 2)
    pixels = part.tobytes()
    found = min(
        (index for index, level in enumerate(pixels) if level),
        key=lambda index: (index % part.width - middle[0]) ** 2 + (index // part.width - middle[1]) ** 2,
    )
    return box[0] + found % part.width, box[1] + found // part.width
