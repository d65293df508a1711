"""All pictures of a booklet, from a worked pattern: patches, schematic, colour plan, charts, cover, photographs."""

from collections.abc import Sequence
from dataclasses import replace

from booklet.drawings import messages
from booklet.drawings.charts import draw_charts, mirror_words
from booklet.drawings.fabric import draw_fabric
from booklet.drawings.faces import NoFontError
from booklet.drawings.grids import describe_grid, find_grid, grid_table, mirror_grid, plan_grid
from booklet.drawings.lay import Lay
from booklet.drawings.measuring import draw_aids
from booklet.drawings.paint import paint_plan
from booklet.drawings.palette import Palette, mix_palette, pale_colours
from booklet.drawings.patches import draw_patches
from booklet.drawings.photos import prepare_image
from booklet.drawings.picture import Ink, Picture
from booklet.drawings.piece_drawings import ON_HALF, draw_pieces
from booklet.drawings.pieces import CROWN, lay_pieces, pick_size
from booklet.drawings.trimming import trim_picture
from booklet.findings import Finding
from booklet.model.amounts import Amounts
from booklet.model.pattern import Pattern, SizedPattern
from booklet.model.work import WorkedPattern
from booklet.reading.text_pictures import list_text_images

COVER_MM = (160.0, 200.0)  # a photograph
FABRIC_MM = (170.0, 160.0)  # what the words of a cover leave free, since the whole of it is to be seen there
HALF_MM = 113.7  # the width of a page of half the size
HALF_TALL_MM = 225.0  # a taller drawing is printed with letters that nobody can read
HALF_LETTERS = 1.36  # what is printed at 0.7 of its size then has letters of its size
FEWEST_TOGETHER = 3  # pieces in rounds
PHOTO_MM = (120.0, 150.0)
STEP_MM = (104.0, 80.0)  # a picture in the text, which is 138 mm wide beside its margin column


def draw_pattern(
    sized: SizedPattern, worked: WorkedPattern, amounts: Amounts, ink: Ink
) -> tuple[tuple[Picture, ...], tuple[Finding, ...]]:
    """Every picture, named `patch-A`, `schematic`, `colour-plan`, `chart-1` … and `symbol-1` … (their key),
    `measuring-square`, `measuring-hooks`, `cover` or `fabric`, `photo-1` …, `step-1` … (in the text)

    What has nothing to show is left out: a schematic without measures, a plan of one colour.
    """
    pattern = sized.pattern
    photos, findings = _draw_photos(pattern)
    colours = pale_colours(pattern.colours, ink.paleness)
    palette = mix_palette(colours)
    size = pick_size(pattern)
    pieces = lay_pieces(pattern, worked, size)
    try:
        pictures = [*draw_patches(colours, ink), *draw_work(pattern, worked, amounts, ink)]
        pictures.extend(draw_aids(pattern, ink) if pieces else ())
    except NoFontError as found:
        return (), (*findings, messages.fonts_missing(str(found), pattern.source.whole()))
    bodies = [piece for piece in pieces if piece.shape != CROWN]
    if bodies and pattern.cover is None:
        largest = max(bodies, key=lambda piece: piece.width * piece.height)
        title = pattern.title if len(bodies) == 1 else f"{pattern.title}: {largest.title}"
        has_plan = any(picture.name == "colour-plan" for picture in pictures)
        if not (has_plan and shows_together(bodies)):
            pictures.append(draw_fabric(largest, title, palette, ink, *FABRIC_MM))
    return (*pictures, *photos), findings


