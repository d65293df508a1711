"""The shape of the front matter and of the house file: which keys there are, and what each holds.

Short forms (a line of gauge, `77 (83, 89)`, `"Fog #c9ced2"`) are spread out into the full form
before they are checked, so that there is one form to check and to hand on.
"""

import re
from collections.abc import Mapping
from typing import Annotated, ClassVar, Self

from pydantic import Field, model_validator

from booklet.reading.cost_forms import CostForm
from booklet.reading.fields import (
    Address,
    CautionName,
    Count,
    Date,
    Direction,
    Edition,
    FoldField,
    HookSize,
    Inch,
    LengthField,
    Level,
    Line,
    MadeFor,
    Multiple,
    Number,
    OldTerms,
    Paper,
    Paragraph,
    Seconds,
    Shade,
    Share,
    Terms,
    Truth,
    Units,
    Version,
    Whole,
    refuse,
)
from booklet.reading.form import Form, before
from booklet.reading.gauges import check_gauge, read_gauge
from booklet.reading.grading_forms import Eases, Keep, Rounding, ShapingForm, SizeForm, SizeTableForm, Tie
from booklet.reading.handout_form import LINES, HandoutForm, Lines, spread_list
from booklet.reading.quantities import UnreadError
from booklet.reading.size_lists import read_size_list
from booklet.reading.style_form import StyleForm
from booklet.reading.yarn_forms import (
    SampleForm,
    SeamForm,
    SwatchForm,
    TesterForm,
    TrimmingForm,
    UnravelledForm,
    YarnForm,
)

GAUGE = "gauge"  # the name of a gauge that stands alone


class GaugeForm(Form):
    """One gauge; a line says the same. `motif` names what is counted in place of stitches: `1 square = 11 cm`."""

    expected: ClassVar[str] = "a line such as 16 sts and 17 rows = 10 cm in moss stitch"

    sts: Number
    rows: Number | None = None
    over: LengthField
    stitch: Line = ""
    hook: HookSize | None = None
    blocked: Truth = False
    rounds: Truth = False
    motif: Line = ""

    @classmethod
    def expand(cls, value: object) -> object:
        if not isinstance(value, str):
            return value
        line = read_gauge(value)
        return {
            "sts": line.sts,
            "rows": line.rows,
            "over": line.over,
            "stitch": line.stitch,
            "hook": line.hook_mm,
            "blocked": line.blocked,
            "rounds": line.in_rounds,
            "motif": line.motif,
        }

    @model_validator(mode="after")
    def _check(self) -> Self:
        try:
            check_gauge(self.sts, self.rows, self.over, self.motif)
        except UnreadError as unread:
            raise refuse(unread) from None
        return self


class ColourForm(Form):
    """A colour: its name and its shade."""

    expected: ClassVar[str] = 'a name and a shade, such as {name: Fog, shade: "#c9ced2"}'

    name: Line
    shade: Shade | None = None
    strands: Count = 0

    @classmethod
    def expand(cls, value: object) -> object:
        if not isinstance(value, str):
            return value
        shade = re.search(r"#\w+", value)
        name = value if shade is None else value[: shade.start()] + value[shade.end() :]
        return {"name": name.strip(" ,()")} | ({} if shade is None else {"shade": shade.group()})


class HookForm(Form):
    """A hook and what it is for."""

    expected: ClassVar[str] = "a size such as 5 mm"

    size: HookSize
    use: Line = ""

    @classmethod
    def expand(cls, value: object) -> object:
        if not isinstance(value, str):
            return value
        size, _, use = value.partition(" for ")
        return {"size": size, "use": use}


class NumberForm(Form):
    """A number that rows call by name: values, a formula, or a measure with its gauge and multiple."""

    expected: ClassVar[str] = "numbers such as 77 (83, 89), a formula, or a measure with a multiple"

    values: tuple[Whole, ...] = ()
    formula: Line = ""
    measure: Line = ""
    gauge: Line = ""
    multiple: Multiple = (1, 0)
    direction: Direction = "sts"
    ease: Eases = ()
    round: Rounding = "nearest"
    tie: Tie = "up"
    keep: Keep = ""

    @classmethod
    def expand(cls, value: object) -> object:
        if isinstance(value, list):
            return {"values": value}
        if not isinstance(value, str):
            return value
        values = read_size_list(value)
        return {"formula": value} if values is None else {"values": list(values)}

    @model_validator(mode="after")
    def _check(self) -> Self:
        given = [name for name in ("values", "formula", "measure") if getattr(self, name)]
        if len(given) != 1:
            what = "says nothing" if not given else f"gives {' and '.join(given)} at once"
            raise refuse(UnreadError(f"the number {what}", self.expected))
        if self.ease and not self.measure:
            raise refuse(UnreadError("ease is given without a measure", "a measure that the ease is added to"))
        return self


