"""The command line: what is typed, what is printed where, and the exit status.

A proof prints what was found on standard output; `make` prints the files that it wrote there, and
what was found on standard error. Parts that take long to load are loaded by the command that needs
them.
"""

import io
import json
import sys
from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import TYPE_CHECKING

import click

from booklet import __version__
from booklet.commands.costs import costs
from booklet.commands.kits import kits
from booklet.commands.rows import rows
from booklet.commands.showing import FOUND, UNUSABLE, exit_status, show_findings
from booklet.commands.suppose import suppose
from booklet.commands.tables import tables
from booklet.commands.teach import teach
from booklet.findings import Finding, counted
from booklet.findings.render import order_findings, render_brief, render_closing
from booklet.model.editions import ALL, EDITIONS

if TYPE_CHECKING:
    from booklet.pipeline import Order, Proof

__all__ = ["FOUND", "UNUSABLE", "main"]


@click.group(context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(__version__, message="%(prog)s %(version)s")
def main() -> None:
    """Proves a crochet pattern stitch by stitch and prints it as a booklet."""
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, io.TextIOWrapper):
            stream.reconfigure(errors="replace")  # ½ on a terminal of another encoding is no reason to stop


@main.command()
@click.argument("sources", nargs=-1, required=True, metavar="SOURCE…")
@click.option("--json", "as_json", is_flag=True, help="Print one object for scripts instead of text.")
@click.option("--brief", is_flag=True, help="One line for each finding.")
@click.option("--strict", is_flag=True, help="Let a warning count as an error.")
def proof(sources: tuple[str, ...], as_json: bool, brief: bool, strict: bool) -> None:
    """Work every row of SOURCE in every size and tell what was found; nothing is written."""
    from booklet.account import close_proof, proof_as_json
    from booklet.pipeline import list_sources, prove_file

    proofs: list[Proof] = []
    for source in _follow(list_sources(sources), "proving"):
        proven = prove_file(source)
        if not as_json:
            told = [finding for earlier in proofs for finding in earlier.findings]
            show_findings(_leave_out(proven.findings, told), brief, sys.stdout)
        proofs.append(proven)
        if not as_json:
            for line in close_proof(proven):
                click.echo(line)
    findings = order_findings(finding for proven in proofs for finding in proven.findings)
    if as_json:
        click.echo(json.dumps({"patterns": [proof_as_json(proven) for proven in proofs]}, ensure_ascii=False, indent=1))
    else:
        click.echo(render_closing(findings))
    sys.exit(exit_status(findings, strict))


@main.command()
@click.argument("sources", nargs=-1, required=True, metavar="SOURCE…")
@click.option(
    "--out", default="build", show_default=True, type=click.Path(path_type=Path), help="Folder to write into."
)
@click.option(
    "--paper", "papers", multiple=True, type=click.Choice(["A4", "Letter"]), help="Instead of the pattern's own."
)
@click.option(
    "--edition",
    "editions",
    multiple=True,
    type=click.Choice((*EDITIONS, ALL)),
    help="Only this one, or all; may be repeated.",
)
@click.option("--size", "sizes", multiple=True, metavar="NAME", help="Only the numbers of this size; may be repeated.")
@click.option("--theme", default="", metavar="NAME", help="Instead of the pattern's own.")
@click.option("--terms", type=click.Choice(["US", "UK"]), default=None, help="Print it in this set of English terms.")
@click.option("--brief", is_flag=True, help="One line for each finding.")
@click.option("--strict", is_flag=True, help="Let a warning stop the booklet.")
def make(
    sources: tuple[str, ...],
    out: Path,
    papers: tuple[str, ...],
    editions: tuple[str, ...],
    sizes: tuple[str, ...],
    theme: str,
    terms: str | None,
    brief: bool,
    strict: bool,
) -> None:
    """Prove SOURCE and print its booklet in every edition asked for.

    Where an error is found, nothing is written over.
    """
    from booklet.pipeline import Order, list_sources

    order = Order(out, editions, papers, theme, strict, terms or "", sizes)
    found: list[Finding] = []
    files = made = 0
    patterns = list_sources(sources)
    for paths, findings in _make_each(patterns, order):
        show_findings(_leave_out(findings, found), brief, sys.stderr)
        for path in paths:
            click.echo(path)
        found.extend(findings)
        files += len(paths)
        made += bool(paths)
    told = order_findings(found)
    click.echo(render_closing(told, _tell_outcome(made, len(patterns), files)), err=True)
    sys.exit(exit_status(told, strict))


