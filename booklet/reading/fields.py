"""The kinds of value that the front matter holds, each read from the text as typed.

A kind is a type for pydantic: it reads the author's words, and says to editors what may stand there.
"""

import datetime as dt
import re
from collections.abc import Callable
from difflib import get_close_matches
from typing import Annotated, Any

from pydantic import PlainValidator, WithJsonSchema
from pydantic_core import PydanticCustomError

from booklet.model.costs import Money, Range
from booklet.model.editions import ALL, EDITIONS
from booklet.model.measure import CM_PER_INCH, Length
from booklet.model.pattern import YarnAmount
from booklet.reading.edge_words import read_fold
from booklet.reading.money import read_fees, read_minutes, read_money, read_seconds
from booklet.reading.quantities import (
    UnreadError,
    read_amount,
    read_ball,
    read_extent,
    read_grams,
    read_hook,
    read_length,
    read_share,
    read_whole,
    read_yarn_amount,
)
from booklet.reading.yarns import read_yarn_weight
from booklet.terms import load_table

MAX_LINE = 300
MAX_PARAGRAPH = 4_000

LEVELS = ("basic", "easy", "intermediate", "complex")
TERMS = ("US", "UK")
PAPERS = ("A4", "Letter")
EDITION_NAMES = (*EDITIONS, ALL)
DIRECTIONS = ("sts", "rows")
# Words that authors use for one of the choices; no other word is taken for another.
OTHER_WORDS = {
    "beginner": "basic",
    "very easy": "basic",
    "advanced": "complex",
    "experienced": "complex",
    "american": "US",
    "british": "UK",
    "stitches": "sts",
    "rounds": "rows",
    "toddler": "under three",
    "dog": "pet",
    "cat": "pet",
    "kids": "child",
    "children": "child",
    "babies": "baby",
    "grown-up": "adult",
    "parentheses": "round",
    "round brackets": "round",
    "brackets": "square",
    "square brackets": "square",
    "asterisks": "stars",
    "asterisk": "stars",
    "en dash": "dash",
    "em dash": "dash",
    "equals": "equals sign",
    "period": "full stop",
    "sts": "total",
    "italics": "italic",
    "letter first": "US first",
    "imperial first": "US first",
    "behind": "after",
    "end": "end of row",
    "start": "start of row",
}


def refuse(unread: UnreadError) -> PydanticCustomError:
    """The same refusal in the form that pydantic collects."""
    facts = {"message": unread.message, "expected": unread.expected, "fix": unread.fix}
    return PydanticCustomError(unread.code, "{message}", facts)


def read_with(read: Callable[[str], Any], *kinds: type) -> PlainValidator:
    """A validator that reads text and lets through what a short form has read already."""

    def validate(value: object) -> Any:
        if isinstance(value, str):
            try:
                return read(value)
            except UnreadError as unread:
                raise refuse(unread) from None
        if isinstance(value, kinds):
            return value
        raise refuse(UnreadError(f"{describe(value)} stands where one value is expected"))

    return PlainValidator(validate)


def describe(value: object) -> str:
    if value is None:
        return "nothing"
    return "a list" if isinstance(value, list) else "a set of keys" if isinstance(value, dict) else "a value"


def read_line(text: str) -> str:
    """Text on one line."""
    return _limit(re.sub(r"\s+", " ", text).strip(), MAX_LINE)


def read_paragraph(text: str) -> str:
    """Text that may run over lines and paragraphs."""
    return _limit(text.strip(), MAX_PARAGRAPH)


def _limit(text: str, most: int) -> str:
    if len(text) > most:
        raise UnreadError(f"the text has {len(text)} characters", f"at most {most} characters")
    return text


def choice(choices: tuple[str, ...], others: str = "") -> Callable[[str], str]:
    """A reader for one of several words, whatever its case."""

    def read(text: str) -> str:
        words = re.sub(r"\s+", " ", text).strip()
        for choice in choices:
            if choice.lower() == words.lower():
                return choice
        meant = OTHER_WORDS.get(words.lower(), "")
        if meant not in choices:
            close = get_close_matches(words.lower(), [choice.lower() for choice in choices], 1)
            meant = next((choice for choice in choices if close and choice.lower() == close[0]), "")
        raise UnreadError(
            f'"{words}" is not one of the words known here',
            "one of " + ", ".join(choices) + others,
            f'write "{meant}"' if meant else "",
        )

    return read


def _read_made_for(text: str) -> str:
    return choice(tuple(load_table("cautions")["made_for"]))(text)


def _read_caution(text: str) -> str:
    return choice(tuple(load_table("cautions")["cautions"]))(text)


def read_date(text: str) -> str:
    """A day as year, month and day: `2026-03-14`."""
    try:
        return dt.date.fromisoformat(text.strip()).isoformat()
    except ValueError:
        raise UnreadError(f'"{text.strip()}" is not a date', "year, month and day, such as 2026-03-14") from None


