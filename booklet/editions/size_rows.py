"""Rows of one size: printed from their trees, each read back and compared with its tree.

A row that has the same numbers in every size keeps its author's words. Where a tree does not hold all
that the author says, the author's words stay and each list of sizes in them, found by the reader of rows
and not by its looks, gives way to its one number.
"""

import re
from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from booklet.model.parsed import ParsedPattern, Row
from booklet.model.pattern import Pattern, RowLine
from booklet.model.tree import Aside, Free, Group, Node, PerSize, Repeat, RepeatRows, Unread, at_size
from booklet.model.work import WorkedPattern
from booklet.rows.arranging import Arranged
from booklet.rows.lexing import read_tokens
from booklet.rows.one_size import is_for_size, take_size
from booklet.rows.parts import pattern_vocabulary
from booklet.rows.print import PrintedRow, print_row
from booklet.rows.print_lines import TELLING, breaks_off, join_rows
from booklet.rows.print_prose import carry_prose
from booklet.rows.print_styled import Printer, spell_as
from booklet.rows.row import find_scope, find_unread, parse_row
from booklet.rows.tokens import Numbers, Token
from booklet.sizing.size_lists import MeasureList, find_measure_lists
from booklet.source import SourceFile

_REMARK = re.compile(r"\((?:does not |do not )?counts? as[^()]*\)", re.IGNORECASE)  # the trees are compared for it
UNTIL = ("rows", "sts", "length")
PASSED_OVER = frozenset({1, 2})  # "1 sc" is sc, "twice" is 2


@dataclass(frozen=True, slots=True)
class SizedLine:
    """A line of rows in one size: printed from its trees, or as text; both None where the size has no such row."""

    printed: PrintedRow | None = None
    text: str | None = None

    @property
    def is_left_out(self) -> bool:
        return self.printed is None and self.text is None


def _list_made(worked: WorkedPattern | None, size: int | None) -> frozenset[int] | None:
    """Where the rows stand that this size works, by the start of their words; None where that is not asked for."""
    if worked is None or size is None:
        return None
    return frozenset(row.span.start for part in worked.parts if size < len(part.rows) for row in part.rows[size])


