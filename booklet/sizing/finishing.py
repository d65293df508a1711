"""Yarn that is not worked in stitches, in every size: seams, fringe, tassels, pompoms."""

from collections.abc import Mapping
from dataclasses import dataclass

from booklet.findings import Finding
from booklet.model.amounts import SeamLength
from booklet.model.pattern import FinishingYarn, SizedPattern
from booklet.sizing import messages
from booklet.sizing.formula import FormulaError, evaluate_formula
from booklet.sizing.numbers import is_length, name_measures

CM_PER_METRE = 100
STATED, COMPUTED = "stated", "computed"  # where the length of a seam is from


@dataclass(frozen=True, slots=True)
class SizedFinishing:
    """What one seam or trimming takes: metres per size, in size order."""

    name: str
    kind: str  # "seam" or "trimming"
    colour: str
    metres: tuple[float, ...]
    cm: tuple[float, ...] = ()  # of a seam, what is sewn
    times: float = 1.0
    how: str = STATED


def size_finishing(
    sized: SizedPattern, seams: Mapping[str, SeamLength]
) -> tuple[tuple[SizedFinishing, ...], tuple[Finding, ...]]:
    """All seams and trimmings that can be worked out; a finding for each that cannot.

    `seams` are the lengths of those that state none, by their names.
    """
    found: list[SizedFinishing] = []
    findings: list[Finding] = []
    for finishing in sized.pattern.finishing:
        if not finishing.length:
            found += [_sew(finishing, seams[finishing.name])] if finishing.name in seams else []
            continue
        try:
            metres = tuple(_measure_size(sized, finishing, at) for at in range(len(sized.pattern.size_names)))
        except FormulaError as wrong:
            reason = f'"{finishing.name}" cannot be worked out: {wrong}'
            expected = "named numbers, and lengths with their units, such as 2 * length or 24 cm"
            findings.append(messages.formula_wrong(reason, finishing.span, expected))
            continue
        cm = tuple(length * CM_PER_METRE / finishing.times for length in metres)
        found.append(SizedFinishing(finishing.name, finishing.kind, finishing.colour, metres, cm, finishing.times))
    return tuple(found), tuple(findings)


def _sew(finishing: FinishingYarn, seam: SeamLength) -> SizedFinishing:
    """A seam as long as its edges."""
    metres = tuple(cm * finishing.times / CM_PER_METRE for cm in seam.cm)
    colour = finishing.colour or seam.colour
    return SizedFinishing(finishing.name, finishing.kind, colour, metres, seam.cm, finishing.times, COMPUTED)


def _measure_size(sized: SizedPattern, finishing: FinishingYarn, at: int) -> float:
    """Metres of one size; raises FormulaError."""
    values = {
        number.name: float(number.values[at if len(number.values) > 1 else 0]) for number in sized.numbers.values()
    }
    number = evaluate_formula(finishing.number, values)
    cm = _measure_length(sized, finishing.length, at)
    if number < 0 or cm <= 0:
        raise FormulaError("it comes to no length")
    return number * finishing.strands * cm * finishing.times / CM_PER_METRE


def _measure_length(sized: SizedPattern, text: str, at: int) -> float:
    sizes = sized.pattern.sizes
    known = tuple(dict.fromkeys(name for size in sizes for name in size.measures))
    formula, names, lengths = name_measures(text, known)
    measures = sizes[at].measures if sizes else {}
    inside: Mapping[str, float] = lengths | {
        short: measures[name].cm for short, name in names.items() if name in measures
    }
    cm = evaluate_formula(formula, inside)
    if not is_length(formula, inside, cm):
        raise FormulaError("a length and a bare number are mixed")
    return cm
