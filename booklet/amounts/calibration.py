"""What the lengths of stitches rest on: the sample, a swatch, an unravelled length, or published figures.

In that order, the first that is there. Each gives one factor by which the lengths computed from published
figures are corrected, the sample one for each colour. What was measured on the item itself is nearer than
what a piece of it tells, and a weight nearer than a strand held to a ruler.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from booklet.amounts import messages
from booklet.amounts.scales import expect_stitch
from booklet.amounts.stitch_yarn import Scale
from booklet.amounts.tally import Tally
from booklet.findings import Finding
from booklet.model.measure import CM_PER_INCH
from booklet.model.pattern import Pattern, Yarn, YarnAmount
from booklet.reading.gauge_facts import gauge_of
from booklet.terms import load_table

# A swatch this many times as heavy or as light as published figures is a slip of the pen.
SWATCH_DOUBT = 2.0
ALL = ""  # the letter under which all colours were weighed together


@dataclass(frozen=True, slots=True)
class Calibration:
    """The factor on the yarn of stitches, and what it rests on; `by_colour` holds those of a weighed sample."""

    factor: float = 1.0
    basis: str = "estimate"
    by_colour: Mapping[str, float] = field(default_factory=dict)

    def factor_of(self, letter: str) -> float:
        return self.by_colour.get(letter, self.factor)


def weigh_metres(amount: YarnAmount, yarn: Yarn | None) -> float | None:
    """An amount of yarn in metres, a weight by the label of the ball; None where the label is not known."""
    if amount.unit == "m":
        return amount.amount
    if yarn is None or not yarn.ball_grams or not yarn.ball_metres:
        return None
    return amount.amount * yarn.ball_metres / yarn.ball_grams


def find_spread(key: str) -> float:
    """The share by which a figure may be off that came about in this way."""
    return float(load_table("yarn_lengths")["spread"][key]["value"])


def calibrate(
    pattern: Pattern, tally: Tally, scales: Mapping[str | None, Scale]
) -> tuple[Calibration, tuple[Finding, ...]]:
    """The correction by a swatch or an unravelled length; none where the pattern has neither.

    A swatch counts where its grams can be turned into metres, by the ball. One that was measured as well is held
    against published lengths in its own gauge.
    """
    swatch = pattern.swatch
    if swatch is not None and min(swatch.sts, swatch.rows) > 0 and swatch.grams:
        metres = weigh_metres(YarnAmount(swatch.grams, "g"), pattern.yarn)
        expected = expect_stitch(pattern, swatch.stitch, tally, scales, gauge_of(swatch))
        factor = find_factor(pattern, metres, swatch.sts * swatch.rows, expected)
        if factor:
            doubt = (messages.swatch_unlikely(swatch, factor),) if is_doubtful(factor) else ()
            return Calibration(factor, "swatch"), doubt
    undone = pattern.unravelled
    if undone is not None and undone.sts > 0:
        expected = expect_stitch(pattern, undone.stitch, tally, scales)
        factor = find_factor(pattern, undone.length.cm / 100, undone.sts, expected)
        if factor:
            doubt = (messages.unravelled_unlikely(undone, factor),) if is_doubtful(factor) else ()
            return Calibration(factor, "unravelled"), doubt
    return Calibration(), ()


def find_factor(pattern: Pattern, metres: float | None, stitches: int, expected: float) -> float:
    """How many times the published length, `expected` inches each, so many stitches took; 0 where it cannot be told."""
    if metres is None or not expected:
        return 0.0
    strands = pattern.yarn.strands if pattern.yarn else 1
    return metres * 100 / CM_PER_INCH / stitches / (expected * strands)


def is_doubtful(factor: float) -> bool:
    return not 1 / SWATCH_DOUBT <= factor <= SWATCH_DOUBT


def calibrate_by_sample(
    before: Calibration, weighed: Mapping[str, float], stitches: Mapping[str, float], besides: Mapping[str, float]
) -> Calibration:
    """The correction by the finished sample, colour by colour.

    `weighed` are its metres by letter ("" for all colours together), `stitches` the metres of its stitches by
    published figures, `besides` those of its tails, seams and trimmings. Colours that were not weighed are
    taken as the weighed ones came out.
    """
    known = [letter for letter in weighed if letter in stitches] if ALL not in weighed else list(stitches)
    total = sum(weighed.values()) if ALL not in weighed else weighed[ALL]
    mean = divide(total - add_up(besides, known), add_up(stitches, known))
    if not mean:
        return before
    each = (
        {letter: divide(weighed[letter] - besides.get(letter, 0.0), stitches[letter]) for letter in known}
        if (ALL not in weighed)
        else {}
    )
    return Calibration(mean, "sample", {letter: factor for letter, factor in each.items() if factor})


def add_up(metres: Mapping[str, float], letters: Sequence[str]) -> float:
    return sum(metres.get(letter, 0.0) for letter in letters)


def divide(part: float, whole: float) -> float:
    """The quotient of two lengths; 0 where it would be none."""
    return part / whole if part > 0 and whole > 0 else 0.0