def read_version(text: str) -> str:
    """A short name of the version; it becomes part of the file's name."""
    if not re.fullmatch(r"[0-9A-Za-z][0-9A-Za-z. _-]{0,19}", text.strip()):
        raise UnreadError(
            f'"{text.strip()}" is not a version', "up to 20 letters, digits, dots and hyphens, such as 1.0"
        )
    return text.strip()


def read_shade(text: str) -> str:
    """A shade as `#rrggbb`; `#rgb` is written out."""
    match = re.fullmatch(r"#?([0-9a-fA-F]{6}|[0-9a-fA-F]{3})", text.strip())
    if match is None:
        raise UnreadError(f'"{text.strip()}" is not a shade', 'a shade in quotes, such as "#5b6b3a"')
    digits = match.group(1).lower()
    return "#" + (digits if len(digits) == 6 else "".join(digit * 2 for digit in digits))


def read_multiple(text: str) -> tuple[int, int]:
    """A multiple and what is added once: `6`, `2 + 1`, `8 plus 2`, `multiple of 4 sts + 3`, `odd`, `even`."""
    words = re.sub(r"^(?:a\s+)?multiples?\s+of\s+", "", text.strip().lower())
    words = re.sub(r"\b(?:sts?|stitches|rows?|rnds?|number)\b|\bany\b|\ban?\b", " ", words)
    if words.strip() in ("odd", "even"):
        return (2, 1) if words.strip() == "odd" else (2, 0)
    match = re.fullmatch(r"\s*(\d{1,4})\s*(?:(\+|plus|-|−|minus)\s*(\d{1,4})\s*)?", words)
    if match is None or not int(match.group(1)):
        raise UnreadError(f'"{text.strip()}" is not a multiple', "a multiple, such as 6 or 2 + 1")
    plus = int(match.group(3) or 0)
    return int(match.group(1)), -plus if match.group(2) in ("-", "−", "minus") else plus


def read_truth(text: str) -> bool:
    """Whether it counts: `true`, `yes`, or the stitch it counts as; `false`, `no`, `nothing`."""
    words = text.strip().lower().removeprefix("as ").strip()
    if words in ("true", "yes", "a stitch", "a st", "1 st", "one stitch", "on"):
        return True
    if words in ("false", "no", "nothing", "none", "not", "off"):
        return False
    stitches = load_table("stitches")
    if any(
        words in (name, entry.get("uk"), entry.get("us_name"), entry.get("uk_name")) for name, entry in stitches.items()
    ):
        return True
    raise UnreadError(f'"{text.strip()}" does not say whether it counts', "true, false, or the stitch it counts as")


def read_edition(text: str) -> str:
    """An edition by its name, with hyphens or spaces between its words: `large print`."""
    return choice(EDITION_NAMES)(re.sub(r"[\s_]+", "-", text.strip()))


def read_address(text: str) -> str:
    """A web address that a code can lead to."""
    address = text.strip()
    if not re.fullmatch(r"https?://[^\s<>\"'{}|\\^`]{1,250}", address):
        raise UnreadError(f'"{address[:60]}" is not a web address', "an address that starts with https://")
    return address


def read_units(text: str) -> str:
    """Which units stand first: `metric first`, `imperial`, `inches first`."""
    match = re.fullmatch(r"(metric|cm|imperial|inch(?:es)?|in)(?:\s+first)?", text.strip().lower())
    if match is None:
        raise UnreadError(f'"{text.strip()}" names no units', "metric first or imperial first")
    return "metric" if match.group(1) in ("metric", "cm") else "imperial"


def read_inch(text: str) -> float:
    """How many centimetres stand for an inch of gauge: `2.5 cm`, `2.54 cm`, `trade`, `exact`."""
    words = text.strip().lower().removesuffix("cm").strip().replace(",", ".")
    if words in ("2.5", "trade", "2.54", "exact"):
        return CM_PER_INCH if words in ("2.54", "exact") else 2.5
    raise UnreadError(f'"{text.strip()}" is not an inch', "2.5 cm, the trade's rule, or 2.54 cm", 'write "2.54 cm"')


def read_count(text: str) -> int:
    """A whole number from 1 to 999; a word may follow it: `2`, `2 strands`, `120 wraps`."""
    count = read_whole(re.sub(r"\s*(?:strands?|wraps?|times)$", "", text.strip()))
    if not 1 <= count <= 999:
        raise UnreadError(f'"{text.strip()}" is out of range', "a whole number from 1 to 999")
    return count


def read_number(text: str) -> float:
    """A plain number, such as a count of stitches in a gauge: `16`, `14½`."""
    cleaned = re.sub(r"\s*(?:sts?|stitches|rows?|rnds?|rounds?)$", "", text.strip())
    try:
        return read_amount(cleaned)
    except ValueError as mistake:
        if isinstance(mistake, UnreadError):
            raise
        raise UnreadError(f'"{text.strip()}" is not a number', "a number, such as 16 or 14½") from None


def split_list(text: str) -> list[str]:
    """The items of a list on one line, commas between them."""
    return [item.strip() for item in re.split(r"[,;]", text) if item.strip()]


_TEXT = {"type": ["string", "number"]}
_QUANTITY = {"type": "string"}

