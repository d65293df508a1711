"""What a booklet is made from: the worked pattern, its amounts, its pictures and its printed rows."""

from bisect import bisect_left
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from functools import cached_property
from typing import Protocol

from booklet.drawings.picture import Picture
from booklet.model.amounts import Amounts
from booklet.model.parsed import ParsedPattern, Row
from booklet.model.pattern import Pattern, RowLine, SizedPattern
from booklet.model.work import WorkedPattern
from booklet.sizing.shaping import say_shaping


class PrintedRow(Protocol):
    """A row in its author's words with every number filled in: `Row 1 (RS)`, its body, its count."""

    @property
    def label(self) -> str: ...
    @property
    def body(self) -> str: ...
    @property
    def count(self) -> str: ...
    @property
    def after(self) -> str: ...
    @property
    def is_silent(self) -> bool: ...


@dataclass(frozen=True)
class BookletInput:
    """One pattern, proved and drawn, on its way to its pages.

    `rows` holds the printed text of rows by the start and end of their span; a row that is not in
    it is printed from its line in the source. The first word of a picture's name says where it
    goes: `cover` or `fabric` (the front), `patch-A` (the legend), `schematic-…`, `plan-…` (colours
    in place), `photo-…` (a section of their own), `step-…` (in the text), `code-…` (beside addresses).
    `parsed` holds the rows as trees, for an edition in which one size can be asked for; None where all sizes
    are printed alike.
    """

    sized: SizedPattern
    worked: WorkedPattern
    amounts: Amounts
    pictures: Sequence[Picture] = ()
    rows: Mapping[tuple[int, int], PrintedRow] = field(default_factory=dict)
    only_size: str = ""  # the name of the one size that is shown of several
    all_sizes: tuple[str, ...] = ()  # and those of the pattern that it was taken from
    parsed: ParsedPattern | None = None
    for_testers: bool = False  # with what was planned and how sure each figure is
    in_full: bool = False  # with these at the back

    @property
    def pattern(self) -> Pattern:
        return self.sized.pattern

    @cached_property
    def numbers(self) -> dict[str, tuple[int, ...]]:
        """Every named number with its value in each size."""
        return {name: number.values for name, number in self.sized.numbers.items()}

    def trees_of(self, line: RowLine) -> list[Row]:
        """The rows that stand in the line, as trees; none where all sizes are printed alike."""
        first, last = (bisect_left(self._trees, place, key=_start_of) for place in (line.span.start, line.span.end))
        return self._trees[first:last]

    @cached_property
    def _trees(self) -> list[Row]:
        rows = [row for part in self.parsed.parts for row in part.rows] if self.parsed else []
        return sorted(rows, key=_start_of)

    def say_shaping(self, text: str) -> str:
        """The text with each shaping named in braces, `{sleeve}`, in words."""
        for shaping in self.sized.shaping:
            text = text.replace(f"{{{shaping.rule.name}}}", say_shaping(shaping))
        return text

    def pictures_for(self, *places: str) -> list[Picture]:
        """The pictures whose name starts with one of the words, in the order of the words."""
        return [
            picture
            for place in places
            for picture in self.pictures
            if picture.name == place or picture.name.startswith(f"{place}-")
        ]


def _start_of(row: Row) -> int:
    return row.span.start
