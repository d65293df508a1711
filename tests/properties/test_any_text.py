"""What holds for every text, however wrong: nothing raises, places lie in the file, a proof can be repeated."""

import re
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from booklet.findings import Finding
from booklet.pipeline import Proof, prove_text
from booklet.rows.vocabulary import build_vocabulary

CONTENT = Path(__file__).parents[2] / "content"
DEMOS = [file.read_text(encoding="utf-8") for file in sorted(CONTENT.glob("*/pattern.md"))]
HEAD = "---\ntitle: Any\n---\n\nCh 21.\n\nRow 1: Sc in 2nd ch from hook and in each ch across. (20 sc)\n\n"

quick = settings(max_examples=120, deadline=None, suppress_health_check=[HealthCheck.too_slow])
few = settings(max_examples=25, deadline=None, suppress_health_check=[HealthCheck.too_slow])

known = build_vocabulary("US").phrases
phrases = sorted(phrase for phrase, (kind, _) in known.items() if kind == "w")
stitches = sorted(phrase for phrase, (kind, _) in known.items() if kind == "st")
marks = [
    "*",
    "**",
    "(",
    ")",
    "[",
    "]",
    ",",
    ";",
    ".",
    ":",
    "-",
    "–",
    "×",
    "x",
    "{",
    "}",
    "=",
    "/",
    "+",
    "†",
    "\n",
    "\n\n",
]
numbers = [str(number) for number in (0, 1, 2, 3, 4, 5, 7, 12, 20, 99)] + [
    "2nd",
    "3rd",
    "4th",
    "ch-1",
    "ch-2 sp",
    "(2, 3, 4)",
    "{n}",
]
labels = [
    "Row 2:",
    "Rows 2-5:",
    "Rnd 3:",
    "Next row:",
    "Rep Row 1",
    "Rep last 2 rows",
    "Foundation:",
    "## Sleeve",
    "Row 1:",
]
words = st.one_of(st.sampled_from(phrases), st.sampled_from(stitches), st.sampled_from(marks), st.sampled_from(numbers))
soups = st.lists(words, min_size=1, max_size=30).map(" ".join)
lines = st.tuples(st.sampled_from(labels), soups).map(" ".join)
texts = st.lists(lines, min_size=1, max_size=4).map("\n\n".join)


@quick
@given(texts)
def test_rows_of_any_words_are_proved(text: str) -> None:
    check_proof(HEAD + text)


@quick
@given(st.text(max_size=120))
def test_rows_of_any_characters_are_proved(text: str) -> None:
    check_proof(HEAD + "Row 2: " + text)


@few
@given(st.sampled_from(DEMOS), st.data())
def test_a_pattern_cut_off_anywhere_is_proved(demo: str, data: st.DataObject) -> None:
    check_proof(demo[: data.draw(st.integers(0, len(demo)))])


@few
@given(st.sampled_from(DEMOS), st.data())
def test_a_pattern_with_a_character_missing_is_proved(demo: str, data: st.DataObject) -> None:
    at = data.draw(st.integers(0, len(demo) - 1))
    check_proof(demo[:at] + demo[at + 1 :])


@settings(few, max_examples=6)
@given(st.sampled_from(DEMOS), st.data(), soups)
def test_a_pattern_with_words_put_in_is_proved(demo: str, data: st.DataObject, soup: str) -> None:
    rows = [match.end() for match in re.finditer(r"^R(?:ow|nd) \d+[^:\n]*: ", demo, re.MULTILINE)]
    at = data.draw(st.sampled_from(rows))
    check_proof(demo[:at] + soup.replace("\n", " ") + ", " + demo[at:])


@few
@given(texts)
def test_a_proof_can_be_repeated(text: str) -> None:
    first, again = prove_text(HEAD + text, "any.md"), prove_text(HEAD + text, "any.md")
    assert tell_all(first) == tell_all(again)


@pytest.mark.parametrize("demo", DEMOS, ids=[file.parent.name for file in sorted(CONTENT.glob("*/pattern.md"))])
def test_a_demo_can_be_proved_again(demo: str) -> None:
    broken = demo.replace("sc in next st", "sc in next 2 sts").replace("8 times", "7 times")
    broken = re.sub(r"\((\d+)(?=(?: \w+)?\)$)", lambda count: f"({count[1]}1", broken, count=3, flags=re.MULTILINE)
    first, again = prove_text(broken, "any.md"), prove_text(broken, "any.md")
    assert first.findings
    assert tell_all(first) == tell_all(again)


def check_proof(text: str) -> None:
    """Every finding has a headline that can be read, and places within the text."""
    proof = prove_text(text, "any.md")
    for finding in proof.findings:
        for span in (finding.span, *(note.span for note in finding.notes)):
            assert 0 <= span.start <= span.end <= len(text), finding
            assert span.file.text == text
        assert finding.message.strip()
        assert "\n" not in finding.message
    check_counts(proof)


def check_counts(proof: Proof) -> None:
    """No row has a count below nothing, and a row that is worked leaves what its words leave."""
    for part in proof.worked.parts if proof.worked else ():
        for rows in part.rows:
            for row in rows:
                assert min(row.used, row.made, row.left) >= 0, row.label
                assert row.status in ("worked", "trusted", "broken")
                assert row.fabric.made == row.made


def tell_all(proof: Proof) -> list[tuple[object, ...]]:
    return [_tell(finding) for finding in proof.findings]


def _tell(finding: Finding) -> tuple[object, ...]:
    notes = tuple((note.text, note.span.start, note.span.end) for note in finding.notes)
    return (
        finding.code,
        finding.message,
        finding.span.start,
        finding.span.end,
        notes,
        finding.expected,
        finding.fix,
        finding.sizes,
    )
