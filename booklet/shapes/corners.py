"""Shapes with corners, worked in rounds: solid square, granny square, hexagon.

A shape lies flat where its side, from corner to corner, keeps pace with its rounds: n rounds deep, the side of a shape
of N sides is 2 tan(pi / N) x n x height / width stitches long, so each corner has to give its nth part in every round.
Where that is near a whole even number the trade gives just that many, half before the corner and half behind it.
Elsewhere each side is the whole number nearest to its length, so that corners of more and of fewer stitches take turns.
A round starts where the last one was joined, inside a side.
"""

import math
from collections.abc import Iterator
from dataclasses import dataclass

from booklet.shapes.rounds import begin_rounds, check_size, say_sts, write_round
from booklet.shapes.stitches import COUNTED_CHAINS, RoundStitch, ShapeError


@dataclass(frozen=True, slots=True)
class Corners:
    """How a solid shape of so many sides grows.

    `chain` is the length of the chain at a corner, 0 where the corner is a stitch. A side has `base` stitches in the
    first round and `more` in each after it; without them it has what the stitch's proportions give, `pace` a round.
    """

    sides: int
    chain: int
    base: int = 0
    more: int = 0
    pace: float = 0.0

    def side(self, number: int) -> int:
        """Stitches of a side in a round, chains not among them."""
        return self.base + self.more * (number - 1) if self.more else max(1, math.floor(self.pace * number + 0.5))

    def count(self, number: int) -> int:
        """All stitches of a round, chains not among them."""
        return self.sides * self.side(number)


def find_pace(sides: int, stitch: RoundStitch) -> float:
    """How many stitches a side that lies flat gains in a round, from those that a flat circle gains in all."""
    return 2 * math.tan(math.pi / sides) * stitch.flat / math.tau


# Square: +16 dc or +8 sc in a round, 8 x height / width; hexagon: two dc a side, +12 in a round.
SQUARES = {"sc": Corners(4, 2, base=2, more=2), "dc": Corners(4, 2, base=3, more=4)}
HEXAGONS = {"dc": Corners(6, 1, base=2, more=2)}
LOW = ("sc", "hdc")  # so few stitches to a corner of a hexagon that it is one of them


def list_square(stitch: RoundStitch, rounds: int) -> Iterator[str]:
    """A solid square: round n has 12 + 16(n - 1) dc or 8n sc, and about 10.2n hdc or 20.4n tr."""
    return _list_solid(SQUARES.get(stitch.kind) or Corners(4, 2, pace=find_pace(4, stitch)), stitch, rounds)


def list_hexagon(stitch: RoundStitch, rounds: int) -> Iterator[str]:
    """A solid hexagon: round n has 12n dc, and about 6.6n sc, 8.8n hdc or 17.6n tr."""
    if stitch.kind in LOW:
        return _list_pointed(Corners(6, 0, pace=find_pace(6, stitch)), stitch, rounds)
    return _list_solid(HEXAGONS.get(stitch.kind) or Corners(6, 1, pace=find_pace(6, stitch)), stitch, rounds)


def _list_solid(shape: Corners, stitch: RoundStitch, rounds: int) -> Iterator[str]:
    """Corners of a chain between the stitches that each gives to the sides before and behind it."""
    check_size(rounds, shape.count(rounds), shape.sides)
    name, chain = stitch.name, f"ch {shape.chain}"
    lead, behind = shape.side(1), 0  # from the join to the next corner, and from the last corner to the join
    for number in range(1, rounds + 1):
        if number == 1:
            words = f"{_begin(stitch, lead, 'in ring')}, {chain}, "
            words += f"({lead} {name} in ring, {chain}) {shape.sides - 1} times"
        else:
            side = shape.side(number - 1)
            gain = shape.side(number) - side
            # Of an odd number the one over goes to where there are fewer, so that the corners stay in line.
            before = gain // 2 if lead - shape.side(1) > behind else gain - gain // 2
            turn = f"({_count(before, name)}, {chain}, {_count(gain - before, name)}) in next ch-{shape.chain} sp"
            words = f"{_begin(stitch, lead, 'in next')}, {turn}, "
            words += f"*{name} in next {say_sts(side)}, {turn}; rep from * {shape.sides - 2} more times"
            words += f", {name} in next {say_sts(behind)}" if behind else ""
            lead, behind = lead + before, behind + gain - before
        start = "Make a magic ring, " if number == 1 else ""
        line = f"{start}{words}, {_join(stitch)}"
        made = f"({shape.count(number)} {name}, {shape.sides} ch-{shape.chain} sps)"
        yield f"Rnd {number}: {line[0].upper()}{line[1:]}. {made}"


