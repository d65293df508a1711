"""The symbols of a laid chart as strokes in millimetres."""

from collections.abc import Sequence
from dataclasses import dataclass

from booklet.drawings.chart_feet import draw_feet
from booklet.drawings.chart_glyphs import Glyph
from booklet.drawings.picture import Ink
from booklet.drawings.plan import Area, Plan, Point, Polyline, Shape, Symbol, bound_shapes, move_shape
from booklet.drawings.symbols import Pen, draw_look

WEIGHT = 0.075  # of a line, in stitch widths


@dataclass(frozen=True, slots=True)
class Scale:
    """From stitch widths with y upwards to millimetres with y downwards; mirrored for left-handed makers."""

    unit: float
    is_mirrored: bool = False

    def at(self, point: Point) -> Point:
        x = -point[0] if self.is_mirrored else point[0]
        return x * self.unit, -point[1] * self.unit


def draw_symbols(glyphs: Sequence[Glyph], scale: Scale, inks: Sequence[str]) -> list[Shape]:
    """One symbol a glyph; `inks` by the number of its row."""
    weight = max(0.16, min(0.28, WEIGHT * scale.unit))
    return [draw_symbol(glyph, scale, inks[glyph.row], weight) for glyph in glyphs]


def draw_symbol(glyph: Glyph, scale: Scale, ink: str, weight: float) -> Symbol:
    sign = -1.0 if scale.is_mirrored else 1.0
    pen = Pen(weight, ink)
    feet: Sequence[Point] = [(x * sign, -y) for x, y in glyph.feet]
    head = (glyph.head[0] * sign, -glyph.head[1])
    if glyph.loop or glyph.deep:
        feet = draw_feet(glyph.loop, feet, head, (glyph.deep[0] * sign, -glyph.deep[1]) if glyph.deep else None, pen)
    draw_look(glyph.look, feet, head, glyph.width, pen)
    unit = scale.unit
    strokes: list[Polyline | Area] = []
    for stroke in pen.strokes:
        if isinstance(stroke, Polyline):
            points = tuple((x * unit, y * unit) for x, y in stroke.points)
            strokes.append(Polyline(points, stroke.width, stroke.colour, stroke.closed))
        else:
            polygons = tuple(tuple((x * unit, y * unit) for x, y in polygon) for polygon in stroke.polygons)
            strokes.append(Area(polygons, stroke.fill))
    return Symbol(glyph.kind, glyph.row, tuple(strokes))


def draw_single(glyph: Glyph, unit: float, ink: Ink) -> Plan:
    """One symbol by itself, for the key: in a box of one size whatever its own."""
    shape = draw_symbol(glyph, Scale(unit), ink.text, WEIGHT * unit)
    left, top, right, bottom = bound_shapes([shape])
    width, height = max(11.0, right - left + 2), max(11.0, bottom - top + 2)
    moved = move_shape(shape, (width - right - left) / 2, (height - bottom - top) / 2)
    return Plan(width, height, (moved,))
