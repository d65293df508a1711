"""Each colour of a pattern with its shade and the hatch that stands for it where colour is lost."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace

from booklet.drawings.hatches import HATCHES
from booklet.drawings.shades import NO_SHADE, WHITE, hatch_shade, letter_shade, mix, read_shade, write_shade
from booklet.model.pattern import Colour


@dataclass(frozen=True, slots=True)
class Tint:
    """One colour as drawings use it; all shades as "#rrggbb"."""

    letter: str
    name: str
    shade: str
    hatch: int
    hatch_shade: str
    letter_shade: str


Palette = Mapping[str, Tint]


def mix_palette(colours: Iterable[Colour]) -> dict[str, Tint]:
    """The colours by letter, each with a hatch of its own (they begin again after sixteen)."""
    return {
        colour.letter: make_tint(colour.letter, colour.name, colour.shade, number)
        for number, colour in enumerate(colours)
    }


def pale_colours(colours: Iterable[Colour], paleness: float) -> tuple[Colour, ...]:
    """The colours with so large a share of white, for drawings that are to be light on ink."""
    if paleness <= 0:
        return tuple(colours)
    return tuple(
        replace(colour, shade=write_shade(mix(read_shade(colour.shade), WHITE, min(paleness, 1)))) for colour in colours
    )


def make_tint(letter: str, name: str, shade: str, number: int) -> Tint:
    """One colour with the hatch of that number."""
    rgb = read_shade(shade)
    return Tint(
        letter,
        name,
        write_shade(rgb),
        number % len(HATCHES),
        write_shade(hatch_shade(rgb)),
        write_shade(letter_shade(rgb)),
    )


def twist_tints(strands: Sequence[Tint]) -> Tint:
    """Several strands held together: the mean of their shades, under all their letters."""
    shades = [read_shade(tint.shade) for tint in strands]
    red, green, blue = (round(sum(part) / len(shades)) for part in zip(*shades, strict=True))
    letters = "+".join(tint.letter for tint in strands)
    return make_tint(
        letters, " + ".join(tint.name for tint in strands), f"#{red:02x}{green:02x}{blue:02x}", strands[0].hatch
    )


def find_tint(palette: Palette, letter: str) -> Tint:
    """The colour of that letter; the only colour where the letter is empty; else undyed wool."""
    if letter in palette:
        return palette[letter]
    if "+" in letter:
        return twist_tints([find_tint(palette, strand) for strand in letter.split("+")])
    if not letter and palette:
        return next(iter(palette.values()))
    return make_tint(letter, "", NO_SHADE, 0)
