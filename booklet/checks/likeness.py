"""Shades too alike: to any eye, to the common kinds of colour vision, on a grey printer.

Differences are CIEDE2000 (Sharma, Wu and Dalal 2005), by a library. Published scales for flat patches
side by side call a difference of more than 6 large; yarn is textured and printers differ, so ten is
asked for here, six where a colour vision deficiency is simulated, and for grey print a lightness that
differs by 2.5 of 100, which is where a layman begins to see a step. The two red-green kinds are looked
at, which some eight in a hundred men have (common knowledge, from memory); blue-yellow kinds are rare.
"""

from collections.abc import Iterator, Sequence
from itertools import combinations
from typing import TYPE_CHECKING

from booklet.checks import messages
from booklet.findings import Finding
from booklet.model.parsed import ParsedPattern
from booklet.model.pattern import Colour
from booklet.model.work import WorkedPattern

if TYPE_CHECKING:
    from coloraide import Color

LEAST_DIFFERENCE = 10.0
LEAST_SIMULATED = 6.0
LEAST_LIGHTNESS = 2.5
VISIONS = (("protan", "red-weak"), ("deutan", "green-weak"))
MOST_COLOURS = 24  # pairs grow with the square, and nobody reads three hundred of them


def check_likeness(parsed: ParsedPattern, worked: WorkedPattern) -> Iterator[Finding]:
    """Each pair of colours that is too alike, told once, for the strongest reason."""
    shaded = [colour for colour in parsed.sized.pattern.colours if colour.shade.startswith("#")]
    yield from compare_colours(shaded[:MOST_COLOURS])


def compare_colours(colours: Sequence[Colour]) -> Iterator[Finding]:
    """The findings for colours with their shades, in order of the pairs."""
    if len(colours) < 2:
        return
    from coloraide import Color

    seen = [(colour, Color(colour.shade)) for colour in colours]
    for (first, one), (second, other) in combinations(seen, 2):
        difference = one.delta_e(other, method="2000")
        simulated = [(tell_apart(one, other, vision), name) for vision, name in VISIONS]
        weakest, vision = min(simulated)
        lightness = abs(read_lightness(one) - read_lightness(other))
        if difference < LEAST_DIFFERENCE:
            yield messages.colours_alike(first, second, difference, LEAST_DIFFERENCE)
        elif weakest < LEAST_SIMULATED:
            yield messages.colours_alike_to_some(first, second, weakest, LEAST_SIMULATED, vision)
        elif lightness < LEAST_LIGHTNESS:
            yield messages.colours_alike_in_grey(first, second, lightness, LEAST_LIGHTNESS)


def tell_apart(first: "Color", second: "Color", vision: str) -> float:
    """The difference that is left to an eye without one kind of cone."""
    return float(first.filter(vision).delta_e(second.filter(vision), method="2000"))


def read_lightness(colour: "Color") -> float:
    """CIELAB lightness, 0 to 100."""
    return float(colour.convert("lab-d65")["lightness"])
