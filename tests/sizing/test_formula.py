"""Formulas: arithmetic, and nothing that is not."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from booklet.sizing.formula import FormulaError, evaluate_formula, list_names


@pytest.mark.parametrize(
    ("text", "value"),
    [
        ("panel * 3 + 2", 65),
        ("(panel - 1) // 2", 10),
        ("panel % 4", 1),
        ("panel / 2", 10.5),
        ("round(panel / 2)", 11),
        ("round(2.5)", 3),
        ("round(-2.5)", -2),
        ("floor(panel / 2)", 10),
        ("ceil(panel / 2)", 11),
        ("max(panel, 30) + min(1, 2)", 31),
        ("panel × 2 − 1", 41),
        ("-panel + 30", 9),
    ],
)
def test_formulas(text: str, value: float) -> None:
    assert evaluate_formula(text, {"panel": 21}) == value


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("panel / 0", "the formula divides by 0"),
        ("panel +", "the formula is not arithmetic"),
        ("", "the formula is empty"),
        ("2 ** 100", "only + - * / // % and brackets have a meaning in a formula"),
        ("panel if panel else 1", "only + - * / // % and brackets have a meaning in a formula"),
        ("panel.real", "only + - * / // % and brackets have a meaning in a formula"),
        ("[1, 2]", "only + - * / // % and brackets have a meaning in a formula"),
        (
            "open('x')",
            (
                "only round, floor, ceil, min, max, across, around, every, times, then_every, then_times, rest can be "
                'called, not "open"'
            ),
        ),
        ("'a' * 3", "only numbers and names have a meaning in a formula"),
        ("True + 1", "only numbers and names have a meaning in a formula"),
        ("9999999999 + 1", "the formula holds a number that is too large"),
        ("999999999 * 999999999", "the formula comes to more than can be counted"),
        ("floor(1, 2)", "floor takes 1 number"),
        ("1 + " * 80 + "1", "the formula is longer than 200 characters"),
        ("(" * 190 + "1", "the formula is not arithmetic"),
        ("pañel", '"ñ" has no meaning in a formula'),
    ],
)
def test_error_formulas_say_why_in_plain_words(text: str, words: str) -> None:
    with pytest.raises(FormulaError) as wrong:
        evaluate_formula(text, {"panel": 21})
    assert str(wrong.value) == words


def test_error_an_unknown_name_offers_a_close_one() -> None:
    with pytest.raises(FormulaError) as wrong:
        evaluate_formula("pannel * 2", {"panel": 21})
    assert (wrong.value.name, wrong.value.close) == ("pannel", "panel")


def test_names_come_in_order_and_once() -> None:
    assert list_names("edge + panel * 2 + max(panel, rib)") == ("edge", "panel", "rib")


@given(st.text(alphabet="ab12+-*/%() .,", max_size=60))
def test_no_formula_raises_anything_else(text: str) -> None:
    try:
        value = evaluate_formula(text, {"a": 3, "b": 4})
    except FormulaError:
        return
    assert abs(value) <= 1e9
