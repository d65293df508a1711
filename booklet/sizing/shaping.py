"""Shaping worked out for every size: how often which row changes, as numbers that rows call and as a sentence.

A rule `sleeve` yields `sleeve_changes`, `sleeve_every`, `sleeve_times`, `sleeve_then_every`,
`sleeve_then_times` and `sleeve_rest`.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field

from booklet.findings import Finding
from booklet.model.pattern import Pattern, Rate, ShapingRule, SizedNumber, SizedShaping
from booklet.sizing import messages
from booklet.sizing.formula import FormulaError, evaluate_formula, list_names
from booklet.sizing.rates import RateError, spread_changes
from booklet.source import Span

YIELDS = ("changes", "every", "times", "then_every", "then_times", "rest")
_DUST = 1e-9


@dataclass
class _Shaper:
    pattern: Pattern
    numbers: Mapping[str, SizedNumber]
    findings: list[Finding] = field(default_factory=list)


def size_shaping(
    pattern: Pattern, numbers: Mapping[str, SizedNumber]
) -> tuple[tuple[SizedShaping, ...], tuple[Finding, ...]]:
    """Every rule that can be worked out, and a finding for each that cannot."""
    shaper = _Shaper(pattern, numbers)
    told = {path[1] for path in pattern.refused if path[0] == "shaping" and len(path) > 2}  # wrong already as read
    rules = [rule for rule in pattern.shaping if rule.name not in told]
    sized = tuple(shaping for rule in rules if (shaping := _work_rule(shaper, rule)) is not None)
    return sized, tuple(shaper.findings)


def name_rates(shaping: SizedShaping) -> Iterator[SizedNumber]:
    """The numbers of one rule, by the names that rows call."""
    for what in YIELDS:
        values = tuple(getattr(rate, what) for rate in shaping.rates)
        yield SizedNumber(f"{shaping.rule.name}_{what}", values, shaping.rule.span)


def _work_rule(shaper: _Shaper, rule: ShapingRule) -> SizedShaping | None:
    counts: list[tuple[int, ...]] = []
    for formula in (rule.start, rule.end, rule.over):
        values = _work_formula(shaper, rule, formula)
        if values is None:
            return None
        counts.append(values)
    start, end, over = counts
    names = shaper.pattern.size_names
    falls = [name for name, a, b in zip(names, start, end, strict=True) if b < a]
    rises = [name for name, a, b in zip(names, start, end, strict=True) if b > a]
    if falls and rises:
        shaper.findings.append(messages.shaping_two_ways(rule, rises, falls))
        return None
    uneven = [at for at in range(len(names)) if (end[at] - start[at]) % rule.by]
    if uneven:
        shaper.findings.append(messages.shaping_not_even(rule, start, end, uneven, names))
        return None
    rates: list[Rate] = []
    for at, (a, b, rows) in enumerate(zip(start, end, over, strict=True)):
        try:
            rates.append(spread_changes(abs(b - a) // rule.by, rows, rule.step, rule.first))
        except RateError:
            shaper.findings.append(messages.shaping_too_steep(rule, abs(b - a), rows, names[at]))
            return None
    return SizedShaping(rule, start, end, over, tuple(rates))


def _work_formula(shaper: _Shaper, rule: ShapingRule, formula: str) -> tuple[int, ...] | None:
    """The count in every size; None where it cannot be worked out, which is told."""
    span = _find_words(rule.span, formula)
    values: list[int] = []
    for at, size in enumerate(shaper.pattern.size_names):
        inside = {name: float(number.values[at]) for name, number in shaper.numbers.items()}
        try:
            missing = next((name for name in list_names(formula) if name not in inside), "")
            if missing:
                rules = [known.name for known in shaper.pattern.numbers]
                is_told = missing in rules or ("numbers", missing) in shaper.pattern.refused
                if not is_told:
                    shaper.findings.append(messages.unknown_name(missing, span, "", rules))
                return None
            value = evaluate_formula(formula, inside)
        except FormulaError as wrong:
            shaper.findings.append(messages.formula_wrong(str(wrong), span, sizes=(size,) if size else ()))
            return None
        if abs(value - round(value)) > _DUST or value < 0:
            reason = f'"{formula}" comes to {round(value, 3):g}' + (f" in size {size}" if size else "")
            shaper.findings.append(messages.formula_wrong(reason, span, "a whole number, 0 or more"))
            return None
        values.append(round(value))
    return tuple(values)


def say_shaping(shaping: SizedShaping) -> str:
    """The rule as a maker follows it.

    `increase 1 stitch at each end of every 4th row 5 times, then of every 6th row 3 times: 76 sts`
    """
    rule, rates = shaping.rule, shaping.rates
    verb = "decrease" if any(b < a for a, b in zip(shaping.start, shaping.end, strict=True)) else "increase"
    # "at each end" holds for two stitches a row; any other number is said as it is.
    what = "1 stitch at each end" if rule.by == 2 else "1 stitch at one end" if rule.by == 1 else f"{rule.by} stitches"
    of = "of" if rule.by <= 2 else "in"
    steps: list[str] = []
    if any(rate.first for rate in rates):
        steps.append(f"{of} row {_list([rate.first for rate in rates])}")
    for gaps, times in (
        ([rate.every for rate in rates], [rate.times for rate in rates]),
        ([rate.then_every for rate in rates], [rate.then_times for rate in rates]),
    ):
        if any(times):
            often = f"{_list(times)} {'time' if set(times) == {1} else 'times'}"
            steps.append(f"{of} {_every(gaps)} {often}")
    if not steps:
        return f"work {_list(shaping.over)} rows even"
    rest = [rate.rest for rate in rates]
    even = f"; work {_list(rest)} {'row' if set(rest) == {1} else 'rows'} even" if any(rest) else ""
    return f"{verb} {what} {', then '.join(steps)}{even}: {_list(shaping.end)} sts"


def _every(gaps: Sequence[int]) -> str:
    """`every row`, `every 4th row`, `every 4 (4, 6) rows`; a size that has none shows 0."""
    if set(gaps) == {1}:
        return "every row"
    if len(set(gaps)) == 1:
        return f"every {_order(gaps[0])} row"
    return f"every {_list(gaps)} rows"


def _order(number: int) -> str:
    ending = "th" if number % 100 in (11, 12, 13) else {1: "st", 2: "nd", 3: "rd"}.get(number % 10, "th")
    return f"{number}{ending}"


def _list(values: Sequence[int]) -> str:
    """One figure a size, `5 (6, 7)`; once where all are alike."""
    first, *others = map(str, values)
    return first if all(other == first for other in others) else f"{first} ({', '.join(others)})"


def _find_words(span: Span, words: str) -> Span:
    at = span.text.find(words) if words else -1
    return span if at < 0 else span.sub(at, at + len(words))
