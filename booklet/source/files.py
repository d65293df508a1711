"""A source file as text, and places in it.

Offsets count characters from 0. Lines and columns count from 1 and are worked out only where a
person or a tool reads them (`SourceFile.place`).
"""

from bisect import bisect_right
from dataclasses import dataclass, field
from functools import cached_property
from pathlib import Path

MAX_BYTES = 2_000_000


@dataclass(frozen=True, eq=False)
class SourceFile:
    """The text of one file and the path it was asked for by."""

    path: str
    text: str = field(repr=False)
    folder: Path = field(default_factory=Path, repr=False)

    @cached_property
    def line_starts(self) -> tuple[int, ...]:
        """Offset of the first character of every line."""
        starts = [0]
        starts.extend(i + 1 for i, char in enumerate(self.text) if char == "\n")
        return tuple(starts)

    @cached_property
    def lines(self) -> tuple[str, ...]:
        """The lines without their ends."""
        return tuple(self.text.split("\n"))

    def place(self, offset: int) -> tuple[int, int]:
        """Line and column, both from 1, of a character offset."""
        offset = max(0, min(offset, len(self.text)))
        line = bisect_right(self.line_starts, offset)
        return line, offset - self.line_starts[line - 1] + 1

    def span(self, start: int, end: int | None = None) -> "Span":
        """The place from `start` up to, not including, `end` (one character where not given)."""
        return Span(self, start, start + 1 if end is None else end)

    def whole(self) -> "Span":
        """A place that stands for the file as a whole."""
        return Span(self, 0, 0)


@dataclass(frozen=True, slots=True)
class Span:
    """A stretch of one source file, `start` included, `end` not."""

    file: SourceFile
    start: int
    end: int

    @property
    def line(self) -> int:
        return self.file.place(self.start)[0]

    @property
    def column(self) -> int:
        return self.file.place(self.start)[1]

    @property
    def text(self) -> str:
        return self.file.text[self.start : self.end]

    def sub(self, start: int, end: int) -> "Span":
        """The stretch between two offsets that count from the start of this one."""
        return Span(self.file, self.start + start, self.start + end)

    def to(self, other: "Span") -> "Span":
        """From the start of this stretch to the end of another."""
        return Span(self.file, min(self.start, other.start), max(self.end, other.end))


def open_source(path: Path, shown_as: str | None = None) -> SourceFile:
    """The file's text, decoded as UTF-8, line ends made "\\n".

    Raises OSError where it cannot be read, ValueError where it is too large or not UTF-8 text.
    """
    data = path.read_bytes()
    if len(data) > MAX_BYTES:
        raise ValueError(f"the file is larger than {MAX_BYTES // 1_000_000} MB")
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        raise ValueError(f"the file is not UTF-8 text (byte {error.start})") from error
    text = text.replace("\r\n", "\n").replace("\r", "\n")
    return SourceFile(shown_as or str(path), text, path.parent)
