"""The smallest version of a pattern that still shows all of it: for a class, or for a video.

It keeps every line that its size has, every kind of row, every repeat at least twice, and every change of colour.
What shrinks are the named numbers, each to the smallest value of its own multiple with which every row still
comes out. First all of them together, because numbers that share a row fit one another; then each alone, as
far as the others allow. Then the numbers that are typed into the rows, as far as they can be told apart
(`typed_numbers.py`). Each trial works every row of the size, so a sample is as sure as its pattern.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from booklet.answers.one_size import pick_size
from booklet.answers.row_kinds import OFTEN_ENOUGH, count_repeats, gather_rows, kinds_worked, list_lines
from booklet.answers.supposing import Known
from booklet.answers.typed_numbers import Changes, Typed, find_typed, set_typed, state_again
from booklet.findings import Finding
from booklet.findings.render import has_errors
from booklet.model.parsed import ParsedPattern
from booklet.model.pattern import NumberRule
from booklet.model.work import WorkedPattern
from booklet.rows.parts import parse_pattern
from booklet.sizing.numbers import size_pattern
from booklet.working.pattern import work_pattern

MOST_TRIALS = 60  # for one number
LEAST_STITCHES = 8  # in the widest row: fewer teach nothing, whatever comes out
TOGETHER = 8  # steps that all numbers take at once


@dataclass(frozen=True, slots=True)
class Shown:
    """What a line of the sample shows: which rows of the pattern it stands for, here and in full."""

    section: str
    label: str
    line: int
    made: int
    rows: int
    full_made: int
    full_rows: int


@dataclass(frozen=True)
class Trial:
    """The rows of one size, worked with some numbers."""

    parsed: ParsedPattern
    worked: WorkedPattern


@dataclass(frozen=True)
class Sample:
    """The rows of one size, the one at `at`, with small numbers.

    `values` are the named numbers as the sample has them; `retyped` the lines in which a typed number or the
    count has changed. `kinds` of `kinds_in_all` kinds of row are
    in it.
    """

    full: Known
    trial: Trial
    at: int
    values: Mapping[str, int]
    retyped: Changes
    kinds: int
    kinds_in_all: int
    shown: tuple[Shown, ...]

    @property
    def widest(self) -> int:
        """Stitches of its widest row; a foundation is none."""
        return _find_widest(self.trial.worked)


def find_sample(full: Known) -> Sample:
    """The smallest version of a pattern that is sound."""
    sizes = range(len(full.pattern.size_names))
    kinds = [kinds_worked(full.parsed, full.worked, size) for size in sizes]
    most = max(len(found) for found in kinds)
    at = min((size for size in sizes if len(kinds[size]) == most), key=lambda size: _weigh(full, size))
    search = _Search(full, at)
    values = search.shrink()
    trial, retyped = search.shrink_typed(search.work(values))
    return Sample(
        full=full,
        trial=trial,
        at=at,
        values=values,
        retyped=retyped,
        kinds=len(kinds_worked(trial.parsed, trial.worked, 0)),
        kinds_in_all=len(set().union(*kinds)),
        shown=tuple(_list_shown(full, trial, at)),
    )


class _Search:
    """Trials of small numbers in one size."""

    def __init__(self, full: Known, at: int) -> None:
        self.full, self.at = full, at
        self.rules = [rule for rule in full.pattern.numbers if not rule.formula and rule.name in full.sized.numbers]
        self.whole = {rule.name: full.sized.numbers[rule.name].values[at] for rule in self.rules}
        start = self.work(self.whole)
        self.narrowest = min(LEAST_STITCHES, _find_widest(start.worked))
        self.lines = {start for start, rows in gather_rows(start.worked, 0).items() if rows}
        self.kinds = kinds_worked(start.parsed, start.worked, 0)
        self.repeats = count_repeats(start.parsed, start.worked, 0)

    def shrink(self) -> dict[str, int]:
        """The smallest values of the named numbers."""
        values = dict(self.whole)
        for step in range(TOGETHER):
            together = {rule.name: next(_list_values(rule, values[rule.name], step), 0) for rule in self.rules}
            if not self.rules or min(together.values()) < 1:
                break
            if self.is_sound(*self._try(together)):
                values = together
                break
        for rule in self.rules:
            for value in _list_values(rule, values[rule.name]):
                if self.is_sound(*self._try(trial := values | {rule.name: value})):
                    values = trial
                    break
        return values

    def shrink_typed(self, trial: Trial) -> tuple[Trial, Changes]:
        """The trial with the smallest numbers in place of those that are typed, and the lines that change."""
        retyped: Changes = {}
        for typed in find_typed(trial.parsed):
            for keeps_counts in (True, False):
                if not keeps_counts and not self._reads_without_counts(trial, typed):
                    continue
                smaller = self._find_smaller(trial, typed, keeps_counts)
                if smaller is not None:
                    trial, changes = smaller
                    retyped |= {
                        start: change for start, change in changes.items() if any(change) or start not in retyped
                    }
                    break
        return trial, retyped

    def _find_smaller(self, trial: Trial, typed: Typed, keeps_counts: bool) -> tuple[Trial, Changes] | None:
        """The smallest value of a typed number with which all comes out; None where there is none."""
        for value in range(typed.least, typed.value)[:MOST_TRIALS]:
            parsed, changes = set_typed(trial.parsed, typed, value, keeps_counts)
            worked, findings = work_pattern(parsed)
            if self.is_sound(Trial(parsed, worked), findings):
                return Trial(state_again(parsed, worked, changes), worked), changes
        return None

    def _reads_without_counts(self, trial: Trial, typed: Typed) -> bool:
        """Are the counts of the piece the same where they are not stated?"""
        parsed, _ = set_typed(trial.parsed, typed, typed.value, keeps_counts=False)
        worked, findings = work_pattern(parsed)
        return not findings and _list_made(worked) == _list_made(trial.worked)

    def work(self, values: Mapping[str, int]) -> Trial:
        return self._try(values)[0]

    def _try(self, values: Mapping[str, int]) -> tuple[Trial, Sequence[Finding]]:
        """The rows sized, read and worked with these values of the named numbers."""
        pattern = self.full.pattern
        numbers = tuple(self._set(rule, values) for rule in pattern.numbers)
        sized, on_sizes = size_pattern(replace(pattern, numbers=numbers))
        parsed, on_rows = parse_pattern(sized)
        parsed = pick_size(parsed, self.at)
        worked, on_stitches = work_pattern(parsed)
        return Trial(parsed, worked), (*on_sizes, *on_rows, *on_stitches)

    def _set(self, rule: NumberRule, values: Mapping[str, int]) -> NumberRule:
        """The rule with its value in this size; the other sizes keep theirs, so that lists stay whole."""
        if rule.name not in values:
            return rule
        kept = self.full.sized.numbers[rule.name].values
        chosen = tuple(values[rule.name] if at == self.at else value for at, value in enumerate(kept))
        return NumberRule(rule.name, rule.span, values=chosen, direction=rule.direction)

    def is_sound(self, trial: Trial, findings: Sequence[Finding]) -> bool:
        """Does every row come out, and is all there that a sample has to keep?"""
        if has_errors(findings) or _find_widest(trial.worked) < self.narrowest:
            return False
        made = gather_rows(trial.worked, 0)
        if not all(made.get(start) for start in self.lines):
            return False
        if any(row.status == "broken" for rows in made.values() for row in rows):
            return False
        if kinds_worked(trial.parsed, trial.worked, 0) < self.kinds:
            return False
        repeats = count_repeats(trial.parsed, trial.worked, 0)
        return all(count >= min(OFTEN_ENOUGH, whole) for count, whole in zip(repeats, self.repeats, strict=True))


def _list_values(rule: NumberRule, below: int, skip: int = 0) -> Iterator[int]:
    """Values of the rule's multiple that are smaller, the smallest first."""
    first = rule.plus % rule.multiple or rule.multiple
    values = range(max(first, rule.plus), below, rule.multiple)
    return iter(values[skip : skip + MOST_TRIALS])


def _weigh(known: Known, size: int) -> int:
    """Stitches of a size, row by row."""
    return sum(row.made for part in known.worked.parts for row in part.rows[size])


def _list_made(worked: WorkedPattern) -> list[int]:
    return [row.made for part in worked.parts for row in part.rows[0]]


def _find_widest(worked: WorkedPattern) -> int:
    """Stitches of the widest row; a foundation is none."""
    rows = (row for part in worked.parts for row in part.rows[0])
    return max((row.made for row in rows if row.kind != "foundation"), default=0)


def _list_shown(full: Known, trial: Trial, at: int) -> Iterator[Shown]:
    before, after = gather_rows(full.worked, at), gather_rows(trial.worked, 0)
    for start, row in list_lines(trial.parsed).items():
        rows, whole = after.get(start, []), before.get(start, [])
        if rows and whole:
            yield Shown(row.section, rows[0].label, row.span.line, rows[-1].made, len(rows), whole[-1].made, len(whole))
