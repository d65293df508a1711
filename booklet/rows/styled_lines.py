"""All rows of a pattern in a house's style, in its own terms or the other ones.

A row that its tree holds whole is printed from it. Of any other the author's words stay between a label and a
count of the house, or, where those do not read back, the line as it is written.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from booklet.findings import Finding
from booklet.model.parsed import ParsedPattern, Row
from booklet.model.pattern import Pattern, RowLine
from booklet.model.style import Style
from booklet.rows.arranging import Arranged
from booklet.rows.print import PrintedRow
from booklet.rows.print_lines import CarriedRows, Readers, add_rest, carry_rows, join_rows, make_readers, print_held
from booklet.rows.print_styled import Printer, spell_as
from booklet.rows.turning_chains import keeps_chain


@dataclass(frozen=True, slots=True)
class StyledRows:
    """The rows as printed, how they are arranged, and those that keep their author's words."""

    carried: CarriedRows
    arranged: Arranged
    kept: tuple[Row, ...]
    of: int  # how many rows there are
    silent_lines: tuple[int, ...] = ()  # of the source: rows that print no count, as it is that of the row before
    unmoved_lines: tuple[int, ...] = ()  # rows whose turning chain is not where the house wants it


def find_told(parsed: ParsedPattern, carried: Pattern) -> frozenset[int]:
    """The starts of the rows whose words say more than their tree holds."""
    readers = make_readers(parsed, carried)
    rows = (row for part in parsed.parts for row in part.rows)
    return frozenset(row.span.start for row in rows if print_held(row, readers) is None)


def style_lines(
    parsed: ParsedPattern, carried: Pattern, style: Style, arranged: Arranged, told: frozenset[int]
) -> tuple[StyledRows, tuple[Finding, ...]]:
    """Every line of rows in the style, in the terms of `carried`."""
    readers = make_readers(parsed, carried)
    own, other = readers.own.dialect, readers.other.dialect
    plain, findings = carry_rows(parsed, carried) if own != other else (CarriedRows(), ())
    printer = Printer(style, readers.other, readers.numbers, own, arranged)
    rows = [row for part in parsed.parts for row in part.rows]
    printed = dict(plain.printed)
    kept: list[Row] = []
    for line in (line for part in parsed.sized.pattern.parts for line in part.rows):
        within = [row for row in rows if line.span.start <= row.span.start < line.span.end]
        place = (line.span.start, line.span.end)
        from_trees = style.changes_words or own != other
        whole = _print_line(line, within, printer, readers, told) if from_trees else None
        if whole is None and from_trees:
            kept += within
        if whole is None and len(within) == 1 and style.changes_frame and not _has_rest(line, within[0]):
            whole = _frame(within[0], printer)
            kept += within if whole is None and not from_trees else []
        elif whole is None and not from_trees:
            kept += within
        if whole is not None:
            printed[place] = whole
    texts = {place: text for place, text in plain.texts.items() if place not in printed}
    silent_places = {place[0] for place, row in printed.items() if row.is_silent}
    silent = tuple(row.span.line for row in rows if row.span.start in silent_places)
    unmoved = tuple(row.span.line for row in rows if keeps_chain(arranged.take(row), style))
    return StyledRows(CarriedRows(printed, texts), arranged, tuple(kept), len(rows), silent, unmoved), findings


def _print_line(
    line: RowLine, rows: Sequence[Row], printer: Printer, readers: Readers, told: frozenset[int]
) -> PrintedRow | None:
    """The rows of one line from their trees; None where one of them cannot be."""
    whole: PrintedRow | None = None
    for row in rows:
        printed = printer.print_row(printer.arranged.take(row)) if row.span.start not in told else None
        if printed is None:
            return None
        if readers.own.dialect == readers.other.dialect:
            printed = spell_as(row.words.text, printed)
        whole = printed if whole is None else replace(join_rows(whole, printed), is_silent=printed.is_silent)
    return add_rest(line, rows[-1], whole, readers) if whole is not None else None


def _frame(row: Row, printer: Printer) -> PrintedRow | None:
    """The author's words in the house's frame; None where a turning chain of theirs has been moved."""
    wanted = printer.arranged.take(row)
    return printer.frame_row(row, wanted) if wanted.steps == row.steps else None


def _has_rest(line: RowLine, row: Row) -> bool:
    return bool(line.span.file.text[row.span.end : line.span.end].strip())


def list_moved(rows: Sequence[Row], arranged: Arranged) -> set[int]:
    """The starts of the rows that gain or lose a turning chain."""
    return {row.span.start for row in rows if arranged.take(row).steps != row.steps}
