"""The schematic: every piece to scale with its measures, its colour panels and its direction of work.

It shows one size; letters lead to the table of all sizes.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from booklet.amounts.figures import print_number
from booklet.drawings.areas import border_lines, find_areas, has_panels, run_polygon
from booklet.drawings.arrangement import Placing, arrange_pieces
from booklet.drawings.dimensions import HEAD, draw_level, draw_upright
from booklet.drawings.faces import set_text, shorten
from booklet.drawings.lay import Lay
from booklet.drawings.measured import Dimension, place_measures, write_measure
from booklet.drawings.picture import Ink
from booklet.drawings.pieces import CROWN
from booklet.drawings.plan import Arc, Area, Arrow, Line, Plan, Polyline, Rect, Shape, bound_shapes, move_shape
from booklet.drawings.seam_legend import draw_legend, measure_legend
from booklet.drawings.seam_marks import Making, draw_marks
from booklet.drawings.sideways import BAND_START
from booklet.drawings.spots import find_spot
from booklet.drawings.stairs import smooth_outline
from booklet.model.amounts import Measure

FOOT_MM = 10.0  # for the scale bar
TITLE_MM = 70.0  # a longer title is cut: the pages print it whole
TIER_MM = 6.5  # from one dimension line to the next
FILL = "#f3f3f1"
MOST_TAGS = 40  # a piece of more colour areas is shown by the colour plan alone


@dataclass(frozen=True, slots=True)
class Sheet:
    """What the schematic is drawn from; `size` is the number of the size that is drawn, of `sizes`.

    `crowns` are the pieces whose crown is drawn from above besides. With `shows_values` the
    figures stand beside the letters wherever they fit.
    """

    measures: Sequence[Measure]
    size: int
    sizes: Sequence[str]
    ink: Ink
    crowns: frozenset[str] = frozenset()
    shows_values: bool = False
    width: float = 168.0  # mm
    height: float = 165.0
    making: Making = Making()


def plan_schematic(pieces: Sequence[Lay], sheet: Sheet) -> Plan:
    """The plan of all pieces; raises NoFontError where words cannot be set."""
    making = sheet.making.of(pieces)
    legend = measure_legend(pieces, making, sheet.ink, sheet.width)
    plan, scale = arrange_pieces(
        pieces, lambda placing: _draw_piece(placing, sheet), sheet.width, sheet.height, FOOT_MM + legend
    )
    left = bound_shapes(plan.shapes)[0]
    foot = _draw_scale(plan, plan.height - legend, scale, sheet.ink, all(piece.is_to_scale for piece in pieces))
    told = draw_legend(pieces, making, sheet.ink, sheet.width, left, plan.height - legend - 1.0)
    return Plan(plan.width, plan.height, (*plan.shapes, *foot, *told))


def measures_of(piece: Lay, measures: Sequence[Measure], crowns: frozenset[str]) -> list[Measure]:
    """The measures that belong to a piece's drawing; a crown from above has that across it alone."""
    own = [measure for measure in measures if measure.part in piece.parts]
    across = [measure for measure in own if measure.axis == "width" and measure.unit == "rows"]
    if piece.shape == CROWN:
        return across
    if piece.shape == "dome" and piece.title in crowns:
        return [measure for measure in own if measure not in across]
    return own


def _draw_piece(placing: Placing, sheet: Sheet) -> list[Shape]:
    piece, ink = placing.piece, sheet.ink
    corners = smooth_outline(piece)
    outline = tuple(placing.at(point) for point in corners)
    shapes: list[Shape] = [Area((outline,), FILL)]
    shapes += _draw_colours(placing, ink)
    shapes.append(Polyline(outline, 0.45, ink.line, closed=True))
    shapes += _draw_border(placing, ink)
    shapes += _draw_seams(placing, ink)
    shapes += _draw_start(placing, ink)
    shapes += _draw_direction(placing, ink)
    own = measures_of(piece, sheet.measures, sheet.crowns)
    placed, named = place_measures(piece, own, sheet.size)
    shapes += _draw_dimensions(placing, placed, sheet)
    shapes += draw_marks(placing, corners, sheet.making, ink, shapes)
    shapes += _draw_title(shapes, placing, named, sheet)
    return shapes


def _draw_colours(placing: Placing, ink: Ink) -> list[Shape]:
    """Borders of colour panels, and a tag with the letter of each."""
    bands = placing.piece.all_bands
    if placing.is_trial or not has_panels(bands) or any(band.shown for band in bands):
        return []  # the colour plan alone shows mosaic
    areas = find_areas(bands)
    if len(areas) > MOST_TAGS:
        return []
    shapes: list[Shape] = [
        Polyline(tuple(placing.at(point) for point in line), 0.2, ink.faint) for line in border_lines(bands)
    ]
    for area in areas:
        polygons = [tuple(placing.at(p) for p in run_polygon(bands[index], run)) for index, run in area.runs]
        text = set_text(ink, area.letter, points=8, bold=True, colour="#ffffff")
        width = max(4.2, text.width + 2)
        spot = find_spot(polygons, width + 0.8) if area.letter else None
        if spot:
            x, y = spot
            shapes.append(Rect(x - width / 2, y - 2.1, width, 4.2, ink.line, radius=1.0))
            shapes.append(move_shape(text, x, y))
    return shapes


