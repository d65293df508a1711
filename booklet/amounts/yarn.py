"""Yarn of each colour in each size, from every stitch worked.

metres   stitches x their length in this fabric, a tail at each end of each strand, seams, trimmings
to buy   metres and the pattern's margin
balls    metres to buy, and the swatch, in whole balls of each colour, rounded up

How long a stitch is rests on the best there is: `calibration` says in which order. What testers used is held
against it, and the higher figure printed (`reports`).
"""

import re
from collections.abc import Mapping, Sequence
from dataclasses import replace
from types import MappingProxyType

from booklet.amounts import messages
from booklet.amounts.calibration import Calibration, calibrate, weigh_metres
from booklet.amounts.evidence import Evidence, gather_evidence, judge_length
from booklet.amounts.key import explain_term
from booklet.amounts.needs import add_needs, buy_yarn, share_balls
from booklet.amounts.portions import find_tail, list_portions
from booklet.amounts.scales import STAND_IN, expect_stitch, find_scale, tell_scale
from booklet.amounts.stitch_yarn import Scale, describe_stitch
from booklet.amounts.tally import Tally, count_size, list_yarn
from booklet.findings import Finding
from booklet.model.amounts import SeamLength, SeamYarn, YarnNeed, YarnUse
from booklet.model.measure import CM_PER_INCH
from booklet.model.pattern import Pattern, SizedPattern, YarnAmount
from booklet.model.work import WorkedPattern
from booklet.reading.gauge_facts import gauge_of
from booklet.sizing.finishing import SizedFinishing, size_finishing

# A gauge that is only usual for hook or yarn: the figure may be further off than one from a gauge or a measure.
USUAL = ("weight", "hook", "ball")
NO_SEAMS: Mapping[str, SeamLength] = MappingProxyType({})
NOT_STITCHES = ("fringe", "tassel", "pompom", "pom-pom", "pompon")


def measure_yarn(
    sized: SizedPattern, worked: WorkedPattern, seams: Mapping[str, SeamLength] = NO_SEAMS
) -> tuple[YarnUse | None, tuple[Finding, ...]]:
    """The yarn needs of all colours and sizes; None where no gauge, measure, hook or yarn lets them be known.

    `seams` are the lengths of those that state none.
    """
    pattern = sized.pattern
    tallies = [count_size(pattern, worked, size) for size in range(len(pattern.size_names)) if has_size(worked, size)]
    if not any(tally.worked for tally in tallies):
        return None, ()
    scales = [find_scales(pattern, tally) for tally in tallies]
    known = [scale for scale in scales if scale is not None]
    if len(known) < len(scales):
        return None, ()  # the missing gauge has been told with the measures
    finishing, wrong = size_finishing(sized, seams)
    finishing, unplaced = place_finishing(pattern, finishing)
    portions = [
        list_portions(pattern, size, tally, scale, finishing)
        for size, (tally, scale) in enumerate(zip(tallies, known, strict=True))
    ]
    before, doubts = calibrate(pattern, tallies[0], known[0])
    gauge_from = tell_scale(pattern, tallies[0])
    evidence, told = gather_evidence(pattern, before, portions, gauge_from in USUAL)
    swatch = measure_swatches(pattern, tallies[0], known[0], before)
    needs = tuple(
        buy_yarn(pattern, name, portion, judge_length(size, portion, by_letter, evidence), 0.0 if at else swatch)
        for size, (name, by_letter) in enumerate(zip(pattern.size_names, portions, strict=False))
        for at, portion in enumerate(by_letter.values())
    )
    found = (*check_yarn(pattern, worked, tallies), *doubts, *wrong, *unplaced, *told)
    return replace(describe_use(pattern, needs, evidence, gauge_from), seams=list_seams(finishing)), found


def list_seams(finishing: Sequence[SizedFinishing]) -> tuple[SeamYarn, ...]:
    """The seams that take yarn, with their lengths."""
    return tuple(
        SeamYarn(item.name, item.cm, item.metres, item.times, item.how) for item in finishing if item.kind == "seam"
    )


