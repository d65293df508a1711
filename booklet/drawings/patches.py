"""Patches for the colour legend: the shade, the hatch that stands for it in grey, and the letter."""

from collections.abc import Iterable

from booklet.drawings.faces import set_text
from booklet.drawings.hatches import hatch_name
from booklet.drawings.paint import paint_plan
from booklet.drawings.palette import Tint, mix_palette
from booklet.drawings.picture import Ink, Picture
from booklet.drawings.plan import Area, Plan, Polyline, Rect, Shape, move_shape
from booklet.model.pattern import Colour

WIDTH_MM, HEIGHT_MM = 20.0, 12.0


def draw_patches(colours: Iterable[Colour], ink: Ink) -> tuple[Picture, ...]:
    """One picture a colour, in the order of the colours; raises NoFontError where letters cannot be set."""
    return tuple(
        Picture(
            name=f"patch-{tint.letter}",
            png=paint_plan(plan_patch(tint, ink), ink, is_grey=False),
            width_mm=WIDTH_MM,
            height_mm=HEIGHT_MM,
            alt=f"Colour {tint.letter}{f', {tint.name}' if tint.name else ''}: {hatch_name(tint.hatch)}",
        )
        for tint in mix_palette(colours).values()
    )


def plan_patch(tint: Tint, ink: Ink) -> Plan:
    """The patch as a plan: hatched surface, a plate of the plain shade, the letter on it."""
    edge = 0.15
    corners = ((edge, edge), (WIDTH_MM - edge, edge), (WIDTH_MM - edge, HEIGHT_MM - edge), (edge, HEIGHT_MM - edge))
    shapes: list[Shape] = [
        Area((corners,), tint.shade, tint.hatch, tint.hatch_shade),
        Polyline(corners, 0.3, ink.faint, closed=True),
    ]
    middle = (WIDTH_MM / 2, HEIGHT_MM / 2)
    return Plan(WIDTH_MM, HEIGHT_MM, (*shapes, *letter_plate(tint, ink, 11.0, *middle)))


def letter_plate(tint: Tint, ink: Ink, points: float, x: float, y: float) -> list[Shape]:
    """The colour's letter on a plate of its plain shade, so that no hatch runs through it."""
    if not tint.letter:
        return []
    text = set_text(ink, tint.letter, points=points, bold=True, colour=tint.letter_shade)
    height = text.height * 1.25
    width = max(height, text.width + 2.2)
    plate = Rect(
        x - width / 2, y - height / 2, width, height, tint.shade, height * 0.28, tint.hatch_shade, rim_width=0.15
    )
    return [plate, move_shape(text, x, y)]