def _draw_border(placing: Placing, ink: Ink) -> list[Shape]:
    """The line between a piece and the border worked round it."""
    if not placing.piece.border:
        return []
    inner = placing.piece.border[0].base
    corners = [inner.point(share) for share in inner.corners(0.0, 1.0)[:-1]]
    return [Polyline(tuple(placing.at(corner) for corner in corners), 0.25, ink.line, closed=True)]


def _draw_seams(placing: Placing, ink: Ink) -> list[Shape]:
    """The edges along which rows were taken up across others."""
    piece = placing.piece
    if piece.start == BAND_START:
        edges = [piece.bands[0].base]
    else:
        left, _, right, _ = piece.own_box
        inner = {band.base.point(0)[0]: band.base for band in piece.across if left < band.base.point(0)[0] < right}
        body = {point[0] for band in piece.bands for point in (band.base.point(0), band.base.point(1))}
        edges = [edge for x, edge in inner.items() if min(body) == x or max(body) == x]
    return [Line(placing.at(edge.point(0)), placing.at(edge.point(1)), 0.25, ink.line) for edge in edges]


def _is_round(piece: Lay) -> bool:
    return piece.bands[0].top.closed


def _draw_start(placing: Placing, ink: Ink) -> list[Shape]:
    """Where the work begins, in words."""
    piece = placing.piece
    if piece.shape == CROWN:
        return []
    if _is_round(piece):
        x, y = placing.at((0.0, 0.0))
        dot = Arc((x, y), 0.8, 0, 360, 0.35, ink.accent)
        text = set_text(ink, "start", points=7.5, colour=ink.accent)
        if piece.height * placing.scale < 16:
            return [dot]
        return [dot, move_shape(text, x, y + 3.4)]
    text = set_text(ink, piece.start, points=7.5, colour=ink.accent)
    if piece.start == BAND_START:
        edge = piece.across[0].base
        (left, top), (_, bottom) = placing.at(edge.point(0)), placing.at(edge.point(1))
        line = Line((left, top), (left, bottom), 0.7, ink.accent)
        return [line, move_shape(text, left + 2.5 + text.width / 2, (top + bottom) / 2)]
    edge = piece.bands[0].base
    (left, y), (right, _) = placing.at(edge.point(0)), placing.at(edge.point(1))
    away = 1 if piece.goes_up and not piece.border else -1
    shapes: list[Shape] = []
    if right - left > 0.5:
        shapes.append(Line((left, y), (right, y), 0.7, ink.accent))
    if right - left < text.width + 5 and away > 0:
        beside = right + 3
        if beside + text.width > placing.width - 2:  # clear of the extension lines at the piece's ends
            beside = placing.width + 3
        return [*shapes, move_shape(text, beside + text.width / 2, y + 0.3 + text.height / 2)]
    return [*shapes, move_shape(text, (left + right) / 2, y + away * (1.4 + text.height / 2))]


def _draw_direction(placing: Placing, ink: Ink) -> list[Shape]:
    """An arrow along the way the work grows, with words; round the outside for a motif."""
    piece, height = placing.piece, placing.height
    text = set_text(ink, "direction of work", points=7.5, colour=ink.accent)
    if _is_round(piece):
        return [] if piece.shape == CROWN else _draw_turning(placing, ink)
    x = placing.width + 4.5
    half = max(4.0, min(height * 0.35, 18.0))
    middle = min(height / 2, height - half)  # beside a low piece the arrow rises above it, clear of what lies below
    tip, tail = (middle - half, middle + half) if piece.goes_up else (middle + half, middle - half)
    toward = 1 if tip > tail else -1
    arrow: list[Shape] = [
        Line((x, tail), (x, tip - toward * HEAD), 0.4, ink.accent),
        Arrow((x, tip), (0.0, float(toward)), ink.accent, length=3.0, breadth=1.7),
    ]
    if height >= text.width:
        upright = set_text(ink, "direction of work", points=7.5, colour=ink.accent, upright=True)
        return [*arrow, move_shape(upright, x + 3.4, height / 2)]
    return [*arrow, move_shape(text, x + 2.5 + text.width / 2, min(height / 2, height - 1.6))]