class SizeRows:
    """Rows of a pattern in one size, given by its place among the sizes, in "US" or "UK" terms.

    With None for the size they are the rows as they are, for all sizes. `arranged` are the rows as the house
    has them, in its style; `carried` is the pattern in the terms asked for. With `worked` a line is left out
    that asks for rows until there are so many, where there are.
    """

    def __init__(
        self,
        parsed: ParsedPattern,
        size: int | None,
        terms: str,
        arranged: Arranged = Arranged(),
        carried: Pattern | None = None,
        worked: WorkedPattern | None = None,
    ) -> None:
        pattern = parsed.sized.pattern
        values: dict[str, PerSize] = {name: number.values for name, number in parsed.sized.numbers.items()}
        self.rows = [row for part in parsed.parts for row in part.rows]
        self.size, self.terms = size, terms
        self.made = _list_made(worked, size)
        self.arranged, self.style = arranged, pattern.style
        self.name = pattern.size_names[size] if size is not None else ""
        self.own = pattern.terms
        self.vocabulary = pattern_vocabulary(pattern)
        self.all_sizes = Numbers(values, len(pattern.size_names), names=pattern.size_names)
        self.read_by = self.all_sizes
        if size is not None:
            self.read_by = Numbers({name: (at_size(number, size),) for name, number in values.items()})
        self.printer = Printer(self.style, pattern_vocabulary(carried or pattern), self.read_by, self.own, arranged)

    def print_line(self, line: RowLine) -> SizedLine | None:
        """The line in this size; None where it is the same in all of them."""
        within = self._rows_of(line)
        kept = self._keep(within)
        if within and (not kept or self._is_idle(kept)):
            return SizedLine()
        taken = self._take(kept)
        arranged = [self.arranged.take(row) for row in kept]
        same = taken == within and self._take(arranged) == arranged
        if len(kept) == len(within) and same and not self._lists_sizes(line.span.text):
            return None
        printed = self._print_rows(line, kept, taken)
        if printed is None and any(self.arranged.take(row).steps != row.steps for row in kept):
            return None  # a turning chain has come or gone: the words for all sizes tell it
        if printed is None and self.style.changes_frame and len(kept) == 1 and not self.find_rest(line):
            printed = self._frame(kept[0])
        return SizedLine(printed) if printed is not None else SizedLine(text=self._write_text(line, kept, taken))

    def _is_idle(self, kept: Sequence[Row]) -> bool:
        """Does the line say until when rows are worked again, and are there so many already?"""
        if self.made is None or any(row.span.start in self.made for row in kept):
            return False
        steps = [step for row in kept for step in row.steps if not isinstance(step, Aside)]
        return bool(steps) and all(isinstance(step, RepeatRows) and step.until in UNTIL for step in steps)

    def find_trees(self, line: RowLine) -> tuple[Row, ...] | None:
        """The trees of the line's rows in this size; None where they do not hold all that its author says."""
        kept = self._keep(self._rows_of(line))
        taken = self._take(kept)
        whole = all(self._holds_all(row, one) for row, one in zip(kept, taken, strict=True))
        return tuple(self._take([self.arranged.take(row) for row in kept])) if whole and kept else None

    def find_rest(self, line: RowLine) -> str:
        """What the author says behind the last row of the line."""
        within = self._rows_of(line)
        return self.take_prose(line.span.file.text[within[-1].span.end : line.span.end].strip()) if within else ""

    def _lists_sizes(self, text: str) -> bool:
        """Is there a list of sizes, in words too that no tree holds?"""
        tokens, _ = read_tokens(text, self.vocabulary, self.all_sizes)
        return any(len(token.numbers) > 1 for token in tokens) or bool(self._find_measures(text))

    def _find_measures(self, text: str) -> list[MeasureList]:
        """Lists of decimals, fractions or figures with their units, which the reader of rows does not know."""
        sizes = self.all_sizes.sizes
        return [one for one in find_measure_lists(text) if len(one.slots) == sizes > 1 and not one.is_plain]

    def _rows_of(self, line: RowLine) -> list[Row]:
        return [row for row in self.rows if line.span.start <= row.span.start < line.span.end]

    def _keep(self, rows: Sequence[Row]) -> list[Row]:
        return [row for row in rows if self.size is None or is_for_size(row.label, self.name)]

    def _take(self, rows: Sequence[Row]) -> list[Row]:
        return [row if self.size is None else take_size(row, self.size) for row in rows]

    def take_prose(self, text: str) -> str:
        """Prose with one number for each list of sizes; names in braces are left to the page."""
        return self._take_lists(text, read_tokens(text, self.vocabulary, self.all_sizes)[0], with_names=False)

    def _print_rows(self, line: RowLine, kept: Sequence[Row], taken: Sequence[Row]) -> PrintedRow | None:
        """From the trees; None where one of them does not hold all that its author says."""
        whole: PrintedRow | None = None
        for row, one in zip(kept, taken, strict=True):
            if not self._holds_all(row, one):
                return None
            printed = self._print_row(row, one)
            if printed is None:
                return None
            printed = spell_as(row.words.text, printed)
            whole = printed if whole is None else join_rows(whole, printed)
        if whole is None:
            return None
        rest = carry_prose(" ".join(self.find_rest(line).split()), self.own, self.terms)
        return replace(whole, after=" ".join(part for part in (whole.after, rest) if part))

    def _print_row(self, row: Row, one: Row) -> PrintedRow | None:
        """The row in this size, in the style of the house."""
        if not self.style.changes_rows:
            return print_row(one, self.terms, written_in=self.own)
        (wanted,) = self._take([self.arranged.take(row)])
        return self.printer.print_row(wanted)

    def _frame(self, row: Row) -> PrintedRow | None:
        """The author's words in this size, in the house's frame."""
        (wanted,) = self._take([self.arranged.take(row)])
        return self.printer.frame_row(row, wanted, lambda words: self._take_words(row, words))

    def _take_words(self, row: Row, words: str) -> str:
        """Words of a row with the numbers of this size."""
        tokens = read_tokens(words, self.vocabulary, find_scope(row.label, self.all_sizes))[0]
        return self._take_lists(words, tokens, with_names=True)

    def _holds_all(self, row: Row, one: Row) -> bool:
        """Does the tree say all that its author says, so that what is printed from it reads back to it?"""
        if find_unread(row.steps) or row.label.faulty or breaks_off(row.steps, row.words):
            return False
        if self.size is not None and self._find_measures(row.words.text):
            return False
        printed = print_row(one, self.own, written_in=self.own)
        return not self._loses_words(row, printed) and self._reads_as(one, printed.text)

    def _write_text(self, line: RowLine, kept: Sequence[Row], taken: Sequence[Row]) -> str:
        """The author's words with the numbers of this size, carried into the terms of the booklet."""
        pieces: list[str] = []
        for row, one in zip(kept, taken, strict=True):
            words = self._take_words(row, row.words.text)
            is_own = not row.label.sizes and not row.label.varied
            label = row.span.text[: row.words.start - row.span.start] if is_own else ""
            if not is_own:
                label = f"{print_row(replace(one, steps=(), stated=None)).label}: "
            pieces.append(f"{label}{words}".strip())
        pieces.append(self.find_rest(line))
        return carry_prose(" ".join(filter(None, pieces)), self.own, self.terms)

    def _take_lists(self, text: str, tokens: Sequence[Token], with_names: bool) -> str:
        """The text with the number of this size wherever the reader found one for each."""
        if self.size is None:
            return text
        measures = self._find_measures(text)
        taken = [(one.start, one.end, one.slots[self.size]) for one in measures]
        for token in tokens:
            is_name = text[token.start : token.start + 1] == "{"
            is_within = any(one.start <= token.start < one.end for one in measures)
            if token.kind == "num" and not is_within and (len(token.numbers) > 1 or is_name):
                if with_names or not is_name:
                    taken.append((token.start, token.end, str(at_size(token.numbers, self.size))))
        pieces: list[str] = []
        at = 0
        for start, end, number in sorted(taken):
            pieces += [text[at:start], number]
            at = end
        return "".join([*pieces, text[at:]])

    def _loses_words(self, row: Row, printed: PrintedRow) -> bool:
        """Does the author's row say anything that the printed one does not?"""
        said = self._take_words(row, row.words.text)
        body = printed.text.partition(": ")[2] if printed.label else printed.text
        return bool(self._count_telling(said) - self._count_telling(body))

    def _count_telling(self, text: str) -> Counter[object]:
        """What a row tells beside its grammar: stitches, spaces, numbers, colours, words of the author's own."""
        text = _REMARK.sub(lambda found: " " * len(found[0]), text)
        tokens, _ = read_tokens(text, self.vocabulary, self.read_by)
        return Counter(_list_telling(tokens, text))

    def _reads_as(self, row: Row, text: str) -> bool:
        """Does the text, read as the row of a pattern in this size alone, give the tree of the row?"""
        span = SourceFile("one-size.md", text).span(0, len(text))
        back, _, _ = parse_row(RowLine(text, span), self.vocabulary, self.read_by)
        label, own = back.label, row.label
        same_label = (label.kind, label.numbers, label.side) == (own.kind, own.numbers, own.side)
        return same_label and back.stated == row.stated and _compare(back.steps) == _compare(row.steps)


def _list_telling(tokens: Sequence[Token], text: str) -> Iterator[object]:
    for token in tokens:
        if token.kind in ("st", "chsp", "chn", "ord", "colour") or token.is_word(*TELLING):
            yield token.kind, token.value
        elif token.kind == "num" and (len(token.numbers) > 1 or token.numbers[0] not in PASSED_OVER):
            yield token.numbers
        elif token.kind == "word" and str(token.value).isalpha():
            yield text[token.start : token.end].lower()


def _compare(steps: Sequence[Node]) -> list[Node]:
    """The steps without the words of notes."""
    return [_strip(step) for step in steps]


def _strip(step: Node) -> Node:
    if isinstance(step, Aside | Free):
        return replace(step, text="")
    if isinstance(step, Unread):
        return replace(step, text="", word="")
    if isinstance(step, Repeat):
        return replace(step, steps=tuple(_compare(step.steps)), instead=tuple(_compare(step.instead)))
    return replace(step, steps=tuple(_compare(step.steps))) if isinstance(step, Group) else step


def list_printed(lines: Mapping[tuple[int, int], SizedLine]) -> dict[tuple[int, int], PrintedRow]:
    """Those that are printed from their trees."""
    return {place: line.printed for place, line in lines.items() if line.printed is not None}
