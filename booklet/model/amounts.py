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


@dataclass(frozen=True, slots=True)
class YarnNeed:
    """Yarn of one colour in one size. `letter` is "" where the pattern has a single nameless colour."""

    letter: str
    size: str
    stitches: int
    metres: float  # computed, without the margin
    metres_to_buy: float  # with the margin
    grams: float | None  # with the margin
    balls: int | None
    left_metres: float | None  # what is left of the last ball
    ends: int = 0  # ends of strands to weave in


@dataclass(frozen=True, slots=True)
class YarnUse:
    """All yarn needs of the pattern and how they came about.

    `basis` is "swatch" (per-stitch lengths scaled by a weighed swatch) or "estimate" (published
    lengths for the yarn weight and hook). `spread` is the share by which the figure may be off.
    """

    needs: tuple[YarnNeed, ...]
    basis: str
    margin: float
    spread: float
    totals: Mapping[str, YarnNeed] = field(default_factory=dict)  # by size name, letter "*"


@dataclass(frozen=True, slots=True)
class Material:
    """One line of the materials list."""

    heading: str  # "Yarn", "Hook", "Notions"
    text: str
    letter: str = ""


@dataclass(frozen=True, slots=True)
class Caution:
    """A safety note with the reason it is printed and where the rule comes from."""

    code: str
    heading: str
    text: str
    source: str


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
