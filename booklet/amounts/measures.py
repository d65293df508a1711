"""Finished measures of every piece in every size, from its worked rows and their gauge.

A flat piece is as wide as its stitches and as long as its rows; the foundation chain is no row. A piece in
rounds has a circumference and, from its centre or its first round to its edge, a depth.

The tricky case is lace. The gauge counts the stitches of plain fabric, but a row of ch-3 loops over every
other stitch has twice as many chains as there is width for. So a row with chain spaces gives a width only
where it is as wide as the row below, or where each space is as long as the stitches it passes over; where
no row does, the widest has to do.
"""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from functools import partial

from booklet.amounts import messages
from booklet.amounts.figures import print_cm, print_inches
from booklet.amounts.gauges import NOTHING, Extent, count_width, find_gauge, is_row, measure_stitches
from booklet.amounts.hazards import holds_words
from booklet.amounts.heights import Ruler, is_edging, make_ruler, measure_height, split_rounds
from booklet.amounts.openings import find_opening, stack_rows
from booklet.amounts.ovals import begins_as_oval, straight_part
from booklet.amounts.room import suggest_gauge
from booklet.amounts.sample import compare_sample
from booklet.amounts.sideways import BAND, split_part
from booklet.amounts.targets import Aim, compare_targets, find_targets
from booklet.findings import Finding
from booklet.model.amounts import Measure
from booklet.model.pattern import SizedPattern
from booklet.model.work import Fabric, WorkedPart, WorkedPattern, WorkedRow

__all__ = ["is_edging", "measure_parts", "print_cm", "print_inches"]

# A piece that starts from so few stitches, and at least doubles them, starts from its centre.
MOST_STITCHES_AT_CENTRE = 24
# What a piece that ends on both sides of an opening has: each side, and how wide and deep the opening is.
NECK = ("shoulder", "neck width", "neck depth")
OPENING = ("each side at the end", "opening width", "opening depth")
GARMENTS = ("top", "tee", "sweater", "jumper", "pullover", "cardigan", "jacket", "vest", "waistcoat", "dress", "tunic")
LEAST_CROWN = 0.25  # of the rounds grow where there is a crown
MOST_CLOSED = 0.6  # of its widest round is what a ball ends with


@dataclass(frozen=True, slots=True)
class Figure:
    """One measure of one size: its extent, and what it was counted from."""

    extent: Extent | None
    count: int


@dataclass(frozen=True, slots=True)
class Line:
    """One measure of a piece before it has its letter: how it is computed for the rows of a size."""

    name: str
    axis: str
    unit: str
    figures: tuple[Figure, ...]


def measure_parts(sized: SizedPattern, worked: WorkedPattern) -> tuple[tuple[Measure, ...], tuple[Finding, ...]]:
    """All measures, lettered a, b, c … in the order of the pieces, and what is wrong with them.

    Small letters, because the capitals are the colours'.
    """
    pattern = sized.pattern
    ruler = make_ruler(pattern, worked)
    measures: list[Measure] = []
    unmeasured: list[WorkedPart] = []
    findings: list[Finding] = []
    aims: list[tuple[WorkedPart, Sequence[Aim]]] = []
    for part in worked.parts:
        if not any(part.rows):
            continue
        if any(find_gauge(pattern, part, row) is None for rows in part.rows for row in rows if is_row(row)):
            unmeasured.append(part)
            continue
        lines = [line for line in list_lines(ruler, part) if any(figure.extent for figure in line.figures)]
        named = [letter_line(line, part, len(measures) + at) for at, line in enumerate(lines)]
        aimed = find_targets(sized, worked, part, named)
        findings.extend(compare_targets(sized, part, aimed))
        aims.append((part, aimed))
        measures.extend(aim.measure for aim in aimed)
    findings.extend(compare_sample(sized, aims))
    if unmeasured:
        findings.insert(0, messages.gauge_missing(pattern, tuple(unmeasured), suggest_gauge(pattern, worked)))
    return tuple(measures), tuple(findings)


def letter_line(line: Line, part: WorkedPart, number: int) -> Measure:
    """The line as a measure, with the letter of its number: a … z, aa, ab …"""
    key = ""
    number += 1
    while number:
        number, rest = divmod(number - 1, 26)
        key = chr(ord("a") + rest) + key
    return Measure(
        key=key,
        part=part.title,
        name=line.name,
        axis=line.axis,
        cm=tuple(figure.extent.cm if figure.extent else None for figure in line.figures),
        inches=tuple(figure.extent.inches if figure.extent else None for figure in line.figures),
        count=tuple(figure.count for figure in line.figures),
        unit=line.unit,
        in_rounds=line.unit == "rows" and is_in_rounds(part),
    )


