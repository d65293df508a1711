"""Whether a gauge can be meant: in its yarn, in the fabric that it measures, and beside its own swatch."""

import re
from collections import Counter
from collections.abc import Iterator, Mapping
from typing import Any

from booklet.amounts import messages_gauge as messages
from booklet.amounts.gauges import find_gauge, measure_over
from booklet.amounts.scales import read_stitch
from booklet.amounts.tally import list_yarn
from booklet.findings import Finding
from booklet.model.pattern import Gauge, Pattern
from booklet.model.work import WorkedPattern
from booklet.reading.gauge_facts import gauge_of
from booklet.terms import load_table

# A gauge this many times outside the yarn weight's band is a slip of the pen, not another stitch.
GAUGE_DOUBT = 2.0
# Toys are worked tight, so that no filling shows: finer than the band is meant.
TIGHT_KINDS = ("toy", "amigurumi", "doll", "plush")
# A gauge holds for the fabric that at least this share of its stitches make.
OWN_SHARE = 0.5
FEW_STITCHES = 20
# Counted over 10 cm, half a stitch is as near as a ruler tells; on a wide piece 4 % are a size.
SWATCH_SHARE, SWATCH_STITCHES = 0.04, 0.5


def check_gauges(pattern: Pattern, worked: WorkedPattern) -> tuple[Finding, ...]:
    """What is doubtful about the pattern's gauges."""
    findings: list[Finding] = []
    for gauge in (gauge for gauge in pattern.gauges if not gauge.is_from_motif):
        if gauge.sts > 0 and gauge.over.amount > 0:
            findings += _check_band(pattern, gauge)
            findings += _check_fabric(pattern, worked, gauge)
            findings += _check_swatch(pattern, gauge)
    return tuple(findings)


def _check_band(pattern: Pattern, gauge: Gauge) -> Iterator[Finding]:
    """Against the guide of the yarn's weight, in all the editions that were printed of it.

    The guide is for one plain stitch; a gauge in another stitch is told only where it is far off.
    """
    weight = pattern.yarn.weight if pattern.yarn else None
    entry = load_table("yarn_weights").get(weight) if weight is not None else None
    if entry is None or weight is None:
        return
    stitches = gauge.sts / measure_over(gauge).cm * 10
    low, high = entry["sc_per_4in"]
    if stitches > (high or 0) * GAUGE_DOUBT or stitches * GAUGE_DOUBT < (low or 0):
        yield messages.gauge_unlikely(gauge, stitches, weight, entry)
        return
    if _name_stitch(pattern, gauge) != entry["gauge_stitch"]:
        return
    least, most = find_band(entry)
    is_tight = stitches > most and any(kind in pattern.kind for kind in TIGHT_KINDS)
    if not least <= stitches <= most and not is_tight:
        yield messages.gauge_outside_band(gauge, stitches, weight, entry)


def find_band(entry: Mapping[str, Any]) -> tuple[float, float]:
    """The stitches in 4 in that any edition of the guide gives a weight, lowest and highest."""
    bands = [entry["sc_per_4in"], *entry.get("other_editions", ())]
    return min(band[0] or 0 for band in bands), max(band[1] or float("inf") for band in bands)


def _name_stitch(pattern: Pattern, gauge: Gauge) -> str:
    """The plain stitch that the gauge was taken in, by its US abbreviation; "" where it was another fabric."""
    return read_stitch(gauge.stitch, pattern.terms) or ("" if gauge.stitch else read_stitch(gauge.name, pattern.terms))


def _check_fabric(pattern: Pattern, worked: WorkedPattern, gauge: Gauge) -> Iterator[Finding]:
    """A gauge taken in a plain stitch, over rows that are made of other stitches for the most part."""
    taken_in = _name_stitch(pattern, gauge)
    if not taken_in:
        return
    kinds = _count_kinds(pattern, worked, gauge)
    total = sum(kinds.values())
    own = re.compile(rf"(?:FP|BP)?{re.escape(taken_in)}(?:\d+tog)?", re.IGNORECASE)
    alike = sum(number for kind, number in kinds.items() if own.fullmatch(kind))
    if total < FEW_STITCHES or alike >= OWN_SHARE * total:
        return
    usual, number = kinds.most_common(1)[0]
    yield messages.gauge_stitch_differs(pattern, gauge, taken_in, alike / total, usual, number / total)


def _count_kinds(pattern: Pattern, worked: WorkedPattern, gauge: Gauge) -> Counter[str]:
    """The stitches in the rows that a gauge measures, over all sizes; chains and slip stitches are no fabric."""
    kinds: Counter[str] = Counter()
    for part in worked.parts:
        for rows in part.rows:
            for row in rows:
                if find_gauge(pattern, part, row) is gauge:
                    for (_, kind), number in list_yarn(row.fabric).items():
                        if kind not in ("ch", "sl st"):
                            kinds[kind] += number * part.make
    return kinds


def _check_swatch(pattern: Pattern, gauge: Gauge) -> Iterator[Finding]:
    """A gauge beside the swatch in its stitch: in the state of blocking that the gauge is told for."""
    if gauge.is_from_swatch:
        return
    for swatch in pattern.swatches:
        names = {gauge.name.lower(), gauge.stitch.lower()}
        if swatch.stitch.lower() not in names and not (not swatch.stitch and len(pattern.gauges) == 1):
            continue
        measured = gauge_of(swatch)
        if measured is None or (gauge.blocked and swatch.after is None):
            continue
        yield from (
            messages.gauge_swatch_differs(gauge, measured, what, stated, found)
            for what, stated, found in (
                ("sts", gauge.sts_per_cm, measured.sts_per_cm),
                ("rows", gauge.rows_per_cm, measured.rows_per_cm),
            )
            if stated and found and _is_far(stated * 10, found * 10)
        )


def _is_far(stated: float, found: float) -> bool:
    return abs(stated - found) > max(SWATCH_STITCHES, SWATCH_SHARE * stated)
