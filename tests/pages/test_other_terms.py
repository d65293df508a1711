"""A booklet in the other set of terms: the same proof in other words."""

import re
from html import unescape
from pathlib import Path

import pytest

from booklet.findings import Finding
from booklet.pages.other_terms import carry_pattern
from booklet.pipeline import Order, Proof, make_booklet, prove_text

SOURCE = """---
title: Spike Mat
terms: US
gauge:
  half double crochet: 14 hdc and 10 rows = 10 cm in half double crochet, 5 mm hook
hook:
  - {size: 5 mm, use: for the dc rows}
yarn: {weight: 4, ball: 100 g = 200 m}
special stitches:
  dc spike: work a dc around the post of the st two rows below, yo twice
summary: A mat of sc and dc; check your gauge.
---

Every ch 3 counts as dc throughout. Skip the border where it is not wanted.

## Mat

Ch 12.

Row 1: Dc in 4th ch from hook (skipped ch count as dc) and in each ch across. (10 dc)

Row 2: Ch 3, turn, sk first st, dc in each st to last st, dc in top of tch. (10 dc)

Row 3: Ch 1 (does not count as a st), turn, sc in each st to last st, dc spike in last st. Fasten off, leaving a tail.

## Single crochet border

Row 1: Ch 1 (does not count as a st), turn, sc in next 5 sts as in the picture, sc in next 5 sts. (10 sc)
"""


def prove(text: str = SOURCE) -> Proof:
    return prove_text(text, "mat.md")


def print_web(folder: Path, terms: str, text: str = SOURCE) -> tuple[str, str, tuple[Finding, ...]]:
    """The name of the web page, its words, and what was found."""
    (file,), findings = make_booklet(prove(text), Order(folder, ("web",), terms=terms))
    html = re.sub(r"<(style|script)\b.*?</\1>", "", file.read_text(encoding="utf-8"), flags=re.DOTALL)
    return file.name, " ".join(unescape(re.sub(r"<[^>]+>", " ", html)).split()), findings


def test_the_page_is_in_the_terms_asked_for(tmp_path: Path) -> None:
    name, words, findings = print_web(tmp_path, "UK")
    assert [finding.code for finding in findings if finding.code.startswith("terms")] == []
    assert name == "spike-mat-UK-web.html" or name.endswith("-UK-web.html")
    assert "This pattern is written in UK crochet terms" in words
    assert "A mat of dc and tr; check your tension." in words
    assert "Every ch 3 counts as tr throughout. Skip the border where it is not wanted." in words
    assert "Tr in 4th ch from hook (missed ch count as tr) and in each ch across. (10 tr)" in words
    assert "Ch 3, turn, miss first st, tr in each st to last st, tr in top of tch. (10 tr)" in words
    assert "Double crochet border" in words
    assert "in half treble" in words
    assert "for the tr rows" in words
    assert "dc in each st to last st, tr spike in last st." in words
    assert "tr spike work a tr around the post of the st two rows below, yrh twice" in words.lower()
    own, _, others = words.partition("The same stitches in both sets of terms")  # where US words have their column
    assert not re.search(r"\b(?:hdc|sk|yo|gauge)\b", own + others.partition("Notes")[2])


def test_a_row_is_told_in_its_authors_words_where_its_tree_says_less(tmp_path: Path) -> None:
    _, words, _ = print_web(tmp_path, "UK")
    assert "dc in next 5 sts as in the picture, dc in next 5 sts. (10 dc)" in words
    assert "Fasten off, leaving a tail." in words


def test_the_patterns_own_terms_print_the_authors_words(tmp_path: Path) -> None:
    plain = print_web(tmp_path / "plain", "")
    assert print_web(tmp_path / "asked", "US")[:2] == plain[:2]
    assert "Dc in 4th ch from hook (skipped ch count as dc) and in each ch across." in plain[1]


def test_there_and_back_is_the_same_pattern() -> None:
    """The facts and the prose of the carried pattern, carried back, are the author's."""
    proof = prove()
    assert proof.parsed is not None
    assert proof.worked is not None
    assert proof.amounts is not None
    carried, _ = carry_pattern(proof.parsed, proof.worked, proof.amounts, "UK")
    assert carried.sized.pattern.terms == "UK"
    assert carried.sized.numbers == proof.parsed.sized.numbers
    assert carried.worked.parts[0].rows[0][1].fabric is proof.worked.parts[0].rows[0][1].fabric
    assert {term.abbreviation for term in carried.amounts.key} >= {"tr", "dc", "st", "tch"}
    assert carried.sized.pattern.gauges[0].name == "half treble"


def test_error_what_cannot_follow_is_told(tmp_path: Path) -> None:
    text = SOURCE.replace("Every ch 3", "US sc is UK dc, UK tr is US dc.\n\nEvery ch 3")
    _, words, findings = print_web(tmp_path, "UK", text)
    (finding,) = [finding for finding in findings if finding.code == "terms-not-carried"]
    assert finding.span.text == "US sc is UK dc, UK tr is US dc."
    assert finding.span.text in words


@pytest.mark.parametrize("terms", ["US", "UK"])
def test_the_proof_does_not_depend_on_the_terms_printed(terms: str, tmp_path: Path) -> None:
    proof = prove()
    make_booklet(proof, Order(tmp_path, ("web",), terms=terms))
    again = prove()
    assert again.amounts == proof.amounts
    assert [finding.message for finding in again.findings] == [finding.message for finding in proof.findings]
