"""The abbreviation key, in US and UK terms."""

from dataclasses import replace
from typing import Any

import pytest

from booklet.amounts.key import explain_term, list_terms
from booklet.model.pattern import Part, Prose, SpecialStitch


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
    term = explain_term(us, "US")
    assert term is not None
    assert (term.abbreviation, term.name) == (us, name)


def test_how_post_and_together_forms_are_worked() -> None:
    """Common practice: round the post from the front or the back; all last loops drawn off at once."""
    front, back, together = (explain_term(name, "US") for name in ("FPdc", "BPdc", "dc2tog"))
    assert front is not None
    assert back is not None
    assert together is not None
    assert front.meaning.startswith("insert the hook from the front")
    assert back.meaning.startswith("insert the hook from the back")
    assert together.meaning.endswith("draw through all loops on the hook")
    half = explain_term("hdc2tog", "US")  # common practice: it has no last loop to be left with
    assert half is not None
    assert half.meaning.endswith("draw through all 5 loops on the hook")


def test_what_prose_and_definitions_name_stands_in_the_key(make: Any) -> None:
    special = SpecialStitch("picot", "Ch 3, sl st in 3rd ch from hook.", make.span, "")
    part = Part("Leg", 2, (Prose("Yo once. Close it with 5 sc through both layers, RS facing.", make.span),), make.span)
    pattern = replace(make.pattern(special_stitches=(special,)), parts=(part,))
    terms, _ = list_terms(pattern, make.worked(names=("dc",)))
    assert [term.abbreviation for term in terms] == ["ch", "dc", "picot", "RS", "sc", "sl st", "yo"]
