"""How long an item takes, what it costs, and prices that pay the costs back. Only where it is asked for.

Time is stitches times seconds, as a range, chains left out as in the published figures. Yarn is counted twice:
what has to be bought, and the share of it that is used. A price is what the maker's figures come to, no advice.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from booklet.amounts.making_time import count_hours, count_stitches, usual_seconds
from booklet.answers.supposing import Known
from booklet.model.costs import CostFacts, Money, Range
from booklet.reading.quantities import UnreadError

HAIR = 1e-9


@dataclass(frozen=True, slots=True)
class ItemCost:
    """One item in one size; money is None where nothing was given to work it out from.

    `hours` and all that follows from them are ranges, the quick pace first. `yarn_bought` is whole balls,
    `yarn_used` the share of them that is in the item, and `cost` is by the yarn used.
    """

    size: str
    stitches: int
    hours: Range
    balls: int | None
    yarn_bought: float | None
    yarn_used: float | None
    materials: float | None
    labour: Range | None
    cost: Range | None
    price: Range | None


@dataclass(frozen=True, slots=True)
class PatternPrice:
    """What pays the pattern's own costs back: so many sales at a price, or a price at so many sales."""

    spent: float
    price: float | None
    net: float | None  # what one sale leaves
    sales_needed: int | None
    sales: int | None
    price_needed: float | None


@dataclass(frozen=True, slots=True)
class CostSheet:
    """All of it, with what was assumed."""

    title: str
    currency: str
    seconds: Range
    seconds_source: str  # "" where they are the designer's own
    finishing_minutes: Range
    items: tuple[ItemCost, ...]
    pattern: PatternPrice | None
    profit: float


def count_costs(known: Known, facts: CostFacts) -> CostSheet:
    """The sheet. Raises UnreadError where currencies are mixed, or fees leave nothing of a price."""
    currency = _find_currency(facts)
    seconds, source = (facts.seconds, "") if facts.seconds else usual_seconds()
    return CostSheet(
        title=known.pattern.title,
        currency=currency,
        seconds=seconds,
        seconds_source=source,
        finishing_minutes=facts.finishing,
        items=tuple(_count_item(known, facts, seconds, size) for size in range(len(known.pattern.size_names))),
        pattern=_pay_back(facts),
        profit=facts.profit,
    )


def _count_item(known: Known, facts: CostFacts, seconds: Range, size: int) -> ItemCost:
    name = known.pattern.size_names[size]
    stitches = count_stitches(known.pattern, known.worked, size)
    hours = count_hours(stitches, seconds, facts.finishing)
    total = known.amounts.yarn.totals.get(name) if known.amounts.yarn else None
    ball = known.pattern.yarn.ball_metres if known.pattern.yarn else None
    balls = total.balls if total else None
    bought = balls * facts.ball_price.amount if facts.ball_price and balls is not None else None
    used = total.metres / ball * facts.ball_price.amount if facts.ball_price and total and ball else None
    known_costs = [cost for cost in (used, facts.other.amount if facts.other else None) if cost is not None]
    materials = sum(known_costs) if known_costs else None
    labour = (hours[0] * facts.rate.amount, hours[1] * facts.rate.amount) if facts.rate else None
    cost = (labour[0] + (materials or 0.0), labour[1] + (materials or 0.0)) if labour else None
    share = 1 + facts.profit
    return ItemCost(
        size=name,
        stitches=stitches,
        hours=hours,
        balls=balls,
        yarn_bought=bought,
        yarn_used=used,
        materials=materials,
        labour=labour,
        cost=cost,
        price=(cost[0] * share, cost[1] * share) if cost else None,
    )


def _pay_back(facts: CostFacts) -> PatternPrice | None:
    """Sales that pay the costs back at a price, and the price that does at so many sales."""
    if facts.spent is None:
        return None
    fees = facts.fees.amount if facts.fees else 0.0
    net = needed = wanted = None
    if facts.price is not None:
        net = facts.price.amount * (1 - facts.fee_share) - fees
        if net <= 0:
            raise UnreadError("the fees leave nothing of the price", "a price above the fees of one sale")
        needed = math.ceil(facts.spent.amount / net - HAIR)
    if facts.sales:
        wanted = (facts.spent.amount / facts.sales + fees) / (1 - facts.fee_share) if facts.fee_share < 1 else None
    price = facts.price.amount if facts.price else None
    return PatternPrice(facts.spent.amount, price, net, needed, facts.sales, wanted)


def _find_currency(facts: CostFacts) -> str:
    given: Sequence[Money | None] = (
        facts.rate,
        facts.ball_price,
        facts.other,
        facts.spent,
        facts.price,
        facts.fees,
    )
    named = list(dict.fromkeys(money.currency for money in given if money is not None and money.currency))
    if len(named) > 1:
        raise UnreadError(f"{' and '.join(named)} are mixed", "one currency for all amounts")
    return named[0] if named else ""
