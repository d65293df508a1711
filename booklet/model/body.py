"""The body of a source: parts under their headings, with rows, prose and pictures in their order."""

from dataclasses import dataclass

from booklet.model.images import Image
from booklet.source import Span


@dataclass(frozen=True, slots=True)
class RowLine:
    """A line (or paragraph) that starts with a row label; `text` is everything on it, label included."""

    text: str
    span: Span


@dataclass(frozen=True, slots=True)
class Prose:
    """Markdown between the rows, as written; or, without words, the pictures that stand there side by side."""

    text: str
    span: Span
    images: tuple[Image, ...] = ()


@dataclass(frozen=True, slots=True)
class Part:
    """A piece or section under one heading. `make` is how many of it are made ("make 2").

    `title` is "" for what stands before the first heading. `level` is 2 for `##`, 3 for `###`.
    """

    title: str
    level: int
    blocks: tuple[RowLine | Prose, ...]
    span: Span
    make: int = 1

    @property
    def rows(self) -> tuple[RowLine, ...]:
        return tuple(block for block in self.blocks if isinstance(block, RowLine))
