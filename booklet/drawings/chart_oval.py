"""The chain that an oval is worked round: where it lies, and where the first round goes into it.

The chain lies on the axis of the oval, its last chain on the right. The first round goes along its upper side to the
left, round the first chain made, and back along the lower side.
"""

import math
from collections.abc import Sequence

from booklet.drawings.chart_glyphs import CHAIN_STEP, Glyph
from booklet.drawings.chart_marks import LINK, STITCH, ChartRow, Mark
from booklet.drawings.chart_ring import LaidRound, Polar, RingShape

PITCH = 1.2  # from chain to chain, wider than in a row: at its ends stitches fan
EDGE = 0.45  # from the middle of the chain to where stitches stand, clear of it
UP, DOWN = math.pi / 2, -math.pi / 2


def goes_round_chain(listed: Sequence[ChartRow]) -> bool:
    """Is the first round worked along one side of a chain, and back along the other?"""
    if listed[0].name or len(listed) < 2 or any(mark.role == LINK for mark in listed[0].marks):
        return False
    feet = [mark.feet[0] for mark in listed[1].marks if mark.is_column and mark.feet]
    if len(feet) < 4 or len(feet) != sum(mark.is_column for mark in listed[1].marks):
        return False
    far = feet.index(max(feet))
    ahead, back = feet[: far + 1], [foot for foot in feet[far:] if foot != feet[far]]
    return far > 0 and len(back) > 1 and ahead == sorted(ahead) and back == sorted(back, reverse=True)


def lay_axis(row: ChartRow, first: ChartRow, index: int) -> tuple[LaidRound, list[Glyph], RingShape, dict[int, Polar]]:
    """The chain in place, the oval round it, and where each stitch of the first round stands, by the id of its mark."""
    columns = [mark for mark in first.marks if mark.is_column]
    near = min(mark.feet[0] for mark in columns if mark.role == STITCH)
    feet = [max(near, mark.feet[0]) for mark in columns]  # a standing chain goes with the stitches of its end
    far = max(feet)
    half = (far - near) / 2 * PITCH
    shape = RingShape(half=half)
    glyphs = []
    for number in range(len(row.row.fabric.sites) - first.free):
        x = half - (number + first.free - near) * PITCH
        long = CHAIN_STEP * 0.46
        glyphs.append(Glyph("ch", "ch", index, ((x + long, 0.0),), (x - long, 0.0)))
    sites = tuple(
        (shape.share_at(half - (at - near) * PITCH, UP, EDGE), EDGE) for at in range(len(row.row.fabric.sites))
    )
    stands = _find_stands(columns, feet, shape)
    reach = half + EDGE + (near - first.free + 0.5) * PITCH
    return LaidRound(row, sites, EDGE, (0.0, 0.0), 0, reach), glyphs, shape, stands


def _find_stands(columns: Sequence[Mark], feet: Sequence[int], shape: RingShape) -> dict[int, Polar]:
    near, far = min(feet), max(feet)
    turn = feet.index(far)
    at_far = [at for at, foot in enumerate(feet) if foot == far]
    at_near = [at for at, foot in enumerate(feet) if foot == near]
    ends = [at for at in at_near if at > turn] + [at for at in at_near if at < turn]  # counter-clockwise
    stands = {}
    for at, (mark, foot) in enumerate(zip(columns, feet, strict=True)):
        x = shape.half - (foot - near) * PITCH
        if foot == far:
            angle = UP + math.pi * (at_far.index(at) + 0.5) / len(at_far)
        elif foot == near:
            angle = DOWN + math.pi * (ends.index(at) + 0.5) / len(ends)
        else:
            angle = UP if at < turn else DOWN
        stands[id(mark)] = (shape.share_at(x, angle, EDGE), EDGE)
    return stands
