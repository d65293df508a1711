"""Forms for yarn that was used and yarn that is not worked in stitches: samples, testers, seams, trimmings."""

from typing import Annotated, ClassVar, Self

from pydantic import BeforeValidator, Field, model_validator

from booklet.reading.fields import Amount, Count, LengthField, Line, Number, Whole, refuse
from booklet.reading.form import Form
from booklet.reading.quantities import UnreadError


def _spread_used(value: object) -> object:
    """One amount stands for all colours together."""
    return {"": value} if isinstance(value, str) else value


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
    """A seam that is sewn or crocheted together when the pieces are made."""

    expected: ClassVar[str] = "a length, or keys such as length and colour"

    length: Line
    colour: Line = ""
    times: Number | None = None

    @classmethod
    def expand(cls, value: object) -> object:
        return {"length": value} if isinstance(value, str) else value


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
