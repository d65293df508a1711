"""What holds of every plan: nothing leaves the frame, and no line or label runs over a label."""

from collections.abc import Iterator
from itertools import combinations, pairwise

from booklet.drawings.plan import Box, Line, Plan, Point, Polyline, Rect, Text, overlap, shape_box

Segment = tuple[Point, Point]


def check_frame(plan: Plan) -> None:
    for shape in plan.shapes:
        left, top, right, bottom = shape_box(shape)
        assert left >= 0, shape
        assert top >= 0, shape
        assert right <= plan.width + 1e-6, shape
        assert bottom <= plan.height + 1e-6, shape


def check_labels(plan: Plan) -> None:
    """Labels stand clear of one another and of every line; those on a tag of their own may stand on lines."""
    for first, second in combinations(plan.texts, 2):
        assert not overlap(shape_box(first), shape_box(second)), (first.text, second.text)
    segments = list(list_segments(plan))
    for text in plan.texts:
        if any(isinstance(shape, Rect) and _holds(shape, text) for shape in plan.shapes):
            continue
        left, top, right, bottom = shape_box(text)
        box = (left + 0.05, top + 0.05, right - 0.05, bottom - 0.05)
        for segment in segments:
            assert not crosses(segment, box), (text.text, segment)


def check_plan(plan: Plan) -> None:
    check_frame(plan)
    check_labels(plan)


def list_segments(plan: Plan) -> Iterator[Segment]:
    for shape in plan.shapes:
        if isinstance(shape, Line):
            yield shape.start, shape.end
        elif isinstance(shape, Polyline):
            yield from pairwise((*shape.points, shape.points[0]) if shape.closed else shape.points)


def crosses(segment: Segment, box: Box) -> bool:
    """Does the segment meet the box? By Liang and Barsky's clipping."""
    (x, y), (x2, y2) = segment
    first, last = 0.0, 1.0
    for step, room in (
        (x - x2, x - box[0]),
        (x2 - x, box[2] - x),
        (y - y2, y - box[1]),
        (y2 - y, box[3] - y),
    ):
        if step == 0:
            if room < 0:
                return False
        elif step < 0:
            first = max(first, room / step)
        else:
            last = min(last, room / step)
    return first <= last


def _holds(rect: Rect, text: Text) -> bool:
    left, top, right, bottom = shape_box(rect)
    return left <= text.centre[0] <= right and top <= text.centre[1] <= bottom
