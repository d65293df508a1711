"""Pictures made ready for a screen: fewer pixels than paper needs, in whichever file is smaller."""

from dataclasses import replace
from io import BytesIO

from PIL import Image

from booklet.drawings.picture import Picture

PHOTO_PIXELS = (960, 800, 680)  # in width: the widest that keeps within MAX_BYTES at a good quality
MAX_DRAWING_PIXELS = 1100  # thin lines and small letters want more
MAX_BYTES = 125_000
QUALITIES = (82, 75, 68, 60)
FEW_COLOURS = 64


def shrink_picture(picture: Picture) -> Picture:
    """The same picture for a web page, at most MAX_BYTES where that can be had without harm to the eye.

    Its size on paper, its words and its table stay. A picture that is small already comes back as it is.
    """
    is_photo = picture.media_type == "image/jpeg"
    with Image.open(BytesIO(picture.png)) as opened:
        image = opened.convert("L" if opened.mode == "L" else "RGB")
    found = [(picture.png, picture.media_type)]
    if is_photo:
        found.append(_write_photo(image))
    else:
        image = _narrow(image, MAX_DRAWING_PIXELS)
        found += [_write_jpeg(image, QUALITIES[0]), _write_png(image)]
    data, media_type = min(found, key=lambda file: len(file[0]))
    return replace(picture, png=data, media_type=media_type)


def _narrow(image: Image.Image, width: int) -> Image.Image:
    """The image, no wider than that many pixels."""
    if image.width <= width:
        return image
    return image.resize((width, max(1, round(image.height * width / image.width))), Image.Resampling.LANCZOS)


def _write_photo(image: Image.Image) -> tuple[bytes, str]:
    """As wide and as good as MAX_BYTES allow, else as the last of both."""
    file = (b"", "image/jpeg")
    for width in PHOTO_PIXELS:
        narrowed = _narrow(image, width)
        for quality in QUALITIES:
            file = _write_jpeg(narrowed, quality)
            if len(file[0]) <= MAX_BYTES:
                return file
    return file


def _write_jpeg(image: Image.Image, quality: int) -> tuple[bytes, str]:
    file = BytesIO()
    image.save(file, "JPEG", quality=quality, optimize=True, progressive=True)
    return file.getvalue(), "image/jpeg"


def _write_png(image: Image.Image) -> tuple[bytes, str]:
    """With a palette: drawings have few colours, and shades between them on their edges only."""
    file = BytesIO()
    image.convert("RGB").quantize(FEW_COLOURS, dither=Image.Dither.NONE).save(file, "PNG", optimize=True)
    return file.getvalue(), "image/png"
