"""An author's own pictures: checked before anything else touches them, then made ready for paper.

What is handed on is turned upright, no larger than print needs, and free of everything the camera
wrote into it, such as where it was taken.
"""

import struct
import warnings
from collections.abc import Iterator
from contextlib import contextmanager
from io import BytesIO
from pathlib import Path

from PIL import Image, ImageCms, ImageFile, ImageOps, UnidentifiedImageError

from booklet.drawings import messages
from booklet.drawings.picture import Picture
from booklet.findings import Finding
from booklet.model.pattern import Image as ImageLine

MAX_PIXELS = 40_000_000
MAX_BYTES = 30_000_000
LEAST_DPI = 200
PRINT_DPI = 300
QUALITY = 88
FEW_COLOURS = 64  # a drawing, not a photograph
FORMATS = ("JPEG", "PNG", "WEBP")
UNREADABLE = (OSError, SyntaxError, ValueError, EOFError, struct.error)


def check_image(image: ImageLine, folder: Path, width_mm: float, height_mm: float) -> tuple[Finding, ...]:
    """What is wrong with a picture that is to be printed within `width_mm` x `height_mm`."""
    return _open_image(image, folder, width_mm, height_mm)[1]


def prepare_image(
    image: ImageLine, folder: Path, name: str, width_mm: float, height_mm: float
) -> tuple[Picture | None, tuple[Finding, ...]]:
    """The picture ready for print within `width_mm` x `height_mm`, or None and the reason."""
    opened, findings = _open_image(image, folder, width_mm, height_mm)
    if opened is None:
        return None, findings
    printed = _fit(opened, width_mm, height_mm)
    data, media_type = _encode(opened, printed[0])
    alt = image.alt or image.caption or "Picture of the finished piece"
    return Picture(name, data, *printed, alt=alt, caption=image.caption, media_type=media_type), findings


def _fit(image: Image.Image, width_mm: float, height_mm: float) -> tuple[float, float]:
    """Width and height in mm at which the picture just fits."""
    scale = min(width_mm / image.width, height_mm / image.height)
    return image.width * scale, image.height * scale


def _open_image(
    image: ImageLine, folder: Path, width_mm: float, height_mm: float
) -> tuple[Image.Image | None, tuple[Finding, ...]]:
    path = folder / image.file
    try:
        if not path.resolve().is_relative_to(folder.resolve()):
            return None, (messages.picture_unreadable(image, "it lies outside the pattern's folder"),)
        size = path.stat().st_size
        if size > MAX_BYTES:
            what = f"the file has {size / 1e6:.0f} MB"
            return None, (messages.picture_too_large(image, what, f"{MAX_BYTES // 1_000_000} MB"),)
        opened = _open(path)
    except _TooManyPixelsError as found:
        limit = f"{MAX_PIXELS // 1_000_000} million pixels"
        return None, (messages.picture_too_large(image, str(found), limit),)
    except UNREADABLE as found:
        return None, (messages.picture_unreadable(image, _reason(found)),)
    printed_mm, _ = _fit(opened, width_mm, height_mm)
    dpi = opened.width / printed_mm * 25.4
    if dpi < LEAST_DPI:
        return opened, (messages.picture_coarse(image, opened.width, printed_mm, dpi, LEAST_DPI),)
    return opened, ()


class _TooManyPixelsError(Exception):
    """The picture has more pixels than are safe to unpack; says how many."""


@contextmanager
def _strictly() -> Iterator[None]:
    """Broken files are refused, and huge ones not unpacked, whatever other libraries have set."""
    before = ImageFile.LOAD_TRUNCATED_IMAGES
    ImageFile.LOAD_TRUNCATED_IMAGES = False
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore", Image.DecompressionBombWarning)  # the pixels are counted here
            yield
    finally:
        ImageFile.LOAD_TRUNCATED_IMAGES = before


def _open(path: Path) -> Image.Image:
    """The whole picture, upright, in RGB or grey. Raises one of UNREADABLE, or _TooManyPixelsError."""
    with _strictly():
        try:
            file = Image.open(path, formats=FORMATS)
        except Image.DecompressionBombError as bomb:
            raise _TooManyPixelsError("it has several times as many pixels") from bomb
        with file:
            if file.width * file.height > MAX_PIXELS:
                raise _TooManyPixelsError(f"it has {file.width} × {file.height} pixels")
            file.load()
            return _plain(ImageOps.exif_transpose(file))


def _plain(image: Image.Image) -> Image.Image:
    """The picture in grey or sRGB, without transparency: what is clear becomes paper white."""
    if image.mode in ("RGBA", "LA", "PA") or "transparency" in image.info:
        paper = Image.new("RGBA", image.size, "white")
        return Image.alpha_composite(paper, image.convert("RGBA")).convert("RGB")
    profile = image.info.get("icc_profile")
    if profile and image.mode in ("RGB", "CMYK"):
        try:
            own = ImageCms.ImageCmsProfile(BytesIO(profile))
            converted = ImageCms.profileToProfile(image, own, ImageCms.createProfile("sRGB"), outputMode="RGB")
            return converted or image.convert("RGB")
        except ImageCms.PyCMSError:
            pass  # a broken profile says nothing about the colours; the picture itself is whole
    return image if image.mode == "L" else image.convert("RGB")


def _encode(image: Image.Image, width_mm: float) -> tuple[bytes, str]:
    """The picture's bytes, no finer than print needs: PNG for drawings of few colours, else JPEG."""
    wanted = round(width_mm / 25.4 * PRINT_DPI)
    if image.width > wanted:
        image = image.resize((wanted, max(1, round(image.height * wanted / image.width))), Image.Resampling.LANCZOS)
    dpi = round(image.width / width_mm * 25.4)
    file = BytesIO()
    clean = Image.new(image.mode, image.size)
    clean.paste(image)
    if clean.getcolors(FEW_COLOURS):
        clean.save(file, "PNG", dpi=(dpi, dpi))
        return file.getvalue(), "image/png"
    clean.save(file, "JPEG", quality=QUALITY, dpi=(dpi, dpi))
    return file.getvalue(), "image/jpeg"


def _reason(found: BaseException) -> str:
    """Why a file could not be read, in words that help."""
    if isinstance(found, FileNotFoundError):
        return "there is no such file"
    if isinstance(found, IsADirectoryError):
        return "it is a folder"
    if isinstance(found, PermissionError):
        return "the file may not be read"
    if isinstance(found, UnidentifiedImageError):
        return f"it is no {messages.KINDS} file"
    return "the file is damaged or incomplete"
