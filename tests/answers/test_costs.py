"""Time, cost and price."""

from collections.abc import Callable

import pytest

from booklet.amounts.making_time import count_hours, print_hours
from booklet.answers.cost_words import tell_costs
from booklet.answers.costs import count_costs
from booklet.answers.supposing import Known
from booklet.model.costs import CostFacts, Money
from booklet.reading.money import read_fees, read_minutes, read_money, read_seconds
from booklet.reading.quantities import UnreadError

STRIP = """---
title: Strip
gauge: 14 sts and 16 rows = 4 in in single crochet
yarn: {weight: 4 Medium, fibre: wool, ball: 100 g = 200 yd}
KEYS---
Row 1: Ch 11, sc in 2nd ch from hook and in each ch across. (10 sc)

Row 2: Ch 1, turn, sc in each st across. (10 sc)
"""


def test_3400_stitches_at_2_8_seconds() -> None:
    # runningwithscissorsmn.com: 2.8 s a stitch; 3,400 x 2.8 = 9,520 s = 2 h 38 min 40 s
    low, high = count_hours(3400, (2.8, 2.8))
    assert low == high
    assert low * 3600 == pytest.approx(2 * 3600 + 38 * 60 + 40)
    assert print_hours((low, high)) == "2 h 40 min"


@pytest.mark.parametrize(
    ("hours", "text"),
    [
        ((12.4, 19.2), "12 to 19 h"),
        ((9.0, 11.0), "9 to 11 h"),
        ((0.41, 0.66), "25 to 40 min"),
        ((0.01, 0.01), "5 min"),
        ((1.15, 2.0), "1 h 10 min to 2 h"),
    ],
)
def test_times_as_printed(hours: tuple[float, float], text: str) -> None:
    assert print_hours(hours) == text


def test_yarn_is_charged_by_the_share_of_the_ball_that_is_used(prove: Callable[[str], Known]) -> None:
    # climbtheladder.com: 80 of 200 yd of a ball at 10 are 4
    known = prove(STRIP.replace("KEYS", ""))
    sheet = count_costs(known, CostFacts(ball_price=Money(10)))
    (item,) = sheet.items
    assert known.amounts.yarn is not None
    yards = known.amounts.yarn.totals[""].metres / 0.9144
    assert item.yarn_used == pytest.approx(yards / 200 * 10)
    assert item.yarn_bought == 10
    assert 80 / 200 * 10 == 4


def test_an_item_costs_hours_times_rate_and_materials(prove: Callable[[str], Known]) -> None:
    # runningwithscissorsmn.com: (hours x rate) + materials, 20 an hour
    known = prove(STRIP.replace("KEYS", ""))
    facts = CostFacts(seconds=(2, 4), finishing=(30, 60), rate=Money(20), other=Money(3), profit=0.5)
    (item,) = count_costs(known, facts).items
    assert item.stitches == 20  # 10 sc in each of 2 rows; chains are left out
    assert item.hours == (pytest.approx(20 * 2 / 3600 + 0.5), pytest.approx(20 * 4 / 3600 + 1))
    assert item.cost == (pytest.approx(20 * item.hours[0] + 3), pytest.approx(20 * item.hours[1] + 3))
    assert item.price == (pytest.approx(item.cost[0] * 1.5), pytest.approx(item.cost[1] * 1.5))


def test_450_spent_at_about_5_net_are_90_sales(hat: Known) -> None:
    # ruthbrasch.com (prices) with the figures of a designer who spent 450: 450 / 5 = 90
    facts = CostFacts(spent=Money(450), price=Money(6), fees=Money(1), sales=90)
    price = count_costs(hat, facts).pattern
    assert price is not None
    assert (price.net, price.sales_needed) == (5, 90)
    assert price.price_needed == pytest.approx(6)


def test_fees_as_a_share_of_the_price(hat: Known) -> None:
    price = count_costs(hat, CostFacts(spent=Money(450), price=Money(6), fee_share=0.25, sales=100)).pattern
    assert price is not None
    assert (price.net, price.sales_needed, price.price_needed) == (4.5, 100, pytest.approx(6))


def test_what_was_assumed_is_told(hat: Known) -> None:
    text = "\n".join(tell_costs(count_costs(hat, CostFacts())))
    assert "2.8 to 5 seconds a stitch, chains left out" in text
    assert "runningwithscissorsmn.com" in text
    assert "no advice" in text
    assert "labour" not in text  # nothing was given to work it out from


def test_more_stitches_take_longer(hat: Known) -> None:
    hours = [item.hours for item in count_costs(hat, CostFacts()).items]
    assert hours == sorted(hours)


def test_the_booklet_says_how_long_it_takes_only_where_the_pattern_asks(prove: Callable[[str], Known]) -> None:
    assert prove(STRIP.replace("KEYS", "costs: {rate: 20, seconds: 3}\n")).amounts.making_time == ()
    asked = prove(STRIP.replace("KEYS", "making time: 2.5 to 4\n"))
    assert asked.amounts.making_time == ((pytest.approx(20 * 2.5 / 3600), pytest.approx(20 * 4 / 3600)),)
    assert asked.pattern.costs.seconds == (2.5, 4)


def test_money_and_times_as_written() -> None:
    assert read_money("USD 20") == Money(20, "USD")
    assert read_money("6.50 €") == Money(6.5, "€")
    assert read_money("1,250") == Money(1250)
    assert read_fees("12 %") == (None, 0.12)
    assert read_fees("0.95") == (Money(0.95), 0.0)
    assert read_seconds("2.8 s") == (2.8, 2.8)
    assert read_seconds("2.5 to 4") == (2.5, 4)
    assert read_minutes("1 to 1.5 h") == (60, 90)


@pytest.mark.parametrize(
    ("read", "text"),
    [
        (read_money, "a lot"),
        (read_money, "USD 20 €"),
        (read_money, "-5"),
        (read_seconds, "0"),
        (read_seconds, "4 to 2"),
        (read_seconds, "2 min"),
        (read_minutes, "soon"),
        (read_minutes, "3 days"),
    ],
)
def test_error_money_and_times(read: Callable[[str], object], text: str) -> None:
    with pytest.raises(UnreadError):
        read(text)


def test_error_mixed_currencies_and_fees_that_leave_nothing(hat: Known) -> None:
    with pytest.raises(UnreadError, match="mixed"):
        count_costs(hat, CostFacts(rate=Money(20, "USD"), ball_price=Money(6, "€")))
    with pytest.raises(UnreadError, match="leave nothing"):
        count_costs(hat, CostFacts(spent=Money(450), price=Money(1), fees=Money(2)))
