"""Shaping of a flat piece as rows: the rates of a `shaping:` rule, in every size, in notation that can be worked.

Sizes whose changes lie in the same rows share their rows; each group of sizes gets rows of its own, numbered
from 1 under a heading, as a row's number stands once in a section. Counts are left as formulas in braces, so
that they follow the numbers of the pattern.
"""

from collections.abc import Iterator, Sequence

from booklet.model.pattern import Rate, SizedShaping
from booklet.shapes.rounds import say_sizes
from booklet.shapes.stitches import RoundStitch, ShapeError

# Chains that turn a row of a stitch and stand for none.
TURNING = {"sc": 1, "hdc": 2, "dc": 3, "tr": 4}


def list_shaping(shaping: SizedShaping, names: Sequence[str], stitch: RoundStitch) -> Iterator[str]:
    """The rows of a rule; `names` are those of the sizes. Raises ShapeError where stitches change elsewhere."""
    if shaping.rule.by not in (1, 2):
        raise ShapeError(f"{shaping.rule.by} stitches a row: only 1 or 2 have their place, at the ends")
    groups: dict[Rate, list[int]] = {}
    for at, rate in enumerate(shaping.rates):
        groups.setdefault(rate, []).append(at)
    for rate, places in groups.items():
        only = ""
        if len(groups) == 1:
            yield "### Shaping"
        else:
            sizes = say_sizes([names[at] for at in places])
            yield f"### Shaping for {sizes}"
            only = f" ({sizes} only)"
        yield from _Writer(shaping, stitch, places, only).list_rows(rate)


class _Writer:
    """The rows of sizes that share a rate, one after the other."""

    def __init__(self, shaping: SizedShaping, stitch: RoundStitch, places: Sequence[int], only: str) -> None:
        self.rule = shaping.rule
        self.stitch = stitch
        self.only = only
        at = places[0]
        self.sign = -1 if shaping.end[at] < shaping.start[at] else 1
        self.row = 0
        self.done = 0  # changes made so far

    def list_rows(self, rate: Rate) -> Iterator[str]:
        if rate.first:
            yield from self._gap(rate.first)
        for gap, times in ((rate.every, rate.times), (rate.then_every, rate.then_times)):
            if times:
                first = self.row + 1
                yield from self._gap(gap)
                if times > 1:
                    yield from self._again(first, times - 1)
        if rate.rest:
            yield self._line(rate.rest, self._even())

    def _gap(self, rows: int) -> Iterator[str]:
        """Even rows, and one that changes."""
        if rows > 1:
            yield self._line(rows - 1, self._even())
        self.done += 1
        yield self._line(1, self._change())

    def _again(self, first: int, times: int) -> Iterator[str]:
        last = self.row
        self.done += times
        which = f"Row {last}" if first == last else f"Rows {first}-{last}"
        often = "once" if times == 1 else f"{times} times"
        yield self._line(times * (last - first + 1), f"Rep {which} {often}")

    def _line(self, rows: int, words: str) -> str:
        first = self.row + 1
        self.row += rows
        label = f"Row {first}" if rows == 1 else f"Rows {first}-{self.row}"
        return f"{label}{self.only}: {words}. ({{{self._count()}}} {self.stitch.name})"

    def _count(self) -> str:
        if not self.done:
            return self.rule.start
        start = self.rule.start if self.rule.start.isidentifier() else f"({self.rule.start})"
        return f"{start} {'-' if self.sign < 0 else '+'} {self.rule.by * self.done}"

    def _even(self) -> str:
        return f"{self._turn()}, {self.stitch.name} in each st across"

    def _change(self) -> str:
        name, together = self.stitch.name, self.stitch.together
        begin, end = (
            (f"2 {name} in first st", f"2 {name} in last st") if self.sign > 0 else (f"{together}", f"{together}")
        )
        left = "st" if self.sign > 0 else "2 sts"
        if self.rule.by == 1:
            return f"{self._turn()}, {begin}, {name} in each st across"
        return f"{self._turn()}, {begin}, {name} in each st across to last {left}, {end}"

    def _turn(self) -> str:
        return f"Ch {TURNING[self.stitch.kind]} (does not count as a st), turn"
