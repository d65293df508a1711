"""Pictures in their places, each with its caption and its text twin."""

from collections.abc import Iterable, Sequence
from dataclasses import replace

from markupsafe import Markup

from booklet.drawings.picture import OWN, STAYS, WAITS, Picture
from booklet.model.images import Image
from booklet.pages.fitting import MAX_WIDE_COLUMNS, turn_table
from booklet.pages.manuscript import BookletInput
from booklet.pages.prose import fill_names
from booklet.pages.size_marks import name_alone, name_sizes
from booklet.pages.typography import NO_BREAK_SPACE, set_type
from booklet.pages.views import Cell, Figure, Line, Section, Showing, Swatch, Table

PICTURE_FOLDER = "pictures"
MAX_BESIDE_MM = 134.0  # a wider picture leaves no room for a table beside it
LONGEST_BOUND = 18  # letters of an item that no line end divides
BESIDE_MM = 106.0  # and it is set no wider than this
MAX_COLUMNS_BESIDE = 2
MAX_LINES_BESIDE = 12  # a longer table runs over to the next page, which one beside a picture cannot
MAX_TOLD_TWICE = 8  # lines of a table that stands in the sizes already
LETTERS_LEAD = "The letters lead to the table of all sizes."  # which the table beside, or the way to it, says as well
STEP_WIDTHS_MM = (104.0, 65.0, 42.0)  # of pictures in the text: alone, and two and three side by side


def picture_address(picture: Picture) -> str:
    """Where the booklet's pages find the picture, relative to the booklet itself."""
    safe = "".join(char if char.isalnum() or char in "-_" else "-" for char in picture.name)
    return f"{PICTURE_FOLDER}/{safe}.{picture.file_name.rpartition('.')[2]}"


def show_figure(picture: Picture, with_table: bool = True, may_stand_beside: bool = True) -> Figure:
    """A picture as a figure; its table is the same facts in words and numbers."""
    table = _twin(picture) if with_table else None
    is_beside = table is not None and picture.width_mm <= MAX_BESIDE_MM and may_stand_beside
    if table and is_beside and len(table.columns) > MAX_COLUMNS_BESIDE:
        is_beside = len(table.lines) <= MAX_COLUMNS_BESIDE and table.corner == "Measure"
        table = turn_table(table, "Size") if is_beside else table
    is_beside = is_beside and table is not None and len(table.lines) <= MAX_LINES_BESIDE
    scale = min(1.0, BESIDE_MM / picture.width_mm) if is_beside else 1.0
    return Figure(
        src=picture_address(picture),
        alt=picture.alt or picture.caption or picture.name,
        caption=set_type(picture.caption),
        width_mm=round(picture.width_mm * scale, 2),
        height_mm=round(picture.height_mm * scale, 2),
        table=table,
        form="beside" if is_beside else "",
        narrow=show_figure(picture.narrow, with_table=False) if picture.narrow else None,
    )


def _show_by_size(pictures: Iterable[Picture], names: Sequence[str], may_stand_beside: bool) -> tuple[Figure, ...]:
    """Pictures of one section, each marked with the sizes it is for and numbered among those shown beside it."""
    figures: list[Figure] = []
    before: list[Picture] = []
    for picture in pictures:
        figure = show_figure(picture, may_stand_beside=may_stand_beside)
        number = 1 + sum(_is_beside(other, picture) for other in before)
        figures.append(replace(figure, showing=_find_showing(picture, names), number=number))
        before.append(picture)
    return tuple(figures)


def _is_beside(other: Picture, picture: Picture) -> bool:
    """Is the other one shown whenever the picture is?"""
    if not other.sizes or not picture.sizes:
        return other.showing != WAITS
    return picture.sizes[0] in other.sizes


def _find_showing(picture: Picture, names: Sequence[str]) -> Showing:
    own = name_sizes(picture.sizes, len(names))
    if picture.showing == OWN:
        return Showing(picture=own)
    if picture.showing == WAITS:
        return Showing(picture=name_alone(picture.sizes))
    if picture.showing == STAYS:
        others = [size for size in range(len(names)) if size not in picture.sizes]
        return Showing(table=own, remark=name_alone(others), size=set_type(names[picture.sizes[0]]))
    return Showing()


def show_text_pictures(images: Iterable[Image], manuscript: BookletInput) -> tuple[Figure, ...]:
    """Pictures of one place in the text, side by side; none where the edition has no pictures."""
    figures: list[Figure] = []
    for image in images:
        picture = next(iter(manuscript.pictures_for(image.name)), None)
        if picture is not None:
            alt, caption = (fill_names(words, manuscript.numbers) for words in (image.alt, image.caption))
            figure = show_figure(replace(picture, alt=alt, caption=caption), with_table=False)
            figures.append(_fit_beside(figure, image.beside))
    return tuple(figures)


def _fit_beside(figure: Figure, beside: int) -> Figure:
    """The figure no wider than it may be where so many stand side by side."""
    scale = min(1.0, STEP_WIDTHS_MM[min(beside, len(STEP_WIDTHS_MM)) - 1] / figure.width_mm)
    return replace(figure, width_mm=round(figure.width_mm * scale, 2), height_mm=round(figure.height_mm * scale, 2))


