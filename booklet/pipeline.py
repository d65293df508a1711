"""From the name of a source to a proof, and from a sound proof to the files of its booklet.

The order of the passes stands here and nowhere else. Each takes what the one before handed on and
returns its own output with findings; all of those above the gate run even where an earlier row is
broken, so that one run tells everything.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from booklet.amounts.amounts import compute_amounts
from booklet.checks.run import check_pattern
from booklet.findings import Finding
from booklet.findings.render import order_findings
from booklet.model.amounts import Amounts
from booklet.model.pattern import Pattern, Publisher, SizedPattern
from booklet.model.work import WorkedPattern
from booklet.reading.house import find_house, read_house
from booklet.reading.pattern import read_pattern
from booklet.reading.places import find_source
from booklet.rows.parts import parse_pattern
from booklet.sizing.numbers import size_pattern
from booklet.source import SourceFile
from booklet.working.pattern import work_pattern


@dataclass(frozen=True)
class Proof:
    """All that is known of one pattern. A pass that could not run has left None.

    `findings` stand in the order of the source, each once.
    """

    source: SourceFile
    pattern: Pattern | None = None
    sized: SizedPattern | None = None
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


def prove_text(text: str, name: str) -> Proof:
    """Proves a text as if it stood in a file of that name, which need not be there. No house file is read."""
    return _prove(SourceFile(name, text, Path(name).parent), Publisher(), ())


def _prove(source: SourceFile, publisher: Publisher, findings: Sequence[Finding]) -> Proof:
    pattern, read = read_pattern(source, publisher)
    if pattern is None:
        return Proof(source, findings=order_findings((*findings, *read)))
    sized, sizes = size_pattern(pattern)
    parsed, rows = parse_pattern(sized)
    worked, stitches = work_pattern(parsed)
    amounts, sums = compute_amounts(sized, worked)
    checked = check_pattern(parsed, worked, amounts)
    found = order_findings((*findings, *read, *sizes, *rows, *stitches, *sums, *checked))
    return Proof(source, pattern, sized, worked, amounts, found)
