"""Every named number worked out for every size, in order of dependency.

A number from a measure: the measure in cm with its ease, times the gauge, gives a raw count; its value is
the count nearest to that which fits `multiple` * k + `plus` with k of 0 or more, and is at least 1. Of two
counts that are equally near the larger is taken, as a piece may be eased in, not stretched, unless `tie`
says otherwise; `round: up` or `down` takes the next count above or below instead.

A number that cannot be worked out is told and left out, with all that lead back to it; a list with
too few or too many values (told in reading) is filled up with its last value, so that rows can
still be worked in every size.
"""

import math
import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from itertools import pairwise

from booklet.findings import Finding
from booklet.model.measure import CM_PER_INCH
from booklet.model.pattern import Ease, Gauge, NumberRule, Pattern, SizedNumber, SizedPattern
from booklet.reading.quantities import LENGTH, find_lengths
from booklet.sizing import messages
from booklet.sizing.formula import FormulaError, evaluate_formula, list_names
from booklet.sizing.shaping import name_rates, size_shaping
from booklet.sizing.tables import find_unchecked
from booklet.source import Span

MAX_COUNT = 100_000
MAX_DEPTH = 50  # formulas that one formula may lead through
# Counts this near to each other are equally near: gauges such as 14 sts over 4 in leave rounding dust.
_DUST = 1e-9


def size_pattern(pattern: Pattern) -> tuple[SizedPattern, tuple[Finding, ...]]:
    """The pattern with one value per size for each of its named numbers."""
    sizing = _Sizing(pattern, {rule.name: rule for rule in pattern.numbers})
    for rule in pattern.numbers:
        sizing.work_out(rule, ())
    numbers = {rule.name: number for rule in pattern.numbers if (number := sizing.done[rule.name]) is not None}
    shaping, told = size_shaping(pattern, numbers)
    rates = {number.name: number for each in shaping for number in name_rates(each)}
    unchecked = tuple(find_unchecked(pattern))
    return SizedPattern(pattern, rates | numbers, shaping), (*sizing.findings, *told, *unchecked)


def fit_count(raw: float, multiple: int, plus: int, rounding: str = "nearest", tie: str = "up") -> int:
    """The count for `raw` that is `multiple` * k + `plus`, k at least 0, and at least 1.

    The nearest, of two that are equally near the larger, or the smaller where `tie` is "down"; with
    `rounding` "up" or "down" the next that is no smaller, or no larger, than `raw`.
    """
    lowest = max(0, math.ceil((1 - plus) / multiple))
    steps = (raw - plus) / multiple
    if rounding == "up":
        k = math.ceil(steps - _DUST)
    elif rounding == "down":
        k = math.floor(steps + _DUST)
    elif tie == "down":
        k = math.ceil(steps - 0.5 - _DUST)
    else:
        k = math.floor(steps + 0.5 + _DUST)
    return multiple * max(lowest, k) + plus


