"""`booklet kits`: a kit list for a group, as one sheet or as figures for scripts."""

import json
import sys
from dataclasses import asdict, replace
from pathlib import Path
from typing import TYPE_CHECKING

import click

from booklet.commands.asking import ask_each, prove_sound
from booklet.commands.showing import FOUND, exit_status, show_findings
from booklet.findings.render import has_errors

if TYPE_CHECKING:
    from booklet.model.kits import KitOrder


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
    known = [prove_sound(_find_pattern(given, lot.pattern)) for lot in given.lots]
    listed = ask_each("ORDER", [order], lambda _: list_kits(given, known))[0]
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

    kept = ask_each("--spare", [spare] if spare else [], read_share)
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
