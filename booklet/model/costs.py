"""What a designer gives to have time, cost and price worked out. All of it is private and optional."""

from dataclasses import dataclass

Range = tuple[float, float]


@dataclass(frozen=True, slots=True)
class Money:
    """An amount in a currency as it was written; "" where none was."""

    amount: float
    currency: str = ""


@dataclass(frozen=True, slots=True)
class CostFacts:
    """`seconds` a stitch and `finishing` minutes an item are ranges; `rate` is for an hour.

    `ball_price` and `other` are an item's materials, `profit` a share on top. `spent` is what the pattern itself
    cost to publish, `price` and `fees` are for one sale of it, `fee_share` is a share of the price.
    """

    seconds: Range | None = None
    finishing: Range = (0.0, 0.0)
    rate: Money | None = None
    ball_price: Money | None = None
    other: Money | None = None
    profit: float = 0.0
    spent: Money | None = None
    price: Money | None = None
    fees: Money | None = None
    fee_share: float = 0.0
    sales: int | None = None
