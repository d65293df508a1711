"""Yarn painted as what it is: round, plied, lit from the upper left.

A stitch is painted once, grey and three times too large, then shrunk, coloured and stamped as often
as it occurs. `tone` 128 is the yarn's own shade; less is shadow, more is light.
"""

import math
import random
from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from itertools import pairwise

from PIL import Image, ImageDraw

from booklet.drawings.plan import Point
from booklet.drawings.shades import BLACK, RGB, WHITE, luminance, mix

SMOOTHING = 3  # times too large for small stitches, 2 for large ones, whose edges show less
LARGE = 40.0  # pixels
LEAST_PLIED = 14.0  # pixels: the twist of a thinner strand would only blur it
# Share of the strand's width, and tone: from the dark rim to the lit ridge.
ROUNDNESS = ((1.0, 34), (0.93, 66), (0.84, 92), (0.7, 114), (0.54, 132), (0.38, 147), (0.22, 160), (0.1, 170))
FULLNESS = 1.32  # yarn fills its fabric: strands are so much thicker than their lines are apart
LIGHT = (-0.16, -0.22)  # how far the ridge lies from the middle, in strand widths


@dataclass(frozen=True, slots=True)
class Strand:
    """A length of yarn along points in stitch widths (u, to the right) and stitch heights (v, upwards).

    `thickness` is in stitch widths; `shift` makes all of it lighter or darker, as what stands out
    or lies back does. A `rooted` strand comes out of the fabric at its first point, from the dark.
    """

    path: tuple[Point, ...]
    thickness: float
    shift: int = 0
    rooted: bool = False


@dataclass(frozen=True, slots=True)
class Stamp:
    """A painted stitch: tones, where it covers, and the pixel in it that is the middle of its foot."""

    tones: Image.Image
    cover: Image.Image
    foot: tuple[int, int]


def smooth_path(points: Sequence[Point], steps: int = 4) -> list[Point]:
    """More points on a curve through the given ones (Catmull and Rom's)."""
    if len(points) < 3:
        return list(points)
    padded = [points[0], *points, points[-1]]
    curve: list[Point] = []
    for p0, p1, p2, p3 in zip(padded, padded[1:], padded[2:], padded[3:], strict=False):
        for step in range(steps):
            t = step / steps
            curve.append((_blend(p0[0], p1[0], p2[0], p3[0], t), _blend(p0[1], p1[1], p2[1], p3[1], t)))
    curve.append(points[-1])
    return curve


def _blend(a: float, b: float, c: float, d: float, t: float) -> float:
    return 0.5 * (2 * b + (c - a) * t + (2 * a - 5 * b + 4 * c - d) * t * t + (3 * b - a - 3 * c + d) * t**3)


