"""The next place of a kind, and what lies before it."""

from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass

from booklet.model.tree import What, Where
from booklet.rows.markers import MARKED
from booklet.source import Span
from booklet.working.hand import Approach, Hand
from booklet.working.problems import Problem
from booklet.working.walk import Place


@dataclass(slots=True)
class Reacher(Hand):
    """A row in hand that goes from place to place."""

    def _use(self, place: Place) -> Place:
        """Moves on to behind the place, noting what was passed over."""
        skipped = self.walk.countable(self.walk.at, place[0])
        if self.tail_from is not None and self.walk.at >= self.tail_from:
            self.tail_missed += self._count_places((self.tail_what,), place[0])
        self._note_approach(place)
        for position in range(self.walk.at, place[0]):
            if self.walk.site(position).kind == "ch":
                self.passed_chains = True
            else:
                self.passed_stitches = True
        self.making.note_passed(skipped)
        self.walk.at = place[1]
        self.last = place
        self.first_use = place[0] if self.first_use is None else self.first_use
        return place

    def _note_approach(self, place: Place) -> None:
        """Keeps how many stitches lie between the stitch just worked and the space that the step in hand goes to."""
        site, made = self.walk.site(place[0]), self.making.loops[-1] if self.making.loops else None
        if self.step is None or made is None or self.last is None or self.walk.sites is not self.below.sites:
            return
        from_stitch = made.kind != "ch" and not made.opening and not made.hidden
        if self.last[0] >= len(self.walk.order):
            return  # the last stitch went into a chain of the row's own
        if site.kind == "ch" and site.run and from_stitch and self.walk.site(self.last[0]).kind != "ch":
            self.approaches.append(Approach(self.step, self.walk.countable(self.walk.at, place[0])))

    def _next(self, whats: tuple[What, ...], span: Span, needs: int, start: int | None = None) -> Place | None:
        """The next place of these kinds; `start` is the position at which the step began."""
        place = self.walk.find(whats)
        if place is None and whats[0].kind == "ch" and self.goes_elsewhere and self.walk.at >= len(self.walk.order):
            self.walk.at = 0  # the chain between two pieces, from its other side
            place = self.walk.find(whats)
        if place is None:
            left = self.walk.countable(self.walk.at, self.walk.stop)
            has = left if start is None else self.walk.countable(start, self.walk.stop)
            kind = "too-few" if whats[0].kind == "st" or left == 0 else "no-place"
            self.fail(Problem(kind, span, has, needs, what=whats[0]))
            return None
        return self._use(place)

    def _skip_up_to(self, where: Where, span: Span) -> None:
        """ "Sk all dc to next ch-1 sp": everything before that place"""
        place = self.walk.find((where.leave_what,))
        goal = self.walk.find_marker() if where.leave_what.kind in MARKED else place[0] if place else None
        if goal is None:
            self.fail(Problem("no-place", span, what=where.leave_what))
            return
        self.making.note_passed(self.walk.countable(self.walk.at, goal))
        self.walk.at = goal

    def _skip_listed(self, whats: tuple[What, ...], span: Span) -> None:
        """ "Sk next 6 dc and ch-1 sp": all of them, side by side, in the order told or in any other"""
        found = self._reach_listed(whats) or self._reach_listed(tuple(dict.fromkeys(whats)), Counter(whats))
        if found is None:
            kind, end = whats[0], self.walk.at
            missing = next((what for what in dict.fromkeys(whats) if self.walk.find((what,)) is None), None)
            if missing is not None:
                self.fail(Problem("no-place", span, what=missing))
                return
            while end < self.walk.stop and self.walk.matches(end, kind):
                end += 1
            self.fail(Problem("too-few", span, self.walk.countable(self.walk.at, end), whats.count(kind), what=kind))
            return
        self.making.note_passed(self.walk.countable(self.walk.at, found[-1][1]))
        self.skipped.extend(found)
        self.walk.at = found[-1][1]

    def _reach_listed(self, whats: tuple[What, ...], wanted: Mapping[What, int] | None = None) -> list[Place] | None:
        """The places side by side in the order of `whats`, or so many of each; None where others lie between."""
        found: list[Place] = []
        left = Counter(wanted or {})
        for at in range(sum(left.values()) or len(whats)):
            sought = tuple(what for what in whats if left[what] > 0) if wanted else (whats[at],)
            start = found[-1][1] if found else self.walk.at
            place = self.walk.find(sought, start=start)
            if place is None or (found and self.walk.countable(start, place[0])):
                return None
            found.append(place)
            if wanted:
                left.subtract([next(what for what in sought if self.walk.matches(place[0], what))])
        return found

    def _count_places(self, whats: tuple[What, ...], stop: int) -> int:
        """How many places of these kinds lie between here and a position."""
        count, at = 0, self.walk.at
        while (place := self.walk.find(whats, start=at, stop=stop)) is not None:
            count, at = count + 1, place[1]
        return count
