"""A picture file as an author names it."""

from dataclasses import dataclass

from booklet.source import Span


@dataclass(frozen=True, slots=True)
class Image:
    """A picture file beside the source, with words for those who cannot see it."""

    file: str
    alt: str
    caption: str
    span: Span
