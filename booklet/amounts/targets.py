"""What a measure was meant to be, and whether it came out so.

A target is matched with a measure where it is plain that they mean the same: a named number that is the
measure's own count, or a size's measure by name ("width", "sleeve length"). Anything less is not compared.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import TypeVar

from booklet.amounts import messages
from booklet.amounts.gauges import find_gauge, measure_rows, measure_stitches
from booklet.findings import Finding
from booklet.model.amounts import Measure
from booklet.model.measure import CM_PER_INCH, CM_PER_TRADE_INCH, Length
from booklet.model.pattern import SizedNumber, SizedPattern
from booklet.model.work import WorkedPart, WorkedPattern

AXIS_WORDS = {
    "width": "width",
    "length": "length",
    "circumference": "circumference",
    "round": "circumference",
    "depth": "depth",
    "height": "depth",
}
T = TypeVar("T")
IMPERIAL_UNITS = {"in", "ft", "yd"}
FILLER_WORDS = {"finished", "total", "overall", "the", "of"}
# Half of the half centimetre that is printed: nearer than this no reader can tell.
HALF_PRINTED_CM = 0.25


@dataclass(frozen=True, slots=True)
class Aim:
    """A measure with its targets in it. `number` is the named number it was counted from, if any.

    `name` is the author's word for the target, "" where there is none.
    """

    measure: Measure
    name: str = ""
    number: SizedNumber | None = None


def find_targets(
    sized: SizedPattern, worked: WorkedPattern, part: WorkedPart, measures: Sequence[Measure]
) -> tuple[Aim, ...]:
    """The measures of one piece, each with its target where it plainly has one."""
    aims: list[Aim] = []
    for measure in measures:
        number = find_number(sized, measure)
        if number is not None:
            aims.append(
                Aim(
                    set_target(sized, measure, number.target_cm, number.measure or number.name),
                    number.measure or number.name,
                    number,
                )
            )
            continue
        name = find_name(sized, worked, part, measure, measures)
        if name:
            targets = tuple(size.measures[name].cm for size in sized.pattern.sizes)
            aims.append(Aim(set_target(sized, measure, targets, name), name))
        else:
            aims.append(Aim(measure))
    return tuple(aims)


def set_target(sized: SizedPattern, measure: Measure, target_cm: tuple[float, ...], name: str) -> Measure:
    """The measure with its target and how far it is off, in the unit that its author planned in."""
    unit = find_unit(sized, name)
    target = tuple(cm / CM_PER_INCH for cm in target_cm) if unit == "in" else target_cm
    reached = measure.inches if unit == "in" else measure.cm
    return replace(
        measure,
        target_cm=target_cm,
        target_name=name,
        target_unit=unit,
        target=target,
        difference=tuple(None if came is None else came - wanted for came, wanted in zip(reached, target, strict=True)),
    )


def find_unit(sized: SizedPattern, name: str) -> str:
    """Inches where all the sizes' measures that the words name are in imperial units, else centimetres."""
    return find_unit_of(
        [
            length
            for size in sized.pattern.sizes
            for measure, length in size.measures.items()
            if measure.lower() in name.lower()
        ]
    )


def find_unit_of(lengths: Sequence[Length]) -> str:
    return "in" if lengths and {length.unit for length in lengths} <= IMPERIAL_UNITS else "cm"


def find_number(sized: SizedPattern, measure: Measure) -> SizedNumber | None:
    """The named number, worked out from a measure, whose values are this measure's counts in every size."""
    rules = {rule.name: rule for rule in sized.pattern.numbers}
    for number in sized.numbers.values():
        rule = rules.get(number.name)
        direction = rule.direction if rule else "sts"
        if not number.target_cm or direction != measure.unit:
            continue
        if spread_values(number.values, len(measure.count)) == measure.count:
            return replace(number, target_cm=spread_values(number.target_cm, len(measure.count)))
    return None


