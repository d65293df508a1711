"""A row as a tree: what its words mean, before anything is worked.

Numbers are `PerSize`: one value that holds for all sizes, or one value per size in size order.
Every node keeps the stretch of text that it was read from; two nodes are equal whatever their places.
"""

from dataclasses import dataclass, field

from booklet.model.places import ANY_STITCH as ANY_STITCH
from booklet.model.places import SPACE as SPACE
from booklet.model.places import PerSize as PerSize
from booklet.model.places import What as What
from booklet.model.places import Where as Where
from booklet.model.places import at_size as at_size
from booklet.source import Span


@dataclass(frozen=True, slots=True)
class Node:
    """Base of all steps."""

    span: Span = field(compare=False)


@dataclass(frozen=True, slots=True)
class Chain(Node):
    """`ch n`. `counts` tells what the text beside it says: True, False, or None where it says nothing.

    `stands_for` is the stitch it counts as, or SPACE; `then` the chains beyond ("counts as dc and ch 2"), or its.
    """

    count: PerSize
    counts: bool | None = None
    stands_for: str = ""
    then: int = 0
    throughout: bool = False
    free: bool = False  # "a multiple of 5 plus 3": `count` is one such number, to prove the rows with
    drawn: bool = False  # a loop drawn up to the height of `stands_for`, in place of chains


@dataclass(frozen=True, slots=True)
class Work(Node):
    """`times` stitches of one kind in each of the places."""

    stitch: str
    times: PerSize
    where: Where
    also: tuple["Work | Group", ...] = ()  # on the way, in places of its own: "…, working 3 sc in each corner sp"
    long: bool = False  # a spike or long stitch: its loop is drawn up from a row further down


@dataclass(frozen=True, slots=True)
class Group(Node):
    """Several steps worked into one place: `(2 dc, ch 2, 2 dc) in corner sp`."""

    steps: tuple[Node, ...]
    where: Where


@dataclass(frozen=True, slots=True)
class Skip(Node):
    """Places passed over on purpose. `real` is False for the first stitch under a counted turning chain."""

    where: Where


@dataclass(frozen=True, slots=True)
class Repeat(Node):
    """Steps worked again and again.

    `until` is one of
    times     `count` times in all
    more      once and `count` more times
    open      `count` times, where the words leave open whether in all or more
    end       as often as fits, to the end
    last      as often as fits, to the last `count` of `what`
    `drop` steps are left out of the last time round; `instead` are worked in their place.
    """

    steps: tuple[Node, ...]
    until: str
    count: PerSize = (1,)
    what: What = ANY_STITCH
    drop: int = 0
    instead: tuple[Node, ...] = ()
    mark: str = "*"


@dataclass(frozen=True, slots=True)
class Join(Node):
    """The round is closed with a slip stitch (never counted)."""

    where: Where
    stitch: str = "sl st"


@dataclass(frozen=True, slots=True)
class Ring(Node):
    """A magic ring, or a ring of chains closed with a slip stitch (`chains` > 0)."""

    chains: int = 0


@dataclass(frozen=True, slots=True)
class Turn(Node):
    """`turn`, or with `yes` False `do not turn`."""

    yes: bool = True


@dataclass(frozen=True, slots=True)
class TakeColour(Node):
    """From here on with this colour. `late` where the change is made at the end of the row."""

    letter: str
    late: bool = False


@dataclass(frozen=True, slots=True)
class KeepColours(Node):
    """Each stitch takes the colour of the one below ("in colours as established")."""


@dataclass(frozen=True, slots=True)
class Loops(Node):
    """From here on in back, front or third loops only."""

    loops: str
    throughout: bool = False


@dataclass(frozen=True, slots=True)
class SkippedCount(Node):
    """What the text says of the skipped chains at the start: they count as a stitch and `then` chains, or not."""

    counts: bool
    stitch: str = ""
    then: int = 0


@dataclass(frozen=True, slots=True)
class Leave(Node):
    """The rest of the row stays unworked, on purpose; or the turning chain alone, where `what` is that.

    `count` is () where the text gives no number.
    """

    count: PerSize = ()
    what: What = ANY_STITCH


@dataclass(frozen=True, slots=True)
class OtherSide(Node):
    """From here on along the free loops of the foundation chain."""


@dataclass(frozen=True, slots=True)
class EarlierRow(Node):
    """A row further down is worked into: its "stitches", free "loops", those left "unworked" or "skipped".

    `number` 0 is the last row that was left before its end.
    """

    number: int
    what: str


@dataclass(frozen=True, slots=True)
class MirrorBack(Node):
    """The steps before the middle once more, from the last back to the first ("work back from center")."""


@dataclass(frozen=True, slots=True)
class Even(Node):
    """One stitch in each, as the row below ("work even")."""


@dataclass(frozen=True, slots=True)
class ChangeEvenly(Node):
    """`count` increases (or, with `adds` False, decreases) spread over the row; one stitch in each of the rest."""

    count: PerSize
    adds: bool = True
    stitch: str = ""


@dataclass(frozen=True, slots=True)
class Free(Node):
    """Words that leave the number to the maker ("sc evenly around", "to desired length"): taken on trust, and told."""

    text: str


@dataclass(frozen=True, slots=True)
class FastenOff(Node):
    """The yarn is cut."""


@dataclass(frozen=True, slots=True)
class RepeatRows(Node):
    """Rows worked again: `rows` as (first, last) pairs of numbers, or names.

    `until` is "once", "times" (`count` in all), "more", "all" (those before among them), "rows" (until
    there are `count` rows in all), "sts" (stitches), "label" (as many as the label of the line stands for) or "length"
    (`length_cm` reached, per size; of `even` rows so much more, and "height" where the piece measures so much).
    """

    rows: tuple[tuple[int, int], ...]
    names: tuple[str, ...] = ()
    until: str = "label"
    count: PerSize = (1,)
    length_cm: tuple[float, ...] = ()
    last: int = 0  # "rep last 2 rows"
    ending: str = ""  # "RS", "WS" or "": the side that the last row is to be; "5" where it is to be Row 5
    even: bool = False  # rows worked even, one stitch in each ("8 rows even")
    lasts: PerSize = ()  # "rep last 4 (6) rows": where that differs between sizes
    stitch: str = ""  # of `even` rows, where they name one: "work 8 rows in sc"
    every: int = 1  # "every 4th row": three rows worked even before each


@dataclass(frozen=True, slots=True)
class ShapeRows(Node):
    """`by` stitches more (or less) at each of `ends` ends of every `every`-th row, `times` times.

    The first is the next row where `next`. The rows between are worked even. It stands for `times * every` rows, or
    one row and so many more. Of one end, `edge` says whether it is always the same edge of the piece, and not the
    beginning of each row.
    """

    adds: bool
    next: bool
    every: int
    times: PerSize = ()
    until: PerSize = ()  # in place of `times`: until so many stitches are left, or there
    ends: int = 2
    by: int = 1
    edge: bool = False


@dataclass(frozen=True, slots=True)
class Aside(Node):
    """Words that tell nothing to work: advice, comments, markers."""

    text: str


@dataclass(frozen=True, slots=True)
class Mark(Aside):
    """A marker is put into the work, `place` "here" between two stitches, "last" or "center" into one made, or "10,20".

    These are the 10th and 20th stitch of the row; "|10|" is one on each side of the 10 in the middle; "?" where it is
    moved, and the words do not tell where to.
    """

    place: str


@dataclass(frozen=True, slots=True)
class Unread(Node):
    """Words that could not be read; the row is taken on trust."""

    text: str
    word: str = ""