def paint_stamp(strands: Sequence[Strand], width: float, height: float, angle: float, seed: int = 0) -> Stamp:
    """The strands of one stitch as a stamp.

    `width` and `height` are the stitch's size in pixels, `angle` is its turn in radians,
    counter-clockwise. Its loose fibres lie as `seed` has it.
    """
    scale = SMOOTHING if width < LARGE else 2
    cos, sin = math.cos(angle), math.sin(angle)

    def place(point: Point) -> Point:
        u, v = point
        x, y = u * width * scale, -v * height * scale
        return x * cos + y * sin, y * cos - x * sin

    placed = [([place(point) for point in smooth_path(strand.path)], strand) for strand in strands]
    thick = FULLNESS * width * scale
    reach = max(strand.thickness for strand in strands) * thick
    xs = [x for path, _ in placed for x, _ in path]
    ys = [y for path, _ in placed for _, y in path]
    left = math.floor((min(xs) - reach) / scale) * scale
    top = math.floor((min(ys) - reach) / scale) * scale
    size = (
        math.ceil((max(xs) + reach - left) / scale) * scale,
        math.ceil((max(ys) + reach - top) / scale) * scale,
    )
    tones, cover = Image.new("L", size, 22), Image.new("L", size, 0)
    chance = random.Random(seed)  # noqa: S311 - loose fibres, not a secret
    for path, strand in placed:
        moved = [(x - left, y - top) for x, y in path]
        _paint_fibres(tones, cover, moved, strand.thickness * thick, chance)
        _paint_strand(tones, cover, moved, strand.thickness * thick, strand.shift)
        if strand.rooted:
            _paint_root(tones, moved[0], strand.thickness * thick)
    return Stamp(tones.reduce(scale), cover.reduce(scale), (-left // scale, -top // scale))


def _paint_strand(tones: Image.Image, cover: Image.Image, path: list[Point], width: float, shift: int) -> None:
    pen = ImageDraw.Draw(tones)
    sides = _normals(path)
    for share, tone in ROUNDNESS:
        dx, dy = (part * width * (1 - share) * 0.55 for part in LIGHT)
        moved = [(x + dx, y + dy) for x, y in path]
        _paint_ribbon(pen, moved, sides, width * share, _clip(tone + shift))
    if width > LEAST_PLIED:
        _paint_plies(pen, path, width, shift)
    _paint_ribbon(ImageDraw.Draw(cover), path, sides, width, 255)


def _normals(path: Sequence[Point]) -> list[Point]:
    """At each point of the path, the unit vector to its left."""
    ends = [path[0], *path, path[-1]]
    normals = []
    for (x0, y0), (x1, y1) in zip(ends, ends[2:], strict=False):
        length = math.hypot(x1 - x0, y1 - y0) or 1.0
        normals.append(((y0 - y1) / length, (x1 - x0) / length))
    return normals


def _paint_ribbon(
    pen: ImageDraw.ImageDraw, path: Sequence[Point], sides: Sequence[Point], width: float, tone: int
) -> None:
    """The path as wide as `width`, with round ends."""
    half = width / 2
    left = [(x + nx * half, y + ny * half) for (x, y), (nx, ny) in zip(path, sides, strict=True)]
    right = [(x - nx * half, y - ny * half) for (x, y), (nx, ny) in zip(path, sides, strict=True)]
    pen.polygon(left + right[::-1], fill=tone)
    for x, y in (path[0], path[-1]):
        pen.ellipse((x - half, y - half, x + half, y + half), fill=tone)


def _paint_fibres(
    tones: Image.Image, cover: Image.Image, path: list[Point], width: float, chance: random.Random
) -> None:
    """Loose fibres that stand off the strand on both sides and let through what lies behind."""
    pens = ImageDraw.Draw(tones), ImageDraw.Draw(cover)
    for (x, y), (dx, dy) in _walk(path, width * 0.3):
        side = chance.choice((-1, 1))
        out, along = width * chance.uniform(0.52, 0.72) * side, width * chance.uniform(-0.45, 0.45)
        start = (x - dy * side * width * 0.4, y + dx * side * width * 0.4)
        end = (x - dy * out + dx * along, y + dx * out + dy * along)
        pens[0].line((*start, *end), fill=chance.randint(120, 165), width=2)
        pens[1].line((*start, *end), fill=chance.randint(60, 150), width=2)


def _paint_root(tones: Image.Image, root: Point, width: float) -> None:
    """The shadow in which a strand comes out of the fabric."""
    side = max(4, round(width * 1.7))
    tones.paste(30, (round(root[0] - side / 2), round(root[1] - side / 2)), _shadow(side))


@lru_cache(maxsize=64)
def _shadow(side: int) -> Image.Image:
    """A round mask, nearly full in the middle and nothing at the rim."""
    return (
        Image.radial_gradient("L").resize((side, side)).point([max(0, 215 - round(tone * 1.25)) for tone in range(256)])
    )


def _paint_plies(pen: ImageDraw.ImageDraw, path: list[Point], width: float, shift: int) -> None:
    """The twist: slanting shadows between the plies, each with a lit edge beside it."""
    half, line = width * 0.43, max(1, round(width * 0.07))
    for (x, y), (dx, dy) in _walk(path, width * 0.46):
        # from one side to the other, slanting forward; the ends bend as they go round the strand
        across, along = (-dy * half, dx * half), (dx * half * 0.62, dy * half * 0.62)
        start = (x + across[0] - along[0], y + across[1] - along[1])
        end = (x - across[0] + along[0], y - across[1] + along[1])
        nudge = (dx * line * 1.3, dy * line * 1.3)
        pen.line((*start, *end), fill=_clip(98 + shift), width=line)
        lit = (0.7 * start[0] + 0.3 * end[0], 0.7 * start[1] + 0.3 * end[1])
        far = (0.25 * start[0] + 0.75 * end[0], 0.25 * start[1] + 0.75 * end[1])
        ends = (lit[0] + nudge[0], lit[1] + nudge[1], far[0] + nudge[0], far[1] + nudge[1])
        pen.line(ends, fill=_clip(163 + shift), width=line)


def _clip(tone: float) -> int:
    return max(0, min(255, round(tone)))


def _walk(path: Sequence[Point], step: float) -> list[tuple[Point, Point]]:
    """Points at even distances along the path, each with the path's direction there."""
    found: list[tuple[Point, Point]] = []
    travelled, due = 0.0, step / 2
    for (x0, y0), (x1, y1) in pairwise(path):
        length = math.hypot(x1 - x0, y1 - y0)
        if length == 0:
            continue
        heading = ((x1 - x0) / length, (y1 - y0) / length)
        while due <= travelled + length:
            along = due - travelled
            found.append(((x0 + heading[0] * along, y0 + heading[1] * along), heading))
            due += step
        travelled += length
    return found


def tone_table(shade: RGB) -> tuple[list[int], list[int], list[int]]:
    """For red, green and blue: what each tone becomes in yarn of the shade.

    White yarn needs visible shadows and black yarn visible light, or neither shows a stitch.
    """
    light = luminance(shade)
    own = mix(shade, BLACK, 0.05) if light > 0.7 else mix(shade, WHITE, max(0.0, 0.13 - light * 2))
    deep = mix(own, (44, 34, 28), 0.62) if light > 0.45 else mix(own, (10, 8, 10), 0.7)
    bright = mix(own, (255, 252, 244), 0.62 if light > 0.3 else 0.42)
    channels = []
    for low, middle, high in zip(deep, own, bright, strict=True):
        below = [round(low + (middle - low) * (tone / 128) ** 0.9) for tone in range(128)]
        above = [round(middle + (high - middle) * (tone - 128) / 127) for tone in range(128, 256)]
        channels.append(below + above)
    return channels[0], channels[1], channels[2]


def colour_stamp(stamp: Stamp, table: tuple[list[int], list[int], list[int]]) -> Image.Image:
    """The stamp's tones in a yarn's shades."""
    return Image.merge("RGB", [stamp.tones.point(channel) for channel in table])
