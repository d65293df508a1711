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
        ("52 x 60 in", "52 × 60\u00a0in"),
        ("52x60", "52 × 60"),
        ("inc x 6", "inc × 6"),
        ("sc x6", "sc × 6"),
        ("10 cm", "10\u00a0cm"),
        ("6 mochas", "6 mochas"),
        ("see https://a.example/1-2?x=3-4 now", "see https://a.example/1-2?x=3-4 now"),
        ("write to ann-1-2@b.example", "write to ann-1-2@b.example"),
        ("*sc, ch 1; rep from *", "*sc, ch 1; rep from *"),
        ("", ""),
    ],
)
def test_typed_text_is_set_as_print(typed: str, printed: str) -> None:
    assert set_type(typed) == printed


def test_the_character_before_decides_which_way_a_quote_faces() -> None:
    assert set_type('" then', before="n") == "” then"
    assert set_type('"then', before=" ") == "“then"
