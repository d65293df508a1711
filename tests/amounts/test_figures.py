"""Printed figures: the trade's roundings, and that rounding never moves a measure by more than half a step."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from booklet.amounts.figures import (
    QUARTERS,
    print_cm,
    print_inches,
    print_metres,
    print_number,
    print_sizes,
    print_yards,
)
from booklet.model.measure import CM_PER_INCH, GRAMS_PER_OUNCE, METRES_PER_YARD


# Yarn-company leaflets (24 x 84 in printed 61 x 213.5 cm, and the rest of the list), nearest half centimetre.
@pytest.mark.parametrize(
    ("inches", "cm"),
    [
        (10, "25.5"), (17, "43"), (19, "48.5"), (20, "51"), (21.5, "54.5"), (22.5, "57"), (24, "61"), (52, "132"),
        (54, "137"), (84, "213.5"), (86, "218.5"),
    ],
)  # fmt: skip
def test_centimetres_as_the_trade_rounds_them(inches: float, cm: str) -> None:
    assert print_cm(inches * CM_PER_INCH) == cm


@pytest.mark.parametrize(
    ("inches", "printed"), [(0.75, "¾"), (0.1, "0"), (21.5, "21½"), (27.3, "27¼"), (27.375, "27½"), (12.9, "13")]
)
def test_inches_in_quarters(inches: float, printed: str) -> None:
    assert print_inches(inches) == printed


# NIST Handbook 44, Appendix C: 1 in = 2.54 cm, 1 yd = 0.9144 m, 1 oz = 28.349523125 g, all exact.
def test_exact_factors() -> None:
    assert (CM_PER_INCH, METRES_PER_YARD, GRAMS_PER_OUNCE) == (2.54, 0.9144, 28.349523125)
    assert math.isclose(1 / METRES_PER_YARD, 1.0936132983, abs_tol=1e-10)
    assert math.isclose(1 / GRAMS_PER_OUNCE, 0.0352739619, abs_tol=1e-10)


# Label pairs of yarn-company leaflets; a need is rounded up, so each prints one more than the label cuts.
@pytest.mark.parametrize(("metres", "yards"), [(133.5024, 146), (141.732, 155), (202.0824, 221), (233.172, 255)])
def test_yards_and_metres_of_one_length(metres: float, yards: int) -> None:
    assert print_yards(metres) == str(yards)
    assert print_metres(metres) == str(int(metres) + 1)


# 212 m per 100 g is Nm 2.12, tex 471.7, 1052 yd to the pound: computed from the definitions
# (Nm m per g, tex g per 1000 m, 1 lb = 0.45359237 kg).
def test_yarn_count() -> None:
    metres_per_gram = 212 / 100
    assert metres_per_gram == pytest.approx(2.12)
    assert 1000 / metres_per_gram == pytest.approx(471.7, abs=0.05)
    assert metres_per_gram * 16 * GRAMS_PER_OUNCE / METRES_PER_YARD == pytest.approx(1052, abs=0.5)


@pytest.mark.parametrize(
    ("figures", "printed"), [(["77"], "77"), (["77", "83", "89"], "77 (83, 89)"), (["5", "5"], "5"), ([], "")]
)
def test_one_figure_a_size(figures: list[str], printed: str) -> None:
    assert print_sizes(figures) == printed


@pytest.mark.parametrize(("number", "printed"), [(5.0, "5"), (5.5, "5.5"), (2.25, "2.25"), (100.0, "100")])
def test_numbers_without_needless_noughts(number: float, printed: str) -> None:
    assert print_number(number) == printed


def read_inches(printed: str) -> float:
    quarters = QUARTERS.index(printed[-1]) if printed[-1] in QUARTERS[1:] else 0
    return float((printed[:-1] if quarters else printed) or 0) + quarters / 4


@given(st.floats(0, 2000))
def test_rounding_moves_no_measure_by_more_than_half_a_step(length: float) -> None:
    assert abs(float(print_cm(length)) - length) <= 0.25 + 1e-6
    assert abs(read_inches(print_inches(length)) - length) <= 0.125 + 1e-6
