"""Stitches made in one place, and what lies in the middle: of such a group, or of the row below."""

from collections.abc import Iterator
from dataclasses import dataclass

from booklet.model.tree import What, Where, at_size
from booklet.model.work import Stitch
from booklet.rows.markers import MARKED
from booklet.source import Span
from booklet.working.hand import Entry
from booklet.working.problems import Problem
from booklet.working.reaching import Reacher
from booklet.working.walk import Place

NO_GROUP: tuple[int, tuple[int, ...]] = (-1, ())


def _place_of(stitch: Stitch) -> tuple[int, tuple[int, ...]]:
    """Where a stitch was worked, alike for all of one group."""
    return stitch.cluster, stitch.into if stitch.cluster < 0 else ()


@dataclass(slots=True)
class GroupPlacer(Reacher):
    """A row in hand that knows which stitches of the row below were made in one place."""

    def _in_groups(self, where: Where, span: Span) -> list[Place]:
        """The middle or nth stitch of the next group that was made in one place, or of each of them."""
        found: list[Place] = []
        while True:
            group = self._next_group(where.what[0])
            if not group:
                break
            at = group[(len(group) - 1) // 2] if where.nth == 0 else group[min(where.nth, len(group)) - 1]
            if where.nth == 0 and len(group) % 2 == 0 and all(self.walk.site(p).kind != "ch" for p in group):
                # Told where it stands, whether or not the rest of the repeat fits.
                self.problems.append(Problem("no-center", span, len(group), what=What(self.walk.site(at).kind)))
            found.append(self._use((at, at + 1)))
            self.walk.at = max(self.walk.at, at + 1)
            if where.leave == (0,):
                break
        if not found:
            self.fail(Problem("no-place", span, what=where.what[0]))
        return found

    def _next_group(self, what: What, least: int = 3) -> list[int]:
        """Positions of the next stitches, so many at least, that were worked together in one place."""
        clusters = {
            stitch.top: (stitch.cluster, stitch.into if stitch.cluster < 0 else ())
            for stitch in self.below.stitches
            if stitch.top >= 0
        }
        position = self.walk.at
        begun = clusters.get(self.walk.order[position - 1], NO_GROUP) if position else NO_GROUP
        while begun != NO_GROUP and position < self.walk.stop and clusters.get(self.walk.order[position]) == begun:
            position += 1  # the rest of a group that has been worked into is no next group
        while position < self.walk.stop:
            cluster = clusters.get(self.walk.order[position], NO_GROUP)
            group = [position]
            while (
                cluster != NO_GROUP
                and group[-1] + 1 < self.walk.stop
                and clusters.get(self.walk.order[group[-1] + 1], NO_GROUP) == cluster
            ):
                group.append(group[-1] + 1)
            if len(group) >= least and any(self.walk.matches(at, what) for at in group):
                return group
            position = group[-1] + 1
        return []

    def find_goal(self, what: What, before: int) -> int:
        """Where "to next corner", "to 1 st before center" ends; the end of the row where no such place is ahead."""
        if what.kind == "center":
            goal = self._find_center()
        elif what.kind in MARKED:
            goal = self.walk.find_marker()
        else:
            place = self.walk.find((what,))
            goal = place[0] if place else None
        stop = self.walk.stop if goal is None else goal
        while before and stop > self.walk.at:
            stop -= 1
            before -= self.walk.is_countable(stop)
        return stop

    def _find_center(self) -> int | None:
        """The middle of the next group made in one place, or else of the row below; None where that is even."""
        group = self._next_group(What("st"))
        if group:
            return group[(len(group) - 1) // 2]
        counted = [position for position in range(len(self.walk.order)) if self.walk.is_countable(position)]
        middle = counted[len(counted) // 2] if len(counted) % 2 else None
        return middle if middle is not None and middle >= self.walk.at else None

    def _in_center(self, where: Where, span: Span) -> list[Place]:
        """The stitch in the middle; stitches worked one by one up to it have reached it."""
        if self._next_group(where.what[0]):
            before, told = self.walk.at, len(self.making.loops)
            found = self._in_groups(where, span)
            missed = self.walk.countable(before, found[0][0]) if found and self._goes_one_by_one(told) else 0
        else:
            at = self._find_center()
            if at is None:
                counted = self.walk.countable(0, len(self.walk.order))
                kind = "no-place" if counted % 2 else "no-middle"
                self.fail(Problem(kind, span, counted, what=where.what[0]))
                return []
            missed = self.walk.countable(self.walk.at, at)
            found = [self._use((at, at + 1))]
        if missed:
            self.fail(Problem("missed", span, missed, what=What("center")))
        return found

    def _goes_one_by_one(self, made: int) -> bool:
        """Do the two stitches made last stand on two neighbours of the row below?"""
        last = [loop.into for loop in self.making.loops[:made][-2:]]
        return all(len(into) == 1 for into in last) and len(last) == 2 and abs(last[0][0] - last[1][0]) == 1

    def reach_gap(self, where: Where, span: Span) -> list[Place | None]:
        """A place between two stitches, which uses neither of them."""
        passes = at_size(where.count, self.size)
        if where.what[0].kind == "group":
            gap = self._find_gap()
            if gap is None:
                self.fail(Problem("no-place", span, what=What("sp")))
                return []
            passes = gap
        elif where.what[0].kind == "sp":
            passes = self._pass_to_gap()
        after = min(self.walk.at + passes, self.walk.stop)
        self.passed_stitches = self.passed_stitches or after > self.walk.at
        return list(self._stand_behind(after))

    def _pass_to_gap(self) -> int:
        """How many stitches on the next place between two lies: none where the hook stands before one not yet used."""
        return 1 if self.walk.at in (0, self.in_gap) else 0

    def _find_gap(self) -> int | None:
        """How many places on the next gap between groups lies: right here, where the stitch before ended a group.

        None in a row where only the stitch at its edge follows.
        """
        places = {stitch.top: _place_of(stitch) for stitch in self.below.stitches if stitch.top >= 0}
        at = self.walk.at
        if self.last is not None and self.last[1] == at and 1 < at < self.walk.stop:
            begun = places.get(self.walk.order[at - 1], NO_GROUP)
            ends = begun != NO_GROUP and begun == places.get(self.walk.order[at - 2], NO_GROUP)
            if ends and places.get(self.walk.order[at], NO_GROUP) != begun:
                return 0
        group = self._next_group(What("st"), 2)
        if not group:
            return 1
        if self._is_before_edge(self._list_units(True)):
            return None
        return group[-1] + 1 - at

    def _leave_begun(self) -> None:
        """Goes past the group that a round begins at: the place beside it holds the stitches it began with."""
        places = {stitch.top: _place_of(stitch) for stitch in self.below.stitches if stitch.top >= 0}
        order = self.walk.order
        begun = places.get(order[self.walk.at - 1], NO_GROUP) if self.walk.at else NO_GROUP
        while begun != NO_GROUP and self.walk.at < self.walk.stop and places.get(order[self.walk.at]) == begun:
            self.walk.at += 1

    def has_gap(self, in_groups: bool) -> bool:
        """Is there one more place between groups, or between stitches, ahead?"""
        if not in_groups:
            return self.walk.at + self._pass_to_gap() < self.walk.stop + (not self.is_row)
        return bool(self._next_group(What("st"), 2)) and not self._is_before_edge(self._list_units(True))

    def _is_before_edge(self, units: list[tuple[int, int]]) -> bool:
        """Does only the last group of a row lie ahead, and the one stitch at its edge?"""
        return self.is_row and len(units) == 2 and units[0][1] > 1 and units[1][1] == 1

    def between_each(self, where: Where) -> Iterator[None]:
        """Each place between two stitches, or two groups, in turn; in a round, that behind the last is one as well."""
        in_groups = where.what[0].kind == "group"
        if in_groups and not self.is_row:
            self._leave_begun()
        while True:
            units = self._list_units(in_groups)
            if not units or (self.is_row and len(units) == 1) or (in_groups and self._is_before_edge(units)):
                break
            yield from self._stand_behind(units[0][0])
        self.passed_stitches = True

    def _list_units(self, in_groups: bool) -> list[tuple[int, int]]:
        """Where the stitches, or the groups of two and more, end that lie ahead, and how many stitches each has."""
        stitches = {stitch.top: stitch for stitch in self.below.stitches if stitch.top >= 0}
        ends: list[tuple[int, int]] = []
        before: tuple[int, tuple[int, ...]] | None = None
        for position in range(self.walk.at, self.walk.stop):
            if not self.walk.is_countable(position) or self.walk.site(position).kind == "ch":
                continue
            stitch = stitches.get(self.walk.order[position])
            place = _place_of(stitch) if stitch else NO_GROUP
            if in_groups and ends and place == before and place != NO_GROUP:
                ends[-1] = (position + 1, ends[-1][1] + 1)
            else:
                ends.append((position + 1, 1))
            before = place
        return ends

    def _stand_behind(self, after: int) -> list[None]:
        """The place between the stitches on both sides of a position, where the hook then is."""
        self.making.note_passed(self.walk.countable(self.walk.at, after))
        self.walk.at = self.in_gap = after
        self.last = None
        count = len(self.walk.order)
        if self.walk.sites is self.below.sites and count > 1 and (0 < after < count or not self.is_row):
            self.entry = Entry("between", 0, (self.walk.order[after - 1], self.walk.order[after % count]))
        return [None]
