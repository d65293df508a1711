"""How much wider and higher the pattern's stitches are than the ones that were measured.

The pattern's own gauge decides. Where it states none, the room that a stitch takes in a finished measure does, and
where no measure is given either, the gauge that is usual for the hook and the yarn.
"""

import math
from collections.abc import Mapping
from typing import cast

from booklet.amounts.stitch_yarn import Scale, StitchYarn, describe_stitch, measure_stitch, reference_width
from booklet.amounts.tally import Tally
from booklet.amounts.usual_gauge import estimate_stitches
from booklet.model.measure import CM_PER_INCH
from booklet.model.pattern import Gauge, Pattern
from booklet.terms import load_table

# What a kind is taken for that nobody has measured.
STAND_IN = "dc"


def yarn_of(kind: str) -> StitchYarn:
    """The yarn of a stitch, that of a double crochet where none is known."""
    return describe_stitch(kind) or cast(StitchYarn, describe_stitch(STAND_IN))


def find_scale(pattern: Pattern, name: str | None, tally: Tally) -> Scale | None:
    """The scale of the rows that a gauge measures; None where neither gauge, measure, hook nor yarn tells."""
    gauge = next((gauge for gauge in pattern.gauges if gauge.name == name), None) if name is not None else None
    if gauge is None:
        return scale_by_room(tally) if tally.room else scale_by_usual(pattern)
    return scale_by_gauge(gauge, find_height(pattern, gauge, tally))


def scale_by_gauge(gauge: Gauge, reference_height: float) -> Scale:
    """Stitches and rows in true inches: yarn is measured with a tape, whatever the trade says of gauge."""
    over = gauge.over.cm / CM_PER_INCH
    width = over / gauge.sts / reference_width()
    if not gauge.rows or not reference_height:
        return Scale(width, width)
    return Scale(width, over / gauge.rows / reference_height)


def scale_by_room(tally: Tally) -> Scale | None:
    """From the area that a stitch covers: whether it is wide or high makes no difference to its yarn."""
    height = average_height(tally, None)
    if tally.room is None or not height:
        return None
    loop = math.sqrt(tally.room[0] / (reference_width() * height))
    return Scale(loop, loop)


def scale_by_usual(pattern: Pattern) -> Scale | None:
    """From the stitches in 4 in that are usual for the hook and the yarn; rows are taken to be in proportion."""
    usual = estimate_stitches(pattern)
    if usual is None:
        return None
    width = 4 / usual[0] / reference_width()
    return Scale(width, width)


def tell_scale(pattern: Pattern, tally: Tally) -> str:
    """What the scale rests on: "gauge", "size", "motif", "weight", "hook", "ball", or "" where nothing is known."""
    if None not in {gauge for gauge, _, _ in tally.worked}:
        return "motif" if any(gauge.is_from_motif for gauge in pattern.gauges) else "gauge"
    usual = estimate_stitches(pattern)
    return tally.room[1] if tally.room else usual[1] if usual else ""


def find_height(pattern: Pattern, gauge: Gauge, tally: Tally) -> float:
    """Height in inches, at the reference, of the fabric that the gauge was taken in.

    The stitch that the gauge names, else the mean over the stitches it measures. The mean is over stitches
    and not rows, so that a stitch more never lessens the yarn.
    """
    named = read_stitch(gauge.stitch, pattern.terms)
    if named:
        return yarn_of(named).height
    return average_height(tally, gauge.name)


def average_height(tally: Tally, gauge: str | None) -> float:
    """The mean height of the stitches that a gauge measures, chains and slip stitches left out; 0 for none."""
    heights = [
        (yarn_of(kind).height, number)
        for (name, _, kind), number in tally.worked.items()
        if name == gauge and yarn_of(kind).height
    ]
    total = sum(number for _, number in heights)
    return sum(height * number for height, number in heights) / total if total else 0.0


def read_stitch(words: str, terms: str) -> str:
    """The US abbreviation of a stitch named alone, in the pattern's terms; "" where the words say more or else."""
    words = " ".join(words.lower().split())
    is_uk = terms == "UK"
    for kind, entry in load_table("stitches").items():
        if not entry.get("basic"):
            continue
        short, name, others = (
            (entry["uk"], entry["uk_name"], entry.get("uk_aliases", ()))
            if is_uk
            else (kind, entry["us_name"], entry.get("aliases", ()))
        )
        if words in (short.lower(), name.lower(), *others):
            return str(kind)
    return ""


def expect_stitch(
    pattern: Pattern, words: str, tally: Tally, scales: Mapping[str | None, Scale], own: Gauge | None = None
) -> float:
    """Inches of yarn that one stitch of a swatch would take by the published lengths; `words` name its stitch.

    The swatch was made in the plain stitch that is named, in the fabric of the gauge that is named, or, where
    neither is, in the pattern's own mix. `own` is the gauge that it measures itself, where it was measured.
    """
    kind = read_stitch(words, pattern.terms)
    if kind:
        return expect_plain_stitch(pattern, kind, scales, own)
    names = {gauge.stitch.lower(): gauge.name for gauge in pattern.gauges if gauge.stitch}
    names |= {gauge.name.lower(): gauge.name for gauge in pattern.gauges if gauge.name}
    name = names.get(words.lower())
    within = {name} if name is not None and tally.places.get(name) else set(scales)
    measured = {gauge: scale_by_gauge(own, average_height(tally, gauge)) for gauge in within} if own else scales
    inches = sum(
        measure_stitch(yarn_of(kind), measured[gauge]) * number
        for (gauge, _, kind), number in tally.worked.items()
        if gauge in within
    )
    places = sum(number for gauge, number in tally.places.items() if gauge in within)
    return inches / places if places else 0.0


def expect_plain_stitch(
    pattern: Pattern, kind: str, scales: Mapping[str | None, Scale], own: Gauge | None = None
) -> float:
    """A swatch of one plain stitch: at its own gauge, at one taken in that stitch, else at the scale of the fabric."""
    stitch = yarn_of(kind)
    if own is not None:
        return measure_stitch(stitch, scale_by_gauge(own, stitch.height))
    for gauge in pattern.gauges:
        if gauge.sts > 0 and kind in (read_stitch(gauge.stitch, pattern.terms), read_stitch(gauge.name, pattern.terms)):
            return measure_stitch(stitch, scale_by_gauge(gauge, stitch.height))
    scale = next(iter(scales.values()), None)
    return measure_stitch(stitch, scale) if scale else 0.0
