"""Numbers with their units. Roundings are tested with the amounts."""

import pytest

from booklet.model.measure import Length
from booklet.pages.figures import (
    print_both,
    print_date,
    print_length,
    print_percent,
    print_size_list,
    print_yarn_length,
)


@pytest.mark.parametrize(
    ("values", "printed"),
    [
        ((77,), "77"),
        ((77, 77, 77), "77"),
        ((77, 83, 89), "77 (83, 89)"),
        ((1, 2, 3, 4, 5, 6), "1 (2, 3, 4, 5, 6)"),
        # common practice: long ranges in groups, so that the eye finds its place
        ((1, 2, 3, 4, 5, 6, 7, 8, 9, 10), "1 (2, 3, 4, 5, 6) (7, 8, 9, 10)"),
    ],
)
def test_size_lists_have_the_trades_form(values: tuple[int, ...], printed: str) -> None:
    assert print_size_list(values) == printed


def test_the_patterns_own_unit_stands_first() -> None:
    assert print_both(70, 28, "metric") == ("70\u00a0cm", "28\u00a0in")
    assert print_both(70, 28, "imperial") == ("28\u00a0in", "70\u00a0cm")
    assert print_both(None, None, "metric") == ()


def test_yarn_is_rounded_up_in_both_units() -> None:
    # NIST Handbook 44, Appendix C: 1 yd = 0.9144 m, so 200 m = 218.7 yd
    assert print_yarn_length(200, "metric") == ("200\u00a0m", "219\u00a0yd")
    assert print_yarn_length(200.01, "imperial") == ("219\u00a0yd", "201\u00a0m")
    assert print_yarn_length(12345, "metric")[0] == "12\u202f345\u00a0m"


def test_lengths_stay_in_the_unit_they_were_written_in() -> None:
    assert print_length(Length(27.5, "in")) == "27½\u00a0in"
    assert print_length(Length(70, "mm")) == "70\u00a0mm"
    assert print_percent(0.1) == "10%"


def test_dates_stand_in_words_in_the_readers_order() -> None:
    assert print_date("2026-11-25", "metric") == "25 November 2026"
    assert print_date("2026-11-25", "imperial") == "November 25, 2026"
    assert print_date("spring 2026", "metric") == "spring 2026"