class StitchForm(Form):
    """A special stitch in the pattern's own words."""

    expected: ClassVar[str] = "the words of the stitch"

    text: Paragraph
    abbreviation: Line = ""

    @classmethod
    def expand(cls, value: object) -> object:
        return {"text": value} if isinstance(value, str) else value


class ImageForm(Form):
    """A picture beside the source."""

    expected: ClassVar[str] = "a file name, or keys such as file, alt and caption"

    file: Line
    alt: Line = ""
    caption: Line = ""

    @classmethod
    def expand(cls, value: object) -> object:
        return {"file": value} if isinstance(value, str) else value


def _spread_images(value: object) -> object:
    return [value] if isinstance(value, str | dict) else value


def _spread_gauges(value: object) -> object:
    """A gauge that stands alone goes by the name `gauge`."""
    alone = isinstance(value, str) or (isinstance(value, dict) and "sts" in value)
    return {GAUGE: value} if alone else value


def _spread_hooks(value: object) -> object:
    """One hook, a list of hooks, or hooks by what they are for, as one mapping."""
    if isinstance(value, str):
        return {"0": value}
    if isinstance(value, list):
        return {str(at): item for at, item in enumerate(value)}
    if isinstance(value, dict) and "size" in value:
        return {"0": value}
    if isinstance(value, dict):
        return {use: {"size": size, "use": use} if isinstance(size, str) else size for use, size in value.items()}
    return value


def _spread_sizes(value: object) -> object:
    """Size names alone, in a list or as `S (M, L)`, are sizes without target measures."""
    if isinstance(value, str):
        value = [name for name in re.split(r"[,;:()\s]+", value) if name]
    if isinstance(value, list):
        names = [str(name) for name in value]
        twice = next((name for name in names if names.count(name) > 1), None)
        if twice is not None:
            raise UnreadError(f'"{twice}" stands twice among the sizes', "each size once, smallest first")
        return {name: {} for name in names}
    if isinstance(value, dict):
        return {name: {} if measures is None else measures for name, measures in value.items()}
    return value


def _spread_swatches(value: object) -> object:
    """A swatch that stands alone goes by no name."""
    return {"": value} if isinstance(value, dict) and ("sts" in value or "rows" in value) else value


CautionNames = Annotated[tuple[CautionName, ...], before(spread_list), LINES]
Papers = Annotated[tuple[Paper, ...], before(spread_list)]
Editions = Annotated[tuple[Edition, ...], before(spread_list)]


