"""A group's order for kits as its organiser wrote it, and the list that comes of it."""

from collections.abc import Mapping
from dataclasses import dataclass

from booklet.source import SourceFile, Span


@dataclass(frozen=True, slots=True)
class LengthRange:
    """From `low` to `high`, in cm or in; one length alone is both."""

    low: float
    high: float
    unit: str


@dataclass(frozen=True, slots=True)
class Band:
    """A line of a size table: what a finished item of it may measure, by the name of the measure.

    `size` is the pattern's size where the organiser names it. `items` is None where the table does not say how
    many are wanted.
    """

    name: str
    measures: Mapping[str, LengthRange]
    span: Span
    size: str = ""
    items: int | None = None


@dataclass(frozen=True, slots=True)
class SizeTable:
    """Whose size table it is, in the organiser's words; rules differ from place to place and year to year."""

    name: str = ""
    source: str = ""
    date: str = ""


@dataclass(frozen=True, slots=True)
class Lot:
    """One pattern of an order: what is made of it, and the yarn that is there, by colour, as written."""

    pattern: str
    span: Span
    bands: tuple[Band, ...] = ()
    on_hand: Mapping[str, str] | None = None


@dataclass(frozen=True, slots=True)
class KitOrder:
    """Kits for so many makers. `each` is None where the numbers wanted in the table say how many are made."""

    source: SourceFile
    slug: str
    makers: int
    lots: tuple[Lot, ...]
    title: str = ""
    date: str = ""
    each: int | None = None
    spare: float = 0.0
    sheets: int = 1
    table: SizeTable = SizeTable()
    note: str = ""
    theme: str = ""
    papers: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class KitYarn:
    """One colour in one item: metres and grams with the margin, and how many items a ball gives."""

    letter: str
    colour: str
    metres: float
    grams: float | None
    items_per_ball: int | None


@dataclass(frozen=True, slots=True)
class FinishedMeasure:
    """What an item measures, and whether the table allows it: `miss` is how far outside, in the table's unit."""

    name: str
    cm: float | None
    inches: float | None
    allowed: LengthRange | None = None
    miss: float = 0.0


@dataclass(frozen=True, slots=True)
class Item:
    """What is made for one line of the table: which size of the pattern, how many, and what one takes."""

    band: str
    size: str
    number: int
    measures: tuple[FinishedMeasure, ...]
    yarn: tuple[KitYarn, ...]

    @property
    def fits(self) -> bool:
        return all(not measure.miss for measure in self.measures)

    @property
    def grams(self) -> float | None:
        known = [need.grams for need in self.yarn if need.grams is not None]
        return sum(known) if known and len(known) == len(self.yarn) else None


@dataclass(frozen=True, slots=True)
class Share:
    """One colour in one kit: metres and grams to wind off, or whole balls."""

    letter: str
    colour: str
    metres: float
    grams: float | None
    balls: int | None


@dataclass(frozen=True, slots=True)
class Kit:
    """So many equal kits: the items made from one, as (line of the table, how many), and its yarn."""

    number: int
    items: tuple[tuple[str, int], ...]
    yarn: tuple[Share, ...]


@dataclass(frozen=True, slots=True)
class BallCount:
    """Balls of one colour for all kits: a whole number in each kit, or wound off and shared out.

    `spare` and `on_hand` are balls; `to_get` is what is still missing where the yarn is wound off,
    `to_get_whole` where it is not. All are None where the ball is not known.
    """

    letter: str
    colour: str
    grams: float | None
    whole: int | None
    split: int | None
    spare_whole: int | None
    spare_split: int | None
    on_hand: float
    to_get_whole: int | None
    to_get: int | None


@dataclass(frozen=True, slots=True)
class Thing:
    """A hook, needle, marker or sheet: how many for the makers, how many in reserve."""

    what: str
    number: int
    spare: int

    @property
    def total(self) -> int:
        return self.number + self.spare


@dataclass(frozen=True, slots=True)
class LotList:
    """All of one pattern."""

    title: str
    source: str
    yarn: str  # what yarn, in words
    gauge: str
    ball_grams: float | None
    ball_metres: float | None
    margin: float
    basis: str
    spread: float
    items: tuple[Item, ...]
    kits: tuple[Kit, ...]
    balls: tuple[BallCount, ...]
    cautions: tuple[str, ...] = ()

    @property
    def number(self) -> int:
        return sum(item.number for item in self.items)


@dataclass(frozen=True, slots=True)
class KitList:
    """The whole list: patterns, things that every maker gets, and what the organiser should know."""

    title: str
    date: str
    makers: int
    spare: float
    table: SizeTable
    lots: tuple[LotList, ...]
    things: tuple[Thing, ...]
    notes: tuple[str, ...] = ()
    units_first: str = "metric"
