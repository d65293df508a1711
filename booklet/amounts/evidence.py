"""What is known of the yarn besides the stitches, and what follows for one colour in one size."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from booklet.amounts.calibration import ALL, Calibration, find_spread
from booklet.amounts.needs import HAIR, Length
from booklet.amounts.portions import Portion
from booklet.amounts.reports import Used, compare_reports, follow_sample, place_report
from booklet.findings import Finding
from booklet.model.pattern import Pattern


@dataclass(frozen=True, slots=True)
class Evidence:
    """What is known of the yarn besides the stitches, and how far a figure may be off that rests on it."""

    calibration: Calibration
    spread: float
    sample: Used | None = None
    shares: Mapping[str, tuple[float, ...]] = field(default_factory=dict)  # of testers, by letter
    testers: tuple[Used, ...] = ()


def gather_evidence(
    pattern: Pattern, calibration: Calibration, portions: Sequence[Mapping[str, Portion]], is_by_weight: bool
) -> tuple[Evidence, tuple[Finding, ...]]:
    """The sample over the swatch, and the testers' reports held against what follows from them."""
    findings: list[Finding] = []
    sample = None
    if pattern.sample is not None and pattern.sample.report.used:
        sample, told = place_report(pattern, pattern.sample.report, "the sample", portions)
        findings += told
    if sample is not None:
        calibration = follow_sample(sample, calibration, portions[sample.size])
    testers: list[Used] = []
    for report in pattern.testers:
        used, told = place_report(pattern, report, "a tester", portions)
        findings += told
        testers += [used] if used else []
    key = calibration.basis
    spread = find_spread("weight_only" if key == "estimate" and is_by_weight else key)
    evidence = Evidence(calibration, spread, sample)
    predicted = [
        {letter: judge_length(size, portion, by_letter, evidence).metres for letter, portion in by_letter.items()}
        for size, by_letter in enumerate(portions)
    ]
    shares, told = compare_reports(testers, predicted)
    return Evidence(calibration, spread, sample, shares, tuple(testers)), (*findings, *told)


def judge_length(size: int, portion: Portion, by_letter: Mapping[str, Portion], evidence: Evidence) -> Length:
    """The metres of a portion, from where they may reach to where, and how they came about."""
    metres = portion.predict(evidence.calibration)
    how, spread = "estimated" if evidence.calibration.basis == "estimate" else "computed", evidence.spread
    weighed = weigh_sample(size, portion.letter, by_letter, evidence.sample)
    if weighed is not None:
        metres, how, spread = weighed, "measured", find_spread("measured")
    shares = evidence.shares.get(portion.letter, ())
    if not shares:
        return Length(metres, metres * (1 - spread), metres * (1 + spread), how)
    highest = metres * max(1.0, *shares)
    spread = min(spread, find_spread("reports"))
    own = [weigh_sample(size, portion.letter, by_letter, used) or 0.0 for used in evidence.testers]
    how = "measured" if max(weighed or 0.0, *own) >= highest - HAIR else "computed"
    return Length(highest, metres * min(1.0, *shares) * (1 - spread), highest * (1 + spread), how)


def weigh_sample(size: int, letter: str, by_letter: Mapping[str, Portion], used: Used | None) -> float | None:
    """What was used of this very colour in this very size; None where it was not weighed by itself."""
    if used is None or used.size != size:
        return None
    return used.metres.get(ALL if len(by_letter) == 1 and ALL in used.metres else letter)
