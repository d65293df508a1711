"""From the name of a source to a proof, and from a sound proof to the files of its booklet.

The order of the passes stands here and nowhere else. Each takes what the one before handed on and
returns its own output with findings; all of those above the gate run even where an earlier row is
broken, so that one run tells everything.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from pathlib import Path

from booklet.amounts.amounts import compute_amounts
from booklet.checks.run import check_pattern
from booklet.findings import Finding
from booklet.findings.render import has_errors, order_findings
from booklet.model.amounts import Amounts
from booklet.model.pattern import Pattern, Publisher, SizedPattern
from booklet.model.tree import ParsedPattern
from booklet.model.work import WorkedPattern
from booklet.output.files import make_safe, name_file, write_files
from booklet.reading.house import find_house, read_house
from booklet.reading.pattern import read_pattern
from booklet.reading.places import find_source
from booklet.rows.dialects import check_terms
from booklet.rows.parts import parse_pattern
from booklet.sizing.numbers import size_pattern
from booklet.source import SourceFile
from booklet.working.pattern import work_pattern

EDITIONS = ("print", "web")


@dataclass(frozen=True)
class Order:
    """What is to be made of a pattern, and where: `out` holds one folder a pattern.

    Empty `papers`, `theme` and `terms` leave it to the pattern; `terms` is "US" or "UK". With `strict` a
    warning stops the booklet too.
    """

    out: Path
    editions: tuple[str, ...] = EDITIONS
    papers: tuple[str, ...] = ()
    theme: str = ""
    strict: bool = False
    terms: str = ""

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
    amounts, sums = compute_amounts(sized, worked)
    checked = check_pattern(parsed, worked, amounts)
    found = order_findings((*findings, *sizes, *rows, *mixed, *stitches, *sums, *checked))
    return Proof(pattern.source, pattern, sized, parsed, worked, amounts, found)


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
    from booklet.drawings.pattern import draw_pattern
    from booklet.drawings.screen import shrink_picture
    from booklet.drawings.trimming import trim_picture
    from booklet.output.pdf import PrintJob, write_pdf
    from booklet.pages.edition import WEB_EDITION, print_edition
    from booklet.pages.manuscript import BookletInput
    from booklet.pages.other_terms import carry_pattern
    from booklet.pages.render import render_booklet
    from booklet.pages.theme import load_theme

    if proof.parsed is None or proof.worked is None or proof.amounts is None:
        return {}, ()
    at = proof.source.whole()
    places = [folder / "themes" for folder in (proof.source.folder, proof.source.folder.parent, Path())]
    theme, findings = load_theme(order.theme or proof.parsed.sized.pattern.theme, places, at)
    book, told = carry_pattern(proof.parsed, proof.worked, proof.amounts, order.terms)
    pattern = book.sized.pattern
    pictures, drawn = draw_pattern(book.sized, book.worked, book.amounts, theme.ink())
    findings += (*told, *drawn)
    pictures = tuple(trim_picture(picture) if picture.table else picture for picture in pictures)
    booklet = BookletInput(book.sized, book.worked, book.amounts, pictures, book.rows)
    files: dict[str, bytes] = {}
    if "web" in order.editions:
        # what is measured with is of no use on a screen, which has no true size
        seen = (picture for picture in pictures if not picture.name.startswith("measuring"))
        on_screen = replace(booklet, pictures=tuple(map(shrink_picture, seen)))
        page, told = render_booklet(on_screen, WEB_EDITION, theme)
        findings += told
        files[name_file(pattern.slug, pattern.version, pattern.terms, "web", "html")] = page.html.encode("utf-8")
    for paper in (order.papers or pattern.papers) if "print" in order.editions else ():
        page, told = render_booklet(booklet, print_edition(paper), theme)
        findings += told
        data, told = write_pdf(PrintJob(f"print {paper}", page.html, page.resources, theme.font_folders, at))
        findings += told
        if data is not None:
            files[name_file(pattern.slug, pattern.version, pattern.terms, paper, "pdf")] = data
    return files, findings
