"""Money and time as kinds of value that the front matter may hold."""

from typing import Annotated

from pydantic import WithJsonSchema

from booklet.model.costs import Money, Range
from booklet.reading.fields import reader
from booklet.reading.money import read_fees, read_minutes, read_money, read_seconds

_TEXT = {"type": ["string", "number"]}

MoneyField = Annotated[Money, reader(read_money, Money), WithJsonSchema(_TEXT | {"examples": ["USD 20", "6.50 €"]})]
Fees = Annotated[
    tuple[Money | None, float], reader(read_fees, tuple), WithJsonSchema(_TEXT | {"examples": ["0.95", "12 %"]})
]
Seconds = Annotated[Range, reader(read_seconds, tuple), WithJsonSchema(_TEXT | {"examples": ["2.8", "2.5 to 4"]})]
Minutes = Annotated[Range, reader(read_minutes, tuple), WithJsonSchema(_TEXT | {"examples": ["30 to 45 min"]})]
