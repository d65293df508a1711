"""The smallest version of a pattern that still shows all of it: for a class, or for a video.

It keeps every line that its size has, every kind of row, every repeat at least twice, and every change of colour.
What shrinks are the named numbers, each to the smallest value of its own multiple with which every row still
comes out. First all of them together, because numbers that share a row fit one another; then each alone, as
far as the others allow. Each trial is a proof of the whole pattern, so a sample is as sure as its pattern.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace

from booklet.answers.row_kinds import OFTEN_ENOUGH, count_repeats, gather_rows, kinds_worked, list_lines
from booklet.answers.supposing import Known, know
from booklet.findings.render import has_errors
from booklet.model.pattern import NumberRule
from booklet.pipeline import prove_pattern

MOST_TRIALS = 60  # for one number
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
class Sample:
    """The pattern with small numbers: `known` is its proof, in which only the size at `at` is the sample.

    `values` are the numbers as the sample has them. `kinds` of `kinds_in_all` kinds of row are in it.
    """

    known: Known
    full: Known
    at: int
    values: Mapping[str, int]
    kinds: int
    kinds_in_all: int
    shown: tuple[Shown, ...]

    @property
    def widest(self) -> int:
        """Stitches of its widest row; a foundation is none."""
        rows = (row for part in self.known.worked.parts for row in part.rows[self.at])
        return max((row.made for row in rows if row.kind != "foundation"), default=0)


def find_sample(full: Known) -> Sample:
    """The smallest version of a pattern that is sound."""
    sizes = range(len(full.pattern.size_names))
    kinds = [kinds_worked(full.parsed, full.worked, size) for size in sizes]
    every = set().union(*kinds)
    most = max(len(found) for found in kinds)
    at = min((size for size in sizes if len(kinds[size]) == most), key=lambda size: _weigh(full, size))
    search = _Search(full, at)
    values = search.shrink()
    known = search.prove(values)
    assert known is not None
    return Sample(
        known=known,
        full=full,
        at=at,
        values=values,
        kinds=len(kinds_worked(known.parsed, known.worked, at)),
        kinds_in_all=len(every),
        shown=tuple(_list_shown(full, known, at)),
    )


class _Search:
    """Trials of small numbers in one size; the other sizes keep theirs."""

    def __init__(self, full: Known, at: int) -> None:
        self.full, self.at = full, at
        self.rules = [rule for rule in full.pattern.numbers if not rule.formula and rule.name in full.sized.numbers]
        self.lines = {start for start, rows in gather_rows(full.worked, at).items() if rows}
        self.kinds = kinds_worked(full.parsed, full.worked, at)
        self.repeats = count_repeats(full.parsed, full.worked, at)
        self.whole = {rule.name: full.sized.numbers[rule.name].values[at] for rule in self.rules}

    def shrink(self) -> dict[str, int]:
        """The smallest values found."""
        values = dict(self.whole)
        for step in range(TOGETHER):
            together = {rule.name: next(_list_values(rule, values[rule.name], step), 0) for rule in self.rules}
            if not self.rules or min(together.values()) < 1:
                break
            if self.is_sound(together):
                values = together
                break
        for rule in self.rules:
            for value in _list_values(rule, values[rule.name]):
                if self.is_sound(trial := values | {rule.name: value}):
                    values = trial
                    break
        return values

    def prove(self, values: Mapping[str, int]) -> Known | None:
        pattern = self.full.pattern
        numbers = tuple(self._set(rule, values) for rule in pattern.numbers)
        return know(prove_pattern(replace(pattern, numbers=numbers)))

    def _set(self, rule: NumberRule, values: Mapping[str, int]) -> NumberRule:
        if rule.name not in values:
            return rule
        kept = self.full.sized.numbers[rule.name].values
        chosen = tuple(values[rule.name] if at == self.at else value for at, value in enumerate(kept))
        return NumberRule(rule.name, rule.span, values=chosen, direction=rule.direction)

    def is_sound(self, values: Mapping[str, int]) -> bool:
        """Does every row come out, and is all there that a sample has to keep?"""
        known = self.prove(values)
        if known is None or has_errors(known.proof.findings):
            return False
        made = gather_rows(known.worked, self.at)
        if not all(made.get(start) for start in self.lines):
            return False
        if any(row.status == "broken" for rows in made.values() for row in rows):
            return False
        if kinds_worked(known.parsed, known.worked, self.at) < self.kinds:
            return False
        repeats = count_repeats(known.parsed, known.worked, self.at)
        return all(count >= min(OFTEN_ENOUGH, whole) for count, whole in zip(repeats, self.repeats, strict=True))


def _list_values(rule: NumberRule, below: int, skip: int = 0) -> Iterator[int]:
    """Values of the rule's multiple that are smaller, the smallest first."""
    first = rule.plus % rule.multiple or rule.multiple
    values = range(max(first, rule.plus), below, rule.multiple)
    return iter(values[skip : skip + MOST_TRIALS])


def _weigh(known: Known, size: int) -> int:
    """Stitches of a size, row by row."""
    return sum(row.made for part in known.worked.parts for row in part.rows[size])


def _list_shown(full: Known, known: Known, at: int) -> Iterator[Shown]:
    before, after = gather_rows(full.worked, at), gather_rows(known.worked, at)
    for start, row in list_lines(known.parsed).items():
        rows, whole = after.get(start, []), before.get(start, [])
        if rows and whole:
            yield Shown(row.section, rows[0].label, row.span.line, rows[-1].made, len(rows), whole[-1].made, len(whole))
