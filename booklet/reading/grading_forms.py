"""The forms of grading: a size, a table of sizes, ease, and shaping."""

import re
from typing import Annotated, ClassVar, Self

from pydantic import ConfigDict, Field, WithJsonSchema, model_validator

from booklet.model.measure import Length
from booklet.model.pattern import Ease
from booklet.reading.fields import Line, Whole, choice, read_with, refuse
from booklet.reading.form import Form, before
from booklet.reading.quantities import LENGTH, UnreadError, find_lengths, read_amount, read_length
from booklet.terms import load_table

ROUNDINGS = ("nearest", "up", "down")
TIES = ("up", "down")
KEEPS = ("parity",)
TABLE_KINDS = ("body", "finished")
CHANGES = {"each end": 2, "both ends": 2, "one end": 1}


def read_ease(text: str) -> Ease:
    """What is added to a measure: `5 cm`, `-1 in`, `10 %`, `none`, `classic fit`."""
    words = text.strip().replace("−", "-").replace("–", "-").lower()
    if words in ("none", "0", "no ease", "zero"):
        return Ease()
    fit = _find_fit(words)
    if fit:
        return Ease(cm=sum(load_table("fits")[fit]["cm"]) / 2, fit=fit)
    match = re.fullmatch(
        r"(?P<sign>[+-]|plus|minus)?\s*(?P<rest>.+?)\s*(?:of\s+)?(?P<word>(?:positive|negative)?\s*ease)?", words
    )
    rest = match["rest"] if match else words
    sign = -1 if match and (match["sign"] in ("-", "minus") or (match["word"] or "").startswith("negative")) else 1
    share = re.fullmatch(r"([\d.,½¼¾ ]+)\s*(?:%|percent|per cent)", rest)
    if share:
        return Ease(share=sign * _amount(share.group(1), text) / 100)
    if re.fullmatch(rf"{LENGTH}(?:\s*[(\[/].*)?", rest, re.IGNORECASE):
        return Ease(cm=sign * read_length(rest).cm)
    if re.fullmatch(r"[\d.,½¼¾ ]+", rest):
        raise UnreadError(
            f'"{text.strip()}" has no unit',
            "ease as a length or a share, such as 5 cm or 10 %",
            f'write "{text.strip()} cm" or "{text.strip()} in"',
            "missing-unit",
        )
    fits = ", ".join(load_table("fits"))
    raise UnreadError(
        f'"{text.strip()}" is not ease', f"a length or a share, such as 5 cm, -1 in or 10 %, or a fit: {fits}"
    )


def _find_fit(words: str) -> str:
    """The fit that the words name: "classic" for "Classic fit", "standard"; "" for none."""
    named = re.sub(r"\s*fit(?:ting)?$", "", words)
    return next(
        (fit for fit, entry in load_table("fits").items() if words in entry["also"] or named in (fit, *entry["also"])),
        "",
    )


def _amount(text: str, whole: str) -> float:
    try:
        return read_amount(text)
    except ValueError:
        raise UnreadError(f'"{whole.strip()}" is not ease', "a length or a share, such as 5 cm or 10 %") from None


def read_range(text: str) -> tuple[Length, Length]:
    """A measure or a range of it: `22 cm`, `22-24 cm`, `8¾ to 9½ in`."""
    match = re.fullmatch(r"\s*(?P<low>[^-–—]+?)\s*(?:-|–|—|\bto\b)\s*(?P<high>\d.*)", text)
    if match is None:
        length = read_length(text)
        return length, length
    high = read_length(match["high"])
    low = match["low"]
    if not find_lengths(low):
        low = f"{low} {high.unit}"
    first = read_length(low)
    if first.cm > high.cm:
        raise UnreadError(f'"{text.strip()}" runs backwards', "the smaller figure first, such as 22-24 cm")
    return first, high


def read_changes(text: str) -> int:
    """How many stitches change in a shaping row: `each end`, `one end`, `2`, `2 sts`."""
    words = re.sub(r"\s+", " ", text.strip().lower()).removeprefix("at ")
    if words in CHANGES:
        return CHANGES[words]
    match = re.fullmatch(r"(\d{1,3})(?: sts?| stitches)?", words)
    if match is None or not int(match.group(1)):
        raise UnreadError(f'"{text.strip()}" is no number of stitches', "each end, one end, or a number such as 2")
    return int(match.group(1))


