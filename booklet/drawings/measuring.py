"""Measuring aids to be printed at 100%: a gauge square with rulers along its sides, and a hook gauge.

The square measures 10 cm between the middles of its lines; the broken line is 4 in, which is 1.6 mm
more. A bank card tells whether a printer has kept to the size: it is 85.60 mm wide (ISO/IEC 7810,
card ID-1; from memory).
"""

from collections.abc import Sequence

from booklet.drawings.faces import set_text
from booklet.drawings.paint import paint_plan
from booklet.drawings.picture import Ink, Picture
from booklet.drawings.plan import Line, Plan, Polyline, Rect, Shape, bound_shapes, move_shape
from booklet.model.measure import CM_PER_INCH
from booklet.model.pattern import Pattern
from booklet.terms import load_table

SQUARE_MM = 100.0
INCHES = 4
CARD_MM = 85.6
RULE = 0.25  # mm, the lines of the square
ROW_MM = 112.0  # the hook gauge is no wider than the square with its figures
BAR_MM = 15.0
SMALLEST_HOOK, LARGEST_HOOK = 2.0, 10.0
MARGIN_MM = 1.5


def draw_aids(pattern: Pattern, ink: Ink) -> tuple[Picture, ...]:
    """`measuring-square` and `measuring-hooks`, for a pattern that states a gauge."""
    if not pattern.gauges:
        return ()
    square, hooks = plan_square(ink), plan_hooks(_list_hooks(pattern), ink)
    named = "The hook of this pattern is" if len({*_list_hooks(pattern)}) == 1 else "The hooks of this pattern are"
    return (
        Picture(
            "measuring-square",
            paint_plan(square, ink, is_grey=True),
            square.width,
            square.height,
            "A gauge square of 10 by 10 cm with rulers in centimetres along the top and left, in inches along the "
            "bottom and right; a broken line marks 4 by 4 in, a mark at 85.6 mm the width of a bank card.",
            "Print at 100%, not fitted to the page: the full line is then 10 cm square, the broken one 4 in, and a "
            "bank card laid along the top edge ends at its mark. Lay the square on the swatch and count inside it.",
        ),
        Picture(
            "measuring-hooks",
            paint_plan(hooks, ink, is_grey=True),
            hooks.width,
            hooks.height,
            f"A hook gauge: a bar as wide as its hook is thick for {len(list_hook_sizes())} sizes from "
            f"{SMALLEST_HOOK:g} to {LARGEST_HOOK:g} mm, with the US size where it has one.",
            "Lay the shaft of a hook along the bars: it is as thick as the one that it just hides. Letters and numbers "
            "differ between makers; the millimetres decide. "
            f"{named} marked.",
        ),
    )


def _list_hooks(pattern: Pattern) -> list[float]:
    """The hooks that the pattern names, in millimetres."""
    named = [hook.mm for hook in pattern.hooks] + [gauge.hook_mm for gauge in pattern.gauges]
    return [mm for mm in named if mm is not None]


