"""Words that contradict the terms of a pattern are told; ordinary patterns are silent."""

import pytest

from booklet.findings import Finding
from booklet.pipeline import prove_text
from booklet.rows.dialects import check_terms

CHAIN = "Ch 11.\n\n"


def find(body: str, terms: str = "") -> list[Finding]:
    declared = f"terms: {terms}\n" if terms else ""
    proof = prove_text(f"---\ntitle: Case\n{declared}---\n\n{CHAIN}{body}", "case.md")
    assert proof.pattern is not None
    assert proof.parsed is not None
    return list(check_terms(proof.pattern, proof.parsed))


@pytest.mark.parametrize(
    ("terms", "body", "place", "fix"),
    [
        ("US", "Row 1: Sc in 2nd ch from hook, htr in each ch across.", "htr", "write “hdc”"),
        ("US", "Row 1: Sc in 2nd ch from hook and in each ch across.\n\nRow 2: Ch 3 (counts as tr), turn, tr across.",
         "Ch 3 (counts as tr)", "write “Ch 3 (counts as dc)”"),
        ("US", "Row 1: Dc in 2nd ch from hook and in each ch across.\n\nRow 2: Ch 1, turn, sc across.",
         "Dc in 2nd ch from hook", "write “Sc in 2nd ch from hook”"),
        ("US", "Row 1: Tr in 4th ch from hook and in each ch across.\n\nRow 2: Ch 1, turn, sc across.",
         "Tr in 4th ch from hook", "write “Dc in 4th ch from hook”"),
        ("UK", "Row 1: Htr in 3rd ch from hook, hdc in each ch across.", "hdc", "write “htr”"),
        ("UK", "Row 1: Htr in 3rd ch from hook, FPsc around each st across.", "FPsc", "write “FPdc”"),
        ("UK", "Row 1: Dc in 4th ch from hook and in each ch across.\n\nRow 2: Ch 3 (counts as dc), turn, dc across.",
         "Dc in 4th ch from hook",
         "write “terms: US” in the front matter, or put the words into UK terms"),
    ],
)  # fmt: skip
def test_error_words_of_the_other_set(terms: str, body: str, place: str, fix: str) -> None:
    (finding,) = find(body, terms)
    assert (finding.code, finding.span.text, finding.fix) == ("terms-mixed", place, fix)
    assert finding.notes[0].span.text == f"terms: {terms}"


def test_error_no_terms_named_and_the_words_are_uk() -> None:
    (finding,) = find("Row 1: Dc in 2nd ch from hook and in each ch to end.\n\nRow 2: 1ch, turn, htr in each st.")
    assert (finding.code, finding.span.text) == ("terms-undeclared", "Dc in 2nd ch from hook")
    assert finding.message == "no terms are named, and “Dc in 2nd ch from hook” belongs to UK terms"
    assert [note.span.text for note in finding.notes] == ["htr"]
    assert finding.fix == "write “terms: UK” in the front matter"


def test_error_two_habits_of_uk_writers_where_no_terms_are_named() -> None:
    (finding,) = find("Tension: 17 tr to 10 cm.\n\nRow 1: Dc in 3rd ch from hook, miss 2 ch, dc in each ch to end.")
    assert (finding.code, finding.span.text) == ("terms-undeclared", "Tension")


@pytest.mark.parametrize(
    ("terms", "body"),
    [
        ("", "Row 1: Dc in 4th ch from hook and in each ch across.\n\nRow 2: Ch 3 (counts as dc), turn, dc across."),
        ("", "Row 1: Dc in 3rd ch from hook, miss 2 ch, dc in each ch across."),
        ("", "Row 1: Sc in 4th ch from hook, *ch 1, sk 1 ch, sc in next ch; rep from * across."),
        ("US", "Row 1: Ch 2 (counts as dc), tr in 5th ch from hook and in each ch across."),
        ("US", "Row 1: Sc in 2nd ch from hook (UK dc) and in each ch across."),
        ("UK", "Row 1: Dc in 2nd ch from hook and in each ch across.\n\nRow 2: Ch 3 (counts as tr), turn, tr across."),
        ("UK", "Row 1: Dc in 4th ch from hook, *ch 1, miss 1 ch, dc in next ch; rep from * across."),
        ("UK", "Row 1: Ttr in 6th ch from hook, skip 2 ch, dtr in each ch across."),
    ],
)
def test_ordinary_patterns_are_silent(terms: str, body: str) -> None:
    assert find(body, terms) == []


def test_a_name_that_the_pattern_defines_is_its_own() -> None:
    source = (
        "---\ntitle: Own\nterms: US\nabbreviations:\n  htr: half triangle\n---\n\nCh 11.\n\n"
        "Row 1: Sc in 2nd ch from hook, htr in each ch across.\n"
    )
    assert "terms-mixed" not in {finding.code for finding in prove_text(source, "own.md").findings}
