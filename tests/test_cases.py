"""Runs the case files: Markdown documents in which a designer can read, change and add rows.

A ```rows block holds rows as they stand in a pattern; a ```pattern block holds a whole source. Blocks
right after it say what comes out: ```findings (one brief line each, with `expected` and `fix` lines
below it where they matter), ```counts (a row's label and what it used, made, left), ```readings (what
the counts decided). A block without ```findings must give none. Lines of findings count from the block.

    ```rows xfail: the reason      holds a case that does not come out yet
"""

import re
from collections.abc import Iterator
from dataclasses import dataclass, field, replace
from itertools import groupby
from pathlib import Path

import pytest

from booklet.findings import Finding
from booklet.model.work import WorkedRow
from booklet.pipeline import Proof, prove_text

CASES = Path(__file__).parent / "cases"
HEAD = "---\ntitle: Case\n---\n\n"
FENCE = re.compile(
    r"^```(?P<kind>rows|pattern|findings|counts|readings)\b[ ]*(?P<info>[^\n]*)\n(?P<text>.*?)^```$",
    re.MULTILINE | re.DOTALL,
)
HEADING = re.compile(r"^#+ (.+)$", re.MULTILINE)
FINDING = re.compile(
    r"(?P<kind>rows|pattern):(?P<line>\d+)(?::(?P<column>\d+))?: (?P<severity>error|warning)\[(?P<code>[a-z-]+)\]"
    r"(?:: (?P<message>.+))?"
)


@dataclass(frozen=True)
class Case:
    """One block with what is expected of it. `line` is where it stands in its file."""

    file: Path
    heading: str
    line: int
    kind: str
    text: str
    xfail: str = ""
    expected: dict[str, str] = field(default_factory=dict)

    @property
    def name(self) -> str:
        return f"{self.file.relative_to(CASES).with_suffix('')}: {self.heading} (line {self.line})"

    @property
    def source(self) -> str:
        return HEAD + self.text if self.kind == "rows" else self.text

    @property
    def first_line(self) -> int:
        """The line of the source at which the block starts, less one."""
        return HEAD.count("\n") if self.kind == "rows" else 0


def read_cases(file: Path) -> Iterator[Case]:
    """Every case of a file, in order."""
    text = file.read_text(encoding="utf-8")
    headings = [(match.start(), match[1]) for match in HEADING.finditer(text)]
    case: Case | None = None
    for fence in FENCE.finditer(text):
        if fence["kind"] in ("rows", "pattern"):
            if case is not None:
                yield case
            heading = [words for start, words in headings if start < fence.start()][-1]
            line = text.count("\n", 0, fence.start()) + 1
            xfail = fence["info"].removeprefix("xfail:").strip() if fence["info"].startswith("xfail:") else ""
            case = Case(file, heading, line, fence["kind"], fence["text"], xfail)
        else:
            assert case is not None, f"{file}: a block of {fence['kind']} with no rows before it"
            assert fence["kind"] not in case.expected, f"{case.name}: two blocks of {fence['kind']}"
            case = replace(case, expected={**case.expected, fence["kind"]: fence["text"]})
    if case is not None:
        yield case


FILES = sorted(CASES.glob("**/*.md"))
ALL = [case for file in FILES for case in read_cases(file)]


@pytest.mark.parametrize(
    "case",
    [
        pytest.param(
            case, id=case.name, marks=[pytest.mark.xfail(strict=True, reason=case.xfail)] if case.xfail else []
        )
        for case in ALL
    ],
)
def test_a_case_comes_out_as_its_file_says(case: Case) -> None:
    proof = prove_text(case.source, f"{case.kind}.md")
    assert list_findings(case, proof) == case.expected.get("findings", "").rstrip("\n").split("\n")
    if "counts" in case.expected:
        check_counts(case, proof)
    if "readings" in case.expected:
        assert proof.worked is not None
        assert [reading.text for reading in proof.worked.readings] == case.expected["readings"].strip().split("\n")


def test_every_file_holds_cases() -> None:
    assert FILES
    assert [file for file in FILES if not list(read_cases(file))] == []


# findings


def list_findings(case: Case, proof: Proof) -> list[str]:
    """The findings in the form in which the case writes them: a column, message or foot it leaves out is left out."""
    written = case.expected.get("findings", "").rstrip("\n").split("\n")
    heads = [line for line in written if not line.startswith(" ")]
    lines: list[str] = []
    found = [finding for finding in proof.findings if case.kind == "pattern" or finding.span.line > case.first_line]
    for number, finding in enumerate(found):
        head = FINDING.fullmatch(heads[number]) if number < len(heads) else None
        lines.append(_tell_head(case, finding, head))
        lines.extend(_tell_foot(finding, written, heads[number] if number < len(heads) else ""))
    return lines or [""]


