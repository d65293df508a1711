"""One digit of a row changed: the mistake every editor looks for, and the one that spoils most."""

import random
import re
from collections.abc import Iterator
from pathlib import Path
from typing import NamedTuple

import pytest

from booklet.pipeline import prove_text

CONTENT = Path(__file__).parents[2] / "content"
DEMOS = sorted(CONTENT.glob("*/pattern.md"))
ROW = re.compile(r"^(?:Row|Rnd|Next|Foundation|Rep)\b")
SAMPLE = 60
SHARE = 0.97


class Change(NamedTuple):
    """A demo with one digit changed, and the line on which it stands."""

    name: str
    text: str
    line: int
    words: str


def list_changes(file: Path) -> Iterator[Change]:
    """Every digit of every row line by every other digit."""
    text = file.read_text(encoding="utf-8")
    at = text.index("\n---\n", 5) + 5
    lines = text[at:].split("\n")
    first = text.count("\n", 0, at) + 1
    for number, line in enumerate(lines):
        if not ROW.match(line):
            continue
        start = at + sum(len(before) + 1 for before in lines[:number])
        for match in re.finditer(r"\d", line):
            for digit in "0123456789":
                if digit != match[0]:
                    place = start + match.start()
                    around = line[: match.start()][-12:], line[match.end() :][:12]
                    yield Change(
                        file.parent.name,
                        text[:place] + digit + text[place + 1 :],
                        first + number,
                        f"[{digit}]".join(around),
                    )


@pytest.mark.parametrize("file", DEMOS, ids=lambda file: file.parent.name)
def test_a_demo_is_sound_as_it_stands(file: Path) -> None:
    assert [finding.message for finding in prove_text(file.read_text(encoding="utf-8"), "demo.md").findings] == []


@pytest.mark.slow
def test_a_changed_digit_is_noticed_at_its_line(capsys: pytest.CaptureFixture[str]) -> None:
    changes = [change for file in DEMOS for change in list_changes(file)]
    sample = random.Random(19).sample(changes, SAMPLE)  # noqa: S311 (a fixed choice, not a secret)
    missed = [change for change in sample if not is_noticed(change)]
    share = 1 - len(missed) / len(sample)
    with capsys.disabled():
        print(f"\n{share:.1%} of {len(sample)} changed digits noticed at their line (of {len(changes)} possible)")  # noqa: T201
    assert share >= SHARE, [f"{change.name}:{change.line}: …{change.words}…" for change in missed]


def is_noticed(change: Change) -> bool:
    """Does a finding stand on the line, or point to it as the cause?"""
    findings = prove_text(change.text, "demo.md").findings
    spans = [span for finding in findings for span in (finding.span, *(note.span for note in finding.notes))]
    return any(span.line == change.line for span in spans)
