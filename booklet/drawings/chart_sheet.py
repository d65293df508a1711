"""Laid charts as plans in millimetres: symbols, row numbers with the way they are worked, repeats in brackets."""

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from booklet.drawings.chart_blocks import BlockChart
from booklet.drawings.chart_flat import LaidRow
from booklet.drawings.chart_glyphs import Glyph
from booklet.drawings.chart_marks import ChartRow, Repeated
from booklet.drawings.chart_repeat import AcrossRepeat
from booklet.drawings.chart_ring import LaidRound, RingShape
from booklet.drawings.chart_strokes import Scale, draw_symbols
from booklet.drawings.chart_wedge import Wedge
from booklet.drawings.chart_wedge_frame import frame_wedge
from booklet.drawings.faces import set_text
from booklet.drawings.picture import Ink
from booklet.drawings.plan import (
    Arrow,
    Box,
    Line,
    Plan,
    Point,
    Polyline,
    Rect,
    Shape,
    Text,
    bound_shapes,
    move_shape,
    overlap,
    shape_box,
)

WIDTH_MM, HEIGHT_MM = 150.0, 190.0  # of rounds, and of any chart
FULL_MM = 164.0  # the page, for rows with all that stands beside them
BRACKET_MM = 18.0
LARGEST_MM, LEAST_MM = 3.6, 1.75  # a stitch's width on paper
BACK_INK = "#6d7278"  # rows of the wrong side, every other round: grey that still reads on white
BAND = "#eef0f1"
ARROW_MM, BESIDE_MM = 3.6, 1.3
MARGIN_MM = 1.5
LINE_MM = 3.4
FURTHER_MM = 6.5
IN_WORDS = "in words"  # beside rows that were taken on trust


@dataclass(frozen=True, slots=True)
class Window:
    """What a part of a chart shows: symbols from `low` to `high`, with broken lines at `left` and `right`."""

    low: float
    high: float
    left: float
    right: float
    number: int
    count: int
    left_out: int = 0  # parts that are not shown


@dataclass(frozen=True, slots=True)
class FlatChart:
    """A chart of rows, ready to be drawn: its rows and symbols, cut where it is cut, and what repeats."""

    laid: tuple[LaidRow, ...]
    glyphs: tuple[Glyph, ...]
    repeats: tuple[Repeated, ...]
    across: AcrossRepeat | None
    shows_letters: bool = False
    window: Window | None = None
    stands_on_edge: bool = False
    wedge: Wedge | None = None  # of rounds too wide for a page, what is drawn of them

    def begins_here(self, row: int) -> bool:
        """Does this part show where the row begins?"""
        laid, window = self.laid[row], self.window
        start = laid.left if laid.direction > 0 else laid.right
        return window is None or window.low - 1.5 <= start < window.high + 1.5

    @property
    def hidden(self) -> float:
        return self.across.hidden if self.across else 0.0

    def ends(self, row: int) -> tuple[float, float]:
        """Left and right of what is drawn of a row."""
        xs = [x for glyph in self.glyphs if glyph.row == row for x, _ in (*glyph.feet, glyph.head)]
        if not xs and self.laid[row].row.blank:
            left, right = self.laid[row].left + 0.5, self.laid[row].right - 0.5 - self.hidden
            return (max(left, self.window.low), min(right, self.window.high)) if self.window else (left, right)
        return (min(xs), max(xs)) if xs else (0.0, 0.0)


@dataclass(frozen=True, slots=True)
class RoundChart:
    """A chart of rounds; `turns` is how often each round repeats itself, 0 where it does not."""

    laid: tuple[LaidRound, ...]
    glyphs: tuple[Glyph, ...]
    repeats: tuple[Repeated, ...]
    turns: int = 0
    shape: RingShape = RingShape()

    @property
    def is_oval(self) -> bool:
        return self.shape.half > 0


