"""The trade's forms, each in a setting of its own, and what it must come to.

The cases stand in the Markdown files beside this module. A heading is the id of a form and its
wording; the indented block is a source (what goes above the rows is added where it does not begin
with `---`); the lines behind `>` say what a maker reads:

    > Row 2: 23 -> 23 (12 sc, 11 ch-1)   uses 23 places, makes 23, of these 12 sc and 11 ch-1 spaces
    > Row 2: -> 23                       makes 23
    > Row 2: trusted 23                  taken at its stated count, and told so in the closing lines
    > [2] Sleeve / Row 2: -> 23          in the second size, in the piece of that name
    > rows 12                            so many rows and rounds in all, in the first size
    > Row 2 in colours: 4 A, 4 B         stitches by colour
    > finds count-mismatch at 5          a finding, on that line of the block
    > told at 5                          at least one finding on that line, whichever it is
    > decides 1                          so many readings that the counts decided
    > not yet: why                       fails today, and the tests hold that it does

A first line `@ 20 sc`, `@ 20 hdc`, `@ 20 dc`, `@ ring 12 sc` or `@ ring 12 dc` stands for a foundation
with so many stitches in Row 1 or Rnd 1 (see `BASES`); it counts as one line of the block.

Every row that is not said to be trusted must be worked, and every finding that is not said is one
too many. Run as a program it prints the table with the shares of forms that are read as meant.
"""

import re
import sys
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from booklet.findings import Finding
from booklet.model.work import WorkedRow
from booklet.pipeline import Proof, prove_text

HERE = Path(__file__).parent
HEAD = "---\ntitle: Case\n---\n\n"
HEADING = re.compile(r"^## (?P<ids>G\d{3}(?:, G\d{3})*) (?P<form>.+)$")
ROW = re.compile(
    r"(?:\[(?P<size>\d+)\] )?(?:(?P<part>[^/]+) / )?(?P<label>[^:]+): "
    r"(?:trusted (?P<trusted>\d+)|(?P<used>\d+)? ?-> (?P<made>\d+)(?: \((?P<kinds>[^)]+)\))?)"
)
COLOURS = re.compile(r"(?P<label>.+) in colours: (?P<colours>.+)")
FINDS = re.compile(r"finds (?P<code>[a-z-]+) at (?P<line>\d+)")
TOLD = re.compile(r"told at (?P<line>\d+)")
BASE = re.compile(r"@ (?P<kind>ring )?(?P<number>\d+) (?P<stitch>\w+)\n")
BASES = {
    "sc": "Ch {one_more}.\n\nRow 1: Sc in 2nd ch from hook and in each ch across. ({number} sc)\n",
    "hdc": "Ch {one_more}.\n\nRow 1: Hdc in 2nd ch from hook and in each ch across. ({number} hdc)\n",
    "dc": (
        "Ch {two_more}.\n\n"
        "Row 1: Dc in 4th ch from hook (skipped ch count as dc) and in each ch across. ({number} dc)\n"
    ),
    "ring sc": "Rnd 1: {number} sc in magic ring. ({number} sc)\n",
    "ring dc": (
        "Rnd 1: Ch 3 (counts as dc), {one_less} dc in magic ring, join with sl st in top of ch-3. ({number} dc)\n"
    ),
}
LEFT_OUT = ("gauge-missing", "ball-missing")  # the cases say nothing of gauge and yarn
MODERN = (*range(1, 332), *range(386, 424))
VINTAGE = tuple(range(332, 358))


@dataclass(frozen=True)
class Case:
    """A form in its setting. `expected` are the lines behind `>`, `late` why it fails today."""

    ids: tuple[str, ...]
    form: str
    file: str
    line: int
    text: str
    expected: tuple[str, ...]
    late: str = ""

    @property
    def name(self) -> str:
        return f"{self.ids[0]} {self.form} ({self.file}:{self.line})"

    @property
    def source(self) -> str:
        return self.text if self.text.startswith("---\n") else HEAD + BASE.sub(_write_base, self.text, count=1)

    @property
    def lines_above(self) -> int:
        return self.source.count("\n") - self.text.count("\n")


