"""The colour plan: where each colour lies in the finished piece, in true proportion.

Areas too small for a letter are named at the right edge where there is room; the table names all.
"""

from collections import Counter
from collections.abc import Sequence

from booklet.drawings.areas import ColourArea, border_lines, find_areas, run_polygon
from booklet.drawings.arrangement import Placing, arrange_pieces
from booklet.drawings.chart_words import fold_words
from booklet.drawings.faces import set_text, shorten
from booklet.drawings.lay import Lay
from booklet.drawings.palette import Palette, Tint, find_tint
from booklet.drawings.patches import letter_plate
from booklet.drawings.picture import Ink
from booklet.drawings.pieces import row_name
from booklet.drawings.plan import Area, Line, Plan, Point, Polyline, Shape, bound_shapes, move_shape
from booklet.drawings.spots import find_spot

WIDTH_MM, HEIGHT_MM = 150.0, 150.0
TITLE_MM = 110.0
MOST_ACROSS = 3  # colourways beside one another
WAY_GAP_MM, WAY_HEIGHT_MM = 8.0, 80.0
PLATE_MM = 5.2
COLUMN_MM = 6.0  # from the piece to the letters beside it
BORDER = 0.2
MOST_NAMED = 8  # runs of a row told by their names
MOST_LETTERS = 80  # more areas than that are a pattern of stitches, not blocks to be named
MOST_TABLE_ROWS = 40
FEW_GROUPS = 8  # lines of a table that are told one by one


def plan_colours(
    pieces: Sequence[Lay], palette: Palette, ink: Ink, width: float = WIDTH_MM, height: float = HEIGHT_MM
) -> Plan:
    """The plan of all pieces in their colours; raises NoFontError where letters cannot be set."""
    title_mm = min(TITLE_MM, width - 5)
    plan, _ = arrange_pieces(
        pieces,
        lambda placing: _draw_piece(placing, palette, ink, title_mm if len(pieces) > 1 else 0.0),
        width,
        height,
    )
    return plan


def plan_colourways(
    pieces: Sequence[Lay],
    ways: Sequence[tuple[str, Palette]],
    ink: Ink,
    sheet_width: float = WIDTH_MM,
    most_across: int = MOST_ACROSS,
) -> Plan:
    """The same plan in every colourway, side by side under their names; raises NoFontError as above."""
    across = min(len(ways), most_across)
    width = (sheet_width - (across - 1) * WAY_GAP_MM) / across
    shapes: list[Shape] = []
    top, lowest = 0.0, 0.0
    for number, (name, palette) in enumerate(ways):
        if number and number % across == 0:
            top, lowest = lowest + WAY_GAP_MM, 0.0
        left = (number % across) * (width + WAY_GAP_MM)

        def draw(placing: Placing, palette: Palette = palette) -> list[Shape]:
            return _draw_piece(placing, palette, ink, title_mm=0.0)

        plan, _ = arrange_pieces(pieces, draw, width, WAY_HEIGHT_MM)
        title = set_text(ink, shorten(ink, name, width, 9.0, bold=True), points=9.0, bold=True)
        shapes.append(move_shape(title, left + plan.width / 2, top + title.height / 2 + 1.0))
        shapes += [move_shape(shape, left, top + title.height + 2.5) for shape in plan.shapes]
        lowest = max(lowest, top + title.height + 2.5 + plan.height)
    return Plan(sheet_width, lowest, tuple(shapes))


def colourway_table(ways: Sequence[tuple[str, Palette]]) -> tuple[tuple[str, ...], ...]:
    """The text twin: which colour each letter is in each colourway."""
    letters = dict.fromkeys(letter for _, palette in ways for letter in palette)
    rows = [("Letter", *(name for name, _ in ways))]
    rows += [(letter, *(find_tint(palette, letter).name for _, palette in ways)) for letter in letters]
    return tuple(rows)


def _draw_piece(placing: Placing, palette: Palette, ink: Ink, title_mm: float) -> list[Shape]:
    """The piece, under a title of so many mm at most where there are any."""
    bands = placing.piece.all_bands
    areas = () if placing.is_trial else find_areas(bands)
    shapes: list[Shape] = []
    for letter in dict.fromkeys(area.letter for area in areas):
        tint = find_tint(palette, letter)
        polygons = tuple(
            tuple(placing.at(point) for point in run_polygon(bands[index], run))
            for area in areas
            if area.letter == letter
            for index, run in area.runs
        )
        shapes.append(Area(polygons, tint.shade, tint.hatch, tint.hatch_shade))
    lines = () if placing.is_trial else border_lines(bands)
    shapes.extend(Polyline(tuple(placing.at(point) for point in line), BORDER, ink.line) for line in lines)
    outline = tuple(placing.at(point) for point in placing.piece.outline)
    shapes.append(Polyline(outline, 0.4, ink.line, closed=True))
    if placing.is_trial:  # room for letters beside the piece
        shapes.append(set_text(ink, "W", (placing.width + COLUMN_MM + 2, placing.height / 2), points=8))
    elif len(areas) <= MOST_LETTERS:
        shapes += _draw_letters(placing, areas, palette, ink)
    if title_mm and placing.piece.title.strip():
        scale = f", {placing.times} times as large" if placing.times > 1 else ""
        words = shorten(ink, " ".join(placing.piece.title.split()), title_mm, 9.5, bold=True) + scale
        title = set_text(ink, words, points=9.5, bold=True)
        _, top, _, _ = bound_shapes(shapes)
        shapes.append(move_shape(title, placing.width / 2, top - 1.5 - title.height / 2))
    return shapes


