"""Suppositions in words, for the terminal."""

from collections.abc import Iterator, Sequence

from booklet.amounts.figures import print_number
from booklet.answers.comparison import MeasureThen, YarnThen
from booklet.answers.layout import (
    lay_columns,
    print_balls,
    print_difference,
    print_length,
    print_values,
    print_yarn,
)
from booklet.answers.running_out import StockAnswer
from booklet.answers.supposing import Reworked, RowsThen, Supposition
from booklet.findings import counted
from booklet.model.pattern import Pattern

MOST_ROWS = 12  # lines of rows that are told; the JSON has all of them


def tell_supposition(pattern: Pattern, answer: Supposition) -> Iterator[str]:
    """The answer to one question, in paragraphs."""
    yield f"{pattern.title}: if {answer.question}"
    if answer.basis == "estimated":
        yield from _tell_estimate(answer)
    if answer.rows_as_stated:
        yield "  No rows were given, so they are taken as stated."
    if answer.measures:
        yield from ("", "Worked as it is written")
        yield from _lay_measures(pattern, answer.measures)
    yield from _tell_yarn(pattern, answer.yarn, answer.basis)
    yield from _tell_advice(pattern, answer)
    if answer.reworked is not None:
        yield from _tell_reworked(pattern, answer)


def _tell_estimate(answer: Supposition) -> Iterator[str]:
    for gauge in answer.gauges:
        rows = f" and {print_number(round(gauge.then_rows, 1))} rows" if gauge.then_rows else ""
        name = f" in {gauge.name}" if gauge.name and gauge.name != "gauge" else ""
        yield (
            f"  Estimated gauge{name}: {print_number(round(gauge.then_sts, 1))} sts{rows} = "
            f"{gauge.over.amount:g} {gauge.over.unit}, from the bands of the two yarn weights. Make a swatch first."
        )
    if answer.counted_in:
        yield f"  The guide counts lace in {answer.counted_in}, which is taken to be as wide as the other weights' sc."
    low, high = answer.hook_band_mm or (None, None)
    hooks = " to ".join(f"{print_number(mm)} mm" for mm in (low, high) if mm is not None)
    if hooks:
        edge = " or more" if high is None else ""
        yield f"  Hooks that suit this weight: {hooks}{edge}."


def _lay_measures(pattern: Pattern, measures: Sequence[MeasureThen]) -> Iterator[str]:
    parts = {measure.part for measure in measures}
    lines = []
    for measure in measures:
        name = f"{measure.part}: {measure.name}" if len(parts) > 1 and measure.part else measure.name
        known = None not in (measure.cm, measure.then_cm)
        lines.append(
            (
                measure.size,
                name,
                print_length(measure.cm, measure.inches, pattern.units_first),
                print_length(measure.then_cm, measure.then_inches, pattern.units_first),
                print_difference(
                    (measure.then_cm or 0) - (measure.cm or 0) if known else None,
                    (measure.then_inches or 0) - (measure.inches or 0) if known else None,
                    pattern.units_first,
                ),
            )
        )
    yield from lay_columns(("size", "measure", "as stated", "then", "difference"), lines)


def _tell_yarn(pattern: Pattern, yarn: Sequence[YarnThen], basis: str) -> Iterator[str]:
    if not yarn:
        return
    how = {
        "carried over": "the stated figures, carried over by published lengths",
        "estimated": "estimated from published lengths and the estimated gauge",
        "worked out": "worked out from every stitch",
    }[basis]
    yield from ("", f"Yarn to buy, {print_number(pattern.margin * 100)} % in reserve included ({how})")
    lines = [
        (
            need.size,
            " ".join(word for word in (need.letter, need.colour) if word),
            print_yarn(need.metres, pattern.units_first),
            print_balls(need.balls),
            print_yarn(need.then_metres, pattern.units_first),
            print_balls(need.then_balls),
        )
        for need in yarn
    ]
    yield from lay_columns(("size", "colour", "as stated", "", "then", ""), lines)
    swatch = next((need for need in yarn if need.swatch_metres), None)
    if swatch is not None:
        of = f" of {swatch.letter}" if swatch.letter else ""
        length = print_yarn(swatch.swatch_metres, pattern.units_first)
        yield f"  Balls{of} allow for a swatch besides, {length} as stated."


