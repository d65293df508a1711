"""Charts of squares: filet as solid and open squares, colourwork and mosaic as one square a stitch with its letter.

Filet follows the old rule (a 19th-century manual, as a course text reports it): posts stand at even
distances, what lies between two of them is a solid square of stitches or an open one of chains, so that
n solid squares side by side are 3n + 1 dc. Colourwork is any piece of one kind of stitch whose rows
change colour, each stitch over the one below; mosaic is read in `mosaic.py`.
"""

from collections.abc import Sequence
from dataclasses import dataclass, field, replace

from booklet.drawings.chart_marks import ChartRow, list_chart_rows
from booklet.drawings.chart_words import fold_words
from booklet.drawings.faces import set_text
from booklet.drawings.grid_repeat import Stretch, find_repeats, keep_places
from booklet.drawings.lay import find_directions
from booklet.drawings.mosaic import read_mosaic
from booklet.drawings.palette import Palette, find_tint
from booklet.drawings.picture import Ink
from booklet.drawings.plan import Area, Line, Plan, Polyline, Rect, Shape, bound_shapes, move_shape
from booklet.findings import counted
from booklet.model.work import WorkedRow

SOLID, OPEN = "solid", "open"
WIDTH_MM, HEIGHT_MM = 140.0, 185.0
LARGEST_MM, LEAST_MM, LETTER_MM = 5.0, 1.6, 2.6
EVERY = 10  # a heavier line
MARGIN_MM = 1.5
LEAST_CHANGES = 3  # rows that change colour, before a piece is colourwork
MOST_TABLE_ROWS = 60
SHOWN_WIDE = 10  # squares: a narrower repeat is shown more than once


@dataclass(frozen=True, slots=True)
class Grid:
    """Squares from the first row up, each row from left to right: SOLID and OPEN, or letters of colours.

    `directions` say which rows are worked from left to right (+1); `stitches` is how many make a square. In mosaic
    `letters` are the colours that the rows are worked in, and `joined` the squares, (row, column), that show one
    long stitch with the square above them.
    """

    is_filet: bool
    rows: tuple[tuple[str, ...], ...]
    names: tuple[str, ...]
    directions: tuple[int, ...]
    sides: tuple[str, ...]
    stitches: int
    letters: tuple[str, ...] = ()
    joined: frozenset[tuple[int, int]] = field(default_factory=frozenset)
    unit: str = "row"  # or "round"
    full: "Grid | None" = None  # the whole piece, where this is cut to its repeats

    @property
    def is_mosaic(self) -> bool:
        return bool(self.letters)

    @property
    def repeats(self) -> tuple[Stretch | None, Stretch | None]:
        """What repeats across, counted from the side where the first row begins, and upwards."""
        if self.full:
            return self.full.repeats
        by_two = len(set(self.directions)) > 1
        rows = [
            [(square, (number, at) in self.joined) for at, square in enumerate(line)]
            for number, line in enumerate(self.rows)
        ]
        across, upwards = find_repeats(rows, self.directions[0] < 0, by_two)
        return across, upwards

    @property
    def width(self) -> int:
        return len(self.rows[0])


def find_grid(rows: Sequence[WorkedRow]) -> Grid | None:
    """The piece as squares; None where it is neither filet nor colourwork, or has no room on a page."""
    listed = [row for row in list_chart_rows(rows) if row.name]
    if len(listed) < 3 or len(listed) != sum(1 for row in rows if row.kind != "foundation"):
        return None
    ways = find_directions([row.row for row in listed])
    names = tuple(row.name for row in listed)
    sides = tuple(row.row.side for row in listed)
    unit = "round" if listed[-1].row.kind == "round" else "row"
    if (mosaic := read_mosaic(listed, ways)) is not None:
        return _fit_page(Grid(False, mosaic.seen, names, tuple(ways), sides, 1, mosaic.letters, mosaic.joined, unit))
    found = _read_filet(listed) or _read_colours(listed)
    if found is None:
        return None
    squares, stitches = found
    laid = tuple(line if way > 0 else line[::-1] for line, way in zip(squares, ways, strict=True))
    is_filet = stitches > 1
    return _fit_page(Grid(is_filet, laid, names, tuple(ways), sides, stitches, unit=unit))


