"""Charts of squares: filet as solid and open squares, colourwork as one square a stitch with its letter.

Filet follows the old rule (a 19th-century manual, as a course text reports it): posts stand at even
distances, what lies between two of them is a solid square of stitches or an open one of chains, so that
n solid squares side by side are 3n + 1 dc. Colourwork is any piece of one kind of stitch whose rows
change colour, each stitch over the one below.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from booklet.drawings.chart_marks import ChartRow, list_chart_rows
from booklet.drawings.faces import set_text
from booklet.drawings.lay import find_directions
from booklet.drawings.palette import Palette, find_tint
from booklet.drawings.picture import Ink
from booklet.drawings.plan import Line, Plan, Rect, Shape, bound_shapes, move_shape
from booklet.findings import counted
from booklet.model.work import WorkedRow

SOLID, OPEN = "solid", "open"
WIDTH_MM, HEIGHT_MM = 140.0, 185.0
LARGEST_MM, LEAST_MM, LETTER_MM = 5.0, 1.6, 2.6
EVERY = 10  # a heavier line
MARGIN_MM = 1.5
LEAST_CHANGES = 3  # rows that change colour, before a piece is colourwork
MOST_TABLE_ROWS = 60


@dataclass(frozen=True, slots=True)
class Grid:
    """Squares from the first row up, each row from left to right: SOLID and OPEN, or letters of colours.

    `directions` say which rows are worked from left to right (+1); `stitches` is how many make a square.
    """

    is_filet: bool
    rows: tuple[tuple[str, ...], ...]
    names: tuple[str, ...]
    directions: tuple[int, ...]
    sides: tuple[str, ...]
    stitches: int

    @property
    def width(self) -> int:
        return len(self.rows[0])


def find_grid(rows: Sequence[WorkedRow]) -> Grid | None:
    """The piece as squares; None where it is neither filet nor colourwork, or has no room on a page."""
    listed = [row for row in list_chart_rows(rows) if row.name]
    if len(listed) < 3 or len(listed) != sum(1 for row in rows if row.kind != "foundation"):
        return None
    if max(WIDTH_MM, 1) / LEAST_MM < 2 or len(listed) > HEIGHT_MM / LEAST_MM:
        return None
    found = _read_filet(listed) or _read_colours(listed)
    if found is None or len(found[0][0]) > WIDTH_MM / LEAST_MM:
        return None
    squares, stitches = found
    ways = find_directions([row.row for row in listed])
    laid = tuple(line if way > 0 else line[::-1] for line, way in zip(squares, ways, strict=True))
    is_filet = stitches > 1
    names = tuple(row.name for row in listed)
    return Grid(is_filet, laid, names, tuple(ways), tuple(row.row.side for row in listed), stitches)


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
    """The squares with numbers of rows where they begin, and of columns below; raises NoFontError."""
    cell = min(LARGEST_MM, WIDTH_MM / grid.width, HEIGHT_MM / len(grid.rows))
    height = cell * len(grid.rows)
    shapes: list[Shape] = []
    for number, line in enumerate(grid.rows):
        y = height - (number + 1) * cell
        for at, square in enumerate(line):
            fill = _fill(grid, square, palette, ink)
            shapes.append(Rect(at * cell, y, cell, cell, fill))
            if not grid.is_filet and cell >= LETTER_MM and square:
                tint = find_tint(palette, square)
                text = set_text(ink, square, points=min(7.0, cell * 1.9), colour=tint.letter_shade)
                shapes.append(move_shape(text, (at + 0.5) * cell, y + cell / 2))
    shapes += _rule(grid, cell, ink)
    return _finish([*shapes, *_number(grid, cell, ink)])


def _fill(grid: Grid, square: str, palette: Palette, ink: Ink) -> str:
    if grid.is_filet:
        return ink.faint if square == SOLID else "#ffffff"
    return find_tint(palette, square).shade


def _rule(grid: Grid, cell: float, ink: Ink) -> list[Shape]:
    """Lines between the squares, every tenth one heavier."""
    width, height = cell * grid.width, cell * len(grid.rows)
    shapes: list[Shape] = []
    for at in range(grid.width + 1):
        heavy = at % EVERY == 0 or at == grid.width
        shapes.append(Line((at * cell, 0.0), (at * cell, height), 0.35 if heavy else 0.12, ink.text))
    for at in range(len(grid.rows) + 1):
        heavy = at % EVERY == 0 or at == len(grid.rows)
        y = height - at * cell
        shapes.append(Line((0.0, y), (width, y), 0.35 if heavy else 0.12, ink.text))
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
        text = set_text(ink, name, points=6.5, colour=ink.text)
        x = -1.6 - text.width / 2 if way > 0 else cell * grid.width + 1.6 + text.width / 2
        shapes.append(move_shape(text, x, y))
    from_right = grid.directions[0] < 0
    for count in range(5, grid.width + 1, 5):
        at = grid.width - count + 0.5 if from_right else count - 0.5
        text = set_text(ink, str(count), points=6.5, colour=ink.text)
        if 5 * cell > text.width + 0.5:
            shapes.append(move_shape(text, at * cell, height + 2.6))
    return shapes


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
    return ", ".join(f"{count} {square}" for square, count in said)


def describe_grid(grid: Grid, title: str, in_size: str) -> tuple[str, str]:
    """Alt text and caption."""
    what = "Filet chart" if grid.is_filet else "Colour chart"
    size = f"{counted(grid.width, 'square')} wide, {counted(len(grid.rows), 'row')} high"
    first = f"Row {grid.names[0]}: {say_line(grid, 0)}. Row {grid.names[1]}: {say_line(grid, 1)}."
    alt = f"{what} of {title}{in_size}, {size}. In working order, {first}"
    if grid.is_filet:
        caption = "A filled square is solid, an empty one open; "
        caption += f"each is {grid.stitches} stitches wide, with one more stitch at the end of the row."
    else:
        caption = "Each square is a stitch, in its colour and with its letter."
    sides = " Each row is read from the side where its number stands."
    return alt, f"{title}{in_size}. {caption}{sides}"


def grid_table(grid: Grid) -> tuple[tuple[str, ...], ...]:
    """The text twin, every row in working order; empty where that is more than a page."""
    if len(grid.rows) > MOST_TABLE_ROWS:
        return ()
    rows = [("Row", "Squares in working order" if grid.is_filet else "Stitches in working order")]
    rows += [(f"Row {name}", say_line(grid, number)) for number, name in enumerate(grid.names)]
    return tuple(rows)