def list_lines(ruler: Ruler, part: WorkedPart) -> list[Line]:
    """The measures that a piece of its shape has, with what lies sideways on it."""
    body, band, sizes = split_part(ruler.pattern, part)
    lines = list_upright_lines(ruler, body)
    if band is not None:
        depth = measure_line(BAND[0], "depth", "sts", band, partial(measure_widest, ruler, band))
        length = measure_line(BAND[1], "length", "rows", band, partial(measure_length, ruler, band))
        return [*(lengthen(line, depth) for line in lines), depth, length]
    if sizes and sizes[0].sides:
        borders = [[add_heights(ruler, part, rows, is_border=True) for rows in size.sides] for size in sizes]
        return [widen(line, borders) for line in lines]
    return lines


def lengthen(line: Line, depth: Line) -> Line:
    """A length that begins at the lower edge of a band worked sideways."""
    if line.axis not in ("length", "depth") or line.name not in ("length", "depth"):
        return line
    figures = [
        Figure(own.extent + band.extent if own.extent and band.extent else None, own.count)
        for own, band in zip(line.figures, depth.figures, strict=True)
    ]
    return replace(line, figures=tuple(figures))


def widen(line: Line, borders: Sequence[Sequence[Extent | None]]) -> Line:
    """A full width with the rows along the sides of the piece; `borders` are the heights of each side, by size."""
    if line.name != "width":
        return line
    figures = []
    for own, sides in zip(line.figures, borders, strict=True):
        extent = own.extent
        for side in sides:
            extent = extent + side if extent and side else None
        figures.append(Figure(extent, own.count))
    return replace(line, figures=tuple(figures))


def list_upright_lines(ruler: Ruler, part: WorkedPart) -> list[Line]:
    """The measures of a piece whose rows lie one above the other."""
    if is_edging(part):
        return [measure_line("depth", "depth", "rows", part, partial(measure_length, ruler, part))]
    if is_in_rounds(part):
        return list_round_lines(ruler, part)
    return list_flat_lines(ruler, part)


def measure_line(
    name: str, axis: str, unit: str, part: WorkedPart, measure: Callable[[Sequence[WorkedRow]], Figure]
) -> Line:
    return Line(name, axis, unit, tuple(measure(rows) for rows in part.rows))


# Flat pieces


def list_flat_lines(ruler: Ruler, part: WorkedPart) -> list[Line]:
    """The widest row, the first and the last where they differ from it, and the length.

    Rounds that follow the rows go round the piece and add their height on both sides.
    """
    widest = partial(measure_widest, ruler, part)
    lines = [measure_line("width", "width", "sts", part, widest)]
    for name, at in (("width at the start", 0), ("width at the end", -1)):
        line = measure_line(name, "width", "sts", part, partial(measure_row_at, ruler, part, at=at))
        if any(figure.count != top.count for figure, top in zip(line.figures, lines[0].figures, strict=True)):
            lines.append(line)
    lines.append(measure_line("length", "length", "rows", part, partial(measure_length, ruler, part, sides=2)))
    opening = list_opening_lines(ruler, part)
    return [line for line in lines if line.name != "width at the end" or not opening] + opening


def list_opening_lines(ruler: Ruler, part: WorkedPart) -> list[Line]:
    """A piece that ends on both sides of an opening: each side, and how wide and deep the opening is."""
    side, wide, deep = NECK if any(holds_words(ruler.pattern.kind, word) for word in GARMENTS) else OPENING
    found = [measure_opening(ruler, part, rows) for rows in part.rows]
    if not all(found):
        return []
    names = ((side, "width", "sts"), (wide, "width", "sts"), (deep, "depth", "rows"))
    return [
        Line(name, axis, unit, tuple(figures[at] for figures in found)) for at, (name, axis, unit) in enumerate(names)
    ]


