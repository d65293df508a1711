"""A finished picture with its words, and the ink that a theme gives to drawings."""

from dataclasses import dataclass
from pathlib import Path

OWN = "own"  # shown while no size is chosen, or one of its own
WAITS = "waits"  # shown only while one of its own sizes is chosen
STAYS = "stays"  # always shown, since the other sizes have no picture


@dataclass(frozen=True, slots=True)
class Picture:
    """One picture as a file's bytes, its size on paper, and its text twin.

    `png` holds the file: PNG, unless `media_type` says JPEG (photographs and the fabric picture,
    which are many times larger as PNG). `alt` says with numbers what is to be seen. `table` is the
    text twin, its first row the heads; empty where alt and caption say everything.
    """

    name: str
    png: bytes
    width_mm: float
    height_mm: float
    alt: str
    caption: str = ""
    table: tuple[tuple[str, ...], ...] = ()
    media_type: str = "image/png"
    narrow: "Picture | None" = None  # the same for a screen on which this one would be too small to read
    sizes: tuple[int, ...] = ()  # the sizes that it is right for, where it differs from size to size
    showing: str = ""  # where one of `sizes` is chosen: OWN, WAITS or STAYS

    @property
    def file_name(self) -> str:
        """Name with the ending that belongs to its bytes."""
        return f"{self.name}.{'jpg' if self.media_type == 'image/jpeg' else 'png'}"


@dataclass(frozen=True, slots=True)
class Ink:
    """What a theme decides about drawings: the folder of fonts, and colours as "#rrggbb".

    `paleness` is the share of paper in the colours of yarn, from 0; the letters on them stay readable.
    `regular` and `bold` are file names in `fonts`; where one is missing the folder's first fitting
    face is taken. `ground` is what lies behind a piece that does not fill its picture. `letters` is how many times as
    large as usual they are, in a drawing that will be printed smaller.
    """

    fonts: Path
    text: str = "#22262b"
    line: str = "#3a4047"
    faint: str = "#8b9299"
    accent: str = "#8a4b32"
    ground: str = "#eee9e1"
    regular: str = "atkinson-hyperlegible-next-400.ttf"
    bold: str = "atkinson-hyperlegible-next-700.ttf"
    paleness: float = 0.0
    letters: float = 1.0
