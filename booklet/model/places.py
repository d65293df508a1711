"""Where the hook goes: kinds of place, and the places that a row's words name."""

from dataclasses import dataclass

SPACE = "sp"  # what a chain stands for that is a space and no stitch
PerSize = tuple[int, ...]  # one value for all sizes, or one per size in size order


def at_size(values: PerSize, size: int) -> int:
    """The value for one size."""
    return values[size] if len(values) > 1 else values[0]


@dataclass(frozen=True, slots=True)
class What:
    """The kind of place a row names: "st", "ch", "sp", "ch-sp", "corner", "tch", "ring", or a stitch such as "dc".

    `chains` is k of a "ch-k sp", 0 where any will do; of a "sp" it is -1 where one at a corner or a centre is meant.
    "row end" is the end of a row, "row end dc" of a dc row.
    """

    kind: str
    chains: int = 0


ANY_STITCH = What("st")
CORNER_SPACE = What("sp", -1)  # a space in the middle of a group: "corner sp", "center sp"


@dataclass(frozen=True, slots=True)
class Where:
    """The place or places a stitch goes into.

    `how` is one of
    next      the next `count` places
    up to     every place to the next `leave_what`, or to so many stitches before it
    each      every place to the end, or to the last `leave` of `leave_what`
    first     the first `count` places of the row
    last      the last `count` places
    same      the place the stitch before went into
    made      the stitch of this row that was worked last
    gap       between two stitches: `count` of them are passed to reach it, or (0,) where it is right here, or
              up to the end of the next group (`what` "group"), or the next one on from the last (`what` "sp");
              with `leave` (1,) each such place
    skipped   the next of the places that this row has skipped
    center    the stitch in the middle: of the next group, or else of the row below
    group     the middle, or the `nth`, of the next group of stitches made in one place
    nth       the `nth` place from here (or, with `from_hook`, the nth chain from the hook)
    top       the top of the turning chain (or its `nth` chain)
    ring      the ring
    join      the place where the round was joined
    unworked  every stitch that the rows below left unworked at this end, or with `leave` (1,) `count` of them
    until     one place after the other, until the row holds `count` stitches
    begun     the place that the row began in
    along     `count` places at even distances along an edge: which they are is for the maker to say
    piece     every stitch of the last row of the piece called `piece`
    elsewhere a place of another piece, which uses nothing of the row below
    """

    how: str = "next"
    count: PerSize = (1,)
    what: tuple[What, ...] = (ANY_STITCH,)
    leave: PerSize = (0,)
    leave_what: What = ANY_STITCH
    nth: int = 0
    from_hook: bool = False
    loops: str = ""  # "back", "front", "third", "bumps" (of a chain), "both"
    bare: bool = False  # the text names no place; "sc" alone, or "3 sc"
    below: int = 0  # so many rows further down
    over: bool = False  # one stitch over all of the places, of a kind that the pattern defines
    piece: str = ""
    passing: int = 0  # with `each`: every so-manyeth place is skipped
