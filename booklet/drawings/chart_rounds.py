"""Rounds of a stitch chart from the centre outwards: increases fan, chains arch, corners stand out.

Where a stitch lies is told by its share of the round, counted counter-clockwise from below, and its
distance from the centre. Every round wants its stitches straight outside their feet and is given as
large a radius as it needs; between its last stitch and its first there is room for its number.
"""

import math
from collections.abc import Sequence
from dataclasses import replace
from statistics import median

from booklet.drawings.chart_feet import seen_loop
from booklet.drawings.chart_flat import FEET_APART, lay_picot, level_top
from booklet.drawings.chart_glyphs import CHAIN_STEP, Glyph, lay_chain, look_of, mean_point, rise
from booklet.drawings.chart_marks import BLANK, CHAIN, LINK, OPENING, STITCH, ChartRow, Mark
from booklet.drawings.chart_oval import goes_round_chain, lay_axis
from booklet.drawings.chart_ring import (
    LaidRound,
    Polar,
    RingShape,
    along_run,
    find_corners,
    turn_glyph,
    turn_round,
    upright_angle,
)
from booklet.drawings.chart_round_places import BESIDE, RING, RoundPlaces
from booklet.drawings.plan import Point

SIDES = (3, 4, 5, 6, 8)


def lay_rounds(rows: Sequence[ChartRow], ways: Sequence[int]) -> tuple[list[LaidRound], list[Glyph], RingShape]:
    """All rounds, the first in the middle, and their shape; `ways` are +1 for rounds worked counter-clockwise."""
    laid: list[LaidRound] = []
    glyphs: list[Glyph] = []
    shape = RingShape()
    stands: dict[int, Polar] = {}
    is_oval = goes_round_chain(rows)
    corners = [] if is_oval else [len(find_corners(row)) for row in reversed(rows)]
    sides = next((count for count in corners if count in SIDES), 0)
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
    turned = replace(shape, turn=shape.turn + turn / math.tau)
    return [turn_round(done, turn) for done in laid], [turn_glyph(glyph, turn) for glyph in glyphs], turned


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


class _Round(RoundPlaces):
    """One round on its way to its places, and its symbols."""

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
            elif mark.role == BLANK:
                sites[mark.tops[0]] = self.heads[id(mark)]
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
