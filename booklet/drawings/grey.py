"""Pictures for sheets that are copied in black: grey only, light enough to keep their shapes on a copier."""

from dataclasses import replace
from io import BytesIO

from PIL import Image, ImageOps

from booklet.drawings.picture import Picture

WIDEST = 1400  # pixels: 300 to the inch over the 118 mm that a sheet gives a picture
CUTOFF = 1  # per cent of the darkest and of the lightest that contrast may lose
DARKEST = 72  # a copier fills anything darker
QUALITY = 82


def grey_picture(picture: Picture) -> Picture:
    """The same picture in shades of grey, its contrast spread to the full range; words and table stay."""
    with Image.open(BytesIO(picture.png)) as opened:
        image = ImageOps.autocontrast(opened.convert("L"), cutoff=CUTOFF)
    image = image.point([DARKEST + value * (255 - DARKEST) // 255 for value in range(256)])
    if image.width > WIDEST:
        image = image.resize((WIDEST, max(1, round(image.height * WIDEST / image.width))), Image.Resampling.LANCZOS)
    file = BytesIO()
    if picture.media_type == "image/jpeg":
        image.save(file, "JPEG", quality=QUALITY, optimize=True)
    else:
        image.save(file, "PNG", optimize=True)
    return replace(picture, png=file.getvalue())
