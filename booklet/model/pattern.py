"""A pattern as its author wrote it: the front matter's facts and the body's pieces, unworked."""

from collections.abc import Mapping
from dataclasses import dataclass, field

from booklet.model.body import Part as Part
from booklet.model.body import Prose as Prose
from booklet.model.body import RowLine as RowLine
from booklet.model.colours import Colour as Colour
from booklet.model.colours import Colourway as Colourway
from booklet.model.costs import CostFacts
from booklet.model.editions import USUAL_EDITIONS, Handout
from booklet.model.images import Image as Image
from booklet.model.measure import Length
from booklet.model.seams import Fold, Seam
from booklet.model.size_tables import SizeTable, TableFigure
from booklet.model.style import Style
from booklet.source import SourceFile, Span


@dataclass(frozen=True, slots=True)
class Size:
    """One size, smallest first in the pattern; `measures` are its measures by name.

    `borrowed` are those of them that come from the entry `entry` of the table of sizes named `table`.
    """

    name: str
    measures: Mapping[str, Length]
    span: Span
    table: str = ""
    entry: str = ""
    borrowed: Mapping[str, TableFigure] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Gauge:
    """So many stitches and rows over a length; `name` is the stitch pattern it was taken in."""

    name: str
    sts: float
    rows: float | None
    over: Length
    span: Span
    stitch: str = ""  # the words after "in", "" where the author gave none
    hook_mm: float | None = None
    blocked: bool = False
    in_rounds: bool = False
    cm_per_inch: float = 2.5  # the trade states a gauge over 4 in and 10 cm alike; 2.54 where the author says so
    motif: str = ""  # what `sts` counts where it is no stitch: "square", "rnds 1-4"
    is_from_swatch: bool = False
    is_from_motif: bool = False  # worked out from the size of a whole motif, and not printed

    @property
    def sts_per_cm(self) -> float:
        return self.sts / self.over.cm_at(self.cm_per_inch)

    @property
    def rows_per_cm(self) -> float | None:
        return None if self.rows is None else self.rows / self.over.cm_at(self.cm_per_inch)


@dataclass(frozen=True, slots=True)
class Yarn:
    """What the fabric is made of. `weight` is the trade body's number 0-7 with its name in `weight_name`."""

    span: Span
    name: str = ""
    weight: int | None = None
    weight_name: str = ""
    fibre: str = ""
    ball_grams: float | None = None
    ball_metres: float | None = None
    care: str = ""
    strands: int = 1  # held together throughout, each from a ball of its own


@dataclass(frozen=True, slots=True)
class Hook:
    """A hook by its shaft diameter in millimetres, the figure the trade relies on."""

    mm: float
    use: str
    span: Span


@dataclass(frozen=True, slots=True)
class NumberRule:
    """How a named number comes about.

    Either `values` (one per size, or one for all), or a measure, a gauge and a multiple
    (`multiple` * k + `plus`), or a `formula` over other names. A measure may have `ease` added, one for
    all sizes or one each; `rounding` is nearest, up or down, and `tie` says which of two counts that are
    equally near is taken. `keep` is "parity" where all sizes are to be odd or even as the first is.
    """

    name: str
    span: Span
    values: tuple[int, ...] = ()
    formula: str = ""
    measure: str = ""  # an expression over the sizes' measures, such as "width / 2"
    gauge: str = ""
    direction: str = "sts"  # "sts" or "rows": which side of the gauge is used
    multiple: int = 1
    plus: int = 0
    ease: tuple["Ease", ...] = ()
    rounding: str = "nearest"
    tie: str = "up"
    keep: str = ""


@dataclass(frozen=True, slots=True)
class Ease:
    """What a piece measures beyond the body, negative where it is smaller: a length, a share of the body, or both."""

    cm: float = 0.0
    share: float = 0.0
    fit: str = ""  # the word that it was taken from: "classic"


@dataclass(frozen=True, slots=True)
class ShapingRule:
    """Stitches from one count to another, so many at a time, spread over so many rows.

    `start`, `end` and `over` are formulas over named numbers. `by` stitches change in each shaping row,
    which comes every `step` rows or a multiple of it; the first is in row `first`, where that is not 0.
    """

    name: str
    span: Span
    start: str
    end: str
    over: str
    by: int = 2
    step: int = 1
    first: int = 0
    stitch: str = "sc"


