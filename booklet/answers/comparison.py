"""Two sets of amounts beside each other: each measure and each colour's yarn, as stated and then.

Yarn at another gauge: the stitches stay, their lengths change. What a swatch or a sample really took ties the
stated figure to that piece and its gauge, so the stated figure is carried over by the share by which
published lengths change, and never calibrated anew.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from booklet.model.amounts import Amounts, YarnNeed
from booklet.model.pattern import Pattern, Yarn

HAIR = 1e-9


@dataclass(frozen=True, slots=True)
class MeasureThen:
    """A measure of one size, as stated and then; None where a gauge does not give it."""

    part: str
    name: str
    size: str
    cm: float | None
    inches: float | None
    then_cm: float | None
    then_inches: float | None


@dataclass(frozen=True, slots=True)
class YarnThen:
    """Yarn to buy of one colour in one size, the margin in it, as stated and then. Balls are whole ones."""

    letter: str
    colour: str
    size: str
    metres: float
    then_metres: float
    grams: float | None
    then_grams: float | None
    balls: int | None
    then_balls: int | None
    swatch_metres: float = 0.0  # as stated, in the balls and not in the metres


def compare_measures(pattern: Pattern, stated: Amounts, then: Amounts) -> tuple[MeasureThen, ...]:
    """Every measure that both have, piece by piece, the sizes of each together."""
    others = {(measure.part, measure.name): measure for measure in then.measures}
    found: list[MeasureThen] = []
    for measure in stated.measures:
        other = others.get((measure.part, measure.name))
        if other is None:
            continue
        for at, size in enumerate(pattern.size_names):
            found.append(
                MeasureThen(
                    measure.part,
                    measure.name,
                    size,
                    measure.cm[at],
                    measure.inches[at],
                    other.cm[at],
                    other.inches[at],
                )
            )
    return tuple(found)


def compare_yarn(pattern: Pattern, stated: Amounts, then: Amounts) -> tuple[YarnThen, ...]:
    """The yarn of both where they are worked out in the same way."""
    if stated.yarn is None or then.yarn is None:
        return ()
    needs = {(need.letter, need.size): need for need in then.yarn.needs}
    names = {colour.letter: colour.name for colour in pattern.colours}
    return tuple(
        _set_beside(need, needs[key], names.get(need.letter, ""))
        for need in stated.yarn.needs
        if (key := (need.letter, need.size)) in needs
    )


def carry_yarn(
    pattern: Pattern, stated: Amounts, published: tuple[Amounts, Amounts], yarn: Yarn | None
) -> tuple[YarnThen, ...]:
    """The stated yarn at another gauge, by the share by which the `published` figures (stated, then) change.

    `yarn` is the one that is bought then; balls and grams are None where its ball is not known.
    """
    before, after = (amounts.yarn.needs if amounts.yarn else () for amounts in published)
    then = {(need.letter, need.size): need.metres for need in after}
    shares = {
        (need.letter, need.size): then[need.letter, need.size] / need.metres
        for need in before
        if need.metres > 0 and (need.letter, need.size) in then
    }
    names = {colour.letter: colour.name for colour in pattern.colours}
    return tuple(
        _set_beside(need, buy_again(need, shares[key], yarn), names.get(need.letter, ""))
        for need in (stated.yarn.needs if stated.yarn else ())
        if (key := (need.letter, need.size)) in shares
    )


def buy_again(need: YarnNeed, share: float, yarn: Yarn | None) -> YarnNeed:
    """The need so many times over, in balls and grams of a yarn."""
    metres = need.metres_to_buy * share
    ball = yarn.ball_metres if yarn else None
    grams = yarn.ball_grams if yarn else None
    bought = metres + need.swatch_metres * share  # the swatch is bought besides, and in the balls alone
    balls = math.ceil(bought / ball - HAIR) if ball else None
    return YarnNeed(
        letter=need.letter,
        size=need.size,
        stitches=need.stitches,
        metres=need.metres * share,
        metres_to_buy=metres,
        grams=metres * grams / ball if ball and grams else None,
        balls=balls,
        left_metres=max(0.0, balls * ball - bought) if balls is not None and ball else None,
        ends=need.ends,
    )


def _set_beside(stated: YarnNeed, then: YarnNeed, colour: str) -> YarnThen:
    return YarnThen(
        stated.letter,
        colour,
        stated.size,
        stated.metres_to_buy,
        then.metres_to_buy,
        stated.grams,
        then.grams,
        stated.balls,
        then.balls,
        stated.swatch_metres,
    )


def list_sizes(pattern: Pattern, sizes: Sequence[str]) -> str:
    """Names of sizes as a list; "" where the pattern has but one without a name."""
    return ", ".join(size for size in sizes if size) if len(pattern.size_names) > 1 else ""