def _write_base(match: re.Match[str]) -> str:
    number = int(match["number"])
    form = BASES[f"{match['kind'] or ''}{match['stitch']}"]
    return form.format(number=number, one_more=number + 1, two_more=number + 2, one_less=number - 1)


def list_cases() -> Iterator[Case]:
    """All cases, in the order of their files."""
    for file in sorted(HERE.glob("*.md")):
        blocks = re.split(r"^(?=## )", file.read_text(encoding="utf-8"), flags=re.MULTILINE)
        line = 1 + blocks[0].count("\n")
        for block in blocks[1:]:
            yield _read_case(block, file.name, line)
            line += block.count("\n")


def _read_case(block: str, file: str, line: int) -> Case:
    first, *rest = block.splitlines()
    heading = HEADING.fullmatch(first)
    assert heading, f"{file}:{line}: {first}"
    text = "\n".join(words[4:] for words in rest if words.startswith("    ") or not words).strip("\n")
    told = [words[2:] for words in rest if words.startswith("> ")]
    late = [words.removeprefix("not yet: ") for words in told if words.startswith("not yet: ")]
    expected = tuple(words for words in told if not words.startswith("not yet: "))
    return Case(tuple(heading["ids"].split(", ")), heading["form"], file, line, text + "\n", expected, " ".join(late))


def compare(case: Case) -> list[str]:
    """What differs between a case and its proof, one line for each difference; none where it is read as meant."""
    try:
        proof = prove_text(case.source, "case.md")
    except RecursionError:
        return ["the proof does not come to an end"]
    if proof.worked is None:
        return ["nothing was worked", *(show_finding(finding, case) for finding in proof.findings)]
    differences: list[str] = []
    trusted: set[str] = set()
    told = _list_told(case)
    for words in case.expected:
        if FINDS.fullmatch(words) or TOLD.fullmatch(words):
            continue
        differences += _compare_line(words, proof, trusted)
    for part in proof.worked.parts:
        for rows in part.rows:
            differences += [f"{row.label} is {row.status}" for row in rows if _is_off(row, trusted, told, case)]
    return list(dict.fromkeys(differences + _compare_findings(case, proof)))


def _compare_findings(case: Case, proof: Proof) -> list[str]:
    told = _list_told(case)
    findings = [finding for finding in proof.findings if finding.code not in LEFT_OUT]
    missed = told - {_line(finding, case) for finding in findings}
    others = [finding for finding in findings if _line(finding, case) not in told]
    found = sorted(f"finds {finding.code} at {_line(finding, case)}" for finding in others)
    due = sorted(words for words in case.expected if FINDS.fullmatch(words))
    if found == due and not missed:
        return []
    return [show_finding(finding, case) for finding in others] or [f"found nothing, not {due or sorted(missed)}"]


def _is_off(row: WorkedRow, trusted: set[str], told: set[int], case: Case) -> bool:
    line = row.span.line - case.lines_above
    return row.status == "trusted" and row.label not in trusted and line not in told


def _list_told(case: Case) -> set[int]:
    return {int(match["line"]) for words in case.expected if (match := TOLD.fullmatch(words))}


def _line(finding: Finding, case: Case) -> int:
    return finding.span.line - case.lines_above


def show_finding(finding: Finding, case: Case) -> str:
    return f"{_line(finding, case)}: {finding.severity.value}[{finding.code}] {finding.message}"


def _compare_line(words: str, proof: Proof, trusted: set[str]) -> list[str]:
    assert proof.worked
    if words.startswith("decides "):
        number = len(proof.worked.readings)
        return [] if f"decides {number}" == words else [f"decides {number}"]
    if words.startswith("rows "):
        number = sum(row.kind != "foundation" for part in proof.worked.parts for row in part.rows[0])
        return [] if f"rows {number}" == words else [f"rows {number}"]
    if match := COLOURS.fullmatch(words):
        rows = list(_find_rows(proof, match["label"]))
        shown = [_show_colours(row) for row in rows]
        return [] if match["colours"] in shown else [f"{match['label']} in colours: {' | '.join(shown)}"]
    match = ROW.fullmatch(words)
    assert match, words
    rows = list(_find_rows(proof, match["label"], match["part"], int(match["size"] or 1)))
    if match["trusted"]:
        trusted.add(match["label"])
    if any(_is_as_said(row, match) for row in rows):
        return []
    return [f"{words}: {' | '.join(map(show_row, rows)) or 'no such row'}"]


