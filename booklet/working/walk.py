"""The row below, walked in working order."""

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from booklet.model.tree import What
from booklet.model.work import Fabric, Marker, Site, Stitch
from booklet.working.kinds import FOUNDATION, is_of_kind

Place = tuple[int, int]  # first position and the one after the last, in working order


@dataclass(slots=True)
class Walk:
    """Sites in working order and a position among them.

    `order[i]` is the index, in the order in which the row below made them, of the i-th site to be
    met. `stop` is where a repeat that leaves some stitches has to end.
    """

    sites: tuple[Site, ...]
    order: tuple[int, ...]
    backwards: bool
    at: int = 0
    stop: int = 0
    each_chain: bool = True
    markers: frozenset[Marker] = frozenset()
    corners: frozenset[int] = frozenset()  # sites in the middle of three or more stitches made in one place
    names: Mapping[str, str] = field(default_factory=dict)  # defined stitches that are one stitch: which
    corner_spaces: frozenset[int] = frozenset()  # chains in the middle of the largest groups made in one place

    def __post_init__(self) -> None:
        self.stop = len(self.order)

    def site(self, position: int) -> Site:
        return self.sites[self.order[position]]

    def is_countable(self, position: int) -> bool:
        """Would a maker miss this site if nothing were worked into it?"""
        return self.site(position).counts

    def starts_run(self, position: int) -> bool:
        """Is this the first chain of its space to be met?"""
        site = self.site(position)
        return site.kind == "ch" and site.run > 0 and site.at == (site.run - 1 if self.backwards else 0)

    def matches(self, position: int, what: What) -> bool:
        site = self.site(position)
        if what.kind == "st":
            if site.kind == "ch":
                return (site.run == 0 and site.chains == 0) or (site.counts and self.each_chain and site.chains == 0)
            return site.kind != "ring" and (site.counts or site.chains > 0)
        if what.kind == "ch":
            return site.kind == "ch" and site.chains == 0
        if what.kind == "sp" and what.chains and self.corner_spaces:
            return self.starts_run(position) and self.order[position] in self.corner_spaces
        if what.kind == "sp":
            return self.starts_run(position) or (site.kind == "ch" and site.chains > 0)
        if what.kind == "ch-sp":
            return self._is_space_of(position, what.chains)
        if what.kind.startswith("row end"):
            return site.kind == "row end" and (what.kind == "row end" or what.kind.endswith(f" {site.colour}"))
        if site.kind == "row end":
            return False
        if what.kind == "corner":
            return self._is_corner(position, site)
        if what.kind == "marked":
            return Marker(self.order[position], False) in self.markers
        if what.kind == "tch":
            return site.chains > 0
        if what.kind == "ring":
            return site.kind == "ring"
        return site.kind != "ch" and is_of_kind(
            site.kind, self.names.get(what.kind, FOUNDATION.get(what.kind, what.kind))
        )

    def _is_corner(self, position: int, site: Site) -> bool:
        """A chain space where there are any of two chains, else the middle of an odd group."""
        runs = {other.run for other in self.sites if other.kind == "ch" and other.run}
        fewest = 1 if runs == {1} and not self.corners else 2  # a hexagon's corners may be its only ch-1 spaces
        if any(run >= fewest for run in runs):
            return self.starts_run(position) and site.run >= fewest
        return self.order[position] in self.corners

    def _is_space_of(self, position: int, chains: int) -> bool:
        """Does a space of so many chains, 0 for any, begin here?"""
        site = self.site(position)
        if site.chains > 0 and site.run in (0, site.chains):
            return self._is_chain_space(site, chains)
        sized = chains in (0, site.run, site.chains or site.run) or self._belongs_to_chain(position, chains)
        return self.starts_run(position) and sized

    def _is_chain_space(self, site: Site, chains: int) -> bool:
        """Is a turning chain meant: one that counts only where the row has no space of that size?"""
        if site.kind == "ch":  # a chain at the start that counts as no stitch is a space only where there is no other
            others = (other for other in self.sites if other.kind == "ch" and other.run and not other.chains)
            return chains in (0, site.chains) and not any(chains in (0, other.run) for other in others)
        return chains == site.chains and not any(other.kind == "ch" and other.run == chains for other in self.sites)

    def _belongs_to_chain(self, position: int, chains: int) -> bool:
        """Is it the space beside a stitch of the same chain: the "ch-4 sp" of "ch 4 (counts as dc, ch 1)"?"""
        site = self.site(position)
        begins = self.order[position] - site.at - 1
        if begins < 0 or not site.run or self.sites[begins].chains + site.run != chains:
            return False
        return self.sites[begins].chains > 0 and not any(other.run == chains for other in self.sites)

    def place_at(self, position: int, what: What) -> Place:
        """The place that starts here: a whole chain space where a space is meant, else one site."""
        if what.kind in ("sp", "ch-sp", "corner") and self.site(position).run:
            return position, position + self.site(position).run
        return position, position + 1

    def find(self, whats: tuple[What, ...], start: int | None = None, stop: int | None = None) -> Place | None:
        """The next place of one of these kinds, from `start` (default: here) on."""
        position = self.at if start is None else start
        stop = self.stop if stop is None else stop
        while position < stop:
            for what in whats:
                if self.matches(position, what):
                    return self.place_at(position, what)
            position += 1
        return None

    def find_marker(self) -> int | None:
        """Where the next marker is met: at the stitch that holds it, or between two, past the place reached."""
        for position in range(self.at, self.stop):
            index = self.order[position]
            between = Marker(index + 1 if self.backwards else index, True)
            if Marker(index, False) in self.markers or (position > self.at and between in self.markers):
                return position
        return None

    def find_last(self, whats: tuple[What, ...], count: int = 1) -> list[Place]:
        """The last `count` places of these kinds in the row, in working order."""
        found: list[Place] = []
        position = len(self.order) - 1
        while position >= 0 and len(found) < count:
            for what in whats:
                if self.matches(position, what):
                    found.append(self.place_at(position, what))
                    break
            position -= 1
        return found[::-1]

    def countable(self, first: int, after: int) -> int:
        """How many of the sites from `first` up to `after` count."""
        return sum(1 for position in range(first, after) if self.is_countable(position))

    def limit_before_last(self, count: int, what: What) -> int | None:
        """The position at which the last `count` places of a kind begin; None where there are fewer."""
        if count == 0:
            return len(self.order)
        last = self.find_last((what,), count)
        if len(last) < count or last[0][0] < self.at:
            return None
        return last[0][0]

    def rotate(self, places: int) -> None:
        """Moves the sites passed at the start of a round to its end (slip stitches to a new start)."""
        self.order = self.order[places:] + self.order[:places]


