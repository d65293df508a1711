"""A picture file as an author names it."""

from dataclasses import dataclass

from booklet.source import Span


@dataclass(frozen=True, slots=True)
class Image:
    """A picture file beside the source, with words for those who cannot see it.

    One that stands in the text has a `name`, the same wherever its file is shown; `beside` are the pictures
    that stand side by side with it, itself among them.
    """

    file: str
    alt: str
    caption: str
    span: Span
    name: str = ""
    beside: int = 1
