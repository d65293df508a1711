"""One row worked over the row below, under one reading.

The worker walks the sites below in working order. Each step of the row's tree uses places and makes
loops; what does not work out is noted as a `Problem`, and the work goes on.
"""

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from booklet.model.parsed import StitchDefinition
from booklet.model.tree import (
    Chain,
    ChangeEvenly,
    Even,
    Group,
    Join,
    KeepColours,
    Leave,
    Loops,
    Mark,
    MirrorBack,
    Node,
    OtherSide,
    Repeat,
    Skip,
    TakeColour,
    What,
    Where,
    Work,
    at_size,
)
from booklet.working.hand import Entry
from booklet.working.kinds import DECREASES, FOUNDATION, kind_of
from booklet.working.looking import (
    begins_as,
    count_deeper,
    ends_on_top,
    find_kept,
    is_one_place,
    list_stitches,
    mirror_steps,
    spreads,
)
from booklet.working.problems import Problem
from booklet.working.skipping import Skipper
from booklet.working.walk import Place

MAX_LOOPS = 20_000
OVER_ONE = re.compile(r"\bover\s+(?:the\s+)?next\s+(?:1|one)\b", re.IGNORECASE)


@dataclass(slots=True)
class RowWorker(Skipper):
    """Works each kind of step."""

    def work_steps(self, steps: Sequence[Node]) -> None:
        for index, step in enumerate(steps):
            if isinstance(step, Repeat) and step.until in ("end", "last", "up to"):
                if self._work_open_repeat(step, steps[index + 1 :]):
                    return
            elif isinstance(step, Work) and step.where.how == "each" and spreads(steps[index + 1 :]):
                self.base = kind_of(step.stitch).base  # "sc across, dec 5 sts evenly": the change is in the same pass
            elif isinstance(step, Work) and step.where.how == "each" and ends_on_top(steps[index + 1 :]):
                self._work_up_to_top(step)
            elif isinstance(step, Work) and (kept := find_kept(step.where, steps[index + 1 :])):
                self._work_up_to_last(step, kept)
            elif isinstance(step, Work) and step.where.below and isinstance(next(iter(steps[index + 1 :]), None), Skip):
                self._work_deep(step)
            elif isinstance(step, MirrorBack):
                self.work_steps(mirror_steps(steps[:index]))
            elif isinstance(step, Work) and step.where.from_hook and self.works_along_chain(step, steps[index + 1 :]):
                self.work_step(replace(step, where=self.start_along_chain(step.where)))
            else:
                self.work_step(step)
        self.return_from_chain()

    def work_step(self, step: Node) -> None:
        if isinstance(step, Work | Group) and self.inside is None:
            self.step = step
        if isinstance(step, Work):
            self._enter(step.where)
            self._work_stitches(step)
            self.making.deeper = 0
        elif isinstance(step, Chain):
            self.making.add_chains(at_size(step.count, self.size), self.colour_here(), self.cluster)
            self.making.note_passed(self.spare)
            self.spare = 0
        elif isinstance(step, Skip):
            self._skip(step)
        elif isinstance(step, Group):
            self._work_group(step)
        elif isinstance(step, Repeat):
            self._work_counted_repeat(step)
        elif isinstance(step, TakeColour):
            self._take_colour(step)
        elif isinstance(step, KeepColours):
            self.keep_colours = True
        elif isinstance(step, Loops):
            self.row_loop = step.loops
        elif isinstance(step, Join):
            self._check_join(step)
            self.making.add_stitch("sl st", self.colour, (), -1, False, hidden=True)
            self.joined = step.where.how != "elsewhere"
        elif isinstance(step, Mark):
            self.marks.extend((len(self.making.loops) - 1, place) for place in step.place.split(","))
        elif isinstance(step, Leave):
            self._leave(step)
        elif isinstance(step, OtherSide):
            self._turn_to_free_loops()
        elif isinstance(step, Even | ChangeEvenly):
            self.entry = Entry(self.row_loop)
            self._work_even() if isinstance(step, Even) else self._change_evenly(step)

    def _enter(self, where: Where) -> None:
        """Notes which loop the words name, and how deep the place lies; in a group that is told once for all."""
        if self.inside is None or where.loops or not (where.bare or where.how == "same"):
            self.entry = Entry(where.loops or self.row_loop, max(2, where.below) if where.below else 0)

    def _work_up_to_top(self, step: Work) -> None:
        """ "Dc in each st across, dc in top of tch": each st means those before the turning chain."""
        walk, stop = self.walk, self.walk.stop
        tops = [p for p in range(self.walk.at, stop) if self.walk.site(p).chains > 0]
        self.walk.stop = tops[-1] if tops else stop
        self.work_step(step)
        walk.stop = stop

    def _work_up_to_last(self, step: Work, kept: Where) -> None:
        """ "Sc in each sc, 2 sc in last sc": the last is kept for the step behind."""
        walk, stop = self.walk, self.walk.stop
        limit = self.walk.limit_before_last(at_size(kept.count, self.size), kept.what[0])
        self.walk.stop = stop if limit is None else min(stop, limit)
        self.work_step(step)
        walk.stop = stop

    def _take_colour(self, step: TakeColour) -> None:
        if step.late:
            self.next_colour = step.letter
        else:
            self.colour = step.letter
            self.keep_colours = False

    def _work_stitches(self, step: Work) -> None:
        self.making.deeper = count_deeper(step)
        if step.stitch in FOUNDATION:
            for _ in range(at_size(step.where.count, self.size)):
                self._add(FOUNDATION[step.stitch], None)
            return
        stitch, times = self._name_stitch(step)
        if stitch == "sl st" and (self._closes_picot(step) or self._joins(step) or self._joins_other(step)):
            return
        definition = self.definitions.get(stitch)
        if stitch == "picot" or (definition and definition.steps and not list_stitches(definition.steps)):
            self._work_picot(definition)
            return
        if definition and definition.steps:
            self._work_defined(stitch, definition, step)
            return
        uses = kind_of(stitch).uses
        if step.where.over:
            self._work_together(step, stitch, at_size(step.where.count, self.size))
            return
        if uses > 1:
            self._work_together(step, stitch, uses)
            return
        if stitch == "sl st" and self._is_travel(step):
            self._travel(step)
            return
        if step.also:
            self._work_mixed(step)
            return
        for place in self._places(step):
            cluster = self.cluster
            if place is None and times > 1 and cluster < 0 and step.where.what[0].kind == "corner":
                self.clusters += 1
                self.cluster = self.clusters  # at a corner of the piece, which is no place of the row below
            for _ in range(times):
                self._add(stitch, place)
            self.cluster = cluster

    def _work_defined(self, name: str, definition: StitchDefinition, step: Work) -> None:
        """A stitch of the pattern's own, in each of its places, counted as one of its name."""
        if not definition.in_one_place:
            self._work_over_several(name, definition, step)
            return
        start = len(self.making.loops)
        begun = None if self.making.has_stitches else begins_as(name, definition.steps)
        self._work_group(Group(step.span, definition.steps, step.where))
        if begun is not None:
            self.making.begin_group(start, *begun)
        self.making.name_group(start, name)

    def _work_over_several(self, name: str, definition: StitchDefinition, step: Work) -> None:
        """A defined stitch that takes several places: "Xdc over next 2 sts" is one of them, "in next 2 sts" are two."""
        count, times = at_size(step.where.count, self.size), at_size(step.times, self.size)
        over = count > 1 and (step.where.over or " over " in step.span.text)
        begun, worked = self.walk.at, 0
        while worked < (times if over else count):
            start = len(self.making.loops)
            self.work_steps(definition.steps)
            self.making.name_group(start, name)
            worked += 1
            if worked == 1 and over and times == 1:
                times = max(1, count // max(1, self.walk.countable(begun, self.walk.at)))
        used = self.walk.countable(begun, self.walk.at)
        if over and used != count:
            self.fail(Problem("together", step.span, count, used // max(1, worked), detail=name))

    def _work_deep(self, step: Work) -> None:
        """ "Dc in st 2 rows below, sk next st": the stitch that is skipped lies behind it, or after the next one."""
        self.open_points.add("behind")
        if not self.choices.behind:
            self.work_step(step)
            return
        stitch, times = self._name_stitch(step)
        self.making.deeper = count_deeper(step)
        self._enter(step.where)
        for number in range(at_size(step.where.count, self.size)):
            behind = self.walk.at + number
            place = (behind, behind + 1) if behind < self.walk.stop else None
            for _ in range(times):
                self._add(stitch, place)
        self.making.deeper = 0

    def _work_mixed(self, step: Work) -> None:
        """ "Sc in each dc around, working 3 sc in each corner sp": each place by the rule that names it."""
        rules = (*step.also, replace(step, also=()))
        whats = tuple(what for rule in rules for what in rule.where.what)
        while (place := self.walk.find(whats)) is not None:
            named = ((rule, what) for rule in rules for what in rule.where.what)
            rule, what = next((rule, what) for rule, what in named if self.walk.matches(place[0], what))
            into = self._use(self.walk.place_at(place[0], what))
            if isinstance(rule, Group):
                self._work_inside(rule.steps, into)
            elif rule.stitch == "ch":
                self.making.add_chains(at_size(rule.times, self.size), self.colour_here(), self.cluster)
                self.making.note_passed(1)
            else:
                kind, number = self._name_stitch(rule)
                for _ in range(number):
                    self._add(kind, into)

    def _name_stitch(self, step: Work) -> tuple[str, int]:
        """The stitch with "inc" and "dec" spelled out, and how many of it go into each place."""
        times = at_size(step.times, self.size)
        if step.stitch == "st":
            return self.base, times
        if step.stitch == "inc":
            return self.base, 2
        if step.stitch in DECREASES:
            return f"{self.base}2tog", 1
        return step.stitch, times

    def _work_together(self, step: Work, stitch: str, uses: int) -> None:
        """Stitches worked together over several places each; in a group, or in one space, all in that place."""
        sets = 1
        in_group = self.inside is not None and (step.where.how == "same" or step.where.bare)
        if in_group or is_one_place(step, stitch):
            for place in self._places(step):
                self._add(stitch, place)
            return
        if step.where.how == "next":
            count = at_size(step.where.count, self.size)
            alone = count == 1 and OVER_ONE.search(step.span.text) is not None
            if not step.where.bare and (alone or (count > 1 and count % uses)):
                self.fail(Problem("together", step.span, count, uses, detail=stitch))
            sets = count if step.where.bare else max(1, count // uses)
            sets = max(sets, at_size(step.times, self.size)) if not step.where.bare else sets
        elif step.where.how == "each":
            limit = self.walk.limit_before_last(at_size(step.where.leave, self.size), step.where.leave_what)
            sets = self.walk.countable(self.walk.at, limit or len(self.walk.order)) // uses
        elif step.where.how == "nth":
            count = at_size(step.where.count, self.size)
            if 1 < count != uses:
                self.fail(Problem("together", step.span, count, uses, detail=stitch))
            if step.where.from_hook and self.walk.at == 0:
                self.walk.at = min(step.where.nth - 1, len(self.walk.order))  # the chains before it are skipped
        elif step.where.how == "last":
            count = at_size(step.where.count, self.size)
            if count > 1 and count % uses:
                self.fail(Problem("together", step.span, count, uses, detail=stitch))
            sets = max(1, count // uses)
        again = [self.last] if step.where.how == "same" and self.last is not None else []  # "over same st and next st"
        for _ in range(sets):
            further = [self._next(step.where.what, step.span, uses) for _ in range(uses - len(again))]
            places = [*again, *further]
            reached = [place for place in places if place]
            if reached:
                self._add(stitch, (reached[0][0], reached[-1][1]), whole=True)

    def _add(self, stitch: str, place: Place | None, whole: bool = False) -> None:
        if len(self.making.loops) > MAX_LOOPS:
            return
        on_below = self.walk.sites is self.below.sites
        into = tuple(self.walk.order[place[0] : place[1]]) if place and on_below else ()
        is_here = place is not None and not whole and place[0] < len(self.walk.order)
        space = place is not None and is_here and self.walk.site(place[0]).run > 0 and place[1] - place[0] >= 1
        loop, down, gap = self.entry
        into = into or gap
        is_plain = space or not into or stitch[:2] in ("FP", "BP") or loop == "both"
        if is_plain and not down:
            loop = ""
        colour = self.colour_here(place)
        self.making.add_stitch(stitch, colour, into, self.cluster, space, loop=loop, down=down)
        self.base = kind_of(stitch).base if self.cluster < 0 else self.base

    def _places(self, step: Work) -> Iterable[Place | None]:
        """The places a step names, one after the other, each used as it is given."""
        where = step.where
        if where.how == "gap" and where.leave == (1,):
            return self.between_each(where)
        if self.inside is not None and (where.how == "same" or where.bare):
            return [self.inside] * (at_size(where.count, self.size) if where.bare and where.how == "next" else 1)
        if where.bare and self.walk.order and self.walk.site(0).kind == "ring":
            return [None] * at_size(where.count, self.size)
        return self.take_places(where, step.span)

    def _work_group(self, step: Group) -> None:
        if self.inside is not None:
            places: Iterable[Place | None] = [self.inside]
        elif step.where.how == "gap" and step.where.leave == (1,):
            places = self.between_each(step.where)
        else:
            self._enter(step.where)
            places = self.take_places(step.where, step.span)
        for place in places:
            self._work_inside(step.steps, place)

    def _work_inside(self, steps: Sequence[Node], place: Place | None) -> None:
        """The steps of a group, all in one place."""
        outer, cluster, entry = self.inside, self.cluster, self.entry
        self.clusters += 1
        self.inside, self.cluster = place if place is not None else (0, 0), self.clusters
        self.work_steps(steps)
        self.inside, self.cluster, self.entry = outer, cluster, entry

    def _change_evenly(self, step: ChangeEvenly) -> None:
        """Increases or decreases at even distances; where exactly is the maker's choice, the count is not."""
        places = self.walk.countable(self.walk.at, self.walk.stop)
        count = at_size(step.count, self.size)
        stitch = step.stitch or self.base
        if not step.adds and 2 * count > places:
            self.fail(Problem("too-few", step.span, places, 2 * count))
            return
        steady = places if step.adds else places - 2 * count
        for group in range(count):
            for _ in range(steady * (group + 1) // count - steady * group // count - (1 if step.adds else 0)):
                self._add(stitch, self._next((What("st"),), step.span, 1))
            if step.adds:
                place = self._next((What("st"),), step.span, 1)
                self._add(stitch, place)
                self._add(stitch, place)
            else:
                ends = [self._next((What("st"),), step.span, 2) for _ in range(2)]
                if ends[0] and ends[1]:
                    self._add(f"{kind_of(stitch).base}2tog", (ends[0][0], ends[1][1]), whole=True)

    def _work_even(self) -> None:
        while (place := self.walk.find((What("st"),))) is not None:
            self._use(place)
            kind = self.walk.site(place[0]).kind
            self._add(self.base if kind in ("ch", "any", "sl st") else kind, place)
