"""One row worked over the row below, under one reading.

The worker walks the sites below in working order. Each step of the row's tree uses places and makes
loops; what does not work out is noted as a `Problem`, and the work goes on.

Repeats "across" are worked until the row below is used up: the steps that follow the repeat are
tried after each time round, so `… rep from * across, dc in last st` ends where it should. A repeat
"to the last n" has its end fixed before it starts; what its body cannot fill is the remainder.
"""

from collections.abc import Sequence
from dataclasses import dataclass, field

from booklet.model.tree import (
    Aside, Chain, Even, FastenOff, Group, Join, KeepColours, Leave, Loops, Node, Repeat, RepeatRows, Ring, Skip, SkippedCount, StitchDefinition, TakeColour, Turn, Unread,
    What, Where, Work, at_size,
)
from booklet.model.work import Fabric
from booklet.source import Span
from booklet.working.choices import Choices
from booklet.working.kinds import DECREASES, FOUNDATION, kind_of
from booklet.working.making import Making
from booklet.working.problems import Problem
from booklet.working.walk import Place, Walk

MAX_LOOPS = 20_000
SILENT = (Aside, FastenOff, Turn, Loops, Unread, SkippedCount, RepeatRows)


class OutOfPlacesError(Exception):
    """Raised inside a trial of a repeat; never leaves this module."""

    def __init__(self, problem: Problem) -> None:
        super().__init__(problem.kind)
        self.problem = problem


