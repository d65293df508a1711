"""What becomes of a proved pattern if its gauge, one of its numbers or its yarn is another.

Two questions hide in a gauge that came out otherwise, and both are answered: what the rows as written come to,
and which numbers would keep the measures. The second sizes and works the whole pattern again.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from booklet.amounts.amounts import compute_amounts
from booklet.answers.advice import HookAdvice, SizeChoice, advise_hook, choose_sizes
from booklet.answers.asked import OtherGauge, OtherNumber, OtherYarn
from booklet.answers.changes import change_gauge, change_number, change_yarn, find_gauge_meant, leave_out_measured
from booklet.answers.comparison import (
    MeasureThen,
    YarnThen,
    carry_yarn,
    compare_measures,
    compare_yarn,
)
from booklet.drawings.seam_lengths import measure_seams
from booklet.findings.render import has_errors, render_brief
from booklet.model.amounts import Amounts
from booklet.model.measure import Length
from booklet.model.parsed import ParsedPattern
from booklet.model.pattern import Gauge, Pattern, SizedPattern
from booklet.model.work import WorkedPattern, WorkedRow
from booklet.pipeline import Proof, prove_pattern
from booklet.terms import load_table

USUAL_STITCH = "sc"  # what the guide of yarn weights counts in for most of them
OWN_DOING = ("ball-missing",)  # what is told of a yarn that was only supposed


@dataclass(frozen=True, slots=True)
class GaugeThen:
    """A gauge as stated and then, over the length of the second."""

    name: str
    sts: float
    rows: float | None
    then_sts: float
    then_rows: float | None
    over: Length


@dataclass(frozen=True, slots=True)
class NumberThen:
    """A named number in every size, as it is and then."""

    name: str
    values: tuple[int, ...]
    then: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class RowsThen:
    """What a line of rows makes in every size, and how many rows it stands for, as it is and then."""

    section: str
    label: str
    line: int
    made: tuple[int, ...]
    then_made: tuple[int, ...]
    rows: tuple[int, ...]
    then_rows: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class Reworked:
    """The pattern worked again with other numbers. `findings` are those that it did not have before, a line each."""

    numbers: tuple[NumberThen, ...]
    rows: tuple[RowsThen, ...]
    measures: tuple[MeasureThen, ...]
    yarn: tuple[YarnThen, ...]
    proves: bool
    findings: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Supposition:
    """The answer to one question.

    `kind` is gauge, number or yarn. `measures` and `yarn` hold where the rows stay as they are written,
    `reworked` where other numbers are worked. `basis` says how the yarn figures came about: those of another
    gauge or weight are carried over from the stated ones by published lengths.
    """

    kind: str
    question: str
    basis: str
    gauges: tuple[GaugeThen, ...] = ()
    rows_as_stated: bool = False  # only stitches were counted
    measures: tuple[MeasureThen, ...] = ()
    yarn: tuple[YarnThen, ...] = ()
    hook: HookAdvice | None = None
    hook_band_mm: tuple[float | None, float | None] | None = None
    counted_in: str = ""  # the stitch that a weight is counted in, where it is another than that of most weights
    sizes: tuple[SizeChoice, ...] = ()
    reworked: Reworked | None = None


@dataclass(frozen=True, slots=True)
class Known:
    """A proof of which every pass has run."""

    pattern: Pattern
    sized: SizedPattern
    parsed: ParsedPattern
    worked: WorkedPattern
    amounts: Amounts
    proof: Proof


def know(proof: Proof) -> Known | None:
    """The proof as something that can be asked; None where the source could not be read at all."""
    if proof.pattern is None or proof.sized is None or proof.parsed is None:
        return None
    if proof.worked is None or proof.amounts is None:
        return None
    return Known(proof.pattern, proof.sized, proof.parsed, proof.worked, proof.amounts, proof)


def suppose_gauge(known: Known, asked: OtherGauge) -> Supposition:
    """The gauge came out otherwise: measures, yarn, hook and size. Raises UnreadError where it is not one of its."""
    stated = find_gauge_meant(known.pattern, asked.name)
    changed, then = change_gauge(known.pattern, stated, asked)
    gauge = _set_gauges(stated, then)
    measures, yarn, published = _answer_as_written(known, changed)
    return Supposition(
        kind="gauge",
        question=f"the gauge comes out at {_count_gauge(then.sts, then.rows)} instead of "
        f"{_count_gauge(gauge.sts, gauge.rows)} over {then.over.amount:g} {then.over.unit}",
        basis="carried over",
        gauges=(gauge,),
        rows_as_stated=asked.rows is None and stated.rows is not None,
        measures=measures,
        yarn=yarn,
        hook=advise_hook(known.pattern, stated, then),
        sizes=choose_sizes(measures),
        reworked=_rework_to_measure(known, changed, published),
    )


def suppose_yarn(known: Known, asked: OtherYarn) -> Supposition:
    """A yarn of another weight, its gauge estimated. Raises UnreadError where the weights cannot be compared."""
    changed = change_yarn(known.pattern, asked)
    measures, yarn, published = _answer_as_written(known, changed)
    table = load_table("yarn_weights")
    band = table[asked.weight]["hook_mm"]
    weights = {asked.weight, known.pattern.yarn.weight if known.pattern.yarn else None} & set(table)
    others = {table[weight]["gauge_stitch"] for weight in weights} - {USUAL_STITCH}
    return Supposition(
        kind="yarn",
        question=f"the yarn is {asked.weight} {asked.weight_name} instead of "
        f"{known.pattern.yarn.weight if known.pattern.yarn else ''} "
        f"{known.pattern.yarn.weight_name if known.pattern.yarn else ''}".rstrip(),
        basis="estimated",
        gauges=tuple(_set_gauges(*pair) for pair in zip(known.pattern.gauges, changed.gauges, strict=True)),
        measures=measures,
        yarn=yarn,
        hook_band_mm=(band[0], band[1]),
        counted_in=", ".join(sorted(others)),
        sizes=choose_sizes(measures),
        reworked=_rework_to_measure(known, changed, published),
    )


def suppose_number(known: Known, asked: OtherNumber) -> Supposition:
    """A named number changed: every count, measure and length of yarn that follows. Raises UnreadError as above."""
    values = {name: number.values for name, number in known.sized.numbers.items()}
    changed = change_number(known.pattern, values, asked)
    then = know(prove_pattern(changed))
    assert then is not None
    words = ", ".join(map(str, asked.values))
    question = f"{asked.name} is {words}" if asked.values else f"{asked.name} is {_signed(asked.plus)} in every size"
    return Supposition(
        kind="number",
        question=question,
        basis="worked out",
        reworked=_compare_work(known, then, compare_yarn(known.pattern, known.amounts, then.amounts)),
    )


def _answer_as_written(known: Known, changed: Pattern) -> tuple[tuple[MeasureThen, ...], tuple[YarnThen, ...], Amounts]:
    """Measures and yarn of the rows as they are worked, and the published figures that the yarn is carried by."""
    numbers, worked = known.sized.numbers, known.worked
    then = _sum_up_work(SizedPattern(changed, numbers), worked)
    before = _sum_up_work(SizedPattern(leave_out_measured(known.pattern), numbers), worked)
    after = _sum_up_work(SizedPattern(leave_out_measured(changed), numbers), worked)
    measures = compare_measures(known.pattern, known.amounts, then)
    return measures, carry_yarn(known.pattern, known.amounts, (before, after), changed.yarn), before


def _sum_up_work(sized: SizedPattern, worked: WorkedPattern) -> Amounts:
    return compute_amounts(sized, worked, measure_seams(sized, worked))[0]


def _rework_to_measure(known: Known, changed: Pattern, published: Amounts) -> Reworked | None:
    """The pattern sized and worked at the other gauge; None where none of its numbers comes from a measure."""
    if not any(rule.measure for rule in known.pattern.numbers):
        return None
    then = know(prove_pattern(leave_out_measured(changed)))
    if then is None or then.sized.numbers == known.sized.numbers:
        return None
    yarn = carry_yarn(known.pattern, known.amounts, (published, then.amounts), changed.yarn)
    return _compare_work(known, then, yarn)


def _compare_work(known: Known, then: Known, yarn: tuple[YarnThen, ...]) -> Reworked:
    earlier = {render_brief(finding) for finding in known.proof.findings}
    new = [
        finding
        for finding in then.proof.findings
        if finding.code not in OWN_DOING and render_brief(finding) not in earlier
    ]
    return Reworked(
        numbers=tuple(
            NumberThen(name, number.values, then.sized.numbers[name].values)
            for name, number in known.sized.numbers.items()
            if name in then.sized.numbers and number.values != then.sized.numbers[name].values
        ),
        rows=_compare_rows(known.worked, then.worked),
        measures=compare_measures(known.pattern, known.amounts, then.amounts),
        yarn=yarn,
        proves=not has_errors(then.proof.findings),
        findings=tuple(render_brief(finding) for finding in new),
    )


def _compare_rows(stated: WorkedPattern, then: WorkedPattern) -> tuple[RowsThen, ...]:
    """The lines whose count or whose number of rows changes in some size, in their order."""
    before, after = _gather_lines(stated), _gather_lines(then)
    found: list[RowsThen] = []
    for line, sizes in before.items():
        others = after.get(line, [[] for _ in sizes])
        if any(_sum_up(rows) != _sum_up(other) for rows, other in zip(sizes, others, strict=True)):
            first = next(rows[0] for rows in (*sizes, *others) if rows)
            made, count = zip(*map(_sum_up, sizes), strict=True)
            then_made, then_count = zip(*map(_sum_up, others), strict=True)
            found.append(RowsThen(first.section, first.label, first.span.line, made, then_made, count, then_count))
    return tuple(found)


def _gather_lines(worked: WorkedPattern) -> dict[int, list[list[WorkedRow]]]:
    """The rows of each line of the source, by its start, a list for each size."""
    lines: dict[int, list[list[WorkedRow]]] = {}
    for part in worked.parts:
        for size, rows in enumerate(part.rows):
            for row in rows:
                lines.setdefault(row.span.start, [[] for _ in part.rows])[size].append(row)
    return lines


def _sum_up(rows: Sequence[WorkedRow]) -> tuple[int, int]:
    """What the last of the rows makes, and how many there are."""
    return (rows[-1].made, len(rows)) if rows else (0, 0)


def _set_gauges(stated: Gauge, then: Gauge) -> GaugeThen:
    """Both gauges over the length of the second."""
    share = then.over.cm / stated.over.cm if then.over.unit == stated.over.unit else 1.0
    rows = None if stated.rows is None else stated.rows * share
    return GaugeThen(stated.name or stated.stitch, stated.sts * share, rows, then.sts, then.rows, then.over)


def _count_gauge(sts: float, rows: float | None) -> str:
    counted = f"{round(sts, 1):g} sts"
    return f"{counted} and {round(rows, 1):g} rows" if rows is not None else counted


def _signed(number: int) -> str:
    return f"{abs(number)} {'more' if number > 0 else 'fewer'}"
