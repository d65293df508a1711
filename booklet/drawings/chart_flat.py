"""Rows of a stitch chart laid over one another, each symbol over what it is worked into.

Every row wants its stitches straight above their feet, and gives way only where they would touch:
so fans spread, decreases lean together, and chains reach from stitch to stitch, on an arch where
there are more than the way is long. Units are stitches; y runs upwards from the foundation.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from statistics import median

from booklet.drawings.chart_columns import Columns, list_columns, place_columns, site_xs
from booklet.drawings.chart_feet import seen_loop
from booklet.drawings.chart_glyphs import (
    CHAIN_STEP,
    Glyph,
    lay_chain,
    look_of,
    mean_point,
    rise,
)
from booklet.drawings.chart_marks import ALONG, BLANK, CHAIN, LINK, OPENING, STITCH, ChartRow, Mark
from booklet.drawings.chart_sides import find_feet
from booklet.drawings.chart_spread import fill_gaps
from booklet.drawings.plan import Point

MOST_OFF = 1.2  # how far a top may lie from the line of its row
FEET_APART = 0.3  # share by which feet in a chain space follow their tops


@dataclass(frozen=True, slots=True)
class LaidRow:
    """A row in place: where its sites lie, its ends, and the height its tops lie at."""

    row: ChartRow
    direction: int
    sites: tuple[Point, ...]
    base: float
    line: float
    left: float
    right: float


def lay_flat(rows: Sequence[ChartRow], directions: Sequence[int]) -> tuple[list[LaidRow], list[Glyph]]:
    """All rows, the first at the bottom; `directions` say which rows go from left to right (+1)."""
    columns = [list_columns(row, way) for row, way in zip(rows, directions, strict=True)]
    place_columns(rows, columns, directions)
    laid: list[LaidRow] = []
    glyphs: list[Glyph] = []
    feet = find_feet(rows)
    for index, (row, way) in enumerate(zip(rows, directions, strict=True)):
        if row.row.kind == "foundation":
            done, drawn = _draw_foundation(
                row, columns[index], rows[index + 1] if index + 1 < len(rows) else None, way, index
            )
        else:
            done, drawn = _draw_row(row, columns[index], laid[: feet[index] + 1], way, index)
        laid.append(done)
        glyphs.extend(drawn)
    return laid, glyphs


def _draw_foundation(
    row: ChartRow, cols: Columns, first: ChartRow | None, way: int, index: int
) -> tuple[LaidRow, list[Glyph]]:
    xs = site_xs(row, cols, way)
    standing = first.free if first else 0
    if first and not standing:
        used = max((foot for mark in first.marks for foot in mark.feet), default=len(xs) - 1)
        standing = 1 if used == len(xs) - 2 else 0
    half = CHAIN_STEP * 0.47
    glyphs = [
        Glyph("ch", "ch", index, ((x - half * way, -0.3),), (x + half * way, -0.3)) for x in xs[: len(xs) - standing]
    ]
    if first and not first.free and standing:  # the one chain that a first row of sc passes over
        x = xs[-2] + way * 0.85
        glyphs.append(Glyph("ch", "ch", index, ((x, 0.05),), (x, 0.05 + CHAIN_STEP)))
    for number in range(sum(1 for mark in row.marks if mark.role == LINK)):  # a ring, joined
        x = xs[-1] + way * (0.8 + 0.6 * number)
        glyphs.append(Glyph("sl st", "sl st", index, ((x, -0.5),), (x, -0.15)))
    return LaidRow(row, way, tuple((x, 0.0) for x in xs), -0.6, 0.0, min(xs) - 0.5, max(xs) + 0.5), glyphs


def _draw_row(
    row: ChartRow, cols: Columns, done: Sequence[LaidRow], way: int, index: int
) -> tuple[LaidRow, list[Glyph]]:
    below = done[-1] if done else None
    base = below.line if below else 0.0
    sites_below = below.sites if below else ()
    feet = [_feet(mark, x, sites_below, base) for mark, x in zip(cols.marks, cols.xs, strict=True)]
    tops = [
        max(mean_point(at)[1], base - MOST_OFF) + rise(mark.kind, x - mean_point(at)[0])
        for mark, x, at in zip(cols.marks, cols.xs, feet, strict=True)
    ]
    line = max(median(tops) if tops else base + 1.0, base + 0.6)
    heads = {
        id(mark): (x, level_top(top, mean_point(at)[1], base, line))
        for mark, x, top, at in zip(cols.marks, cols.xs, tops, feet, strict=True)
    }
    stands = {id(mark): at for mark, at in zip(cols.marks, feet, strict=True)}
    drawer = _RowDrawer(row, way, index, heads, stands, below, line, [laid.line for laid in done])
    return drawer.draw()


def level_top(top: float, foot: float, base: float, line: float) -> float:
    """The height of a top: what is high or low stays so for one row, or a column of short stitches would sink."""
    off, below = top - line, foot - base
    if off * below > 0 and abs(below) > 0.2:
        off *= 0.25
    return max(line + min(max(off, -MOST_OFF), MOST_OFF), foot + 0.5)


def _feet(mark: Mark, x: float, below: Sequence[Point], base: float) -> tuple[Point, ...]:
    points = [below[foot] for foot in mark.feet if foot < len(below)]
    if not points:
        return ((x, base),)
    if mark.into_space or mark.loop == "between" or (len(points) > 1 and "tog" not in mark.kind):
        (mx, my) = mean_point(points)
        reach = max(0.25, (max(px for px, _ in points) - min(px for px, _ in points)) / 2)
        return ((mx + max(-reach, min(reach, FEET_APART * (x - mx))), my),)
    return tuple(points)


@dataclass(slots=True)
class _RowDrawer:
    """Symbols of one row, once its columns are placed."""

    row: ChartRow
    way: int
    index: int
    heads: dict[int, Point]
    stands: dict[int, tuple[Point, ...]]
    below: LaidRow | None
    line: float
    lines: list[float]  # of the rows below, from the first up

    def draw(self) -> tuple[LaidRow, list[Glyph]]:
        sites: list[Point | None] = [None] * len(self.row.row.fabric.sites)
        glyphs: list[Glyph] = []
        free = self.row.free
        marks = self.row.marks
        is_back = self.row.row.side == "WS"
        for at, mark in enumerate(marks):
            own = self.index
            if free > 0 and mark.role in (OPENING, CHAIN):
                own, free = self.index - 1, free - mark.chains
            if mark.role == CHAIN and self._follows_travel(at):
                self._draw_opening(at, mark, own, sites, glyphs)
            elif mark.role == CHAIN:
                self._draw_chain(at, mark, own, sites, glyphs)
            elif mark.role == OPENING:
                self._draw_opening(at, mark, own, sites, glyphs)
            elif mark.role == STITCH:
                head = self.heads[id(mark)]
                width = max(1, len(mark.tops))
                glyphs.append(self._draw_stitch(mark, own, is_back))
                for number, top in enumerate(mark.tops):
                    sites[top] = (head[0] + self.way * (number - (width - 1) / 2), head[1])
            elif mark.role == ALONG:
                glyphs.extend(self._draw_own_chain(mark, own))
            elif mark.role == BLANK:
                sites[mark.tops[0]] = self.heads[id(mark)]
            elif mark.role == LINK:
                glyphs.append(self._draw_link(at, mark, own))
            else:
                glyphs.extend(self._draw_picot(at, mark, own))
        filled = self._fill(sites)
        xs = [x for x, _ in filled] + [x for x, _ in self.heads.values()] or [0.0]
        base = self.below.line if self.below else 0.0
        laid = LaidRow(self.row, self.way, filled, base, self.line, min(xs) - 0.5, max(xs) + 0.5)
        return laid, glyphs

    def _draw_own_chain(self, mark: Mark, own: int) -> list[Glyph]:
        """Chains made before the row, beside the one below, under the stitches that go into them."""
        first = [other for other in self.row.marks if other.is_column][: mark.chains]
        half = CHAIN_STEP * 0.47
        places = [self.heads[id(other)][0] for other in first]
        y = (self.below.line if self.below else 0.0) - 0.3
        return [Glyph("ch", "ch", own, ((x + half * self.way, y),), (x - half * self.way, y)) for x in places]

    def _draw_stitch(self, mark: Mark, own: int, is_back: bool) -> Glyph:
        feet = self.stands[id(mark)]
        deep = None
        if mark.down and self.lines:
            deep = (mean_point(feet)[0], self.lines[max(0, len(self.lines) - mark.down)])
        width = max(1, len(mark.tops))
        loop = seen_loop(mark.loop, is_back)
        return Glyph(mark.kind, look_of(mark, is_back), own, feet, self.heads[id(mark)], width, loop, deep)

    def _follows_travel(self, at: int) -> bool:
        """Is it the chain with which a row begins once slip stitches have led to its place?"""
        is_led = any(mark.role == LINK and mark.feet for mark in self.row.marks[:at])
        return is_led and self._beside(at, -1) is None and self._beside(at, 1) is not None

    def _beside(self, at: int, step: int) -> Mark | None:
        """The next mark in working order (or the one before) that stands in a column."""
        marks = self.row.marks
        at += step
        while 0 <= at < len(marks):
            if marks[at].is_column:
                return marks[at]
            at += step
        return None

    def _draw_chain(self, at: int, mark: Mark, own: int, sites: list[Point | None], glyphs: list[Glyph]) -> None:
        before, after = self._beside(at, -1), self._beside(at, 1)
        start = self._end_of(before, 1) if before else None
        end = self._end_of(after, -1) if after else None
        if start is None and end is None:
            start = self._row_start()
            end = (start[0] + self.way * mark.chains * CHAIN_STEP, self.line)
        elif start is None and end is not None:
            start = self._row_start()
            if abs(start[0] - end[0]) < 0.3:
                start = (start[0] - self.way * 0.6, start[1])
        elif end is None and start is not None:
            end = (start[0] + self.way * (mark.chains + 0.3) * CHAIN_STEP, start[1])
        assert start is not None
        assert end is not None
        is_rising = abs(end[1] - start[1]) > abs(end[0] - start[0])
        bulge = (-self.way * 1.0, 0.0) if is_rising and before is None else (0.0, 1.0)
        drawn = lay_chain(start, end, mark.chains, own, bulge)
        glyphs.extend(drawn)
        for top, glyph in zip(mark.tops, drawn, strict=False):
            (x0, y0), (x1, y1) = glyph.feet[0], glyph.head
            sites[top] = ((x0 + x1) / 2, (y0 + y1) / 2 + 0.12)

    def _end_of(self, mark: Mark, step: int) -> Point:
        """Where a chain leaves a stitch: at the side of its top."""
        x, y = self.heads[id(mark)]
        half = max(1, len(mark.tops)) / 2 - 0.16
        return x + step * self.way * half, y - 0.12

    def _row_start(self) -> Point:
        if self.below is None:
            return (0.0, 0.0)
        edge = self.below.left + 0.5 if self.way > 0 else self.below.right - 0.5
        return edge, self.below.line

    def _draw_opening(self, at: int, mark: Mark, own: int, sites: list[Point | None], glyphs: list[Glyph]) -> None:
        if mark.counts:
            foot, head = self.stands[id(mark)][0], self.heads[id(mark)]
        else:
            first = self._beside(at, 1)
            if first is None:
                foot = self._row_start()
                side = foot[0] - self.way * 0.4
            else:
                foot = self.stands[id(first)][0]
                side = min((self.heads[id(first)][0], foot[0]), key=lambda x: x * self.way) - self.way * 0.8
            tall = min(mark.chains * CHAIN_STEP, max(CHAIN_STEP, (self.line - foot[1]) * 0.98))
            foot, head = (side, foot[1]), (side, foot[1] + tall)
        step = math.dist(foot, head) / mark.chains
        ux, uy = (head[0] - foot[0]) / math.dist(foot, head), (head[1] - foot[1]) / math.dist(foot, head)
        long = min(step * 0.94, CHAIN_STEP * 0.94)
        for number in range(mark.chains):
            middle = step * (number + 0.5)
            low, high = middle - long / 2, middle + long / 2
            glyphs.append(
                Glyph(
                    "ch",
                    "ch",
                    own,
                    ((foot[0] + ux * low, foot[1] + uy * low),),
                    (foot[0] + ux * high, foot[1] + uy * high),
                )
            )
        for top in mark.tops:
            sites[top] = head

    def _draw_link(self, at: int, mark: Mark, own: int) -> Glyph:
        points = [self.below.sites[foot] for foot in mark.feet if self.below and foot < len(self.below.sites)]
        if points:
            x, y = mean_point(points)
            return Glyph("sl st", "sl st", own, ((x, y),), (x, y + 0.35))
        last = self._beside(at, -1)
        x, y = self.heads[id(last)] if last else self._row_start()
        number = sum(1 for other in self.row.marks[:at] if other.role == LINK and not other.feet)
        x += self.way * (0.75 + 0.5 * number)
        return Glyph("sl st", "sl st", own, ((x, y - 0.35),), (x, y))

    def _draw_picot(self, at: int, mark: Mark, own: int) -> list[Glyph]:
        last = self._beside(at, -1)
        x, y = self.heads[id(last)] if last else self._row_start()
        return lay_picot((x, y + 0.1), (0.0, 1.0), mark.chains, own)

    def _fill(self, sites: list[Point | None]) -> tuple[Point, ...]:
        """Sites without a symbol of their own lie between their neighbours."""
        xs = fill_gaps([site[0] if site else None for site in sites], float(self.way))
        return tuple(site or (x, self.line) for site, x in zip(sites, xs, strict=True))


def lay_picot(foot: Point, up: Point, chains: int, row: int) -> list[Glyph]:
    """A ring of chains on top of a stitch, closed by a slip stitch at its foot."""
    radius = max(0.42, chains * CHAIN_STEP / math.tau * 0.85)
    centre = (foot[0] + up[0] * (radius + 0.25), foot[1] + up[1] * (radius + 0.25))
    side = (up[1], -up[0])
    glyphs = []
    half = min(0.36, radius * math.sin(math.pi / (chains + 1)) * 0.9)
    for number in range(chains):
        angle = math.tau * (number + 1) / (chains + 1)
        out = (
            -up[0] * math.cos(angle) + side[0] * math.sin(angle),
            -up[1] * math.cos(angle) + side[1] * math.sin(angle),
        )
        along = (
            up[0] * math.sin(angle) + side[0] * math.cos(angle),
            up[1] * math.sin(angle) + side[1] * math.cos(angle),
        )
        x, y = centre[0] + out[0] * radius, centre[1] + out[1] * radius
        glyphs.append(
            Glyph(
                "picot ch",
                "ch",
                row,
                ((x - along[0] * half, y - along[1] * half),),
                (x + along[0] * half, y + along[1] * half),
            )
        )
    at = (centre[0] - up[0] * radius, centre[1] - up[1] * radius)
    glyphs.append(
        Glyph(
            "sl st",
            "sl st",
            row,
            ((at[0] - up[0] * 0.17, at[1] - up[1] * 0.17),),
            (at[0] + up[0] * 0.17, at[1] + up[1] * 0.17),
        )
    )
    return glyphs