Line = Annotated[str, read_with(read_line, str), WithJsonSchema(_TEXT)]
Paragraph = Annotated[str, read_with(read_paragraph, str), WithJsonSchema(_TEXT)]
Whole = Annotated[int, read_with(read_whole, int), WithJsonSchema({"type": ["integer", "string"]})]
Number = Annotated[float, read_with(read_number, float, int), WithJsonSchema({"type": ["number", "string"]})]
LengthField = Annotated[
    Length, read_with(read_length, Length), WithJsonSchema(_QUANTITY | {"examples": ["70 cm", "27½ in"]})
]
Extent = Annotated[
    tuple[Length, Length], read_with(read_extent, tuple), WithJsonSchema(_QUANTITY | {"examples": ["14 x 16 cm"]})
]
Grams = Annotated[float, read_with(read_grams, float), WithJsonSchema(_QUANTITY | {"examples": ["21 g"]})]
Ball = Annotated[
    tuple[float, float], read_with(read_ball, tuple), WithJsonSchema(_QUANTITY | {"examples": ["100 g = 200 m"]})
]
Amount = Annotated[
    YarnAmount, read_with(read_yarn_amount, YarnAmount), WithJsonSchema(_QUANTITY | {"examples": ["310 g", "290 m"]})
]
Count = Annotated[int, read_with(read_count, int), WithJsonSchema({"type": ["integer", "string"]})]
Inch = Annotated[float, read_with(read_inch, float), WithJsonSchema(_QUANTITY | {"examples": ["2.5 cm", "2.54 cm"]})]
Share = Annotated[
    float, read_with(read_share, float), WithJsonSchema({"type": ["string", "number"], "examples": ["10 %"]})
]
HookSize = Annotated[float, read_with(read_hook, float), WithJsonSchema(_QUANTITY | {"examples": ["5 mm"]})]
YarnWeight = Annotated[
    tuple[int, str],
    read_with(read_yarn_weight, tuple),
    WithJsonSchema({"type": ["string", "integer"], "examples": ["4 Medium"]}),
]
Level = Annotated[str, read_with(choice(LEVELS), str), WithJsonSchema({"enum": list(LEVELS)})]
Terms = Annotated[str, read_with(choice(TERMS), str), WithJsonSchema({"enum": list(TERMS)})]
OLD_TERMS = tuple(load_table("dialects"))
OldTerms = Annotated[str, read_with(choice(OLD_TERMS), str), WithJsonSchema({"enum": list(OLD_TERMS)})]
Paper = Annotated[str, read_with(choice(PAPERS), str), WithJsonSchema({"enum": list(PAPERS)})]
Edition = Annotated[str, read_with(read_edition, str), WithJsonSchema({"enum": list(EDITION_NAMES)})]
FoldField = Annotated[
    tuple[str, int], read_with(read_fold, tuple), WithJsonSchema(_QUANTITY | {"examples": ["lengthwise", "at row 12"]})
]
Address = Annotated[str, read_with(read_address, str), WithJsonSchema({"type": "string", "format": "uri"})]
Direction = Annotated[str, read_with(choice(DIRECTIONS), str), WithJsonSchema({"enum": list(DIRECTIONS)})]
MadeFor = Annotated[
    str, read_with(_read_made_for, str), WithJsonSchema({"enum": list(load_table("cautions")["made_for"])})
]
CautionName = Annotated[
    str, read_with(_read_caution, str), WithJsonSchema({"enum": list(load_table("cautions")["cautions"])})
]
MoneyField = Annotated[Money, read_with(read_money, Money), WithJsonSchema(_TEXT | {"examples": ["USD 20", "6.50 €"]})]
Fees = Annotated[
    tuple[Money | None, float], read_with(read_fees, tuple), WithJsonSchema(_TEXT | {"examples": ["0.95", "12 %"]})
]
Seconds = Annotated[Range, read_with(read_seconds, tuple), WithJsonSchema(_TEXT | {"examples": ["2.8", "2.5 to 4"]})]
Minutes = Annotated[Range, read_with(read_minutes, tuple), WithJsonSchema(_TEXT | {"examples": ["30 to 45 min"]})]
Date = Annotated[str, read_with(read_date, str), WithJsonSchema({"type": "string", "format": "date"})]
Version = Annotated[str, read_with(read_version, str), WithJsonSchema(_TEXT)]
Shade = Annotated[
    str, read_with(read_shade, str), WithJsonSchema(_QUANTITY | {"pattern": "^#[0-9a-fA-F]{3}([0-9a-fA-F]{3})?$"})
]
Multiple = Annotated[
    tuple[int, int],
    read_with(read_multiple, tuple),
    WithJsonSchema({"type": ["string", "integer"], "examples": ["2 + 1"]}),
]
Truth = Annotated[bool, read_with(read_truth, bool), WithJsonSchema({"type": ["boolean", "string"]})]
Units = Annotated[
    str, read_with(read_units, str), WithJsonSchema({"enum": ["metric first", "imperial first", "metric", "imperial"]})
]