def _draw_letters(placing: Placing, areas: Sequence[ColourArea], palette: Palette, ink: Ink) -> list[Shape]:
    """A letter in every area that holds one; the others are named beside the piece where there is room."""
    bands = placing.piece.all_bands
    shapes: list[Shape] = []
    outside: list[tuple[Point, Tint]] = []
    for area in areas:
        tint = find_tint(palette, area.letter)
        polygons = [tuple(placing.at(p) for p in run_polygon(bands[index], run)) for index, run in area.runs]
        spot = find_spot(polygons, PLATE_MM)
        if spot:
            shapes += letter_plate(tint, ink, 8.5, *spot)
        else:
            outside.extend((tip, tint) for tip in _right_edge(placing, area))
    return shapes + _draw_outside(placing, outside, ink)


def _right_edge(placing: Placing, area: ColourArea) -> list[Point]:
    """The point of an area that a line from the right reaches first; none where others lie before it."""
    bands = placing.piece.all_bands
    index, run = area.runs[len(area.runs) // 2]
    band = bands[index]
    if band.top.closed:
        share = band.top.easy
        if not run.start <= share <= run.end:
            return []
        (x0, y0), (x1, y1) = band.base.point(share), band.top.point(share)
        return [placing.at(((x0 + x1) / 2, (y0 + y1) / 2))]
    if run.end < 1 - 1e-6:
        return []
    first, last = bands[area.first].base.point(1)[1], bands[area.last].top.point(1)[1]
    return [placing.at((band.top.point(1)[0], (first + last) / 2))]


def _draw_outside(placing: Placing, outside: Sequence[tuple[Point, Tint]], ink: Ink) -> list[Shape]:
    """Letters in a column right of the piece with lines to their areas; one of each colour where all have no room."""
    ordered = sorted(outside, key=lambda item: item[0][1])
    texts = [set_text(ink, tint.letter, points=8, bold=True) for _, tint in ordered]
    step = max((text.height for text in texts), default=0.0) + 0.2
    most = int((placing.height + 2 * step) / step) if texts else 0
    if len(ordered) > most:  # some of them would look like the order of the stripes, and not be it
        ordered = _take_one_each(ordered)[:most]
        texts = [set_text(ink, tint.letter, points=8, bold=True) for _, tint in ordered]
    column = placing.width + COLUMN_MM
    shapes: list[Shape] = []
    heights = _spread([tip[1] for tip, _ in ordered], step, placing.height + step)
    for ((x, y), _), text, height in zip(ordered, texts, heights, strict=True):
        shapes.append(Line((x + 0.6, y), (column - 1.2, height), 0.15, ink.line))
        shapes.append(move_shape(text, column + text.width / 2, height))
    return shapes


def _take_one_each(ordered: Sequence[tuple[Point, Tint]]) -> list[tuple[Point, Tint]]:
    """Of each colour the area that is next below the middle of the piece, from the top down."""
    middle = len(ordered) // 2
    found = {tint.letter: (at, tip, tint) for at, (tip, tint) in reversed([*enumerate(ordered)]) if at >= middle}
    found = {tint.letter: (at, tip, tint) for at, (tip, tint) in enumerate(ordered)} | found
    return [(tip, tint) for _, tip, tint in sorted(found.values(), key=lambda item: item[0])]


def _spread(wanted: Sequence[float], step: float, lowest: float) -> list[float]:
    """Heights as near to the wanted ones as `step` between neighbours allows, none below `lowest`."""
    placed: list[float] = []
    for height in wanted:
        placed.append(max(height, placed[-1] + step) if placed else height)
    limit = lowest
    for index in range(len(placed) - 1, -1, -1):
        placed[index] = min(placed[index], limit)
        limit = placed[index] - step
    return placed


RowGroup = tuple[tuple[str, str], str]
"""The names of the first and last of equal rows, and their colours in words."""


def colour_table(pieces: Sequence[Lay], palette: Palette) -> tuple[tuple[str, ...], ...]:
    """The text twin: the colours of every row from left to right, equal rows together.

    Rows have the author's numbers where these go on through each piece, else they are counted. Where
    the table would be longer than a page, the stitches of each colour and the rows it is in.
    """
    names = [name_rows(piece) for piece in pieces]
    is_counted = any(counted for _, counted in names)
    bands = [band for piece in pieces for band in piece.all_bands]
    lines = "Rounds" if all(band.row.kind == "round" for band in bands) else "Rows"
    what = "Stitches of each colour from left to right" if any(len(band.all_runs()) > 1 for band in bands) else "Colour"
    rows = [(f"{lines}, counted from the start" if is_counted else lines, f"{what}, right side facing")]
    for piece, (labels, _) in zip(pieces, names, strict=True):
        where = f"{piece.title}: " if len(pieces) > 1 and piece.title else ""
        groups = _fold_groups(_group_rows(piece, labels, palette))
        rows.extend((f"{where}{_row_range(*ends)}", words) for ends, words in groups)
    return tuple(rows) if len(rows) <= MOST_TABLE_ROWS + 1 else _count_colours(pieces, names, palette)


def _fold_groups(groups: Sequence[RowGroup]) -> list[RowGroup]:
    """Stripes that come again and again told once, and then how often: `Rows 8–64: as Rows 5–7, 19 more times`."""
    if len(groups) <= FEW_GROUPS or not all(end.rpartition(" ")[2].isdigit() for ends, _ in groups for end in ends):
        return list(groups)
    shapes = [(_last_number(last) - _last_number(first), words) for (first, last), words in groups]
    best, saved = (0, 0, 0), 0
    for period in range(2, len(groups) // 3 + 1):
        for start in range(len(groups) - 3 * period + 1):
            times = 1
            while shapes[start : start + period] == shapes[start + times * period : start + (times + 1) * period]:
                times += 1
            if times > 2 and (times - 1) * period > saved:
                best, saved = (start, period, times), (times - 1) * period
    start, period, times = best
    if not saved:
        return list(groups)
    told, end = start + period, start + period * times
    again = (groups[told][0][0], groups[end - 1][0][1])
    words = f"as {_row_range(groups[start][0][0], groups[told - 1][0][1])}, {times - 1} more times"
    return [*groups[:told], (again, words), *_fold_groups(groups[end:])]


def _last_number(name: str) -> int:
    return int(name.rpartition(" ")[2])


def name_rows(piece: Lay) -> tuple[list[str], bool]:
    """What each row is called, and whether that is counted since the author's numbers begin anew."""
    rows = [band.row for band in piece.all_bands]
    numbers = [(row.kind, row.number) for row in rows]
    is_numbered = all(number is not None for _, number in numbers) and len(set(numbers)) == len(numbers)
    if is_numbered:
        return [row_name(row) for row in rows], False
    return [f"{'Round' if row.kind == 'round' else 'Row'} {place}" for place, row in enumerate(rows, 1)], True


def _group_rows(piece: Lay, labels: Sequence[str], palette: Palette) -> list[tuple[tuple[str, str], str]]:
    """First and last of equal rows that follow one another, with their colours in words."""
    groups: list[tuple[tuple[str, str], str]] = []
    for band, name in zip(piece.all_bands, labels, strict=True):
        runs = band.all_runs()
        if len(runs) > MOST_NAMED and band.shown:  # a pattern of stitches: letters alone, and what repeats once
            words = ", ".join(fold_words([f"{run.letter} {run.count}" for run in runs]))
        else:
            colours = [_name(find_tint(palette, run.letter)) for run in runs]
            if len(runs) > 1:
                colours = [f"{colour} {run.count}" for colour, run in zip(colours, runs, strict=True)]
            words = ", ".join(colours)
        if groups and groups[-1][1] == words and groups[-1][0][0].split()[0] == name.split()[0]:
            groups[-1] = ((groups[-1][0][0], name), words)
        else:
            groups.append(((name, name), words))
    return groups


def _row_range(first: str, last: str) -> str:
    """`Row 3`, or `Rows 3–8` where both ends are numbered."""
    kind, _, start = first.partition(" ")
    end = last.rpartition(" ")[2]
    if first == last:
        return first
    return f"{kind}s {start}–{end}" if start.isdigit() and end.isdigit() else f"{first} to {last}"


def _name(tint: Tint) -> str:
    return " ".join(word for word in (tint.letter, tint.name) if word) or "Yarn"


def _count_colours(
    pieces: Sequence[Lay], names: Sequence[tuple[list[str], bool]], palette: Palette
) -> tuple[tuple[str, ...], ...]:
    stitches: Counter[str] = Counter()
    spread: dict[str, list[str]] = {}
    for piece, (labels, _) in zip(pieces, names, strict=True):
        where = f"{piece.title}: " if len(pieces) > 1 and piece.title else ""
        for band, label in zip(piece.all_bands, labels, strict=True):
            for run in band.all_runs():
                stitches[run.letter] += run.count
                spread.setdefault(run.letter, []).append(f"{where}{label}")
    total = sum(stitches.values()) or 1
    is_mosaic = any(band.shown for piece in pieces for band in piece.all_bands)
    rows = [("Colour", "Places seen" if is_mosaic else "Stitches", "Share", "From", "To")]
    for letter, count in stitches.most_common():
        share = f"{100 * count / total:.0f}%"
        rows.append((_name(find_tint(palette, letter)), str(count), share, spread[letter][0], spread[letter][-1]))
    return tuple(rows)