def _draw_turning(placing: Placing, ink: Ink) -> list[Shape]:
    """A curved arrow on the left, counter-clockwise as rounds go."""
    centre = placing.at((0.0, 0.0))
    radius = placing.width / 2 + 3.5
    middle, half = 180.0, min(28.0, math.degrees(11.0 / radius))
    end = math.radians(middle - half)
    tip = (centre[0] + radius * math.cos(end), centre[1] + radius * math.sin(end))
    heading = (math.sin(end), -math.cos(end))
    shapes: list[Shape] = [
        Arc(centre, radius, middle - half + 3, middle + half, 0.4, ink.accent),
        Arrow(tip, heading, ink.accent, length=3.0, breadth=1.7),
    ]
    text = set_text(ink, "direction of work", points=7.5, colour=ink.accent, upright=True)
    return [*shapes, move_shape(text, centre[0] - radius - 3.2, centre[1])]


def _draw_dimensions(placing: Placing, placed: Sequence[Dimension], sheet: Sheet) -> list[Shape]:
    """Dimension lines in tiers, shortest nearest to the piece."""
    shapes: list[Shape] = []
    label_room = 4.0 if not _is_round(placing.piece) else 0.0
    tiers = {"below": 5.5, "above": 5.5, "left": 7.0}
    tiers["below" if placing.piece.goes_up else "above"] += label_room
    # What stands within the piece has no other place, so that the labels of all others keep off it.
    ordered = sorted(placed, key=lambda item: (item.side != "inside", math.dist(item.start, item.end)))
    for item in ordered:
        start, end = placing.at(item.start), placing.at(item.end)
        letter = f"½ {item.measure.key}" if item.is_half else item.measure.key
        labels: tuple[str, ...] = (letter,)
        if sheet.shows_values and not item.is_half:
            labels = (f"{letter}   {write_measure(item.measure, sheet.size)}", letter)
        reach = tiers.get(item.side, 0.0)
        tiers[item.side] = reach + TIER_MM
        if item.side == "inside":
            shapes += draw_upright(sheet.ink, start, end, placing.at((item.at, 0.0))[0], labels, shapes)
        elif item.side == "left":
            shapes += draw_upright(sheet.ink, start, end, -reach, labels, shapes)
        else:
            at = placing.height + reach if item.side == "below" else -reach
            coming = _foresee_extensions(placing, [other for other in ordered if other.side == item.side], at)
            shapes += draw_level(sheet.ink, start, end, at, labels, [*shapes, *coming])
    return shapes


def _foresee_extensions(placing: Placing, items: Sequence[Dimension], at: float) -> list[Shape]:
    """The extension lines on one side that cross a height, those of dimensions further out that are yet to come."""
    places = {placing.at(end)[0] for item in items for end in (item.start, item.end)}
    return [Line((x, at - TIER_MM / 2), (x, at + TIER_MM / 2), 0.18, "#000000") for x in sorted(places)]


def _draw_title(shapes: Sequence[Shape], placing: Placing, named: Sequence[Measure], sheet: Sheet) -> list[Shape]:
    """The piece's name above everything else, and below it the measures that no line shows."""
    piece, ink = placing.piece, sheet.ink
    title = shorten(ink, " ".join(piece.title.split()), min(TITLE_MM, sheet.width / 2), 9.5, bold=True)
    if piece.shape == CROWN:
        view = "from above" if "crown" in title.lower() else "crown from above"
        title = f"{title}, {view}" if title else "Crown from above"
    if piece.make > 1:
        title += f" (make {piece.make})"
    if placing.times > 1:
        title += f", at {placing.times} times the scale"
    lines = [set_text(ink, title.strip(" ,"), points=9.5, bold=True)] if title.strip(" ,") else []
    if named:
        words = "; ".join(f"{measure.key}: {measure.name}" for measure in named)
        lines.append(set_text(ink, shorten(ink, words, sheet.width - 10, 8), points=8))
    _, y, _, _ = bound_shapes(shapes)
    placed: list[Shape] = []
    for line in reversed(lines):
        y -= 1.5 + line.height / 2
        placed.append(move_shape(line, placing.width / 2, y))
        y -= line.height / 2
    return placed


def _draw_scale(plan: Plan, foot: float, scale: float, ink: Ink, is_to_scale: bool) -> list[Shape]:
    """A bar of a round length at the foot, below the left end of the drawing, or words where there is no scale."""
    y = foot - 4.0
    left = bound_shapes(plan.shapes)[0]
    if not is_to_scale:
        text = set_text(ink, "Not to scale: the pattern gives no gauge for every row.", points=7.5)
        return [move_shape(text, max(text.width / 2 + 1, min(left + text.width / 2, plan.width - text.width / 2)), y)]
    length = next((cm for cm in (1, 2, 5, 10, 20, 50, 100, 200) if cm * scale >= 12), 400)
    breadth = length * scale
    text = set_text(ink, f"{length} cm ({print_number(length / 2.5)} in)", points=7.5)
    left = max(1.0, min(left, plan.width - breadth - 3 - text.width))
    return [
        Rect(left, y - 0.5, breadth / 2, 1.0, ink.line),
        Rect(left + breadth / 2, y - 0.5, breadth / 2, 1.0, "#ffffff", rim=ink.line, rim_width=0.2),
        move_shape(text, left + breadth + 2 + text.width / 2, y),
    ]
