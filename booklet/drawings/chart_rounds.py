"""Rounds of a stitch chart from the centre outwards: increases fan, chains arch, corners stand out.

Where a stitch lies is told by its share of the round, counted counter-clockwise from below, and its
distance from the centre. Every round wants its stitches straight outside their feet and is given as
large a radius as it needs; between its last stitch and its first there is room for its number.
"""

import math
from collections.abc import Sequence
from dataclasses import replace
from statistics import median

from booklet.drawings.chart_columns import CHAIN_ROOM, LONG_CHAIN_ROOM
from booklet.drawings.chart_feet import seen_loop
from booklet.drawings.chart_flat import FEET_APART, lay_picot, level_top
from booklet.drawings.chart_glyphs import CHAIN_STEP, Glyph, lay_chain, look_of, mean_point, rise
from booklet.drawings.chart_marks import CHAIN, LINK, OPENING, STITCH, ChartRow, Mark
from booklet.drawings.chart_oval import goes_round_chain, lay_axis
from booklet.drawings.chart_ring import (
    LaidRound,
    Polar,
    RingShape,
    along_run,
    find_corners,
    space_evenly,
    spread_round,
    turn_glyph,
    turn_round,
    upright_angle,
)
from booklet.drawings.plan import Point

SEAM = 2.0  # stitch widths between last and first: the joining slip stitch and the number
BESIDE = 0.7  # how much more where a chain stands beside the first stitch
OVAL_SEAM = 0.9  # how much more in an oval, whose chain leaves less room for numbers
TIGHT = 0.9  # stitches stand a little nearer to one another than in rows
LACE = 0.34  # chains to a stitch from which a round is lace
EVEN_SHARE = 0.97
SIDES = (3, 4, 5, 6, 8)
RING = 0.75  # radius of a ring made of yarn alone


def lay_rounds(rows: Sequence[ChartRow], ways: Sequence[int]) -> tuple[list[LaidRound], list[Glyph]]:
    """All rounds, the first in the middle; `ways` are +1 for rounds worked counter-clockwise."""
    laid: list[LaidRound] = []
    glyphs: list[Glyph] = []
    shape = RingShape()
    stands: dict[int, Polar] = {}
    is_oval = goes_round_chain(rows)
    sides = (
        0
        if is_oval
        else next((len(corners) for corners in map(find_corners, reversed(rows)) if len(corners) in SIDES), 0)
    )
    for index, (row, way) in enumerate(zip(rows, ways, strict=True)):
        if row.row.kind == "foundation" and is_oval:
            done, drawn, shape, stands = lay_axis(row, rows[1], index)
        elif row.row.kind == "foundation":
            done, drawn = _lay_ring(row, index)
        else:
            worker = _Round(row, way, index, shape, laid)
            worker.stands = stands
            if sides and not shape.sides and len(worker.corners) == sides:
                shape = worker.turn_to_corners(sides)
            done, drawn = worker.lay()
        laid.append(done)
        glyphs.extend(drawn)
    turn = upright_angle(shape, laid[-1].label)
    return [turn_round(done, turn) for done in laid], [turn_glyph(glyph, turn) for glyph in glyphs]


def _lay_ring(row: ChartRow, index: int) -> tuple[LaidRound, list[Glyph]]:
    """A foundation chain closed to a ring."""
    count = len(row.row.fabric.sites)
    links = sum(1 for mark in row.marks if mark.role == LINK)
    radius = max(RING, (count + links * 0.6) * CHAIN_STEP / math.tau)
    glyphs = []
    half = CHAIN_STEP * 0.46
    for number in range(count + links):
        angle = math.tau * (number + 0.5) / (count + links) - math.pi / 2
        x, y = radius * math.cos(angle), radius * math.sin(angle)
        if number < count:
            dx, dy = -math.sin(angle) * half, math.cos(angle) * half
            glyphs.append(Glyph("ch", "ch", index, ((x - dx, y - dy),), (x + dx, y + dy)))
        else:
            glyphs.append(Glyph("sl st", "sl st", index, ((x, y - 0.2),), (x, y + 0.12)))
    sites = tuple(((number + 0.5) / (count + links), radius) for number in range(count))
    return LaidRound(row, sites, radius + 0.25, (0.0, 0.0), 0, radius + 0.25), glyphs


