"""From a plan in millimetres to the bytes of a PNG, painted once and smoothed by shrinking.

Line drawings are grey (one byte a pixel, which the PDF keeps), colour drawings RGB. Shapes are
painted three times too large and shrunk, since Pillow's lines are not smoothed; words are set at
the final size, where FreeType smooths them itself.
"""

import math
from io import BytesIO

from PIL import Image, ImageChops, ImageDraw

from booklet.drawings.faces import MM_PER_POINT, find_face, open_face
from booklet.drawings.hatches import paint_hatch
from booklet.drawings.picture import Ink
from booklet.drawings.plan import Arc, Area, Arrow, Line, Plan, Point, Polyline, Rect, Shape, Symbol, Text
from booklet.drawings.shades import grey_of, read_shade

DPI = 300
SMOOTHING = 3
MAX_SIDE_MM = 260.0  # no picture is larger than a sheet of paper
MAX_TALL_MM = 840.0  # but one for a narrow screen, which may be long, at as many square millimetres


class _Sheet:
    """A canvas with its scale; all of its methods take millimetres."""

    def __init__(self, plan: Plan, is_grey: bool) -> None:
        is_small = plan.width * plan.height <= MAX_SIDE_MM**2
        if not (0 < plan.width <= MAX_SIDE_MM and 0 < plan.height <= MAX_TALL_MM and is_small):
            raise ValueError(f"a picture of {plan.width:.0f} x {plan.height:.0f} mm does not fit on paper")
        self.is_grey = is_grey
        self.width = round(plan.width / 25.4 * DPI)
        self.height = round(plan.height / 25.4 * DPI)
        self.scale = DPI / 25.4 * SMOOTHING
        self.image = Image.new(
            "L" if is_grey else "RGB", (self.width * SMOOTHING, self.height * SMOOTHING), self.ink("#ffffff")
        )
        self.pen = ImageDraw.Draw(self.image)

    def ink(self, colour: str) -> int | tuple[int, int, int]:
        rgb = read_shade(colour)
        return grey_of(rgb) if self.is_grey else rgb

    def at(self, point: Point) -> Point:
        return point[0] * self.scale, point[1] * self.scale

    def line_width(self, width: float) -> int:
        return max(1, round(width * self.scale))


def paint_plan(plan: Plan, ink: Ink, is_grey: bool) -> bytes:
    """The plan as a PNG at 300 dots to the inch.

    Raises ValueError where the plan is larger than paper, NoFontError where words cannot be set.
    """
    sheet = _Sheet(plan, is_grey)
    for shape in plan.shapes:
        _paint_shape(sheet, shape)
    image = sheet.image.reduce(SMOOTHING)
    for text in plan.texts:
        _paint_text(image, sheet, text, ink)
    return encode_png(image)


def encode_png(image: Image.Image) -> bytes:
    """The image as PNG bytes with its resolution, and nothing else."""
    file = BytesIO()
    image.save(file, "PNG", dpi=(DPI, DPI))
    return file.getvalue()


def _paint_shape(sheet: _Sheet, shape: Shape) -> None:
    match shape:
        case Line():
            _paint_line(sheet, shape)
        case Polyline():
            points = (*shape.points, *shape.points[:2]) if shape.closed else shape.points
            width = sheet.line_width(shape.width)
            sheet.pen.line([sheet.at(p) for p in points], fill=sheet.ink(shape.colour), width=width, joint="curve")
        case Rect():
            _paint_rect(sheet, shape)
        case Area():
            _paint_area(sheet, shape)
        case Arc():
            (x, y), r = sheet.at(shape.centre), shape.radius * sheet.scale
            box = (x - r, y - r, x + r, y + r)
            width = sheet.line_width(shape.width)
            sheet.pen.arc(box, shape.start, shape.end, fill=sheet.ink(shape.colour), width=width)
        case Arrow():
            _paint_arrow(sheet, shape)
        case Symbol():
            for stroke in shape.strokes:
                _paint_shape(sheet, stroke)
        case Text():
            pass  # set after the sheet has been shrunk


