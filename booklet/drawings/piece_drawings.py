"""The drawings of laid pieces, schematic and colour plan, on paper or for a screen too narrow for those."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from booklet.drawings.colour_plan import colour_table, colourway_table, plan_colours, plan_colourways
from booklet.drawings.faces import NoFontError
from booklet.drawings.lay import Lay
from booklet.drawings.measured import measure_table
from booklet.drawings.paint import paint_plan
from booklet.drawings.palette import Palette, mix_palette, pale_colours
from booklet.drawings.picture import Ink, Picture
from booklet.drawings.pieces import CROWN, lay_pieces, pick_size
from booklet.drawings.schematic import Sheet, plan_schematic
from booklet.drawings.trimming import trim_picture
from booklet.drawings.words import OWN_COLOURS, describe_colourways, describe_plan, describe_schematic
from booklet.model.amounts import Amounts
from booklet.model.pattern import Pattern
from booklet.model.work import WorkedPattern


@dataclass(frozen=True, slots=True)
class Room:
    """Width and height in mm for a schematic and for a colour plan, and how many colourways stand side by side."""

    schematic: tuple[float, float]
    plan: tuple[float, float]
    ways_across: int


ON_PAPER = Room((168.0, 165.0), (150.0, 150.0), 3)
NARROW = Room((80.0, 255.0), (80.0, 255.0), 1)
"""What a screen of 320 pixels shows at its size: 76 mm at 96 pixels to the inch, less the edges of the page."""


def draw_pieces(
    pattern: Pattern, worked: WorkedPattern, amounts: Amounts, ink: Ink, room: Room = ON_PAPER
) -> list[Picture]:
    """`schematic`, `colour-plan` and `colour-plan-colourways`, each only where it has something to show.

    Raises NoFontError.
    """
    palette = mix_palette(pale_colours(pattern.colours, ink.paleness))
    size = pick_size(pattern)
    pieces = lay_pieces(pattern, worked, size)
    pictures: list[Picture] = []
    if pieces and amounts.measures:
        pictures.append(draw_schematic(pieces, amounts, size, pattern.size_names, palette, ink, room))
    bodies = [piece for piece in pieces if piece.shape != CROWN]
    if len({run.letter for piece in bodies for band in piece.all_bands for run in band.runs()}) > 1:
        plan = draw_colour_plan(bodies, palette, ink, room)
        drawn_in = f" Drawn in size {pattern.size_names[size]}." if len(pattern.size_names) > 1 else ""
        pictures.append(replace(plan, alt=plan.alt + drawn_in, caption=plan.caption + drawn_in))
        pictures.extend(draw_colourways(pattern, bodies, palette, ink, room))
    return pictures


def draw_narrow(pattern: Pattern, worked: WorkedPattern, amounts: Amounts, ink: Ink) -> dict[str, Picture]:
    """The same drawings once more, by name, arranged for a narrow screen; none where the theme has no fonts."""
    try:
        pictures = draw_pieces(pattern, worked, amounts, ink, NARROW)
    except NoFontError:  # told where the booklet is drawn
        return {}
    return {picture.name: trim_picture(picture) for picture in pictures}


def draw_schematic(
    pieces: Sequence[Lay],
    amounts: Amounts,
    size: int,
    sizes: Sequence[str],
    palette: Palette,
    ink: Ink,
    room: Room = ON_PAPER,
) -> Picture:
    """The schematic of all pieces in one size, with the table of all sizes."""
    crowns = frozenset(piece.title for piece in pieces if piece.shape == CROWN)
    shows_values = len(sizes) == 1 and len(pieces) == 1
    plan = plan_schematic(pieces, Sheet(amounts.measures, size, sizes, ink, crowns, shows_values, *room.schematic))
    alt, caption = describe_schematic(pieces, amounts.measures, size, sizes, palette)
    png = paint_plan(plan, ink, is_grey=True)
    table = measure_table(amounts.measures, sizes)
    return Picture("schematic", png, plan.width, plan.height, alt, caption, table)


def draw_colour_plan(pieces: Sequence[Lay], palette: Palette, ink: Ink, room: Room = ON_PAPER) -> Picture:
    """The colour plan of all pieces, with its text twin."""
    plan = plan_colours(pieces, palette, ink, *room.plan)
    alt, caption = describe_plan(pieces, palette)
    png = paint_plan(plan, ink, is_grey=False)
    return Picture("colour-plan", png, plan.width, plan.height, alt, caption, colour_table(pieces, palette))


def draw_colourways(
    pattern: Pattern, pieces: Sequence[Lay], palette: Palette, ink: Ink, room: Room = ON_PAPER
) -> list[Picture]:
    """The plan in the pattern's own colours and in every other colourway, side by side; none where it names none."""
    if not pattern.colourways:
        return []
    ways = [(OWN_COLOURS, palette), *((way.name, mix_palette(way.colours)) for way in pattern.colourways)]
    plan = plan_colourways(pieces, ways, ink, room.plan[0], room.ways_across)
    alt, caption = describe_colourways(ways)
    png = paint_plan(plan, ink, is_grey=False)
    return [Picture("colour-plan-colourways", png, plan.width, plan.height, alt, caption, colourway_table(ways))]
