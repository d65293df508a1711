"""The fabric picture: every worked stitch in its place, shape, colour and light.

It is painted from the worked rows alone. A large piece is cropped to its best part; a small one is
laid on the ground with a soft shadow.
"""

import math
import random
from collections.abc import Sequence
from dataclasses import replace
from io import BytesIO

from PIL import Image, ImageChops, ImageDraw, ImageFilter

from booklet.drawings.areas import run_polygon
from booklet.drawings.cells import clip_runs, find_spaces
from booklet.drawings.lay import Lay
from booklet.drawings.palette import Palette, find_tint
from booklet.drawings.picture import Ink, Picture
from booklet.drawings.placing import PlacedStitch, View, choose_window, place_stitches
from booklet.drawings.plan import Box
from booklet.drawings.shades import BLACK, RGB, mix, read_shade
from booklet.drawings.stitch_shapes import find_shape
from booklet.drawings.strands import Stamp, Strand, colour_stamp, paint_stamp, tone_table
from booklet.drawings.words import describe_fabric

DPI = 220  # as for a photograph: yarn has no sharp edges
WHOLE_STITCH_MM = 0.4  # a piece whose stitches come out this wide is shown whole
CROP_STITCH_MM = 1.7  # else its stitches are shown about this wide
FILL = 0.88  # share of the picture that a whole piece takes
LARGEST_STITCH_MM = 10.0  # larger than life beyond that, and like rope
ANGLE_STEP = math.radians(6)
VARIANTS = 3  # no two neighbouring stitches are the same hand's work
GAP_SHADE: RGB = (52, 45, 41)  # what is seen through a gap
QUALITY = 64


class _Painter:
    """Stamps stitches on a canvas; each distinct stitch is painted once."""

    def __init__(self, palette: Palette) -> None:
        self.palette = palette
        self.stamps: dict[tuple[object, ...], Stamp] = {}
        self.coloured: dict[tuple[object, ...], Image.Image] = {}
        self.tables: dict[str, tuple[list[int], list[int], list[int]]] = {}

    def table(self, letter: str) -> tuple[list[int], list[int], list[int]]:
        if letter not in self.tables:
            self.tables[letter] = tone_table(read_shade(find_tint(self.palette, letter).shade))
        return self.tables[letter]

    def paint(self, canvas: Image.Image, stitch: PlacedStitch, variant: int) -> None:
        dx, dy = stitch.head[0] - stitch.foot[0], stitch.head[1] - stitch.foot[1]
        height = _coarsen(max(2.0, math.hypot(dx, dy)))
        width = _coarsen(stitch.width)
        turn = round(math.atan2(-dx, -dy) / ANGLE_STEP)
        key = (stitch.kind, stitch.is_front, width, height, turn, variant)
        if key not in self.stamps:
            shape = _vary(find_shape(stitch.kind, stitch.is_front), variant)
            self.stamps[key] = paint_stamp(shape, width, height, turn * ANGLE_STEP, variant)
        stamp = self.stamps[key]
        if (*key, stitch.letter) not in self.coloured:
            self.coloured[*key, stitch.letter] = colour_stamp(stamp, self.table(stitch.letter))
        place = (round(stitch.foot[0]) - stamp.foot[0], round(stitch.foot[1]) - stamp.foot[1])
        canvas.paste(self.coloured[*key, stitch.letter], place, stamp.cover)


def _coarsen(pixels: float) -> float:
    """The length to about a twentieth, so that stitches of nearly one size share a stamp."""
    step = math.log(1.05)
    return math.exp(round(math.log(max(1.0, pixels)) / step) * step)


def _vary(shape: Sequence[Strand], variant: int) -> list[Strand]:
    """The shape with its strands a hair out of place, the same hair for the same variant."""
    if variant == 0:
        return list(shape)
    chance = random.Random(variant)  # noqa: S311 - an uneven hand, not a secret

    def stir(share: float) -> float:
        return share + chance.uniform(-0.025, 0.025)

    return [
        replace(
            strand,
            path=tuple((stir(u), stir(v)) for u, v in strand.path),
            shift=strand.shift + chance.randint(-5, 5),
        )
        for strand in shape
    ]


def draw_fabric(piece: Lay, title: str, palette: Palette, ink: Ink, width_mm: float, height_mm: float) -> Picture:
    """The piece as crochet, a picture of the given size; JPEG, since PNG would be many times larger.

    `title` is what the words call the piece.
    """
    view, is_whole = choose_view(piece, width_mm, height_mm)
    left, top, right, bottom = view.window
    alt, caption = describe_fabric(piece, title, palette, None if is_whole else (right - left, bottom - top))
    image = paint_fabric(piece, palette, ink, width_mm, height_mm)
    return Picture("fabric", encode_jpeg(image), width_mm, height_mm, alt, caption, media_type="image/jpeg")