def _find_rows(proof: Proof, label: str, part: str | None = None, size: int = 1) -> Iterator[WorkedRow]:
    assert proof.worked
    for piece in proof.worked.parts:
        if part is None or piece.title == part:
            yield from (row for row in piece.rows[size - 1] if row.label == label)


def _is_as_said(row: WorkedRow, said: re.Match[str]) -> bool:
    if said["trusted"]:
        return row.status == "trusted" and row.made == int(said["trusted"])
    if row.status == "trusted" or row.made != int(said["made"]):
        return False
    if said["used"] and row.used != int(said["used"]):
        return False
    return all(_count(row, kind) == int(number) for number, kind in _split(said["kinds"]))


def _split(kinds: str | None) -> Iterator[tuple[str, str]]:
    for item in (kinds or "").split(", "):
        if item:
            number, _, kind = item.partition(" ")
            yield number, kind


def _count(row: WorkedRow, kind: str) -> int:
    if match := re.fullmatch(r"ch-(\d+)", kind):
        return row.fabric.spaces.get(int(match[1]), 0)
    return row.fabric.counts.get(kind, 0) or row.fabric.groups.get(kind, 0)


def show_row(row: WorkedRow) -> str:
    kinds = [f"{number} {kind}" for kind, number in row.fabric.counts.items()]
    spaces = [f"{number} ch-{chains}" for chains, number in row.fabric.spaces.items()]
    return f"{row.label} ({row.status}): {row.used} -> {row.made} ({', '.join(kinds + spaces)})"


def _show_colours(row: WorkedRow) -> str:
    totals: dict[str, int] = {}
    for stitch in row.fabric.stitches:
        if stitch.top >= 0 and stitch.kind != "ch":
            totals[stitch.colour] = totals.get(stitch.colour, 0) + 1
    return ", ".join(f"{number} {colour}" for colour, number in totals.items())


def measure(numbers: tuple[int, ...], results: dict[str, str]) -> str:
    """The shares of the forms with these numbers, by what became of them."""
    states = [results.get(f"G{number:03}", "no case") for number in numbers]
    parts = [f"{states.count(state)} {state}" for state in dict.fromkeys(states)]
    return f"{states.count('as meant') / len(states):6.1%} of {len(states)} forms as meant ({', '.join(parts)})"


def judge() -> dict[str, str]:
    """For every form the worst that became of its cases.

    "as meant"; "told" (a finding instead); "on trust" (no finding, the row taken at its stated count, which
    the closing lines tell); "silent" (wrong, and nothing said).
    """
    order = ("as meant", "told", "on trust", "silent")
    results: dict[str, str] = {}
    for case in list_cases():
        differences = compare(case)
        told = any("error[" in line or "warning[" in line for line in differences)
        trusted = any("trusted" in line for line in differences)
        state = "as meant" if not differences else "told" if told else "on trust" if trusted else "silent"
        for name in case.ids:
            results[name] = max(results.get(name, state), state, key=order.index)
    return results


def main(arguments: list[str]) -> None:
    """Prints the table; with ids behind it, or "misses", only these, with what differs."""
    misses, ids = "misses" in arguments, {name for name in arguments if name != "misses"}
    for case in list_cases():
        differences = compare(case)
        if (ids and not ids & set(case.ids)) or (misses and not differences):
            continue
        state = "as meant" if not differences else differences[0]
        lines = [f"{','.join(case.ids):9} {case.form[:58]:58} {state}"]
        lines += [f"{'':68} {line}" for line in differences[1:] if ids or misses]
        sys.stdout.writelines(f"{line}\n" for line in lines)
    results = judge()
    sys.stdout.write(f"\nG001-G331 and G386-G423: {measure(MODERN, results)}\n")
    sys.stdout.write(f"G332-G357 (thread leaflets of 1915-1955): {measure(VINTAGE, results)}\n")


if __name__ == "__main__":
    main(sys.argv[1:])