def _count(number: int, name: str) -> str:
    return name if number == 1 else f"{number} {name}"


def _list_pointed(shape: Corners, stitch: RoundStitch, rounds: int) -> Iterator[str]:
    """Corners of one stitch each, into which the next round works those that the sides gain."""
    check_size(rounds, shape.count(rounds), shape.sides)
    name = stitch.name
    yield begin_rounds(stitch, shape.count(1), is_spiral=False)
    before = behind = 0  # plain stitches of a side, on this side of its corner and on the other
    for number in range(2, rounds + 1):
        gain = shape.side(number) - shape.side(number - 1)
        steps = [f"{name} in next {say_sts(before)}"] if before else []
        steps.append(f"{gain + 1} {name} in next st" if gain else f"{name} in next st")
        steps += [f"{name} in next {say_sts(behind)}"] if behind else []
        words = f"({', '.join(steps)}) {shape.sides} times"
        if not before and not behind:
            words = f"{gain + 1} {name} in each st around"
        yield write_round(f"Rnd {number}", stitch, words, shape.count(number), is_spiral=False)
        # The middle one is the new corner; of two the one that keeps it in the middle of its side.
        ahead = gain - gain // 2 if before < behind else gain // 2
        before, behind = before + ahead, behind + gain - ahead


def list_granny(stitch: RoundStitch, rounds: int) -> Iterator[str]:
    """The granny square: round n has 4n groups of three, 12n dc, 4 corners and 4(n - 1) spaces along its sides."""
    if stitch.kind not in COUNTED_CHAINS or stitch.kind == "hdc":
        raise ShapeError("a granny square is worked in dc or tr")
    check_size(rounds, 12 * rounds, 12)
    name, chains = stitch.name, COUNTED_CHAINS[stitch.kind]
    opening = f"ch {chains} (counts as a {name})"
    yield (
        f"Rnd 1: Make a magic ring, {opening}, 2 {name} in ring, ch 2, (3 {name} in ring, ch 2) 3 times, "
        f"{_join(stitch)}. (12 {name}, 4 ch-2 sps)"
    )
    for number in range(2, rounds + 1):
        turn = f"(3 {name}, ch 2, 3 {name}) in next ch-2 sp, ch 1"
        side = number - 2
        along = f"3 {name} in next ch-1 sp, ch 1, " if side == 1 else f"(3 {name} in next ch-1 sp, ch 1) {side} times, "
        along = along if side else ""
        words = f"Sl st in next 2 {name} and in next ch-2 sp, {opening}, (2 {name}, ch 2, 3 {name}) in same sp, ch 1, "
        if along:
            words += f"*{along}{turn}; rep from * 2 more times, {along}"
        else:
            words += f"({turn}) 3 times, "
        made = f"{12 * number} {name}, 4 ch-2 sps, {4 * (number - 1)} ch-1 sps"
        yield f"Rnd {number}: {words}{_join(stitch)}. ({made})"


def _begin(stitch: RoundStitch, number: int, where: str) -> str:
    """The first stitches of a round, the chain among them where it stands for one."""
    name = stitch.name
    if stitch.kind not in COUNTED_CHAINS:
        place = where if where == "in ring" else "in next st" if number == 1 else f"in next {number} sts"
        lead = f"{number} {name}" if where == "in ring" else name
        return f"{stitch.opening}, {lead} {place}"
    opening = f"ch {COUNTED_CHAINS[stitch.kind]} (counts as a {name})"
    others = number - 1
    if where == "in ring":
        return f"{opening}, {others} {name} in ring" if others > 1 else f"{opening}, {name} in ring"
    return f"{opening}, {name} in next {f'{others} sts' if others > 1 else 'st'}" if others else opening


def _join(stitch: RoundStitch) -> str:
    if stitch.kind in COUNTED_CHAINS:
        return f"join with sl st in top of ch-{COUNTED_CHAINS[stitch.kind]}"
    return f"join with sl st in first {stitch.name}"
