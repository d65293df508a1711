"""Figures given in two units, anywhere in the text."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from booklet.pipeline import prove_text


def list_found(words: str, front: str = "") -> list[str]:
    row = "Row 1: Ch 11, sc in 2nd ch from hook and in each ch across. (10 sc)"
    text = f"---\ntitle: Cloth\n{front}---\n\n{words}\n\n{row}\n"
    codes = ("units-differ", "hook-size-differs")
    return [finding.message for finding in prove_text(text, "cloth.md").findings if finding.code in codes]


# Printed by yarn companies and checked: lengths to the half centimetre, labels (leaflets; standards of the trade).
@pytest.mark.parametrize(
    "words",
    [
        "10 in (25.5 cm)", "17 in (43 cm)", "19 in (48.5 cm)", "20 in (51 cm)", "20 in (50.5 cm)", "21½ in (54.5 cm)",
        "24 in (61 cm)", "52 in (132 cm)", "84 in (213.5 cm)", "86 in (218.5 cm)", "4 in (10 cm)", "60 in (150 cm)",
        "146 yd (133 m)", "155 yd/142 m", "221 yd/202 m", "255 yd (233 m)", "59 yd (54 m)", "250 g/8.8 oz",
        "300 g/10.5 oz", "50 g (1.75 oz)", "3.5 oz (100 g)", "1/4 in (0.5 cm)", "34 (37, 41) in / 86 (94, 104) cm",
        "4-6 in (10-15 cm)", "2.5 cm (1 in)", "14 x 16 in (36 x 41 cm)", "Rows 5 in (3 sts)", "1 m (100 cm)",
    ],
)  # fmt: skip
def test_pairs_that_agree(words: str) -> None:
    assert list_found(f"It is {words} long.") == []


@pytest.mark.parametrize(
    ("words", "message"),
    [
        ("10 in (30 cm)", "10 in is not 30 cm"),
        ("30 cm (10 in)", "30 cm is not 10 in"),
        ("200 yd (250 m)", "200 yd is not 250 m"),
        ("100 g (2.5 oz)", "100 g is not 2.5 oz"),
        ("34 (37, 41) in [86 (94, 114) cm]", "41 in is not 114 cm"),
        ("4-6 in (10-18 cm)", "6 in is not 18 cm"),
        ("5 mm (I-9)", "I-9 is not a hook of 5 mm"),
    ],
)
def test_pairs_that_do_not(words: str, message: str) -> None:
    assert list_found(f"It takes {words} or so.") == [message]


def test_rows_and_hooks_of_the_front_matter_are_looked_through() -> None:
    assert list_found("Rep last row until piece measures 10 in (20 cm).") == ["10 in is not 20 cm"]
    assert list_found("", "hook: I-9 (5 mm)\n") == ["I-9 is not a hook of 5 mm"]
    assert list_found("", "gauge: 14 sts and 16 rows = 10 cm, 6 mm (H-8) hook\n") == ["H-8 is not a hook of 6 mm"]


@given(inches=st.integers(1, 400))
def test_what_is_rounded_as_the_trade_rounds_is_never_told(inches: int) -> None:
    quarter = inches / 4
    for factor in (2.5, 2.54):
        cm = round(quarter * factor * 2) / 2
        if cm:
            assert list_found(f"It is {quarter:g} in ({cm:g} cm) long.") == []