class _Round:
    """One round on its way to its places."""

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

    def lay(self) -> tuple[LaidRound, list[Glyph]]:
        feet = [self._foot(mark) for mark in self.columns]
        tall = [
            (foot[1] if foot else self.base) + rise(mark.kind, 0.0)
            for mark, foot in zip(self.columns, feet, strict=True)
        ]
        line = max(median(tall) if tall else self.base + 1.0, self.base + 0.6)
        natural, needed = line, self._side_need()
        while self.shape.around(line) < needed:
            line += 0.05
        for mark, share, top, foot in zip(self.columns, self._place(line), tall, feet, strict=True):
            radius = foot[1] if foot else self.base
            self.heads[id(mark)] = (share, level_top(top + line - natural, radius, self.base, line))
        return self._draw(line)

    def _at(self, polar: Polar) -> Point:
        return self.shape.point(*polar)

    def _stands(self, mark: Mark) -> tuple[Point, ...]:
        share, _ = self.heads[id(mark)]
        foot = self._foot(mark)
        if foot is None or self.below is None:
            return (self._at((share, self.base)),)
        if id(mark) in self.stands:
            return (self._at(self.stands[id(mark)]),)
        below = replace(self.shape, sides=self.below.sides)
        if not mark.into_space and (len(mark.feet) == 1 or "tog" in mark.kind):
            found = [self.below.sites[at] for at in mark.feet if at < len(self.below.sites)]
            return tuple(below.point(*site) for site in found)
        run = sorted((self.below.sites[at] for at in mark.feet if at < len(self.below.sites)), key=lambda site: site[0])
        shared = sum(1 for other in self.columns if other.feet == mark.feet)
        if len(run) < 2 or shared < 2:
            return (below.point(*foot),)
        reach = 0.9 if shared > len(run) / 2 + 2 else 0.4  # a full loop is worked along all of its chains
        off = ((share - foot[0] + 0.5) % 1 - 0.5) * (1.0 if reach > 0.5 else FEET_APART)
        half = (run[-1][0] - run[0][0]) / 2 * reach
        return (below.point(*along_run(run, foot[0] + max(-half, min(half, off)))),)

    def _deep(self, mark: Mark, feet: Sequence[Point]) -> Point | None:
        """The place in a round further down: as far in, on the line from the foot to the centre."""
        if not mark.down or not self.radii:
            return None
        (x, y), at = mean_point(feet), len(self.radii) - mark.down
        (ux, uy), far = self.shape.outward((x, y))
        down = far * (1 - (self.radii[at] if at >= 0 else self.radii[0]) / self.radii[-1])
        return x - ux * down, y - uy * down

    def _own(self, mark: Mark) -> int:
        """The row that a chain counts with: the foundation, where that made it."""
        return self.index - 1 if self.row.free and mark.role == OPENING else self.index

    def _draw(self, line: float) -> tuple[LaidRound, list[Glyph]]:
        sites: list[Polar | None] = [None] * len(self.row.row.fabric.sites)
        glyphs: list[Glyph] = []
        is_back = self.row.row.side == "WS" or self.way < 0
        for at, mark in enumerate(self.row.marks):
            if mark.role == CHAIN:
                self._draw_chain(at, mark, sites, glyphs, line)
            elif mark.role == OPENING:
                self._draw_opening(at, mark, sites, glyphs, line)
            elif mark.role == STITCH:
                share, radius = self.heads[id(mark)]
                width = max(1, len(mark.tops))
                head = self._at((share, radius))
                look, loop = look_of(mark, is_back), seen_loop(mark.loop, is_back)
                feet = self._stands(mark)
                glyphs.append(Glyph(mark.kind, look, self.index, feet, head, width, loop, self._deep(mark, feet)))
                step = self.way / self.shape.around(radius)
                for number, top in enumerate(mark.tops):
                    sites[top] = (share + step * (number - (width - 1) / 2), radius)
            elif mark.role == LINK:
                glyphs.append(self._draw_link(at, mark, line))
            else:
                glyphs.extend(self._draw_picot(at, mark, line))
        reach = max([line, *(math.hypot(*glyph.head) for glyph in glyphs)])
        first, last = self._first_last()
        half = (first[0] - last[0]) * self.way % 1 / 2
        seam = (first[0] - self.way * half, half)
        sides = self.shape.sides
        laid = LaidRound(self.row, self._fill(sites, line), line, self._label(line), sides, reach, seam)
        return laid, glyphs

    def _first_last(self) -> tuple[Polar, Polar]:
        """Heads of the first and the last column in working order."""
        if not self.columns:
            return (0.0, self.base), (1.0, self.base)
        order = self.columns if self.way > 0 else self.columns[::-1]
        return self.heads[id(order[0])], self.heads[id(order[-1])]

    def _seam(self, line: float, widths: float) -> float:
        """A share so many stitch widths before the first column."""
        return self._first_last()[0][0] - self.way * widths / self.shape.around(line)

    def _label(self, line: float) -> Point:
        share = self._seam(line, 1.0 + (BESIDE if self.opens_beside else 0.0))
        return self._at((share, (self.base + line) / 2 - 0.1))

    def _beside(self, at: int, step: int) -> Mark | None:
        marks = self.row.marks
        number = at + step
        while 0 <= number < len(marks):
            if marks[number].is_column:
                return marks[number]
            number += step
        return None

    def _draw_chain(self, at: int, mark: Mark, sites: list[Polar | None], glyphs: list[Glyph], line: float) -> None:
        before, after = self._beside(at, -1), self._beside(at, 1)
        first, _ = self._first_last()
        start = self.heads[id(before)] if before else (self._seam(line, 0.9), line)
        end = self.heads[id(after)] if after else (first[0] + self.way, first[1])
        gap = (end[0] - start[0]) * self.way % 1 or 0.02
        half = 0.36 / self.shape.around(line)
        begin = self._at((start[0] + self.way * half, start[1] - 0.1))
        stop = self._at((start[0] + self.way * (gap - half), end[1] - 0.1))
        bulge, _ = self.shape.outward(self._at((start[0] + self.way * gap / 2, line)))
        drawn = lay_chain(begin, stop, mark.chains, self._own(mark), bulge)
        glyphs.extend(drawn)
        for number, top in enumerate(mark.tops):
            if number < len(drawn):
                x, y = mean_point((drawn[number].feet[0], drawn[number].head))
                share = start[0] + self.way * gap * (number + 0.5) / len(mark.tops)
                sites[top] = (share, self._distance(share, (x, y)) + 0.12)

    def _distance(self, share: float, point: Point) -> float:
        """How far out a point lies, in the measure of this shape."""
        if self.shape.half:
            return self.shape.outward(point)[1]
        edge = self._at((share, 1.0))
        return math.hypot(*point) / (math.hypot(*edge) or 1.0)

    def _draw_opening(self, at: int, mark: Mark, sites: list[Polar | None], glyphs: list[Glyph], line: float) -> None:
        if mark.counts:
            foot, head = self._stands(mark)[0], self._at(self.heads[id(mark)])
            place = self.heads[id(mark)]
        else:
            share = self._seam(line, 0.8)
            tall = min(mark.chains * CHAIN_STEP, max(CHAIN_STEP, line - self.base))
            place = (share, self.base + 0.1 + tall)
            foot, head = self._at((share, self.base + 0.1)), self._at(place)
        length = math.dist(foot, head) or 1.0
        step = length / mark.chains
        ux, uy = (head[0] - foot[0]) / length, (head[1] - foot[1]) / length
        long = min(step, CHAIN_STEP) * 0.94
        for number in range(mark.chains):
            low = step * (number + 0.5) - long / 2
            start = (foot[0] + ux * low, foot[1] + uy * low)
            glyphs.append(Glyph("ch", "ch", self._own(mark), (start,), (start[0] + ux * long, start[1] + uy * long)))
        for top in mark.tops:
            sites[top] = place

    def _draw_link(self, at: int, mark: Mark, line: float) -> Glyph:
        found = [self.below.sites[foot] for foot in mark.feet if self.below and foot < len(self.below.sites)]
        if found and self.below:
            shape = replace(self.shape, sides=self.below.sides)
            x, y = mean_point([shape.point(*site) for site in found])
            low, high = 0.0, 0.35
        else:
            first, _ = self._first_last()
            number = sum(1 for other in self.row.marks[:at] if other.role == LINK and not other.feet)
            share = self._seam(line, 0.56 + 0.5 * number)
            x, y = self._at((share, first[1]))
            low, high = -0.35, 0.0
        (ux, uy), _ = self.shape.outward((x, y))
        return Glyph("sl st", "sl st", self.index, ((x + ux * low, y + uy * low),), (x + ux * high, y + uy * high))

    def _draw_picot(self, at: int, mark: Mark, line: float) -> list[Glyph]:
        last = self._beside(at, -1)
        x, y = self._at(self.heads[id(last)] if last else (self._seam(line, 0.8), line))
        (ux, uy), _ = self.shape.outward((x, y))
        return lay_picot((x + ux * 0.1, y + uy * 0.1), (ux, uy), mark.chains, self.index)

    def _fill(self, sites: list[Polar | None], line: float) -> tuple[Polar, ...]:
        """Sites without a symbol of their own lie where the one before them does."""
        filled: list[Polar] = []
        for site in sites:
            filled.append(site or (filled[-1] if filled else (self._seam(line, 0.8), line)))
        return tuple(filled)