def _finish(shapes: Sequence[Shape]) -> Plan:
    """The shapes on a sheet just large enough."""
    left, top, right, bottom = bound_shapes(shapes)
    moved = tuple(move_shape(shape, MARGIN_MM - left, MARGIN_MM - top) for shape in shapes)
    return Plan(right - left + 2 * MARGIN_MM, bottom - top + 2 * MARGIN_MM, moved)


def _inks(rows: Sequence[ChartRow], ink: Ink) -> list[str]:
    """Rows of the wrong side in grey; where no row has a side, every other one."""
    has_sides = any(row.row.side == "WS" and row.row.kind == "row" for row in rows)
    inks = []
    for index, row in enumerate(rows):
        if row.row.kind == "foundation":
            inks.append(BACK_INK)
        elif has_sides:
            inks.append(BACK_INK if row.row.side == "WS" else ink.text)
        else:
            inks.append(ink.text if index % 2 else BACK_INK)
    return inks


def fit_flat(chart: FlatChart) -> float:
    """Millimetres to a stitch at which the chart fits the page's width; less than LEAST_MM where it is too wide."""
    ends = [chart.ends(row) for row in {glyph.row for glyph in chart.glyphs}]
    width = max(right for _, right in ends) - min(left for left, _ in ends) + 2.0
    beside = 2 * (ARROW_MM + BESIDE_MM + 7.0) + (BRACKET_MM if chart.repeats else 0.0)
    return min(LARGEST_MM, (FULL_MM - beside) / width)


def flat_height(chart: FlatChart, unit: float) -> float:
    """The chart's height on paper at that scale."""
    return (max(row.line for row in chart.laid) + 3.0) * unit + 12.0


def plan_flat(chart: FlatChart, ink: Ink, is_mirrored: bool = False) -> Plan:
    """The chart of rows as a plan; raises NoFontError where numbers cannot be set."""
    unit = max(fit_flat(chart), LEAST_MM * 0.6)
    scale = Scale(unit, is_mirrored)
    rows = [laid.row for laid in chart.laid]
    shapes = draw_symbols(chart.glyphs, scale, _inks(rows, ink))
    labels: list[Shape] = []
    ends = [chart.ends(index) for index in range(len(rows))]
    for index in range(len(rows)):
        if rows[index].row.kind != "foundation" and chart.begins_here(index):
            label = _label_row(chart, index, ends, scale, ink)
            if _meets(label, labels):  # low rows: every other number stands further out
                label = _label_row(chart, index, ends, scale, ink, FURTHER_MM)
            labels += label
    under = [
        shape for index in range(len(rows)) if rows[index].blank for shape in _frame_blank(chart, index, scale, ink)
    ]
    if chart.across and (chart.across.width > 1.5 or chart.across.hidden):
        band, bracket = _bracket_across(chart, scale, ink)
        under.insert(0, band)
        labels += bracket
    if chart.stands_on_edge:
        left, right = ends[0]
        under.append(Line(scale.at((left - 0.5, -0.1)), scale.at((right + 0.5, -0.1)), 0.5, ink.line))
    if chart.wedge:
        labels += frame_wedge(chart.laid, chart.wedge, ends, scale, ink)
    everything = [*under, *shapes, *labels, *_draw_breaks(chart, scale, ink)]
    beside = bound_shapes(everything)[2] + 2.0
    brackets = [shape for repeated in chart.repeats for shape in _bracket_rows(chart, repeated, beside, scale, ink)]
    return _finish([*everything, *brackets])


def _frame_blank(chart: FlatChart, index: int, scale: Scale, ink: Ink) -> list[Shape]:
    """A broken frame for rows that are in words alone, with a word that says so."""
    laid, (left, right) = chart.laid[index], chart.ends(index)
    (x0, y0), (x1, y1) = scale.at((left - 0.4, laid.base + 0.25)), scale.at((right + 0.4, laid.line - 0.05))
    corners = [(x0, y0), (x1, y0), (x1, y1), (x0, y1), (x0, y0)]
    shapes: list[Shape] = [Line(start, end, 0.25, ink.accent, dash=1.0) for start, end in pairwise(corners)]
    text = set_text(ink, IN_WORDS, points=max(4.5, min(7.0, scale.unit * 2.6)), colour=ink.accent)
    if text.width < abs(x1 - x0) - 1:
        shapes.append(move_shape(text, (x0 + x1) / 2, (y0 + y1) / 2))
    return shapes