@dataclass
class _Sizing:
    """The numbers of one pattern on their way; None stands for one that cannot be worked out."""

    pattern: Pattern
    rules: Mapping[str, NumberRule]
    done: dict[str, SizedNumber | None] = field(default_factory=dict)
    findings: list[Finding] = field(default_factory=list)

    def work_out(self, rule: NumberRule, above: tuple[NumberRule, ...]) -> SizedNumber | None:
        """The sized number; `above` are the rules that are waiting for it."""
        if rule.name in self.done:
            return self.done[rule.name]
        if rule in above:
            circle = above[above.index(rule) :]
            self.findings.append(messages.circular_number(circle))
            self.done |= dict.fromkeys((r.name for r in circle), None)
            return None
        if len(above) > MAX_DEPTH:
            reason = f"the formula leads through more than {MAX_DEPTH} others"
            self.findings.append(messages.formula_wrong(reason, rule.span))
            number = None
        elif rule.formula:
            number = self._work_formula(rule, above)
        elif rule.measure:
            number = self._work_measure(rule)
        else:
            number = self._number(rule, self._fill_up(rule.values))
        self.done.setdefault(rule.name, number)
        return self.done[rule.name]

    def _was_refused(self, *path: str) -> bool:
        """Whether a fact was given but could not be read: that has been told already."""
        refused = self.pattern.refused
        return any(path[:length] in refused for length in range(1, len(path) + 1))

    def _fill_up(self, values: tuple[int, ...]) -> tuple[int, ...]:
        sizes = len(self.pattern.size_names)
        return (values + (values[-1],) * sizes)[:sizes]

    def _number(self, rule: NumberRule, values: tuple[int, ...]) -> SizedNumber | None:
        if max(values) <= MAX_COUNT:
            return SizedNumber(rule.name, values, rule.span)
        self.findings.append(
            messages.formula_wrong(f'"{rule.name}" comes to {max(values)}', rule.span, f"at most {MAX_COUNT}")
        )
        return None

    def _work_formula(self, rule: NumberRule, above: tuple[NumberRule, ...]) -> SizedNumber | None:
        span = _find_words(rule.span, rule.formula)
        try:
            names = list_names(rule.formula)
        except FormulaError as wrong:
            self.findings.append(messages.formula_wrong(str(wrong), span))
            return None
        parts: dict[str, SizedNumber] = {}
        for name in names:
            inner = self.rules.get(name)
            if inner is None:
                if not self._was_refused("numbers", name):
                    self._tell_unknown(name, rule, span)
                return None
            number = self.work_out(inner, (*above, rule))
            if number is None:
                return None
            parts[name] = number
        return self._evaluate(rule, span, parts)

    def _evaluate(self, rule: NumberRule, span: Span, parts: Mapping[str, SizedNumber]) -> SizedNumber | None:
        values: list[int] = []
        for at, size in enumerate(self.pattern.size_names):
            inside = {name: float(number.values[at]) for name, number in parts.items()}
            try:
                value = evaluate_formula(rule.formula, inside)
            except FormulaError as wrong:
                self.findings.append(messages.formula_wrong(str(wrong), span, sizes=(size,) if size else ()))
                return None
            whole = round(value)
            if abs(value - whole) > _DUST or whole < 0:
                self._tell_no_count(rule, span, value, size)
                return None
            values.append(whole)
        return self._number(rule, tuple(values))

    def _tell_unknown(self, name: str, rule: NumberRule, span: Span) -> None:
        known = [known for known in self.rules if known != rule.name]
        try:
            evaluate_formula(name, dict.fromkeys(known, 1.0))
        except FormulaError as wrong:
            self.findings.append(messages.unknown_name(name, _find_name(span, name), wrong.close, known))

    def _tell_no_count(self, rule: NumberRule, span: Span, value: float, size: str) -> None:
        where = f" in size {size}" if size else ""
        fix = f'write "round({rule.formula})", or floor or ceil' if value >= 0 else ""
        self.findings.append(
            messages.formula_wrong(
                f'"{rule.name}" comes to {round(value, 3):g}{where}',
                span,
                "a whole number, 0 or more",
                fix,
                (size,) if size else (),
            )
        )

    def _work_measure(self, rule: NumberRule) -> SizedNumber | None:
        gauge = self._find_gauge(rule)
        body = self._measure_targets(rule)
        if gauge is None or body is None:
            return None
        ease = self._add_ease(rule, body)
        if ease is None:
            return None
        targets = tuple(cm + more for cm, more in zip(body, ease, strict=True))
        as_gauged = self._scale_to_gauge(rule, gauge, body, targets)
        per_cm = gauge.sts_per_cm if rule.direction == "sts" else gauge.rows_per_cm
        if per_cm is None:
            self.findings.append(messages.gauge_has_no_rows(rule, gauge))
            return None
        values = _fit_counts(rule, [cm * per_cm for cm in as_gauged])
        self._check_steps(rule, as_gauged, values, per_cm)
        self._check_parity(rule, gauge, values)
        if self._number(rule, values) is None:
            return None
        return SizedNumber(
            name=rule.name,
            values=values,
            span=rule.span,
            gauge=gauge.name,
            measure=rule.measure,
            multiple=rule.multiple,
            plus=rule.plus,
            target_cm=targets,
            true_cm=tuple(
                value / per_cm * target / own for value, target, own in zip(values, targets, as_gauged, strict=True)
            ),
            ease_cm=ease if rule.ease else (),
            rounding=rule.rounding,
            tie=rule.tie,
        )

    def _scale_to_gauge(
        self, rule: NumberRule, gauge: Gauge, body: tuple[float, ...], targets: tuple[float, ...]
    ) -> tuple[float, ...]:
        """The targets in the gauge's centimetres: 36 in is nine times 4 in, whatever the gauge makes of 4 in."""
        measured = self._measure_targets(rule, gauge.cm_per_inch) or body
        return tuple(target * own / true for target, own, true in zip(targets, measured, body, strict=True))

    def _add_ease(self, rule: NumberRule, body: tuple[float, ...]) -> tuple[float, ...] | None:
        """What the ease adds in every size; None where nothing would be left of a measure."""
        eases = (rule.ease + rule.ease[-1:] * len(body))[: len(body)] or (Ease(),) * len(body)
        added = tuple(ease.cm + ease.share * cm for ease, cm in zip(eases, body, strict=True))
        for at, (cm, more) in enumerate(zip(body, added, strict=True)):
            if cm + more <= 0:
                self._tell_no_length(rule.span, cm + more, self.pattern.size_names[at])
                return None
        return added

    def _find_gauge(self, rule: NumberRule) -> Gauge | None:
        """The gauge by its name or its stitch; the only one where the rule names none."""
        gauges = self.pattern.gauges
        if not rule.gauge and len(gauges or self.pattern.motif_gauges) == 1:
            return (gauges or self.pattern.motif_gauges)[0]
        gauges += self.pattern.motif_gauges
        wanted = rule.gauge.lower()
        for gauge in gauges:
            if wanted and wanted in (gauge.name.lower(), gauge.stitch.lower(), gauge.motif.lower()):
                return gauge
        if not self._was_refused("gauge", rule.gauge):
            self.findings.append(messages.unknown_gauge(rule, gauges, _find_words(rule.span, rule.gauge)))
        return None

    def _measure_targets(self, rule: NumberRule, cm_per_inch: float = CM_PER_INCH) -> tuple[float, ...] | None:
        """The measure in cm for every size."""
        span = _find_words(rule.span, rule.measure)
        known = tuple(dict.fromkeys(name for size in self.pattern.sizes for name in size.measures))
        text, names, lengths = name_measures(rule.measure, known, cm_per_inch)
        try:
            called = list_names(text)
        except FormulaError as wrong:
            self.findings.append(
                messages.formula_wrong(str(wrong), span, "a measure, such as width / 2 or width + 5 cm")
            )
            return None
        targets: list[float] = []
        for at, size in enumerate(self.pattern.size_names):
            measures = self.pattern.sizes[at].measures if self.pattern.sizes else {}
            inside = lengths | {
                short: measures[name].cm_at(cm_per_inch) for short, name in names.items() if name in measures
            }
            missing = next((short for short in called if short not in inside), None)
            if missing is not None:
                self._tell_missing(names.get(missing, missing), span, known)
                return None
            try:
                cm = evaluate_formula(text, inside)
                if not is_length(text, inside, cm):
                    raise FormulaError("a length and a bare number are mixed")
            except FormulaError as wrong:
                expected = "lengths with their units, such as width + 5 cm"
                sizes = (size,) if size else ()
                self.findings.append(messages.formula_wrong(str(wrong), span, expected, sizes=sizes))
                return None
            if cm <= 0:
                self._tell_no_length(span, cm, size)
                return None
            targets.append(cm)
        return tuple(targets)

    def _tell_missing(self, name: str, span: Span, known: tuple[str, ...]) -> None:
        lacking = [
            size.name
            for size in self.pattern.sizes
            if name not in size.measures and not self._was_refused("sizes", size.name, name)
        ]
        close = ""
        if self._was_refused("sizes") or (self.pattern.sizes and not lacking):
            return
        if name not in known:
            lacking = []
            try:
                evaluate_formula(name, {word: 1.0 for word in known if word.isidentifier()})
            except FormulaError as wrong:
                close = wrong.close
        self.findings.append(messages.unknown_measure(name, _find_name(span, name), known, close, lacking))

    def _tell_no_length(self, span: Span, cm: float, size: str) -> None:
        message = f"the measure comes to {round(cm, 1):g} cm" + (f" in size {size}" if size else "")
        sizes = (size,) if size else ()
        self.findings.append(messages.formula_wrong(message, span, "a length above 0", sizes=sizes))

    def _check_steps(
        self, rule: NumberRule, targets: tuple[float, ...], values: tuple[int, ...], per_cm: float
    ) -> None:
        """Tell where a repeat is wider than the smallest step between one size and the next."""
        sizes = self.pattern.sizes
        repeat_cm = rule.multiple / per_cm
        steps = [
            (abs(after - before), at)
            for at, (before, after) in enumerate(pairwise(targets))
            if abs(after - before) > _DUST
        ]
        if not steps or rule.multiple == 1:
            return
        step, at = min(steps)
        if repeat_cm > step + _DUST:
            counts = (values[at], values[at + 1])
            forced = tuple(value / per_cm for value in values)
            self.findings.append(
                messages.number_too_coarse(rule, repeat_cm, step, sizes[at], sizes[at + 1], counts, targets, forced)
            )

    def _check_parity(self, rule: NumberRule, gauge: Gauge, values: tuple[int, ...]) -> None:
        """Tell where rows worked to and fro end on one side in some sizes and on the other in others."""
        if rule.direction != "rows" or gauge.in_rounds or gauge.motif or len({value % 2 for value in values}) < 2:
            return
        self.findings.append(messages.rows_end_on_two_sides(rule, values, self.pattern.size_names))


