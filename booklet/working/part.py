"""The rows of one piece in one size, worked one over the other.

A row that does not work out is told once. The next one is tried both over what was really made and
over what the row says it has, and the better of the two goes on; so one mistake gives one finding.
"""

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from booklet.model.parsed import ChainRule, Row, Stated
from booklet.model.tree import SPACE, Chain, EarlierRow, Even, Node, RepeatRows, ShapeRows, TakeColour, at_size
from booklet.model.work import Fabric, Reading
from booklet.rows.markers import goes_by_markers, list_marks
from booklet.rows.numbering import is_next
from booklet.rows.row import find_free, find_unread, is_works, list_works
from booklet.working.beginnings import split_opening
from booklet.working.counting import find_other_kinds, is_compared, stated_total
from booklet.working.earlier import (
    as_fabric,
    count_left,
    count_passed,
    count_regained,
    find_earlier,
    offer_earlier,
    only_moves,
    settle_skipped,
    take_earlier,
    without_places,
)
from booklet.working.expand import Gap, Instance, expand_line, group_interleaved, order_of
from booklet.working.lines import PartLines
from booklet.working.looking import without_late_change
from booklet.working.making import EMPTY, trusted_fabric
from booklet.working.marks import mark_done
from booklet.working.notes import Mixed, Trouble
from booklet.working.outcome import work_row
from booklet.working.placing import find_piece, names_piece
from booklet.working.resuming import MOST_STITCHES, list_likely
from booklet.working.setting import Outcome, Setting
from booklet.working.state import STITCHES
from booklet.working.trusting import compare_sides, compare_told, share_out
from booklet.working.turning import find_turning_line, goes_round, has_sizes, is_turned, lays_chain, split_end

CUT = re.compile(r"\b(?:fasten|break|cut|end)\s+off\b|\brotate\b|\bdo not turn\b", re.IGNORECASE)
STRIPES = re.compile(r"\bstripe", re.IGNORECASE)


