"""Shaping rates: so many changes over so many rows."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from booklet.sizing.rates import RateError, list_changes, spread_changes, spread_even


# Common practice: "every 4th row 5 times, then every 6th row 3 times" is 8 changes over 38 rows, on one side.
def test_the_classic_rate() -> None:
    rate = spread_changes(8, 38, 2)
    assert (rate.every, rate.times, rate.then_every, rate.then_times, rate.rest) == (4, 5, 6, 3, 0)
    assert list_changes(rate) == (4, 8, 12, 16, 20, 26, 32, 38)


# A sleeve of about 1916 (Woolco): 12 stitches fewer at each side, every 4 rows, in 48 rows.
def test_a_rate_without_remainder() -> None:
    rate = spread_changes(12, 48)
    assert (rate.every, rate.times, rate.then_times, rate.rest) == (4, 12, 0, 0)


# A 1918 jacket's hat: 90 stitches with 3 more, 3 more again (#126, missjuliaspatterns): every 30th.
def test_changes_round() -> None:
    assert spread_even(3, 90) == ((30, 3),)
    assert spread_even(6, 50) == ((9, 2), (8, 4))


@given(changes=st.integers(0, 60), rows=st.integers(0, 300), step=st.integers(1, 4), first=st.integers(0, 9))
def test_any_rate_uses_all_its_rows_as_evenly_as_can_be(changes: int, rows: int, step: int, first: int) -> None:
    try:
        rate = spread_changes(changes, rows, step, first)
    except RateError:
        assert changes > max(0, (rows - first) // step)
        return
    at = list_changes(rate)
    assert len(at) == changes == rate.changes
    assert list(at) == sorted(set(at))
    assert not at or at[-1] <= rows
    assert rate.first + rate.every * rate.times + rate.then_every * rate.then_times + rate.rest == rows
    gaps = [b - a for a, b in zip((rate.first, *at[bool(rate.first) :]), at[bool(rate.first) :], strict=False)]
    assert all(gap % step == 0 for gap in gaps)
    assert not gaps or max(gaps) - min(gaps) in (0, step)


@given(changes=st.integers(1, 60), stitches=st.integers(1, 400))
def test_any_round_is_spread_evenly(changes: int, stitches: int) -> None:
    if changes > stitches:
        with pytest.raises(RateError):
            spread_even(changes, stitches)
        return
    runs = spread_even(changes, stitches)
    assert sum(length * times for length, times in runs) == stitches
    assert sum(times for _, times in runs) == changes
    assert max(runs)[0] - min(runs)[0] <= 1


@pytest.mark.parametrize(("changes", "rows", "step"), [(5, 4, 1), (3, 5, 2), (-1, 5, 1), (1, 5, 0)])
def test_error_rates_that_no_rows_have(changes: int, rows: int, step: int) -> None:
    with pytest.raises(RateError):
        spread_changes(changes, rows, step)
