"""Repeats: so many times, across the row, or to the last so many.

Repeats "across" are worked until the row below is used up: the steps that follow the repeat are
tried after each time round, so `… rep from * across, dc in last st` ends where it should. A repeat
"to the last n" has its end fixed before it starts; what its body cannot fill is the remainder.
"""

import re
from collections.abc import Sequence
from dataclasses import dataclass, replace

from booklet.model.tree import (
    Aside,
    Chain,
    FastenOff,
    Group,
    Join,
    KeepColours,
    Loops,
    Node,
    Repeat,
    RepeatRows,
    Skip,
    SkippedCount,
    TakeColour,
    Turn,
    Unread,
    What,
    Work,
    at_size,
)
from booklet.working.hand import OutOfPlacesError, Snapshot
from booklet.working.looking import list_form
from booklet.working.problems import Problem
from booklet.working.space_to_space import SPACES, SpaceSeeker

SILENT = (Aside, FastenOff, Turn, Loops, Unread, SkippedCount, RepeatRows)
ENDING = re.compile(r"\bend(?:ing|s)?\b", re.IGNORECASE)
STITCHES = ("st", "ch", "sc", "hdc", "dc", "tr", "dtr")
MAKES_NOTHING = (*SILENT, Join, TakeColour, KeepColours, Chain)


