"""Rounds laid flat: tubes, hats and balls pressed flat, circles and motifs from above, borders.

A crown is the hard case. Pressed flat, each round is half its circumference wide, yet rounds of a
flat crown grow by more than their own height, so that widths drawn straight above one another make
a roof, not a hat. Here every round keeps its true width and its true depth in the middle, and its
ends rise to an arch: the crown is seen a little from above, and looks as it does on a table.
"""

import math
from collections import Counter

from booklet.amounts.measures import grows_to_its_edge, starts_at_centre
from booklet.drawings.cells import middle, place_sites
from booklet.drawings.edges import Frame, Ring, Straight
from booklet.drawings.lay import Band, Sizing, find_directions
from booklet.model.work import WorkedRow

FULL = 0.97  # share of the largest circumference from which a round counts as full
HOLE_ROWS = 2.2  # a last round whose radius is under so many row heights closes the end
ARCH = 1.75  # a crown's side: 2 would be an ellipse, 1 a cone; yarn is stiffer than the one, softer than the other
HANG = 0.4  # how much of a flat crown's depth its last round may hang through
LEAST_FLAT = 0.55  # share of a flat circle's edge under which rounds that grow make a cone
FRONT_HALF = (0.25, 0.75)
SIDE_NAMES = {3: "triangle", 4: "square", 5: "pentagon", 6: "hexagon", 8: "octagon"}


def lay_rounds(rows: list[WorkedRow], sizing: Sizing) -> tuple[str, tuple[Band, ...]]:
    """The shape the rounds make, by name, and the rounds in place."""
    heights = [sizing.row_cm(row) for row in rows]
    around = sizing.widths_cm(rows)
    sizes = sizing.part.rows
    is_closed = all(starts_at_centre(size) for size in sizes)
    is_motif = is_closed and all(grows_to_its_edge(size) for size in sizes)
    if is_motif and around[-1] / (math.tau * sum(heights)) >= LEAST_FLAT:
        return lay_motif(rows, heights)
    ends_closed = around[-1] <= math.tau * heights[-1] * HOLE_ROWS and 2 * around[-1] <= max(around)
    edges = _press_flat(around, heights, is_closed, ends_closed)
    bands = tuple(
        Band(row, base, top, way, FRONT_HALF)
        for row, base, top, way in zip(rows, edges, edges[1:], find_directions(rows), strict=False)
    )
    return ("dome" if is_closed or ends_closed else "tube"), bands


def lay_motif(rows: list[WorkedRow], heights: list[float]) -> tuple[str, tuple[Band, ...]]:
    """Rounds from the centre outwards, seen from above: a circle, or a shape with corners."""
    sides = next((sides for sides, _ in map(find_corners, reversed(rows)) if sides), 0)
    return SIDE_NAMES.get(sides, "circle"), _lay_rings(rows, heights, sides)


def find_corners(row: WorkedRow) -> tuple[int, float]:
    """Number of corners of a round and the share of it where the first lies; 0 for none.

    A corner is several stitches with chains among them worked in one place.
    """
    stitches = row.fabric.stitches
    chained = {stitch.cluster for stitch in stitches if stitch.kind == "ch" and stitch.cluster >= 0}
    sizes = Counter(stitch.cluster for stitch in stitches if stitch.cluster in chained)
    corners = [cluster for cluster, size in sizes.items() if size >= 3]
    if len(corners) not in SIDE_NAMES:
        return 0, 0.0
    places = place_sites(row.fabric)
    turns = [middle(places, [s.top for s in stitches if s.cluster == corner]) for corner in corners]
    known = [turn for turn in turns if turn is not None]
    return (len(corners), min(known)) if known else (0, 0.0)


def _lay_rings(rows: list[WorkedRow], heights: list[float], sides: int) -> tuple[Band, ...]:
    bands, radius, turn = [], 0.0, 0.0
    for row, height, way in zip(rows, heights, find_directions(rows), strict=True):
        found, corner = find_corners(row)
        turn = corner if sides and found == sides else turn
        inner = Ring((0.0, 0.0), radius, sides, turn)
        radius += height
        bands.append(Band(row, inner, Ring((0.0, 0.0), radius, sides, turn), -way))
    return tuple(bands)


def _press_flat(around: list[float], heights: list[float], starts_closed: bool, ends_closed: bool) -> list[Straight]:
    """The edges of a tube pressed flat, first to last; what begins closed begins at the top."""
    depth = [0.0]
    for height in heights:
        depth.append(depth[-1] + height)
    lengths = [0.0 if starts_closed else around[0], *around]
    total = depth[-1]
    full = [index for index, length in enumerate(lengths) if length >= FULL * max(lengths)]
    first, last = full[0], full[-1]
    body = (depth[last] - depth[first]) / (2 if starts_closed and ends_closed else 1)
    sag = [0.0] * len(depth)
    if starts_closed:
        sag = _crown_sags(lengths, depth, first, body)
    if ends_closed:
        # the same crown, looked at from the other end
        mirrored = _crown_sags(lengths[::-1], [total - at for at in reversed(depth)], len(depth) - 1 - last, body)
        sag = [here - there for here, there in zip(sag, reversed(mirrored), strict=True)]
    edges = [
        Straight(-length / 4, length / 4, at - hang, hang) for length, at, hang in zip(lengths, depth, sag, strict=True)
    ]
    if starts_closed:
        return edges
    return [Straight(edge.left, edge.right, total - edge.y, -edge.sag) for edge in edges]


def _crown_sags(lengths: list[float], depth: list[float], full: int, body: float) -> list[float]:
    """How much lower than its ends the middle of each round hangs, for a crown whose top comes first.

    `full` is the first full round; over the `body` below it what hangs evens out.
    """
    crown = depth[full]
    if crown <= 0:
        return [0.0] * len(depth)
    flatness = min(1.0, lengths[full] / (math.tau * crown))
    shoulder = 1 - HANG * min(1.0, body / crown)  # depth of the crown's ends, as a share of its middle's
    sags = []
    for index, (length, at) in enumerate(zip(lengths, depth, strict=True)):
        if index <= full:
            share = min(1.0, length / lengths[full])
            end = min(at, shoulder * crown * (1 - (1 - share**ARCH) ** (1 / ARCH)))
            sags.append(flatness * (at - end))
        else:
            rest = max(0.0, 1 - (at - crown) / body) if body > 0 else 0.0
            sags.append(sags[full] * rest * rest)
    return sags


def lay_border(rows: list[WorkedRow], sizing: Sizing, inside: tuple[float, float, float, float]) -> tuple[Band, ...]:
    """Rounds worked all round a flat piece, each outside the one before."""
    bands = []
    left, top, right, bottom = inside
    inner = Frame(left, top, right, bottom)
    for row, way in zip(rows, find_directions(rows), strict=True):
        height = sizing.row_cm(row)
        left, top, right, bottom = left - height, top - height, right + height, bottom + height
        outer = Frame(left, top, right, bottom)
        bands.append(Band(row, inner, outer, -way))
        inner = outer
    return tuple(bands)
