"""What the worked stitches come to: measures, yarn, materials. Per-size values stand in size order."""

from collections.abc import Mapping
from dataclasses import dataclass, field


@dataclass(frozen=True, slots=True)
class Measure:
    """One finished measure of a piece in every size, in centimetres and in inches from the same gauge.

    `key` is the letter that a schematic shows. `axis` is width, length, circumference or depth.
    `target_cm` is what was asked for, empty where nothing was. A size's value is None where the
    gauge needed for it is not given.
    """

    key: str
    part: str
    name: str
    axis: str
    cm: tuple[float | None, ...]
    inches: tuple[float | None, ...]
    count: tuple[int, ...]  # the stitches or rows it was computed from
    unit: str  # "sts" or "rows"
    target_cm: tuple[float, ...] = ()
    target_name: str = ""  # the author's word for what was asked for
    target_unit: str = ""  # "cm" or "in": the unit that `target` and `difference` are in
    target: tuple[float, ...] = ()  # what was asked for, in that unit
    difference: tuple[float | None, ...] = ()  # the measure less its target, in that unit
    in_rounds: bool = False  # the rows it was computed from are rounds


@dataclass(frozen=True, slots=True)
class YarnNeed:
    """Yarn of one colour in one size. `letter` is "" where the pattern has a single nameless colour.

    `how` says how the length came about: "measured" where the item itself was weighed in this size and colour,
    "computed" from a sample, a swatch or an unravelled length, "estimated" from published lengths. The range
    goes from `low_metres` to `high_metres`, both without the margin. The swatch is bought besides: it is in the
    balls and in what is left, and in no other figure.
    """

    letter: str
    size: str
    stitches: int
    metres: float  # computed, without the margin
    metres_to_buy: float  # with the margin
    grams: float | None  # with the margin
    balls: int | None
    left_metres: float | None  # what is left of the last ball
    ends: int = 0  # ends of strands to weave in
    how: str = "estimated"
    low_metres: float = 0.0
    high_metres: float = 0.0
    tail_metres: float = 0.0  # of `metres`, the ends of strands
    seam_metres: float = 0.0  # of `metres`, seams
    trimming_metres: float = 0.0  # of `metres`, fringe and the like
    swatch_metres: float = 0.0
    left_grams: float | None = None


@dataclass(frozen=True, slots=True)
class SeamLength:
    """How long a seam is in every size, by the edges that it joins, and the colour that these end in."""

    cm: tuple[float, ...]
    colour: str = ""


@dataclass(frozen=True, slots=True)
class SeamYarn:
    """What one seam takes in every size, in size order.

    `how` says where its length is from: "stated" by the pattern, or "computed" from the edges that are sewn, as they
    are worked. The yarn is `times` as long as the seam.
    """

    name: str
    cm: tuple[float, ...]
    metres: tuple[float, ...]
    times: float
    how: str


@dataclass(frozen=True, slots=True)
class SharedBall:
    """Colours that need so little in a size that fewer balls would do if they were one colour.

    `balls` are those of the colours together, in place of `apart`.
    """

    size: str
    letters: tuple[str, ...]
    metres_to_buy: float
    balls: int
    apart: int


@dataclass(frozen=True, slots=True)
class YarnUse:
    """All yarn needs of the pattern and how they came about.

    `basis` is what the lengths of stitches rest on: "sample" (the finished sample's weight), "swatch" (a weighed
    swatch), "unravelled" (a measured length of unravelled yarn) or "estimate" (published lengths). `spread` is
    the share by which a figure may be off that neither sample nor tester has measured.
    """

    needs: tuple[YarnNeed, ...]
    basis: str
    margin: float
    spread: float
    totals: Mapping[str, YarnNeed] = field(default_factory=dict)  # by size name, letter "*"
    shared: tuple[SharedBall, ...] = ()
    sample_size: str = ""  # of the sample, where one was weighed
    reports: int = 0  # testers whose reports were taken in
    raised: tuple[str, ...] = ()  # letters whose figure a tester's report has raised
    strands: int = 1  # held together throughout
    tail_cm: float = 0.0  # at each end of a strand
    seams: tuple[SeamYarn, ...] = ()
    gauge_from: str = "gauge"  # or what stands in for it: "size", "motif"; "weight", "hook", "ball" for what is usual


@dataclass(frozen=True, slots=True)
class Material:
    """One line of the materials list."""

    heading: str  # "Yarn", "Hook", "Notions"
    text: str
    letter: str = ""


@dataclass(frozen=True, slots=True)
class Caution:
    """A safety note with the rule it comes from.

    `limits` are the lengths that rules allow, each in a few words; `found` is where the rule was read, and
    `trust` how far that may be relied on, as in `terms/`.
    """

    code: str
    heading: str
    text: str
    source: str  # the rule: a regulation, a standard, advice
    limits: tuple[str, ...] = ()
    found: str = ""
    trust: str = ""


@dataclass(frozen=True, slots=True)
class Term:
    """A line of the abbreviation key."""

    abbreviation: str
    name: str
    meaning: str = ""


@dataclass(frozen=True, slots=True)
class Amounts:
    """Everything that is computed from the worked stitches."""

    measures: tuple[Measure, ...]
    yarn: YarnUse | None
    materials: tuple[Material, ...]
    cautions: tuple[Caution, ...]
    key: tuple[Term, ...]
    making_time: tuple[tuple[float, float], ...] = ()  # hours by size, quick and easy; () where not asked for
