"""The signs at the foot of a symbol: which loop a stitch goes into, a place between two, a row further down.

An arc under the stitch stands for the back loop where it is open upwards and for the front loop where it is open
downwards, as the fabric is seen from the right side: what a wrong-side row works in its back loops looks like
front loops from there (a teaching page on chart symbols; which arc is which is from memory). For the other signs
there is no published form: they are our own, and the key tells them.

Everything here is in stitch widths with y downwards, as in `symbols.py`.
"""

import math
from collections.abc import Sequence
from typing import Protocol

from booklet.drawings.plan import Point

DEEP = "deep"  # the sign of a stitch that goes into a row further down
SIGNS = ("back", "front", "third", "bumps", "between", DEEP)
ARC, RISE = 0.23, 0.15  # half the width of an arc, and how deep it is
CLEAR = 0.2  # room under the stem that a sign takes
BOW = 0.42  # how far a tail keeps to the side of what it passes
OTHER_SIDE = {"back": "front", "front": "back"}
IN_WORDS = {
    "back": "in back loop",
    "front": "in front loop",
    "third": "in third loop",
    "bumps": "in back bump",
    "between": "between sts",
}
LOOKS = {
    "back": "an arc open upwards at the foot of a stitch",
    "front": "an arc open downwards at the foot of a stitch",
    "third": "a short bar at the foot of a stitch",
    "bumps": "a dot at the foot of a stitch",
    "between": "two ticks beside the foot of a stitch",
    DEEP: "a tail that ends in an arrow further down",
}


SHORT = {
    "back": "BLO",
    "front": "FLO",
    "third": "third loop",
    "bumps": "back bump",
    "between": "between",
    DEEP: "below",
}
KEY_WORDS = {
    "back": "in back loop only",
    "front": "in front loop only",
    "third": "in third loop only",
    "bumps": "in back bump of the chain",
    "between": "between two stitches",
    DEEP: "into a row further down, where the arrow ends",
}


class Strokes(Protocol):
    """What takes the strokes of a symbol."""

    def line(self, *points: Point) -> None: ...

    def blot(self, points: tuple[Point, ...]) -> None: ...


def seen_loop(loop: str, is_back: bool) -> str:
    """The loop as it looks from the right side."""
    return OTHER_SIDE.get(loop, loop) if is_back else loop


def say_place(loop: str, down: int, unit: str = "row") -> str:
    """Where a stitch goes, in words that stand behind its name: ` in front loop 2 rows below`."""
    words = f" {IN_WORDS[loop]}" if loop else ""
    return f"{words} {down} {unit}s below" if down else words


def draw_sign(sign: str, foot: Point, unit: Point, pen: Strokes) -> None:
    """The sign at a foot; `unit` points from there along the stem."""
    (x, y), (ux, uy) = foot, unit

    def at(along: float, across: float) -> Point:
        return x + ux * along - uy * across, y + uy * along + ux * across

    if sign in ("back", "front"):
        low, high = (0.02, 0.02 + RISE) if sign == "back" else (0.02 + RISE, 0.02)
        shares = [step / 8 * 2 - 1 for step in range(9)]
        pen.line(*(at(low + (high - low) * share * share, ARC * share) for share in shares))
    elif sign == "third":
        pen.line(at(0.09, -ARC), at(0.09, ARC))
    elif sign == "bumps":
        ring = [math.tau * step / 10 for step in range(10)]
        pen.blot(tuple(at(0.08 + 0.09 * math.cos(angle), 0.09 * math.sin(angle)) for angle in ring))
    elif sign == "between":
        for side in (-1, 1):
            pen.line(at(-0.02, side * 0.17), at(0.2, side * 0.17))


def draw_tail(foot: Point, deep: Point, pen: Strokes) -> Point:
    """A line from the foot of the symbol down past the rows between, and an arrow at its end; gives its direction."""
    length = math.dist(foot, deep) or 1.0
    ux, uy = (deep[0] - foot[0]) / length, (deep[1] - foot[1]) / length
    points = []
    for step in range(11):
        share = step / 10
        off = min(BOW, 0.3 * length) * math.sin(math.pi * share)
        points.append((foot[0] + ux * length * share - uy * off, foot[1] + uy * length * share + ux * off))
    pen.line(*points)
    (x0, y0), (x1, y1) = points[-2], points[-1]
    step_long = math.dist(points[-2], points[-1]) or 1.0
    vx, vy = (x1 - x0) / step_long, (y1 - y0) / step_long
    wings = [(x1 - vx * 0.24 - side * vy * 0.17, y1 - vy * 0.24 + side * vx * 0.17) for side in (-1, 1)]
    pen.line(wings[0], (x1, y1), wings[1])
    return -vx, -vy


def draw_feet(loop: str, feet: Sequence[Point], head: Point, deep: Point | None, pen: Strokes) -> tuple[Point, ...]:
    """The signs of a symbol, and its feet with room made for them."""
    raised = []
    for foot in feet:
        length = math.dist(foot, head) or 1.0
        unit = ((head[0] - foot[0]) / length, (head[1] - foot[1]) / length)
        if loop and deep is None:
            draw_sign(loop, foot, unit, pen)
        lift = min(CLEAR, length * 0.25) if loop and deep is None and loop != "between" else 0.0
        raised.append((foot[0] + unit[0] * lift, foot[1] + unit[1] * lift))
    if deep is not None:
        middle = (sum(x for x, _ in feet) / len(feet), sum(y for _, y in feet) / len(feet))
        stop = deep
        if loop:
            length = math.dist(middle, deep) or 1.0
            stop = (
                deep[0] - (deep[0] - middle[0]) / length * CLEAR,
                deep[1] - (deep[1] - middle[1]) / length * CLEAR,
            )
        unit = draw_tail(middle, stop, pen)
        if loop:
            draw_sign(loop, deep, unit, pen)
    return tuple(raised)
