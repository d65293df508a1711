"""Edges that grow or shrink by several stitches at a time, row after row: a maker sees a slant, not stairs."""

import math
from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise

from booklet.drawings.edges import Edge, Straight
from booklet.drawings.lay import Lay, straighten
from booklet.drawings.plan import Point

FEWEST_STEPS = 4  # fewer are steps that were meant, such as those of an armhole or a shoulder
UNLIKE = 2.2  # steps of which one is more than so many times another are no stairs
NONE = 1e-6
WITHIN = 1e-4  # cm
SLACK = 0.8  # stitches that an edge may be drawn straighter than it was worked


def smooth_stairs(outline: Sequence[Point]) -> tuple[Point, ...]:
    """The closed outline with slants for its stairs; the edges at its top and its bottom stay."""
    heights = [y for _, y in outline]
    ends = (min(heights), max(heights))
    points = [*outline, outline[0]]
    smooth: list[Point] = [points[0]]
    at = 0
    while at < len(points) - 1:
        last = _find_end(points, at, ends)
        if last - at >= 2 * FEWEST_STEPS:
            run = tuple(points[at : last + 1])
            smooth += straighten(run, _reach(run))[1:]
            at = last
        else:
            at += 1
            smooth.append(points[at])
    return tuple(smooth[:-1])


def smooth_outline(piece: Lay) -> tuple[Point, ...]:
    """The outline of a flat piece with slants for its stairs; that of any other unchanged."""
    if piece.shape != "flat":
        return piece.outline
    return straighten(smooth_stairs(piece.outline), SLACK * piece.stitch_cm)


def smooth_piece(piece: Lay) -> Lay:
    """A flat piece whose rows are as wide as its smooth outline; any other unchanged."""
    if piece.shape != "flat" or piece.border or piece.across:
        return piece
    edges = [edge for band in piece.bands for edge in (band.base, band.top)]
    if not all(isinstance(edge, Straight) and edge.sag == 0 for edge in edges):
        return piece
    outline = smooth_outline(piece)
    if len(outline) == len(piece.outline):
        return piece
    bands = [
        replace(band, base=_widen(band.base, outline, -WITHIN), top=_widen(band.top, outline, WITHIN))
        for band in piece.bands
    ]
    return replace(piece, bands=tuple(bands), outline=outline)


def _widen(edge: Edge, outline: Sequence[Point], within: float) -> Straight:
    """A level edge from side to side of the outline, measured a hair within its row, where a step may lie on it."""
    (left, y), (right, _) = edge.point(0), edge.point(1)
    inside = y + within
    meets = []
    for (x1, y1), (x2, y2) in pairwise((*outline, outline[0])):
        if (y1 <= inside) != (y2 <= inside):
            meets.append(x1 + (x2 - x1) * (inside - y1) / (y2 - y1))
    return Straight(min(meets, default=left), max(meets, default=right), y)


def _find_end(points: Sequence[Point], at: int, ends: tuple[float, float]) -> int:
    """The last point of the stairs that begin at a point, which may be that point."""
    levels: list[float] = []
    uprights: list[float] = []
    for index in range(at, len(points) - 1):
        (x, y), (x2, y2) = points[index], points[index + 1]
        is_level = abs(y2 - y) < NONE
        if is_level == (abs(x2 - x) < NONE):  # a slant, or no edge at all
            return index
        if is_level and min(abs(y - end) for end in ends) < NONE:
            return index
        own, step = (levels, x2 - x) if is_level else (uprights, y2 - y)
        if own and (own[0] * step < 0 or _is_unlike([*own, step])):
            return index
        own.append(step)
    return len(points) - 1


def _is_unlike(steps: Sequence[float]) -> bool:
    lengths = [abs(step) for step in steps]
    return max(lengths) > UNLIKE * min(lengths)


def _reach(run: Sequence[Point]) -> float:
    """How far a corner of the largest step lies off the slant."""
    edges = [math.dist(one, other) for one, other in pairwise(run)]
    return max(one * other / math.hypot(one, other) for one, other in pairwise(edges)) * 1.05