def find_name(
    sized: SizedPattern, worked: WorkedPattern, part: WorkedPart, measure: Measure, measures: Sequence[Measure]
) -> str:
    """The name of the sizes' measure that means this one; "" where none does or several might."""
    sizes = sized.pattern.sizes
    if not sizes or next(other for other in measures if other.axis == measure.axis) is not measure:
        return ""
    is_only_part = sum(any(other.rows) for other in worked.parts) == 1
    title = set(part.title.lower().split())
    for name in sizes[0].measures:
        if any(name not in size.measures for size in sizes):
            continue
        words = [word for word in name.lower().split() if word not in FILLER_WORDS]
        if not words or not has_axis(words[-1], measure, measures):
            continue
        rest = set(words[:-1])
        if (is_only_part and not rest) or (rest and rest <= title):
            return name
    return ""


def has_axis(word: str, measure: Measure, measures: Sequence[Measure]) -> bool:
    """True where the word means the measure's axis; what has no depth is as high as it is long."""
    axis = AXIS_WORDS.get(word)
    if axis == "depth" and not any(other.axis == "depth" for other in measures):
        axis = "length"
    return axis == measure.axis


def spread_values(values: tuple[T, ...], sizes: int) -> tuple[T, ...]:
    return values * sizes if len(values) == 1 else values


def compare_targets(sized: SizedPattern, part: WorkedPart, aims: Sequence[Aim]) -> tuple[Finding, ...]:
    """A warning for each measure that misses its target by more than half a step, with the sizes that do."""
    findings: list[Finding] = []
    for aim in aims:
        if not aim.measure.target_cm:
            continue
        step = measure_step(sized, part, aim)
        missed = tuple(
            at
            for at, target in enumerate(aim.measure.target_cm)
            if not is_broken(part, at)  # what a wrong row measures says nothing more
            and (off := measure_miss(aim.measure, at, target)) is not None
            and off > max(step / 2, HALF_PRINTED_CM) + 1e-9
        )
        if missed:
            findings.append(messages.measure_off(sized.pattern, part, aim.measure, aim.name, missed, aim.number))
    return tuple(findings)


def measure_miss(measure: Measure, at: int, target_cm: float) -> float | None:
    """How far one size is off its target, in centimetres; None where it is not known.

    A target in inches and a gauge in centimetres agree exactly or by the trade's 2.5 cm to the inch,
    whichever the author had in mind: the nearer one is taken.
    """
    cm, inches = measure.cm[at], measure.inches[at]
    if cm is None or inches is None:
        return None
    return min(
        abs(cm - target_cm),
        abs(inches * CM_PER_INCH - target_cm),
        abs(cm / CM_PER_TRADE_INCH * CM_PER_INCH - target_cm),
        abs(cm - target_cm / CM_PER_INCH * CM_PER_TRADE_INCH),
    )


def measure_step(sized: SizedPattern, part: WorkedPart, aim: Aim) -> float:
    """The least by which the measure can be changed, in centimetres: one repeat, or one stitch or row."""
    row = next((rows[-1] for rows in part.rows if rows), None)
    gauge = find_gauge(sized.pattern, part, row)
    if gauge is None:
        return 0.0
    multiple = aim.number.multiple if aim.number else find_multiple(sized, aim)
    if aim.measure.unit == "rows":
        height = measure_rows(multiple, gauge)
        return height.cm if height else 0.0
    return measure_stitches(multiple, gauge).cm


def find_multiple(sized: SizedPattern, aim: Aim) -> int:
    """The repeat of a number that was worked out from the same target; 1 where there is none."""
    for number in sized.numbers.values():
        if aim.name and aim.name in number.measure:
            return number.multiple
    return 1


def is_broken(part: WorkedPart, size: int) -> bool:
    """Is a row of the piece wrong in this size?"""
    return any(row.status == "broken" for row in part.rows[size])