@dataclass(slots=True)
class PartWork(PartLines):
    """A piece in hand, in one size."""

    def work(self) -> None:
        self.striped = any(STRIPES.search(row.words.text) for row in self.part.rows)
        for lines in group_interleaved(self._list_lines()):
            for instance in sorted(self._expand(lines), key=order_of) if len(lines) > 1 else self._expand(lines):
                self._work_instance(instance)

    def _expand(self, lines: Sequence[Row]) -> Iterator[Instance]:
        """The rows that the lines stand for; of lines whose numbers run through each other each knows those before."""
        known = self.known
        for line in lines:
            self._enter_section(line)
            if line.label.every and line.label.numbers:
                self.every[line.label.numbers[-1] % 2] = line
            if line is lines[0]:
                self._fill_every(line)
            instances, gaps = expand_line(
                line,
                known,
                self.worked,
                self.last_number,
                (self._rows_high(), self.section_count),
                self.size,
                self.gauge,
                "" if self.in_rounds else self.side,
                self._list_made(),
            )
            self.gaps.extend((line, gap) for gap in gaps)
            self.suspect = bool(gaps)
            if len(lines) > 1:
                known = {**known, **{one.number: one.row for one in instances if one.number is not None}}
            yield from instances

    def _keep_chain(self, row: Row) -> None:
        """What a row says of its opening chain holds for the same chain after it, unless a row says otherwise."""
        chain = split_opening(row.steps).chain
        if chain is None or chain.counts is None or not chain.counts:
            return
        rule = ChainRule(at_size(chain.count, self.size), chain.counts, chain.span, chain.stands_for, then=chain.then)
        if rule.chains > 1 and all(known.chains != rule.chains for known in self.setting.rules):
            self.setting = replace(self.setting, rules=(*self.setting.rules, rule))
        alone = rule.chains - rule.then  # of "ch 4 (counts as dc and ch 1)" the dc is a ch 3
        if 0 < rule.then < rule.chains - 1 and rule.stitch != SPACE and alone not in dict(self.setting.turning):
            self.setting = replace(self.setting, turning=tuple(sorted((*self.setting.turning, (alone, "stitch")))))

    def _fill_every(self, line: Row) -> None:
        """Rows that "and all even rows" stands for, worked where the numbers leave them out."""
        while line.label.numbers and self.number + 1 < line.label.numbers[0] and (self.number + 1) % 2 in self.every:
            row = self.every[(self.number + 1) % 2]
            self._work_instance(Instance(row, self.number + 1, row, True, True))
        if line.label.every and not line.label.numbers:
            self.alternate, self.alternate_due = line, False
        elif self.alternate is not None and is_next(line.label) and not line.label.count:
            if self.alternate_due:
                self._work_instance(Instance(self.alternate, None, self.alternate, True, True))
            self.alternate_due = True
        elif is_works(line.steps):
            self.alternate = None

    # one row

    def _work_instance(self, instance: Instance) -> None:
        row = settle_skipped(instance.row, self.rows)
        if not is_works(row.steps) and instance.number is None:
            self.parted = self.parted or CUT.search(row.words.text) is not None
            marks = list_marks(row.steps)
            self.below = tuple(mark_done(fabric, marks, self.in_rounds) if marks else fabric for fabric in self.below)
            return
        self._take_next_colour(row)
        if row is instance.line and not instance.is_last and len(row.label.numbers) > 1:
            row = self.before_last.setdefault(id(row), replace(row, steps=without_late_change(row.steps)))
            instance = replace(instance, row=row, line=row)
        earlier = find_earlier(row)
        self.offered = self._offer(row, earlier) if earlier is not None else None
        if earlier is not None and only_moves(row):
            if self.offered is not None:
                self.moved_to = self.offered
                self.below = (self.moved_to,)
            return
        if (between := find_turning_line(row)) is not None and self.below[0] is not EMPTY:
            self.carried, self.turn_next = between, True
            letters = [step.letter for step in row.steps if isinstance(step, TakeColour)]
            if letters:
                self.setting = replace(self.setting, colour=letters[-1])
            return
        if self.below[0] is not EMPTY and lays_chain(row, self.part.rows, self.size):
            self.below, self.carried, self.turn_next = (EMPTY,), None, False
        steps, carried, turn_after = split_end(row)
        turned = is_turned(steps, self.turn_next, self._kind(row) == "row") and not self._begins_anew(instance)
        if self.carried is not None and not any(isinstance(step, Chain) for step in steps[:1]):
            steps = (self.carried, *steps)
        label = self._label(instance)
        nowhere = earlier is not None and self.offered is None
        if nowhere or self.lost or not self._has_work(row) or self._is_left_open(row):
            self._trust(instance, label, turned)
        else:
            self._work_read_row(instance, steps, label, turned)
        self.carried, self.turn_next = carried, turn_after
        if row.steps:
            self.worked.append(row)
        self.last_number = instance.number
        if row is instance.line:
            self._note_name(row)
        if instance.number is not None:
            self.number = instance.number
            self.known[instance.number] = row

    def _is_left_open(self, row: Row) -> bool:
        """Are there words that are not read, or numbers that only the maker, or another piece, can know?"""
        works = list_works(row.steps)
        pieces = [work.where.piece for work in works if work.where.how == "piece"]
        unknown = any(
            not find_piece(self.setting.pieces, name) and not names_piece(self.setting.title, name) for name in pieces
        )
        measured = self.below[0] is EMPTY and any(work.where.how == "until" for work in works)
        unmarked = goes_by_markers(row.steps) and not self.below[0].markers
        return bool(find_unread(row.steps) or find_free(row.steps)) or measured or unknown or unmarked

    def _take_next_colour(self, row: Row) -> None:
        """The colour that the pattern's order gives the row: every row, or those alone that name the stripes."""
        if self.order is None or self._kind(row) == "foundation":
            return
        if self.striped and not STRIPES.search(row.words.text):
            return
        self.setting = replace(self.setting, colour=self.order.colour_of(self.stripe if self.striped else self.count))
        self.stripe += 1

    def _has_work(self, row: Row) -> bool:
        again = any(isinstance(step, RepeatRows | ShapeRows) for step in row.steps)
        return not again and is_works(row.steps)

    def _work_read_row(self, instance: Instance, steps: tuple[Node, ...], label: str, turned: bool) -> None:
        row = instance.row
        stated = row.stated
        if instance.is_repeat and instance.row is not instance.line:
            stated = instance.line.stated if instance.is_last and not self.suspect else None
        if instance.line.stated is not None and instance.line.stated.series:
            numbers = instance.line.label.numbers
            of_row = instance.number in numbers and not self.suspect
            stated = instance.line.stated.of_row(numbers.index(instance.number)) if of_row else None
        asked = row if stated is row.stated else replace(row, stated=stated)
        if self.faulty and stated is None and row.stated is not None:
            # After a mistake the count that the row gave the first time keeps the repeats from drifting.
            outcome, below = self._best_outcome(row, steps, turned)
            if not outcome.problems or row.span.start in self.faulty:
                self._keep(instance, row, outcome, below, label, turned)
                return
        outcome, below = self._best_outcome(asked, steps, turned)
        soft = (
            instance.is_repeat
            and not instance.is_last
            and row is instance.line
            and not (row.stated and row.stated.series)
        )
        if outcome.problems and soft and outcome.problems[0].kind == "count":
            asked = replace(row, stated=None)
            outcome, below = self._best_outcome(asked, steps, turned)
        outcome = self._hold_to_ways(asked, steps, outcome, below, turned, label)
        self._keep(instance, asked, self._with_depth(row, outcome), below, label, turned)

    def _best_outcome(self, row: Row, steps: tuple[Node, ...], turned: bool) -> tuple[Outcome, Fabric]:
        """The row over each row below that is possible after a mistake; the first that works out, or else the last."""
        outcome, below = self._outcome(row, steps, self.below[0], turned), self.below[0]
        for other in self.below[1:]:
            if not outcome.problems:
                break
            outcome, below = self._outcome(row, steps, other, turned), other
        return outcome, below

    def _offer(self, row: Row, earlier: EarlierRow) -> Fabric | None:
        """What a row further down still offers, past the stitches that are to stay as they are; None, told, if nothing.

        That is what the last part worked into it has left, or else all of it.
        """
        found = offer_earlier(self.rows, earlier)
        if found is None:
            self.gaps.append((row, Gap("nothing-left", earlier.span, earlier.number)))
            return None
        offered, self.over = found
        if self.rest and earlier.what == "unworked" and self.over == self.rest_of:
            offered = as_fabric(self.rest)
        self.rest_of = self.over
        return as_fabric(offered.sites[count_passed(row.steps, self.size) :])

    def _outcome(self, row: Row, steps: tuple[Node, ...], below: Fabric, turned: bool) -> Outcome:
        if self.offered is not None and (earlier := find_earlier(row)) is not None:
            worked = work_row(row, take_earlier(steps, earlier), self.offered, False, self.size, self.setting)
            self.rest = self.offered.sites[len(self.offered.sites) - worked.left :]
            return replace(worked, fabric=without_places(worked.fabric))
        if below is self.moved_to:
            worked = work_row(row, steps, below, False, self.size, self.setting)
            self.rest = below.sites[len(below.sites) - worked.left :]
            return replace(worked, fabric=without_places(worked.fabric))
        if any(work.where.how == "unworked" for work in list_works(row.steps)):
            left = count_left(self.rows, self.regained, turned, row.label.kind == "round")
            self.regained[len(self.rows)] = count_regained(list_works(row.steps), left, self.size)
            return work_row(row, steps, below, turned, self.size, replace(self.setting, unworked=left))
        if goes_round(row.steps):
            return work_row(row, steps, below, turned, self.size, self._with_edges())
        key = (
            id(row.steps),
            row.stated,
            self.carried,
            id(below),
            turned,
            self.size if has_sizes(row) else -1,
            self.setting.key,
        )
        found = self.memo.get(key)
        if found is None:
            outcome = work_row(row, steps, below, turned, self.size, self.setting)
            outcome = replace(outcome, fabric=self._shared(outcome.fabric))
            found = self.memo[key] = (outcome, below, row.steps)  # kept so that their ids stay their own
        return found[0]

    def _with_edges(self) -> Setting:
        """The setting of a row that goes along the sides of the piece, and along its foundation."""
        worked = [row for row in self.rows if row.kind != "foundation"]
        kinds = (max(row.fabric.counts, key=row.fabric.counts.__getitem__, default="sc") for row in worked)
        return replace(self.setting, edges=tuple(kinds), loops=worked[0].made if worked else 0)

    def _shared(self, fabric: Fabric) -> Fabric:
        """Equal rows share one object, so that a repeated pair of rows is worked once however long it goes on."""
        taken = (tuple(sorted(fabric.yarn.items())), tuple(sorted(fabric.long.items())))
        key = (fabric.sites, fabric.stitches, fabric.made, taken, fabric.markers)
        return self.shared.setdefault(key, fabric)

    def _keep(self, instance: Instance, row: Row, outcome: Outcome, below: Fabric, label: str, turned: bool) -> None:
        if not outcome.makes:
            self.below = (outcome.fabric,)
            self._carry_on(outcome, row)
            return
        status = "worked"
        if outcome.problems:
            status = "trusted" if self._rests_on_trust(below) and not self._is_sure(row, outcome) else "broken"
        total = stated_total(row.stated, below.made, self.size)
        if (
            total is not None
            and row.stated
            and len(row.stated.items) > 1
            and not any(p.kind == "count" for p in outcome.problems)
        ):
            total = outcome.fabric.made  # counts by kind that agree say the same as the total
        worked = self._row(instance, outcome.fabric, label, turned, status, outcome.used, outcome.left, total)
        if outcome.along:
            worked = replace(worked, along=True)
            self._stand_on_side(below)
        if status == "broken" and instance.row.span.start not in self.faulty:
            self._note_trouble(instance, row, outcome, below, label, turned)
        if status == "broken":
            self.faulty.add(instance.row.span.start)
            total = stated_total(instance.row.stated, below.made, self.size) if total is None else total
        others = find_other_kinds(row.stated, outcome.fabric, self.size) if status == "worked" else []
        if others and row.stated is not None:
            named = row.stated.items[0][1].kind
            self.mixed.append(Mixed(label, named, tuple(others), row.stated.span, self.size))
        if row.stated is not None and not is_compared(row.stated, outcome.fabric, self.size, self.setting.group_forms):
            self.uncompared.append(Reading(f"{label} states “{row.stated.span.text.strip('()[] ')}”", row.stated.span))
        self._note_points(outcome, row, label)
        self._carry_on(outcome, row)
        self._keep_chain(row)
        likely = list_likely(outcome.fabric, below, total) if outcome.problems else (outcome.fabric,)
        self.below = tuple(fabric if fabric is EMPTY else self._shared(fabric) for fabric in likely)
        self.rows.append(worked)
        self.last = worked

    def _compare_told(self, instance: Instance, stated: Stated | None, below: Fabric) -> None:
        """What the words of a range on trust tell of its stitches, held against its count when its first row is due."""
        numbers = instance.line.label.numbers
        if instance.row is not instance.line or (numbers and instance.number != numbers[0]):
            return
        problem = compare_sides(instance.row, stated, self.size)
        problem = problem or compare_told(instance.row, stated, below.made, self.size)
        if problem is not None:
            last = self._label(replace(instance, number=numbers[-1] if numbers else None))
            self.troubles.append(Trouble(instance.row, last, problem, self.size))

    def _trust(self, instance: Instance, label: str, turned: bool) -> None:
        below = self.below[-1]
        lost, self.lost = self.lost, False
        numbers, stated = instance.line.label.numbers, instance.row.stated
        if instance.row is not instance.line and instance.line.stated is not None:
            stated = instance.line.stated
        if not lost and below.made:
            self._compare_told(instance, stated, below)
            stated = share_out(stated, numbers, instance.number, below.made, self.size)
        total = stated_total(stated, below.made, self.size)
        if total is None:  # "sc in each ch until there are 84 sc" over a chain that was measured
            until = (work.where.count for work in list_works(instance.row.steps) if work.where.how == "until")
            total = next((at_size(count, self.size) for count in until), None)
        fabric = (
            below
            if total is None
            else trusted_fabric(min(total, MOST_STITCHES), self.setting.colour, self.setting.base)
        )
        if instance.row.label.numbers and not self._has_work(instance.row) and not instance.row.unread:
            self.idle.append(instance.row)
        steps = instance.row.steps
        open_end = find_unread(steps) or find_free(steps) or goes_by_markers(steps)
        over_lost = lost and self._has_work(instance.row)  # a row like others, over one whose stitches are not known
        if not instance.row.label.numbers and total is None and not open_end and not over_lost:
            return
        self.lost = total is None and not any(
            isinstance(step, Even) for step in instance.row.steps
        )  # how many stitches there are is not known, so nothing can be worked over it
        self.counted = stated is not None and len(stated.items) == 1 and stated.items[0][1].kind in STITCHES
        worked = self._row(instance, fabric, label, turned, "trusted", 0, 0, total)
        self.rows.append(worked)
        self.last = worked
        self.below = (
            (trusted_fabric(fabric.made, self.setting.colour, self.setting.base),)
            if total is None and not self.lost
            else (fabric,)
        )
