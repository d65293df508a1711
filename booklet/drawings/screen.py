"""Pictures made ready for a screen: fewer pixels than paper needs, in whichever file is smaller."""

from dataclasses import replace
from io import BytesIO

from PIL import Image

from booklet.drawings.picture import Picture

PHOTO_PIXELS = (960, 800, 680)  # in width: the widest that keeps within MAX_BYTES at a good quality
STEP_PIXELS = (960, 800)  # the same for a picture of a step, in which small things must be seen
MAX_DRAWING_PIXELS = 1100  # thin lines and small letters want more
MAX_BYTES = 125_000
PAPER_DPI = 300
LEAST_PIXELS, MOST_PIXELS = 800, 1200  # the width of the matter of usual pages, and of those twice as fine
QUALITIES = (82, 75, 68, 60)
FEW_COLOURS = 64
FEW_GREYS = 16  # of a drawing in grey: half a byte a pixel


def shrink_picture(picture: Picture) -> Picture:
    """The same picture for a web page, at most MAX_BYTES where that can be had without harm to the eye.

    Its size on paper, its words and its table stay. A picture that is small already comes back as it is.
    """
    is_photo = picture.media_type == "image/jpeg"
    with Image.open(BytesIO(picture.png)) as opened:
        image = opened.convert("L" if opened.mode == "L" else "RGB")
    found = [(picture.png, picture.media_type)]
    if is_photo:
        found.append(_write_photo(image, STEP_PIXELS if picture.name.startswith("step-") else PHOTO_PIXELS))
    else:
        image = _narrow(image, MAX_DRAWING_PIXELS)
        found += [_write_jpeg(image, QUALITIES[0]), _write_png(image, FEW_GREYS if image.mode == "L" else FEW_COLOURS)]
    data, media_type = min(found, key=lambda file: len(file[0]))
    return replace(picture, png=data, media_type=media_type)


def fit_screens(picture: Picture, small: Picture | None) -> Picture:
    """The picture for usual screens; with the `small` one for narrow screens where it would be too small there."""
    if small is None or picture.width_mm <= small.width_mm:
        return shrink_picture(picture)
    return replace(shrink_picture(picture), narrow=shrink_picture(replace(small, name=f"{picture.name}-narrow")))


def widen_picture(picture: Picture) -> Picture:
    """The picture as a file of its own for a page: LEAST_PIXELS to MOST_PIXELS wide, and light.

    A wider one is made smaller; a drawing that is narrower gets white paper at its sides, since its lines
    would blur if it grew. A photograph of fewer pixels stays as it is.
    """
    is_photo = picture.media_type == "image/jpeg"
    with Image.open(BytesIO(picture.png)) as opened:
        image = _narrow(opened.convert("L" if opened.mode == "L" else "RGB"), MOST_PIXELS)
    if is_photo:
        data, media_type = _write_photo(image, (MOST_PIXELS, 1000, LEAST_PIXELS), 2 * MAX_BYTES)
        return replace(picture, png=data, media_type=media_type)
    if image.width < LEAST_PIXELS:
        paper = Image.new(image.mode, (LEAST_PIXELS, image.height), "white")
        paper.paste(image, ((LEAST_PIXELS - image.width) // 2, 0))
        image = paper
    data, media_type = min((_write_jpeg(image, QUALITIES[0]), _write_png(image)), key=lambda file: len(file[0]))
    return replace(picture, png=data, media_type=media_type)


def drop_colour(picture: Picture) -> Picture:
    """The same picture in grey, as it comes from a printer without colours."""
    with Image.open(BytesIO(picture.png)) as opened:
        if opened.mode == "L":
            return picture
        resolution = opened.info.get("dpi", (PAPER_DPI, PAPER_DPI))
        grey, file = opened.convert("L"), BytesIO()
    if picture.media_type == "image/jpeg":
        grey.save(file, "JPEG", quality=QUALITIES[0], optimize=True, dpi=resolution)
    else:
        grey.save(file, "PNG", optimize=True, dpi=resolution)
    return replace(picture, png=file.getvalue())


def count_pixels(picture: Picture) -> tuple[int, int]:
    """Width and height of the picture's file."""
    with Image.open(BytesIO(picture.png)) as opened:
        return opened.size


def _narrow(image: Image.Image, width: int) -> Image.Image:
    """The image, no wider than that many pixels."""
    if image.width <= width:
        return image
    return image.resize((width, max(1, round(image.height * width / image.width))), Image.Resampling.LANCZOS)


def _write_photo(
    image: Image.Image, widths: tuple[int, ...] = PHOTO_PIXELS, most: int = MAX_BYTES
) -> tuple[bytes, str]:
    """As wide and as good as so many bytes allow, else as the last of both."""
    file = (b"", "image/jpeg")
    for width in widths:
        narrowed = _narrow(image, width)
        for quality in QUALITIES:
            file = _write_jpeg(narrowed, quality)
            if len(file[0]) <= most:
                return file
    return file


def _write_jpeg(image: Image.Image, quality: int) -> tuple[bytes, str]:
    file = BytesIO()
    image.save(file, "JPEG", quality=quality, optimize=True, progressive=True)
    return file.getvalue(), "image/jpeg"


def _write_png(image: Image.Image, colours: int = FEW_COLOURS) -> tuple[bytes, str]:
    """With a palette: drawings have few colours, and shades between them on their edges only."""
    file = BytesIO()
    image.convert("RGB").quantize(colours, dither=Image.Dither.NONE).save(file, "PNG", optimize=True)
    return file.getvalue(), "image/png"
