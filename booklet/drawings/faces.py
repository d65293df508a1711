"""Type for drawings: which font file serves, how wide words are in millimetres."""

from functools import lru_cache
from pathlib import Path

from PIL import ImageFont

from booklet.drawings.picture import Ink
from booklet.drawings.plan import Point, Text

MM_PER_POINT = 25.4 / 72
MEASURED_AT = 200  # pixels to the em: fine enough that rounding never shows on paper
_NO_CHARACTER = "\U0010fffe"  # a code that is never assigned, so every font shows its "missing" box


class NoFontError(LookupError):
    """The fonts folder holds no font file that can be read."""


def find_face(ink: Ink, bold: bool, text: str = "") -> Path:
    """The font file for a text: the theme's own face, or the first one that has every letter of it.

    Raises NoFontError where the folder holds no usable font.
    """
    return _find_face(ink.fonts, ink.bold if bold else ink.regular, bold, "".join(sorted(set(text))))


@lru_cache(maxsize=1024)
def _find_face(folder: Path, wanted: str, bold: bool, letters: str) -> Path:
    faces = _list_faces(folder, wanted, bold)
    if not faces:
        raise NoFontError(str(folder))
    for face in faces:
        if all(_has_letter(face, letter) for letter in letters):
            return face
    return faces[0]


@lru_cache(maxsize=16)
def _list_faces(folder: Path, wanted: str, bold: bool) -> tuple[Path, ...]:
    files = sorted(folder.glob("*.[to]tf")) if folder.is_dir() else []

    def fit(path: Path) -> tuple[bool, bool, bool, str]:
        name = path.stem.lower()
        is_bold = any(word in name for word in ("bold", "semibold", "600", "700"))
        return path.name != wanted, "italic" in name or "oblique" in name, is_bold != bold, name

    return tuple(sorted((path for path in files if _opens(path)), key=fit))


def _opens(path: Path) -> bool:
    try:
        open_face(path, 12)
    except OSError:
        return False
    return True


@lru_cache(maxsize=256)
def open_face(path: Path, pixels: int) -> ImageFont.FreeTypeFont:
    """The font at a size in pixels to the em. Raises OSError where the file is no font."""
    return ImageFont.truetype(str(path), pixels)


@lru_cache(maxsize=4096)
def _has_letter(path: Path, letter: str) -> bool:
    if letter.isspace():
        return True
    face = open_face(path, 24)
    return bytes(face.getmask(letter)) != bytes(face.getmask(_NO_CHARACTER))


@lru_cache(maxsize=4096)
def _measure(path: Path, text: str) -> tuple[float, float]:
    """Width of the text and height of a capital, in ems."""
    face = open_face(path, MEASURED_AT)
    _, top, _, bottom = face.getbbox("H")
    return face.getlength(text) / MEASURED_AT, (bottom - top) / MEASURED_AT


def shorten(ink: Ink, text: str, room: float, points: float, bold: bool = False) -> str:
    """The text as it is, or as much of it as fits into `room` mm with an ellipsis at its end."""
    if set_text(ink, text, points=points, bold=bold).width <= room:
        return text
    low, high = 0, len(text)
    while high - low > 1:
        middle = (low + high) // 2
        if set_text(ink, f"{text[:middle].rstrip()}…", points=points, bold=bold).width <= room:
            low = middle
        else:
            high = middle
    return f"{text[:low].rstrip()}…"


def set_text(
    ink: Ink,
    text: str,
    centre: Point = (0.0, 0.0),
    points: float = 8.5,
    colour: str = "",
    bold: bool = False,
    upright: bool = False,
) -> Text:
    """The words as a shape, measured. The height is that of the line: capitals and what hangs below.

    Raises NoFontError where there is nothing to set them in.
    """
    width, capital = _measure(find_face(ink, bold, text), text)
    points *= ink.letters
    em = points * MM_PER_POINT
    return Text(centre, text, points, colour or ink.text, width * em, capital * em * 1.5, bold, upright)
