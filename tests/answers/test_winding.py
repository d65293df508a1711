"""Balls for kits, whole and wound off."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from booklet.answers.winding import count_items, count_whole, count_wound, share_out

# A worsted hat in four bands takes 17, 34, 43 and 51 yd (creamofthecropcrochet.com, a published hat for newborns); of
# a ball of 170 yd that is 10, 5, 3 and 3 hats, and 9, 4, 3 and 3 with a tenth kept back (computed by hand).
HATS = (17, 34, 43, 51)


def test_hats_from_a_ball() -> None:
    assert [count_items(yards, 170) for yards in HATS] == [10, 5, 3, 3]
    assert [count_items(yards * 1.1, 170) for yards in HATS] == [9, 4, 3, 3]


def test_a_class_of_20_with_3_oz_each_needs_ten_6_oz_balls_wound_off() -> None:
    # mochamomentsmom.blogspot.com 2008, a class of 20 with 3 oz issued to each: 60 oz, ten balls of 6 oz.
    assert count_wound([3] * 20, 6) == 10
    assert count_whole([3] * 20, 6) == 20


def test_a_portion_longer_than_a_ball() -> None:
    assert count_whole([218, 218], 200) == 4
    assert count_wound([218, 218], 200) == 3  # a ball for each, and the rest of both from a third


def test_nothing_is_wound_from_two_balls_where_one_would_do() -> None:
    assert count_wound([60, 60, 60], 100) == 3


PORTIONS = st.lists(st.floats(0.5, 500), min_size=1, max_size=60)


@given(portions=PORTIONS, ball=st.floats(20, 400))
def test_wound_off_is_never_more_than_whole_balls_and_never_less_than_the_yarn(
    portions: list[float], ball: float
) -> None:
    wound, whole = count_wound(portions, ball), count_whole(portions, ball)
    assert math.ceil(sum(portions) / ball - 1e-6) <= wound <= whole


@given(portions=PORTIONS, ball=st.floats(20, 400), more=st.floats(0.5, 500))
def test_one_more_kit_never_needs_fewer_balls(portions: list[float], ball: float, more: float) -> None:
    assert count_whole([*portions, more], ball) >= count_whole(portions, ball)


@given(total=st.integers(0, 500), among=st.integers(1, 60))
def test_shares_add_up_and_differ_by_one_at_most(total: int, among: int) -> None:
    shares = share_out(total, among)
    assert sum(shares) == total
    assert max(shares) - min(shares) <= 1
    assert shares == sorted(shares, reverse=True)


@pytest.mark.parametrize(("total", "among", "shares"), [(50, 25, [2] * 25), (7, 3, [3, 2, 2]), (2, 4, [1, 1, 0, 0])])
def test_shares(total: int, among: int, shares: list[int]) -> None:
    assert share_out(total, among) == shares
