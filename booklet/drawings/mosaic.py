"""Mosaic crochet as squares of the colour that is seen there.

Every row is of one colour; what makes the pattern are long stitches, which are worked over the rows between into a
row further down and hide them. Overlay mosaic works them into free loops, over stitches; inset mosaic into stitches
that a row passed over with chains. A long stitch is seen from its own row down to the row above its foot.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from booklet.drawings.chart_marks import CHAIN, LINK, OPENING, STITCH, ChartRow, list_chart_rows
from booklet.drawings.lay import find_directions
from booklet.model.work import WorkedRow

LEAST_LONG = 3  # long stitches, before a piece is mosaic
HOLE = "hole"


@dataclass(frozen=True, slots=True)
class Cell:
    """What a row has in one column: a stitch of a kind, or HOLE, chains that pass over it; `down` as in `Stitch`."""

    kind: str
    colour: str
    down: int


@dataclass(frozen=True, slots=True)
class Mosaic:
    """Rows from the first up, each from left to right.

    `seen` are letters of colours; `joined` the squares, (row, column), that show one long stitch with the square
    above them; `letters` the colour that each row is worked in.
    """

    seen: tuple[tuple[str, ...], ...]
    joined: frozenset[tuple[int, int]]
    letters: tuple[str, ...]


def find_mosaic(rows: Sequence[WorkedRow]) -> Mosaic | None:
    """The rows of a piece as mosaic; None where it is none, or has rows that no chart can place."""
    worked = [row for row in rows if row.kind != "foundation"]
    colours = [{colour for colour, _ in row.fabric.yarn} for row in worked]
    if any(len(letters) != 1 for letters in colours) or len(set().union(*colours)) < 2:
        return None
    listed = [row for row in list_chart_rows(rows) if row.name]
    if len(listed) != len(worked):
        return None
    return read_mosaic(listed, find_directions(worked))


def read_mosaic(rows: Sequence[ChartRow], ways: Sequence[int]) -> Mosaic | None:
    """The piece as mosaic; None where it is none, or has rows that are not as wide as the first."""
    letters = [row.letters for row in rows]
    if any(len(row) != 1 for row in letters) or len(set(letters)) < 2:
        return None
    cells = _find_cells(rows, ways)
    if cells is None:
        return None
    seen = [[cell.colour for cell in line] for line in cells]
    joined: set[tuple[int, int]] = set()
    count = 0
    for number, line in enumerate(cells):
        for at, cell in enumerate(line):
            deep = _depth(cells, number, at) if cell.kind != HOLE else 1
            count += deep > 1
            for below in range(number - 1, number - deep, -1):
                if below >= 0:
                    seen[below][at] = cell.colour
                    joined.add((below, at))
    if count < LEAST_LONG:
        return None
    return Mosaic(tuple(map(tuple, seen)), frozenset(joined), tuple(row[0] for row in letters))


def _depth(cells: Sequence[Sequence[Cell]], number: int, at: int) -> int:
    """How many rows below its own a stitch goes; over chains, as far as they pass over the same column."""
    deep = 1
    while deep <= number and cells[number - deep][at].kind == HOLE:
        deep += 1
    return max(deep, cells[number][at].down)


def _find_cells(rows: Sequence[ChartRow], ways: Sequence[int]) -> list[list[Cell]] | None:
    """Every row as cells from left to right, each over what it is worked into."""
    below: dict[int, int] = {}
    found: list[list[Cell]] = []
    width = sum(1 for mark in rows[0].marks if mark.is_column)
    for number, (row, way) in enumerate(zip(rows, ways, strict=True)):
        places = _place_row(row, below if number else None, way, width)
        if places is None:
            return None
        line, below = places
        found.append(line)
    return found


def _place_row(
    row: ChartRow, below: dict[int, int] | None, way: int, width: int
) -> tuple[list[Cell], dict[int, int]] | None:
    """The cells of a row, and the column of each of its sites; None where it leaves a column out or fills one twice."""
    cells: dict[int, Cell] = {}
    sites: dict[int, int] = {}
    at = 0 if way > 0 else width - 1
    chains: list[tuple[str, tuple[int, ...]]] = []
    for mark in row.marks:
        if mark.role == LINK or (mark.role == OPENING and not mark.counts):
            continue
        if mark.role == CHAIN:
            chains.append((mark.colour, mark.tops))
            continue
        if mark.role not in (STITCH, OPENING):
            return None
        columns = {at} if below is None else {below[foot] for foot in mark.feet if foot in below}
        if len(columns) > 1 and mark.into_space:  # one of several behind the same chains
            columns = set(sorted(columns - cells.keys(), key=lambda column: (column - at) * way)[:1])
        if len(columns) != 1:
            return None
        (column,) = columns
        if (column - at) * way < 0 or column in cells or not _fill(cells, sites, chains, range(at, column, way)):
            return None
        cells[column] = Cell(mark.kind, mark.colour, mark.down)
        sites.update(dict.fromkeys(mark.tops, column))
        at, chains = column + way, []
    edge = width if way > 0 else -1
    if not _fill(cells, sites, chains, range(at, edge, way)) or len(cells) != width:
        return None
    return [cells[column] for column in range(width)], sites


def _fill(
    cells: dict[int, Cell], sites: dict[int, int], chains: Sequence[tuple[str, tuple[int, ...]]], gap: range
) -> bool:
    """Chains in the columns that they pass over; False where there are chains and no columns, or the other way."""
    if len(chains) != (1 if gap else 0):
        return False
    for colour, tops in chains:
        for number, top in enumerate(tops):
            sites[top] = gap[number * len(gap) // len(tops)]
        for column in gap:
            cells[column] = Cell(HOLE, colour, 0)
    return True
