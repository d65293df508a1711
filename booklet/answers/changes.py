"""A pattern with one of its inputs changed, by value: its gauge, a named number, its yarn.

A change that does not fit the pattern raises `UnreadError`, which names what would.
"""

from collections.abc import Mapping, Sequence
from dataclasses import fields, replace
from difflib import get_close_matches

from booklet.amounts.gauges import measure_over
from booklet.amounts.usual_gauge import middle
from booklet.answers.asked import OtherGauge, OtherNumber, OtherYarn
from booklet.model.measure import Length
from booklet.model.pattern import Gauge, NumberRule, Pattern
from booklet.reading.quantities import UnreadError
from booklet.terms import load_table

# What ties the yarn figures to one piece that was really made. It holds for the gauge that this piece had.
MEASURED_FACTS = ("swatch", "swatches", "unravelled", "sample", "testers")


def find_gauge_meant(pattern: Pattern, name: str) -> Gauge:
    """The gauge by its name or its stitch; the only one where none is named."""
    gauges = [gauge for gauge in pattern.gauges if gauge.sts > 0 and gauge.over.amount > 0]
    if not gauges:
        raise UnreadError(f"{pattern.title} states no gauge", "a gauge in the front matter")
    names = [gauge.name or gauge.stitch for gauge in gauges]
    if not name and len(gauges) == 1:
        return gauges[0]
    for gauge in gauges:
        if name and name.lower() in (gauge.name.lower(), gauge.stitch.lower()):
            return gauge
    message = f'{pattern.title} has no gauge "{name}"' if name else f"{pattern.title} has {len(gauges)} gauges"
    raise UnreadError(message, f"one of: {', '.join(names)}", _suggest(name, names))


def change_gauge(pattern: Pattern, stated: Gauge, found: OtherGauge) -> tuple[Pattern, Gauge]:
    """The pattern at the gauge that came out, and that gauge; rows that were not counted are as stated."""
    over = found.over or stated.over
    rows = found.rows
    changed = replace(stated, sts=found.sts, over=over, hook_mm=found.hook_mm or stated.hook_mm)
    if rows is None and stated.rows is not None:
        rows = stated.rows * measure_over(changed).cm / measure_over(stated).cm
    changed = replace(changed, rows=rows)
    gauges = tuple(changed if gauge is stated else gauge for gauge in pattern.gauges)
    return replace(pattern, gauges=gauges), changed


def change_number(pattern: Pattern, values: Mapping[str, tuple[int, ...]], asked: OtherNumber) -> Pattern:
    """The pattern with a named number changed in every size; formulas that hold it follow when it is sized.

    `values` are the numbers as they are, by name.
    """
    if asked.name not in values:
        known = ", ".join(values) or "none"
        message = f'{pattern.title} has no number "{asked.name}"'
        raise UnreadError(message, f"one of its numbers: {known}", _suggest(asked.name, list(values)))
    sizes = len(pattern.size_names)
    if asked.values and len(asked.values) not in (1, sizes):
        raise UnreadError(f'"{asked.name}" is given {len(asked.values)} values', f"1 value, or {sizes}, one a size")
    given = asked.values * sizes if len(asked.values) == 1 else asked.values
    wanted = given or tuple(value + asked.plus for value in values[asked.name])
    if min(wanted) < 1:
        raise UnreadError(f'"{asked.name}" comes to {min(wanted)}', "1 or more in every size")
    return replace(pattern, numbers=tuple(_set_values(rule, asked.name, wanted) for rule in pattern.numbers))


def _set_values(rule: NumberRule, name: str, values: tuple[int, ...]) -> NumberRule:
    if rule.name != name:
        return rule
    return NumberRule(rule.name, rule.span, values=values, direction=rule.direction)


def change_yarn(pattern: Pattern, other: OtherYarn) -> Pattern:
    """The pattern in a yarn of another weight, its gauges estimated from the two weights' bands.

    The trade body gives for each weight how many sc, for lace how many dc, a hook that suits makes in 4 in. A
    fabric of the same stitches is taken to be finer or coarser as the middles of the two bands are, in width and
    height alike. Stitches times hook are the same for lace, counted in dc, as for the other weights: a dc is as
    wide as an sc.
    """
    yarn = pattern.yarn
    if yarn is None or yarn.weight is None:
        raise UnreadError(f"{pattern.title} does not say its yarn weight", "yarn: with its weight, such as 4 Medium")
    factor = _middle(other.weight) / _middle(yarn.weight)
    gauges = tuple(
        replace(gauge, sts=gauge.sts * factor, rows=gauge.rows * factor if gauge.rows else None, hook_mm=None)
        for gauge in pattern.gauges
    )
    if not pattern.gauges:
        pattern = _scale_what_stands_in(pattern, 1 / factor)
    changed = replace(
        yarn,
        name="",
        weight=other.weight,
        weight_name=other.weight_name,
        ball_grams=other.ball_grams,
        ball_metres=other.ball_metres,
    )
    return replace(pattern, yarn=changed, gauges=gauges)


def _scale_what_stands_in(pattern: Pattern, times: float) -> Pattern:
    """The sizes, motifs and hooks that the yarn is worked out from where no gauge is stated, so many times as large."""
    return replace(
        pattern,
        sizes=tuple(
            replace(size, measures={name: Length(one.amount * times, one.unit) for name, one in size.measures.items()})
            for size in pattern.sizes
        ),
        motif_gauges=tuple(
            replace(gauge, over=Length(gauge.over.amount * times, gauge.over.unit)) for gauge in pattern.motif_gauges
        ),
        hooks=tuple(replace(hook, mm=hook.mm * times) for hook in pattern.hooks),
    )


def _middle(weight: int) -> float:
    """Stitches in 4 in at the middle of a weight's band; those of lace are dc, which are as wide as its sc."""
    return middle(load_table("yarn_weights")[weight]["sc_per_4in"])


def leave_out_measured(pattern: Pattern) -> Pattern:
    """The pattern without what was weighed or measured of it: its yarn then comes from published lengths alone."""
    empty = {
        field.name: () if isinstance(getattr(pattern, field.name), tuple) else None
        for field in fields(pattern)
        if field.name in MEASURED_FACTS
    }
    return replace(pattern, **empty)  # type: ignore[arg-type]


def _suggest(name: str, names: Sequence[str]) -> str:
    close = get_close_matches(name, names, 1, 0.6)
    return f'"{close[0]}"' if close else ""
