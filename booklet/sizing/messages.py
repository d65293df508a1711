"""The words of everything that sizing can find."""

from collections.abc import Sequence
from difflib import get_close_matches

from booklet.findings import Finding, Note, counted, error, warning
from booklet.model.pattern import Gauge, NumberRule, ShapingRule, Size
from booklet.model.size_tables import TableFigure
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
    rule: NumberRule,
    repeat_cm: float,
    step_cm: float,
    first: Size,
    second: Size,
    counts: tuple[int, int],
    targets: Sequence[float],
    forced: Sequence[float],
) -> Finding:
    """`targets` and `forced` are the measures of all sizes in cm: as asked for, and as the repeat makes them."""
    unit = "st" if rule.direction == "sts" else "row"
    same = f"; both come to {counted(counts[0], unit)}" if counts[0] == counts[1] else ""
    return warning(
        "number-too-coarse",
        f'the multiple of "{rule.name}" is wider than a step in size',
        rule.span,
        label=f"{counted(rule.multiple, unit)} measure {_cm(repeat_cm)}",
        notes=(Note(second.span, f"{first.name} and {second.name} are {_cm(step_cm)} apart{same}"),),
        expected=f"a multiple that measures at most {_cm(step_cm)}, or sizes at least {_cm(repeat_cm)} apart; "
        f"as it is, {_list_cm(forced)} come out where {_list_cm(targets)} are asked for",
        fix="use a smaller repeat, a border that makes up the difference, or fewer sizes",
        sizes=(first.name, second.name),
    )


def rows_end_on_two_sides(rule: NumberRule, values: Sequence[int], names: Sequence[str]) -> Finding:
    odd = [name for name, value in zip(names, values, strict=True) if value % 2]
    even = [name for name, value in zip(names, values, strict=True) if not value % 2]
    return warning(
        "parity-differs",
        f'"{rule.name}" is odd in {", ".join(odd)} and even in {", ".join(even)}',
        rule.span,
        label="the last row faces one way in some sizes and the other way in others",
        expected="rows that end on the same side in every size",
        fix='add "keep: parity", or "multiple: 2" for an even number of rows',
        sizes=tuple(odd if values[0] % 2 == 0 else even),
    )


def table_from_memory(name: str, table: str, figure: TableFigure, sizes: Sequence[Size]) -> Finding:
    return warning(
        "size-table-unchecked",
        f'"{name}" of the table "{table}" is from memory',
        sizes[0].span,
        label=f"{name} of {_range(figure)} taken here",
        expected=f"figures seen in their source: {figure.source}",
        fix=f'look {name} up, and write "{name}: ..." in the size or in a table of your own',
        sizes=tuple(size.name for size in sizes),
    )


def shaping_not_even(
    rule: ShapingRule, start: Sequence[int], end: Sequence[int], places: Sequence[int], names: Sequence[str]
) -> Finding:
    """`places` are the sizes in which the difference is no multiple of the stitches changed in a row."""
    at = places[0]
    return error(
        "shaping-not-even",
        f"from {start[at]} to {end[at]} sts is {abs(end[at] - start[at])}, and a row changes {rule.by}",
        rule.span,
        expected=f"counts that lie a multiple of {rule.by} apart in every size",
        fix='give both numbers one parity: "multiple: 2", "multiple: 2 + 1" or "keep: parity"'
        if rule.by == 2
        else "change one of the counts, or the stitches of a shaping row",
        sizes=tuple(names[place] for place in places if names[place]),
    )


def shaping_too_steep(rule: ShapingRule, stitches: int, rows: int, size: str) -> Finding:
    room = max(0, (rows - rule.first) // rule.step + bool(rule.first))
    where = f" in size {size}" if size else ""
    return error(
        "shaping-too-steep",
        f'"{rule.name}" changes {counted(stitches, "stitch")} in {counted(rows, "row")}{where}',
        rule.span,
        label=f"{counted(stitches // rule.by, 'shaping row')}, and there is room for {room}",
        expected=f"at most {counted(room * rule.by, 'stitch')}, {rule.by} in a shaping row",
        fix='change more stitches in a row ("by:"), in more rows ("every: 1"), or work longer',
        sizes=(size,) if size else (),
    )


def shaping_two_ways(rule: ShapingRule, rises: Sequence[str], falls: Sequence[str]) -> Finding:
    return error(
        "formula-wrong",
        f'"{rule.name}" increases in {", ".join(rises)} and decreases in {", ".join(falls)}',
        rule.span,
        expected="shaping that goes one way in all sizes",
        fix="check the two counts of the sizes named",
    )


def _list_cm(values: Sequence[float]) -> str:
    first, *others = (f"{round(value, 1):g}" for value in values)
    return f"{first} ({', '.join(others)}) cm" if others else f"{first} cm"


def _range(figure: TableFigure) -> str:
    low, high = figure.low, figure.high
    amount = f"{low.amount:g}" if low == high else f"{low.amount:g} to {high.amount:g}"
    return f"{amount} {high.unit}"


def _cm(value: float) -> str:
    return f"{round(value, 1):g} cm"