def _draw_breaks(chart: FlatChart, scale: Scale, ink: Ink) -> list[Shape]:
    """The broken lines at which a part goes on in the next one, with that one's number."""
    window = chart.window
    if window is None:
        return []
    low, high = min(laid.base for laid in chart.laid) - 0.5, max(laid.line for laid in chart.laid) + 0.8
    shapes: list[Shape] = []
    for x, is_there, part in (
        (window.left, window.number > 1, window.number - 1),
        (window.right, window.number < window.count, window.number + 1),
    ):
        if is_there:
            start, end = scale.at((x, low)), scale.at((x, high))
            text = set_text(ink, f"part {part}", points=7, colour=ink.accent)
            shapes += [
                Line(start, end, 0.3, ink.accent, dash=1.2),
                move_shape(text, end[0], end[1] - 1.2 - text.height / 2),
            ]
    return shapes


def _meets(label: Sequence[Shape], others: Sequence[Shape]) -> bool:
    """Does a word of the label lie on one of the last labels?"""
    words = [shape_box(shape) for shape in label if isinstance(shape, Text)]
    near = [shape_box(shape) for shape in others[-16:] if isinstance(shape, Text)]
    return any(overlap(word, other, 0.1) for word in words for other in near)


def _label_row(
    chart: FlatChart, index: int, ends: Sequence[Point], scale: Scale, ink: Ink, further: float = 0.0
) -> list[Shape]:
    """The number where the row begins, `further` out than usual, and an arrow the way it goes."""
    laid = chart.laid[index]
    side = -laid.direction
    own = ends[index][1] if side > 0 else ends[index][0]
    if index and chart.laid[index - 1].row.row.kind == "foundation":  # its last chain may stand beside the first row
        own = max(own, ends[index - 1][1]) if side > 0 else min(own, ends[index - 1][0])
    all_ends = [(right if side > 0 else left) for row, (left, right) in enumerate(ends) if abs(row - index) < 8]
    far = max(all_ends) if side > 0 else min(all_ends)
    edge = far if abs(far - own) < 3.5 else own
    clear = 1.2 if chart.wedge and not chart.wedge.turns else 0.45  # of the line at which a wedge is cut
    x, y = scale.at((edge + side * clear, laid.base + min(0.5, (laid.line - laid.base) / 2)))
    side = -side if scale.is_mirrored else side
    start = x + side * (BESIDE_MM + ARROW_MM + further)
    tip = x + side * BESIDE_MM
    colour = BACK_INK if laid.row.row.side == "WS" and laid.row.row.kind == "row" else ink.text
    shapes: list[Shape] = [
        Line((start, y), (tip + side * 1.2, y), 0.22, colour),
        Arrow((tip, y), (-float(side), 0.0), colour, 1.7, 1.2),
    ]
    number = set_text(ink, laid.row.name, points=7.5, bold=True, colour=colour)
    words = [number]
    letters = laid.row.letters
    if chart.shows_letters and len(letters) == 1:
        words.append(set_text(ink, letters[0], points=7.5, colour=colour))
    at = start + side * 0.9
    for text in words:
        shapes.append(move_shape(text, at + side * text.width / 2, y))
        at += side * (text.width + 1.0)
    return shapes


