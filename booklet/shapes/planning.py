"""From a measure and a gauge to the rounds of a shape.

A crown is as wide as the hat's girth / pi, a snug hat 1 in smaller than the head, and four tenths of the head
deep (hookthatyarn.wordpress.com 2016, smalltowndreamz.blogspot.com, health9.org).
"""

import math
from dataclasses import dataclass

from booklet.reading.gauges import GaugeLine, read_gauge
from booklet.reading.quantities import read_length
from booklet.shapes.stitches import ShapeError
from booklet.sizing.numbers import fit_count

SNUG_CM = 2.54
DEPTH_SHARE = 0.4


@dataclass(frozen=True, slots=True)
class CrownPlan:
    """Stitches round the crown, the rounds below it, and both in words."""

    around: int
    even: int
    words: str


def count_rounds(across: str, gauge: str) -> int:
    """Rounds of a circle so wide, as half of it is rows. Raises UnreadError and ShapeError."""
    _, rows_per_cm = _read_rows(gauge)
    return max(1, round(read_length(across).cm / 2 * rows_per_cm))


def plan_crown(head: str, gauge: str, multiple: int = 1) -> CrownPlan:
    """The hat for a head. Raises UnreadError and ShapeError."""
    line, rows_per_cm = _read_rows(gauge)
    head_cm = read_length(head).cm
    girth = head_cm - SNUG_CM
    if girth <= 0 or multiple < 1:
        raise ShapeError(f"no hat fits a head of {head}")
    around = fit_count(girth * line.sts / line.over.cm, multiple, 0)
    crown_cm, depth_cm = girth / math.pi, head_cm * DEPTH_SHARE
    even = max(0, round((depth_cm - crown_cm / 2) * rows_per_cm))
    words = (
        f"{around} sts round, {around * line.over.cm / line.sts:.1f} cm; crown {crown_cm:.1f} cm across, hat "
        f"{depth_cm:.1f} cm deep"
    )
    return CrownPlan(around, even, words)


def plan_sphere(across: str, gauge: str, by: int) -> tuple[int, int]:
    """Stitches round a ball so wide, a multiple of `by`, and its even rounds. Raises UnreadError and ShapeError.

    From pole to pole a ball has as many rounds as half its girth holds rows.
    """
    line, rows_per_cm = _read_rows(gauge)
    girth = math.pi * read_length(across).cm
    around = max(2 * by, fit_count(girth * line.sts / line.over.cm, by, 0))
    rounds = round(girth / 2 * rows_per_cm)
    return around, max(0, rounds - (2 * around // by - 1))


def _read_rows(gauge: str) -> tuple[GaugeLine, float]:
    """The gauge and its rows to a centimetre."""
    if not gauge:
        raise ShapeError('a measure needs a gauge: --gauge "13 sts and 10 rows = 10 cm"')
    line = read_gauge(gauge)
    if line.rows is None:
        raise ShapeError("the gauge has no rows")
    return line, line.rows / line.over.cm
