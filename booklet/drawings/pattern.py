"""All pictures of a booklet, from a worked pattern: patches, schematic, colour plan, charts, cover, photographs."""

from collections.abc import Sequence
from dataclasses import replace

from booklet.drawings import messages
from booklet.drawings.charts import draw_charts
from booklet.drawings.colour_plan import colour_table, colourway_table, plan_colours, plan_colourways
from booklet.drawings.fabric import draw_fabric
from booklet.drawings.faces import NoFontError
from booklet.drawings.grids import describe_grid, find_grid, grid_table, plan_grid
from booklet.drawings.lay import Lay
from booklet.drawings.measured import measure_table
from booklet.drawings.measuring import draw_aids
from booklet.drawings.paint import paint_plan
from booklet.drawings.palette import Palette, mix_palette, pale_colours
from booklet.drawings.patches import draw_patches
from booklet.drawings.photos import prepare_image
from booklet.drawings.picture import Ink, Picture
from booklet.drawings.pieces import CROWN, lay_pieces, pick_size
from booklet.drawings.schematic import Sheet, plan_schematic
from booklet.drawings.words import OWN_COLOURS, describe_colourways, describe_plan, describe_schematic
from booklet.findings import Finding
from booklet.model.amounts import Amounts
from booklet.model.pattern import Pattern, SizedPattern
from booklet.model.work import WorkedPattern

COVER_MM = (160.0, 200.0)
FEWEST_TOGETHER = 3  # pieces in rounds
PHOTO_MM = (120.0, 150.0)


def draw_pattern(
    sized: SizedPattern, worked: WorkedPattern, amounts: Amounts, ink: Ink
) -> tuple[tuple[Picture, ...], tuple[Finding, ...]]:
    """Every picture, named `patch-A`, `schematic`, `colour-plan`, `chart-1` … and `symbol-1` … (their key),
    `measuring-square`, `measuring-hooks`, `cover` or `fabric`, `photo-1` …

    What has nothing to show is left out: a schematic without measures, a plan of one colour.
    """
    pattern = sized.pattern
    photos, findings = _draw_photos(pattern)
    colours = pale_colours(pattern.colours, ink.paleness)
    palette = mix_palette(colours)
    size = pick_size(pattern)
    pieces = lay_pieces(pattern, worked, size)
    try:
        pictures = [*draw_patches(colours, ink)]
        if pieces and amounts.measures:
            pictures.append(draw_schematic(pieces, amounts, size, pattern.size_names, palette, ink))
        bodies = [piece for piece in pieces if piece.shape != CROWN]
        if len({run.letter for piece in bodies for band in piece.all_bands for run in band.runs()}) > 1:
            plan = draw_colour_plan(bodies, palette, ink)
            drawn_in = f" For size {pattern.size_names[size]}." if len(pattern.size_names) > 1 else ""
            pictures.append(replace(plan, alt=plan.alt + drawn_in, caption=plan.caption + drawn_in))
            pictures.extend(draw_colourways(pattern, bodies, palette, ink))
        pictures.extend(draw_charts(pattern, worked, size, ink))
        pictures.extend(draw_grids(pattern, worked, size, palette, ink))
        pictures.extend(draw_charts(pattern, worked, size, ink, is_mirrored=True) if pattern.left_handed else ())
        pictures.extend(draw_aids(pattern, ink) if pieces else ())
    except NoFontError as found:
        return (), (*findings, messages.fonts_missing(str(found), pattern.source.whole()))
    if bodies and pattern.cover is None:
        largest = max(bodies, key=lambda piece: piece.width * piece.height)
        title = pattern.title if len(bodies) == 1 else f"{pattern.title}: {largest.title}"
        has_plan = any(picture.name == "colour-plan" for picture in pictures)
        if not (has_plan and shows_together(bodies)):
            pictures.append(draw_fabric(largest, title, palette, ink, *COVER_MM))
    return (*pictures, *photos), findings


def shows_together(pieces: Sequence[Lay]) -> bool:
    """Is it made of several pieces in rounds, none of which shows the whole? Then the plan of all stands for it."""
    return sum(piece.shape != "flat" for piece in pieces) >= FEWEST_TOGETHER


def draw_schematic(
    pieces: Sequence[Lay], amounts: Amounts, size: int, sizes: Sequence[str], palette: Palette, ink: Ink
) -> Picture:
    """The schematic of all pieces in one size, with the table of all sizes."""
    crowns = frozenset(piece.title for piece in pieces if piece.shape == CROWN)
    shows_values = len(sizes) == 1 and len(pieces) == 1
    plan = plan_schematic(pieces, Sheet(amounts.measures, size, sizes, ink, crowns, shows_values))
    alt, caption = describe_schematic(pieces, amounts.measures, size, sizes, palette)
    png = paint_plan(plan, ink, is_grey=True)
    table = measure_table(amounts.measures, sizes)
    return Picture("schematic", png, plan.width, plan.height, alt, caption, table)


def draw_colour_plan(pieces: Sequence[Lay], palette: Palette, ink: Ink) -> Picture:
    """The colour plan of all pieces, with its text twin."""
    plan = plan_colours(pieces, palette, ink)
    alt, caption = describe_plan(pieces, palette)
    png = paint_plan(plan, ink, is_grey=False)
    return Picture("colour-plan", png, plan.width, plan.height, alt, caption, colour_table(pieces, palette))


def draw_grids(pattern: Pattern, worked: WorkedPattern, size: int, palette: Palette, ink: Ink) -> list[Picture]:
    """`grid-1` …: the pieces in filet or colourwork as squares."""
    pictures: list[Picture] = []
    in_size = f" in size {pattern.size_names[size]}" if len(pattern.size_names) > 1 else ""
    for part in worked.parts:
        grid = find_grid(part.rows[size]) if size < len(part.rows) else None
        if grid is None:
            continue
        plan = plan_grid(grid, palette, ink)
        alt, caption = describe_grid(grid, part.title or pattern.title, in_size)
        png = paint_plan(plan, ink, is_grey=grid.is_filet)
        name = f"grid-{len(pictures) + 1}"
        pictures.append(Picture(name, png, plan.width, plan.height, alt, caption, grid_table(grid)))
    return pictures


def draw_colourways(pattern: Pattern, pieces: Sequence[Lay], palette: Palette, ink: Ink) -> list[Picture]:
    """The plan in the pattern's own colours and in every other colourway, side by side; none where it names none."""
    if not pattern.colourways:
        return []
    ways = [(OWN_COLOURS, palette), *((way.name, mix_palette(way.colours)) for way in pattern.colourways)]
    plan = plan_colourways(pieces, ways, ink)
    alt, caption = describe_colourways(ways)
    png = paint_plan(plan, ink, is_grey=False)
    return [Picture("colour-plan-colourways", png, plan.width, plan.height, alt, caption, colourway_table(ways))]


def _draw_photos(pattern: Pattern) -> tuple[tuple[Picture, ...], tuple[Finding, ...]]:
    """The author's own pictures, the cover first."""
    pictures: list[Picture] = []
    findings: list[Finding] = []
    wanted = [(f"photo-{number}", image, PHOTO_MM) for number, image in enumerate(pattern.images, 1)]
    if pattern.cover:
        wanted.insert(0, ("cover", pattern.cover, COVER_MM))
    for name, image, room in wanted:
        picture, found = prepare_image(image, pattern.source.folder, name, *room)
        findings.extend(found)
        pictures.extend([picture] if picture else [])
    return tuple(pictures), tuple(findings)
