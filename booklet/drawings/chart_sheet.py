"""Laid charts as plans in millimetres: symbols, row numbers with the way they are worked, repeats in brackets."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from booklet.drawings.chart_feet import draw_feet
from booklet.drawings.chart_flat import LaidRow
from booklet.drawings.chart_glyphs import Glyph
from booklet.drawings.chart_marks import ChartRow, Repeated
from booklet.drawings.chart_repeat import AcrossRepeat
from booklet.drawings.chart_ring import LaidRound, RingShape
from booklet.drawings.faces import set_text
from booklet.drawings.picture import Ink
from booklet.drawings.plan import (
    Area,
    Arrow,
    Box,
    Line,
    Plan,
    Point,
    Polyline,
    Rect,
    Shape,
    Symbol,
    Text,
    bound_shapes,
    move_shape,
    overlap,
    shape_box,
)
from booklet.drawings.symbols import Pen, draw_look

WIDTH_MM, HEIGHT_MM = 150.0, 190.0  # of rounds, and of any chart
FULL_MM = 164.0  # the page, for rows with all that stands beside them
BRACKET_MM = 18.0
LARGEST_MM, LEAST_MM = 3.6, 1.75  # a stitch's width on paper
WEIGHT = 0.075  # of a line, in stitch widths
BACK_INK = "#6d7278"  # rows of the wrong side, every other round: grey that still reads on white
BAND = "#eef0f1"
ARROW_MM, BESIDE_MM = 3.6, 1.3
MARGIN_MM = 1.5
LINE_MM = 3.4
FURTHER_MM = 6.5


@dataclass(frozen=True, slots=True)
class Window:
    """What a part of a chart shows: symbols from `low` to `high`, with broken lines at `left` and `right`."""

    low: float
    high: float
    left: float
    right: float
    number: int
    count: int


@dataclass(frozen=True, slots=True)
class FlatChart:
    """A chart of rows, ready to be drawn: its rows and symbols, cut where it is cut, and what repeats."""

    laid: tuple[LaidRow, ...]
    glyphs: tuple[Glyph, ...]
    repeats: tuple[Repeated, ...]
    across: AcrossRepeat | None
    shows_letters: bool = False
    window: Window | None = None

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
        return (min(xs), max(xs)) if xs else (0.0, 0.0)


@dataclass(frozen=True, slots=True)
class RoundChart:
    """A chart of rounds; `turns` is how often each round repeats itself, 0 where it does not."""

    laid: tuple[LaidRound, ...]
    glyphs: tuple[Glyph, ...]
    repeats: tuple[Repeated, ...]
    turns: int = 0
    is_oval: bool = False


@dataclass(frozen=True, slots=True)
class _Scale:
    """From stitch widths with y upwards to millimetres with y downwards; mirrored for left-handed makers."""

    unit: float
    is_mirrored: bool = False

    def at(self, point: Point) -> Point:
        x = -point[0] if self.is_mirrored else point[0]
        return x * self.unit, -point[1] * self.unit


def draw_symbols(glyphs: Sequence[Glyph], scale: _Scale, inks: Sequence[str]) -> list[Shape]:
    """One symbol a glyph; `inks` by the number of its row."""
    weight = max(0.16, min(0.28, WEIGHT * scale.unit))
    return [_draw_symbol(glyph, scale, inks[glyph.row], weight) for glyph in glyphs]


def _draw_symbol(glyph: Glyph, scale: _Scale, ink: str, weight: float) -> Symbol:
    sign = -1.0 if scale.is_mirrored else 1.0
    pen = Pen(weight, ink)
    feet: Sequence[Point] = [(x * sign, -y) for x, y in glyph.feet]
    head = (glyph.head[0] * sign, -glyph.head[1])
    if glyph.loop or glyph.deep:
        feet = draw_feet(glyph.loop, feet, head, (glyph.deep[0] * sign, -glyph.deep[1]) if glyph.deep else None, pen)
    draw_look(glyph.look, feet, head, glyph.width, pen)
    unit = scale.unit
    strokes: list[Polyline | Area] = []
    for stroke in pen.strokes:
        if isinstance(stroke, Polyline):
            points = tuple((x * unit, y * unit) for x, y in stroke.points)
            strokes.append(Polyline(points, stroke.width, stroke.colour, stroke.closed))
        else:
            polygons = tuple(tuple((x * unit, y * unit) for x, y in polygon) for polygon in stroke.polygons)
            strokes.append(Area(polygons, stroke.fill))
    return Symbol(glyph.kind, glyph.row, tuple(strokes))


def draw_single(glyph: Glyph, unit: float, ink: Ink) -> Plan:
    """One symbol by itself, for the key: in a box of one size whatever its own."""
    shape = _draw_symbol(glyph, _Scale(unit), ink.text, WEIGHT * unit)
    left, top, right, bottom = bound_shapes([shape])
    width, height = max(11.0, right - left + 2), max(11.0, bottom - top + 2)
    moved = move_shape(shape, (width - right - left) / 2, (height - bottom - top) / 2)
    return Plan(width, height, (moved,))


def _finish(shapes: Sequence[Shape]) -> Plan:
    """The shapes on a sheet just large enough."""
    left, top, right, bottom = bound_shapes(shapes)
    moved = tuple(move_shape(shape, MARGIN_MM - left, MARGIN_MM - top) for shape in shapes)
    return Plan(right - left + 2 * MARGIN_MM, bottom - top + 2 * MARGIN_MM, moved)


def _inks(rows: Sequence[ChartRow], ink: Ink) -> list[str]:
    """Rows of the wrong side in grey; where no row has a side, every other one."""
    has_sides = any(row.row.side == "WS" for row in rows)
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
    scale = _Scale(unit, is_mirrored)
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
    under: list[Shape] = []
    if chart.across and (chart.across.width > 1.5 or chart.across.hidden):
        band, bracket = _bracket_across(chart, scale, ink)
        under.append(band)
        labels += bracket
    everything = [*under, *shapes, *labels, *_draw_breaks(chart, scale, ink)]
    beside = bound_shapes(everything)[2] + 2.0
    brackets = [shape for repeated in chart.repeats for shape in _bracket_rows(chart, repeated, beside, scale, ink)]
    return _finish([*everything, *brackets])


def _draw_breaks(chart: FlatChart, scale: _Scale, ink: Ink) -> list[Shape]:
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
    chart: FlatChart, index: int, ends: Sequence[Point], scale: _Scale, ink: Ink, further: float = 0.0
) -> list[Shape]:
    """The number where the row begins, `further` out than usual, and an arrow the way it goes."""
    laid = chart.laid[index]
    side = -laid.direction
    own = ends[index][1] if side > 0 else ends[index][0]
    all_ends = [(right if side > 0 else left) for row, (left, right) in enumerate(ends) if abs(row - index) < 8]
    far = max(all_ends) if side > 0 else min(all_ends)
    edge = far if abs(far - own) < 3.5 else own
    x, y = scale.at((edge + side * 0.45, laid.base + min(0.5, (laid.line - laid.base) / 2)))
    side = -side if scale.is_mirrored else side
    start = x + side * (BESIDE_MM + ARROW_MM + further)
    tip = x + side * BESIDE_MM
    colour = BACK_INK if laid.row.row.side == "WS" else ink.text
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


def _bracket_across(chart: FlatChart, scale: _Scale, ink: Ink) -> tuple[Shape, list[Shape]]:
    """A pale band over one repeat, and below it a bracket that says how wide it is."""
    across = chart.across
    assert across is not None
    low = min(min(y for _, y in (*glyph.feet, glyph.head)) for glyph in chart.glyphs) - 0.5
    high = max(max(y for _, y in (*glyph.feet, glyph.head)) for glyph in chart.glyphs) + 0.4
    first, last = scale.at((across.start, low)), scale.at((across.start + across.width, high))
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


def _bracket_rows(chart: FlatChart, repeated: Repeated, x: float, scale: _Scale, ink: Ink) -> list[Shape]:
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
    scale = _Scale(unit, is_mirrored)
    rows = [laid.row for laid in chart.laid]
    inks = _inks(rows, ink)
    shapes: list[Shape] = []
    if rows[0].row.kind != "foundation":
        shapes.append(_ring(scale, inks[0]))
    shapes += draw_symbols(chart.glyphs, scale, inks)
    for laid, colour in zip(chart.laid, inks, strict=True):
        if laid.row.row.kind != "foundation":
            points = max(4.5, min(8.0, unit * 2.1))
            text = set_text(ink, laid.row.name, points=points, bold=True, colour=colour)
            shapes.append(_find_room(text, scale.at(laid.label), shapes, unit))
    if chart.turns:
        shapes += _bracket_round(chart, scale, ink)
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


def _ring(scale: _Scale, colour: str) -> Shape:
    """A ring made of yarn alone."""
    points = [(0.5 * math.cos(math.tau * step / 32), 0.5 * math.sin(math.tau * step / 32)) for step in range(32)]
    return Polyline(tuple(scale.at(point) for point in points), 0.22, colour, closed=True)


def _bracket_round(chart: RoundChart, scale: _Scale, ink: Ink) -> list[Shape]:
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
