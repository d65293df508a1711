"""From the name of a source to a proof, and from a sound proof to the files of its booklet.

The order of the passes stands here and nowhere else. Each takes what the one before handed on and
returns its own output with findings; all of those above the gate run even where an earlier row is
broken, so that one run tells everything.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from pathlib import Path

from booklet.amounts.amounts import compute_amounts
from booklet.amounts.motifs import add_motif_gauges
from booklet.checks.run import check_pattern
from booklet.drawings.seam_lengths import measure_seams
from booklet.findings import Finding
from booklet.findings.render import has_errors, order_findings
from booklet.model.amounts import Amounts
from booklet.model.editions import choose_editions
from booklet.model.parsed import ParsedPattern
from booklet.model.pattern import Pattern, Publisher, SizedPattern
from booklet.model.work import WorkedPattern
from booklet.output.files import make_safe, write_files
from booklet.reading.house import find_house, read_house
from booklet.reading.pattern import read_pattern
from booklet.reading.places import find_source
from booklet.rows.dialects import check_terms
from booklet.rows.parts import parse_pattern
from booklet.rows.styled_lines import StyledRows
from booklet.sizing.numbers import size_pattern
from booklet.source import SourceFile
from booklet.working.pattern import work_pattern
from booklet.working.rearranged import style_rows


@dataclass(frozen=True)
class Order:
    """What is to be made of a pattern, and where: `out` holds one folder a pattern.

    Empty `editions`, `papers`, `theme` and `terms` leave it to the pattern; `terms` is "US" or "UK". `sizes`
    are names of sizes, each to have editions of its own; without them an edition holds all sizes. With
    `strict` a warning stops the booklet too.
    """

    out: Path
    editions: tuple[str, ...] = ()  # names of model/editions.py
    papers: tuple[str, ...] = ()
    theme: str = ""
    strict: bool = False
    terms: str = ""
    sizes: tuple[str, ...] = ()

    def folder_of(self, pattern: Pattern) -> Path:
        """Where the pattern's files go."""
        return self.out / make_safe(pattern.slug, "pattern")


@dataclass(frozen=True)
class Proof:
    """All that is known of one pattern. A pass that could not run has left None.

    `findings` stand in the order of the source, each once.
    """

    source: SourceFile
    pattern: Pattern | None = None
    sized: SizedPattern | None = None
    parsed: ParsedPattern | None = None
    worked: WorkedPattern | None = None
    amounts: Amounts | None = None
    findings: tuple[Finding, ...] = ()
    styled: StyledRows | None = None  # where the house has a style of its own, and nothing is wrong


def list_sources(arguments: Sequence[str]) -> tuple[str, ...]:
    """The patterns meant by what was typed, each once, in order.

    A folder that holds no `pattern.md` but folders with one stands for all of these. The house file
    is passed over beside others, so that `content/*` can be typed.
    """
    meant: dict[str, None] = {}
    for argument in arguments:
        path = Path(argument)
        if path.name == "house.yaml" and len(arguments) > 1:
            continue
        inner = [] if (path / "pattern.md").exists() or not path.is_dir() else sorted(path.glob("*/pattern.md"))
        for source in [str(file.parent) for file in inner] or [argument]:
            meant.setdefault(source)
    return tuple(meant)


def prove_file(argument: str) -> Proof:
    """Proves the pattern in a folder or a Markdown file, by the house file found beside or above it."""
    source, found = find_source(argument)
    if source is None:
        return Proof(SourceFile(argument, "", Path(argument)), findings=order_findings(found))
    house = find_house(source.folder)
    publisher, told = read_house(house) if house is not None else (Publisher(), ())
    return _prove(source, publisher, (*found, *told))


def prove_text(text: str, name: str, publisher: Publisher = Publisher()) -> Proof:
    """Proves a text as if it stood in a file of that name, which need not be there. No house file is read."""
    return _prove(SourceFile(name, text, Path(name).parent), publisher, ())


def _prove(source: SourceFile, publisher: Publisher, findings: Sequence[Finding]) -> Proof:
    pattern, read = read_pattern(source, publisher)
    if pattern is None:
        return Proof(source, findings=order_findings((*findings, *read)))
    return prove_pattern(pattern, (*findings, *read))


def prove_pattern(pattern: Pattern, findings: Sequence[Finding] = ()) -> Proof:
    """Proves a pattern that has been read, or one of whose facts were changed since; `findings` are those so far."""
    sized, sizes = size_pattern(pattern)
    parsed, rows = parse_pattern(sized)
    mixed = check_terms(pattern, parsed)
    worked, stitches = work_pattern(parsed)
    sized, worked = add_motif_gauges(sized, worked)
    parsed = replace(parsed, sized=sized)
    seams = measure_seams(sized, worked)
    amounts, sums = compute_amounts(sized, worked, seams)
    checked = check_pattern(parsed, worked, amounts)
    found = order_findings((*findings, *sizes, *rows, *mixed, *stitches, *sums, *checked))
    styled = None
    if pattern.style.changes_rows and not has_errors(found, False):
        styled, _ = style_rows(parsed, worked, pattern.style, pattern)
    return Proof(pattern.source, pattern, sized, parsed, worked, amounts, found, styled)


def make_booklet(proof: Proof, order: Order) -> tuple[tuple[Path, ...], tuple[Finding, ...]]:
    """The files of the booklet, and all findings from the proof on. No files where one of them is an error.

    The gate stands here: nothing is drawn, set or written over for a pattern that is not sound, and
    what is made is written only when all of it is there.
    """
    if proof.pattern is None or has_errors(proof.findings, order.strict):
        return (), proof.findings
    files, findings = _print_editions(proof, order)
    findings = order_findings((*proof.findings, *findings))
    if has_errors(findings, order.strict):
        return (), findings
    paths, told = write_files(order.folder_of(proof.pattern), files, proof.source.whole())
    return paths, order_findings((*findings, *told))


def _print_editions(proof: Proof, order: Order) -> tuple[Mapping[str, bytes], Sequence[Finding]]:
    """Every edition asked for, by file name. What draws and sets pages is loaded only from here on."""
    from booklet.editions.commission import take_commission
    from booklet.editions.one_size import choose_sizes
    from booklet.editions.table import MAKERS
    from booklet.pages.theme import load_theme

    if proof.parsed is None or proof.worked is None or proof.amounts is None:
        return {}, ()
    pattern = proof.parsed.sized.pattern
    places = [folder / "themes" for folder in (proof.source.folder, proof.source.folder.parent, Path())]
    theme, themed = load_theme(order.theme or pattern.theme, places, proof.source.whole())
    commission, taken = take_commission(proof.parsed, proof.worked, proof.amounts, theme, order.papers, order.terms)
    commissions, chosen = choose_sizes(commission, order.sizes)
    findings: list[Finding] = [*themed, *taken, *chosen]
    files: dict[str, bytes] = {}
    for each in commissions:
        made: dict[str, Mapping[str, bytes]] = {}
        for name in choose_editions(order.editions) or pattern.editions:
            made[name], told = MAKERS[name](replace(each, made=made))
            files |= made[name]
            findings += told
    return files, findings