@dataclass(frozen=True, slots=True)
class Swatch:
    """A piece that was made, measured and weighed; grams of yarn in it calibrate the yardage.

    `before` and `after` are its width and length before and after blocking; `grams` is 0 where it was not weighed.
    """

    sts: int
    rows: int
    grams: float
    stitch: str
    span: Span
    before: tuple[Length, Length] | None = None
    after: tuple[Length, Length] | None = None
    hook_mm: float | None = None
    in_rounds: bool = False
    included: bool = True  # is its yarn to be bought with the pattern's


@dataclass(frozen=True, slots=True)
class Unravelled:
    """So many stitches of a piece, undone, and the length of the yarn that was in them (all strands together)."""

    sts: int
    length: Length
    stitch: str
    span: Span


@dataclass(frozen=True, slots=True)
class YarnAmount:
    """Yarn as it was weighed or measured; `unit` is "g" or "m"."""

    amount: float
    unit: str


@dataclass(frozen=True, slots=True)
class YarnReport:
    """What somebody used for the whole item in one size: by colour, or the letter "" for all colours together."""

    size: str
    used: Mapping[str, YarnAmount]
    span: Span


@dataclass(frozen=True, slots=True)
class Sample:
    """The finished sample: its size, what it took, and what it measures by the names of measures."""

    report: YarnReport
    measures: Mapping[str, Length]
    span: Span


@dataclass(frozen=True, slots=True)
class FinishingYarn:
    """Yarn that is not worked in stitches: `number` pieces of `strands` strands, each `times` as long as `length`.

    `number` is a formula over named numbers, `length` one over the sizes' measures, both as written. A seam without a
    length is as long as the edges that it joins.
    """

    name: str
    kind: str  # "seam" or "trimming"
    number: str
    strands: int
    length: str
    times: float
    colour: str
    span: Span


@dataclass(frozen=True, slots=True)
class SpecialStitch:
    """A stitch that the pattern defines in words of its own."""

    name: str
    text: str
    span: Span
    abbreviation: str = ""
    images: tuple[Image, ...] = ()


@dataclass(frozen=True, slots=True)
class Publisher:
    """What is the same in all patterns of one publisher (the house file)."""

    name: str = ""
    contact: str = ""
    website: str = ""
    errata: str = ""
    licence: str = ""
    theme: str = ""
    margin: float | None = None  # share of yarn kept in reserve, 0.1 = 10 %
    papers: tuple[str, ...] = ()
    units_first: str = ""  # "metric" or "imperial"
    editions: tuple[str, ...] = ()
    handout: Handout | None = None
    cm_per_inch: float | None = None
    size_tables: tuple[SizeTable, ...] = ()  # the publisher's own; they take the place of the built-in ones
    style: Style = Style()


