"""The areas of one colour in a piece: which runs of which rows hang together, and where they border.

Two runs hang together where they lie on one another, are of one colour and share at least half a
stitch. Everything works on the shares of `Band.runs`, so it holds for rows, tubes and circles.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from booklet.drawings.cells import Run
from booklet.drawings.edges import trace_edge
from booklet.drawings.lay import Band
from booklet.drawings.plan import Point

TOO_MANY_RUNS = 4000  # beyond it every stitch is a border of its own, and none would be seen


@dataclass(frozen=True, slots=True)
class ColourArea:
    """One area: its colour, and its runs with the band each is in, from the first row on."""

    letter: str
    runs: tuple[tuple[int, Run], ...]

    @property
    def first(self) -> int:
        return self.runs[0][0]

    @property
    def last(self) -> int:
        return self.runs[-1][0]

    @property
    def count(self) -> int:
        return sum(run.count for _, run in self.runs)


def find_areas(bands: Sequence[Band]) -> tuple[ColourArea, ...]:
    """All areas, in the order in which work on them begins."""
    runs = [(index, run) for index, band in enumerate(bands) for run in band.runs()]
    parent = list(range(len(runs)))

    def root(item: int) -> int:
        while parent[item] != item:
            parent[item] = parent[parent[item]]
            item = parent[item]
        return item

    by_band: dict[int, list[int]] = {}
    for item, (index, _) in enumerate(runs):
        by_band.setdefault(index, []).append(item)
    for index, items in by_band.items():
        ends_meet = bands[index].top.closed and len(items) > 1
        if ends_meet and runs[items[0]][1].letter == runs[items[-1]][1].letter:
            parent[root(items[-1])] = root(items[0])
        least = 0.5 / max(1, bands[index].row.made)
        for below, above in _lying_on(runs, by_band.get(index - 1, []), items, least):
            parent[root(above)] = root(below)
    groups: dict[int, list[tuple[int, Run]]] = {}
    for item, run in enumerate(runs):
        groups.setdefault(root(item), []).append(run)
    return tuple(ColourArea(group[0][1].letter, tuple(group)) for group in groups.values())


def _lying_on(runs: list[tuple[int, Run]], below: list[int], above: list[int], least: float) -> list[tuple[int, int]]:
    """Pairs of runs of one colour that lie on one another; both lists go from left to right."""
    pairs, i, j = [], 0, 0
    while i < len(below) and j < len(above):
        under, over = runs[below[i]][1], runs[above[j]][1]
        shared = min(under.end, over.end) - max(under.start, over.start)
        if under.letter == over.letter and shared >= least:
            pairs.append((below[i], above[j]))
        if under.end < over.end:
            i += 1
        else:
            j += 1
    return pairs


def run_polygon(band: Band, run: Run) -> tuple[Point, ...]:
    """The outline of a run in centimetres."""
    return (*trace_edge(band.base, run.start, run.end), *reversed(trace_edge(band.top, run.start, run.end)))


def has_panels(bands: Sequence[Band]) -> bool:
    """Whether some row is worked in several colours side by side."""
    return any(len({run.letter for run in band.runs()}) > 1 for band in bands)


def border_lines(bands: Sequence[Band]) -> tuple[tuple[Point, ...], ...]:
    """Lines in centimetres where colours meet: beside one another and from row to row."""
    if sum(len(band.runs()) for band in bands) > TOO_MANY_RUNS:
        return ()
    lines: list[tuple[Point, ...]] = []
    for index, band in enumerate(bands):
        runs = band.runs()
        lines.extend((band.base.point(run.start), band.top.point(run.start)) for run in runs[1:])
        if band.top.closed and len(runs) > 1 and runs[0].letter != runs[-1].letter:
            lines.append((band.base.point(0.0), band.top.point(0.0)))
        if index:
            lines.extend(trace_edge(band.base, *stretch) for stretch in _changes(bands[index - 1].runs(), runs))
    return tuple(lines)


def _changes(below: Sequence[Run], above: Sequence[Run]) -> list[tuple[float, float]]:
    """Stretches along which the colour changes from one row to the next."""
    stretches: list[tuple[float, float]] = []
    i = j = 0
    while i < len(below) and j < len(above):
        start = max(below[i].start, above[j].start)
        end = min(below[i].end, above[j].end)
        if below[i].letter != above[j].letter and end - start > 1e-9:
            if stretches and abs(stretches[-1][1] - start) < 1e-9:
                start = stretches.pop()[0]
            stretches.append((start, end))
        if below[i].end < above[j].end:
            i += 1
        else:
            j += 1
    return stretches