def _tell_head(case: Case, finding: Finding, written: re.Match[str] | None) -> str:
    place = f"{case.kind}:{finding.span.line - case.first_line}"
    if written is None or written["column"]:
        place += f":{finding.span.column}"
    told = f"{place}: {finding.severity.value}[{finding.code}]"
    return f"{told}: {finding.message}" if written is None or written["message"] else told


def _tell_foot(finding: Finding, written: list[str], head: str) -> Iterator[str]:
    """The `expected`, `fix` and `sizes` of the finding, as far as the case writes them below its line."""
    if head not in written:
        return
    facts = {"expected": finding.expected, "fix": finding.fix, "sizes": ", ".join(finding.sizes)}
    for line in written[written.index(head) + 1 :]:
        word, _, _ = line.strip().partition(" ")
        if not line.startswith(" ") or word not in facts:
            return
        indent = line[: len(line) - len(line.lstrip())]
        gap = re.match(r"\s*\w+(\s+)", line)
        yield f"{indent}{word}{gap[1] if gap else ' '}{facts[word]}"


# counts


def check_counts(case: Case, proof: Proof) -> None:
    """Each line of the block is true of the next row of that label: `Row 2: used 23, made 23, 12 sc, 11 ch-1 sp`."""
    assert proof.worked is not None
    sizes = [
        [row for part in proof.worked.parts for row in part.rows[size]]
        for size in range(len(proof.worked.parts[0].rows))
    ]
    at = [0] * len(sizes)
    told, true = [], []
    for line in case.expected["counts"].strip().split("\n"):
        label, _, facts = line.partition(": ")
        if label == "Rows in all":
            numbers = [len(rows) for rows in sizes]
            told.append(facts)
            true.append(_tell_sizes([str(number) for number in numbers]))
            continue
        found = [_find_row(rows, label, start) for rows, start in zip(sizes, at, strict=True)]
        for fact in re.split(r", (?![^(]*\))", facts):
            told.append(f"{label}: {fact}")
            true.append(
                f"{label}: {_tell_sizes([_tell_fact(rows[i], fact) for rows, i in zip(sizes, found, strict=True)])}"
            )
        at = [i + 1 for i in found]
    assert true == told


def _find_row(rows: list[WorkedRow], label: str, start: int) -> int:
    found = next((i for i in range(start, len(rows)) if rows[i].label == label), -1)
    assert found >= 0, f"no further row is labelled {label}; there are {[row.label for row in rows]}"
    return found


def _tell_fact(row: WorkedRow, fact: str) -> str:
    """What is true of the row, in the words of the fact asked for."""
    word, _, rest = fact.partition(" ")
    if word in ("used", "made", "left", "stated"):
        return f"{word} {getattr(row, word)}"
    if word == "colours":
        runs = [
            (colour, len(list(run)))
            for colour, run in groupby(stitch.colour for stitch in row.fabric.stitches if stitch.top >= 0)
        ]
        return "colours " + " + ".join(f"{number} {colour}" for colour, number in runs)
    if word == "spread":
        return f"spread {' '.join(stitch.kind for stitch in row.fabric.stitches)}"
    if word in ("worked", "trusted", "broken"):
        return row.status
    if word in ("RS", "WS"):
        return row.side
    if word in ("turned", "not"):
        return "turned" if row.turned else "not turned"
    kind = rest.partition(" (")[0] if not rest.startswith("(") else rest.rpartition(") ")[2]
    spaces = re.fullmatch(r"ch-(\d+) sp", kind)
    number = row.fabric.spaces.get(int(spaces[1]), 0) if spaces else row.fabric.counts.get(kind, 0)
    return f"{number} {kind}"


def _tell_sizes(facts: list[str]) -> str:
    """The same fact of all sizes once, as a list in the trade's form where they differ: `made 54 (62, 68)`."""
    if len(set(facts)) == 1:
        return facts[0]
    parts = [re.fullmatch(r"(\D*?)(\d+)(\D.*|)", fact) for fact in facts]
    first, *others = [part[2] if part else fact for part, fact in zip(parts, facts, strict=True)]
    before, after = (parts[0][1], parts[0][3]) if parts[0] else ("", "")
    return f"{before}{first} ({', '.join(others)}){after}"
