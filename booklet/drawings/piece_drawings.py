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
from booklet.drawings.seam_legend import measure_legend, tell_making
from booklet.drawings.seam_marks import Making, find_making
from booklet.drawings.stairs import smooth_piece
from booklet.drawings.trimming import trim_picture
from booklet.drawings.words import OWN_COLOURS, describe_colourways, describe_plan, describe_schematic
from booklet.model.amounts import Amounts, Measure
from booklet.model.pattern import Pattern
from booklet.model.work import WorkedPattern


@dataclass(frozen=True, slots=True)
class Room:
    """Width and height in mm for a schematic and for a colour plan, and how many colourways stand side by side.

    A screen has no foot, so that a schematic may take `each` mm of height for every piece of it.
    """

    schematic: tuple[float, float]
    plan: tuple[float, float]
    ways_across: int
    each: float = 0.0


ON_PAPER = Room((168.0, 165.0), (150.0, 150.0), 3)
# What is printed on pages of half the size, two thirds as large; many pieces need the second, which is printed smaller.
ON_HALF = (Room((150.0, 165.0), (165.0, 90.0), 2), Room((168.0, 225.0), (165.0, 90.0), 2))
CROWDED = 4  # pieces on one sheet, which is often printed smaller to stand on a page begun
CROWDED_LETTERS = 1.18
ON_SHEET = Room((70.0, 60.0), (70.0, 60.0), 1)  # beside the head of a sheet that is copied
FEWEST_TO_SHARE = 5  # pieces; fewer go on one sheet, however they are shaped
NARROW = Room((80.0, 255.0), (80.0, 255.0), 1, each=72.0)
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
    making = find_making(pattern, worked.parts)
    usual = replace(ink, letters=1.0)  # as many sheets as a full page needs
    sheets = share_out(pieces, amounts, size, pattern.size_names, usual, making) if pieces and amounts.measures else []
    for number, some in enumerate(sheets, 1):
        own = amounts if len(sheets) == 1 else replace(amounts, measures=_take_measures(some, amounts.measures))
        larger = replace(ink, letters=CROWDED_LETTERS) if room is ON_PAPER and len(some) >= CROWDED else ink
        picture = draw_schematic(some, own, size, pattern.size_names, palette, larger, room, making)
        if len(sheets) > 1:
            told = f" Sheet {number} of {len(sheets)}."
            name = f"schematic-{number}"
            picture = replace(picture, name=name, alt=picture.alt + told, caption=picture.caption + told)
        pictures.append(picture)
    bodies = [smooth_piece(piece) for piece in pieces if piece.shape != CROWN]
    if len({run.letter for piece in bodies for band in piece.all_bands for run in band.runs()}) > 1:
        plan = draw_colour_plan(bodies, palette, ink, room)
        drawn_in = f" For size {pattern.size_names[size]}." if len(pattern.size_names) > 1 else ""
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


def draw_for_copier(pattern: Pattern, worked: WorkedPattern, ink: Ink) -> Picture | None:
    """The colour plan in lines, hatches and letters on white, which a copier keeps; None where nothing can be drawn."""
    white = mix_palette([replace(colour, shade="#ffffff") for colour in pattern.colours])
    size = pick_size(pattern)
    bodies = [smooth_piece(piece) for piece in lay_pieces(pattern, worked, size) if piece.shape != CROWN]
    if not bodies:
        return None
    try:
        plan = draw_colour_plan(bodies, white, ink, ON_SHEET)
    except NoFontError:  # told where the booklet is drawn
        return None
    return trim_picture(plan)


def share_out(
    pieces: Sequence[Lay],
    amounts: Amounts,
    size: int,
    sizes: Sequence[str],
    ink: Ink,
    making: Making = Making(),
) -> list[tuple[Lay, ...]]:
    """The pieces on as few sheets of paper as hold them, in their order; a crown stays with the piece below it."""
    cuts = [at for at in range(1, len(pieces)) if pieces[at].shape != CROWN]
    if len(pieces) < FEWEST_TO_SHARE or not cuts:
        return [tuple(pieces)]
    sheet = _make_sheet(pieces, amounts, size, sizes, ink, ON_PAPER, making)
    plan = plan_schematic(pieces, sheet)
    if plan.height <= sheet.height + 1:
        return [tuple(pieces)]
    cut = min(cuts, key=lambda at: abs(at - len(pieces) / 2))
    halves = (pieces[:cut], pieces[cut:])
    return [sheet for half in halves for sheet in share_out(half, amounts, size, sizes, ink, making)]


def _take_measures(pieces: Sequence[Lay], measures: Sequence[Measure]) -> tuple[Measure, ...]:
    """Those of the pieces."""
    parts = {part for piece in pieces for part in piece.parts}
    return tuple(measure for measure in measures if measure.part in parts)


def _make_sheet(
    pieces: Sequence[Lay],
    amounts: Amounts,
    size: int,
    sizes: Sequence[str],
    ink: Ink,
    room: Room,
    making: Making,
) -> Sheet:
    crowns = frozenset(piece.title for piece in pieces if piece.shape == CROWN)
    shows_values = len(sizes) == 1 and len(pieces) == 1
    width, height = room.schematic
    height = max(height, room.each * len(pieces)) + measure_legend(pieces, making.of(pieces), ink, width)
    return Sheet(amounts.measures, size, sizes, ink, crowns, shows_values, width, height, making)


def draw_schematic(
    pieces: Sequence[Lay],
    amounts: Amounts,
    size: int,
    sizes: Sequence[str],
    palette: Palette,
    ink: Ink,
    room: Room = ON_PAPER,
    making: Making = Making(),
) -> Picture:
    """The schematic of all pieces in one size, with the table of all sizes."""
    plan = plan_schematic(pieces, _make_sheet(pieces, amounts, size, sizes, ink, room, making))
    alt, caption = describe_schematic(pieces, amounts.measures, size, sizes, palette)
    if told := tell_making(pieces, making):
        alt = f"{alt} {told}"
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
