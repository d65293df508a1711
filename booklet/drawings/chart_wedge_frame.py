"""What stands round a wedge of rounds: broken lines where it is cut, and a bracket that says what is drawn."""

from collections.abc import Sequence
from itertools import pairwise

from booklet.drawings.chart_flat import LaidRow
from booklet.drawings.chart_strokes import Scale
from booklet.drawings.chart_wedge import Wedge
from booklet.drawings.faces import set_text
from booklet.drawings.picture import Ink
from booklet.drawings.plan import Line, Point, Polyline, Shape, move_shape


def frame_wedge(laid: Sequence[LaidRow], wedge: Wedge, ends: Sequence[Point], scale: Scale, ink: Ink) -> list[Shape]:
    """Broken lines along the sides at which a wedge is cut, and under its lowest row what it is."""
    sides = [(0, -0.75)] if wedge.turns else [(0, -0.75), (1, 0.75)]
    shapes: list[Shape] = []
    for side, off in sides:
        heights = [(row.base + row.line) / 2 for row in laid]
        places = [scale.at((pair[side] + off, y)) for pair, y in zip(ends, heights, strict=True)]
        shapes += [Line(start, end, 0.3, ink.accent, dash=1.2) for start, end in pairwise(places)]
    words = f"1 of {wedge.turns} repeats" if wedge.turns else "about the first increase"
    text = set_text(ink, words, points=7.5, colour=ink.accent)
    (left, y), (right, _) = scale.at((ends[0][0] - 0.5, -1.3)), scale.at((ends[0][1] + 0.5, -1.3))
    left, right = min(left, right), max(left, right)
    return [
        *shapes,
        Polyline(((left, y), (left, y + 1.6), (right, y + 1.6), (right, y)), 0.3, ink.accent),
        move_shape(text, (left + right) / 2, y + 3.0 + text.height / 2),
    ]
