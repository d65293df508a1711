"""Shapes with corners, worked in rounds: solid square, granny square, hexagon.

A solid side of round n has base + 2 x m x (n - 1) stitches: each corner, `(m sts, ch, m sts)`, gives m to the
side before it and m to the side behind it. A round starts where the last one was joined, inside a side.
"""

from collections.abc import Iterator
from dataclasses import dataclass

from booklet.shapes.rounds import check_size
from booklet.shapes.stitches import COUNTED_CHAINS, RoundStitch, ShapeError


@dataclass(frozen=True, slots=True)
class Corners:
    """How a solid shape grows: sides, stitches of a side in the first round, stitches each side of a corner's chain."""

    sides: int
    base: int
    corner: int
    chain: int

    def count(self, number: int) -> int:
        """All stitches of a round, chains not among them."""
        return self.sides * (self.base + 2 * self.corner * (number - 1))


# Square: +16 dc or +8 sc in a round, 8 x height / width; hexagon: two dc a side, +12 in a round.
SQUARES = {"sc": Corners(4, 2, 1, 2), "dc": Corners(4, 3, 2, 2)}
HEXAGONS = {"dc": Corners(6, 2, 1, 1)}


def list_square(stitch: RoundStitch, rounds: int) -> Iterator[str]:
    """A solid square: round n has 12 + 16(n - 1) dc, or 8n sc."""
    return _list_solid("square", SQUARES, stitch, rounds)


def list_hexagon(stitch: RoundStitch, rounds: int) -> Iterator[str]:
    """A solid hexagon: round n has 12n dc."""
    return _list_solid("hexagon", HEXAGONS, stitch, rounds)


def _list_solid(what: str, known: dict[str, Corners], stitch: RoundStitch, rounds: int) -> Iterator[str]:
    shape = known.get(stitch.kind)
    if shape is None:
        raise ShapeError(f"a {what} that lies flat is known in {' and '.join(known)}, not in {stitch.kind}")
    check_size(rounds, shape.count(rounds), 2 * shape.sides * shape.corner)
    name, chain = stitch.name, f"ch {shape.chain}"
    for number in range(1, rounds + 1):
        before = max(0, shape.corner * (number - 2))
        if number == 1:
            lead = _begin(stitch, shape.base, "in ring")
            words = f"{lead}, {chain}, ({shape.base} {name} in ring, {chain}) {shape.sides - 1} times"
        else:
            side = shape.base + 2 * before
            turn = f"({shape.corner} {name}, {chain}, {shape.corner} {name}) in next {chain.replace(' ', '-')} sp"
            turn = turn.replace(f"(1 {name}, {chain}, 1 {name})", f"({name}, {chain}, {name})")
            words = f"{_begin(stitch, shape.base + before, 'in next')}, {turn}, "
            words += f"*{name} in next {side} sts, {turn}; rep from * {shape.sides - 2} more times"
            words += (
                f", {name} in next {before if before > 1 else 'st'}{' sts' if before > 1 else ''}" if before else ""
            )
        start = "Make a magic ring, " if number == 1 else ""
        line = f"{start}{words}, {_join(stitch)}"
        made = f"({shape.count(number)} {name}, {shape.sides} ch-{shape.chain} sps)"
        yield f"Rnd {number}: {line[0].upper()}{line[1:]}. {made}"


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
