"""A gauge of whole motifs as a gauge of stitches: "1 square = 5 in" says how wide the last round is.

Half of the motif's width holds all its rounds, and the way round its edge all stitches of the last one. What follows
measures and draws the motif and scales its yarn; it is no gauge of the author's, and no page prints it as one.
"""

import math
import re
from collections.abc import Sequence
from dataclasses import replace

from booklet.amounts.gauges import count_width, is_row
from booklet.model.pattern import Gauge, SizedPattern
from booklet.model.work import WorkedPart, WorkedPattern, WorkedRow
from booklet.working.walk import find_corner_spaces

MOST_SIDES = 8
ROUNDS = re.compile(r"\b(?:rnds?|rounds?)\s*(?:\d+\s*(?:-|–|to)\s*)?(?P<last>\d+)")


def add_motif_gauges(sized: SizedPattern, worked: WorkedPattern) -> tuple[SizedPattern, WorkedPattern]:
    """The pattern with a gauge of stitches for each motif that a gauge measures, where it has none of its own."""
    pattern = sized.pattern
    if pattern.gauges or not pattern.motif_gauges:
        return sized, worked
    gauges: list[Gauge] = []
    parts: list[WorkedPart] = []
    for part in worked.parts:
        gauge = next((g for g in pattern.motif_gauges if _means(g, part, worked.parts)), None)
        made = _measure_motif(gauge, part) if gauge is not None else None
        gauges.extend([made] if made else [])
        parts.append(replace(part, gauge=made.name) if made else part)
    if not gauges:
        return sized, worked
    pattern = replace(pattern, gauges=tuple(gauges))
    return replace(sized, pattern=pattern), replace(worked, parts=tuple(parts))


def _means(gauge: Gauge, part: WorkedPart, parts: Sequence[WorkedPart]) -> bool:
    """Is the piece the motif: by its title, or as the only one in rounds?"""
    if not _list_rounds(gauge, part):
        return False
    word = gauge.motif.lower().removesuffix("s")
    if word and word in part.title.lower():
        return True
    return sum(bool(_list_rounds(gauge, other)) for other in parts) == 1


def _list_rounds(gauge: Gauge, part: WorkedPart) -> list[WorkedRow]:
    """The rounds from the centre outwards that the gauge was taken over; none for a piece that is no motif."""
    rows = [row for row in part.rows[0] if is_row(row) and count_width(row.fabric)] if part.rows else []
    if not rows or any(row.kind != "round" or row.status == "broken" for row in rows):
        return []
    widths = [count_width(row.fabric) for row in rows]
    if widths != sorted(widths) or (len(widths) > 1 and widths[-1] < 2 * widths[0]):
        return []
    named = ROUNDS.search(gauge.motif.lower())
    return rows[: int(named["last"])] if named else rows


def _measure_motif(gauge: Gauge, part: WorkedPart) -> Gauge | None:
    rounds = _list_rounds(gauge, part)
    width = gauge.over.amount / gauge.sts if gauge.sts else 0.0
    if not rounds or width <= 0:
        return None
    last = rounds[-1].fabric
    corners = max((_count_corners(row) for row in rounds), default=0)
    around = corners * width * math.tan(math.pi / corners) if 3 < corners <= MOST_SIDES else math.pi * width
    return replace(
        gauge,
        name=part.title or gauge.motif,
        sts=count_width(last) / around * gauge.over.amount,
        rows=len(rounds) / (width / 2) * gauge.over.amount,
        stitch="",
        motif="",
        in_rounds=True,
        is_from_motif=True,
    )


def _count_corners(row: WorkedRow) -> int:
    return sum(row.fabric.sites[index].at == 0 for index in find_corner_spaces(row.fabric))
