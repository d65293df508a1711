"""One thing found in a source: a code, a place, the facts and the cure.

A finding is a value. Passes return findings beside their output; none is ever raised.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from enum import Enum

from booklet.source import Span


class Severity(Enum):
    """An error stops the booklet from being printed; a warning never does."""

    ERROR = "error"
    WARNING = "warning"


@dataclass(frozen=True, slots=True)
class Note:
    """A second place that explains the first, with a few words to stand beside it."""

    span: Span
    text: str


@dataclass(frozen=True, slots=True)
class Finding:
    """One mistake or doubt.

    `span` is the place to edit. `label` stands under it. `notes` are the places that are the cause.
    `sizes` names the sizes concerned; empty where the finding is not about a size.
    """

    code: str
    severity: Severity
    message: str
    span: Span
    label: str = ""
    notes: tuple[Note, ...] = ()
    expected: str = ""
    fix: str = ""
    sizes: tuple[str, ...] = ()

    @property
    def sort_key(self) -> tuple[str, int, str, str]:
        return (self.span.file.path, self.span.start, self.severity.value, self.code)


def error(code: str, message: str, span: Span, **facts: object) -> Finding:
    """A finding that stops the booklet."""
    return Finding(code, Severity.ERROR, message, span, **facts)  # type: ignore[arg-type]


def warning(code: str, message: str, span: Span, **facts: object) -> Finding:
    """A finding that does not stop the booklet."""
    return Finding(code, Severity.WARNING, message, span, **facts)  # type: ignore[arg-type]


def counted(number: int, noun: str, plural: str = "") -> str:
    """A number with its noun in the right form: `1 stitch`, `2 stitches`, `3 dc`."""
    if number == 1:
        return f"1 {noun}"
    if plural:
        return f"{number} {plural}"
    if noun.endswith(("ch", "sh")) and noun not in ("ch", "sh"):
        return f"{number} {noun}es"
    return f"{number} {noun}s"


def join_words(words: Sequence[str]) -> str:
    """`a`, `a and b`, `a, b and c`; empty for none."""
    if len(words) < 2:
        return "".join(words)
    return f"{', '.join(words[:-1])} and {words[-1]}"