@dataclass(slots=True)
class Repeater(SpaceSeeker):
    """A row in hand that can repeat its steps."""

    def work_steps(self, steps: Sequence[Node]) -> None:
        """The steps, one after the other; given by the class that knows each kind of step."""
        raise NotImplementedError

    def _work_counted_repeat(self, step: Repeat) -> None:
        count = at_size(step.count, self.size)
        if step.until == "more":
            count += 1
        elif step.until == "open":
            self.open_points.add("more")
            count += 1 if self.choices.more else 0
        for turn in range(count):
            told, begun = len(self.problems), len(self.making.loops)
            self.work_steps(self._choose_body(step) if turn == count - 1 else step.steps)
            self.making.note_turn(begun, id(step))
            failed = self.problems[told] if len(self.problems) > told else None
            if failed and failed.kind in ("too-few", "no-place") and failed.detail != "same" and count > 1:
                self._tell_shortfall(step, told, turn, count)
                return

    def _choose_body(self, step: Repeat) -> Sequence[Node]:
        """The body of the last of so many times round: the first that fits and uses up the row, else that fits."""
        bodies = self._last_bodies(step)
        fitting = None
        for body in bodies:
            before = self.snapshot()
            if self._try(body):
                ends = not self.has_remaining()
                self.restore(before)
                fitting = fitting or body
                if ends:
                    return body
        return fitting or (bodies[0] if bodies else step.steps)

    def _tell_shortfall(self, step: Repeat, told: int, turn: int, count: int) -> None:
        """The first repeat that does not fit is told once, with how many do."""
        first = self.problems[told]
        self.problems[told:] = [
            Problem(first.kind, step.span, first.has, first.needs, turn, first.what, f"{turn}/{count}")
        ]

    def _last_bodies(self, step: Repeat) -> list[Sequence[Node]]:
        """What the last time round may be: the end left out, or replaced ("ending last rep with …").

        How much of the end is replaced is for the row below to say, the least that fits.
        """
        if not step.steps:
            return []
        if not step.instead:
            kept = step.steps[: len(step.steps) - step.drop]
            inner = step.steps[-1]
            if step.drop == 1 and isinstance(inner, Repeat) and inner.until == "times" and len(inner.steps) > 1:
                # "omitting last sc", where the last step is a bracket: the sc is the last one inside it
                before = replace(inner, count=tuple(count - 1 for count in inner.count))
                return [(*kept, before, *inner.steps[:-1]), kept]
            return [kept] if step.drop else []
        return [(*step.steps[: len(step.steps) - drop], *step.instead) for drop in range(1, len(step.steps) + 1)]

    def _work_open_repeat(self, step: Repeat, tail: Sequence[Node]) -> bool:
        """A repeat across, around, or to the last so many; True where the tail was worked along with it."""
        self.return_from_chain()
        walk, stop = self.walk, self.walk.stop
        limit: int | None = None
        if step.until == "last":
            limit = self.walk.limit_before_last(at_size(step.count, self.size), step.what)
            if limit is None and step.what.kind in ("shell", "v-st", "group"):
                limit = self._limit_before_groups(at_size(step.count, self.size))
            if limit is None:
                has = self.walk.countable(self.walk.at, stop)
                self.fail(Problem("too-few", step.span, has, at_size(step.count, self.size), what=step.what))
                return False
            self.walk.stop = min(limit, stop)
        elif step.until == "up to":
            self.walk.stop = min(stop, self.find_goal(step.what, at_size(step.count, self.size)))
        needs_tail = step.until == "end" and any(self._makes(node) for node in tail)
        try:
            if needs_tail:
                return self._repeat_with_tail(step, tail)
            self._repeat_to_stop(step)
        finally:
            walk.stop = stop
        if step.until == "last" and step.what.kind in STITCHES and limit is not None:
            self._pass_to(limit, step.what)
        return False

    def _makes(self, node: Node) -> bool:
        """Does a step behind a repeat need places, so that the repeat ends before it? One that joins does not."""
        if isinstance(node, Work) and node.stitch == "sl st" and not self.is_row:
            return node.where.how not in ("top", "join") and not (
                node.where.how == "first" and node.where.count == (1,)
            )
        return not isinstance(node, MAKES_NOTHING)

    def _pass_to(self, limit: int, what: What) -> None:
        """Goes to where the last so many stitches begin: these are for the steps behind the repeat, every one."""
        if self.walk.at < limit:
            self.making.note_passed(self.walk.countable(self.walk.at, limit))
            self.walk.at = limit
        self.tail_from, self.tail_what = limit, what

    def _repeat_to_stop(self, step: Repeat) -> None:
        start = self.walk.at
        used = 0
        while self.has_remaining() or self._finds_space(step.steps) or self._goes_on(step.steps):
            before, begun = self.stands_at(), len(self.making.loops)
            if self._end_with(self._last_bodies(step), () if step.instead else step.steps, step.steps):
                self.making.note_turn(begun, id(step))
                return
            if not self._try(step.steps) or self.stands_at() == before:
                break
            self.making.note_turn(begun, id(step))
            used = self.walk.at - before[0]
        left = self.remaining()
        if left and self._spans_the_end(step, left):
            return
        if left and step.until == "last" and step.what.kind in SPACES and self._goes_by_spaces(step.steps):
            if not self._finds_space([node for node in step.steps if not isinstance(node, Skip)]):
                self.passed_stitches = True  # from one space to the last: what lies between is passed over
                return
        if left:
            self.fail(
                Problem(
                    "uneven",
                    step.span,
                    self.walk.countable(start, self.walk.stop),
                    used or self._count_uses(step),
                    left,
                )
            )
            self.walk.at = self.walk.stop

    def _goes_on(self, steps: Sequence[Node]) -> bool:
        """Does a body that passes over stitches on its way to a space fit once more: "sc in next sc, sc in next sp"?"""
        works = [node for node in steps if isinstance(node, Work | Group)]
        if not self.passed_stitches or not any(
            node.where.how == "next" and self._is_space(node.where) for node in works
        ):
            return False
        before = self.snapshot()
        at = self.walk.at
        fits = self._try(steps) and self.walk.at > at
        self.restore(before)
        return fits

    def _spans_the_end(self, step: Repeat, left: int) -> bool:
        """In a round, the chains made last may stand over the stitches that a body skips before its stitch.

        "Ch 5, *sk 1, dc in next, ch 2; rep from * around, join": the last ch 2 spans the last dc.
        """
        skips = sum(at_size(node.where.count, self.size) for node in step.steps if isinstance(node, Skip))
        if self.is_row or left != skips or not any(isinstance(node, Chain) for node in step.steps):
            return False
        self.walk.at = self.walk.stop
        if self.making.loops and self.making.loops[-1].kind == "ch":
            self.making.note_passed(left)
        else:
            self.spare = left
        return True

    def _goes_on_from(
        self, snapshot: Snapshot, body: Sequence[Node], tail: Sequence[Node], in_place: bool = False
    ) -> bool:
        """Can the body be worked once more from there? A tail is found from afar: "… dc in 3rd ch of turning ch".

        What is worked `in_place` of the last body is due where the body would end the row too.

        Where it cannot, the tail is worked again.
        """
        self.restore(snapshot)
        before = self.walk.at
        if (
            self._try(body)
            and self.walk.at != before
            and (not in_place or self.walk.countable(self.walk.at, self.walk.stop))
        ):
            return True
        self.restore(snapshot)
        self._try(tail)
        return False

    def _end_with(self, bodies: Sequence[Sequence[Node]], again: Sequence[Node], whole: Sequence[Node]) -> bool:
        """Works the first of the bodies that uses up the row; leaves all as it was if none does.

        `again` is the body that goes from space to space: with one more space before it the row is not used up. A
        body that jumps over stitches ("ending last rep with 3 dc in last sc") is not due while the `whole` one goes on.
        """
        for body in bodies:
            before = self.snapshot()
            had_passed, self.passed_stitches = self.passed_stitches, False
            if self._try(body) and not self.has_remaining() and not self._finds_space(again):
                if not self.passed_stitches or not self._goes_on_from(before, whole, body, in_place=True):
                    self.passed_stitches = self.passed_stitches or had_passed
                    return True
            self.restore(before)
            self.passed_stitches = had_passed
        return False

    def _repeat_with_tail(self, step: Repeat, tail: Sequence[Node]) -> bool:
        """Works the body until the tail, worked after it, ends the row."""
        start, begun_with = self.walk.at, self.snapshot()
        used = 0
        while True:
            snapshot = self.snapshot()
            due = self._next_space(step.steps)
            self._forget_first_use()
            had_passed, self.passed_stitches = self.passed_stitches, False
            fitted = self._try(tail)
            if not fitted and had_passed:  # the body goes from space to space: what stands before the tail is passed
                self.passed_stitches = True
                fitted = self._try(tail)
            if fitted:
                passed_one = due is not None and self.first_use is not None and due < self.first_use
                fits = (not self.has_remaining() or self.leaves) and not passed_one
                if fits and (not self.passed_stitches or not self._goes_on_from(snapshot, step.steps, tail)):
                    self.passed_stitches = self.passed_stitches or had_passed
                    return True
            self.restore(snapshot)
            self.passed_stitches = had_passed
            before, begun = self.stands_at(), len(self.making.loops)
            if not self._try(step.steps) or self.stands_at() == before:
                break
            self.making.note_turn(begun, id(step))
            used = self.walk.at - before[0]
        left = self.remaining()
        if self._ends_otherwise(step, tail, begun_with):
            return True
        self.fail(
            Problem(
                "uneven",
                step.span,
                self.walk.countable(start, self.walk.stop),
                used or self._count_uses(step),
                left,
                detail="tail",
            )
        )
        self.trial += 1
        try:
            self.work_steps(tail)
        except OutOfPlacesError:
            pass
        finally:
            self.trial -= 1
        self.walk.at = self.walk.stop
        return True

    def _ends_otherwise(self, step: Repeat, tail: Sequence[Node], start: Snapshot) -> bool:
        """ "…; rep from * across, ending with sc in top of tch": is that the end of the last time round itself?

        So where the row does not come out with it behind the repeat. Leaves all as it was where it does not so either.
        """
        behind = self.snapshot()
        makes = [at for at, node in enumerate(tail) if self._makes(node)]
        between = step.span.file.text[step.span.end : tail[makes[0]].span.start] if makes else ""
        if ENDING.search(between) is None or step.drop or step.instead or min(makes) > 1:
            return False
        last = tuple(tail[: makes[-1] + 1])
        alike = [drop for drop in range(1, len(step.steps) + 1) if list_form(step.steps[-drop:]) == list_form(last)]
        drops = [*alike[:1], *(drop for drop in range(1, len(step.steps) + 1) if drop not in alike[:1])]
        bodies: list[Sequence[Node]] = [(*step.steps[: len(step.steps) - drop], *last) for drop in drops]
        self.restore(start)
        while self.has_remaining():
            before = self.stands_at()
            if self._end_here(bodies, step.steps):
                if self._try(tail[makes[-1] + 1 :]):
                    return True
                break
            if not self._try(step.steps) or self.stands_at() == before:
                break
        self.restore(behind)
        return False

    def _end_here(self, bodies: Sequence[Sequence[Node]], whole: Sequence[Node]) -> bool:
        """Works the first of the bodies that uses up the row, and jumps over nothing where the `whole` one goes on."""
        for body in bodies:
            before = self.snapshot()
            self.passed_stitches = self.passed_chains = False
            if self._try(body) and not self.has_remaining():
                jumps = self.passed_stitches or self.passed_chains
                if not jumps or not self._goes_on_from(before, whole, body, in_place=True):
                    return True
            self.restore(before)
        return False

    def _forget_first_use(self) -> None:
        self.first_use = None

    def _count_uses(self, step: Repeat) -> int:
        """Places one time round uses, found by trying it on the whole row below."""
        snapshot = self.snapshot()
        self.walk.at, self.walk.stop = 0, len(self.walk.order)
        fits = self._try(step.steps)
        used = self.walk.at if fits else 0
        stop = snapshot[2]
        self.restore(snapshot)
        self.walk.stop = stop
        return used

    def _try(self, steps: Sequence[Node]) -> bool:
        """Works the steps if they fit; else leaves everything as it was and gives False."""
        snapshot = self.snapshot()
        self.trial += 1
        try:
            self.work_steps(steps)
        except OutOfPlacesError:
            self.restore(snapshot)
            return False
        finally:
            self.trial -= 1
        return True
