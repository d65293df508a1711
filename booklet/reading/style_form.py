"""The keys under `style:`: what publishers disagree about in the printed form of a pattern."""

import re
from typing import Annotated, ClassVar

from pydantic import Field, WithJsonSchema

from booklet.model.style import Style
from booklet.reading.fields import choice, read_with
from booklet.reading.form import Form
from booklet.reading.quantities import UnreadError

MOST_IN_WORDS = 20

REPEATS = ("round", "square", "stars")
BRACKETS = ("round", "square")
NESTED = ("round", "square", "other")
COUNTS = ("round", "square", "dash", "equals sign", "full stop")
COUNT_PLACES = ("end of row", "own line")
COUNT_FORMS = ("total", "stitches", "number")
COUNT_ROWS = ("all", "changed")
TURNING_CHAINS = ("start of row", "row before")
TIMES = ("digits", "words", "plain words")
FIGURES = ("digits", "words")
ROW_LABELS = ("Row", "R")
ROUND_LABELS = ("Rnd", "Round", "R")
LABEL_TYPES = ("bold", "plain")
HOOKS = ("metric first", "US first")
NOTES = ("italic", "upright")
LISTS = ("bullets", "plain")
PLACES = ("before", "after")


def read_limit(text: str) -> int:
    """The largest number that is spelled out: `10`, `up to 10`."""
    match = re.fullmatch(r"(?:up\s+to\s+)?(\d{1,4})", text.strip().lower())
    if match is None or not 1 <= int(match[1]) <= MOST_IN_WORDS:
        raise UnreadError(f'"{text.strip()}" is no number to spell out up to', f"a number from 1 to {MOST_IN_WORDS}")
    return int(match[1])


Limit = Annotated[int, read_with(read_limit, int), WithJsonSchema({"type": ["integer", "string"]})]
Repeats = Annotated[str, read_with(choice(REPEATS), str), WithJsonSchema({"enum": list(REPEATS)})]
Brackets = Annotated[str, read_with(choice(BRACKETS), str), WithJsonSchema({"enum": list(BRACKETS)})]
Nested = Annotated[str, read_with(choice(NESTED), str), WithJsonSchema({"enum": list(NESTED)})]
Counts = Annotated[str, read_with(choice(COUNTS), str), WithJsonSchema({"enum": list(COUNTS)})]
CountPlace = Annotated[str, read_with(choice(COUNT_PLACES), str), WithJsonSchema({"enum": list(COUNT_PLACES)})]
CountForm = Annotated[str, read_with(choice(COUNT_FORMS), str), WithJsonSchema({"enum": list(COUNT_FORMS)})]
CountRows = Annotated[str, read_with(choice(COUNT_ROWS), str), WithJsonSchema({"enum": list(COUNT_ROWS)})]
TurningChain = Annotated[str, read_with(choice(TURNING_CHAINS), str), WithJsonSchema({"enum": list(TURNING_CHAINS)})]
Times = Annotated[str, read_with(choice(TIMES), str), WithJsonSchema({"enum": list(TIMES)})]
Figures = Annotated[str, read_with(choice(FIGURES), str), WithJsonSchema({"enum": list(FIGURES)})]
RowLabel = Annotated[str, read_with(choice(ROW_LABELS), str), WithJsonSchema({"enum": list(ROW_LABELS)})]
RoundLabel = Annotated[str, read_with(choice(ROUND_LABELS), str), WithJsonSchema({"enum": list(ROUND_LABELS)})]
LabelType = Annotated[str, read_with(choice(LABEL_TYPES), str), WithJsonSchema({"enum": list(LABEL_TYPES)})]
Hooks = Annotated[str, read_with(choice(HOOKS), str), WithJsonSchema({"enum": list(HOOKS)})]
NoteType = Annotated[str, read_with(choice(NOTES), str), WithJsonSchema({"enum": list(NOTES)})]
Lists = Annotated[str, read_with(choice(LISTS), str), WithJsonSchema({"enum": list(LISTS)})]
FrontPlace = Annotated[str, read_with(choice(PLACES), str), WithJsonSchema({"enum": list(PLACES)})]


class StyleForm(Form):
    """House style: how rows and pages are printed. What is left out stays as the author and the theme have it."""

    expected: ClassVar[str] = "keys such as repeats and counts"

    repeats: Repeats = Field("", description="The bracket of steps that are worked again.")
    groups: Brackets = Field("", description="The bracket of steps that are worked into one place.")
    nested: Nested = Field("", description="The bracket of a group or repeat within another bracket.")
    counts: Counts = Field("", description="What the count of a row stands in or behind.")
    count_place: CountPlace = Field("", alias="count place", description="Where the count stands.")
    count_form: CountForm = Field("", alias="count form", description="18 sts, 18 sc, or the bare number.")
    count_rows: CountRows = Field("", alias="count rows", description="All rows, or those whose count changes.")
    turning_chain: TurningChain = Field("", alias="turning chain", description="Which row a turning chain stands in.")
    times: Times = Field("", description="How often: 2 times, twice, two times.")
    numbers: Figures = Field("", description="Numbers of stitches and places in digits or in words.")
    words_up_to: Limit | None = Field(None, alias="words up to", description="The largest number spelled out, 10.")
    rows: RowLabel = Field("", description="The word before the number of a row.")
    rounds: RoundLabel = Field("", description="The word before the number of a round.")
    sides: Brackets = Field("", description="The bracket of RS and WS behind a label.")
    labels: LabelType = Field("", description="The letter that labels are set in.")
    hooks: Hooks = Field("", description="Which size of a hook stands first.")
    notes: NoteType = Field("", description="The letter that notes and stressed words are set in.")
    lists: Lists = Field("", description="Lists with bullets or without.")
    front_matter: FrontPlace = Field(
        "", alias="front matter", description="Materials, gauge and abbreviations before the rows or after them."
    )


def find_style(form: StyleForm | None, house: Style = Style()) -> Style:
    """The style that a form gives, over that of the house."""
    return Style(**form.model_dump()).over(house) if form is not None else house
