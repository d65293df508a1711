"""Colours as the author lists them, and the other colours that a pattern may be made in."""

from dataclasses import dataclass

from booklet.source import Span


@dataclass(frozen=True, slots=True)
class Colour:
    """A colour of the pattern; rows call it by its letter."""

    letter: str
    name: str
    shade: str  # "#rrggbb"
    span: Span
    strands: int = 0  # held together wherever this colour is worked; 0 as the yarn says


@dataclass(frozen=True, slots=True)
class Colourway:
    """The same pattern in other colours: one for each of the pattern's own, in their order."""

    name: str
    colours: tuple[Colour, ...]
    span: Span
