"""Hatches that tell colours apart where there is no colour: on a grey printer, or to some eyes.

Each is a small tile that repeats without a seam, drawn as a mask.
"""

import math
from collections.abc import Callable
from functools import lru_cache

from PIL import Image, ImageDraw

Pen = ImageDraw.ImageDraw
TILE_MM = 4.0
LINE = 0.07  # share of the tile that a hatch line is wide


def _plain(pen: Pen, size: int) -> None:
    pass


def _slope(pen: Pen, size: int, rise: int, count: int, line: float = LINE) -> None:
    """Parallel lines at 45 degrees, rising (+1) or falling (-1), `count` to a tile."""
    for step in range(-count, 2 * count + 1):
        x = step * size / count
        # drawn past the tile's edge, so that the cut ends of a thick line do not show as notches
        bottom, top = (2 * size, -size) if rise > 0 else (-size, 2 * size)
        pen.line((x - size, bottom, x + 2 * size, top), fill=255, width=round(size * line))


def _rising(pen: Pen, size: int) -> None:
    _slope(pen, size, 1, 2)


def _falling(pen: Pen, size: int) -> None:
    _slope(pen, size, -1, 2)


def _crossed(pen: Pen, size: int) -> None:
    _slope(pen, size, 1, 2, LINE * 0.8)
    _slope(pen, size, -1, 2, LINE * 0.8)


def _bold_rising(pen: Pen, size: int) -> None:
    _slope(pen, size, 1, 1, LINE * 3)


def _stripes(pen: Pen, size: int, count: int, is_level: bool, line: float = LINE) -> None:
    for step in range(count):
        at = (step + 0.5) * size / count
        ends = (-1, at, size + 1, at) if is_level else (at, -1, at, size + 1)
        pen.line(ends, fill=255, width=round(size * line))


def _level(pen: Pen, size: int) -> None:
    _stripes(pen, size, 3, True)


def _upright(pen: Pen, size: int) -> None:
    _stripes(pen, size, 3, False)


def _grid(pen: Pen, size: int) -> None:
    _stripes(pen, size, 2, True, LINE * 0.8)
    _stripes(pen, size, 2, False, LINE * 0.8)


def _bricks(pen: Pen, size: int) -> None:
    _stripes(pen, size, 2, True)
    for x, top in ((0.25, -0.25), (0.75, 0.25), (0.25, 0.75)):
        pen.line((x * size, top * size, x * size, (top + 0.5) * size), fill=255, width=round(size * LINE))


def _seats(count: int, size: int) -> list[tuple[float, float]]:
    """Middles of a staggered lattice, `count` to a side."""
    step = size / count
    return [
        ((column + (0.25 if row % 2 else 0.75)) * step, (row + 0.5) * step)
        for row in range(count)
        for column in range(-1, count + 1)
    ]


def _dots(pen: Pen, size: int) -> None:
    radius = size * 0.085
    for x, y in _seats(4, size):
        pen.ellipse((x - radius, y - radius, x + radius, y + radius), fill=255)


def _rings(pen: Pen, size: int) -> None:
    radius = size * 0.15
    for x, y in _seats(2, size):
        pen.ellipse((x - radius, y - radius, x + radius, y + radius), outline=255, width=round(size * LINE))


def _pluses(pen: Pen, size: int) -> None:
    arm = size * 0.12
    for x, y in _seats(2, size):
        pen.line((x - arm, y, x + arm, y), fill=255, width=round(size * LINE))
        pen.line((x, y - arm, x, y + arm), fill=255, width=round(size * LINE))


def _dashes(pen: Pen, size: int) -> None:
    for x, y in _seats(4, size):
        pen.line((x - size * 0.08, y, x + size * 0.08, y), fill=255, width=round(size * LINE * 1.3))


def _triangles(pen: Pen, size: int) -> None:
    for x, y in _seats(2, size):
        pen.polygon(
            [(x - size * 0.14, y + size * 0.11), (x + size * 0.14, y + size * 0.11), (x, y - size * 0.13)], fill=255
        )


def _waves(pen: Pen, size: int) -> None:
    for row in range(2):
        points = [
            (x, (row + 0.5 + 0.22 * math.sin(2 * math.pi * x / size)) * size / 2)
            for x in range(-4, size + 5, max(1, size // 32))
        ]
        pen.line(points, fill=255, width=round(size * LINE), joint="curve")


def _zigzags(pen: Pen, size: int) -> None:
    for row in range(-1, 3):
        y = (row + 0.5) * size / 2
        corners = [(step * size / 4, y + (size * 0.12 if step % 2 else -size * 0.12)) for step in range(-1, 6)]
        pen.line(corners, fill=255, width=round(size * LINE), joint="curve")


HATCHES: tuple[tuple[str, Callable[[Pen, int], None]], ...] = (
    ("plain", _plain),
    ("rising lines", _rising),
    ("dots", _dots),
    ("level lines", _level),
    ("crosses", _pluses),
    ("falling lines", _falling),
    ("waves", _waves),
    ("upright lines", _upright),
    ("rings", _rings),
    ("crossed lines", _crossed),
    ("bricks", _bricks),
    ("triangles", _triangles),
    ("zigzags", _zigzags),
    ("square grid", _grid),
    ("dashes", _dashes),
    ("broad rising lines", _bold_rising),
)


def hatch_name(number: int) -> str:
    """What the hatch is called in words; numbers beyond the last begin again."""
    return HATCHES[number % len(HATCHES)][0]


@lru_cache(maxsize=64)
def _tile(number: int, size: int) -> Image.Image:
    tile = Image.new("L", (size, size), 0)
    HATCHES[number % len(HATCHES)][1](ImageDraw.Draw(tile), size)
    return tile


def paint_hatch(number: int, width: int, height: int, pixels_per_mm: float) -> Image.Image:
    """A mask of the asked size in pixels, filled with the hatch."""
    size = max(8, round(TILE_MM * pixels_per_mm))
    sheet = Image.new("L", (width, height), 0)
    tile = _tile(number, size)
    strip = Image.new("L", (width, min(size, height)), 0)
    for x in range(0, width, size):
        strip.paste(tile, (x, 0))
    for y in range(0, height, size):
        sheet.paste(strip, (0, y))
    return sheet
