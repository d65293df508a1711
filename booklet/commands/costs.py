"""`booklet costs`: how long an item takes, what it costs, and what price pays the costs back."""

import json
from collections.abc import Callable
from dataclasses import asdict, replace
from typing import TYPE_CHECKING

import click

from booklet.commands.asking import ask_each, prove_sound

if TYPE_CHECKING:
    from booklet.model.costs import CostFacts


@click.command()
@click.argument("source")
@click.option("--seconds", default="", metavar="RANGE", help="What a stitch takes: 2.5 to 4.")
@click.option("--finishing", default="", metavar="RANGE", help="What finishing an item takes: 30 to 45 min.")
@click.option("--rate", default="", metavar="MONEY", help="What an hour is worth: USD 20.")
@click.option("--ball-price", default="", metavar="MONEY", help="What a ball costs.")
@click.option("--other", default="", metavar="MONEY", help="Other materials of an item.")
@click.option("--profit", default="", metavar="SHARE", help="On top of the cost of an item: 10%.")
@click.option("--spent", default="", metavar="MONEY", help="What the pattern itself has cost.")
@click.option("--price", default="", metavar="MONEY", help="What the pattern sells for.")
@click.option("--fees", default="", metavar="FEES", help="What a sale costs: 0.95, or 12%.")
@click.option("--sales", type=click.IntRange(1, 1_000_000), help="How many patterns are to pay it back.")
@click.option("--json", "as_json", is_flag=True, help="Print one object for scripts instead of text.")
def costs(source: str, sales: int | None, as_json: bool, **given: str) -> None:
    """Say how long an item of SOURCE takes, what it costs, and what price pays the costs back.

    What is not given here is taken from `costs:` in SOURCE; it is never printed in a booklet.
    """
    from booklet.amounts.amounts import round_floats
    from booklet.answers.cost_words import tell_costs
    from booklet.answers.costs import count_costs

    known = prove_sound(source)
    facts = _read_costs(known.pattern.costs, given, sales)
    sheet = ask_each("SOURCE", [source], lambda _: count_costs(known, facts))[0]
    if as_json:
        click.echo(json.dumps(round_floats(asdict(sheet)), ensure_ascii=False, indent=1))
        return
    for line in tell_costs(sheet):
        click.echo(line)


def _read_costs(kept: "CostFacts", given: dict[str, str], sales: int | None) -> "CostFacts":
    """The facts of the pattern with those of the command line in their place."""
    from booklet.reading import money
    from booklet.reading.quantities import read_share

    readers: dict[str, Callable[[str], object]] = {
        "seconds": money.read_seconds,
        "finishing": money.read_minutes,
        "profit": read_share,
        "fees": money.read_fees,
    }
    facts: dict[str, object] = {"sales": sales} if sales else {}
    for name, text in given.items():
        for value in ask_each(
            f"--{name.replace('_', '-')}", [text] if text else [], readers.get(name, money.read_money)
        ):
            if name == "fees":
                facts["fees"], facts["fee_share"] = value  # type: ignore[misc]
            else:
                facts[name] = value
    return replace(kept, **facts)  # type: ignore[arg-type]