def _bracket_across(chart: FlatChart, scale: Scale, ink: Ink) -> tuple[Shape, list[Shape]]:
    """A pale band over one repeat, and below it a bracket that says how wide it is."""
    across = chart.across
    assert across is not None
    low = min(min(y for _, y in (*glyph.feet, glyph.head)) for glyph in chart.glyphs) - 0.5
    high = max(max(y for _, y in (*glyph.feet, glyph.head)) for glyph in chart.glyphs) + 0.4
    first, last = scale.at((across.marked, low)), scale.at((across.marked + across.width, high))
    left, right = min(first[0], last[0]), max(first[0], last[0])
    band = Rect(left, last[1], right - left, first[1] - last[1], BAND)
    y = first[1] + 0.8
    words = f"repeat: {across.stitches} st{'s' if across.stitches != 1 else ''}"
    text = set_text(ink, words, points=7.5, colour=ink.accent)
    shapes: list[Shape] = [
        Polyline(((left, y), (left, y + 1.6), (right, y + 1.6), (right, y)), 0.3, ink.accent),
        move_shape(text, (left + right) / 2, y + 3.0 + text.height / 2),
    ]
    return band, shapes


def _bracket_rows(chart: FlatChart, repeated: Repeated, x: float, scale: Scale, ink: Ink) -> list[Shape]:
    """A bracket at `x`, beside everything else, along rows that are worked again."""
    first, last = chart.laid[repeated.first], chart.laid[repeated.first + repeated.count - 1]
    _, bottom = scale.at((0.0, first.base + 0.1))
    _, top = scale.at((0.0, last.line - 0.1))
    shapes: list[Shape] = [Polyline(((x, top), (x + 1.4, top), (x + 1.4, bottom), (x, bottom)), 0.3, ink.accent)]
    lines = [f"{repeated.times} times", f"to {repeated.until}"]
    if bottom - top < 2 * LINE_MM:  # beside a single row there is room for one line
        lines = [" ".join(lines)]
    y = (top + bottom) / 2 - LINE_MM * len(lines) / 2
    for number, line in enumerate(lines):
        text = set_text(ink, line, points=7, colour=ink.accent)
        shapes.append(move_shape(text, x + 2.6 + text.width / 2, y + LINE_MM * (number + 0.5)))
    return shapes


def fit_rounds(chart: RoundChart) -> float:
    """Millimetres to a stitch at which the rounds fit the page's width."""
    reach = max(laid.reach for laid in chart.laid) + (2.4 if chart.turns else 1.0)
    return min(LARGEST_MM, WIDTH_MM / 2 / reach)


def plan_rounds(chart: RoundChart, ink: Ink, is_mirrored: bool = False) -> Plan:
    """The chart of rounds as a plan; raises NoFontError where numbers cannot be set."""
    unit = fit_rounds(chart)
    scale = Scale(unit, is_mirrored)
    rows = [laid.row for laid in chart.laid]
    inks = _inks(rows, ink)
    shapes: list[Shape] = []
    if rows[0].row.kind != "foundation":
        shapes.append(_ring(scale, inks[0]))
    shapes += draw_symbols(chart.glyphs, scale, inks)
    for before, laid in pairwise(chart.laid):
        shapes += _ring_blank(before, laid, chart, scale, ink) if laid.row.blank else []
    for laid, colour in zip(chart.laid, inks, strict=True):
        if laid.row.row.kind != "foundation":
            points = max(4.5, min(8.0, unit * 2.1))
            text = set_text(ink, laid.row.name, points=points, bold=True, colour=colour)
            shapes.append(_find_room(text, scale.at(laid.label), shapes, unit))
    if chart.turns:
        shapes += _bracket_round(chart, scale, ink)
    return _finish(shapes)


def fit_blocks(chart: BlockChart) -> float:
    """Millimetres to a stitch at which the blocks fit the page."""
    left, low, right, high = _bound_glyphs(chart.glyphs)
    return min(LARGEST_MM, WIDTH_MM / (right - left + 5.0), HEIGHT_MM / (high - low + 5.0))


def _bound_glyphs(glyphs: Sequence[Glyph]) -> Box:
    xs, ys = zip(*(point for glyph in glyphs for point in (*glyph.feet, glyph.head)), strict=True)
    return min(xs), min(ys), max(xs), max(ys)


