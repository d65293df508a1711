"""The words of everything that sizing can find."""

from collections.abc import Sequence
from difflib import get_close_matches

from booklet.findings import Finding, Note, counted, error, warning
from booklet.model.pattern import Gauge, NumberRule, Size
from booklet.source import Span


def unknown_gauge(rule: NumberRule, gauges: Sequence[Gauge], span: Span) -> Finding:
    names = [gauge.name for gauge in gauges]
    if not rule.gauge:
        message = f'"{rule.name}" needs a gauge, and the pattern has ' + ("several" if names else "none")
    else:
        message = f'no gauge is called "{rule.gauge}"'
    close = get_close_matches(rule.gauge, names, 1, 0.5) or names[:1]
    return error(
        "unknown-gauge",
        message,
        span,
        notes=tuple(Note(gauge.span, f'gauge "{gauge.name}"') for gauge in gauges[:4]),
        expected="one of " + ", ".join(names) if names else "a gauge such as 16 sts and 17 rows = 10 cm",
        fix=f'write "gauge: {close[0]}"' if close else 'add "gauge: ..." above',
    )


def gauge_has_no_rows(rule: NumberRule, gauge: Gauge) -> Finding:
    return error(
        "gauge-has-no-rows",
        f'"{rule.name}" counts rows, but gauge "{gauge.name}" has none',
        gauge.span,
        notes=(Note(rule.span, "rows are counted here"),),
        expected="rows in the gauge as well, such as 16 sts and 17 rows = 10 cm",
        fix='add "and ... rows" to the gauge',
    )


def unknown_measure(name: str, span: Span, known: Sequence[str], close: str, missing: Sequence[str] = ()) -> Finding:
    """`missing` names the sizes that lack a measure which others have."""
    message = f'no size has a measure "{name}"'
    if missing:
        message = f'"{name}" is missing in {counted(len(missing), "size")}'
    return error(
        "unknown-measure",
        message,
        span,
        expected=("one of " + ", ".join(known)) if known else f"{name} in each size, such as {{{name}: 70 cm}}",
        fix=f'write "{close}"' if close else f'add "{name}: ..." to each size',
        sizes=tuple(missing),
    )


def unknown_name(name: str, span: Span, close: str, known: Sequence[str]) -> Finding:
    return error(
        "unknown-name",
        f'no number is called "{name}"',
        span,
        expected="one of " + ", ".join(known) if known else 'a name that stands under "numbers:"',
        fix=f'write "{close}"' if close else f'add "{name}: ..." under "numbers:"',
    )


def formula_wrong(reason: str, span: Span, expected: str = "", fix: str = "", sizes: Sequence[str] = ()) -> Finding:
    return error(
        "formula-wrong",
        reason,
        span,
        expected=expected or "arithmetic over numbers and names, such as panel * 3 + 2",
        fix=fix,
        sizes=tuple(sizes),
    )


def circular_number(circle: Sequence[NumberRule]) -> Finding:
    names = [rule.name for rule in circle]
    return error(
        "circular-number",
        f'"{names[0]}" is worked out from itself',
        circle[0].span,
        notes=tuple(Note(rule.span, f'"{rule.name}" is part of the circle') for rule in circle[1:]),
        expected="formulas that lead back to numbers or measures: " + " → ".join([*names, names[0]]),
        fix=f"give one of {', '.join(names)} as numbers or from a measure",
    )


def number_too_coarse(
    rule: NumberRule, repeat_cm: float, step_cm: float, first: Size, second: Size, counts: tuple[int, int]
) -> Finding:
    unit = "st" if rule.direction == "sts" else "row"
    same = f"; both come to {counted(counts[0], unit)}" if counts[0] == counts[1] else ""
    return warning(
        "number-too-coarse",
        f'the multiple of "{rule.name}" is wider than a step in size',
        rule.span,
        label=f"{counted(rule.multiple, unit)} measure {_cm(repeat_cm)}",
        notes=(Note(second.span, f"{first.name} and {second.name} are {_cm(step_cm)} apart{same}"),),
        expected=f"a multiple that measures at most {_cm(step_cm)}, or sizes at least {_cm(repeat_cm)} apart",
        fix="use a smaller repeat, a border that makes up the difference, or fewer sizes",
        sizes=(first.name, second.name),
    )


def _cm(value: float) -> str:
    return f"{round(value, 1):g} cm"
