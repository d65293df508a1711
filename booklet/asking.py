"""The commands that ask something of a proved pattern: what if, kits, a teaching sample, time and cost."""

import json
import sys
from collections.abc import Callable, Sequence
from dataclasses import asdict, replace
from pathlib import Path
from typing import TYPE_CHECKING, TypeVar

import click

from booklet.findings.render import has_errors
from booklet.terminal import FOUND, exit_status, show_findings

if TYPE_CHECKING:
    from booklet.answers.supposing import Known
    from booklet.model.costs import CostFacts
    from booklet.model.kits import KitOrder

T = TypeVar("T")


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
    known = _prove(source)
    suppositions = [
        *_ask("--gauge", gauges, lambda text: supposing.suppose_gauge(known, asked.read_other_gauge(text))),
        *_ask("--number", numbers, lambda text: supposing.suppose_number(known, asked.read_other_number(text))),
        *_ask("--yarn", yarns, lambda text: supposing.suppose_yarn(known, asked.read_other_yarn(text))),
    ]
    stocks = [
        *_ask("--fewer", fewer, lambda text: running_out.measure_stock(known, asked.read_fewer(text))),
        *_ask("--have", have, lambda text: running_out.measure_stock(known, asked.read_stock(text))),
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


def _prove(source: str) -> "Known":
    """The proved pattern; where it is not sound, what was found is shown and the command ends."""
    from booklet.answers.supposing import know
    from booklet.pipeline import prove_file

    proof = prove_file(source)
    known = know(proof)
    if known is None or has_errors(proof.findings):
        show_findings(proof.findings, False, sys.stderr)
        click.echo("nothing is answered until the errors are gone", err=True)
        sys.exit(exit_status(proof.findings, False))
    return known


def _ask(option: str, texts: Sequence[str], answer: Callable[[str], T]) -> list[T]:
    """The answer to each text of an option; one that cannot be read or does not fit is a wrong command line."""
    from booklet.reading.quantities import UnreadError

    answers: list[T] = []
    for text in texts:
        try:
            answers.append(answer(text))
        except UnreadError as unread:
            hint = "; ".join(word for word in (unread.expected and f"expected: {unread.expected}", unread.fix) if word)
            message = f"{unread.message}; {hint}" if hint else unread.message
            raise click.BadParameter(message, param_hint=option) from None
    return answers


@click.command()
@click.argument("order")
@click.option("--makers", type=click.IntRange(1, 2000), help="Without an order file: how many makers.")
@click.option("--each", type=click.IntRange(1, 100), help="How many items each of them makes.")
@click.option("--spare", default="", metavar="SHARE", help="What to bring in reserve, such as 10%.")
@click.option("--out", default="build", show_default=True, type=click.Path(path_type=Path), help="Folder to write to.")
@click.option("--paper", "papers", multiple=True, type=click.Choice(["A4", "Letter"]), help="Only this one.")
@click.option("--theme", default="", metavar="NAME", help="Instead of the order's own.")
@click.option("--json", "as_json", is_flag=True, help="Print one object for scripts, and write nothing.")
def kits(
    order: str,
    makers: int | None,
    each: int | None,
    spare: str,
    out: Path,
    papers: tuple[str, ...],
    theme: str,
    as_json: bool,
) -> None:
    """List kits for a group: grams, balls, hooks, sheets, on one page.

    ORDER is a YAML file that names patterns, makers and a size table; or a pattern, with --makers.
    """
    from booklet.amounts.amounts import round_floats
    from booklet.answers.kit_files import Printing, print_kits
    from booklet.answers.kits import list_kits

    given = _read_order(order, makers, each, spare)
    known = [_prove(_find_pattern(given, lot.pattern)) for lot in given.lots]
    listed = _ask("ORDER", [order], lambda _: list_kits(given, known))[0]
    if as_json:
        click.echo(json.dumps(round_floats(asdict(listed)), ensure_ascii=False, indent=1))
        return
    paths, findings = print_kits(given, listed, Printing(out, papers, theme))
    show_findings(findings, False, sys.stderr)
    for path in paths:
        click.echo(path)
    sys.exit(exit_status(findings, False))


def _read_order(order: str, makers: int | None, each: int | None, spare: str) -> "KitOrder":
    """The order in a file, or the one that the options make of a pattern; options win over the file."""
    from booklet.model.kits import KitOrder, Lot
    from booklet.reading.orders import ENDINGS, read_order
    from booklet.reading.pattern import name_folder
    from booklet.reading.places import find_source
    from booklet.reading.quantities import read_share

    kept = _ask("--spare", [spare] if spare else [], read_share)
    if Path(order).suffix.lower() in ENDINGS:
        given, findings = read_order(Path(order))
        show_findings(findings, False, sys.stderr)
        if given is None or has_errors(findings):
            sys.exit(exit_status(findings, False) or FOUND)
    else:
        source, findings = find_source(order)
        if source is None:
            show_findings(findings, False, sys.stderr)
            sys.exit(exit_status(findings, False))
        if makers is None:
            raise click.UsageError("a pattern alone says nothing of a group: give --makers, or an order file")
        given = KitOrder(source, f"{name_folder(source)}-kits", makers, (Lot(order, source.whole()),))
    return replace(
        given,
        makers=makers or given.makers,
        each=each or given.each,
        spare=kept[0] if kept else given.spare,
    )


def _find_pattern(order: "KitOrder", name: str) -> str:
    """A pattern by its path from the order's folder, or from here."""
    beside = order.source.folder / name
    return str(beside) if beside.exists() else name


@click.command()
@click.argument("source")
@click.option("--out", default="build", show_default=True, type=click.Path(path_type=Path), help="Folder to write to.")
@click.option("--most", type=click.IntRange(1, 1000), help="The most stitches that its widest row may have.")
@click.option("--source-only", is_flag=True, help="Write its source alone, without the booklet.")
@click.option("--json", "as_json", is_flag=True, help="Print one object for scripts, and write nothing.")
def teach(source: str, out: Path, most: int | None, source_only: bool, as_json: bool) -> None:
    """Write the smallest version of SOURCE that still shows every kind of row, for a class or a video.

    It is a source of its own, proved, with its own chain, counts, measures and yarn, and its booklet.
    """
    from booklet.amounts.amounts import round_floats
    from booklet.answers import teaching
    from booklet.answers.samples import find_sample
    from booklet.pipeline import EDITIONS, Order

    full = _prove(source)
    try:
        lesson, known = teaching.teach(find_sample(full), out)
    except teaching.UnteachableError as failure:
        show_findings(failure.proof.findings, False, sys.stderr)
        click.echo(f"{failure}; nothing was written", err=True)
        sys.exit(FOUND)
    if most is not None and lesson.stitches > most:
        message = f"the smallest that keeps every row has {lesson.stitches} stitches in its widest"
        raise click.BadParameter(f"{message}; nothing was written", param_hint="--most")
    if as_json:
        click.echo(json.dumps(round_floats(asdict(lesson)), ensure_ascii=False, indent=1))
        return
    for line in teaching.tell_lesson(lesson, known):
        click.echo(line)
    paths, findings = teaching.write_lesson(known, Order(out, () if source_only else EDITIONS))
    show_findings(findings, False, sys.stderr)
    for path in paths:
        click.echo(path)
    sys.exit(exit_status(findings, False))


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

    known = _prove(source)
    facts = _read_costs(known.pattern.costs, given, sales)
    sheet = _ask("SOURCE", [source], lambda _: count_costs(known, facts))[0]
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
        for value in _ask(f"--{name.replace('_', '-')}", [text] if text else [], readers.get(name, money.read_money)):
            if name == "fees":
                facts["fees"], facts["fee_share"] = value  # type: ignore[misc]
            else:
                facts[name] = value
    return replace(kept, **facts)  # type: ignore[arg-type]


COMMANDS = (suppose, kits, teach, costs)