def plan_blocks(chart: BlockChart, ink: Ink, is_mirrored: bool = False) -> Plan:
    """The chart of blocks as a plan; raises NoFontError where numbers cannot be set."""
    unit = fit_blocks(chart)
    scale = Scale(unit, is_mirrored)
    inks = _inks([laid.row for laid in chart.laid], ink)
    shapes = draw_symbols(chart.glyphs, scale, inks)
    for laid, colour in zip(chart.laid, inks, strict=True):
        text = set_text(ink, laid.row.name, points=max(5.5, min(8.0, unit * 2.4)), bold=True, colour=colour)
        shapes.append(_find_room(text, scale.at(laid.label), shapes, unit))
    return _finish(shapes)


def _find_room(text: Text, wanted: Point, shapes: Sequence[Shape], unit: float) -> Shape:
    """The number as near to where it belongs as nothing else is drawn."""
    boxes = [box for shape in shapes if math.dist(_middle(box := shape_box(shape)), wanted) < 5 * unit]
    tried: list[tuple[float, float, Shape]] = []
    for ring in range(8):
        for step in range(1 if ring == 0 else 12):
            angle, far = math.tau * step / 12, ring * 0.22 * unit
            moved = move_shape(text, wanted[0] + far * math.cos(angle), wanted[1] + far * math.sin(angle))
            box = shape_box(moved)
            met = sum(_shared_area(box, other) for other in boxes)
            if met == 0:
                return moved
            tried.append((met + far * 0.05, far, moved))
    return min(tried, key=lambda item: item[:2])[2]


def _middle(box: Box) -> Point:
    return (box[0] + box[2]) / 2, (box[1] + box[3]) / 2


def _shared_area(first: Box, second: Box) -> float:
    across = min(first[2], second[2]) - max(first[0], second[0])
    down = min(first[3], second[3]) - max(first[1], second[1])
    return max(0.0, across) * max(0.0, down)


def _ring(scale: Scale, colour: str) -> Shape:
    """A ring made of yarn alone."""
    points = [(0.5 * math.cos(math.tau * step / 32), 0.5 * math.sin(math.tau * step / 32)) for step in range(32)]
    return Polyline(tuple(scale.at(point) for point in points), 0.22, colour, closed=True)


def _ring_blank(before: LaidRound, laid: LaidRound, chart: RoundChart, scale: Scale, ink: Ink) -> list[Shape]:
    """Broken rings for rounds that are in words alone."""
    shape = replace(chart.shape, sides=laid.sides)
    shapes: list[Shape] = []
    for radius in (before.radius + 0.35, laid.radius - 0.1):
        points = [scale.at(shape.point(step / 120, radius)) for step in range(121)]
        shapes += [Polyline(tuple(points[at : at + 2]), 0.25, ink.accent) for at in range(0, 120, 2)]
    return shapes


def _bracket_round(chart: RoundChart, scale: Scale, ink: Ink) -> list[Shape]:
    """A line outside the last round over one of its repeats, with how many there are."""
    last = chart.laid[-1]
    shape = RingShape(last.sides, -0.5 / last.sides if last.sides else 0.0)
    outside = last.radius if last.sides else last.reach
    label = math.atan2(last.label[1], last.label[0])
    start = 0.5 / last.sides if last.sides else (label + math.pi / 2) / math.tau
    shares = [start + step / 40 / chart.turns for step in range(41)]
    line = [shape.point(share, outside + 0.9) for share in shares]
    ends = [shape.point(share, outside + 0.45) for share in (shares[0], shares[-1])]
    text = set_text(ink, f"1 of {chart.turns} repeats", points=7.5, colour=ink.accent)
    x, y = scale.at(shape.point(shares[20], outside + 0.9))
    reach = math.hypot(x, y) or 1.0
    out = (abs(x) * text.width + abs(y) * text.height) / reach / 2 + 1.2
    moved = move_shape(text, x + x / reach * out, y + y / reach * out)
    return [Polyline(tuple(scale.at(point) for point in (ends[0], *line, ends[1])), 0.3, ink.accent), moved]
