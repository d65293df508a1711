"""Quantities in the trade's notation."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from booklet.reading.quantities import (
    UnreadError,
    read_amount,
    read_ball,
    read_grams,
    read_hook,
    read_length,
    read_share,
    read_whole,
)


@pytest.mark.parametrize(
    ("text", "value"),
    [
        ("27½", 27.5),
        ("27 1/2", 27.5),
        ("27-1/2", 27.5),
        ("¾", 0.75),
        ("3/8", 0.375),
        ("2,5", 2.5),
        ("1,200", 1200.0),
        ("6 ⅝", 6.625),
    ],
)
def test_amounts(text: str, value: float) -> None:
    assert read_amount(text) == value


@pytest.mark.parametrize(
    ("text", "cm"),
    [
        ("70 cm", 70.0),
        ("10cm", 10.0),
        ("27½ in", 69.85),
        ('4"', 10.16),
        ('4" (10 cm)', 10.16),
        ("60 in (150 cm)", 152.4),
        ("1.5 m", 150.0),
        ("2 yards", 182.88),
        ("45 mm", 4.5),
        ("5 ft", 152.4),
    ],
)
def test_lengths(text: str, cm: float) -> None:
    # Factors: NIST Handbook 44, Appendix C: 1 in = 2.54 cm, 1 yd = 0.9144 m exactly.
    assert read_length(text).cm == pytest.approx(cm)


@pytest.mark.parametrize(
    ("read", "text", "code"),
    [
        (read_length, "70", "missing-unit"),
        (read_length, "wide", "wrong-value"),
        (read_length, "0 cm", "wrong-value"),
        (read_length, "36-38 in", "wrong-value"),
        (read_length, "4 in (12 cm)", "wrong-value"),
        (read_length, "1/0 in", "wrong-value"),
        (read_grams, "21", "missing-unit"),
        (read_grams, "light", "wrong-value"),
        (read_hook, "5", "missing-unit"),
        (read_hook, "H-8", "wrong-value"),
        (read_hook, "50 mm", "wrong-value"),
        (read_share, "10", "missing-unit"),
        (read_share, "150 %", "wrong-value"),
        (read_whole, "3.5", "wrong-value"),
        (read_ball, "100 g", "missing-unit"),
        (read_ball, "100 g = 200 m (240 yd)", "label-disagrees"),
        (read_ball, "50 g (1 oz) = 100 m", "label-disagrees"),
    ],
)
def test_error_quantities_say_what_is_missing(read, text: str, code: str) -> None:
    with pytest.raises(UnreadError) as refused:
        read(text)
    assert refused.value.code == code
    assert refused.value.expected


def test_error_a_bare_length_offers_both_units() -> None:
    with pytest.raises(UnreadError) as refused:
        read_length("70")
    assert refused.value.message == '"70" has no unit'
    assert refused.value.fix == 'write "70 cm" or "70 in"'


@pytest.mark.parametrize(
    ("text", "grams", "metres"),
    [
        ("100 g = 200 m", 100, 200),
        ("50g, 125m", 50, 125),
        ("3.5 oz (100 g) / 219 yd (200 m)", 100, 200),
        ("1.75 oz = 137 yards", 49.61, 125.27),
    ],
)
def test_balls(text: str, grams: float, metres: float) -> None:
    # 1 oz avoirdupois = 28.349523125 g (NIST Handbook 44, Appendix C).
    assert read_ball(text) == pytest.approx((grams, metres), abs=0.01)


@pytest.mark.parametrize(("text", "mm"), [("5 mm", 5.0), ("5.5mm", 5.5), ("H-8 (5 mm)", 5.0), ("5 mm (US H-8)", 5.0)])
def test_hooks(text: str, mm: float) -> None:
    assert read_hook(text) == mm


@given(st.text(max_size=60))
def test_no_text_raises_anything_else(text: str) -> None:
    for read in (read_length, read_grams, read_hook, read_share, read_whole, read_ball):
        try:
            read(text)
        except UnreadError:
            continue