def measure_opening(ruler: Ruler, part: WorkedPart, rows: Sequence[WorkedRow]) -> tuple[Figure, ...]:
    """One side, the opening between, its depth; empty where the piece does not end so, or its sides differ."""
    opening = find_opening(rows)
    gauge = find_gauge(ruler.pattern, part, rows[-1]) if rows else None
    if opening is None or gauge is None or opening.first != opening.second:
        return ()
    return (
        Figure(measure_stitches(opening.first, gauge), opening.first),
        Figure(measure_stitches(opening.between, gauge), opening.between),
        Figure(add_heights(ruler, part, stack_rows(rows)[opening.start :]), opening.rows),
    )


def list_widths(ruler: Ruler, part: WorkedPart, rows: Sequence[WorkedRow]) -> list[Figure]:
    """The width of every row that tells one, in order."""
    sure: list[Figure] = []
    unsure: list[Figure] = []
    below = 0
    figures: dict[tuple[str, int], Figure] = {}  # a blanket has many rows of few widths
    for row in rows:
        width = count_width(row.fabric)
        gauge = find_gauge(ruler.pattern, part, row)
        if gauge is not None and is_row(row) and width:
            key = (gauge.name, width)
            if key not in figures:
                figures[key] = Figure(measure_stitches(width, gauge), width)
            (sure if width == below or fits_below(row.fabric) else unsure).append(figures[key])
        below = width
    return sure or unsure


def fits_below(fabric: Fabric) -> bool:
    """True where every chain space is as long as the stitches that it passes over."""
    reached: tuple[int, ...] = ()
    chains = 0
    for stitch in fabric.stitches:
        if stitch.kind == "ch":
            chains += max(1, fabric.sites[stitch.top].run) if stitch.top >= 0 else 1
            continue
        if stitch.kind == "sl st" and stitch.top < 0:  # leads to where the row begins, as over an underarm
            reached, chains = (), 0
            continue
        if not stitch.into or stitch.loop == "between":
            continue
        if chains and reached:
            passed = min(abs(at - before) for at in stitch.into for before in reached) - 1
            if passed != chains:
                return False
        reached, chains = stitch.into, 0
    return True


def measure_widest(ruler: Ruler, part: WorkedPart, rows: Sequence[WorkedRow]) -> Figure:
    flat, around = split_rounds(rows)
    widths = list_widths(ruler, part, flat)
    if not widths:
        return Figure(None, 0)
    widest = max(widths, key=lambda figure: figure.extent.cm if figure.extent else 0.0)
    border = add_heights(ruler, part, around, is_border=True)
    if widest.extent is None or border is None:
        return Figure(None, widest.count)
    return Figure(widest.extent + border.times(2), widest.count)


def measure_row_at(ruler: Ruler, part: WorkedPart, rows: Sequence[WorkedRow], at: int) -> Figure:
    """The width of the first (0) or last (-1) row that tells one."""
    flat, around = split_rounds(rows)
    widths = list_widths(ruler, part, flat)
    if not widths or around:  # under a border the first and last rows show no edge of their own
        return measure_widest(ruler, part, rows)
    return widths[at]


def measure_length(ruler: Ruler, part: WorkedPart, rows: Sequence[WorkedRow], sides: int = 1) -> Figure:
    """The rows on top of one another; rounds that follow rows count on so many `sides`."""
    flat, around = split_rounds(stack_rows(rows))
    heights = add_heights(ruler, part, flat)
    border = add_heights(ruler, part, around, is_border=True)
    count = sum(is_row(row) for row in flat) + sides * len(around)
    if heights is None or border is None:
        return Figure(None, count)
    return Figure(heights + border.times(sides), count)


def add_heights(ruler: Ruler, part: WorkedPart, rows: Sequence[WorkedRow], is_border: bool = False) -> Extent | None:
    """The heights of the rows together; None where a gauge counts no rows."""
    total = NOTHING
    for row in rows:
        height = measure_height(ruler, part, row, is_border or is_edging(part)) if is_row(row) else NOTHING
        if height is None:
            return None
        total += height
    return total


# Pieces in rounds


def list_round_lines(ruler: Ruler, part: WorkedPart) -> list[Line]:
    """A motif is measured across, a hat round, across its crown and down, a tube, a ball or a finger round and down."""
    around = measure_line("circumference", "circumference", "sts", part, partial(measure_round, ruler, part))
    length = partial(measure_length, ruler, part)
    if all(begins_as_oval(rows) for rows in part.rows):
        return list_oval_lines(ruler, part, around)
    starts = [starts_at_centre(part.rows[size]) for size in range(len(part.rows))]
    if not all(starts):
        return [around, measure_line("length", "length", "rows", part, length)]
    across = measure_line("width across", "width", "rows", part, partial(measure_across, ruler, part))
    if all(grows_to_its_edge(rows) for rows in part.rows):
        return [across]
    if not all(has_crown(rows) for rows in part.rows):
        return [around, measure_line("length", "length", "rows", part, length)]
    crown = Line("crown across", across.axis, across.unit, across.figures)
    return [around, crown, measure_line("depth", "depth", "rows", part, length)]