def show_first(manuscript: BookletInput, *places: str) -> Figure | None:
    """The first picture for these places, without its table."""
    pictures = manuscript.pictures_for(*places)
    return show_figure(pictures[0], with_table=False) if pictures else None


def show_colours(manuscript: BookletInput) -> Section | None:
    """The legend: every colour by its letter, name and a patch with its own hatch; none where one yarn makes all."""
    pattern = manuscript.pattern
    if len(pattern.colours) < 2:
        return None
    patches = {picture.name: show_figure(picture, False) for picture in manuscript.pictures_for("patch")}
    return Section(
        key="colours",
        title="Colours",
        anchor="colours",
        swatches=tuple(
            Swatch(colour.letter, set_type(colour.name), patches.get(f"patch-{colour.letter}"))
            for colour in pattern.colours
        ),
    )


def show_schematic(manuscript: BookletInput) -> Section | None:
    """The pieces to scale, every dimension in a table beneath."""
    section = _show_pictures("schematic", "Schematic", manuscript.pictures_for("schematic"), manuscript)
    if section is None:
        return None
    return replace(section, figures=tuple(map(_lead_to_sizes, section.figures)))


def _lead_to_sizes(figure: Figure) -> Figure:
    """The drawing with the way to the table of sizes, in which its own table stands too."""
    if not figure.table:
        return figure
    is_long = len(figure.table.lines) > MAX_TOLD_TWICE
    caption = figure.caption.replace(LETTERS_LEAD, "").strip()
    return replace(figure, caption=caption, told_at="sizes", is_told_once=is_long, form="" if is_long else figure.form)


def show_plan(manuscript: BookletInput) -> Section | None:
    """Where each colour lies in the finished piece."""
    pictures = manuscript.pictures_for("plan", "colour-plan")
    return _show_pictures("plan", "Colour plan", pictures, manuscript)


def show_charts(manuscript: BookletInput) -> Section | None:
    """The stitch charts, and the key of the symbols in them."""
    charts = manuscript.pictures_for("chart", "grid")
    if not charts:
        return None
    return Section(
        key="charts",
        title="Stitch charts",
        anchor="charts",
        figures=_show_by_size(charts, manuscript.pattern.size_names, may_stand_beside=False),
        swatches=tuple(
            Swatch(
                *_split_name(picture.caption),
                show_figure(picture, False),
                name_alone(picture.sizes) if picture.sizes else "",
            )
            for picture in manuscript.pictures_for("symbol")
        ),
    )


def _split_name(words: str) -> tuple[str, str]:
    """`dc: double crochet` as abbreviation and meaning."""
    short, _, meaning = words.partition(": ")
    return set_type(short), set_type(meaning)


def show_aids(manuscript: BookletInput) -> Section | None:
    """What a maker measures with, at its true size; the lowest first, which often fits on a page begun."""
    pictures = sorted(manuscript.pictures_for("measuring"), key=lambda picture: picture.height_mm)
    section = _show_pictures("measuring", "Measuring aids", pictures, manuscript)
    lead = Markup("<p>Bars and square have their true size where the page is printed at 100%.</p>")
    return replace(section, lead=lead) if section and len(pictures) > 1 else section


def show_photos(manuscript: BookletInput) -> Section | None:
    """The author's own pictures, but the one on the cover."""
    photos = manuscript.pictures_for("photo")
    on_cover = not manuscript.pictures_for("cover", "fabric")
    return _show_pictures("pictures", "Pictures", photos[1:] if on_cover else photos, manuscript)


def _show_pictures(key: str, title: str, pictures: list[Picture], manuscript: BookletInput) -> Section | None:
    if not pictures:
        return None
    figures = _show_by_size(pictures, manuscript.pattern.size_names, may_stand_beside=True)
    return Section(key=key, title=title, anchor=key, figures=figures)


def _twin(picture: Picture) -> Table | None:
    """The text twin; rows are padded to equal length, as tagged tables need.

    Letters that a drawing shows stand in front of what they measure, as in the table of sizes.
    """
    if len(picture.table) < 2:
        return None
    width = max(len(row) for row in picture.table)
    head, *rows = ([set_type(text) for text in row] + [""] * (width - len(row)) for row in picture.table)
    has_letters = head[0] == "Letter" and width > 2
    at = 1 if has_letters else 0
    is_stacked = has_letters and width - 2 > MAX_WIDE_COLUMNS
    return Table(
        caption="The drawing in words and figures",
        corner=head[at],
        columns=tuple(head[at + 1 :]),
        lines=tuple(
            Line(
                row[at],
                tuple(Cell(_stack_units(text) if is_stacked else (_bind_items(text),)) for text in row[at + 1 :]),
                row[0] if has_letters else "",
            )
            for row in rows
        ),
    )


def _stack_units(text: str) -> tuple[str, ...]:
    """A measure in both units, `31 cm (12¼ in)`, one above the other, as narrow columns want it."""
    first, bracket, second = text.partition(" (")
    return (first, second.removesuffix(")")) if bracket else (text,)


def _bind_items(text: str) -> str:
    """A list such as `A Fog 42, B Kelp 42` so that its lines end only after commas."""
    items = text.split(", ")
    if len(items) < 2:
        return text
    return ", ".join(item.replace(" ", NO_BREAK_SPACE) if len(item) <= LONGEST_BOUND else item for item in items)
