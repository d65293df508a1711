"""`booklet tables`: what the trade's tables hold, each figure with where it comes from and how far it is trusted."""

from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING

import click

if TYPE_CHECKING:
    from booklet.model.size_tables import SizeTable

OTHERS = ("hooks", "yarn weights", "fits")
TRUST = {
    "seen": "seen in its source",
    "secondary": "as another page repeats it",
    "memory": "from memory, not checked",
    "computed": "worked out",
    "own": "your own",
}


@click.command()
@click.argument("name", required=False, nargs=-1)
@click.option("--house", type=click.Path(path_type=Path, exists=True), help="A house file, for your own tables.")
def tables(name: tuple[str, ...], house: Path | None) -> None:
    """List the tables of sizes, hooks and yarn weights, or print the one called NAME with its sources."""
    from booklet.reading.house import read_house
    from booklet.reading.size_tables import find_table, join_tables

    own, told = read_house(house) if house is not None else (None, ())
    for finding in told:
        click.echo(f"{finding.span.file.path}:{finding.span.line}: {finding.message}", err=True)
    known = join_tables(own.size_tables if own else ())
    words = " ".join(name).strip().lower()
    if not words:
        for table in known:
            click.echo(f"{table.name:12} {table.title}: {', '.join(table.sizes)}")
        click.echo("\n".join(f"{other:12}" for other in OTHERS))
        return
    if words in OTHERS:
        lines = {"hooks": _list_hooks, "yarn weights": _list_weights, "fits": _list_fits}[words]()
    else:
        found = find_table(words, known)
        if found is None:
            listed = ", ".join([*(table.name for table in known), *OTHERS])
            raise click.BadParameter(f"there is no table {words!r}; there are {listed}", param_hint="NAME")
        lines = _list_sizes(found)
    for line in lines:
        click.echo(line)


def _list_sizes(table: "SizeTable") -> Iterator[str]:
    kind = "measures of the body or the bed; ease is not in them" if table.kind == "body" else "finished measures"
    yield f"{table.title} ({table.name}): {kind}"
    if table.note:
        yield table.note
    for measure in table.measures:
        yield ""
        figures = {size: entry[measure] for size, entry in table.sizes.items() if measure in entry}
        for source, trust in dict.fromkeys((figure.source, figure.trust) for figure in figures.values()):
            yield f"{measure}: {source or 'no source given'} ({TRUST.get(trust, trust)})"
            for size, figure in figures.items():
                if (figure.source, figure.trust) != (source, trust):
                    continue
                low, high = figure.low, figure.high
                amount = f"{low.amount:g}" if low == high else f"{low.amount:g}-{high.amount:g}"
                middle = figure.middle.cm
                yield f"  {size:14} {amount} {high.unit}" + (f" ({middle:.1f} cm)" if high.unit == "in" else "")


def _list_hooks() -> Iterator[str]:
    from booklet.terms import load_table

    for kind, entries in load_table("hooks").items():
        yield f"{kind} hooks; the millimetres are what counts, letters differ from maker to maker"
        for entry in entries:
            others = ", ".join(entry.get("also", ()))
            label = entry["us"] + (f" (also {others})" if others and entry["us"] else others)
            yield f"  {entry['mm']:<6g} mm  {label or '-':18} {entry['source']} ({TRUST[entry['trust']]})"


def _list_weights() -> Iterator[str]:
    from booklet.terms import load_table

    for number, entry in load_table("yarn_weights").items():
        low, high = entry["sc_per_4in"]
        band = f"{low}-{high}" if low is not None else f"up to {high}"
        small, large = entry["hook_mm"]
        hooks = f"{small:g}-{large:g} mm" if large is not None else f"{small:g} mm and larger"
        yield f"{number} {entry['name']} ({', '.join(entry['types'])}): {band} {entry['gauge_stitch']} to 4 in, {hooks}"
        yield f"  {entry['source']} ({TRUST[entry['trust']]})"


def _list_fits() -> Iterator[str]:
    from booklet.terms import load_table

    yield "Ease by how a garment fits; of a range the middle is taken"
    for name, entry in load_table("fits").items():
        (low, high), (least, most) = entry["cm"], entry["in"]
        figures = f"{low} to {high} cm ({least} to {most} in)" if low != high else f"{low} cm ({least} in)"
        yield f"  {name:12} {figures}"
        yield f"  {entry['source']} ({TRUST[entry['trust']]})"
