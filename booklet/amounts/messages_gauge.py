"""The words of what is found about gauges."""

from collections.abc import Mapping
from typing import Any

from booklet.amounts.figures import print_number
from booklet.amounts.key import explain_term
from booklet.findings import Finding, Note, warning
from booklet.model.pattern import Gauge, Pattern


def gauge_unlikely(gauge: Gauge, stitches: float, weight: int, entry: Mapping[str, Any]) -> Finding:
    """`stitches` is the gauge over 10 cm, `entry` the row of the yarn weight table."""
    return warning(
        "gauge-unlikely",
        f"{print_number(stitches)} sts in 10 cm is far from what {weight} {entry['name']} yarn gives",
        gauge.span,
        label=f"the yarn weight's guide is {_band(entry)} {entry['gauge_stitch']} in 10 cm",
        expected="stitches counted one by one, and the length they were counted over",
        fix="correct the count, its length or the yarn weight",
    )


def gauge_outside_band(gauge: Gauge, stitches: float, weight: int, entry: Mapping[str, Any]) -> Finding:
    return warning(
        "gauge-outside-band",
        f"{print_number(stitches)} sts in 10 cm is outside the guide for {weight} {entry['name']} yarn",
        gauge.span,
        label=f"the guide is {_band(entry)} {entry['gauge_stitch']} in 10 cm",
        expected=f"a gauge within the guide, which is no rule ({entry['source']})",
        fix="check the yarn weight and the count, or keep it if the fabric is meant to be so",
    )


def gauge_stitch_differs(
    pattern: Pattern, gauge: Gauge, taken_in: str, share: float, usual: str, most: float
) -> Finding:
    """`share` of the stitches are those the gauge names, `most` are the `usual` ones."""
    named, other = (_call(kind, pattern.terms) for kind in (taken_in, usual))
    return warning(
        "gauge-stitch-differs",
        f"the gauge is taken in {named}, and the rows it measures are {_percent(most)} {other}",
        gauge.span,
        label=f"{_percent(share)} of the stitches are {named}" if share else f"no {named} is among them",
        expected="a gauge taken in the stitch of the fabric",
        fix="swatch in the pattern's own stitch, or name the stitch that the gauge was taken in",
    )


def gauge_swatch_differs(gauge: Gauge, measured: Gauge, what: str, stated: float, found: float) -> Finding:
    """`stated` and `found` are stitches or rows to the centimetre, in the gauge and in the swatch."""
    state = "after blocking" if measured.blocked else "before blocking"
    per_cent = abs(found - stated) / stated
    counts = f"{_half(measured.sts)} sts"
    if measured.rows is not None:
        counts += f" and {_half(measured.rows)} rows"
    over = f"{print_number(measured.over.amount)} {measured.over.unit}"
    return warning(
        "gauge-swatch-differs",
        f"the swatch has {_round(found * 10)} {what} in 10 cm {state}, and the gauge {_round(stated * 10)}",
        gauge.span,
        label=f"{_percent(per_cent)} apart",
        notes=(Note(measured.span, f"{counts} = {over}"),),
        expected="the gauge that the swatch has",
        fix=f'write "{counts} = {over}", or measure the swatch again',
    )


def _half(number: float) -> str:
    """To the half stitch, which is as near as a ruler tells."""
    return print_number(round(number * 2) / 2)


def _round(number: float) -> str:
    return print_number(round(number, 1))


def _percent(share: float) -> str:
    return f"{round(share * 100)} %"


def _call(kind: str, terms: str) -> str:
    term = explain_term(kind, terms)
    return term.abbreviation if term else kind


def _band(entry: Mapping[str, Any]) -> str:
    low, high = entry["sc_per_4in"]
    return f"{low} to {high}" if low is not None else f"{high} or fewer"
