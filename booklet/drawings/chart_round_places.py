"""Where the stitches of a round lie along it: straight outside their feet, given way only where they would touch."""

import math
from collections.abc import Sequence

from booklet.drawings.chart_columns import CHAIN_ROOM, LONG_CHAIN_ROOM
from booklet.drawings.chart_marks import CHAIN, OPENING, STITCH, ChartRow, Mark
from booklet.drawings.chart_ring import LaidRound, Polar, RingShape, find_corners, space_evenly, spread_round
from booklet.drawings.plan import Point

SEAM = 2.0  # stitch widths between last and first: the joining slip stitch and the number
BESIDE = 0.7  # how much more where a chain stands beside the first stitch
OVAL_SEAM = 0.9  # how much more in an oval, whose chain leaves less room for numbers
TIGHT = 0.9  # stitches stand a little nearer to one another than in rows
LACE = 0.34  # chains to a stitch from which a round is lace
EVEN_SHARE = 0.97
RING = 0.75  # radius of a ring made of yarn alone


class RoundPlaces:
    """One round, whose stitches find their places along it."""

    def __init__(self, row: ChartRow, way: int, index: int, shape: RingShape, done: Sequence[LaidRound]) -> None:
        self.row, self.way, self.index, self.shape = row, way, index, shape
        self.below = below = done[-1] if done else None
        self.radii = [laid.radius for laid in done]
        self.base = below.radius if below else RING
        self.order = row.marks if way > 0 else row.marks[::-1]
        self.columns = [mark for mark in self.order if mark.is_column]
        self.corners = find_corners(row)
        self.gaps = self._list_gaps()
        self.anchors = self.find_anchors(shape.sides) if shape.sides else []
        self.heads: dict[int, Polar] = {}
        self.stands: dict[int, Polar] = {}  # where stitches stand on the axis of an oval

    @property
    def opens_beside(self) -> bool:
        """Does a chain stand beside the first stitch?"""
        return any(mark.role == OPENING and not mark.counts for mark in self.row.marks)

    def _list_gaps(self) -> list[float]:
        """Room from each column to the next one round, the last to the first with the seam."""
        gaps: list[float] = []
        chains, leading = 0, None
        for mark in self.order:
            if mark.role == CHAIN:
                chains += mark.chains
            if not mark.is_column:
                continue
            if leading is None:
                leading = chains
            else:
                width = max(1, len(mark.tops) if mark.role == STITCH else 1)
                gaps.append((CHAIN_ROOM.get(chains, LONG_CHAIN_ROOM) if chains else TIGHT) + (width - 1) / 2)
            chains = 0
        chains += leading or 0
        seam = SEAM + (BESIDE if self.opens_beside else 0.0) + (OVAL_SEAM if self.shape.half else 0.0)
        gaps.append(max(seam, CHAIN_ROOM.get(chains, LONG_CHAIN_ROOM) + 0.9) if chains else seam)
        return gaps

    def find_anchors(self, sides: int) -> list[float]:
        """The corners by the columns they lie at, halves between two; empty where the round has not so many."""
        numbers = {id(mark): index for index, mark in enumerate(self.columns)}
        if len(self.corners) == sides:
            step = -1 if self.way > 0 else 1
            ahead = [self._beside(at, step) for at in self.corners]
            return sorted(numbers[id(mark)] + 0.5 if mark else len(self.columns) - 0.5 for mark in ahead)
        groups: dict[tuple[int, ...], list[int]] = {}
        for index, mark in enumerate(self.columns):
            groups.setdefault(mark.feet, []).append(index)
        largest = max(map(len, groups.values()), default=0)
        found = [group for feet, group in groups.items() if feet and len(group) == largest]
        if largest < 2 or len(found) != sides:
            return []
        count = len(self.columns)
        middles = []
        for group in found:  # a group may lie either side of the seam
            spread_out = [index + count if index < group[-1] - count / 2 else index for index in group]
            middles.append(sum(spread_out) / len(spread_out) % count)
        return sorted(middles)

    def turn_to_corners(self, sides: int) -> RingShape:
        """The shape whose corners lie where this round's corners are."""
        shares = self._place(self.base + 1.5)
        cyclic = [*shares, shares[0] + 1]
        angles = []
        for anchor in self.find_anchors(sides):
            low = int(anchor)
            middle = cyclic[low] + (cyclic[low + 1] - cyclic[low]) * (anchor - low)
            angles.append(math.tau * ((middle * sides) % 1))
        turn = math.atan2(sum(map(math.sin, angles)), sum(map(math.cos, angles))) / math.tau / sides if angles else 0.0
        self.shape = RingShape(sides, turn)
        self.anchors = self.find_anchors(sides)
        return self.shape

    def _reach(self, index: float) -> float:
        """How far round a column lies when every gap is as narrow as can be; halves lie between two."""
        turns, within = divmod(index, len(self.columns))
        low = int(within)
        return turns * sum(self.gaps) + sum(self.gaps[:low]) + self.gaps[low] * (within - low)

    def _side_need(self) -> float:
        """The length of edge that the fullest side asks for, times the number of sides."""
        if not self.anchors:
            return sum(self.gaps)
        ends = [*self.anchors[1:], self.anchors[0] + len(self.columns)]
        lengths = [self._reach(end) - self._reach(start) for start, end in zip(self.anchors, ends, strict=True)]
        return max(lengths) * len(self.anchors)

    def _place_sides(self, wishes: Sequence[float | None]) -> list[float]:
        """Shares of all columns, every side filled evenly from corner to corner."""
        count, sides = len(self.columns), self.shape.sides
        ends = [*self.anchors[1:], self.anchors[0] + count]
        offs = []
        for number, anchor in enumerate(self.anchors):
            near = [wishes[int(anchor)], wishes[math.ceil(anchor) % count]]
            known = [(wish - self.shape.turn) * sides - number for wish in near if wish is not None]
            offs.extend(known[:1] if len(known) == 1 else known)
        angles = [math.tau * off / sides for off in offs]
        mean = math.atan2(sum(map(math.sin, angles)), sum(map(math.cos, angles))) if angles else 0.0
        first = round(mean / math.tau * sides)
        shares = [0.0] * count
        for number, (start, end) in enumerate(zip(self.anchors, ends, strict=True)):
            length = self._reach(end) - self._reach(start)
            for index in range(math.ceil(start), math.ceil(end)):
                along = (self._reach(index) - self._reach(start)) / length
                shares[index % count] = self.shape.turn + (first + number + along) / sides
        return shares

    def _foot(self, mark: Mark) -> Polar | None:
        """Where the mark stands in the round below; sites either side of the seam are taken together."""
        if self.below is None:
            return None
        if id(mark) in self.stands:
            return self.stands[id(mark)]
        found = [self.below.sites[foot] for foot in mark.feet if foot < len(self.below.sites)]
        if not found:
            return None
        first = found[0][0]
        shares = [first + (share - first + 0.5) % 1 - 0.5 for share, _ in found]
        return sum(shares) / len(shares), sum(radius for _, radius in found) / len(found)

    def _close_seam(self, share: float, radius: float) -> float:
        """A share as it is once the seam, as wide in every round, has less of a larger one."""
        if self.below is None or self.shape.sides or self.shape.half or self.below.seam is None:
            return share
        middle, old = self.below.seam
        new = min(old, self.gaps[-1] / self.shape.around(radius) / 2)
        place = (share - middle) % 1
        return middle + new + (place - old) * (1 - 2 * new) / (1 - 2 * old)

    def _place(self, radius: float) -> list[float]:
        """Shares of all columns in order round."""
        around = self.shape.around(radius)
        needed = sum(self.gaps)
        gaps = [gap / max(around, needed) for gap in self._loosen(around)]
        feet = [self._foot(mark) for mark in self.columns]
        wishes = [
            self._close_seam(self.shape.lift(foot[0], foot[1], radius), radius) if foot else None for foot in feet
        ]
        if self.anchors and self.shape.sides:
            return self._place_sides(wishes)
        if any(wish is None for wish in wishes) or around <= needed * 1.001:
            return space_evenly(wishes, gaps)
        known: list[float] = []
        for wish in wishes:
            assert wish is not None
            before = known[-1] if known else wish
            known.append(before + (wish - before + 0.25) % 1 - 0.25)
        return spread_round(known, gaps)

    def _loosen(self, around: float) -> list[float]:
        """The gaps as they are, or in a round without much lace wider, so that its stitches stand evenly."""
        chains = sum(mark.chains for mark in self.row.marks if mark.role == CHAIN)
        seam = self.gaps[-1]
        room = (EVEN_SHARE * around - seam) / max(1e-6, self._side_need() - seam)
        if chains > LACE * len(self.columns) or room <= 1:
            return self.gaps
        return [*(gap * room for gap in self.gaps[:-1]), seam]

    def _at(self, polar: Polar) -> Point:
        return self.shape.point(*polar)

    def _beside(self, at: int, step: int) -> Mark | None:
        marks = self.row.marks
        number = at + step
        while 0 <= number < len(marks):
            if marks[number].is_column:
                return marks[number]
            number += step
        return None
