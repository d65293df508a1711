"""Stitches of a laid piece in their places on a canvas, ready to be painted."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from booklet.drawings.cells import along_edge, middle, place_sites
from booklet.drawings.edges import Edge
from booklet.drawings.lay import Band, Lay
from booklet.drawings.plan import Box, Point

MOST_LEAN = 2.0  # stitch widths: beyond it a foot is taken to be beneath its head
INTO_SPACE = 0.45  # how much further down a stitch reaches that is worked round a chain


@dataclass(frozen=True, slots=True)
class View:
    """What part of a piece (cm) is shown, at how many pixels to the centimetre."""

    window: Box
    scale: float

    def at(self, point: Point) -> Point:
        """Pixels from the upper left corner of the window."""
        return (point[0] - self.window[0]) * self.scale, (point[1] - self.window[1]) * self.scale

    def shows(self, point: Point, margin: float) -> bool:
        """Whether a point lies in the window or within `margin` cm of it."""
        left, top, right, bottom = self.window
        return left - margin < point[0] < right + margin and top - margin < point[1] < bottom + margin


@dataclass(frozen=True, slots=True)
class PlacedStitch:
    """One stitch: foot, head and width in pixels. `is_front` tells that its front faces the viewer."""

    kind: str
    letter: str
    foot: Point
    head: Point
    width: float
    is_front: bool


def place_stitches(piece: Lay, view: View) -> Iterator[list[PlacedStitch]]:
    """The stitches that show, row by row from the first on."""
    chain = _place_chain(piece, view)
    if chain:
        yield chain
    under: list[Band] = []
    for band in piece.all_bands:
        if under and band.top.closed and not under[-1].top.closed:
            under = []  # a border is not worked on the last row alone
        yield _place_row(band, under, view)
        under.append(band)


def _spread(share: float, seen: tuple[float, float]) -> float:
    """A share of the row as a share of the part of it that shows."""
    return (share - seen[0]) / (seen[1] - seen[0])


def _place_row(band: Band, rows_under: Sequence[Band], view: View) -> list[PlacedStitch]:
    fabric = band.row.fabric
    below = rows_under[-1] if rows_under else None
    places = place_sites(fabric)
    under = place_sites(below.row.fabric) if below else ()
    stitches = [
        (s.kind, s.colour, s.into, s.top, s.into_space, s.down) for s in fabric.stitches if 0 <= s.top < len(places)
    ]
    covered = {stitch[3] for stitch in stitches}
    for index, site in enumerate(fabric.sites):
        if index not in covered and site.counts:
            stitches.append((site.kind or "sc", site.colour, (), index, False, 0))
    is_front = band.direction > 0 if band.top.closed else band.direction < 0
    placed = []
    for kind, letter, into, top, into_space, down in stitches:
        start, end = (_spread(along_edge(share, band.direction), band.seen) for share in places[top])
        share = (start + end) / 2
        if not 0 <= share <= 1 or start == end:
            continue
        head = band.top.point(share)
        width = _width(band.top, start, end)
        if not view.shows(head, 3 * width):
            continue
        foot = _find_foot(band, below, share, middle(under, into) if into else None, width)
        if 2 <= down <= len(rows_under) + 1:  # it hides what it is worked over
            foot = rows_under[1 - down].base.point(share)
        elif into_space:
            foot = (foot[0] + (foot[0] - head[0]) * INTO_SPACE, foot[1] + (foot[1] - head[1]) * INTO_SPACE)
        placed.append(PlacedStitch(kind, letter, view.at(foot), view.at(head), width * view.scale, is_front))
    # what lies back is painted before what stands out
    return sorted(placed, key=lambda stitch: stitch.kind.startswith("FP") == stitch.is_front)


def _width(edge: Edge, start: float, end: float) -> float:
    (x0, y0), (x1, y1) = edge.point(start), edge.point(end)
    return math.hypot(x1 - x0, y1 - y0)


def _find_foot(band: Band, below: Band | None, share: float, into: float | None, width: float) -> Point:
    """Where the stitch stands: in the stitch below that it is worked into, or straight beneath its head."""
    straight = band.base.point(share)
    if below is None or into is None:
        return straight
    at = below.top.point(_spread(along_edge(into, below.direction), below.seen))
    is_near = math.hypot(at[0] - straight[0], at[1] - straight[1]) <= MOST_LEAN * width
    return at if is_near else straight


def _place_chain(piece: Lay, view: View) -> list[PlacedStitch]:
    """The foundation chain along the first edge, as many links as the first row has stitches."""
    first = piece.bands[0]
    runs = first.runs()
    if first.top.closed or piece.start != "foundation edge":
        return []
    total = sum(run.count for run in runs)
    (x0, y0), (x1, y1) = first.base.point(0), first.top.point(0)
    down = ((x0 - x1) * 0.7, (y0 - y1) * 0.7)
    links = []
    for run in runs:
        for number in range(run.count):
            share = run.start + (run.end - run.start) * (number + 0.5) / run.count
            head = first.base.point(share)
            width = _width(first.base, 0, 1) / max(1, total)
            head = (head[0] + down[0] * 0.3, head[1] + down[1] * 0.3)
            if view.shows(head, 3 * width):
                foot = (head[0] + down[0], head[1] + down[1])
                links.append(PlacedStitch("ch", run.letter, view.at(foot), view.at(head), width * view.scale, True))
    return links


def choose_window(piece: Lay, width: float, height: float, letters_wanted: Sequence[str]) -> Box:
    """The best part of a large piece for a window of `width` x `height` cm.

    Best is where the colours are most evenly shared, with some change of stitch; of equals the one
    nearest the middle. The window never leaves the piece where that can be helped.
    """
    left, top, right, bottom = piece.own_box
    steps = 9
    candidates = []
    for across in range(steps):
        for down in range(steps):
            x = left + max(0.0, right - left - width) * across / (steps - 1)
            y = top + max(0.0, bottom - top - height) * down / (steps - 1)
            off = abs(across - (steps - 1) / 2) + abs(down - (steps - 1) / 2)
            candidates.append((_variety(piece, (x, y, x + width, y + height), letters_wanted) - 0.004 * off, x, y))
    _, x, y = max(candidates)
    return x, y, x + width, y + height


def _variety(piece: Lay, window: Box, letters: Sequence[str]) -> float:
    """How evenly the window shares the piece's colours and kinds of stitch, about 0 to 2."""
    shares: dict[str, float] = dict.fromkeys(letters, 0.0)
    kinds: dict[str, float] = {}
    for band in piece.all_bands[:: max(1, len(piece.all_bands) // 60)]:
        (x0, y), (x1, _) = band.top.point(0), band.top.point(1)
        if band.top.closed or not window[1] <= y <= window[3] or x1 <= x0:
            continue
        for run in band.runs():
            seen = min(window[2], x0 + (x1 - x0) * run.end) - max(window[0], x0 + (x1 - x0) * run.start)
            shares[run.letter] = shares.get(run.letter, 0.0) + max(0.0, seen)
        main = max(band.row.fabric.counts, key=lambda kind: band.row.fabric.counts[kind], default="")
        kinds[main] = kinds.get(main, 0.0) + 1
    return _evenness(shares) + 0.5 * _evenness(kinds)


def _evenness(shares: dict[str, float]) -> float:
    """0 where one has all, 1 where all have the same (entropy over its greatest value)."""
    total = sum(shares.values())
    if total <= 0 or len(shares) < 2:
        return 0.0
    parts = [share / total for share in shares.values() if share > 0]
    return -sum(part * math.log(part) for part in parts) / math.log(len(shares))
