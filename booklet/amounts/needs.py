"""From the metres that a colour takes to what is bought: margin, grams, whole balls, what is left."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from booklet.amounts.portions import Portion, count_strands
from booklet.model.amounts import SharedBall, YarnNeed
from booklet.model.pattern import Pattern

HAIR = 1e-9
SURENESS = ("measured", "computed", "estimated")  # from the surest on


@dataclass(frozen=True, slots=True)
class Length:
    """Metres with their range, and how they came about."""

    metres: float
    low: float
    high: float
    how: str


def buy_yarn(pattern: Pattern, size: str, portion: Portion, length: Length, swatch_metres: float = 0.0) -> YarnNeed:
    """The need with its margin, in grams and whole balls where the ball is known.

    Strands that are held together come from a ball each, so there are at least as many balls.
    """
    yarn = pattern.yarn
    to_buy = length.metres * (1 + pattern.margin)
    ball = yarn.ball_metres if yarn and yarn.ball_metres else None
    per_metre = yarn.ball_grams / ball if yarn and ball and yarn.ball_grams else None
    bought = to_buy + swatch_metres
    fewest = count_strands(pattern, portion.letter) if bought else 0
    balls = max(math.ceil(bought / ball - HAIR), fewest) if ball else None
    left = max(0.0, balls * ball - bought) if balls is not None and ball else None
    return YarnNeed(
        letter=portion.letter,
        size=size,
        stitches=portion.stitches,
        metres=length.metres,
        metres_to_buy=to_buy,
        grams=to_buy * per_metre if per_metre else None,
        balls=balls,
        left_metres=left,
        ends=portion.ends,
        how=length.how,
        low_metres=length.low,
        high_metres=length.high,
        tail_metres=portion.tails,
        seam_metres=portion.seams,
        trimming_metres=portion.trimmings,
        swatch_metres=swatch_metres,
        left_grams=left * per_metre if left is not None and per_metre else None,
    )


def add_needs(size: str, needs: Sequence[YarnNeed]) -> YarnNeed:
    """All colours of a size together; balls are those bought colour by colour, sure as the least sure of them."""
    of_size = [need for need in needs if need.size == size]

    def add(field: str) -> float:
        return float(sum(getattr(need, field) for need in of_size))

    def add_known(field: str) -> float | None:
        known = [getattr(need, field) for need in of_size if getattr(need, field) is not None]
        return sum(known) if known else None

    balls = add_known("balls")
    return YarnNeed(
        letter="*",
        size=size,
        stitches=int(add("stitches")),
        metres=add("metres"),
        metres_to_buy=add("metres_to_buy"),
        grams=add_known("grams"),
        balls=int(balls) if balls is not None else None,
        left_metres=add_known("left_metres"),
        ends=int(add("ends")),
        how=max((need.how for need in of_size), key=SURENESS.index, default=SURENESS[-1]),
        low_metres=add("low_metres"),
        high_metres=add("high_metres"),
        tail_metres=add("tail_metres"),
        seam_metres=add("seam_metres"),
        trimming_metres=add("trimming_metres"),
        swatch_metres=add("swatch_metres"),
        left_grams=add_known("left_grams"),
    )


def share_balls(pattern: Pattern, size: str, needs: Sequence[YarnNeed]) -> tuple[SharedBall, ...]:
    """Colours that fit into one ball together, each of which needs less than one: the largest is packed first."""
    ball = pattern.yarn.ball_metres if pattern.yarn else None
    if not ball:
        return ()
    small = [need for need in needs if need.size == size and need.balls == 1]
    packed: list[list[YarnNeed]] = []
    for need in sorted(small, key=lambda need: -measure_bought(need)):
        for together in packed:
            if sum(map(measure_bought, together)) + measure_bought(need) <= ball + HAIR:
                together.append(need)
                break
        else:
            packed.append([need])
    order = [need.letter for need in needs if need.size == size]
    return tuple(
        SharedBall(
            size=size,
            letters=tuple(sorted((need.letter for need in together), key=order.index)),
            metres_to_buy=sum(map(measure_bought, together)),
            balls=1,
            apart=len(together),
        )
        for together in packed
        if len(together) > 1
    )


def measure_bought(need: YarnNeed) -> float:
    return need.metres_to_buy + need.swatch_metres