def _paint_line(sheet: _Sheet, line: Line) -> None:
    (x0, y0), (x1, y1) = line.start, line.end
    length = math.hypot(x1 - x0, y1 - y0)
    colour, width = sheet.ink(line.colour), sheet.line_width(line.width)
    if line.dash <= 0 or length == 0:
        sheet.pen.line([sheet.at(line.start), sheet.at(line.end)], fill=colour, width=width)
        return
    dx, dy = (x1 - x0) / length, (y1 - y0) / length
    begin = 0.0
    while begin < length:
        end = min(begin + line.dash, length)
        ends = [sheet.at((x0 + dx * begin, y0 + dy * begin)), sheet.at((x0 + dx * end, y0 + dy * end))]
        sheet.pen.line(ends, fill=colour, width=width)
        begin += 2 * line.dash


def _paint_rect(sheet: _Sheet, rect: Rect) -> None:
    box = (*sheet.at((rect.x, rect.y)), *sheet.at((rect.x + rect.width, rect.y + rect.height)))
    rim = sheet.ink(rect.rim) if rect.rim else None
    sheet.pen.rounded_rectangle(
        box,
        radius=rect.radius * sheet.scale,
        fill=sheet.ink(rect.fill),
        outline=rim,
        width=sheet.line_width(rect.rim_width) if rect.rim else 0,
    )


def _paint_area(sheet: _Sheet, area: Area) -> None:
    polygons = [[sheet.at(point) for point in polygon] for polygon in area.polygons]
    if not area.hatch:
        for polygon in polygons:
            sheet.pen.polygon(polygon, fill=sheet.ink(area.fill))
        return
    xs = [x for polygon in polygons for x, _ in polygon]
    ys = [y for polygon in polygons for _, y in polygon]
    left, top = max(0, math.floor(min(xs))), max(0, math.floor(min(ys)))
    width = min(sheet.image.width, math.ceil(max(xs)) + 1) - left
    height = min(sheet.image.height, math.ceil(max(ys)) + 1) - top
    if width <= 0 or height <= 0:
        return
    mask = Image.new("L", (width, height), 0)
    pen = ImageDraw.Draw(mask)
    for polygon in polygons:
        pen.polygon([(x - left, y - top) for x, y in polygon], fill=255)
    sheet.image.paste(sheet.ink(area.fill), (left, top), mask)
    hatch = paint_hatch(area.hatch, width, height, sheet.scale)
    sheet.image.paste(sheet.ink(area.hatch_colour or area.fill), (left, top), ImageChops.darker(mask, hatch))


def _paint_arrow(sheet: _Sheet, arrow: Arrow) -> None:
    (x, y), (dx, dy) = arrow.tip, arrow.heading
    back = (x - dx * arrow.length, y - dy * arrow.length)
    half = arrow.breadth / 2
    corners = [arrow.tip, (back[0] - dy * half, back[1] + dx * half), (back[0] + dy * half, back[1] - dx * half)]
    sheet.pen.polygon([sheet.at(corner) for corner in corners], fill=sheet.ink(arrow.colour))


def _paint_text(image: Image.Image, sheet: _Sheet, text: Text, ink: Ink) -> None:
    pixels = round(text.points * MM_PER_POINT / 25.4 * DPI)
    face = open_face(find_face(ink, text.bold, text.text), max(4, pixels))
    x, y = text.centre[0] / 25.4 * DPI, text.centre[1] / 25.4 * DPI
    _, top, _, bottom = face.getbbox("H")
    width = math.ceil(face.getlength(text.text)) + 4
    height = math.ceil(pixels * 1.7)
    mask = Image.new("L", (width, height), 0)
    middle = (height - (bottom - top)) / 2
    ImageDraw.Draw(mask).text((2, middle - top), text.text, fill=255, font=face)
    if text.upright:
        mask = mask.transpose(Image.Transpose.ROTATE_90)
    place = (round(x - mask.width / 2), round(y - mask.height / 2))
    image.paste(sheet.ink(text.colour), place, mask)
