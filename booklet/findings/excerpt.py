"""The lines of a source that a finding is about, with the places marked under them.

Everything is counted in columns of a terminal: a tab runs to the next stop, a wide character takes
two columns, a combining mark none, and a control character is shown as � so that no source can
drive the terminal. A line longer than the width is shown through a window round its marks.
"""

import unicodedata
from collections.abc import Callable, Iterator
from dataclasses import dataclass

from booklet.findings.finding import Finding
from booklet.source import SourceFile, Span

TAB = 4
CUT = "…"
MIN_TEXT = 24  # columns that a wrapped label keeps for itself, however far right its mark stands

Paint = Callable[[str, str], str]
"""(text, role) -> text; the roles are error, warning, primary, secondary and margin."""


def leave_plain(text: str, role: str) -> str:
    """The text as it is: for files, tests and terminals without colour."""
    del role
    return text


@dataclass(frozen=True, slots=True)
class Mark:
    """A stretch of one line, in terminal columns, and the words that stand beside it."""

    start: int
    end: int
    text: str
    is_primary: bool

    @property
    def sign(self) -> str:
        return "^" if self.is_primary else "-"

    @property
    def role(self) -> str:
        return "primary" if self.is_primary else "secondary"


def draw_excerpt(finding: Finding, width: int, paint: Paint = leave_plain) -> list[str]:
    """The marked lines in the order of the file; the other files' lines follow under their path.

    A finding about a file as a whole, or about an empty file, has none.
    """
    drawn: list[str] = []
    for file in _files_of(finding):
        marks = _marks_of(finding, file)
        if not marks:
            continue
        margin = max(4, len(str(max(marks) + 1)) + 2)
        if file is not finding.span.file:
            drawn.append(paint(f"{' ' * margin}in {show_text(file.path)}", "margin"))
        previous = None
        for line in sorted(marks):
            if previous is not None and line > previous + 1:
                drawn.append(paint(f"{' ' * (margin - 3)}...", "margin"))
            drawn.extend(_draw_line(file.lines[line], line + 1, marks[line], margin, width, paint))
            previous = line
    return drawn


def show_text(text: str) -> str:
    """The text safe to show: tabs become one space, control characters �."""
    return "".join(_show_char(char) for char in text)


def wrap_text(text: str, columns: int) -> list[str]:
    """The words in lines of at most so many columns; only a word wider than that is cut."""
    lines = [""]
    for word in show_text(text).split():
        joined = f"{lines[-1]} {word}" if lines[-1] else word
        if _measure_text(joined) <= columns:
            lines[-1] = joined
            continue
        if lines[-1]:
            lines.append("")
        for char in word:
            if _measure_text(lines[-1] + char) > columns:
                lines.append("")
            lines[-1] += char
    return lines if lines[0] else []


def _files_of(finding: Finding) -> list[SourceFile]:
    files = [finding.span.file]
    for note in finding.notes:
        if note.span.file not in files:
            files.append(note.span.file)
    return files


def _marks_of(finding: Finding, file: SourceFile) -> dict[int, list[Mark]]:
    """Marks by line (from 0). On one line the primary stands below the notes, nearest to its words."""
    marks: dict[int, list[Mark]] = {}
    places = [(note.span, note.text, False) for note in finding.notes]
    places.append((finding.span, finding.label, True))
    for span, text, is_primary in places:
        if span.file is not file or span.start >= span.end:
            continue
        for line, mark in _mark_span(span, text, is_primary):
            marks.setdefault(line, []).append(mark)
    return marks


def _mark_span(span: Span, text: str, is_primary: bool) -> Iterator[tuple[int, Mark]]:
    """The first and the last line of a stretch; the words stand under the last."""
    file = span.file
    first, column = file.place(span.start)
    end = max(span.start, min(span.end, len(file.text)) - 1)
    last, last_column = file.place(end)
    if first == last:
        yield first - 1, _mark_columns(file.lines[first - 1], column - 1, last_column, text, is_primary)
        return
    line = file.lines[first - 1]
    yield first - 1, _mark_columns(line, column - 1, len(line), "", is_primary)
    line = file.lines[last - 1]
    indent = len(line) - len(line.lstrip())
    yield last - 1, _mark_columns(line, min(indent, last_column - 1), last_column, text, is_primary)