def _tell_advice(pattern: Pattern, answer: Supposition) -> Iterator[str]:
    if answer.hook is not None:
        hook = answer.hook
        more = "more" if hook.direction == "larger" else "fewer"
        us = f" ({hook.us})" if hook.us else ""
        yield from ("", "Which hook to try")
        yield (
            f"  There are {more} stitches than stated, so the hook should be {hook.direction}: "
            f"{print_number(hook.try_mm)} mm{us} instead of {print_number(hook.used_mm)} mm. Make another swatch."
        )
    if answer.sizes:
        yield from ("", "Which size to work" + (", if the hook stays" if answer.kind == "gauge" else ""))
        lines = [
            (
                choice.wanted,
                print_length(choice.wanted_cm, choice.wanted_inches, pattern.units_first),
                choice.work,
                print_length(choice.cm, choice.inches, pattern.units_first),
                print_difference(
                    choice.cm - choice.wanted_cm, choice.inches - choice.wanted_inches, pattern.units_first
                ),
            )
            for choice in answer.sizes
        ]
        yield from lay_columns(("for size", "meant", "work size", "comes to", "difference"), lines)


def _tell_reworked(pattern: Pattern, answer: Supposition) -> Iterator[str]:
    reworked = answer.reworked
    assert reworked is not None
    keeps = answer.kind != "number"
    yield from ("", "Or with other numbers, to keep the measures" if keeps else "What follows, in every size")
    for number in reworked.numbers:
        yield f"  {number.name}: {print_values(number.then)} instead of {print_values(number.values)}"
    if not reworked.numbers:
        yield "  no number changes"
    if not reworked.proves:  # what wrong rows would measure is no answer
        yield from ("", _tell_proof(reworked))
        yield from (f"  {line}" for line in reworked.findings)
        return
    yield from _tell_rows(reworked.rows)
    yield from _lay_measures(pattern, reworked.measures)
    basis = "worked out" if answer.kind == "number" else answer.basis
    yield from _tell_yarn(pattern, reworked.yarn, basis)
    yield from ("", _tell_proof(reworked))
    yield from (f"  {line}" for line in reworked.findings)


def _tell_rows(rows: Sequence[RowsThen]) -> Iterator[str]:
    lines = [
        (
            f"line {row.line}",
            " ".join(word for word in (f"{row.section}," if row.section else "", row.label) if word),
            _tell_change(row.made, row.then_made, "sts"),
            _tell_change(row.rows, row.then_rows, "rows"),
        )
        for row in rows[:MOST_ROWS]
    ]
    if lines:
        yield from lay_columns(("where", "row", "makes", "stands for"), lines)
    if len(rows) > MOST_ROWS:
        yield f"  and {counted(len(rows) - MOST_ROWS, 'further line')}; --json has them all"


def _tell_change(before: Sequence[int], then: Sequence[int], unit: str) -> str:
    if before == then:
        return ""
    return f"{print_values(then)} {unit} instead of {print_values(before)}"


def _tell_proof(reworked: Reworked) -> str:
    if not reworked.proves:
        return "So changed, the rows do not come out, and nothing can be said of measures and yarn:"
    if reworked.findings:
        return "So changed, every row still comes out. Found besides:"
    return "So changed, every row still comes out."


def tell_stock(pattern: Pattern, answers: Sequence[StockAnswer]) -> Iterator[str]:
    """How far a stock of one colour goes."""
    if not answers:
        yield f"{pattern.title}: no size has this colour"
        return
    name = " ".join(word for word in (answers[0].letter, answers[0].colour) if word) or "the yarn"
    yield f"{pattern.title}: what there is of {name}"
    lines = [
        (
            answer.size,
            print_yarn(answer.metres, pattern.units_first),
            print_yarn(answer.to_buy, pattern.units_first),
            f"{answer.rows} of {counted(answer.rows_in_all, 'row')}",
            f"{answer.sure_rows} of {counted(answer.rows_in_all, 'row')}",
            answer.stops_in or "it is enough",
        )
        for answer in answers
    ]
    head = ("size", "there is", "asked for", "gives", "with the reserve kept", "runs out in")
    yield from lay_columns(head, lines)
    for answer in answers:
        in_size = f"size {answer.size}: " if answer.size else ""
        for smaller in answer.smaller:
            metres = print_yarn(smaller.metres, pattern.units_first)
            yield (
                f"  {in_size}enough with {smaller.number} {smaller.then} instead of {smaller.values} "
                f"({metres}, the reserve included)"
            )
