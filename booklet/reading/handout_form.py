"""The keys under `handout:`, and lines that may stand alone or in a list."""

from typing import Annotated, ClassVar

from pydantic import Field, WithJsonSchema

from booklet.reading.fields import Date, Line, Paragraph, split_list
from booklet.reading.form import Form, before


def spread_list(value: object) -> object:
    return split_list(value) if isinstance(value, str) else value


_LINES = WithJsonSchema({"type": ["array", "string"], "items": {"type": ["string", "number"]}})
Lines = Annotated[tuple[Line, ...], before(spread_list), _LINES]


class HandoutForm(Form):
    """What a group says on its sheet beside the pattern; all of it in the group's own words."""

    expected: ClassVar[str] = "keys such as not accepted and hand in"

    made_for: Line = Field("", alias="for", description="Who receives the pieces.")
    not_accepted: Lines = Field((), alias="not accepted", description="What the group cannot take.")
    hand_in: Paragraph = Field("", alias="hand in", description="Where and when pieces are handed in.")
    labels: Paragraph = Field("", description="What to write on the piece or its bag, and how to wash it.")
    contact: Line = Field("", description="Whom to ask.")
    rules_of: Date = Field("", alias="rules of", description="The day of these rules, such as 2026-03-14.")
    copying: Paragraph = Field("", description="Who may copy the sheet.")