@dataclass(slots=True)
class RowWorker:
    """The state of one row in hand."""

    below: Fabric
    walk: Walk
    size: int
    choices: Choices
    base: str  # the stitch that a bare "inc" or "dec" is made of
    colour: str = ""
    definitions: dict[str, StitchDefinition] = field(default_factory=dict)
    making: Making = field(default_factory=Making)
    problems: list[Problem] = field(default_factory=list)
    open_points: set[str] = field(default_factory=set)
    keep_colours: bool = False
    next_colour: str = ""
    last: Place | None = None
    inside: Place | None = None
    cluster: int = -1
    clusters: int = 0
    covered: bool = False  # a counted turning chain stands on the first place
    leaves: bool = False
    trial: int = 0
    passed_stitches: bool = False
    passed_chains: bool = False
    joined: bool = False

    # steps

    def work_steps(self, steps: Sequence[Node]) -> None:
        for index, step in enumerate(steps):
            if isinstance(step, Repeat) and step.until in ("end", "last", "up to"):
                if self._work_open_repeat(step, steps[index + 1 :]):
                    return
            else:
                self.work_step(step)

    def work_step(self, step: Node) -> None:
        if isinstance(step, Work):
            self._work_stitches(step)
        elif isinstance(step, Chain):
            self.making.add_chains(at_size(step.count, self.size), self._colour_here(), self.cluster)
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
        elif isinstance(step, Join):
            self.making.add_stitch("sl st", self.colour, (), -1, False, hidden=True)
            self.joined = True
        elif isinstance(step, Leave):
            self._leave(step)
        elif isinstance(step, Even):
            self._work_even(step)

    def _take_colour(self, step: TakeColour) -> None:
        if step.late:
            self.next_colour = step.letter
        else:
            self.colour = step.letter
            self.keep_colours = False

    def _colour_here(self, place: Place | None = None) -> str:
        """The colour in hand, or, in colours as established, that of the stitch below."""
        if not self.keep_colours:
            return self.colour
        position = place[0] if place else min(self.walk.at, len(self.walk.order) - 1)
        below = self.walk.site(position).colour if self.walk.order else ""
        return below or self.colour

    # stitches

    def _work_stitches(self, step: Work) -> None:
        if step.stitch in FOUNDATION:
            for _ in range(at_size(step.where.count, self.size)):
                self._add(FOUNDATION[step.stitch], None)
            return
        stitch, times = self._name_stitch(step)
        definition = self.definitions.get(stitch)
        if definition and definition.steps:
            self._work_group(Group(step.span, definition.steps, step.where))
            return
        uses = kind_of(stitch).uses
        if uses > 1:
            self._work_together(step, stitch, uses)
            return
        if stitch == "sl st" and self._is_travel(step):
            self._travel(step)
            return
        for place in self._places(step):
            for _ in range(times):
                self._add(stitch, place)

    def _name_stitch(self, step: Work) -> tuple[str, int]:
        """The stitch with "inc" and "dec" spelled out, and how many of it go into each place."""
        times = at_size(step.times, self.size)
        if step.stitch == "inc":
            return self.base, 2
        if step.stitch in DECREASES:
            return f"{self.base}2tog", 1
        return step.stitch, times

    def _work_together(self, step: Work, stitch: str, uses: int) -> None:
        """Stitches worked together over several places each."""
        sets = 1
        if step.where.how == "next":
            count = at_size(step.where.count, self.size)
            sets = count if step.where.bare else max(1, count // uses)
            sets = max(sets, at_size(step.times, self.size)) if not step.where.bare else sets
        elif step.where.how == "each":
            limit = self.walk.limit_before_last(at_size(step.where.leave, self.size), step.where.leave_what)
            sets = self.walk.countable(self.walk.at, limit or len(self.walk.order)) // uses
        elif step.where.how == "last":
            sets = max(1, at_size(step.where.count, self.size) // uses)
        for _ in range(sets):
            places = [self._next(step.where.what, step.span, uses) for _ in range(uses)]
            reached = [place for place in places if place]
            if reached:
                self._add(stitch, (reached[0][0], reached[-1][1]), whole=True)

    def _add(self, stitch: str, place: Place | None, whole: bool = False) -> None:
        if len(self.making.loops) > MAX_LOOPS:
            return
        into = tuple(self.walk.order[place[0] : place[1]]) if place else ()
        space = place is not None and not whole and self.walk.site(place[0]).run > 0 and place[1] - place[0] >= 1
        self.making.add_stitch(stitch, self._colour_here(place), into, self.cluster, space)
        self.base = kind_of(stitch).base if self.cluster < 0 else self.base

    def _is_travel(self, step: Work) -> bool:
        """Slip stitches at the start of a round that only move to another place."""
        return not self.making.has_stitches and step.where.how in ("next", "first") and not self.walk.backwards and self.walk.at == 0

    def _travel(self, step: Work) -> None:
        place: Place | None = None
        for _ in range(at_size(step.where.count, self.size)):
            place = self.walk.find(step.where.what)
            if place is None:
                self._fail(Problem("no-place", step.span, what=step.where.what[0]))
                return
            self.making.add_stitch("sl st", self.colour, (self.walk.order[place[0]],), -1, False, hidden=True)
            self.walk.at = place[1]
        if place:
            self.walk.rotate(place[0])
            self.walk.at = 0
            self.last = None

    # places

    def _places(self, step: Work) -> Sequence[Place | None]:
        """The places a step names, one after the other, each used as it is given."""
        where = step.where
        if self.inside is not None and (where.how == "same" or where.bare):
            return [self.inside] * (at_size(where.count, self.size) if where.bare and where.how == "next" else 1)
        return self.take_places(where, step.span)

    def take_places(self, where: Where, span: Span) -> list[Place | None]:
        count = at_size(where.count, self.size)
        if where.how == "ring":
            return [None]
        if where.how == "same":
            return [self._same(where, span)]
        if where.how in ("first", "join") and (self.walk.at == 0 or self.covered) and count == 1:
            return [self._first(where, span)]
        if where.how in ("next", "first", "join"):
            return [p for p in (self._next(where.what, span, count) for _ in range(count)) if p]
        if where.how == "each":
            return list(self._each(where, span))
        if where.how == "up to":
            return list(self._up_to(where))
        if where.how == "last":
            return list(self._last(where, span, count))
        if where.how == "nth":
            return self._nth(where, span)
        return [p for p in (self._next(where.what if where.how != "top" else (What("tch"),), span, 1),) if p]

    def _use(self, place: Place) -> Place:
        """Moves on to behind the place, noting what was passed over."""
        skipped = self.walk.countable(self.walk.at, place[0])
        for position in range(self.walk.at, place[0]):
            if self.walk.site(position).kind == "ch":
                self.passed_chains = True
            else:
                self.passed_stitches = True
        self.making.note_passed(skipped)
        self.walk.at = place[1]
        self.last = place
        return place

    def _next(self, whats: tuple[What, ...], span: Span, needs: int) -> Place | None:
        place = self.walk.find(whats)
        if place is None:
            has = self.walk.countable(self.walk.at, self.walk.stop)
            kind = "too-few" if whats[0].kind == "st" or has == 0 else "no-place"
            self._fail(Problem(kind, span, has, needs, what=whats[0]))
            return None
        return self._use(place)

    def _same(self, where: Where, span: Span) -> Place | None:
        if self.inside is not None:
            return self.inside
        if self.last is None:
            what = where.what if where.what[0].kind in ("sp", "ch-sp") else (What("st"),)
            return self._next(what, span, 1)
        return self.last

    def _first(self, where: Where, span: Span) -> Place | None:
        """The first place of the row, also where a counted turning chain stands on it already."""
        if self.covered and self.last is not None and self.last[0] == 0 and where.how in ("first", "join"):
            return self.last
        return self._next(where.what if where.how == "first" else (What("st"), What("sp")), span, 1)

    def _each(self, where: Where, span: Span) -> list[Place]:
        limit = self.walk.limit_before_last(at_size(where.leave, self.size), where.leave_what)
        if limit is None:
            self._fail(Problem("too-few", span, self.walk.countable(self.walk.at, self.walk.stop), at_size(where.leave, self.size), what=where.leave_what))
            return []
        places = []
        limit = min(limit, self.walk.stop)
        while (place := self.walk.find(where.what, stop=limit)) is not None:
            places.append(self._use(place))
        if not places:
            self._fail(Problem("no-place", span, what=where.what[0]))
        for position in range(self.walk.at, limit):
            kind = self.walk.site(position).kind
            self.passed_chains = self.passed_chains or kind == "ch"
            self.passed_stitches = self.passed_stitches or (kind != "ch" and where.what[0].kind != "st")
        return places

    def _up_to(self, where: Where) -> list[Place]:
        goal = self.walk.find((where.leave_what,))
        stop = goal[0] if goal else self.walk.stop
        places = []
        while (place := self.walk.find(where.what, stop=stop)) is not None:
            places.append(self._use(place))
        return places

    def _last(self, where: Where, span: Span, count: int) -> list[Place]:
        places = self.walk.find_last(where.what, count)
        if len(places) < count or places[0][0] < self.walk.at:
            self._fail(Problem("too-few", span, self.walk.countable(self.walk.at, self.walk.stop), count, what=where.what[0]))
            return []
        between = self.walk.countable(self.walk.at, places[0][0])
        passes = where.what[0].kind in ("sp", "ch-sp") and self.passed_stitches or self.passed_chains and all(
            self.walk.site(p).kind == "ch" for p in range(self.walk.at, places[0][0])
        )
        if between and not passes and not (where.what[0].kind in ("sp", "ch-sp") and between == 1):
            self._fail(Problem("before-last", span, between, count, what=where.what[0]))
        return [self._use(place) for place in places]

    def _nth(self, where: Where, span: Span) -> list[Place | None]:
        """The nth chain from the hook at the start of a first row, else the nth place from here."""
        if self.making.loops and self.making.loops[-1].kind == "ch" and where.from_hook and self.making.has_stitches:
            self._close_picot()
            return []
        place: Place | None = None
        whats = where.what
        for _ in range(where.nth):
            place = self.walk.find(whats, start=place[1] if place else None)
            if place is None:
                self._fail(Problem("too-few", span, self.walk.countable(self.walk.at, self.walk.stop), where.nth, what=whats[0]))
                return []
        if place is None:
            return []
        if not self.making.has_stitches and self.walk.site(place[0]).kind == "ch" and self.walk.at == 0:
            self.walk.at = place[1]
            self.last = place
            return [place]
        return [self._use(place)]

    def _close_picot(self) -> None:
        chains = self.making.take_back_chains()
        for kind, count in (("ch", chains), ("sl st", 1)):
            for _ in range(count):
                self.making.add_stitch(kind if kind != "ch" else "picot ch", self.colour, (), self.cluster, False, hidden=True)

    # skips, groups and rows left

    def _skip(self, step: Skip) -> None:
        where = step.where
        if self.covered and where.how == "first" and at_size(where.count, self.size) == 1 and self.making.is_opening_only:
            return
        count = at_size(where.count, self.size)
        if where.how in ("first", "next", "join", "nth"):
            for _ in range(where.nth or count):
                place = self.walk.find(where.what)
                if place is None:
                    self._fail(Problem("too-few", step.span, self.walk.countable(self.walk.at, self.walk.stop), count, what=where.what[0]))
                    return
                self.making.note_passed(self.walk.countable(self.walk.at, place[1]))
                self.walk.at = place[1]
        elif where.how == "last":
            self.walk.at = max(self.walk.at, len(self.walk.order))
        elif where.how in ("top", "each"):
            for place in self.take_places(where, step.span):
                self.last = place

    def _work_group(self, step: Group) -> None:
        if self.inside is not None:
            places: Sequence[Place | None] = [self.inside]
        else:
            places = self.take_places(step.where, step.span)
        for place in places:
            outer, cluster = self.inside, self.cluster
            self.clusters += 1
            self.inside, self.cluster = place if place is not None else (0, 0), self.clusters
            self.work_steps(step.steps)
            self.inside, self.cluster = outer, cluster

    def _leave(self, step: Leave) -> None:
        self.leaves = True
        left = self.walk.countable(self.walk.at, len(self.walk.order))
        if step.count and left != at_size(step.count, self.size):
            self._fail(Problem("unworked", step.span, left, at_size(step.count, self.size)))

    def _work_even(self, step: Even) -> None:
        while (place := self.walk.find((What("st"),))) is not None:
            self._use(place)
            kind = self.walk.site(place[0]).kind
            self._add(self.base if kind in ("ch", "any", "sl st") else kind, place)

    def close_round(self) -> None:
        """Chains made last before the join stand over what is left, as far as they reach."""
        loops = [loop for loop in self.making.loops if not loop.hidden]
        left = self.remaining()
        if loops and loops[-1].kind == "ch" and not loops[-1].opening and 0 < left <= loops[-1].chains:
            loops[-1].spans += left
            self.walk.at = len(self.walk.order)

    # repeats

    def _work_counted_repeat(self, step: Repeat) -> None:
        count = at_size(step.count, self.size)
        if step.until == "more":
            count += 1
        elif step.until == "open":
            self.open_points.add("more")
            count += 1 if self.choices.more else 0
        for turn in range(count):
            self.work_steps(self._body(step, turn == count - 1))
            if self.problems and self.problems[-1].kind in ("too-few", "no-place") and turn < count - 1:
                self._tell_shortfall(step, turn, count)
                return

    def _tell_shortfall(self, step: Repeat, turn: int, count: int) -> None:
        """The first repeat that does not fit is told once, with how many do."""
        problem = self.problems[-1]
        self.problems[-1] = Problem(problem.kind, step.span, problem.has, problem.needs, turn, problem.what, f"{turn}/{count}")

    def _body(self, step: Repeat, is_last: bool) -> Sequence[Node]:
        if is_last and (step.drop or step.instead):
            return (*step.steps[: len(step.steps) - step.drop], *step.instead)
        return step.steps

    def _work_open_repeat(self, step: Repeat, tail: Sequence[Node]) -> bool:
        """A repeat across, around, or to the last so many; True where the tail was worked along with it."""
        stop = self.walk.stop
        if step.until == "last":
            limit = self.walk.limit_before_last(at_size(step.count, self.size), step.what)
            if limit is None:
                has = self.walk.countable(self.walk.at, stop)
                self._fail(Problem("too-few", step.span, has, at_size(step.count, self.size), what=step.what))
                return False
            self.walk.stop = min(limit, stop)
        elif step.until == "up to":
            goal = self.walk.find((step.what,))
            self.walk.stop = goal[0] if goal else stop
        needs_tail = step.until == "end" and any(not isinstance(node, (*SILENT, Join, TakeColour, KeepColours, Chain)) for node in tail)
        try:
            if needs_tail:
                return self._repeat_with_tail(step, tail)
            self._repeat_to_stop(step)
        finally:
            self.walk.stop = stop
        return False

    def _repeat_to_stop(self, step: Repeat) -> None:
        start = self.walk.at
        used = 0
        while self.has_remaining():
            before = self.walk.at
            if (step.drop or step.instead) and self._try(self._body(step, True)) and not self.has_remaining():
                return
            if (step.drop or step.instead) and self.walk.at != before:
                self._restore(self._saved)
            if not self._try(step.steps) or self.walk.at == before:
                break
            used = self.walk.at - before
        left = self.remaining()
        if left:
            self._fail(
                Problem("uneven", step.span, self.walk.countable(start, self.walk.stop), used or self._count_uses(step), left)
            )
            self.walk.at = self.walk.stop

    def _repeat_with_tail(self, step: Repeat, tail: Sequence[Node]) -> bool:
        """Works the body until the tail, worked after it, ends the row."""
        start = self.walk.at
        used = 0
        while True:
            snapshot = self._snapshot()
            if self._try(tail):
                if not self.has_remaining() or self.leaves:
                    return True
            self._restore(snapshot)
            before = self.walk.at
            if not self._try(step.steps) or self.walk.at == before:
                break
            used = self.walk.at - before
        left = self.remaining()
        self._fail(Problem("uneven", step.span, self.walk.countable(start, self.walk.stop), used or self._count_uses(step), left, detail="tail"))
        self.trial += 1
        try:
            self.work_steps(tail)
        except OutOfPlacesError:
            pass
        finally:
            self.trial -= 1
        self.walk.at = self.walk.stop
        return True

    def has_remaining(self) -> bool:
        """Is any site up to the stop left that wants to be worked into?"""
        return any(
            self.walk.is_countable(position) and not self._is_passed(position)
            for position in range(self.walk.at, self.walk.stop)
        )

    def remaining(self) -> int:
        """Sites up to the stop that still want to be worked into."""
        return sum(
            1
            for position in range(self.walk.at, self.walk.stop)
            if self.walk.is_countable(position) and not self._is_passed(position)
        )

    def _is_passed(self, position: int) -> bool:
        is_chain = self.walk.site(position).kind == "ch"
        if not (self.passed_chains if is_chain else self.passed_stitches):
            return False
        tail = range(position, self.walk.stop)
        return all((self.walk.site(p).kind == "ch") == is_chain or not self.walk.is_countable(p) for p in tail)

    def _count_uses(self, step: Repeat) -> int:
        """Places one time round uses, found by trying it on the whole row below."""
        snapshot = self._snapshot()
        self.walk.at, self.walk.stop = 0, len(self.walk.order)
        fits = self._try(step.steps)
        used = self.walk.at if fits else 0
        stop = snapshot[1]
        self._restore(snapshot)
        self.walk.stop = stop
        return used

    # trials

    _saved: tuple = ()  # type: ignore[type-arg]

    def _try(self, steps: Sequence[Node]) -> bool:
        """Works the steps if they fit; else leaves everything as it was and gives False."""
        snapshot = self._snapshot()
        self._saved = snapshot
        self.trial += 1
        try:
            self.work_steps(steps)
        except OutOfPlacesError:
            self._restore(snapshot)
            return False
        finally:
            self.trial -= 1
        return True

    def _snapshot(self) -> tuple:  # type: ignore[type-arg]
        return (
            self.walk.at, self.walk.stop, self.making.mark(), len(self.problems), self.colour, self.keep_colours, self.last, self.base,
            self.passed_stitches, self.passed_chains, self.inside, self.cluster, self.clusters, self.leaves, self.next_colour,
        )

    def _restore(self, snapshot: tuple) -> None:  # type: ignore[type-arg]
        (
            self.walk.at, self.walk.stop, mark, problems, self.colour, self.keep_colours, self.last, self.base,
            self.passed_stitches, self.passed_chains, self.inside, self.cluster, self.clusters, self.leaves, self.next_colour,
        ) = snapshot
        self.making.undo_to(mark)
        del self.problems[problems:]

    def _fail(self, problem: Problem) -> None:
        if self.trial:
            raise OutOfPlacesError(problem)
        self.problems.append(problem)
