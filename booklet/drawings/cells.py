"""Where along its row each stitch stands, as shares of the row's length, and which colours lie there."""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache

from booklet.model.work import Fabric

Places = tuple[tuple[float, float], ...]


@dataclass(frozen=True, slots=True)
class Run:
    """Neighbouring stitches of one colour: from `start` to `end` of the edge they lie on."""

    start: float
    end: float
    letter: str
    count: int


@lru_cache(maxsize=4096)
def place_sites(fabric: Fabric) -> Places:
    """Begin and end of every site as shares of the row, in the order in which the row made them.

    A turning chain that does not count takes no room.
    """
    widths = [1.0 if site.counts else 0.0 for site in fabric.sites]
    total = sum(widths)
    if total == 0:
        widths, total = [1.0] * len(widths), float(len(widths) or 1)
    places, at = [], 0.0
    for width in widths:
        places.append((at / total, (at + width) / total))
        at += width
    return tuple(places)


def middle(places: Places, indices: Sequence[int]) -> float | None:
    """The share in the middle of some sites; None where none of them is in the row."""
    found = [places[index] for index in indices if 0 <= index < len(places)]
    if not found:
        return None
    return sum(start + end for start, end in found) / (2 * len(found))


def along_edge(share: float, direction: int) -> float:
    """A share counted in working order, counted along the edge instead."""
    return share if direction > 0 else 1 - share


@lru_cache(maxsize=4096)
def find_runs(fabric: Fabric, direction: int) -> tuple[Run, ...]:
    """The colours along the edge, neighbours of one colour taken together."""
    runs: list[Run] = []
    sites = list(zip(fabric.sites, place_sites(fabric), strict=True))
    for site, (start, end) in sites if direction > 0 else reversed(sites):
        if start == end:
            continue
        begin, stop = (start, end) if direction > 0 else (1 - end, 1 - start)
        if runs and runs[-1].letter == site.colour:
            runs[-1] = Run(runs[-1].start, stop, site.colour, runs[-1].count + 1)
        else:
            runs.append(Run(begin, stop, site.colour, 1))
    if not runs:
        return (Run(0.0, 1.0, next((colour for colour, _ in fabric.yarn), ""), fabric.made),)
    return tuple(runs)


def join_letters(letters: Sequence[str]) -> tuple[Run, ...]:
    """Runs of letters that stand side by side, each in as much room as any other."""
    runs: list[Run] = []
    for at, letter in enumerate(letters):
        end = (at + 1) / len(letters)
        if runs and runs[-1].letter == letter:
            runs[-1] = Run(runs[-1].start, end, letter, runs[-1].count + 1)
        else:
            runs.append(Run(at / len(letters), end, letter, 1))
    return tuple(runs)


@lru_cache(maxsize=4096)
def find_spaces(fabric: Fabric, direction: int) -> tuple[Run, ...]:
    """Spaces of two or more chains along the edge: what shows through the fabric.

    A single chain makes no hole; the stitches worked round it close it.
    """
    spaces = []
    for site, (start, end) in zip(fabric.sites, place_sites(fabric), strict=True):
        if site.kind == "ch" and site.run >= 2 and site.chains == 0 and start < end:
            begin, stop = (start, end) if direction > 0 else (1 - end, 1 - start)
            spaces.append(Run(begin, stop, site.colour, 1))
    return tuple(spaces)


def cut_runs(runs: Sequence[Run], shares: Sequence[float]) -> tuple[Run, ...]:
    """The runs, none of which goes on across one of the shares."""
    for share in shares:
        cut: list[Run] = []
        for run in runs:
            if not run.start < share < run.end:
                cut.append(run)
                continue
            before = round(run.count * (share - run.start) / (run.end - run.start))
            cut.append(Run(run.start, share, run.letter, before))
            cut.append(Run(share, run.end, run.letter, run.count - before))
        runs = cut
    return tuple(runs)


def clip_runs(runs: Sequence[Run], start: float, end: float) -> tuple[Run, ...]:
    """What of the runs lies between two shares, spread over the whole edge."""
    if (start, end) == (0.0, 1.0):
        return tuple(runs)
    span = end - start
    seen = []
    for run in runs:
        begin, stop = max(run.start, start), min(run.end, end)
        if stop - begin > 1e-9:
            share = (stop - begin) / (run.end - run.start)
            seen.append(Run((begin - start) / span, (stop - start) / span, run.letter, round(run.count * share)))
    return tuple(seen)
