"""Rows in a house's style, each one read back: what does not give its tree again keeps its author's words."""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace

from booklet.model.parsed import Label, Row
from booklet.model.pattern import RowLine
from booklet.model.style import Style
from booklet.model.tree import Group, Node, Repeat
from booklet.rows.arranging import Arranged
from booklet.rows.print import PrintedRow, begin_row, print_row
from booklet.rows.print_labels import close_before, print_label, print_stated
from booklet.rows.print_lines import list_read
from booklet.rows.print_prose import carry_prose
from booklet.rows.row import parse_row
from booklet.rows.tokens import Numbers
from booklet.rows.vocabulary import Vocabulary
from booklet.source import SourceFile


@dataclass(frozen=True, slots=True)
class Printer:
    """Prints rows in a style and in the terms of its vocabulary, and reads them back by it."""

    style: Style
    vocabulary: Vocabulary
    numbers: Numbers
    written_in: str  # the terms of the author's own words
    arranged: Arranged = Arranged()

    def print_row(self, row: Row) -> PrintedRow | None:
        """The whole row from its tree, which is arranged already; None where no form of it reads back."""
        for style in self._list_styles():
            printed = print_row(row, self.vocabulary.dialect, written_in=self.written_in, style=style)
            for form in (printed, replace(printed, body=_stop(printed.body))):
                if self._reads_as(row, form.text):
                    return replace(form, is_silent=row.span.start in self.arranged.silent)
        return None

    def frame_row(self, row: Row, wanted: Row, take: Callable[[str], str] = str) -> PrintedRow | None:
        """The author's own words between a label and a count of the house; None where that does not read back.

        `wanted` is the row as the house arranges it; `take` gives its words in the size that it is for.
        """
        manner = begin_row(wanted, self.vocabulary.dialect, None, self.written_in, self._shown)
        words = row.words.text
        body, after = words, ""
        if row.stated is not None:
            start, end = (at - row.words.start for at in (row.stated.span.start, row.stated.span.end))
            if not 0 <= start <= end <= len(words):
                return None
            body, after = words[:start].rstrip(" \t\n-–—=:;"), words[end:].lstrip(" .\n")
        body, after = (
            carry_prose(" ".join(take(part).split()), self.written_in, manner.terms) for part in (body, after)
        )
        count = print_stated(wanted.stated, manner)
        for closed in (close_before(_stop(body), count, self.style), _stop(body)):
            framed = PrintedRow(print_label(wanted.label, manner), closed, count, after)
            if self._reads_as(wanted, framed.text):
                return replace(framed, is_silent=row.span.start in self.arranged.silent)
        return None

    @property
    def _shown(self) -> Style:
        """The style with long labels, where short ones would say something else."""
        if not self.arranged.has_long_labels:
            return self.style
        rows, rounds = (word if word != "R" else "" for word in (self.style.rows, self.style.rounds))
        return replace(self.style, rows=rows, rounds=rounds)

    def _list_styles(self) -> Iterator[Style]:
        """The house's style, then with less and less of it."""
        style = self._shown
        yield style
        yield (without := replace(style, counts=style.counts if style.counts == "square" else ""))
        yield replace(without, repeats="", groups="", nested="")
        yield replace(without, repeats="", groups="", nested="", times="", numbers="")

    def _reads_as(self, row: Row, text: str) -> bool:
        """Does the text give the row's tree, whatever brackets its steps stand in?"""
        span = SourceFile("styled.md", text).span(0, len(text))
        back, _, _ = parse_row(RowLine(text, span), self.vocabulary, self.numbers)
        dialect = self.vocabulary.dialect
        read = _drop_marks(list_read(back, dialect, dialect))
        return (
            _is_same_label(row.label, back.label)
            and back.stated == row.stated
            and read == _drop_marks(list_read(row, self.written_in, dialect))
        )


def spell_as(words: str, printed: PrintedRow) -> PrintedRow:
    """The printed row with the author's spelling of the one word that the printer chooses by the terms."""
    if "colour" in words.lower():
        return replace(printed, body=printed.body.replace("colors as", "colours as"))
    return replace(printed, body=printed.body.replace("colours as", "colors as")) if "color" in words else printed


def _stop(words: str) -> str:
    return words if not words or words.endswith((".", "!", "?", ".)", '."')) else f"{words}."


def _is_same_label(own: Label, back: Label) -> bool:
    same_kind = own.kind == back.kind or (back.kind == "r" and bool(own.numbers))
    named = ((label.numbers, label.varied, label.side, label.every) for label in (own, back))
    return same_kind and next(named) == next(named)


def _drop_marks(steps: Sequence[Node]) -> tuple[Node, ...]:
    """The steps without the marks that their repeats stand between."""
    return tuple(map(_drop_mark, steps))


def _drop_mark(step: Node) -> Node:
    if isinstance(step, Repeat):
        mark = step.mark and "*"
        return replace(step, steps=_drop_marks(step.steps), instead=_drop_marks(step.instead), mark=mark)
    return replace(step, steps=_drop_marks(step.steps)) if isinstance(step, Group) else step
