"""The abbreviation key, in US and UK terms."""

from typing import Any

import pytest

from booklet.amounts.key import explain_term, list_terms
from booklet.model.amounts import Term
from booklet.model.pattern import SpecialStitch


def list_lines(make: Any, *names: str, **facts: Any) -> list[tuple[str, str]]:
    terms, findings = list_terms(make.pattern(**facts), make.worked(names=names))
    assert not findings
    return [(term.abbreviation, term.name) for term in terms]


def test_the_key_stands_in_order_of_the_alphabet(make: Any) -> None:
    assert list_lines(make, "st", "sc", "RS", "ch", "BLO", "sl st", "sts") == [
        ("BLO", "back loop only"),
        ("ch", "chain"),
        ("RS", "right side"),
        ("sc", "single crochet"),
        ("sl st", "slip stitch"),
        ("st", "stitch"),
    ]


# Craft Yarn Council, US and UK terms, as reported by secondary pages.
@pytest.mark.parametrize(
    ("us", "uk", "name"),
    [
        ("sl st", "ss", "slip stitch"), ("sc", "dc", "double crochet"), ("hdc", "htr", "half treble"),
        ("dc", "tr", "treble"), ("tr", "dtr", "double treble"), ("sk", "miss", "miss"),
        ("FPdc", "FPtr", "front post treble"), ("sc2tog", "dc2tog", "double crochet 2 together"),
        ("3-dc cl", "3-tr cl", "cluster of 3 treble"),
    ],
)  # fmt: skip
def test_uk_terms(us: str, uk: str, name: str) -> None:
    term = explain_term(us, "UK")
    assert term is not None
    assert (term.abbreviation, term.name) == (uk, name)


@pytest.mark.parametrize(
    ("us", "name"),
    [
        ("FPdc", "front post double crochet"), ("BPhdc", "back post half double crochet"),
        ("sc3tog", "single crochet 3 together"), ("5-dc bobble", "bobble of 5 double crochet"),
    ],
)  # fmt: skip
def test_families_of_stitches(us: str, name: str) -> None:
    assert explain_term(us, "US") == Term(us, name)


def test_uk_keys_say_nothing_in_us_terms() -> None:
    us, uk = explain_term("rsc", "US"), explain_term("rsc", "UK")
    assert us is not None
    assert uk is not None
    assert us.meaning.startswith("Single crochet")
    assert uk.meaning == ""


def test_the_authors_own_words_win(make: Any) -> None:
    special = SpecialStitch("Pebble", "Sc, ch 3, sc in same st.", make.span, "peb")
    terms, findings = list_terms(
        make.pattern(abbreviations={"sk": "leave out"}, special_stitches=(special,)),
        make.worked(names=("sk", "peb", "Pebble", "wave"), defined={"wave": "2 sc, ch 2, 2 sc"}),
    )
    assert not findings
    assert [(term.abbreviation, term.name) for term in terms] == [
        ("peb", "Pebble"),
        ("sk", "leave out"),
        ("wave", "2 sc, ch 2, 2 sc"),
    ]


def test_error_a_term_nobody_explains(make: Any) -> None:
    terms, findings = list_terms(make.pattern(), make.worked(names=("frill", "sc")))
    assert [term.abbreviation for term in terms] == ["sc"]
    assert [finding.message for finding in findings] == ['"frill" is used but the abbreviation key cannot explain it']