def _fit_page(grid: Grid) -> Grid | None:
    """The grid, cut to its repeats where the page has no room for all of it; None where that does not help."""
    most_wide, most_high = int(WIDTH_MM / LEAST_MM), int(HEIGHT_MM / LEAST_MM)
    if grid.width <= most_wide and len(grid.rows) <= most_high:
        return grid
    across, upwards = grid.repeats
    places = list(range(grid.width))
    if grid.width > most_wide and across:
        kept = keep_places(across, grid.width, SHOWN_WIDE)
        places = sorted(grid.width - 1 - at for at in kept) if grid.directions[0] < 0 else kept
    rows = list(range(len(grid.rows)))
    if len(grid.rows) > most_high and upwards:
        rows = keep_places(upwards, len(grid.rows), upwards.period)
    if len(places) > most_wide or len(rows) > most_high:
        return None
    joined = {(low, left) for low, row in enumerate(rows) for left, at in enumerate(places) if (row, at) in grid.joined}
    return replace(
        grid,
        rows=tuple(tuple(grid.rows[row][at] for at in places) for row in rows),
        names=tuple(grid.names[row] for row in rows),
        directions=tuple(grid.directions[row] for row in rows),
        sides=tuple(grid.sides[row] for row in rows),
        letters=tuple(grid.letters[row] for row in rows) if grid.letters else (),
        joined=frozenset(joined),
        full=grid,
    )


def mirror_grid(grid: Grid) -> Grid:
    """The grid as a left-handed maker works it: every row begins on the other side."""
    rows = tuple(line[::-1] for line in grid.rows)
    joined = frozenset((number, grid.width - 1 - at) for number, at in grid.joined)
    ways = tuple(-way for way in grid.directions)
    return replace(grid, rows=rows, directions=ways, joined=joined, full=mirror_grid(grid.full) if grid.full else None)


def _read_filet(rows: Sequence[ChartRow]) -> tuple[list[tuple[str, ...]], int] | None:
    """Every row as solid and open squares in working order, and the stitches to a square."""
    runs = {site.run for row in rows for site in row.row.fabric.sites if site.kind == "ch"}
    if len(runs) != 1 or not runs <= {1, 2}:
        return None
    step = runs.pop() + 1
    squares = []
    for row in rows:
        sites = row.row.fabric.sites
        if (len(sites) - 1) % step or len({site.kind for site in sites} - {"ch"}) != 1:
            return None
        line = []
        for at in range(0, len(sites) - 1, step):
            between = {site.kind for site in sites[at + 1 : at + step]}
            if sites[at].kind == "ch" or len(between) != 1:
                return None
            line.append(OPEN if between == {"ch"} else SOLID)
        if sites[-1].kind == "ch":
            return None
        squares.append(tuple(line))
    has_both = {square for line in squares for square in line} == {SOLID, OPEN}
    return (squares, step) if has_both and len({len(line) for line in squares}) == 1 else None


def _read_colours(rows: Sequence[ChartRow]) -> tuple[list[tuple[str, ...]], int] | None:
    """Every row as letters in working order, where all stitches are of one kind."""
    kinds = {site.kind for row in rows for site in row.row.fabric.sites if site.counts}
    lines = [tuple(site.colour for site in row.row.fabric.sites if site.counts) for row in rows]
    changing = sum(len(set(line)) > 1 for line in lines)
    if len(kinds) != 1 or len({len(line) for line in lines}) != 1 or changing < LEAST_CHANGES:
        return None
    return lines, 1


def plan_grid(grid: Grid, palette: Palette, ink: Ink) -> Plan:
    """The squares with numbers of rows where they begin, of columns below, repeats bracketed; raises NoFontError."""
    cell = min(LARGEST_MM, WIDTH_MM / grid.width, HEIGHT_MM / len(grid.rows))
    shapes = _fill_squares(grid, cell, palette, ink)
    shapes += _rule(grid, cell, ink)
    labels = _number(grid, cell, ink)
    return _finish([*shapes, *labels, *_bracket(grid, cell, [*shapes, *labels], ink)])


def _fill_squares(grid: Grid, cell: float, palette: Palette, ink: Ink) -> list[Shape]:
    """Each square in its colour, over that its hatch, and its letter on a plain spot."""
    height = cell * len(grid.rows)
    squares: list[Shape] = []
    letters: list[Shape] = []
    hatched: dict[str, list[tuple[tuple[float, float], ...]]] = {}
    for number, line in enumerate(grid.rows):
        y = height - (number + 1) * cell
        for at, square in enumerate(line):
            x = at * cell
            squares.append(Rect(x, y, cell, cell, _fill(grid, square, palette, ink)))
            if grid.is_filet:
                continue
            tint = find_tint(palette, square)
            if tint.hatch:
                corners = ((x, y), (x + cell, y), (x + cell, y + cell), (x, y + cell))
                hatched.setdefault(square, []).append(corners)
            if cell >= LETTER_MM and square:
                text = set_text(ink, square, points=min(7.0, cell * 1.9), colour=tint.letter_shade)
                if tint.hatch:
                    wide, high = text.width + 0.5, text.height + 0.3
                    left, top = x + (cell - wide) / 2, y + (cell - high) / 2
                    letters.append(Rect(left, top, wide, high, tint.shade, min(wide, high) / 3))
                letters.append(move_shape(text, x + cell / 2, y + cell / 2))
    for square, polygons in hatched.items():
        tint = find_tint(palette, square)
        squares.append(Area(tuple(polygons), tint.shade, tint.hatch, tint.hatch_shade))
    return [*squares, *letters]