def find_corner_spaces(fabric: Fabric) -> frozenset[int]:
    """The chains of the spaces within groups made in one place; of groups of several sizes, within the largest.

    A group that the opening chain begins lacks a stitch, or is told stitch by stitch, so that the one more space of
    that size is a corner too. None where no group has a space.
    """
    groups = Counter(stitch.cluster for stitch in fabric.stitches if stitch.cluster >= 0 and stitch.kind != "ch")
    chains = [stitch for stitch in fabric.stitches if stitch.kind == "ch" and stitch.top >= 0]
    within = [stitch for stitch in chains if groups[stitch.cluster]]
    most = max((groups[stitch.cluster] for stitch in within), default=0)
    found: set[int] = set()
    for stitch in within:
        if groups[stitch.cluster] >= most - 1:
            found.update(range(stitch.top, stitch.top + max(1, fabric.sites[stitch.top].run)))
    runs = {fabric.sites[stitch.top].run for stitch in within if stitch.top in found}
    others = [stitch.top for stitch in chains if stitch.top not in found and fabric.sites[stitch.top].run in runs]
    if (
        len(fabric.sites) > 1
        and fabric.sites[0].chains
        and fabric.sites[1].kind == "ch"
        and fabric.sites[1].run in runs
    ):
        others.append(1)  # "ch 5 (counts as dc and ch-2)" begins the round within a corner
    if len(others) == 1:
        found.update(range(others[0], others[0] + max(1, fabric.sites[others[0]].run)))
    return frozenset(found)


def find_corners(stitches: Sequence[Stitch]) -> frozenset[int]:
    """The sites in the middle of an odd number, three or more, of stitches worked one after the other in one place.

    The corner of a piece is a place of its own, and its stitches are one group.
    """
    found: set[int] = set()
    run: list[Stitch] = []
    for stitch in (*(s for s in stitches if s.top >= 0), None):
        place = (stitch.into, -1 if stitch.into else stitch.cluster) if stitch is not None else ((), -1)
        if run and place != (run[0].into, -1 if run[0].into else run[0].cluster):
            if len(run) >= 3 and len(run) % 2:
                found.add(run[len(run) // 2].top)
            run = []
        if stitch is not None and place != ((), -1):
            run.append(stitch)
    return frozenset(found)
