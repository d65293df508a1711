"""The booklet as plain text for screen readers and braille: every section of the view, in words.

Nothing is told by place or by a mark alone: headings are numbered, a table is a list of lines that name what
they are about, and rows come from their trees. A paragraph is one line, so that any reader folds it as it
needs.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace

from markupsafe import Markup

from booklet.pages.booklet_view import view_booklet
from booklet.pages.front import MAX_SIZES_IN_LINE
from booklet.pages.manuscript import BookletInput
from booklet.pages.plain_markup import list_lines
from booklet.pages.spoken_text import Speech, make_speech
from booklet.pages.views import BookletView, Fact, Figure, Passage, Piece, Section, Table

IN_TABLES = {"To fit": "sizes", "Finished size": "sizes", "Yarn in all": "materials"}  # and under which heading
LEFT_OUT = ("terms", "charts", "measuring")  # short forms not used here, rows told again, aids for the eye
SpokenRows = Mapping[int, Sequence[str]]
"""The spoken lines of a row by the start of its span."""

ABOUT = (
    "This is the plain text edition, for screen readers and braille. Abbreviations are written out, repeats are "
    "given in words, and headings are numbered. Each paragraph and each row is one line."
)


def write_plain_text(manuscript: BookletInput, rows: SpokenRows) -> str:
    """The whole booklet; lines end with a line feed."""
    return _Writer(manuscript, rows).write()


class _Writer:
    def __init__(self, manuscript: BookletInput, rows: SpokenRows) -> None:
        self.speech: Speech = make_speech(manuscript.pattern)
        self.view: BookletView = view_booklet(manuscript)
        self.rows = rows
        self.manuscript = manuscript

    def write(self) -> str:
        sections = [section for section in self.view.sections if section.key not in LEFT_OUT]
        blocks = [self._front(sections)]
        for number, section in enumerate(sections, start=1):
            blocks.append("\n".join([f"{number}. {section.title}", "", *self._section(section, str(number))]))
        blocks.append("End of the pattern.")
        return "\n\n\n".join(block.rstrip() for block in blocks) + "\n"

    def _front(self, sections: Sequence[Section]) -> str:
        view = self.view
        lines = [view.title, "A crochet pattern"]
        if view.designer:
            lines[-1] += f" by {view.designer}"
        lines += [view.edition_line.replace(" · ", ", ")] if view.edition_line else []
        if view.date:
            lines[-1] += f", {view.date}"
        lines += ["", ABOUT]
        if view.cover.picture is not None:
            lines.append(self._say(f"The picture on the cover shows: {view.cover.picture.alt}"))
        lines += ["", "Headings"]
        lines += [f"{number}. {section.title}" for number, section in enumerate(sections, start=1)]
        start = next((n for n, section in enumerate(sections, start=1) if section.key == "instructions"), 0)
        if self.view.sizes > 1:
            lines += [
                "",
                "Where sizes differ, a row is given for each of them. There is a file for each size alone as well.",
            ]
        if start:
            lines += ["", f"The work starts under heading {start}, {sections[start - 1].title}."]
        return "\n".join(self._plain(line) for line in lines)

    def _section(self, section: Section, number: str) -> Iterator[str]:
        yield from self._passages(section.passages) if section.passages else self._paragraphs(section.lead)
        for fact in section.facts:
            if self._is_told_by_table(fact):
                yield from self._point_to_table(fact)
                continue
            said = "; ".join(self._say(line) for line in list_lines(fact.value))
            yield f"{fact.label}: {said}"
        for table in section.tables:
            yield from self._key(table) if section.key == "key" else self._table(table)
        for swatch in section.swatches:
            yield f"Colour {swatch.letter}: {swatch.name}"
        for entry in section.entries:
            heading = _say_once(self._say(entry.heading)) if entry.heading else ""
            yield ": ".join(filter(None, (heading, " ".join(self._paragraphs(entry.text)))))
            for figure in entry.figures:
                yield from self._figure(figure)
            if entry.source:
                yield f"Source: {' '.join(self._paragraphs(entry.source))}"
        for figure in section.figures:
            told = section.key == "schematic"  # what its table holds, the table of sizes has given already
            yield from self._figure(replace(figure, table=None) if told else figure)
        yield from self._pieces(section.pieces, number)
        for note in section.notes:
            yield ""
            yield from self._paragraphs(note)

    def _is_told_by_table(self, fact: Fact) -> bool:
        """Figures of many sizes in one line, which a table gives size by size; how to read lists in brackets."""
        return fact.label == "Numbers" or (self.view.sizes > MAX_SIZES_IN_LINE and fact.label in IN_TABLES)

    def _point_to_table(self, fact: Fact) -> Iterator[str]:
        key = IN_TABLES.get(fact.label)
        told = (section for section in self.view.sections if section.key not in LEFT_OUT)
        for number, section in enumerate(told, start=1):
            if section.key == key and section.tables:
                yield f"{fact.label}: for each size under heading {number}, {section.title}"

    def _figure(self, figure: Figure) -> Iterator[str]:
        yield f"Picture: {self._say(figure.alt)}"
        if figure.caption and figure.caption != figure.alt:
            yield f"Caption: {self._say(figure.caption)}"
        if figure.table is not None:
            yield from self._table(figure.table)

    def _table(self, table: Table) -> Iterator[str]:
        """The caption, then for each line its head, and a line for each of its columns."""
        yield ""
        if table.caption:
            yield f"{self._say(table.caption)}."
        for line in table.lines:
            about = "colour"
            letter = f", {about if line.is_colour else 'letter'} {line.letter}" if line.letter else ""
            head = f"{self._say(line.head)}{letter}"
            cells = [", ".join(self._say(text) for text in cell.lines) for cell in line.cells]
            if len(cells) == 1:
                yield f"{head}: {cells[0]}"
                continue
            yield f"{head}:"
            yield from (f"{self._say(column)}: {cell}" for column, cell in zip(table.columns, cells, strict=True))
        yield ""

    def _key(self, table: Table) -> Iterator[str]:
        """Here the short form is what needs telling: other patterns use it, this text does not."""
        yield "Short forms that other patterns use for the words of this one."
        for line in table.lines:
            meaning = " ".join(self._say(text) for cell in line.cells for text in cell.lines)
            yield f"{line.head}: {_drop_colons(meaning)}"

    def _pieces(self, pieces: Sequence[Piece], number: str) -> Iterator[str]:
        counts = [0]
        for piece in pieces:
            if piece.title:
                depth = max(1, piece.level - 2)
                counts = [*counts[:depth], *[0] * (depth - len(counts))]
                counts[-1] += 1
                yield ""
                title = ", ".join(filter(None, (self._say(piece.title), piece.make)))
                yield f"{number}.{'.'.join(str(max(1, count)) for count in counts)} {title}"
                yield ""
            yield from self._passages(piece.passages)

    def _passages(self, passages: Sequence[Passage]) -> Iterator[str]:
        for passage in passages:
            if passage.row is not None:
                yield from self.rows.get(passage.row.start) or [self._say(passage.row.text)]
            elif passage.prose is not None:
                yield from self._paragraphs(passage.prose)
            for figure in passage.figures:
                yield from self._figure(figure)

    def _paragraphs(self, text: str | Markup) -> list[str]:
        return [self._say(line) for line in list_lines(text)]

    def _say(self, text: str | Markup) -> str:
        if isinstance(text, Markup):
            text = " ".join(list_lines(text))
        return self._plain(self.speech.speak(text))

    def _plain(self, text: str) -> str:
        return " ".join(text.split())


def _drop_colons(meaning: str) -> str:
    """`cluster, see Special stitches`: what stands behind a colon has none of its own to be read out."""
    return meaning.replace(": ", ", ")


def _say_once(heading: str) -> str:
    """`cluster` for `cluster, cluster`: a stitch whose short form is written out says its name twice."""
    name, _, again = heading.partition(", ")
    return name if name.casefold() == again.casefold() else heading
