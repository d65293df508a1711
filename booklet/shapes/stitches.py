"""What a shape needs to know of a stitch: its names, the chains it starts with, how many make a circle lie flat.

The counts are the trade's rule of thumb: 6 sc, 8 hdc, 12 dc more in each round (craftymaria.blogspot.com 2009,
crochetrebellion.com, thecrochetbag.blogspot.com 2013), 16 tr from memory. They follow from the stitch's shape:
a round lies flat where it grows by 2 pi x height / width, 0.955 for sc, 1.273 for hdc, 1.91 for dc.
"""

import math
from dataclasses import dataclass

from booklet.terms import load_table

RULE_OF_THUMB = {"sc": 6, "hdc": 8, "dc": 12, "tr": 16}
# Chains at the start of a round or row that stand for no stitch, and those that stand for one.
START_CHAINS = {"sc": 1, "hdc": 1, "dc": 2, "tr": 3}
COUNTED_CHAINS = {"hdc": 2, "dc": 3, "tr": 4}


class ShapeError(ValueError):
    """A shape that cannot be made so; says why, and what can be."""


@dataclass(frozen=True, slots=True)
class RoundStitch:
    """A stitch in the words of a set of terms: `kind` is its US abbreviation, `name` what rows call it."""

    kind: str
    name: str
    together: str  # two of them made one

    @property
    def flat(self) -> int:
        """How many more stitches each round of a flat circle has."""
        return RULE_OF_THUMB[self.kind]

    @property
    def opening(self) -> str:
        """The chains at the start of a round, which stand for no stitch."""
        return f"ch {START_CHAINS[self.kind]} (does not count as a st)"


def name_stitch(kind: str, terms: str = "US") -> RoundStitch:
    """The stitch of a US abbreviation in either set of terms. Raises ShapeError for any other stitch."""
    if kind not in RULE_OF_THUMB:
        raise ShapeError(f'"{kind}" is no stitch of these shapes: {", ".join(RULE_OF_THUMB)}')
    name = str(load_table("stitches")[kind]["uk"]) if terms == "UK" else kind
    return RoundStitch(kind, name, f"{name}2tog")


def find_stitch(name: str, terms: str) -> RoundStitch:
    """The stitch that a pattern in either set of terms calls so. Raises ShapeError for any other."""
    table = load_table("stitches")
    for kind in RULE_OF_THUMB:
        if name.strip().lower() == (str(table[kind]["uk"]) if terms == "UK" else kind):
            return name_stitch(kind, terms)
    raise ShapeError(f'"{name}" is no stitch of these shapes in {terms} terms')


def find_increase(sts_per_cm: float, rows_per_cm: float) -> float:
    """How many stitches a round has to grow by to lie flat at a gauge: 2 pi x height / width."""
    return 2 * math.pi * sts_per_cm / rows_per_cm