def _make_each(patterns: Sequence[str], order: "Order") -> Iterator[tuple[Sequence[Path], Sequence[Finding]]]:
    """Files and findings of each pattern in turn; one that would write over another of the run is not made."""
    from booklet.output.messages import output_name_taken
    from booklet.pipeline import make_booklet, prove_file

    taken: dict[Path, str] = {}
    for pattern in _follow(patterns, "making"):
        proven = prove_file(pattern)
        if proven.pattern is not None:
            folder = order.folder_of(proven.pattern)
            other = taken.setdefault(folder, pattern)
            if other != pattern:
                taken_by = output_name_taken(proven.source.whole(), folder, other)
                yield (), order_findings((*proven.findings, taken_by))
                continue
        yield make_booklet(proven, order)


@main.command()
@click.argument("code")
def explain(code: str) -> None:
    """Say what the finding CODE means, why it matters, and what to write instead."""
    from booklet.findings import explain as explanations

    try:
        text = explanations.explain(code)
    except KeyError:
        near = explanations.suggest_codes(code)
        hint = f"; perhaps {' or '.join(near)}" if near else ""
        raise click.BadParameter(f"there is no finding {code!r}{hint}", param_hint="CODE") from None
    click.echo(text.rstrip())


@main.command()
@click.argument("name")
def new(name: str) -> None:
    """Make a folder NAME with a small pattern to write over."""
    from booklet.starter import write_starter

    try:
        file = write_starter(Path(name).name, Path(name).parent)
    except FileExistsError as taken:
        raise click.BadParameter(f"{taken.filename} is there already; nothing was written", param_hint="NAME") from None
    except (OSError, ValueError) as failure:
        raise click.BadParameter(str(failure), param_hint="NAME") from None
    click.echo(f"{file}\nwrite over it, then: booklet proof {file.parent}")


@main.command()
@click.argument("file", required=False, type=click.Path(path_type=Path, dir_okay=False))
def schema(file: Path | None) -> None:
    """Print the JSON Schema of the front matter, or write it to FILE for an editor to check by."""
    from booklet.reading.front_matter import front_matter_schema, write_schema

    if file is None:
        click.echo(json.dumps(front_matter_schema(), ensure_ascii=False, indent=2))
        return
    try:
        write_schema(file)
    except OSError as failure:
        raise click.BadParameter(f"{file}: {failure.strerror}", param_hint="FILE") from None


main.add_command(rows)
main.add_command(tables)


def _follow(sources: Sequence[str], doing: str) -> Iterator[str]:
    """The sources in turn; where there are several and someone is watching, told as their turn comes."""
    is_told = len(sources) > 1 and sys.stderr.isatty()
    for number, source in enumerate(sources, 1):
        if is_told:
            click.echo(f"{doing} {number} of {len(sources)}: {source}", err=True)
        yield source


def _leave_out(findings: Sequence[Finding], told: Sequence[Finding]) -> list[Finding]:
    """Those not told yet: what is wrong in a house file is found again with each of its patterns."""
    lines = {render_brief(finding) for finding in told}
    return [finding for finding in findings if render_brief(finding) not in lines]


def _tell_outcome(made: int, patterns: int, files: int) -> str:
    if not made:
        return "nothing was written"
    written = f"{counted(files, 'file')} written"
    return written if made == patterns else f"{written}, for {made} of {counted(patterns, 'pattern')}"


for command in (rows, tables, suppose, kits, teach, costs):
    main.add_command(command)