def paint_fabric(piece: Lay, palette: Palette, ink: Ink, width_mm: float, height_mm: float) -> Image.Image:
    """The piece as crochet, on a canvas of the given size at `DPI` dots to the inch."""
    size = (round(width_mm / 25.4 * DPI), round(height_mm / 25.4 * DPI))
    view, is_whole = choose_view(piece, width_mm, height_mm)
    ground = read_shade(ink.ground)
    canvas = Image.new("RGB", size, ground)
    _lay_shadow(canvas, piece, view, ground)
    if not is_whole:  # between rows that are seen from near lies the dark of the fabric
        ImageDraw.Draw(canvas).polygon([view.at(point) for point in piece.outline], fill=GAP_SHADE)
    _lay_under(canvas, piece, palette, view, mix(ground, BLACK, 0.45) if is_whole else GAP_SHADE)
    painter = _Painter(palette)
    for row_number, row in enumerate(place_stitches(piece, view)):
        for number, stitch in enumerate(row):
            painter.paint(canvas, stitch, (number * 7 + row_number * 5 + number * number) % VARIANTS)
    return _light(canvas)


def choose_view(piece: Lay, width_mm: float, height_mm: float) -> tuple[View, bool]:
    """What part is shown, and whether it is the whole piece with ground around it."""
    pixels_per_mm = DPI / 25.4
    fitting = min(width_mm * FILL / piece.width, height_mm * FILL / piece.height)
    whole = min(fitting, LARGEST_STITCH_MM / piece.stitch_cm)  # mm to the cm
    left, top, right, bottom = piece.box
    if whole * piece.stitch_cm >= WHOLE_STITCH_MM or piece.bands[0].top.closed or piece.shape != "flat":
        width, height = width_mm / whole, height_mm / whole
        x, y = (left + right - width) / 2, (top + bottom - height) / 2
        return View((x, y, x + width, y + height), whole * pixels_per_mm), True
    own_left, own_top, own_right, own_bottom = piece.own_box
    cover = max(width_mm / (own_right - own_left), height_mm / (own_bottom - own_top))
    scale = max(CROP_STITCH_MM / piece.stitch_cm, cover)
    letters = list(dict.fromkeys(run.letter for band in piece.bands for run in band.runs()))
    window = choose_window(piece, width_mm / scale, height_mm / scale, letters)
    return View(window, scale * pixels_per_mm), False


def _lay_shadow(canvas: Image.Image, piece: Lay, view: View, ground: RGB) -> None:
    """A soft shadow of the outline, below and to the right, since the light comes from the upper left."""
    mask = Image.new("L", (canvas.width // 4, canvas.height // 4), 0)
    points = [view.at(point) for point in piece.outline]
    offset = canvas.width * 0.006
    ImageDraw.Draw(mask).polygon([((x + offset) / 4, (y + 1.6 * offset) / 4) for x, y in points], fill=150)
    soft = mask.filter(ImageFilter.GaussianBlur(canvas.width * 0.0035)).resize(canvas.size, Image.Resampling.BILINEAR)
    canvas.paste(mix(ground, BLACK, 0.62), (0, 0), soft)


def _lay_under(canvas: Image.Image, piece: Lay, palette: Palette, view: View, gap: RGB) -> None:
    """The dark of the fabric between strands; where there are chains alone, what lies behind it."""
    pen = ImageDraw.Draw(canvas)
    left, top, right, bottom = _shown_box(view)
    for band in piece.all_bands:
        holes = clip_runs(find_spaces(band.row.fabric, band.direction), *band.seen)
        for run in (*band.runs(), *holes):
            polygon = [view.at(point) for point in run_polygon(band, run)]
            xs, ys = zip(*polygon, strict=True)
            if max(xs) < left or min(xs) > right or max(ys) < top or min(ys) > bottom:
                continue
            deep = mix(read_shade(find_tint(palette, run.letter).shade), (30, 24, 21), 0.5)
            pen.polygon(polygon, fill=gap if run in holes else deep)


def _shown_box(view: View) -> Box:
    left, top, right, bottom = view.window
    return 0.0, 0.0, (right - left) * view.scale, (bottom - top) * view.scale


def _light(canvas: Image.Image) -> Image.Image:
    """Light that falls from the upper left over cloth that is never quite even."""
    chance = random.Random(7)  # noqa: S311 - uneven cloth, not a secret
    across, down = 7, max(3, round(7 * canvas.height / canvas.width))
    levels = bytes(
        round(min(255.0, 254 - 12 * (x / across + y / down) / 2 + chance.uniform(-4, 2)))
        for y in range(down)
        for x in range(across)
    )
    light = Image.frombytes("L", (across, down), levels).resize(canvas.size, Image.Resampling.BICUBIC)
    return ImageChops.multiply(canvas, Image.merge("RGB", [light] * 3))


def encode_jpeg(image: Image.Image, dpi: int = DPI) -> bytes:
    """The image as JPEG bytes with its resolution, and nothing else."""
    file = BytesIO()
    image.save(file, "JPEG", quality=QUALITY, dpi=(dpi, dpi), subsampling=2)
    return file.getvalue()
