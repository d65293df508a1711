"""What is noted while a piece is worked, to be told when all sizes are done."""

from dataclasses import dataclass

from booklet.model.parsed import Row
from booklet.model.work import Fabric
from booklet.source import Span
from booklet.working.problems import Problem
from booklet.working.setting import Setting


@dataclass(frozen=True, slots=True)
class Trouble:
    """A problem in one row of one size, with what is needed to tell it."""

    row: Row
    label: str
    problem: Problem
    size: int
    below_label: str = ""
    below_span: Span | None = None
    below_made: int = 0
    made: int = 0
    below: Fabric | None = None
    turned: bool = False
    setting: Setting | None = None


@dataclass(frozen=True, slots=True)
class Settled:
    """An open point that the counts of a row decided."""

    point: str
    value: object
    chains: int
    label: str
    span: Span


@dataclass(frozen=True, slots=True)
class Asked:
    """An open point that changes the count and that nothing decides."""

    point: str
    chains: int
    label: str
    span: Span
    size: int


@dataclass(frozen=True, slots=True)
class Mixed:
    """A total stated under the name of one stitch, in a row that holds other plain stitches (`others`) too."""

    label: str
    named: str
    others: tuple[tuple[str, int], ...]
    span: Span
    size: int


@dataclass(frozen=True, slots=True)
class ReadTwice:
    """A row whose count wants "n times" read otherwise than in an earlier row: `more` is its own reading."""

    label: str
    earlier: str
    more: bool
    span: Span
    size: int


@dataclass(frozen=True, slots=True)
class CountedTwice:
    """A row that comes out only if it is counted otherwise than an earlier one, whose count fixes the way.

    `point` is "chains" or "turning", `value` the row's own way, `chains` those at its start.
    """

    label: str
    earlier: str
    point: str
    value: object
    before: object
    chains: int
    span: Span
