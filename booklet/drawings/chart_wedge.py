"""Rounds cut to a wedge: all that grows out of one stretch of the first of them, as rows that a chart can draw.

A yoke is too wide for a page from its first round on, and a large motif from some round on. What a maker needs of it
is one repeat: where every round is the same so many times over, the wedge is one of these, from the start of each
round. Where it is not, as in a raglan whose pieces differ, it is what lies about the first increase. The rows of a
wedge are worked rows with fewer stitches, so that all that is said and counted of a chart holds of them.
"""

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from booklet.drawings.chart_marks import CHAIN, LINK, OPENING, PICOT, count_marks, list_marks
from booklet.model.work import Fabric, Site, Stitch, WorkedRow

FEWEST_TURNS, MOST_TURNS = 2, 24
LEAST_BESIDE, MOST_BESIDE = 2, 8  # stitches of the first round on either side of an increase


@dataclass(frozen=True, slots=True)
class Wedge:
    """Rows cut to a wedge, the lowest of which the others stand on.

    `turns` is how often each round repeats it, from its start on; 0 where rounds do not repeat and it is cut about an
    increase. `stitches` is how much of the lowest row it takes.
    """

    rows: tuple[WorkedRow, ...]
    turns: int
    stitches: int


def find_wedge(rows: Sequence[WorkedRow], fewest: int) -> Wedge | None:
    """The wedge of some rounds and of what they stand on, the first of the rows, as far up as it can be cut.

    None where that is less than `fewest` rounds.
    """
    sites = len(rows[0].fabric.sites)
    for turns in (turns for turns in range(MOST_TURNS, FEWEST_TURNS - 1, -1) if sites % turns == 0):
        cut = cut_rows(rows, 0, sites // turns)
        same = next((at for at in range(1, len(cut)) if not _is_share(rows[at], cut[at], turns)), len(cut))
        if same > fewest:
            return Wedge(cut[:same], turns, sites // turns)
    return _cut_about_increase(rows, fewest)


def cut_rows(rows: Sequence[WorkedRow], first: int, last: int) -> tuple[WorkedRow, ...]:
    """What grows out of the sites `first` to `last`, that one left out, of the first row, as far up as it can be cut.

    It ends below a row that turns, skips back or reaches over the edge of the wedge.
    """
    kept = range(first, last)
    cut = [_keep_sites(rows[0], kept)]
    known = {site: number for number, site in enumerate(kept)}
    for row in rows[1:]:
        if row.turned or row.kind != "round" or row.over is not None or row.along or row.status != "worked":
            break
        span = _find_span(row.fabric.stitches, known, from_start=first == 0)
        if span is None:
            break
        fabric, known = _take_stitches(row.fabric, *span, known)
        cut.append(replace(row, fabric=fabric, used=0, made=fabric.made, left=0, stated=None))
    return tuple(cut)


def _keep_sites(row: WorkedRow, kept: range) -> WorkedRow:
    """The first row with its stitches of these sites alone, and what lies between them; it stands on nothing."""
    own = [at for at, stitch in enumerate(row.fabric.stitches) if stitch.top in kept]
    between = row.fabric.stitches[own[0] : own[-1] + 1] if own else ()
    moved = [
        stitch._replace(top=stitch.top - kept.start if stitch.top >= 0 else -1, into=(), down=0) for stitch in between
    ]
    fabric = _make_fabric([row.fabric.sites[at] for at in kept], moved, row.fabric)
    return replace(row, fabric=fabric, made=fabric.made)


def _find_span(stitches: Sequence[Stitch], known: dict[int, int], from_start: bool) -> tuple[int, int] | None:
    """First and last of the stitches that stand on the wedge, with what lies between them.

    From the start of a round it is one repeat, to which the chains behind it belong.
    """
    own = [at for at, stitch in enumerate(stitches) if stitch.into and all(foot in known for foot in stitch.into)]
    if not own:
        return None
    first, last = 0 if from_start else own[0], own[-1]
    if any(stitch.down for stitch in stitches[first : last + 1]):
        return None
    if any(stitch.into and not all(foot in known for foot in stitch.into) for stitch in stitches[first : last + 1]):
        return None
    outside = (*stitches[:first], *stitches[last + 1 :])
    if any(stitch.top >= 0 and any(foot in known for foot in stitch.into) for stitch in outside):
        return None
    while last + 1 < len(stitches) and _belongs(stitches[last], stitches[last + 1], from_start):
        last += 1
    return first, last


def _belongs(stitch: Stitch, following: Stitch, takes_chains: bool) -> bool:
    """Is what follows a picot on the stitch before it, or chains up to the next repeat?"""
    if following.kind == "ch":
        return takes_chains and following.top >= 0
    closes = following.kind == "sl st" and following.top < 0 and stitch.kind == "picot ch"
    return following.kind == "picot ch" or closes


def _take_stitches(fabric: Fabric, first: int, last: int, known: dict[int, int]) -> tuple[Fabric, dict[int, int]]:
    """The fabric of these stitches alone, and where each of its sites was."""
    stitches = fabric.stitches[first : last + 1]
    tops = sorted({stitch.top for stitch in fabric.stitches if stitch.top >= 0} | {len(fabric.sites)})
    ends = dict(pairwise(tops))
    sites = [at for stitch in stitches if stitch.top >= 0 for at in range(stitch.top, ends[stitch.top])]
    numbers = {site: number for number, site in enumerate(sites)}
    moved = [
        stitch._replace(
            top=numbers[stitch.top] if stitch.top >= 0 else -1, into=tuple(known[foot] for foot in stitch.into)
        )
        for stitch in stitches
    ]
    return _make_fabric([fabric.sites[at] for at in sites], moved, fabric), numbers


def _make_fabric(sites: Sequence[Site], stitches: Sequence[Stitch], whole: Fabric) -> Fabric:
    """A fabric that accounts for its own stitches alone."""
    bare = Fabric(tuple(sites), tuple(stitches), {}, {}, {}, 0)
    marks = list_marks(bare)
    yarn: Counter[tuple[str, str]] = Counter()
    for mark in marks:
        for kind, number in count_marks((mark,)).items():
            yarn[mark.colour, kind] += number
    counts = Counter(stitch.kind for stitch in stitches if stitch.kind in whole.counts)
    spaces = Counter(mark.chains for mark in marks if mark.role == CHAIN)
    made = sum(site.counts for site in sites if site.kind != "ch" or not whole.spaces)
    return replace(bare, counts=counts, spaces=spaces, yarn=yarn, made=made)


def _is_share(whole: WorkedRow, part: WorkedRow, turns: int) -> bool:
    """Is the round the part so many times over, its stitches and their places alike?"""
    own, all_of_it = _look(part.fabric), _look(whole.fabric)
    if not own or len(own) * turns != len(all_of_it):
        return False
    steps = {all_of_it[at][0] for at in range(len(own), len(all_of_it), len(own))}
    return len(steps) <= 1 and all(
        all_of_it[at][1:] == own[at % len(own)][1:]
        and (at % len(own) == 0 or all_of_it[at][0] == own[at % len(own)][0])
        for at in range(len(all_of_it))
    )


def _look(fabric: Fabric) -> list[tuple[object, ...]]:
    """Stitches and chains in order, each with how far its foot lies from that of the one before; without joins."""
    looks: list[tuple[object, ...]] = []
    before: int | None = None
    for mark in list_marks(fabric):
        if mark.role == LINK or (mark.role == OPENING and not mark.counts):
            continue
        foot = min(mark.feet, default=None)
        step = None if foot is None or before is None else foot - before
        before = foot if foot is not None else before
        chains = mark.chains if mark.role in (CHAIN, PICOT) else 0
        looks.append((step, mark.kind, chains, len(mark.feet), mark.into_space, mark.loop))
    return looks


def _cut_about_increase(rows: Sequence[WorkedRow], fewest: int) -> Wedge | None:
    """What lies about the first place of the first round that several stitches go into."""
    if len(rows) <= fewest:
        return None
    feet = Counter(stitch.into for stitch in rows[1].fabric.stitches if stitch.into and stitch.kind != "sl st")
    places = sorted({min(into) for into, number in feet.items() if number > 1 and 0 not in into})
    if not places:
        return None
    at, sites = places[0], len(rows[0].fabric.sites)
    following = places[1] if len(places) > 1 else sites
    for beside in range(MOST_BESIDE, LEAST_BESIDE - 1, -1):
        first, last = at - beside, at + beside + 1
        if first <= 0 or last > following:
            continue
        cut = cut_rows(rows, first, last)
        if len(cut) > fewest:
            return Wedge(cut, 0, last - first)
    return None
