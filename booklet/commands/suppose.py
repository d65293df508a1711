"""`booklet suppose`: what becomes of a pattern if its gauge, a number or its yarn is another."""

import json
from collections.abc import Sequence
from dataclasses import asdict

import click

from booklet.commands.asking import ask_each, prove_sound


@click.command()
@click.argument("source")
@click.option("--gauge", "gauges", multiple=True, metavar="GAUGE", help="It came out so: 13, or 13 sts and 11 rows.")
@click.option("--number", "numbers", multiple=True, metavar="CHANGE", help="A named number changed: panel+4, panel=36.")
@click.option("--yarn", "yarns", multiple=True, metavar="WEIGHT", help="Another weight: 3 Light, 50 g = 120 m.")
@click.option("--fewer", multiple=True, metavar="BALLS", help="Fewer balls of a colour: B, or B 2 balls.")
@click.option("--have", multiple=True, metavar="AMOUNT", help="So much of a colour: B 3 balls, B 240 m, B 85 g.")
@click.option("--json", "as_json", is_flag=True, help="Print one object for scripts instead of text.")
def suppose(
    source: str,
    gauges: Sequence[str],
    numbers: Sequence[str],
    yarns: Sequence[str],
    fewer: Sequence[str],
    have: Sequence[str],
    as_json: bool,
) -> None:
    """Say what becomes of SOURCE if its gauge, a number or its yarn is another, for every size.

    Each option is a question of its own; nothing is written.
    """
    from booklet.amounts.amounts import round_floats
    from booklet.answers import asked, running_out, supposing, telling

    if not (gauges or numbers or yarns or fewer or have):
        raise click.UsageError("nothing is supposed: give --gauge, --number, --yarn, --fewer or --have")
    known = prove_sound(source)
    suppositions = [
        *ask_each("--gauge", gauges, lambda text: supposing.suppose_gauge(known, asked.read_other_gauge(text))),
        *ask_each("--number", numbers, lambda text: supposing.suppose_number(known, asked.read_other_number(text))),
        *ask_each("--yarn", yarns, lambda text: supposing.suppose_yarn(known, asked.read_other_yarn(text))),
    ]
    stocks = [
        *ask_each("--fewer", fewer, lambda text: running_out.measure_stock(known, asked.read_fewer(text))),
        *ask_each("--have", have, lambda text: running_out.measure_stock(known, asked.read_stock(text))),
    ]
    if as_json:
        plain = {
            "source": known.proof.source.path,
            "title": known.pattern.title,
            "sizes": list(known.pattern.size_names),
            "suppositions": [asdict(answer) for answer in suppositions],
            "stocks": [[asdict(answer) for answer in answers] for answers in stocks],
        }
        click.echo(json.dumps(round_floats(plain), ensure_ascii=False, indent=1))
        return
    told = [list(telling.tell_supposition(known.pattern, answer)) for answer in suppositions]
    told += [list(telling.tell_stock(known.pattern, answers)) for answers in stocks]
    click.echo("\n\n".join("\n".join(lines) for lines in told))
