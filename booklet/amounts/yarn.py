"""Yarn of each colour in each size, from every stitch worked.

metres   stitches x their length in this fabric, and a tail at each end of each strand
to buy   metres and the pattern's margin
balls    metres to buy in whole balls of each colour, rounded up

Fringe, tassels, seams and the swatch are not stitches: they are not in the figures, and a finding says so
where the pattern has them.
"""

import math
from collections.abc import Mapping, Sequence

from booklet.amounts import messages
from booklet.amounts.key import explain_term
from booklet.amounts.scales import STAND_IN, Calibration, calibrate, find_scale, yarn_of
from booklet.amounts.stitch_yarn import Scale, describe_stitch, measure_stitch
from booklet.amounts.tally import Tally, count_size, list_yarn
from booklet.findings import Finding
from booklet.model.amounts import YarnNeed, YarnUse
from booklet.model.measure import CM_PER_INCH
from booklet.model.pattern import Pattern, SizedPattern
from booklet.model.work import WorkedPattern
from booklet.terms import load_table

HAIR = 1e-9
NOT_STITCHES = ("fringe", "tassel", "pompom", "pom-pom", "pompon")


def measure_yarn(sized: SizedPattern, worked: WorkedPattern) -> tuple[YarnUse | None, tuple[Finding, ...]]:
    """The yarn needs of all colours and sizes; None where neither gauge nor yarn weight lets them be known."""
    pattern = sized.pattern
    tallies = [count_size(pattern, worked, size) for size in range(len(pattern.size_names)) if has_size(worked, size)]
    if not any(tally.worked for tally in tallies):
        return None, ()
    scales = [find_scales(pattern, tally) for tally in tallies]
    if any(scale is None for scale in scales):
        return None, ()  # the missing gauge has been told with the measures
    known = [scale for scale in scales if scale is not None]
    calibration, doubts = calibrate(pattern, tallies[0], known[0])
    needs = tuple(
        need
        for name, tally, scale in zip(pattern.size_names, tallies, known, strict=False)
        for need in list_needs(pattern, name, tally, scale, calibration)
    )
    use = YarnUse(
        needs=needs,
        basis=calibration.basis,
        margin=pattern.margin,
        spread=find_spread(calibration, any(None in scale for scale in known)),
        totals={name: add_needs(name, needs) for name in pattern.size_names},
    )
    return use, (*check_yarn(pattern, worked, tallies), *doubts)


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


def find_spread(calibration: Calibration, is_by_weight: bool) -> float:
    """The share by which the figures may be off."""
    key = "swatch" if calibration.basis == "swatch" else "weight_only" if is_by_weight else "estimate"
    return float(load_table("yarn_lengths")["spread"][key]["value"])


def list_needs(
    pattern: Pattern, size: str, tally: Tally, scales: Mapping[str | None, Scale], calibration: Calibration
) -> list[YarnNeed]:
    """The needs of one size, colours in the pattern's order, unnamed and undeclared ones last."""
    declared = [colour.letter for colour in pattern.colours]
    order = [letter for letter in declared if letter in tally.colours]
    order += sorted(colour for colour in tally.colours if colour not in declared)
    tail_metres = load_table("yarn_lengths")["tail_cm"]["value"] / 100
    needs: list[YarnNeed] = []
    for letter in order:
        inches = stitches = 0.0
        for (gauge, colour, kind), number in tally.worked.items():
            if colour == letter:
                inches += number * measure_stitch(yarn_of(kind), scales[gauge])
                stitches += number
        ends = 2 * tally.joins.get(letter, 0)
        metres = inches * calibration.factor * CM_PER_INCH / 100 + ends * tail_metres
        needs.append(buy_yarn(pattern, letter, size, int(stitches), metres, ends))
    return needs


def buy_yarn(pattern: Pattern, letter: str, size: str, stitches: int, metres: float, ends: int) -> YarnNeed:
    """The need with its margin, in grams and whole balls where the ball is known."""
    yarn = pattern.yarn
    to_buy = metres * (1 + pattern.margin)
    ball = yarn.ball_metres if yarn and yarn.ball_metres else None
    balls = math.ceil(to_buy / ball - HAIR) if ball else None
    return YarnNeed(
        letter=letter,
        size=size,
        stitches=stitches,
        metres=metres,
        metres_to_buy=to_buy,
        grams=to_buy * yarn.ball_grams / ball if yarn and ball and yarn.ball_grams else None,
        balls=balls,
        left_metres=max(0.0, balls * ball - to_buy) if balls is not None and ball else None,
        ends=ends,
    )


def add_needs(size: str, needs: Sequence[YarnNeed]) -> YarnNeed:
    """All colours of a size together; balls are those bought colour by colour."""
    of_size = [need for need in needs if need.size == size]
    grams = [need.grams for need in of_size if need.grams is not None]
    balls = [need.balls for need in of_size if need.balls is not None]
    left = [need.left_metres for need in of_size if need.left_metres is not None]
    return YarnNeed(
        letter="*",
        size=size,
        stitches=sum(need.stitches for need in of_size),
        metres=sum(need.metres for need in of_size),
        metres_to_buy=sum(need.metres_to_buy for need in of_size),
        grams=sum(grams) if grams else None,
        balls=sum(balls) if balls else None,
        left_metres=sum(left) if left else None,
        ends=sum(need.ends for need in of_size),
    )


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
        if describe_stitch(kind) is None
    )
    if len(pattern.colours) > 1:
        unsaid = find_unsaid(worked)
        if unsaid:
            findings.append(unsaid)
    findings.extend(
        messages.yarn_left_out(pattern, hazard)
        for hazard in pattern.has
        if any(word in hazard.lower() for word in NOT_STITCHES)
    )
    return tuple(findings)


def find_unsaid(worked: WorkedPattern) -> Finding | None:
    """The first row worked in no named colour, of a pattern that has several."""
    for part in worked.parts:
        for rows in part.rows:
            for row in rows:
                number = sum(made for (colour, _), made in list_yarn(row.fabric).items() if not colour)
                if number:
                    return messages.colour_unsaid(row, number)
    return None
