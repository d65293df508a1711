"""What the schematic says of making up: edges that are sewn, folds, and the right side.

An edge that is sewn has a row of short ticks inside it and a ringed number; edges of one number belong together. A
fold is a dashed line. "RS" stands on a flat piece whose right side the rows tell.
"""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from booklet.amounts.piece_edges import find_part, has_edge, has_fold
from booklet.drawings.arrangement import Placing
from booklet.drawings.faces import set_text
from booklet.drawings.lay import Lay
from booklet.drawings.picture import Ink
from booklet.drawings.piece_edges import Path, trace_fold, trace_paths
from booklet.drawings.pieces import CROWN
from booklet.drawings.plan import (
    Arc,
    Arrow,
    Box,
    Line,
    Point,
    Polyline,
    Rect,
    Shape,
    Text,
    move_shape,
    overlap,
    shape_box,
)
from booklet.findings import join_words
from booklet.model.pattern import Pattern
from booklet.model.seams import Fold
from booklet.model.work import WorkedPart

SPOTS = 24  # to a side, at which "RS" is tried
TICK_MM = 1.3
TICK_APART_MM = 2.2
TICK_WIDTH = 0.22
RING_MM = 1.9  # radius
DASH_MM = 1.5
CLEAR_MM = 0.5
APART_MM = (6.0, 3.0, 1.0)  # how far "RS" stands from other labels, if there is room
HAIR_MM = 0.05
ALONG = (0.5, 0.4, 0.6, 0.3, 0.7, 0.22, 0.78, 0.14, 0.86)  # shares of an edge where its number may stand
LEADERS_MM = (0.0, 3.0, 5.0, 8.0, 11.0, 15.0, 20.0)  # how far outside a number without room at its edge may stand
TURNS = (0.0, 40.0, -40.0, 65.0, -65.0)  # degrees by which such a line may lean
LEGEND_STEP = 4.8
LEGEND_POINTS = 7.5


@dataclass(frozen=True, slots=True)
class SeamMark:
    """One seam: its number, what is joined in words, and (title of the piece, edge) of every edge."""

    number: int
    words: str
    edges: tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True)
class Making:
    """What is sewn and folded, each fold with the title of its piece as its heading has it."""

    seams: tuple[SeamMark, ...] = ()
    folds: tuple[tuple[str, Fold], ...] = ()

    def of(self, pieces: Sequence[Lay]) -> "Making":
        """What concerns some of the pieces."""
        titles = {part for piece in pieces for part in piece.parts}
        seams = tuple(seam for seam in self.seams if any(edge and title in titles for title, edge in seam.edges))
        return Making(seams, tuple((title, fold) for title, fold in self.folds if title in titles))


def find_making(pattern: Pattern, parts: Sequence[WorkedPart]) -> Making:
    """The seams and folds that can be drawn, numbered; what cannot has been told by the checks."""
    parts = [part for part in parts if any(part.rows)]
    seams: list[SeamMark] = []
    for seam in pattern.seams:
        found = [(part, edge) for edge in seam.edges if (part := find_part(parts, edge.piece)) and has_edge(part, edge)]
        if not any(edge.edge for _, edge in found):
            continue
        names = [" ".join(filter(None, (part.title if len(parts) > 1 else "", edge.edge))) for part, edge in found]
        edges = tuple((part.title, edge.edge) for part, edge in found)
        seams.append(SeamMark(len(seams) + 1, tell_joined([name or pattern.title for name in names]), edges))
    folds = [
        (part.title, fold) for fold in pattern.folds if (part := find_part(parts, fold.piece)) and has_fold(part, fold)
    ]
    return Making(tuple(seams), tuple(folds))


def tell_joined(names: Sequence[str]) -> str:
    """`Back shoulders to Front shoulders`; one edge alone is sewn to itself."""
    if len(names) == 1:
        return f"{names[0]} to each other" if names[0].endswith("s") else f"{names[0]} to itself"
    return f"{names[0]} to {join_words(names[1:])}"


def knows_right_side(piece: Lay) -> bool:
    """Whether the rows tell which side of a flat piece is the right one."""
    return piece.shape == "flat" and any(band.row.side for band in piece.bands)


