"""Balls for kits: a whole number in each, or wound off and shared out.

Whole balls cost no work and leave yarn in every kit; wound off, a ball serves several makers and somebody has to
wind. Which is better is for the group to say, so both are counted.
"""

import math
from collections.abc import Sequence

HAIR = 1e-9


def count_whole(portions: Sequence[float], ball: float) -> int:
    """Balls where every portion gets whole balls of its own. Lengths in one unit."""
    return sum(math.ceil(portion / ball - HAIR) for portion in portions if portion > 0)


def count_wound(portions: Sequence[float], ball: float) -> int:
    """Balls where portions are wound off, each in one length unless it is longer than a ball.

    The longest are wound first, each from the first ball that has enough left. That takes at most 11/9 of the
    fewest balls there could be, and one more [first fit decreasing; Dósa 2007, from memory].
    """
    balls = 0
    rests: list[float] = []
    for portion in portions:
        whole, rest = divmod(portion + HAIR, ball)
        balls += int(whole)
        rests.append(max(0.0, rest - HAIR))
    left: list[float] = []
    for rest in sorted((rest for rest in rests if rest > HAIR), reverse=True):
        at = next((at for at, there in enumerate(left) if there + HAIR >= rest), None)
        if at is None:
            left.append(ball - rest)
        else:
            left[at] -= rest
    return balls + len(left)


def count_items(metres: float, ball: float) -> int:
    """Whole items that one ball is enough for."""
    return math.floor(ball / metres + HAIR) if metres > 0 else 0


def share_out(total: int, among: int) -> list[int]:
    """So many things among so many, as evenly as can be; the first get one more."""
    each, more = divmod(total, among)
    return [each + (at < more) for at in range(among)]