def describe_use(pattern: Pattern, needs: tuple[YarnNeed, ...], evidence: Evidence, gauge_from: str) -> YarnUse:
    raised = [letter for letter, shares in evidence.shares.items() if max(shares) > 1]
    return YarnUse(
        needs=needs,
        basis=evidence.calibration.basis,
        margin=pattern.margin,
        spread=evidence.spread,
        totals={name: add_needs(name, needs) for name in pattern.size_names},
        shared=tuple(shared for name in pattern.size_names for shared in share_balls(pattern, name, needs)),
        sample_size=pattern.size_names[evidence.sample.size] if evidence.sample else "",
        reports=len(evidence.testers),
        raised=tuple(dict.fromkeys(need.letter for need in needs if need.letter in raised)),
        strands=pattern.yarn.strands if pattern.yarn else 1,
        tail_cm=find_tail(pattern),
        gauge_from=gauge_from,
    )


def place_finishing(
    pattern: Pattern, finishing: Sequence[SizedFinishing]
) -> tuple[tuple[SizedFinishing, ...], tuple[Finding, ...]]:
    """The seams and trimmings whose colour the pattern has; a finding for each other."""
    letters = tuple(colour.letter for colour in pattern.colours)
    spans = {item.name: item.span for item in pattern.finishing}
    known = tuple(item for item in finishing if not item.colour or item.colour in letters)
    wrong = (item for item in finishing if item not in known)
    return known, tuple(
        messages.yarn_unplaced(f'"{item.name}"', spans[item.name], "colour", item.colour, letters) for item in wrong
    )


def measure_swatches(
    pattern: Pattern, tally: Tally, scales: Mapping[str | None, Scale], calibration: Calibration
) -> float:
    """Metres in all swatches, to be bought of the first colour; 0 where there are none or they are left out."""
    swatches = pattern.swatches or ((pattern.swatch,) if pattern.swatch else ())
    strands = pattern.yarn.strands if pattern.yarn else 1
    total = 0.0
    for swatch in swatches:
        if not swatch.included or min(swatch.sts, swatch.rows) <= 0:
            continue
        metres = weigh_metres(YarnAmount(swatch.grams, "g"), pattern.yarn) if swatch.grams else None
        if metres is None:
            inches = expect_stitch(pattern, swatch.stitch, tally, scales, gauge_of(swatch))
            inches *= swatch.sts * swatch.rows * strands
            metres = inches * calibration.factor * CM_PER_INCH / 100
        total += metres
    return total


def has_size(worked: WorkedPattern, size: int) -> bool:
    return all(size < len(part.rows) for part in worked.parts)


def find_scales(pattern: Pattern, tally: Tally) -> Mapping[str | None, Scale] | None:
    """The scale of each gauge's rows; None where one is not known."""
    scales: dict[str | None, Scale] = {}
    for name in dict.fromkeys(gauge for gauge, _, _ in tally.worked):
        scale = find_scale(pattern, name, tally)
        if scale is None:
            return None
        scales[name] = scale
    return scales


def check_yarn(pattern: Pattern, worked: WorkedPattern, tallies: Sequence[Tally]) -> tuple[Finding, ...]:
    """What keeps the figures from being whole."""
    findings: list[Finding] = []
    if pattern.yarn is None or not pattern.yarn.ball_metres:
        findings.append(messages.ball_missing(pattern))
    kinds = dict.fromkeys(kind for tally in tallies for _, _, kind in tally.worked)
    stand_in = explain_term(STAND_IN, pattern.terms)
    findings.extend(
        messages.yarn_unmeasured(pattern, kind, stand_in.abbreviation if stand_in else STAND_IN)
        for kind in kinds
        if describe_stitch(kind) is None and re.sub(r"\dtog$", "", kind) not in kinds.keys() - {kind}
    )
    if len(pattern.colours) > 1:
        unsaid = find_unsaid(worked)
        if unsaid:
            findings.append(unsaid)
    findings.extend(
        messages.yarn_left_out(pattern, hazard)
        for hazard in pattern.has
        if any(word in hazard.lower() for word in NOT_STITCHES) and not has_trimming(pattern, hazard)
    )
    return tuple(findings)


def has_trimming(pattern: Pattern, hazard: str) -> bool:
    """Is the yarn of a fringe, tassel or pompom given, under a name that has the same word?"""
    names = " ".join(item.name.lower() for item in pattern.finishing)
    return any(word in hazard.lower() and word.replace("-", "")[:4] in names.replace("-", "") for word in NOT_STITCHES)


def find_unsaid(worked: WorkedPattern) -> Finding | None:
    """The first row worked in no named colour, of a pattern that has several."""
    for part in worked.parts:
        for rows in part.rows:
            for row in rows:
                number = sum(made for (colour, _), made in list_yarn(row.fabric).items() if not colour)
                if number:
                    return messages.colour_unsaid(row, number)
    return None
