"""Tables too wide for their page in parts, one below the other."""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import pairwise

from booklet.pages.views import BookletView, Figure, Section, Table

LEFT_OUT = "The figures of the drawing stand in the table of sizes, by its letters."


def part_tables(view: BookletView, most: int) -> BookletView:
    """The booklet with no more than so many columns side by side, beside the heads of the lines.

    The table of a drawing that shows what the table of sizes shows is left out instead.
    """
    letters = {line.letter for section in view.sections if section.key == "sizes"
               for table in section.tables for line in table.lines}  # fmt: skip
    return replace(view, sections=tuple(_part_section(section, most, letters) for section in view.sections))


def _part_section(section: Section, most: int, letters: set[str]) -> Section:
    tables = tuple(part for table in section.tables for part in _part(table, most))
    figures: list[Figure] = []
    notes = section.notes
    for figure in section.figures:
        table = None if figure.is_told_once else figure.table  # what is told elsewhere is not printed again
        if table is not None and len(table.columns) > most and {line.letter for line in table.lines} <= letters:
            if figure.told_at:  # and the way there is told
                figure = replace(figure, is_told_once=True, form="")
            else:
                figure, notes = replace(figure, table=None, form=""), (*notes, LEFT_OUT)
        figures.append(figure)
    return replace(section, tables=tables, figures=tuple(figures), notes=tuple(dict.fromkeys(notes)))


def _part(table: Table, most: int) -> Iterator[Table]:
    """The table, or its parts of about as many columns each, with the first and last of them in their captions."""
    columns = len(table.columns)
    if columns <= most:
        yield table
        return
    parts = -(-columns // most)
    ends = [columns * part // parts for part in range(parts + 1)]
    for start, end in pairwise(ends):
        lines = tuple(replace(line, cells=line.cells[start:end]) for line in table.lines)
        caption = ": ".join(filter(None, (table.caption, _name_part(table.columns[start:end]))))
        yield replace(table, caption=caption, columns=table.columns[start:end], lines=lines)


def _name_part(columns: Sequence[str]) -> str:
    return columns[0] if len(columns) == 1 else f"{columns[0]} to {columns[-1]}"