def read_table_date(text: str) -> str:
    """When a table was given out, as its owner writes it."""
    return re.sub(r"\s+", " ", text).strip()[:40]


def _spread_eases(value: object) -> object:
    return value if isinstance(value, list | tuple) else [value]


_TEXT = {"type": ["string", "number"]}
_EASE = {"type": ["string", "array"], "examples": ["5 cm", "-1 in", "10 %", "classic fit"]}
EaseField = Annotated[Ease, read_with(read_ease, Ease), WithJsonSchema({"type": "string"})]
Eases = Annotated[tuple[EaseField, ...], before(_spread_eases), WithJsonSchema(_EASE)]
Rounding = Annotated[str, read_with(choice(ROUNDINGS), str), WithJsonSchema({"enum": list(ROUNDINGS)})]
Tie = Annotated[str, read_with(choice(TIES), str), WithJsonSchema({"enum": list(TIES)})]
Keep = Annotated[str, read_with(choice(KEEPS), str), WithJsonSchema({"enum": list(KEEPS)})]
TableKind = Annotated[str, read_with(choice(TABLE_KINDS), str), WithJsonSchema({"enum": list(TABLE_KINDS)})]
Changes = Annotated[int, read_with(read_changes, int), WithJsonSchema({"type": ["string", "integer"]})]
RangeField = Annotated[
    tuple[Length, Length],
    read_with(read_range, tuple),
    WithJsonSchema({"type": "string", "examples": ["22 cm", "22-24 cm"]}),
]
LengthField = Annotated[
    Length, read_with(read_length, Length), WithJsonSchema({"type": "string", "examples": ["70 cm", "27½ in"]})
]


class SizeForm(Form):
    """One size: its measures by name, and `from` a table of sizes those that are not given here."""

    model_config = ConfigDict(extra="allow", frozen=True)
    __pydantic_extra__: dict[str, LengthField]
    expected: ClassVar[str] = "measures such as width: 70 cm, or the table and size they come from"

    entry: Line = Field("", alias="from", description="A table of sizes and a size in it: woman M.")

    @classmethod
    def expand(cls, value: object) -> object:
        return {"from": value} if isinstance(value, str) else value

    @property
    def measures(self) -> dict[str, Length]:
        """The measures given here."""
        return dict(self.__pydantic_extra__ or {})


class SizeTableForm(Form):
    """A table of sizes of one's own, or the name of the YAML file beside this one that holds it."""

    expected: ClassVar[str] = "source, date and sizes with their measures, or the name of a file that holds them"

    title: Line = ""
    source: Line = ""
    date: Annotated[str, read_with(read_table_date, str), WithJsonSchema(_TEXT)] = ""
    kind: TableKind = "body"
    sizes: dict[str, dict[str, RangeField]] = Field(default_factory=dict)
    file: Line = ""

    @classmethod
    def expand(cls, value: object) -> object:
        return {"file": value} if isinstance(value, str) else value

    @model_validator(mode="after")
    def _check(self) -> Self:
        if bool(self.sizes) == bool(self.file):
            what = "has no sizes" if not self.sizes else "has sizes and a file at once"
            raise refuse(UnreadError(f"the table {what}", self.expected))
        return self


class ShapingForm(Form):
    """Stitches from one count to another, spread over so many rows."""

    expected: ClassVar[str] = "keys such as from, to and over"

    start: Line = Field(alias="from", description="Stitches before the first change: a number or a formula.")
    end: Line = Field(alias="to", description="Stitches after the last change.")
    over: Line = Field(description="Rows that the changes are spread over.")
    by: Changes = Field(2, description="Stitches that change in a shaping row: each end, one end, or a number.")
    every: Whole = Field(1, description="Shaping rows lie a multiple of this apart: 2 keeps them on one side.")
    first: Whole = Field(0, description="The row of the first change, where it does not end a gap.")
    stitch: Line = Field("sc", description="The stitch of the rows.")

    @model_validator(mode="after")
    def _check(self) -> Self:
        if not self.every:
            raise refuse(UnreadError('"every: 0" leaves no rows', "1, or 2 to keep shaping on one side of the work"))
        return self