def plan_square(ink: Ink) -> Plan:
    """The gauge square with its rulers."""
    side, inch = SQUARE_MM, CM_PER_INCH * 10
    shapes: list[Shape] = [
        Line((0.0, 0.0), (side, 0.0), RULE, ink.line),
        Line((0.0, side), (side, side), RULE, ink.line),
        Line((0.0, 0.0), (0.0, side), RULE, ink.line),
        Line((side, 0.0), (side, side), RULE, ink.line),
        Line((INCHES * inch, 0.0), (INCHES * inch, INCHES * inch), 0.2, ink.line, dash=1.0),
        Line((0.0, INCHES * inch), (INCHES * inch, INCHES * inch), 0.2, ink.line, dash=1.0),
    ]
    for mm in range(1, 100):
        long = 4.0 if mm % 10 == 0 else 2.8 if mm % 5 == 0 else 1.6
        weight = 0.2 if mm % 10 == 0 else 0.13
        shapes += [
            Line((mm, 0.0), (mm, long), weight, ink.line),
            Line((0.0, mm), (long, mm), weight, ink.line),
        ]
    for cm in range(1, 10):
        number = set_text(ink, str(cm), points=7, colour=ink.text)
        shapes += [move_shape(number, cm * 10, 5.9), move_shape(number, 6.0, cm * 10)]
    for eighth in range(1, INCHES * 8):
        at = eighth * inch / 8
        long = 4.0 if eighth % 8 == 0 else 2.8 if eighth % 4 == 0 else 2.0 if eighth % 2 == 0 else 1.4
        weight = 0.2 if eighth % 8 == 0 else 0.13
        shapes += [
            Line((at, INCHES * inch), (at, INCHES * inch + long), weight, ink.line),
            Line((INCHES * inch, at), (INCHES * inch + long, at), weight, ink.line),
        ]
    for number_of_inches in range(1, INCHES + 1):
        text = set_text(ink, f"{number_of_inches} in", points=7, colour=ink.text)
        at = number_of_inches * inch - (text.width / 2 if number_of_inches == INCHES else 0.0)
        shapes.append(move_shape(text, at, INCHES * inch + 5.6))
        upright = set_text(ink, f"{number_of_inches} in", points=7, colour=ink.text, upright=True)
        shapes.append(move_shape(upright, INCHES * inch + 5.6, at))
    card = set_text(ink, "bank card", points=6.5, colour=ink.accent)
    shapes += [
        Polyline(((CARD_MM - 0.9, -2.4), (CARD_MM, -0.5), (CARD_MM + 0.9, -2.4)), 0.25, ink.accent, closed=True),
        move_shape(card, CARD_MM, -4.0),
        move_shape(set_text(ink, "10 cm square", points=10, bold=True), side / 2, side / 2 - 3),
        move_shape(set_text(ink, "broken line: 4 in", points=8), side / 2, side / 2 + 2.5),
    ]
    return _finish(shapes)


RIM_MM = 0.3
PAPER = "#ffffff"


def list_hook_sizes() -> list[tuple[float, str]]:
    """Hooks in millimetres with their US size, of those that a source was read for."""
    hooks = load_table("hooks")["regular"]
    return [
        (float(hook["mm"]), str(hook["us"]))
        for hook in hooks
        if hook["trust"] != "memory" and SMALLEST_HOOK <= hook["mm"] <= LARGEST_HOOK
    ]


def plan_hooks(used: Sequence[float], ink: Ink) -> Plan:
    """Bars as wide as hooks are thick, in rows; those of the pattern, `used` in mm, are marked."""
    shapes: list[Shape] = []
    x, y = 0.0, 0.0
    for mm, us in list_hook_sizes():
        is_used = any(abs(mm - hook) < 0.01 for hook in used)
        colour = ink.accent if is_used else ink.text
        label = set_text(ink, f"{mm:g}", points=7.5, bold=True, colour=colour)
        letter = set_text(ink, us or "-", points=6.5, colour=colour)
        cell = max(mm, label.width, letter.width) + 3.2
        if x + cell > ROW_MM:
            x, y = 0.0, y + BAR_MM + 12.0
        middle = x + cell / 2
        # An outline takes little ink; it lies within the bar, so that its outer edges are the hook's.
        shapes.append(Rect(middle - mm / 2, y, mm, BAR_MM, PAPER, rim=ink.line, rim_width=RIM_MM))
        shapes.append(move_shape(label, middle, y + BAR_MM + 2.6))
        if us:
            shapes.append(move_shape(letter, middle, y + BAR_MM + 5.8))
        if is_used:
            half = max(mm, label.width) / 2 + 0.8
            shapes.append(Line((middle - half, y + BAR_MM + 8.0), (middle + half, y + BAR_MM + 8.0), 0.6, ink.accent))
        x += cell
    return _finish(shapes)


def _finish(shapes: Sequence[Shape]) -> Plan:
    left, top, right, bottom = bound_shapes(shapes)
    moved = tuple(move_shape(shape, MARGIN_MM - left, MARGIN_MM - top) for shape in shapes)
    return Plan(right - left + 2 * MARGIN_MM, bottom - top + 2 * MARGIN_MM, moved)