def _mark_columns(line: str, start: int, end: int, text: str, is_primary: bool) -> Mark:
    left = _measure_text(line[:start])
    right = _measure_text(line[:end])
    return Mark(left, max(right, left + 1), show_text(text).strip(), is_primary)


def _draw_line(line: str, number: int, marks: list[Mark], margin: int, width: int, paint: Paint) -> list[str]:
    room = max(MIN_TEXT, width - margin - 3)
    drawn = []
    for offset, group in _windows(line, marks, room):
        shown = _cut_line(line, offset, room)
        drawn.append(paint(f"{number:>{margin}} | ", "margin") + shown)
        for mark in group:
            drawn.extend(_draw_mark(mark, offset, margin, room, paint))
    return drawn


def _windows(line: str, marks: list[Mark], room: int) -> list[tuple[int, list[Mark]]]:
    """First column and marks of each window; one window where all the marks fit in it."""
    if _measure_text(line) <= room:
        return [(0, marks)]
    left, right = min(mark.start for mark in marks), max(mark.end for mark in marks)
    if right - left <= room - 8 or len(marks) == 1:
        return [(max(0, left - 8) if right > room - 2 else 0, marks)]
    return [window for mark in marks for window in _windows(line, [mark], room)]


def _cut_line(line: str, offset: int, room: int) -> str:
    """The columns from `offset` on, `room` of them, with … where the line goes on."""
    shown, column = "", 0
    for char in line:
        step = _measure_char(char, column)
        text = " " * step if char == "\t" else _show_char(char)
        if column >= offset:
            shown += text
        elif column + step > offset:
            shown += " " * (column + step - offset)  # the window begins in the middle of a wide character
        column += step
    if offset:
        shown = CUT + _drop_columns(shown, 1)
    if _measure_text(shown) > room:
        kept, column = "", 0
        for char in shown:
            step = _measure_char(char, column)
            if column + step > room - 1:
                break
            kept += char
            column += step
        shown = kept + CUT
    return shown


def _drop_columns(text: str, columns: int) -> str:
    dropped = 0
    for index, char in enumerate(text):
        if dropped >= columns:
            return text[index:]
        dropped += _measure_char(char, dropped)
    return ""


def _draw_mark(mark: Mark, offset: int, margin: int, room: int, paint: Paint) -> list[str]:
    start = mark.start - offset
    end = max(start + 1, min(mark.end - offset, room))
    edge = paint(f"{' ' * margin} | ", "margin")
    head = f"{' ' * start}{mark.sign * (end - start)}"
    if not mark.text:
        return [edge + paint(head, mark.role)]
    if end + 1 + _measure_text(mark.text) <= room:
        return [edge + paint(f"{head} {mark.text}", mark.role)]
    beside = room - end - 1
    if beside >= MIN_TEXT:
        first, *rest = wrap_text(mark.text, beside)
        lines = [f"{head} {first}", *(f"{' ' * (end + 1)}{words}" for words in rest)]
    else:
        indent = max(0, min(start, room - max(MIN_TEXT, _measure_text(mark.text))))
        indent = indent if room - indent >= MIN_TEXT else 0
        lines = [head, *(f"{' ' * indent}{words}" for words in wrap_text(mark.text, room - indent))]
    return [edge + paint(text, mark.role) for text in lines]


def _measure_text(text: str) -> int:
    column = 0
    for char in text:
        column += _measure_char(char, column)
    return column


def _measure_char(char: str, column: int) -> int:
    if char == "\t":
        return TAB - column % TAB
    if unicodedata.combining(char) or unicodedata.category(char) in ("Mn", "Me", "Cf"):
        return 0
    return 2 if unicodedata.east_asian_width(char) in ("W", "F") else 1


def _show_char(char: str) -> str:
    if char in "\t\n":
        return " "
    # Cf holds the marks that reorder text on screen; what is shown must be what is there.
    category = unicodedata.category(char)
    if category == "Cf":
        return ""
    return "\N{REPLACEMENT CHARACTER}" if category in ("Cc", "Cs", "Co") else char