@dataclass(frozen=True, slots=True)
class Pattern:
    """One source, read. Absent facts are empty, never guessed."""

    source: SourceFile
    slug: str  # folder-safe name, used for the output
    title: str
    parts: tuple[Part, ...]
    summary: str = ""
    summary_of_one_size: str = ""  # where a size is printed alone; empty where it is the same
    designer: str = ""
    made_for: str = "adult"  # who uses it: a key of terms/cautions.yaml
    kind: str = ""  # what it is: blanket, hat, toy, ...
    construction: str = ""
    level: str = ""  # basic, easy, intermediate, complex
    terms: str = "US"
    old_terms: str = ""  # a key of terms/dialects.yaml: an older book whose names of stitches the rows use
    version: str = ""
    date: str = ""
    licence: str = ""
    sizes: tuple[Size, ...] = ()
    size_tables: tuple[SizeTable, ...] = ()  # the tables that sizes take measures from
    gauges: tuple[Gauge, ...] = ()
    motif_gauges: tuple[Gauge, ...] = ()  # over whole motifs: they measure no rows
    yarn: Yarn | None = None
    colours: tuple[Colour, ...] = ()
    hooks: tuple[Hook, ...] = ()
    notions: tuple[str, ...] = ()
    numbers: tuple[NumberRule, ...] = ()
    shaping: tuple[ShapingRule, ...] = ()
    swatch: Swatch | None = None  # the one that calibrates the yarn
    swatches: tuple[Swatch, ...] = ()
    unravelled: Unravelled | None = None
    sample: Sample | None = None
    testers: tuple[YarnReport, ...] = ()
    finishing: tuple[FinishingYarn, ...] = ()
    seams: tuple[Seam, ...] = ()  # those whose edges are named
    folds: tuple[Fold, ...] = ()
    tail: Length | None = None  # at each end of a strand; None where the usual length does
    margin: float = 0.1
    special_stitches: tuple[SpecialStitch, ...] = ()
    abbreviations: Mapping[str, str] = field(default_factory=dict)
    counts_as: Mapping[str, bool] = field(default_factory=dict)  # "ch 3": does it count as a stitch
    has: tuple[str, ...] = ()  # hazards: "small parts", "cord 40 cm", "fringe", ...
    without_cautions: tuple[str, ...] = ()  # codes of safety notes that the author took out
    care: str = ""
    costs: CostFacts = CostFacts()  # private: for `booklet costs` alone
    making_time: tuple[float, float] | None = None  # seconds a stitch, where the booklet is to say how long it takes
    images: tuple[Image, ...] = ()
    cover: Image | None = None
    theme: str = ""
    papers: tuple[str, ...] = ("A4", "Letter")
    units_first: str = "metric"
    cm_per_inch: float = 2.5  # by the trade's rule; 2.54 where the author asks for the exact one
    colourways: tuple[Colourway, ...] = ()
    left_handed: bool = False  # charts are printed for left-handed makers too
    publisher: Publisher = Publisher()
    style: Style = Style()
    editions: tuple[str, ...] = USUAL_EDITIONS
    page: str = ""  # addresses that a code in the booklet leads to
    video: str = ""
    handout: Handout | None = None
    # Keys of facts that could not be read, such as ("sizes", "Lap", "width"). What is missing for it is not told again.
    refused: frozenset[tuple[str, ...]] = frozenset()

    @property
    def stated_gauges(self) -> tuple[Gauge, ...]:
        """The gauges that the author gives, of stitches and of motifs."""
        return (*(gauge for gauge in self.gauges if not gauge.is_from_motif), *self.motif_gauges)

    @property
    def size_names(self) -> tuple[str, ...]:
        """Names of the sizes, or the one nameless size of a pattern that has none."""
        return tuple(size.name for size in self.sizes) or ("",)


@dataclass(frozen=True, slots=True)
class SizedNumber:
    """A named number in every size; `target_cm` and `true_cm` are () where it does not come from a measure."""

    name: str
    values: tuple[int, ...]
    span: Span
    gauge: str = ""
    measure: str = ""
    multiple: int = 1
    plus: int = 0
    target_cm: tuple[float, ...] = ()
    true_cm: tuple[float, ...] = ()
    ease_cm: tuple[float, ...] = ()  # what of the target is ease; empty where none was asked for
    rounding: str = "nearest"
    tie: str = "up"


@dataclass(frozen=True, slots=True)
class Rate:
    """Shaping rows spread over a stretch: every `every` rows `times` times, then every `then_every` rows.

    `first` is the row of the first change where it does not stand at the end of its gap, else 0; it is
    not among `times`. `rest` rows are left to be worked even after the last change.
    """

    changes: int
    first: int
    every: int
    times: int
    then_every: int
    then_times: int
    rest: int


@dataclass(frozen=True, slots=True)
class SizedShaping:
    """A shaping rule worked out for every size."""

    rule: ShapingRule
    start: tuple[int, ...]
    end: tuple[int, ...]
    over: tuple[int, ...]
    rates: tuple[Rate, ...]


@dataclass(frozen=True, slots=True)
class SizedPattern:
    """A pattern with all its named numbers known, one value per size."""

    pattern: Pattern
    numbers: Mapping[str, SizedNumber]
    shaping: tuple[SizedShaping, ...] = ()
