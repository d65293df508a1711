"""Dimension lines in the drafting manner: extension lines that do not touch the outline, slender
arrowheads, and the letter in a gap of the line, or beside it where the line is too short.
"""

from collections.abc import Iterator, Sequence

from booklet.drawings.faces import set_text
from booklet.drawings.picture import Ink
from booklet.drawings.plan import Arrow, Line, Point, Shape, Text, move_shape, overlap, shape_box

GAP = 1.2  # between outline and extension line
PAST = 1.3  # what an extension line runs past the dimension line
HEAD = 2.3
TAIL = 4.5  # of an arrow that points inwards from outside
CLEAR = 1.2  # between a label and its line
THIN = 0.18
TOUCH = 0.2  # less room than that between a label and a line is none
APART = 1.5  # and between two labels, which would be read as one


def draw_level(
    ink: Ink, start: Point, end: Point, at: float, labels: tuple[str, ...], others: Sequence[Shape] = ()
) -> list[Shape]:
    """A dimension from left to right at height `at`, between two features below or above it.

    The first of the labels that fits into the line is taken, else the last stands to its right, or to its left
    where it would stand on one of the `others` there.
    """
    right = _draw(ink, start, end, at, labels, is_level=True)
    if not others or is_clear(right, others):
        return right
    left = _draw(ink, start, end, at, labels, is_level=True, is_before=True)
    return left if is_clear(left, others) else right


def draw_upright(
    ink: Ink, start: Point, end: Point, at: float, labels: tuple[str, ...], others: Sequence[Shape] = ()
) -> list[Shape]:
    """A dimension from top to bottom at `at`; a label that does not fit into it stands above, or below as above."""
    above = _draw(ink, start, end, at, labels, is_level=False, is_before=True)
    if not others or is_clear(above, others):
        return above
    below = _draw(ink, start, end, at, labels, is_level=False)
    return below if is_clear(below, others) else above


def is_clear(shapes: Sequence[Shape], others: Sequence[Shape]) -> bool:
    """Does no label stand on a line of the others, or near a label of theirs?"""
    labels = [(shape_box(a), b) for some, rest in ((shapes, others), (others, shapes)) for a in some for b in rest
              if isinstance(a, Text) and isinstance(b, Text | Line | Arrow)]  # fmt: skip
    return not any(overlap(box, shape_box(other), APART if isinstance(other, Text) else TOUCH) for box, other in labels)


def _draw(
    ink: Ink,
    start: Point,
    end: Point,
    at: float,
    labels: tuple[str, ...],
    is_level: bool,
    is_before: bool = False,
) -> list[Shape]:
    axis = 0 if is_level else 1
    low, high = start[axis], end[axis]

    def place(along: float, across: float) -> Point:
        return (along, across) if is_level else (across, along)

    shapes: list[Shape] = list(_draw_extensions(ink, start, end, at, is_level))
    texts = [_label(ink, label, is_level) for label in labels]
    room = high - low - 2 * HEAD - 2 * CLEAR - 1
    fitting = next((text for text in texts if _length(text, is_level) <= room), None)
    if fitting:
        half = _length(fitting, is_level) / 2 + CLEAR
        middle = (low + high) / 2
        shapes += [
            Line(place(low, at), place(middle - half, at), THIN, ink.line),
            Line(place(middle + half, at), place(high, at), THIN, ink.line),
            Arrow(place(low, at), place(-1, 0), ink.line),
            Arrow(place(high, at), place(1, 0), ink.line),
            move_shape(fitting, *place(middle, at)),
        ]
        return shapes
    beside = texts[-1]
    reach = TAIL + CLEAR + _length(beside, is_level) / 2
    shapes += [
        Line(place(low - TAIL, at), place(low, at), THIN, ink.line),
        Line(place(high, at), place(high + TAIL, at), THIN, ink.line),
        Line(place(low, at), place(high, at), THIN, ink.line),
        Arrow(place(low, at), place(1, 0), ink.line),
        Arrow(place(high, at), place(-1, 0), ink.line),
        move_shape(beside, *place(low - reach if is_before else high + reach, at)),
    ]
    return shapes


def _draw_extensions(ink: Ink, start: Point, end: Point, at: float, is_level: bool) -> Iterator[Line]:
    """From each feature to a little past the dimension line."""
    axis = 0 if is_level else 1
    for feature in (start, end):
        along, across = feature[axis], feature[1 - axis]
        away = 1 if at > across else -1
        near, far = (along, across + away * GAP), (along, at + away * PAST)
        yield Line(near if is_level else near[::-1], far if is_level else far[::-1], THIN, ink.line)


def _label(ink: Ink, label: str, is_level: bool) -> Text:
    """A letter alone stands; a longer label follows an upright line."""
    return set_text(ink, label, points=9, bold=True, upright=not is_level and len(label) > 4)


def _length(text: Text, is_level: bool) -> float:
    """How much of the dimension line the label takes."""
    return text.width if is_level or text.upright else text.height