def draw_marks(
    placing: Placing, outline: Sequence[Point], making: Making, ink: Ink, others: Sequence[Shape]
) -> list[Shape]:
    """The marks of one piece, whose outline (cm) is drawn as given; numbers keep off all `others`."""
    piece = placing.piece
    if piece.shape == CROWN:
        return []
    shapes: list[Shape] = []
    for title, fold in making.folds:
        if title == piece.title:
            for start, end in trace_fold(piece, outline, fold):
                line = Line(placing.at(start), placing.at(end), 0.3, ink.line, dash=DASH_MM)
                shapes += break_line(line, [shape for shape in others if isinstance(shape, Text | Rect)])
    paths = [
        (seam.number, tuple(map(placing.at, path)))
        for seam in making.seams
        for title, edge in seam.edges
        if title == piece.title and edge
        for path in trace_paths(piece, outline, edge)
    ]
    tick = min(TICK_MM, 0.28 * min(placing.width, placing.height))
    for _, path in paths:
        shapes += draw_ticks(path, ink, tick)
    ring = tuple(map(placing.at, outline))
    for number, path in paths:
        shapes += _draw_number(number, path, ring, tick, ink, [*others, *shapes])
    if knows_right_side(piece) and not placing.is_trial:
        shapes += _draw_right_side(placing, ring, ink, [*others, *shapes])
    return shapes


def break_line(line: Line, labels: Sequence[Shape]) -> list[Shape]:
    """An upright or level line without what of it lies behind labels."""
    axis = 0 if line.start[1] == line.end[1] else 1
    pieces = [(line.start[axis], line.end[axis])]
    for label in labels:
        box = widen_box(shape_box(label), CLEAR_MM)
        if not box[1 - axis] < line.start[1 - axis] < box[3 - axis]:
            continue
        low, high = box[axis], box[axis + 2]
        pieces = [cut for start, end in pieces for cut in ((start, min(end, low)), (max(start, high), end))]
        pieces = [(start, end) for start, end in pieces if end - start > DASH_MM]
    across = line.start[1 - axis]
    ends = [((a, across), (b, across)) if axis == 0 else ((across, a), (across, b)) for a, b in pieces]
    return [replace(line, start=start, end=end) for start, end in ends]


def draw_ticks(path: Path, ink: Ink, tick: float = TICK_MM) -> list[Shape]:
    """Short ticks along a path (mm), on its left."""
    length = sum(math.dist(one, other) for one, other in pairwise(path))
    count = max(1, round(length / TICK_APART_MM))
    shapes: list[Shape] = []
    for at in range(count):
        (x, y), (nx, ny) = walk_path(path, (at + 0.5) / count)
        shapes.append(Line((x, y), (x + nx * tick, y + ny * tick), TICK_WIDTH, ink.line))
    return shapes


def walk_path(path: Path, share: float) -> tuple[Point, Point]:
    """The point at a share of the path's length, and the unit vector to its left, inwards."""
    lengths = [math.dist(one, other) for one, other in pairwise(path)]
    left = share * sum(lengths)
    for (one, other), length in zip(pairwise(path), lengths, strict=True):
        if left <= length and length > 0:
            part, (dx, dy) = left / length, ((other[0] - one[0]) / length, (other[1] - one[1]) / length)
            return (one[0] + (other[0] - one[0]) * part, one[1] + (other[1] - one[1]) * part), (dy, -dx)
        left -= length
    (x, y), (x2, y2) = path[-2], path[-1]
    length = math.dist((x, y), (x2, y2)) or 1.0
    return (x2, y2), ((y2 - y) / length, -(x2 - x) / length)


def _draw_number(number: int, path: Path, ring: Path, tick: float, ink: Ink, others: Sequence[Shape]) -> list[Shape]:
    """The ringed number at its edge: inside where it has room, else outside, further off with a line to the edge."""
    room = RING_MM + CLEAR_MM
    spots = [(share, tick + room + HAIR_MM, 0.0) for share in ALONG]
    spots += [(share, -room - leader, turn) for leader in LEADERS_MM for turn in TURNS for share in ALONG]
    for share, off, turn in spots:
        (x, y), normal = walk_path(path, share)
        nx, ny = _turn(normal, turn)
        centre = (x + nx * off, y + ny * off)
        if not _is_free(centre, room, ring, others):
            continue
        if off >= -room:
            return ring_number(number, ink, centre)
        line = Line((x, y), (x + nx * (off + RING_MM), y + ny * (off + RING_MM)), 0.15, ink.line)
        if _is_line_free(line, others):
            return [line, *ring_number(number, ink, centre)]
    (x, y), (nx, ny) = walk_path(path, 0.5)
    return ring_number(number, ink, (x - nx * room, y - ny * room))


def _turn(vector: Point, degrees: float) -> Point:
    angle = math.radians(degrees)
    x, y = vector
    return x * math.cos(angle) - y * math.sin(angle), x * math.sin(angle) + y * math.cos(angle)


