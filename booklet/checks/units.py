"""What the text gives in two units, held against itself: inches and centimetres, yards and metres, ounces and
grams, a hook's millimetres and its US size. The front matter's own quantities are held together where it is read."""

import re
from collections.abc import Iterator, Sequence

from booklet.checks import messages_units as messages
from booklet.findings import Finding
from booklet.model.measure import CM_PER_UNIT, GRAMS_PER_OUNCE
from booklet.model.parsed import ParsedPattern
from booklet.model.work import WorkedPattern
from booklet.reading.hook_sizes import find_hook_pairs, find_millimetres, is_same_hook, name_hook
from booklet.reading.quantities import AMOUNT, SAME_CM, SAME_LABEL, SAME_LENGTH, agree, read_amount
from booklet.source import Span

# How a unit is written, its kind, and what one of it is in centimetres or grams.
_UNITS = {
    r"mm|millimet(?:re|er)s?": ("mm", "metric length"),
    r"cms?|centimet(?:re|er)s?": ("cm", "metric length"),
    r"ins?\.?|inch(?:es)?|[\"″”]|''": ("in", "imperial length"),
    r"ft\.?|feet|foot": ("ft", "imperial length"),
    r"yds?\.?|yards?": ("yd", "imperial yarn"),
    r"m|met(?:re|er)s?": ("m", "metric yarn"),
    r"g|gr|grams?|gms?": ("g", "metric weight"),
    r"ozs?\.?|ounces?": ("oz", "imperial weight"),
}
_UNIT = "|".join(_UNITS)
_VALUE = rf"{AMOUNT}(?:\s?(?:-|–|to)\s?{AMOUNT})?"
_VALUES = rf"{_VALUE}(?:\s*[(\[]\s*{_VALUE}(?:\s*[,:;]\s*{_VALUE})*\s*[)\]])*"
_FIGURES = rf"(?P<values@>{_VALUES})\s?-?(?P<unit@>{_UNIT})(?![A-Za-z])"
_PAIR = re.compile(rf"(?<![\w/.,]){_FIGURES.replace('@', '1')}\s*[(\[/=]\s*{_FIGURES.replace('@', '2')}", re.IGNORECASE)
# How far two figures may be apart, each rounded: a share, and what a short one may be off at least.
_TOLERANCE = {"length": (SAME_LENGTH, SAME_CM), "yarn": (SAME_LABEL, 60.0), "weight": (SAME_LABEL, 2.0)}


def check_units(parsed: ParsedPattern, worked: WorkedPattern) -> Iterator[Finding]:
    """Figures in the text that are not what stands behind them in the other unit."""
    pattern = parsed.sized.pattern
    for part in pattern.parts:
        for block in part.blocks:
            yield from _check_figures(block.span)
            yield from _check_hooks(block.span)
    given = dict.fromkeys((*(gauge.span for gauge in pattern.gauges), *(hook.span for hook in pattern.hooks)))
    for span in given:
        yield from _check_hooks(span)


def _check_figures(span: Span) -> Iterator[Finding]:
    for match in _PAIR.finditer(span.text):
        (first, kind), (second, other) = _name_unit(match["unit1"]), _name_unit(match["unit2"])
        system, what = kind.split()
        if what != other.split()[1] or system == other.split()[0]:
            continue
        share, least = _TOLERANCE[what]
        befores, afters = _list_values(match["values1"]), _list_values(match["values2"])
        if len(befores) != len(afters):
            continue
        off = [
            (a, b)
            for a, b in zip(befores, afters, strict=True)
            if not agree(a * _size(first), b * _size(second), share, least)
        ]
        if off:
            before, after = off[0]
            right = before * _size(first) / _size(second)
            yield messages.units_differ(before, first, after, second, right, span.sub(*match.span()))


def _list_values(text: str) -> Sequence[float]:
    return [read_amount(figure) for figure in re.findall(AMOUNT, text)]


def _name_unit(text: str) -> tuple[str, str]:
    return next(named for form, named in _UNITS.items() if re.fullmatch(form, text, re.IGNORECASE))


def _size(unit: str) -> float:
    """One of the unit in centimetres or grams."""
    return {"g": 1.0, "oz": GRAMS_PER_OUNCE}.get(unit) or CM_PER_UNIT[unit]


def _check_hooks(span: Span) -> Iterator[Finding]:
    for pair in find_hook_pairs(span.text):
        if not is_same_hook(pair):
            sizes = find_millimetres(pair.label)
            yield messages.hook_differs(pair, sizes, name_hook(pair.mm), span.sub(pair.start, pair.end))