def list_oval_lines(ruler: Ruler, part: WorkedPart, around: Line) -> list[Line]:
    """An oval: how long and how wide; where sides stand on it, these are its base, and the sides have a depth."""
    long = measure_line("length", "width", "rows", part, partial(measure_along, ruler, part))
    across = measure_line("width across", "width", "rows", part, partial(measure_across, ruler, part))
    if not stands_on_oval(part):
        return [long, across]
    sides = measure_line("depth", "depth", "rows", part, lambda rows: measure_length(ruler, part, list_sides(rows)))
    return [around, replace(long, name="base length"), replace(across, name="base width"), sides]


def stands_on_oval(part: WorkedPart) -> bool:
    """A bag or a slipper: sides of three rounds and more over an oval."""
    rows = [size for size in part.rows if size]
    return all(begins_as_oval(size) and not grows_to_its_edge(size) for size in rows)


def measure_along(ruler: Ruler, part: WorkedPart, rows: Sequence[WorkedRow]) -> Figure:
    """An oval from end to end: its straight part and its rounds on both sides of that."""
    across = measure_across(ruler, part, rows)
    gauge = find_gauge(ruler.pattern, part, next(row for row in rows if is_row(row)))
    if across.extent is None or gauge is None:
        return Figure(None, across.count)
    return Figure(across.extent + measure_stitches(straight_part(rows), gauge), across.count)


def list_sides(rows: Sequence[WorkedRow]) -> list[WorkedRow]:
    """The rounds above the base."""
    return [row for row in rows if is_row(row)][count_growing(rows) :]


def measure_round(ruler: Ruler, part: WorkedPart, rows: Sequence[WorkedRow]) -> Figure:
    """The widest round."""
    widths = list_widths(ruler, part, rows)
    if not widths:
        return Figure(None, 0)
    return max(widths, key=lambda figure: figure.extent.cm if figure.extent else 0.0)


def measure_across(ruler: Ruler, part: WorkedPart, rows: Sequence[WorkedRow]) -> Figure:
    """From edge to edge through the centre, up to the last round that grows."""
    growing = [row for row in rows if is_row(row)][: count_growing(rows)]
    heights = add_heights(ruler, part, growing)
    return Figure(heights.times(2) if heights else None, len(growing))


def count_growing(rows: Sequence[WorkedRow]) -> int:
    """Rounds up to the one that first reaches the full width."""
    widths = list(iterate_widths(rows))
    return widths.index(max(widths)) + 1 if widths else 0


def has_crown(rows: Sequence[WorkedRow]) -> bool:
    """A flat top worth measuring: not the few rounds at the tip of a finger, nor half of a ball."""
    widths = [width for width in iterate_widths(rows) if width]
    if not widths or not starts_at_centre(rows):
        return False
    growing = widths.index(max(widths)) + 1
    return growing >= LEAST_CROWN * len(widths) and widths[-1] > MOST_CLOSED * max(widths)


def starts_at_centre(rows: Sequence[WorkedRow]) -> bool:
    widths = list(iterate_widths(rows))
    return bool(widths) and widths[0] <= MOST_STITCHES_AT_CENTRE and max(widths) >= 2 * widths[0]


def grows_to_its_edge(rows: Sequence[WorkedRow]) -> bool:
    """True for a flat motif: at most its last two rounds are plain, and none is narrower."""
    widths = list(iterate_widths(rows))
    return bool(widths) and widths[-1] == max(widths) and count_growing(rows) >= len(widths) - 2


def iterate_widths(rows: Sequence[WorkedRow]) -> Iterator[int]:
    return (width for row in rows if is_row(row) and (width := count_width(row.fabric)))


def is_in_rounds(part: WorkedPart) -> bool:
    kinds = {row.kind for rows in part.rows for row in rows if row.kind != "foundation"}
    return kinds == {"round"} or (part.in_rounds and "row" not in kinds)
