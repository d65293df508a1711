"""A drawing as shapes in millimetres, before any of it is painted.

x runs to the right, y down, both from the upper left corner. Shapes are painted in the order in
which they stand; texts last of all. Tests look at plans, never at pixels, to see that nothing
overlaps.
"""

from collections.abc import Iterable
from dataclasses import dataclass, replace

Point = tuple[float, float]
Box = tuple[float, float, float, float]  # left, top, right, bottom


@dataclass(frozen=True, slots=True)
class Line:
    """A straight line; `dash` is the length of dash and gap, 0 for a full line."""

    start: Point
    end: Point
    width: float
    colour: str
    dash: float = 0.0


@dataclass(frozen=True, slots=True)
class Polyline:
    """Joined straight lines, closed or open."""

    points: tuple[Point, ...]
    width: float
    colour: str
    closed: bool = False


@dataclass(frozen=True, slots=True)
class Rect:
    """A filled rectangle, with corners of `radius` rounded; `rim` outlines it where given."""

    x: float
    y: float
    width: float
    height: float
    fill: str
    radius: float = 0.0
    rim: str = ""
    rim_width: float = 0.0


@dataclass(frozen=True, slots=True)
class Area:
    """Polygons of one colour, filled as one surface under one hatch (number in `hatches.HATCHES`)."""

    polygons: tuple[tuple[Point, ...], ...]
    fill: str
    hatch: int = 0
    hatch_colour: str = ""


@dataclass(frozen=True, slots=True)
class Arc:
    """Part of a circle; angles in degrees clockwise from three o'clock."""

    centre: Point
    radius: float
    start: float
    end: float
    width: float
    colour: str


@dataclass(frozen=True, slots=True)
class Arrow:
    """A slender filled arrowhead whose tip is at `tip`, pointing along `heading` (a unit vector)."""

    tip: Point
    heading: Point
    colour: str
    length: float = 2.3
    breadth: float = 0.95


@dataclass(frozen=True, slots=True)
class Text:
    """Words centred on a point, with their measured size; `upright` sets them from bottom to top."""

    centre: Point
    text: str
    points: float
    colour: str
    width: float
    height: float
    bold: bool = False
    upright: bool = False


@dataclass(frozen=True, slots=True)
class Symbol:
    """One symbol of a stitch chart: the worked stitch that it stands for, the chart row it is in, and its strokes."""

    kind: str
    row: int
    strokes: tuple[Polyline | Area, ...]


Shape = Line | Polyline | Rect | Area | Arc | Arrow | Text | Symbol


@dataclass(frozen=True, slots=True)
class Plan:
    """Shapes on a sheet of the given size in millimetres."""

    width: float
    height: float
    shapes: tuple[Shape, ...]

    @property
    def texts(self) -> tuple[Text, ...]:
        return tuple(shape for shape in self.shapes if isinstance(shape, Text))


def shape_box(shape: Shape) -> Box:
    """The smallest upright box round a shape, line widths left out."""
    match shape:
        case Line():
            return _points_box((shape.start, shape.end))
        case Polyline():
            return _points_box(shape.points)
        case Rect():
            return shape.x, shape.y, shape.x + shape.width, shape.y + shape.height
        case Area():
            return _points_box([point for polygon in shape.polygons for point in polygon])
        case Arc():
            (x, y), r = shape.centre, shape.radius
            return x - r, y - r, x + r, y + r
        case Arrow():
            (x, y), (dx, dy) = shape.tip, shape.heading
            return _points_box((shape.tip, (x - dx * shape.length, y - dy * shape.length)))
        case Symbol():
            return bound_shapes(shape.strokes)
        case Text():
            width, height = (shape.height, shape.width) if shape.upright else (shape.width, shape.height)
            (x, y) = shape.centre
            return x - width / 2, y - height / 2, x + width / 2, y + height / 2


def _points_box(points: Iterable[Point]) -> Box:
    xs, ys = zip(*points, strict=True)
    return min(xs), min(ys), max(xs), max(ys)


def bound_shapes(shapes: Iterable[Shape]) -> Box:
    """The smallest box round all shapes; raises ValueError where there are none."""
    boxes = [shape_box(shape) for shape in shapes]
    lefts, tops, rights, bottoms = zip(*boxes, strict=True)
    return min(lefts), min(tops), max(rights), max(bottoms)


def overlap(first: Box, second: Box, gap: float = 0.0) -> bool:
    """Whether two boxes come nearer to one another than `gap`."""
    return (
        first[0] < second[2] + gap
        and second[0] < first[2] + gap
        and first[1] < second[3] + gap
        and second[1] < first[3] + gap
    )


def move_shape(shape: Shape, dx: float, dy: float) -> Shape:
    """The same shape in another place."""

    def moved(point: Point) -> Point:
        return point[0] + dx, point[1] + dy

    match shape:
        case Line():
            return replace(shape, start=moved(shape.start), end=moved(shape.end))
        case Polyline():
            return replace(shape, points=tuple(moved(point) for point in shape.points))
        case Rect():
            return replace(shape, x=shape.x + dx, y=shape.y + dy)
        case Area():
            return replace(shape, polygons=tuple(tuple(moved(p) for p in polygon) for polygon in shape.polygons))
        case Arc() | Text():
            return replace(shape, centre=moved(shape.centre))
        case Arrow():
            return replace(shape, tip=moved(shape.tip))
        case Symbol():
            strokes = tuple(move_shape(stroke, dx, dy) for stroke in shape.strokes)
            return Symbol(shape.kind, shape.row, strokes)  # type: ignore[arg-type]
