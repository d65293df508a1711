"""What was really used: the finished sample, and testers' reports.

A report is held against what the pattern is computed to take in the size it is about. How many times that a
tester used then raises the colour in every size, for whoever works as loosely as that tester must not run
out: of the computed figure and the reports, the highest is printed.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from booklet.amounts import messages
from booklet.amounts.calibration import ALL, Calibration, calibrate_by_sample, weigh_metres
from booklet.amounts.portions import Portion
from booklet.findings import Finding
from booklet.model.pattern import Pattern, YarnReport

# Beyond this a report is about something else: another yarn, a slip of the pen, two items.
REPORT_DOUBT = 1.5


@dataclass(frozen=True, slots=True)
class Used:
    """A report that could be placed: metres by letter, "" for all colours together, in the size of that number."""

    size: int
    metres: Mapping[str, float]
    report: YarnReport


def place_report(
    pattern: Pattern, report: YarnReport, what: str, portions: Sequence[Mapping[str, Portion]]
) -> tuple[Used | None, tuple[Finding, ...]]:
    """The report with its size found and its weights in metres; a finding for a size or colour that is not there.

    `what` is "the sample" or "a tester".
    """
    names = pattern.size_names
    name = report.size or (names[0] if len(names) == 1 else "")
    at = next((at for at, size in enumerate(names) if size.lower() == name.lower()), None)
    if at is None or at >= len(portions):
        return None, (messages.yarn_unplaced(what, report.span, "size", report.size, names),)
    findings: list[Finding] = []
    metres: dict[str, float] = {}
    for letter, amount in report.used.items():
        if letter not in (ALL, *portions[at]):
            findings.append(messages.yarn_unplaced(what, report.span, "colour", letter, tuple(portions[at])))
            continue
        length = weigh_metres(amount, pattern.yarn)
        if length is not None:
            metres[letter] = length
    return (Used(at, metres, report) if metres else None), tuple(findings)


def follow_sample(used: Used, before: Calibration, portions: Mapping[str, Portion]) -> Calibration:
    """The correction by the sample, over that by a swatch."""
    return calibrate_by_sample(
        before,
        used.metres,
        {letter: portion.worked for letter, portion in portions.items()},
        {letter: portion.besides for letter, portion in portions.items()},
    )


def compare_reports(
    testers: Sequence[Used], predicted: Sequence[Mapping[str, float]]
) -> tuple[Mapping[str, tuple[float, ...]], tuple[Finding, ...]]:
    """By letter, how many times the computed metres each tester used; `predicted` are those of each size."""
    shares: dict[str, list[float]] = {}
    findings: list[Finding] = []
    for used in testers:
        sizes = predicted[used.size]
        for letter, metres in used.metres.items():
            expected = sum(sizes.values()) if letter == ALL else sizes[letter]
            if not expected:
                continue
            share = metres / expected
            if not 1 / REPORT_DOUBT <= share <= REPORT_DOUBT:
                findings.append(messages.report_unlikely(used.report, letter, share, metres, expected))
            for concerned in sizes if letter == ALL else (letter,):
                shares.setdefault(concerned, []).append(share)
    return {letter: tuple(found) for letter, found in shares.items()}, tuple(findings)
