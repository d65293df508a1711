"""What a pattern is once its rows are trees: rows with their labels and counts, and the rules beside them."""

from dataclasses import dataclass, field, replace

from booklet.model.pattern import SizedPattern
from booklet.model.places import PerSize, What
from booklet.model.tree import Node, Unread
from booklet.source import Span


@dataclass(frozen=True, slots=True)
class Stated:
    """The count at the end of a row: `items` are (how many, of what); "st" for a plain total.

    `counting` is the chain that the words say is included ("counting ch-3 as dc"), `more` for "+6".
    """

    items: tuple[tuple[PerSize, What], ...]
    span: Span = field(compare=False)
    plus: bool = False
    includes_chain: bool | None = None
    series: tuple[PerSize, ...] = ()  # of a range of rows "(30, 38, 46 dc)": one count a row, the last in `items` too

    def of_row(self, at: int) -> "Stated":
        """The count of one row of the range, by its place among the rows."""
        if not self.series:
            return self
        return replace(self, items=((self.series[at], self.items[0][1]),), series=())


@dataclass(frozen=True, slots=True)
class Label:
    """The label of a row. `kind` is row, round, foundation, or "" where there is none.

    `numbers` are the rows it stands for, in order: (5, 6, 7) for "Rows 5-7"; () for "Next row". Of "Rows 5-12 (14, 16)"
    they are those of the first size, and `varied` has all. `every` is 2 for "and all even rows" after the number.
    """

    kind: str
    numbers: tuple[int, ...]
    text: str
    span: Span = field(compare=False)
    side: str = ""
    name: str = ""
    count: int = 0  # "(8 rows)" beside a range
    every: int = 0
    sizes: tuple[str, ...] = ()
    faulty: bool = False  # its numbers make no sense, which has been told
    places: tuple[int, ...] = ()  # of `sizes` among the pattern's
    counts: PerSize = ()  # rows in each size of "Next 2 (4, 6) rows"; `count` is the last size's
    colour: str = ""  # "Row 5 with A"
    varied: tuple[tuple[int, ...], ...] = ()  # its numbers in every size, where they differ; `numbers` are the first's

    def numbers_in(self, size: int) -> tuple[int, ...]:
        """The rows it stands for in one size, by its place among the sizes."""
        return self.varied[size] if self.varied else self.numbers


@dataclass(frozen=True, slots=True)
class Row:
    """One labelled instruction."""

    label: Label
    steps: tuple[Node, ...]
    stated: Stated | None
    span: Span = field(compare=False)
    words: Span = field(compare=False)  # the text behind the label
    section: str = ""  # the heading it stands under
    above: str = ""  # the short line of prose right above it, such as "Shape armhole"

    @property
    def unread(self) -> tuple[Unread, ...]:
        return tuple(step for step in self.steps if isinstance(step, Unread))


@dataclass(frozen=True, slots=True)
class ChainRule:
    """What a turning chain of so many chains does throughout: counts as `stitch`, or not at all."""

    chains: int  # 0: any number of chains
    counts: bool
    span: Span = field(compare=False)
    stitch: str = ""
    when: str = ""  # the stitch of the row it is for ("ch 2 for hdc"), "" for any
    then: int = 0  # of a SPACE, its chains


@dataclass(frozen=True, slots=True)
class ColourOrder:
    """The colour of each row in order, by letter; from the first again where it is repeated."""

    rows: tuple[str, ...]
    again: bool
    span: Span = field(compare=False)

    def colour_of(self, row: int) -> str:
        """The colour of the row with this index from 0; the last one goes on."""
        return self.rows[row % len(self.rows) if self.again else min(row, len(self.rows) - 1)]


@dataclass(frozen=True, slots=True)
class Multiple:
    """ "Multiple of `every` + `plus`", and `chains` more for the foundation chain where the text says so."""

    every: int
    plus: int
    span: Span = field(compare=False)
    chains: int = 0
    of_chains: bool = False  # the text says that it counts chains


@dataclass(frozen=True, slots=True)
class StitchDefinition:
    """A stitch that the pattern defines: the steps it stands for, worked in one place (or over several)."""

    name: str
    steps: tuple[Node, ...]
    text: str
    span: Span = field(compare=False)
    in_one_place: bool = True
    makes: int | None = None
    assumed: bool = False  # the pattern does not say what it is; this is the usual form


@dataclass(frozen=True, slots=True)
class ParsedPart:
    """The rows of one piece in order."""

    title: str
    make: int
    rows: tuple[Row, ...]
    span: Span = field(compare=False)


@dataclass(frozen=True, slots=True)
class ParsedPattern:
    """A pattern whose every row is a tree."""

    sized: SizedPattern
    parts: tuple[ParsedPart, ...]
    chain_rules: tuple[ChainRule, ...] = ()
    multiples: tuple[Multiple, ...] = ()
    definitions: tuple[StitchDefinition, ...] = ()
    terms_used: tuple[str, ...] = ()
    colour_order: ColourOrder | None = None