def _fill(grid: Grid, square: str, palette: Palette, ink: Ink) -> str:
    if grid.is_filet:
        return ink.faint if square == SOLID else "#ffffff"
    return find_tint(palette, square).shade


def _rule(grid: Grid, cell: float, ink: Ink) -> list[Shape]:
    """Lines between the squares, every tenth one heavier; none through a long stitch."""
    height = cell * len(grid.rows)
    shapes: list[Shape] = []
    for at in range(grid.width + 1):
        count = grid.width - at if grid.directions[0] < 0 else at  # from the first stitch, as the numbers below
        heavy = (count % EVERY == 0 and not grid.full) or at in (0, grid.width)
        shapes.append(Line((at * cell, 0.0), (at * cell, height), 0.35 if heavy else 0.12, ink.text))
    for at in range(len(grid.rows) + 1):
        heavy = (at % EVERY == 0 and not grid.full) or at in (0, len(grid.rows))
        y = height - at * cell
        begin = 0
        for column in range(grid.width + 1):
            if column == grid.width or (at - 1, column) in grid.joined:
                if column > begin:
                    shapes.append(Line((begin * cell, y), (column * cell, y), 0.35 if heavy else 0.12, ink.text))
                begin = column + 1
    return shapes


def _number(grid: Grid, cell: float, ink: Ink) -> list[Shape]:
    """Numbers of rows at the side on which each begins, as many as have room; of columns from the first stitch."""
    height = cell * len(grid.rows)
    every = 1 if cell >= 2.4 else 2 if cell >= 1.9 else 5
    shapes: list[Shape] = []
    last: dict[int, float] = {}
    for number, (name, way) in enumerate(zip(grid.names, grid.directions, strict=True)):
        y = height - (number + 0.5) * cell
        if (number % every and every > 2) or last.get(way, 1e9) - y < 2.5:
            continue
        last[way] = y
        words = f"{name} {grid.letters[number]}" if grid.letters else name
        text = set_text(ink, words, points=6.5, colour=ink.text)
        x = -1.6 - text.width / 2 if way > 0 else cell * grid.width + 1.6 + text.width / 2
        shapes.append(move_shape(text, x, y))
    from_right = grid.directions[0] < 0
    across = grid.repeats[0]
    is_cut = across is not None and grid.full is not None and grid.full.width > grid.width
    last_number = across.start + across.period if is_cut and across else grid.width
    for count in range(5, last_number + 1, 5):
        at = grid.width - count + 0.5 if from_right else count - 0.5
        text = set_text(ink, str(count), points=6.5, colour=ink.text)
        if 5 * cell > text.width + 0.5:
            shapes.append(move_shape(text, at * cell, height + 2.6))
    return shapes


def _bracket(grid: Grid, cell: float, drawn: Sequence[Shape], ink: Ink) -> list[Shape]:
    """Brackets outside everything else: below along one repeat of stitches, on the right along one of rows."""
    across, upwards = grid.repeats
    _, _, right, bottom = bound_shapes(drawn)
    shapes: list[Shape] = []
    if across:
        first = across.start * cell
        last = first + across.period * cell
        if grid.directions[0] < 0:
            first, last = cell * grid.width - last, cell * grid.width - first
        y = bottom + 0.8
        text = set_text(ink, _say_across(grid, across), points=7, colour=ink.accent)
        shapes.append(Polyline(((first, y), (first, y + 1.4), (last, y + 1.4), (last, y)), 0.3, ink.accent))
        middle = min(max((first + last) / 2, text.width / 2), max(cell * grid.width, text.width) - text.width / 2)
        shapes.append(move_shape(text, middle, y + 2.6 + text.height / 2))
    if upwards:
        low = cell * (len(grid.rows) - upwards.start)
        high = low - upwards.period * cell
        x = right + 1.0
        text = set_text(ink, f"repeat: {counted(upwards.period, grid.unit)}", points=7, colour=ink.accent)
        shapes.append(Polyline(((x, high), (x + 1.4, high), (x + 1.4, low), (x, low)), 0.3, ink.accent))
        shapes.append(move_shape(text, x + 2.4 + text.width / 2, (low + high) / 2))
    return shapes


