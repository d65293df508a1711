"""Typewriter habits made into print."""

import pytest

from booklet.pages.typography import set_type


@pytest.mark.parametrize(
    ("typed", "printed"),
    [
        ('4" wide', "4″ wide"),
        ('27 1/2" wide', "27½″ wide"),
        ("27-1/2 in", "27½\u00a0in"),
        ("1/4 and 7/8", "¼ and ⅞"),
        ("on 1/2/2026", "on 1/2/2026"),
        ("11/16", "11/16"),
        ("2/3 of the row", "⅔ of the row"),
        ('"so-called" edge', "“so-called” edge"),
        ('a ("quoted") word', "a (“quoted”) word"),
        ('"size 4" is said', "“size 4” is said"),
        ("don't", "don’t"),
        ("the makers' own", "the makers’ own"),
        ("rows 5-12", "rows 5–12"),
        ("ch-2 sp", "ch-2 sp"),
        ("2026-11-20", "2026-11-20"),
        ("tel 555-0100-22", "tel 555-0100-22"),
        ("a -- b", "a – b"),
        ("wide - not long", "wide – not long"),
        ("so --- then", "so—then"),
        ("and so on...", "and so on…"),
        ("52 x 60 in", "52\u00a0×\u00a060\u00a0in"),
        ("52x60", "52\u00a0×\u00a060"),
        ("inc x 6", "inc\u00a0×\u00a06"),
        ("sc x6", "sc\u00a0×\u00a06"),
        ("10 cm", "10\u00a0cm"),
        ("6 mochas", "6 mochas"),
        ("see https://a.example/1-2?x=3-4 now", "see https://a.example/1-2?x=3-4 now"),
        ("write to ann-1-2@b.example", "write to ann-1-2@b.example"),
        ("*sc, ch 1; rep from *", "*sc, ch\u00a01; rep from *"),
        ("", ""),
    ],
)
def test_typed_text_is_set_as_print(typed: str, printed: str) -> None:
    assert set_type(typed) == printed


def test_the_character_before_decides_which_way_a_quote_faces() -> None:
    assert set_type('" then', before="n") == "” then"
    assert set_type('"then', before=" ") == "“then"


def test_no_line_ends_between_a_word_and_its_number() -> None:
    """Common practice: "inc × 6", "Rnd 12" and "ch 33" stay together."""
    assert set_type("inc x 6 on Rnd 12, ch 33") == "inc\u00a0×\u00a06 on Rnd\u00a012, ch\u00a033"
