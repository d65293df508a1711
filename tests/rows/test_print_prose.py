"""Sentences carried from one set of English terms to the other."""

import pytest

from booklet.rows.print_prose import carry_prose, find_left


@pytest.mark.parametrize(
    ("us", "uk"),
    [
        ("A sc and a dc in turn.", "A dc and a tr in turn."),
        ("Work 2 single crochets, then a half double crochet.", "Work 2 double crochets, then a half treble."),
        ("Double crochet stitches are tall.", "Treble stitches are tall."),
        ("SC in each st, DC in the last.", "DC in each st, TR in the last."),
        ("Front post double crochet (FPdc) and dc2tog.", "Front post treble (FPtr) and tr2tog."),
        ("Begin with a standing dc or 12 fsc.", "Begin with a standing tr or 12 fdc."),
        ("3-dc cl, 5-tr bobbles.", "3-tr cl, 5-dtr bobbles."),
        ("Join with sl st.", "Join with ss."),
        ("Skip the next 2 sts; the skipped ch count.", "Miss the next 2 sts; the missed ch count."),
        ("Yo, draw up a loop, yarn over again.", "Yrh, draw up a loop, yarn round hook again."),
        ("Check your gauge.", "Check your tension."),
        ("Written in US crochet terms.", "Written in UK crochet terms."),
        ("Use sc (UK dc) for the edge.", "Use dc (US sc) for the edge."),
    ],
)
def test_terms_are_carried_over_and_back(us: str, uk: str) -> None:
    assert carry_prose(us, "US", "UK") == uk
    assert carry_prose(uk, "UK", "US") == us


@pytest.mark.parametrize(
    "text",
    [
        "Double the yarn, a single strand is too thin.",
        "Skip this section if the hat fits.",
        "Made for a stall in Washington, DC.",
        "See [the notes](https://lanternlane.example/dc-and-sc) and `sc`.",
        "{sc} and {dc + 2}",
        "The blanket grows by a third.",
    ],
)
def test_everyday_words_stay(text: str) -> None:
    assert carry_prose(text, "US", "UK") == text


@pytest.mark.parametrize(
    "text",
    [
        "Keep an even tension.",
        "Don't miss the last post.",
        "Keep the tension even.",
        "The tension on the yarn matters.",
    ],
)
def test_everyday_words_stay_in_uk_texts(text: str) -> None:
    assert carry_prose(text, "UK", "US") == text


def test_lines_that_speak_of_both_sets_stay_and_are_told() -> None:
    text = "A dc is tall.\nUK terms: sc is dc, dc is tr.\nAnother dc.\n"
    assert carry_prose(text, "US", "UK") == "A tr is tall.\nUK terms: sc is dc, dc is tr.\nAnother tr.\n"
    assert [text[start:end] for start, end in find_left(text, "US")] == ["UK terms: sc is dc, dc is tr."]


def test_the_same_terms_change_nothing() -> None:
    assert carry_prose("A sc and a dc; UK dc.", "US", "US") == "A sc and a dc; UK dc."
