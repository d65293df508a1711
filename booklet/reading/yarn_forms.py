"""Forms for the yarn: what it is, what was weighed and measured of it, and what is not worked in stitches."""

from typing import Annotated, ClassVar, Self

from pydantic import BeforeValidator, Field, model_validator

from booklet.reading.fields import (
    Amount,
    Ball,
    Count,
    Extent,
    Grams,
    HookSize,
    LengthField,
    Line,
    Number,
    Truth,
    Whole,
    YarnWeight,
    refuse,
)
from booklet.reading.form import Form
from booklet.reading.gauges import check_gauge
from booklet.reading.handout_form import Lines
from booklet.reading.quantities import UnreadError


def _spread_used(value: object) -> object:
    """One amount stands for all colours together."""
    return {"": value} if isinstance(value, str) else value


class YarnForm(Form):
    """The yarn that the pattern asks for."""

    expected: ClassVar[str] = "keys such as weight, fibre and ball"

    name: Line = ""
    weight: YarnWeight | None = None
    fibre: Line = ""
    ball: Ball | None = None
    care: Line = ""
    strands: Count = 1


class SwatchForm(Form):
    """A swatch that was counted, measured before and after blocking, and weighed."""

    expected: ClassVar[str] = "keys such as sts, rows, after and weight"

    sts: Whole
    rows: Whole
    weight: Grams | None = None
    stitch: Line = ""
    included: Truth = True
    before: Extent | None = None
    after: Extent | None = None
    hook: HookSize | None = None
    rounds: Truth = False

    @model_validator(mode="after")
    def _check(self) -> Self:
        if self.weight is None and self.before is None and self.after is None:
            expected = "the swatch's weight, such as 21 g, or its size, such as 14.5 x 16 cm"
            raise refuse(UnreadError("the swatch was neither weighed nor measured", expected, 'add "weight: ..."'))
        try:
            for width, length in filter(None, (self.before, self.after)):
                check_gauge(self.sts, None, width)
                check_gauge(self.rows, None, length)
        except UnreadError as unread:
            raise refuse(unread) from None
        return self


class UnravelledForm(Form):
    """Stitches that were undone, and the length of their yarn."""

    expected: ClassVar[str] = "keys such as sts, length and stitch"

    sts: Whole
    length: LengthField
    stitch: Line = ""


class SampleForm(Form):
    """The finished sample: what it took and what it measures."""

    expected: ClassVar[str] = "keys such as size, used and measures"

    size: Line = ""
    used: Annotated[dict[str, Amount], BeforeValidator(_spread_used)] = Field(default_factory=dict)
    measures: dict[str, LengthField] = Field(default_factory=dict)


class TesterForm(Form):
    """What a tester used."""

    expected: ClassVar[str] = "keys such as size and used"

    size: Line = ""
    used: Annotated[dict[str, Amount], BeforeValidator(_spread_used)]


class SeamForm(Form):
    """A seam that is sewn or crocheted together at the end; without a length it is as long as its edges."""

    expected: ClassVar[str] = "a length, a list of edges, or keys such as edges, length and colour"

    length: Line = ""
    edges: Lines = ()
    colour: Line = ""
    times: Number | None = None

    @classmethod
    def expand(cls, value: object) -> object:
        if isinstance(value, list):
            return {"edges": value}
        return {"length": value} if isinstance(value, str) else value

    @model_validator(mode="after")
    def _check(self) -> Self:
        if not self.length and not self.edges:
            raise refuse(UnreadError("the seam has no length and no edges", "its length, its edges or both"))
        return self


class TrimmingForm(Form):
    """Fringe, tassels or pompoms: strands that are cut, or wraps round a card."""

    expected: ClassVar[str] = "keys such as number, strands and cut"

    number: Line = "1"
    strands: Count = 1
    cut: Line = ""
    wraps: Count = 0
    across: LengthField | None = None
    colour: Line = ""

    @model_validator(mode="after")
    def _check(self) -> Self:
        if bool(self.cut) == bool(self.wraps and self.across):
            what = "gives no length" if not self.cut else "gives both strands and wraps"
            raise refuse(UnreadError(f"the trimming {what}", "strands and cut, or wraps and across"))
        return self
