"""What a pattern may leave open, and the readings that are tried against its counts.

A row is worked with the preferred reading first. Only where that does not agree with what the row
states, or does not fit the row below, are the other readings of what it left open tried.
"""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import product


@dataclass(frozen=True, slots=True)
class Choices:
    """One reading.

    `turning`   what an undeclared turning chain is: "none", "stitch" or "chains" (an edge of chains)
    `skipped`   whether undeclared skipped foundation chains are taken as is usual for the stitch: they count where
                they are as tall as it is
    `chains`    whether chain spaces are in the count: "paired" (those that stand for skipped
                stitches), "all" or "none"
    `each`      whether "each st" takes in the chains of a space
    `travel`    whether slip stitches at the start of a row only move to another place
    `behind`    whether a stitch skipped after one worked rows below is the one behind it
    `gap`       whether the chain at the start of a row of moss stitch is its first space
    `more`      whether "rep from * n times" means n more
    """

    turning: str = "none"
    skipped: bool = True
    chains: str = "paired"
    each: bool = True
    gap: bool = False
    more: bool = True
    travel: bool = True
    behind: bool = True


MOST_READINGS = 30  # tried for one row: all that change one or two points
OPTIONS: dict[str, tuple[object, ...]] = {
    "turning": ("none", "stitch", "chains"),
    "skipped": (True, False),
    "chains": ("paired", "all", "none"),
    "each": (True, False),
    "more": (True, False),
    "travel": (True, False),
    "behind": (True, False),
    "gap": (True, False),
}


def other_readings(preferred: Choices, open_points: frozenset[str]) -> Iterator[Choices]:
    """Every other reading of the points that the row leaves open, fewest changes first."""
    names = sorted(open_points)
    tried: list[tuple[int, int, Choices]] = []
    for values in product(*(OPTIONS[name] for name in names)):
        choice = replace(preferred, **dict(zip(names, values, strict=True)))  # type: ignore[arg-type]
        if choice != preferred:
            changed = sum(getattr(choice, name) != getattr(preferred, name) for name in names)
            tried.append((changed, len(tried), choice))
    for _, _, choice in sorted(tried, key=lambda entry: entry[:2])[:MOST_READINGS]:
        yield choice
