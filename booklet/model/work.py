"""The worked pattern: every stitch of every row in every size.

Sites are what a row offers to the next one, in the order in which they were made. Stitches are
the loops of one row with the sites of the row below that each was worked into. Equal rows share
one object, so ask `is` before comparing and do not count memory per row.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import NamedTuple

from booklet.source import Span


class Site(NamedTuple):
    """One place that the next row can work into.

    A chain space of k chains is k sites with `kind` "ch", `run` = k and `at` = 0 … k-1.
    A turning chain that counts is one site of the kind it counts as, with `chains` > 0.
    """

    kind: str
    colour: str = ""
    run: int = 0
    at: int = 0
    counts: bool = True
    chains: int = 0


class Marker(NamedTuple):
    """A marker in the site with index `at`, or, where `between`, before it in the order in which the row made them."""

    at: int
    between: bool


class Stitch(NamedTuple):
    """One loop or stitch made.

    `into` are indices in the sites of the row below (in the order in which *that* row made them);
    `cluster` is the same for stitches of one group worked in one place, -1 for the others;
    `top` is the index of its (first) site in this row, -1 where it leaves none (a slip stitch join).
    `loop` is the loop it was worked in where the text names one: "back", "front", "third" or "bumps" (of a
    chain); or "between", a place between two stitches, which are then `into`. `down` is how many rows below its
    own the place lies, where that is 2 or more; `into` then is the place above it in the row below, if any.
    """

    kind: str
    colour: str
    into: tuple[int, ...] = ()
    cluster: int = -1
    top: int = -1
    into_space: bool = False
    loop: str = ""
    down: int = 0


@dataclass(frozen=True, eq=False)
class Fabric:
    """What a row made: its stitches, and the sites it offers."""

    sites: tuple[Site, ...]
    stitches: tuple[Stitch, ...]
    counts: Mapping[str, int]  # stitches made, by kind; turning chains that count under their own kind
    spaces: Mapping[int, int]  # chain spaces made, by number of chains
    yarn: Mapping[tuple[str, str], int]  # (colour, kind) -> how many were worked, chains one by one
    made: int  # as a maker would count
    groups: Mapping[str, int] = field(default_factory=dict)  # shells and the like that the pattern defines, by name
    grouped: Mapping[str, int] = field(default_factory=dict)  # of `counts`, the stitches that belong to such groups
    long: Mapping[tuple[str, str, int], int] = field(default_factory=dict)
    """Of `yarn`, the stitches worked further down than usual: (colour, kind, so many rows further) -> how many."""
    repeats: tuple[tuple[int, bool], ...] = ()  # how often each repeat was worked, and whether stitches stand before it
    markers: tuple[Marker, ...] = ()


@dataclass(frozen=True, slots=True)
class WorkedRow:
    """One row or round as it came out in one size.

    `status` is "worked", "trusted" (taken at its stated count, not worked) or "broken" (worked, and
    something is wrong with it). `turned` tells that the row was worked back over the one below.
    """

    label: str
    kind: str  # "row", "round", "foundation"
    number: int | None
    span: Span
    status: str
    used: int
    made: int
    left: int
    stated: int | None
    fabric: Fabric
    side: str = ""  # "RS", "WS" or ""
    turned: bool = False
    gauge: str = ""
    section: str = ""  # the heading it stands under, within its piece
    over: int | None = None  # where not the row before: the index of the row that it is worked over, in its piece
    along: bool = False  # worked along an edge of what is there, such as the ends of its rows


@dataclass(frozen=True, slots=True)
class WorkedPart:
    """A piece worked in every size: `rows[i]` are its rows in size i."""

    title: str
    make: int
    rows: tuple[tuple[WorkedRow, ...], ...]
    span: Span
    in_rounds: bool = False
    gauge: str = ""  # name of the gauge its fabric is measured by


@dataclass(frozen=True, slots=True)
class Reading:
    """A rule that the pattern left open and that its own counts decided, told once."""

    text: str
    span: Span


@dataclass(frozen=True, slots=True)
class WorkedPattern:
    """All pieces, worked, with the readings that the counts decided."""

    parts: tuple[WorkedPart, ...]
    readings: tuple[Reading, ...] = ()
    stitch_names: tuple[str, ...] = ()  # terms used in the text, for the abbreviation key
    defined: Mapping[str, str] = field(default_factory=dict)
    uncompared: tuple[Reading, ...] = ()  # counts of rows that nothing in their rows can be held against