def draw_small(
    pattern: Pattern, worked: WorkedPattern, amounts: Amounts, ink: Ink, pictures: Sequence[Picture]
) -> tuple[Picture, ...]:
    """The pictures for pages of half the size: those with letters that would be too small to read drawn once more.

    Pieces are laid out on such a page; charts stay as wide as they are, and have larger letters.
    """
    size = pick_size(pattern)
    large = replace(ink, letters=HALF_LETTERS)
    palette = mix_palette(pale_colours(pattern.colours, ink.paleness))
    try:
        for room in ON_HALF:
            pieces = draw_pieces(pattern, worked, amounts, large, room)
            if all(picture.height_mm < HALF_TALL_MM for picture in pieces):
                break
        charts = [*draw_charts(pattern, worked, size, large), *draw_grids(pattern, worked, size, palette, large)]
        if pattern.left_handed:
            charts.extend(draw_charts(pattern, worked, size, large, is_mirrored=True))
            charts.extend(draw_grids(pattern, worked, size, palette, large, is_mirrored=True))
    except NoFontError:  # told where the booklet is drawn
        return tuple(pictures)
    wide = {chart.name: chart for chart in charts if chart.name.startswith(("chart", "grid"))}
    others = [picture for picture in pictures if not picture.name.startswith(("schematic", "colour-plan"))]
    kept = [
        trim_picture(wide[picture.name]) if picture.width_mm > HALF_MM and picture.name in wide else picture
        for picture in others
    ]
    return (*map(trim_picture, pieces), *kept)


def draw_work(pattern: Pattern, worked: WorkedPattern, amounts: Amounts, ink: Ink) -> list[Picture]:
    """The drawings that differ from size to size, in the size that is drawn: schematic, colour plan, charts and
    grids with their key. Raises NoFontError.
    """
    palette = mix_palette(pale_colours(pattern.colours, ink.paleness))
    size = pick_size(pattern)
    pictures = draw_pieces(pattern, worked, amounts, ink)
    for is_mirrored in (False, True) if pattern.left_handed else (False,):
        pictures.extend(draw_charts(pattern, worked, size, ink, is_mirrored))
        pictures.extend(draw_grids(pattern, worked, size, palette, ink, is_mirrored))
    return pictures


def shows_together(pieces: Sequence[Lay]) -> bool:
    """Is it made of several pieces in rounds, none of which shows the whole? Then the plan of all stands for it."""
    return sum(piece.shape != "flat" for piece in pieces) >= FEWEST_TOGETHER


def draw_grids(
    pattern: Pattern, worked: WorkedPattern, size: int, palette: Palette, ink: Ink, is_mirrored: bool = False
) -> list[Picture]:
    """`grid-1` …: the pieces in filet, colourwork or mosaic as squares; `grid-1-left` for left-handed makers."""
    pictures: list[Picture] = []
    in_size = f" in size {pattern.size_names[size]}" if len(pattern.size_names) > 1 else ""
    for part in worked.parts:
        grid = find_grid(part.rows[size]) if size < len(part.rows) else None
        if grid is None:
            continue
        grid = mirror_grid(grid) if is_mirrored else grid
        plan = plan_grid(grid, palette, ink)
        alt, caption = describe_grid(grid, part.title or pattern.title, in_size)
        if is_mirrored:
            alt, caption = (f"For left-handed makers. {mirror_words(words)}" for words in (alt, caption))
        png = paint_plan(plan, ink, is_grey=grid.is_filet)
        name = f"grid-{len(pictures) + 1}{'-left' if is_mirrored else ''}"
        table = () if is_mirrored else grid_table(grid)
        pictures.append(Picture(name, png, plan.width, plan.height, alt, caption, table))
    return pictures


def _draw_photos(pattern: Pattern) -> tuple[tuple[Picture, ...], tuple[Finding, ...]]:
    """The author's own pictures, the cover first."""
    pictures: list[Picture] = []
    findings: list[Finding] = []
    wanted = [(f"photo-{number}", image, PHOTO_MM) for number, image in enumerate(pattern.images, 1)]
    if pattern.cover:
        wanted.insert(0, ("cover", pattern.cover, COVER_MM))
    steps = {image.name: image for image in reversed(list_text_images(pattern))}  # where each file is shown first
    wanted += [(name, image, STEP_MM) for name, image in reversed(steps.items())]
    for name, image, room in wanted:
        picture, found = prepare_image(image, pattern.source.folder, name, *room)
        findings.extend(found)
        pictures.extend([picture] if picture else [])
    return tuple(pictures), tuple(findings)
