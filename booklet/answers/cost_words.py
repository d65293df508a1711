"""Time, cost and price in words, for the terminal, with what was assumed."""

import math
from collections.abc import Iterator

from booklet.amounts.figures import print_number
from booklet.amounts.making_time import print_hours
from booklet.answers.costs import HAIR, CostSheet, ItemCost, PatternPrice
from booklet.answers.layout import lay_columns, print_balls
from booklet.findings import counted
from booklet.model.costs import Range


def tell_costs(sheet: CostSheet) -> Iterator[str]:
    """The sheet, size by size, then the pattern's own price, then the assumptions."""
    yield f"{sheet.title}: time and cost of one item"
    lines = [_list_item(sheet, item) for item in sheet.items]
    head = ("size", "stitches", "time", "yarn bought", "yarn used", "materials", "labour", "cost", "with profit")
    yield from lay_columns(head, lines)
    if sheet.pattern is not None:
        yield from ("", "The pattern itself")
        yield from _tell_pattern(sheet, sheet.pattern)
    yield from ("", "What is assumed")
    source = f" ({sheet.seconds_source})" if sheet.seconds_source else ""
    yield f"  {print_pace(sheet.seconds)} seconds a stitch, chains left out{source}"
    low, high = sheet.finishing_minutes
    yield f"  finishing: {_join(low, high)} min an item" if high else "  ends, seams and finishing take no time here"
    if any(item.materials is not None for item in sheet.items):
        yield "  materials are the yarn that is used, not the rest of the last balls, and what else was given"
    if sheet.profit:
        yield f"  profit: {print_number(sheet.profit * 100)} % on top of the cost"
    yield "  prices are what these figures come to, no advice"


def _list_item(sheet: CostSheet, item: ItemCost) -> tuple[str, ...]:
    bought = "" if item.yarn_bought is None else f"{print_balls(item.balls)}, {_money(item.yarn_bought, sheet)}"
    return (
        item.size,
        str(item.stitches),
        print_hours(item.hours),
        bought,
        _money(item.yarn_used, sheet),
        _money(item.materials, sheet),
        _money_range(item.labour, sheet),
        _money_range(item.cost, sheet),
        _money_range(item.price, sheet) if sheet.profit else "",
    )


def _tell_pattern(sheet: CostSheet, pattern: PatternPrice) -> Iterator[str]:
    spent = _money(pattern.spent, sheet)
    if pattern.sales_needed is not None:
        yield (
            f"  {spent} are paid back by {counted(pattern.sales_needed, 'sale')} at {_money(pattern.price, sheet)}, "
            f"of which {_money(pattern.net, sheet)} is left"
        )
    if pattern.price_needed is not None:
        price = math.ceil(pattern.price_needed * 100 - HAIR) / 100  # short by a hair, it would not pay back
        yield f"  {spent} are paid back by {counted(pattern.sales or 0, 'sale')} at {_money(price, sheet)}"
    if pattern.sales_needed is None and pattern.price_needed is None:
        yield f"  {spent} were spent; give a price or a number of sales to see what pays them back"


def print_pace(seconds: Range) -> str:
    return _join(*seconds)


def _join(low: float, high: float) -> str:
    return print_number(low) if low == high else f"{print_number(low)} to {print_number(high)}"


def _money(amount: float | None, sheet: CostSheet) -> str:
    if amount is None:
        return ""
    figure = f"{amount:.2f}"
    if not sheet.currency:
        return figure
    return f"{sheet.currency}{'' if len(sheet.currency) == 1 else ' '}{figure}"


def _money_range(amounts: Range | None, sheet: CostSheet) -> str:
    if amounts is None:
        return ""
    low, high = (_money(amount, sheet) for amount in amounts)
    return low if low == high else f"{low} to {high.removeprefix(sheet.currency).strip()}"