def ring_number(number: int, ink: Ink, centre: Point) -> list[Shape]:
    text = set_text(ink, str(number), points=7.5, bold=True)
    return [Arc(centre, RING_MM, 0, 360, 0.25, ink.line), move_shape(text, *centre)]


def _is_free(centre: Point, room: float, ring: Path, others: Sequence[Shape]) -> bool:
    x, y = centre
    box = (x - room, y - room, x + room, y + room)
    if any(_meets(segment, box) for segment in pairwise((*ring, ring[0]))):
        return False
    return not any(_stands_in(shape, box) for shape in others)


def _stands_in(shape: Shape, box: Box) -> bool:
    """Does a line, a label or a tag lie in the box?"""
    match shape:
        case Line():
            return _meets((shape.start, shape.end), box)
        case Polyline():
            return any(_meets(segment, box) for segment in pairwise(_close(shape)))
        case Arc() if shape.radius > RING_MM:
            return any(_meets(segment, box) for segment in pairwise(_bend(shape)))
        case Text() | Rect() | Arrow() | Arc():
            return overlap(shape_box(shape), box)
    return False


def _bend(arc: Arc) -> Path:
    """Points along an arc."""
    steps = max(2, math.ceil(math.radians(arc.end - arc.start) * arc.radius))
    angles = (math.radians(arc.start + (arc.end - arc.start) * step / steps) for step in range(steps + 1))
    return tuple((arc.centre[0] + arc.radius * math.cos(a), arc.centre[1] + arc.radius * math.sin(a)) for a in angles)


def _close(line: Polyline) -> tuple[Point, ...]:
    return (*line.points, line.points[0]) if line.closed else line.points


def widen_box(box: Box, by: float) -> Box:
    return box[0] - by, box[1] - by, box[2] + by, box[3] + by


def _is_line_free(line: Line, others: Sequence[Shape]) -> bool:
    """Does the line keep off all labels?"""
    return not any(
        _meets((line.start, line.end), widen_box(shape_box(shape), CLEAR_MM))
        for shape in others
        if isinstance(shape, Text | Rect) or (isinstance(shape, Arc) and shape.radius <= RING_MM)
    )


def _meets(segment: tuple[Point, Point], box: Box) -> bool:
    """Does a straight line meet the box? It is cut at each of its four sides in turn (Liang and Barsky's way)."""
    (x, y), (x2, y2) = segment
    first, last = 0.0, 1.0
    for step, room in ((x - x2, x - box[0]), (x2 - x, box[2] - x), (y - y2, y - box[1]), (y2 - y, box[3] - y)):
        if step == 0:
            if room < 0:
                return False
        elif step < 0:
            first = max(first, room / step)
        else:
            last = min(last, room / step)
    return first <= last


def _draw_right_side(placing: Placing, ring: Path, ink: Ink, others: Sequence[Shape]) -> list[Shape]:
    """`RS` near the middle of the piece, where nothing else stands; nowhere on a piece too narrow for it."""
    text = set_text(ink, "RS", points=8, colour=ink.text)
    labels = [shape for shape in others if isinstance(shape, Text | Rect | Arc)]
    for clear in APART_MM:
        for x, y in _list_spots(placing):
            moved = move_shape(text, x, y)
            box = widen_box(shape_box(moved), 2 * CLEAR_MM)
            outside = any(_meets(segment, box) for segment in pairwise((*ring, ring[0]))) or not _holds(ring, (x, y))
            if outside or any(_stands_in(shape, box) for shape in others):
                continue
            if not any(_stands_in(shape, widen_box(shape_box(moved), clear)) for shape in labels):
                return [moved]
    return []


def _list_spots(placing: Placing) -> Iterator[Point]:
    """Places in the piece, the nearest to its middle first."""
    steps = range(1, SPOTS)
    spots = [(placing.width * a / SPOTS, placing.height * b / SPOTS) for a in steps for b in steps]
    middle = (placing.width / 2, placing.height / 2)
    yield from sorted(spots, key=lambda spot: (round(math.dist(spot, middle), 6), spot[1], spot[0]))


def _holds(ring: Path, point: Point) -> bool:
    """Does the point lie within the closed line?"""
    x, y = point
    inside = False
    for (x1, y1), (x2, y2) in pairwise((*ring, ring[0])):
        if (y1 > y) != (y2 > y) and x < x1 + (x2 - x1) * (y - y1) / (y2 - y1):
            inside = not inside
    return inside
