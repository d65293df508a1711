"""A pattern as its author wrote it: the front matter's facts and the body's pieces, unworked."""

from collections.abc import Mapping
from dataclasses import dataclass, field

from booklet.model.editions import USUAL_EDITIONS
from booklet.model.measure import Length
from booklet.source import SourceFile, Span


@dataclass(frozen=True, slots=True)
class Size:
    """One size, smallest first in the pattern; `measures` are its target measures by name."""

    name: str
    measures: Mapping[str, Length]
    span: Span


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

    @property
    def sts_per_cm(self) -> float:
        return self.sts / self.over.cm

    @property
    def rows_per_cm(self) -> float | None:
        return None if self.rows is None else self.rows / self.over.cm


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


@dataclass(frozen=True, slots=True)
class Colour:
    """A colour of the pattern; rows call it by its letter."""

    letter: str
    name: str
    shade: str  # "#rrggbb"
    span: Span


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
    (`multiple` * k + `plus`), or a `formula` over other names.
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


@dataclass(frozen=True, slots=True)
class Swatch:
    """A piece that was made, measured and weighed; grams of yarn in it calibrate the yardage."""

    sts: int
    rows: int
    grams: float
    stitch: str
    span: Span


@dataclass(frozen=True, slots=True)
class SpecialStitch:
    """A stitch that the pattern defines in words of its own."""

    name: str
    text: str
    span: Span
    abbreviation: str = ""


@dataclass(frozen=True, slots=True)
class Image:
    """A picture file beside the source, with words for those who cannot see it."""

    file: str
    alt: str
    caption: str
    span: Span


@dataclass(frozen=True, slots=True)
class Handout:
    """What a group says on its sheet, in its own words."""

    made_for: str = ""
    not_accepted: tuple[str, ...] = ()
    hand_in: str = ""
    labels: str = ""
    contact: str = ""
    rules_of: str = ""  # a date
    copying: str = ""


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


@dataclass(frozen=True, slots=True)
class RowLine:
    """A line (or paragraph) that starts with a row label; `text` is everything on it, label included."""

    text: str
    span: Span


@dataclass(frozen=True, slots=True)
class Prose:
    """Markdown between the rows, as written."""

    text: str
    span: Span


@dataclass(frozen=True, slots=True)
class Part:
    """A piece or section under one heading. `make` is how many of it are made ("make 2").

    `title` is "" for what stands before the first heading. `level` is 2 for `##`, 3 for `###`.
    """

    title: str
    level: int
    blocks: tuple[RowLine | Prose, ...]
    span: Span
    make: int = 1

    @property
    def rows(self) -> tuple[RowLine, ...]:
        return tuple(block for block in self.blocks if isinstance(block, RowLine))


@dataclass(frozen=True, slots=True)
class Pattern:
    """One source, read. Absent facts are empty, never guessed."""

    source: SourceFile
    slug: str  # folder-safe name, used for the output
    title: str
    parts: tuple[Part, ...]
    summary: str = ""
    designer: str = ""
    made_for: str = "adult"  # who uses it: a key of terms/cautions.yaml
    kind: str = ""  # what it is: blanket, hat, toy, ...
    construction: str = ""
    level: str = ""  # basic, easy, intermediate, complex
    terms: str = "US"
    version: str = ""
    date: str = ""
    licence: str = ""
    sizes: tuple[Size, ...] = ()
    gauges: tuple[Gauge, ...] = ()
    yarn: Yarn | None = None
    colours: tuple[Colour, ...] = ()
    hooks: tuple[Hook, ...] = ()
    notions: tuple[str, ...] = ()
    numbers: tuple[NumberRule, ...] = ()
    swatch: Swatch | None = None
    margin: float = 0.1
    special_stitches: tuple[SpecialStitch, ...] = ()
    abbreviations: Mapping[str, str] = field(default_factory=dict)
    counts_as: Mapping[str, bool] = field(default_factory=dict)  # "ch 3": does it count as a stitch
    has: tuple[str, ...] = ()  # hazards: "small parts", "cord 40 cm", "fringe", ...
    care: str = ""
    images: tuple[Image, ...] = ()
    cover: Image | None = None
    theme: str = ""
    papers: tuple[str, ...] = ("A4", "Letter")
    units_first: str = "metric"
    publisher: Publisher = Publisher()
    editions: tuple[str, ...] = USUAL_EDITIONS
    page: str = ""  # addresses that a code in the booklet leads to
    video: str = ""
    handout: Handout | None = None
    # Keys that lead to facts which were given but could not be read, such as ("numbers", "panel") or
    # ("sizes", "Lap", "width"). That has been told; what is missing because of it is not told again.
    refused: frozenset[tuple[str, ...]] = frozenset()

    @property
    def size_names(self) -> tuple[str, ...]:
        """Names of the sizes, or the one nameless size of a pattern that has none."""
        return tuple(size.name for size in self.sizes) or ("",)


@dataclass(frozen=True, slots=True)
class SizedNumber:
    """A named number worked out for every size.

    `target_cm` and `true_cm` are per size, empty where the number does not come from a measure.
    """

    name: str
    values: tuple[int, ...]
    span: Span
    gauge: str = ""
    measure: str = ""
    multiple: int = 1
    plus: int = 0
    target_cm: tuple[float, ...] = ()
    true_cm: tuple[float, ...] = ()


@dataclass(frozen=True, slots=True)
class SizedPattern:
    """A pattern with all its named numbers known, one value per size."""

    pattern: Pattern
    numbers: Mapping[str, SizedNumber]