def _say_across(grid: Grid, across: Stretch) -> str:
    """`repeat: 4 sts`, or in filet `repeat: 2 squares`."""
    return f"repeat: {counted(across.period, 'square' if grid.is_filet else 'st')}"


def _finish(shapes: Sequence[Shape]) -> Plan:
    left, top, right, bottom = bound_shapes(shapes)
    moved = tuple(move_shape(shape, MARGIN_MM - left, MARGIN_MM - top) for shape in shapes)
    return Plan(right - left + 2 * MARGIN_MM, bottom - top + 2 * MARGIN_MM, moved)


def say_line(grid: Grid, number: int) -> str:
    """A row in working order: `3 solid, 2 open`, or `5 A, 1 B`."""
    line = grid.rows[number] if grid.directions[number] > 0 else grid.rows[number][::-1]
    said: list[tuple[str, int]] = []
    for square in line:
        if said and said[-1][0] == square:
            said[-1] = (square, said[-1][1] + 1)
        else:
            said.append((square, 1))
    return ", ".join(fold_words([f"{count} {square}" for square, count in said]))


def describe_grid(grid: Grid, title: str, in_size: str) -> tuple[str, str]:
    """Alt text and caption: of the whole piece, also where the chart is cut to its repeats."""
    shown, grid = grid, grid.full or grid
    what = "Filet chart" if grid.is_filet else "Mosaic chart" if grid.is_mosaic else "Colour chart"
    size = f"{counted(grid.width, 'square')} wide, {counted(len(grid.rows), grid.unit)} high"
    unit = grid.unit.capitalize()
    first = f"{unit} {grid.names[0]}: {say_line(grid, 0)}. {unit} {grid.names[1]}: {say_line(grid, 1)}."
    alt = f"{what} of {title}{in_size}, {size}. In working order, {first}"
    if grid.is_filet:
        caption = "A filled square is solid, an empty one open; "
        caption += f"each is {grid.stitches} stitches wide, with one more stitch at the end of the row."
    elif grid.is_mosaic:
        caption = "Each square is a stitch, with the letter of the colour that is seen there. The letter behind a "
        caption += f"number is the colour the {grid.unit} is worked in. Squares with no line between them are one "
        caption += "long stitch, worked in the uppermost of their rows."
    else:
        caption = "Each square is a stitch, in its colour and with its letter."
    sides = f" Each {grid.unit} is read from the side where its number stands."
    again = _say_repeats(shown)
    return alt + again, f"{title}{in_size}. {caption}{sides}{again}"


def _say_repeats(grid: Grid) -> str:
    """What the brackets mark, in numbers."""
    across, upwards = grid.repeats
    full = grid.full or grid
    wide, high = full.width, len(full.rows)
    said = ""
    if across:
        unit = "square" if grid.is_filet else "stitch"
        size = f"{across.period} {unit}{'' if across.period == 1 else 'es' if unit == 'stitch' else 's'}"
        said += f" Across, {size} repeat {across.times} times"
        said += f" after the first {across.start}" if across.start else ""
        said += "; the chart leaves some of them out, and shows both edges." if wide > grid.width else "."
    if upwards:
        first, last = full.names[upwards.start], full.names[upwards.start + upwards.period - 1]
        which = f"{first} and {last}" if upwards.period == 2 else f"{first} to {last}"
        said += f" The squares of {grid.unit.capitalize()}s {which} come {upwards.times} times"
        said += ", and are drawn once." if high > len(grid.rows) else "."
    return said


def grid_table(grid: Grid) -> tuple[tuple[str, ...], ...]:
    """The text twin, every row in working order; empty where that is more than a page."""
    grid = grid.full or grid
    if len(grid.rows) > MOST_TABLE_ROWS:
        return ()
    unit = grid.unit.capitalize()
    rows = [(unit, "Squares in working order" if grid.is_filet else "Stitches in working order")]
    if grid.is_mosaic:
        rows = [(unit, "Colours seen, in working order")]
    for number, name in enumerate(grid.names):
        worked_in = f", worked in {grid.letters[number]}" if grid.letters else ""
        rows.append((f"{unit} {name}{worked_in}", say_line(grid, number)))
    return tuple(rows)