class FrontMatter(Form):
    """All that may stand above the rows. Only `title` must."""

    title: Line = Field("", description="What the pattern is called.")
    summary: Paragraph = Field("", description="Two or three sentences: what it is and how it is made.")
    summary_of_one_size: Paragraph = Field(
        "", alias="summary of one size", description="The summary where one size is printed alone; else the same."
    )
    designer: Line = Field("", description="Who designed it.")
    made_for: MadeFor = Field("adult", alias="for", description="Who uses it; safety notes follow from it.")
    kind: Line = Field("", description="What it is: blanket, hat, toy ...")
    construction: Line = Field("", description="How it is made: in one piece from the top, seamed ...")
    level: Level = Field("", description="The level of the project.")
    terms: Terms = Field("US", description="Whose stitch names the rows use.")
    old_terms: OldTerms = Field("", alias="old terms", description="The old book whose names of stitches the rows use.")
    version: Version = Field("", description="The version of this pattern, such as 1.0.")
    date: Date = Field("", description="The day of this version, such as 2026-03-14.")
    licence: Paragraph = Field("", description="What makers may do with the pattern.")
    contact: Line = Field("", description="Where makers ask for help.")
    website: Line = Field("", description="The publisher's address.")
    errata: Line = Field("", description="Where corrections are listed.")
    sizes: Annotated[dict[str, SizeForm], before(_spread_sizes)] = Field(
        default_factory=dict, description="Each size with its measures, or where they come from, smallest first."
    )
    size_table: Line = Field("", alias="size table", description="The table that the sizes' measures come from.")
    size_tables: dict[str, SizeTableForm] = Field(
        default_factory=dict, alias="size tables", description="Tables of sizes of the pattern's own."
    )
    gauge: Annotated[dict[str, GaugeForm], before(_spread_gauges)] = Field(
        default_factory=dict, description="One line of gauge, or several by name."
    )
    yarn: YarnForm | None = Field(None, description="Weight, fibre and put-up of the yarn.")
    colours: dict[str, ColourForm] = Field(default_factory=dict, description="Colours by the letter rows use.")
    colourways: dict[str, dict[str, ColourForm]] = Field(
        default_factory=dict, description="Other colours for the same letters, by the name of each colourway."
    )
    hooks: Annotated[dict[str, HookForm], before(_spread_hooks)] = Field(
        default_factory=dict, description="Hooks in millimetres."
    )
    notions: Lines = Field((), description="Needle, markers, buttons ... in order of use.")
    numbers: dict[str, NumberForm] = Field(default_factory=dict, description="Numbers that rows call in braces.")
    shaping: dict[str, ShapingForm] = Field(
        default_factory=dict, description="Stitches from one count to another over so many rows, by name."
    )
    swatch: Annotated[dict[str, SwatchForm], before(_spread_swatches)] = Field(
        default_factory=dict, description="A swatch counted, measured and weighed, or several by their stitch."
    )
    unravelled: UnravelledForm | None = Field(None, description="Stitches undone, and the length of their yarn.")
    sample: SampleForm | None = Field(None, description="The finished sample: size, yarn used, measures.")
    testers: Annotated[tuple[TesterForm, ...], before(_spread_images)] = Field(
        (), description="What testers used, by size and colour."
    )
    seams: dict[str, SeamForm] = Field(default_factory=dict, description="Seams by name: edges, length.")
    folds: dict[str, FoldField] = Field(default_factory=dict, description="Where a piece is folded, by its title.")
    trimmings: dict[str, TrimmingForm] = Field(default_factory=dict, description="Fringe, tassels, pompoms by name.")
    tails: LengthField | None = Field(None, description="The length left at each end of a strand, such as 15 cm.")
    margin: Share | None = Field(None, description="Yarn to keep in reserve, such as 10 %.")
    costs: CostForm | None = Field(None, description="Time and money for `booklet costs`; never printed.")
    making_time: Seconds | None = Field(
        None, alias="making time", description="Seconds a stitch, such as 2.5 to 4: prints how long it takes."
    )
    special_stitches: dict[str, StitchForm] = Field(
        default_factory=dict, alias="special stitches", description="Stitches in the pattern's own words."
    )
    abbreviations: dict[str, Line] = Field(default_factory=dict, description="Abbreviations of the pattern's own.")
    counts_as: dict[str, Truth] = Field(
        default_factory=dict, alias="counts as", description="Turning chains: {ch 3: true} counts as a stitch."
    )
    has: Lines = Field((), description="What calls for care: small parts, cord 40 cm, fringe ...")
    without_cautions: CautionNames = Field(
        (), alias="without cautions", description="Safety notes left out on purpose; the proof says so."
    )
    care: Paragraph = Field("", description="How to wash and dry it.")
    images: Annotated[tuple[ImageForm, ...], before(_spread_images)] = Field(
        (), description="Pictures in the pattern's folder."
    )
    cover: ImageForm | None = Field(None, description="The picture on the cover.")
    theme: Line = Field("", description="The look of the booklet.")
    paper: Papers = Field((), description="A4, Letter or both.")
    units: Units = Field("", description="Which units stand first.")
    inch: Inch | None = Field(None, description="2.5 cm by the trade's rule, or 2.54 cm.")
    style: StyleForm | None = Field(None, description="House style: brackets, counts, labels, order ...")
    editions: Editions = Field((), description="What is made: print, web, handout ..., or all.")
    page: Address = Field("", description="The pattern's own page; a code in the booklet leads there.")
    video: Address = Field("", description="A film that shows it; a code in the booklet leads there.")
    handout: HandoutForm | None = Field(None, description="What a group says on its handout.")
    left_handed: Truth = Field(
        False, alias="left-handed charts", description="Whether charts are printed for left-handed makers too."
    )


class HouseForm(Form):
    """What is the same in all patterns of one publisher."""

    name: Line = Field("", description="The publisher's name.")
    contact: Line = ""
    website: Line = ""
    errata: Line = ""
    licence: Paragraph = ""
    theme: Line = ""
    margin: Share | None = None
    paper: Papers = ()
    units: Units = ""
    inch: Inch | None = None
    size_tables: dict[str, SizeTableForm] = Field(default_factory=dict, alias="size tables")
    style: StyleForm | None = None
    editions: Editions = ()
    handout: HandoutForm | None = None


def list_keys(form: type[Form]) -> tuple[str, ...]:
    """The keys of a form as an author writes them."""
    return tuple(info.alias or name for name, info in form.model_fields.items())


# Other words of the trade for the same key.
SYNONYMS: Mapping[str, str] = {
    "tension": "gauge",
    "gauges": "gauge",
    "colors": "colours",
    "color": "colours",
    "colour": "colours",
    "license": "licence",
    "copyright": "licence",
    "hook": "hooks",
    "image": "images",
    "picture": "images",
    "pictures": "images",
    "photos": "images",
    "papers": "paper",
    "edition": "editions",
    "size": "sizes",
    "made for": "for",
    "skill level": "level",
    "special stitch": "special stitches",
    "fiber": "fibre",
    "put up": "ball",
    "tester": "testers",
    "seam": "seams",
    "fold": "folds",
    "trimming": "trimmings",
    "tail": "tails",
    "held together": "strands",
    "skein": "ball",
    "in": "stitch",
    "pattern": "stitch",
    "swatches": "swatch",
    "rounding": "round",
    "table": "size table",
    "weighs": "weight",
    "before blocking": "before",
    "after blocking": "after",
    "unblocked": "before",
}
