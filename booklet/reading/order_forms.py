"""The shape of a kit order: which keys there are, and what each holds."""

import re
from typing import Annotated, ClassVar

from pydantic import Field, PlainValidator, WithJsonSchema

from booklet.model.kits import LengthRange
from booklet.reading.fields import Date, Line, Paragraph, Share, Whole, refuse
from booklet.reading.form import Form
from booklet.reading.forms import Papers
from booklet.reading.quantities import AMOUNT, UnreadError, read_amount, read_length

MEASURES = ("circumference", "width", "depth", "length")
_RANGE = re.compile(rf"\s*(?P<low>{AMOUNT})\s*(?:cm|in\b|inch(?:es)?|\")?\s*(?:to|-|–|—)\s*(?P<high>.+)", re.IGNORECASE)
_UP_TO = re.compile(r"\s*(?:up to|at most|under)\s+(?P<high>.+)", re.IGNORECASE)


def read_range(text: str) -> LengthRange:
    """range = amount "to" length | "up to" length | length: `28 to 32 cm`, `11–12½ in`, `up to 20 cm`, `30 cm`."""
    up_to, both = _UP_TO.fullmatch(text), _RANGE.fullmatch(text)
    found = up_to or both
    high = read_length(found["high"] if found else text)
    low = read_amount(both["low"]) if both and not up_to else 0.0 if up_to else high.amount
    if low > high.amount:
        raise UnreadError(f'"{text}" begins above its end', "the smaller length first, such as 28 to 32 cm")
    if high.unit in ("cm", "in"):
        return LengthRange(low, high.amount, high.unit)
    factor = high.cm / high.amount
    return LengthRange(low * factor, high.cm, "cm")


def _validate_range(value: object) -> LengthRange:
    if isinstance(value, LengthRange):
        return value
    try:
        if not isinstance(value, str):
            raise UnreadError("a value stands where a range of lengths is expected", "such as 28 to 32 cm")
        return read_range(value)
    except UnreadError as unread:
        raise refuse(unread) from None


RangeField = Annotated[
    LengthRange,
    PlainValidator(_validate_range),
    WithJsonSchema({"type": "string", "examples": ["28 to 32 cm", "11 to 12½ in"]}),
]


class BandForm(Form):
    """A line of the size table."""

    expected: ClassVar[str] = "measures such as circumference: 28 to 32 cm, and items: how many are wanted"

    circumference: RangeField | None = None
    width: RangeField | None = None
    depth: RangeField | None = None
    length: RangeField | None = None
    size: Line = ""
    items: Whole | None = None


class TableForm(Form):
    """Whose size table it is."""

    expected: ClassVar[str] = "keys such as name, source and date"

    name: Line = ""
    source: Line = ""
    date: Date = ""


class LotForm(Form):
    """One pattern of the order."""

    expected: ClassVar[str] = "keys such as pattern and bands"

    pattern: Line = ""
    bands: dict[str, BandForm] = Field(default_factory=dict)
    on_hand: dict[str, Line] = Field(default_factory=dict, alias="on hand")

    @classmethod
    def expand(cls, value: object) -> object:
        return {"pattern": value} if isinstance(value, str) else value


class OrderForm(LotForm):
    """Kits for a group."""

    expected: ClassVar[str] = "keys such as makers, pattern and bands"

    title: Line = ""
    date: Date = ""
    makers: Whole = 0
    each: Whole | None = None
    spare: Share = 0.0
    sheets: Whole = 1
    size_table: TableForm = Field(default_factory=TableForm, alias="size table")
    patterns: tuple[LotForm, ...] = ()
    note: Paragraph = ""
    theme: Line = ""
    paper: Papers = ()
