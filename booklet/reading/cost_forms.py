"""The keys under `costs:`."""

from typing import ClassVar

from pydantic import Field

from booklet.reading.fields import Fees, Minutes, MoneyField, Seconds, Share, Whole
from booklet.reading.form import Form


class CostForm(Form):
    """What time and cost are worked out from. All of it is private: no booklet prints it."""

    expected: ClassVar[str] = "keys such as seconds, rate and ball price"

    seconds: Seconds | None = None
    finishing: Minutes = (0.0, 0.0)
    rate: MoneyField | None = None
    ball_price: MoneyField | None = Field(None, alias="ball price")
    other: MoneyField | None = None
    profit: Share = 0.0
    spent: MoneyField | None = None
    price: MoneyField | None = None
    fees: Fees = (None, 0.0)
    sales: Whole | None = None
