"""Slip stitches that close something, a round, a picot, two pieces, or only move to another place."""

from dataclasses import dataclass

from booklet.model.parsed import StitchDefinition
from booklet.model.tree import Chain, Join, Work, at_size
from booklet.working.kinds import is_of_kind
from booklet.working.looking import closes_at_base
from booklet.working.making import Loop
from booklet.working.problems import Problem
from booklet.working.repeating import Repeater
from booklet.working.walk import Place


@dataclass(slots=True)
class Joiner(Repeater):
    """A row in hand that can be joined."""

    def _joins(self, step: Work) -> bool:
        """ "ss to top of 3ch", "sl st in first sc": a slip stitch back at the start of the round joins it."""
        where = step.where
        if not self.making.has_stitches or self.inside is not None:
            return False
        at_start = where.how in ("top", "join") or (
            where.how == "nth" and where.what[0].kind == "ch" and not where.from_hook
        )
        at_start = at_start or (where.how == "same" and self.begun_in_loop and closes_at_base(step))
        may_close = not self.is_row or self.goes_along
        one = at_size(where.count, self.size) == 1 and at_size(step.times, self.size) == 1 and may_close
        nothing_due = where.bare or self.walk.find(where.what) is None
        over = where.how == "next" and one and not self.remaining() and nothing_due and not self.joined
        # "16 sc. Sl st, fasten off": all is worked
        if not at_start and not (where.how == "first" and one) and not over:
            return False
        self.making.add_stitch("sl st", self.colour, (), -1, False, hidden=True)
        self.joined = True
        return True

    def _joins_other(self, step: Work) -> bool:
        """A slip stitch into another piece holds the two together, and is no stitch of the row."""
        if step.where.how != "elsewhere":
            return False
        self.making.add_stitch("sl st", self.colour, (), -1, False, hidden=True)
        return True

    def _closes_picot(self, step: Work) -> bool:
        """ "ch 3, sl st in 3rd ch from hook" """
        loops = self.making.loops
        if self.begun_in_loop and not step.where.from_hook and not self.remaining():
            return False  # "sl st in first ch": back at the start of the round
        names_chain = step.where.what[0].kind == "ch" and step.where.how in ("first", "nth", "last")
        joins_back = names_chain or step.where.how == "made"
        if not (joins_back and loops and loops[-1].kind == "ch" and not loops[-1].opening):
            return False
        chains = self._close_picot()
        if step.where.from_hook and step.where.nth > chains:
            self.note(Problem("short-chain", step.span, chains, step.where.nth))
        return True

    def _work_picot(self, definition: StitchDefinition | None) -> None:
        """Chains joined back on themselves: yarn, and no place to work into."""
        chains = 3
        if definition:
            counts = [at_size(s.count, self.size) for s in definition.steps if isinstance(s, Chain)]
            chains = sum(counts) or chains
        self.making.loops.append(Loop("ch", self.colour_here(), chains=chains))
        self._close_picot()

    def _check_join(self, step: Join) -> None:
        """A round joined "in first hdc" has an hdc to be joined in."""
        what = step.where.what[0]
        named = step.where.how == "first" and what.kind not in (
            "st",
            "ch",
            "sp",
            "ch-sp",
            "tch",
            "ring",
            "row end",
            "sl st",
        )
        if named and self.making.has_stitches:
            made = {loop.kind for loop in self.making.loops} | {loop.group for loop in self.making.loops}
            if not any(is_of_kind(kind, what.kind) for kind in made if kind):
                self.fail(Problem("no-join", step.span, what=what))

    def _is_travel(self, step: Work) -> bool:
        """Slip stitches at the start of a row that only move to another place."""
        at_start = not self.making.has_stitches and (self.walk.at == 0 or self.making.is_opening_only)
        if not (at_start and step.where.how in ("next", "first") and self.mixed):
            return False
        if not self.is_row and step.where.what[0].kind in ("sp", "ch-sp", "corner"):
            return True  # a round that begins in a space is reached by slip stitches, and has none in it
        self.open_points.add("travel")
        return self.choices.travel

    def _travel(self, step: Work) -> None:
        place: Place | None = None
        for number in range(at_size(step.where.count, self.size)):
            place = self.walk.find(step.where.what)
            space = step.where.what[0].kind == "ch-sp" and not self.is_row
            if place is None or (space and self.walk.site(place[0]).kind != "ch"):  # a chain that counts is no space
                self.fail(Problem("no-place", step.span, what=step.where.what[0]))
                return
            if number == 0:
                self._check_way(step, place)
            self.making.add_stitch("sl st", self.colour, (self.walk.order[place[0]],), -1, False, hidden=True)
            self.walk.at = place[1]
        on_stitches = step.where.how == "next" and step.where.what[0].kind not in ("ch", "sp", "ch-sp", "corner")
        self.slipped += at_size(step.where.count, self.size) if on_stitches else 0
        if place and not self.is_row:
            self.walk.rotate(place[0])
            self.walk.at = 0
            self.last = None
        elif place:
            self.last = place

    def _check_way(self, step: Work, place: Place) -> None:
        """ "Sl st in next 2 dc and in ch-2 sp" of a joined round: is the space right behind so many stitches?

        The hook is in the first stitch, where the round before was joined, and next is the one after it.
        """
        sites, at = self.below.sites, self.walk.order[place[0]]
        joined = any(s.kind == "sl st" and not s.into and s.top < 0 for s in self.below.stitches[-1:])
        to_space = step.where.what[0].kind in ("sp", "ch-sp", "corner") and sites[at].kind == "ch"
        if (
            self.is_row
            or self.walk.backwards
            or not joined
            or not self.slipped
            or not to_space
            or sites[0].kind == "ch"
        ):
            return
        needs = sum(site.counts and site.kind != "ch" for site in sites[1:at])
        if needs != self.slipped:
            self.note(Problem("way", step.span, self.slipped, needs, what=step.where.what[0]))