def _fit_counts(rule: NumberRule, raws: Sequence[float]) -> tuple[int, ...]:
    """The counts of all sizes; with `keep: parity` all are odd or even as the first is."""
    values = tuple(fit_count(raw, rule.multiple, rule.plus, rule.rounding, rule.tie) for raw in raws)
    if rule.keep != "parity" or len({value % 2 for value in values}) < 2:
        return values
    # An odd multiple changes parity with every repeat: every second repeat has that of the first size.
    return tuple(
        fit_count(raw, 2 * rule.multiple, _lowest_alike(rule, values[0]), rule.rounding, rule.tie) for raw in raws
    )


def _lowest_alike(rule: NumberRule, value: int) -> int:
    """The least count of the rule, `plus` or one repeat more, that is odd or even as the value is."""
    return rule.plus if (rule.plus - value) % 2 == 0 else rule.plus + rule.multiple


def name_measures(
    text: str, known: tuple[str, ...], cm_per_inch: float = CM_PER_INCH
) -> tuple[str, dict[str, str], dict[str, float]]:
    """A measure as a formula: measures and lengths replaced by short names.

    `finished width + 5 cm` gives `m0 + l0` with `m0` for the measure and `l0` for 5 cm. Names that
    are not measures stay as they are.
    """
    lengths: dict[str, float] = {}

    def name_length(match: re.Match[str]) -> str:
        short = f"l{len(lengths)}_"
        lengths[short] = find_lengths(match.group())[0].cm_at(cm_per_inch)
        return short

    text = re.sub(LENGTH, name_length, text, flags=re.IGNORECASE)
    names = {f"m{at}_": name for at, name in enumerate(known)}
    for short, name in sorted(names.items(), key=lambda item: -len(item[1])):
        text = re.sub(rf"(?<![\w]){re.escape(name)}(?![\w])", short, text)
    return text, names, lengths


def is_length(text: str, inside: Mapping[str, float], value: float) -> bool:
    """Whether a formula over lengths is itself a length: all lengths doubled, so is it.

    `width / 2` is one, `width + 2` and `width * width` are not. Rounding is not proportional, so
    formulas that round are let through.
    """
    if re.search(r"\b(?:round|floor|ceil)\s*\(|//|%", text):
        return bool(inside)
    doubled = evaluate_formula(text, {name: 2 * length for name, length in inside.items()})
    return math.isclose(doubled, 2 * value, rel_tol=1e-9, abs_tol=1e-9) and bool(list_names(text))


def _find_words(span: Span, words: str) -> Span:
    """The place of some words inside a stretch; the stretch as a whole where they are not found."""
    at = span.text.find(words) if words else -1
    return span if at < 0 else span.sub(at, at + len(words))


def _find_name(span: Span, name: str) -> Span:
    match = re.search(rf"(?<!\w){re.escape(name)}(?!\w)", span.text)
    return span if match is None else span.sub(match.start(), match.end())
