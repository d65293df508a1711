"""How far a stock of one colour goes."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from booklet.answers.asked import Stock, read_fewer, read_stock
from booklet.answers.running_out import measure_stock
from booklet.answers.supposing import Known
from booklet.reading.quantities import UnreadError

STRIPES = """---
title: Stripes
gauge: 14 sts and 16 rows = 10 cm in single crochet
yarn: {weight: 4 Medium, fibre: wool, ball: 100 g = 100 m}
colours: {A: Slate, B: Oat}
margin: 0 %
---
Row 1: With A, ch 41, sc in 2nd ch from hook and in each ch across. (40 sc)

Row 2: Ch 1, turn, sc in each st across. (40 sc)

Row 3: With B, ch 1, turn, sc in each st across. (40 sc)

Row 4: Ch 1, turn, sc in each st across. (40 sc)

Row 5: With A, ch 1, turn, sc in each st across. (40 sc)
"""


def test_one_ball_fewer(blanket: Known) -> None:
    lap, throw, bed = measure_stock(blanket, read_fewer("B"))
    assert (lap.metres, lap.rows_in_all) == (2 * 190, 132)
    assert lap.metres < lap.needed < lap.to_buy
    # 2 balls are 380 m, and less than the yarn of one row is missing
    assert lap.needed - lap.metres < lap.needed / 132
    assert lap.rows in (130, 131)
    assert lap.stops_in.startswith("Upper edge, Row ")
    assert throw.rows < throw.rows_in_all
    assert bed.metres > bed.needed
    assert bed.stops_in == ""


def test_a_number_of_rows_that_the_stock_is_enough_for(blanket: Known) -> None:
    for answer in measure_stock(blanket, read_fewer("B")):
        (smaller,) = answer.smaller
        assert smaller.number == "band"
        assert smaller.then < smaller.values
        assert smaller.metres <= answer.metres


def test_rows_of_the_colour_alone_are_counted(prove: object) -> None:
    assert callable(prove)
    known = prove(STRIPES)
    need = next(need for need in known.amounts.yarn.needs if need.letter == "B")
    (answer,) = measure_stock(known, Stock("B", metres=need.metres / 2))
    assert (answer.rows, answer.rows_in_all, answer.stops_in) == (1, 2, "Row 4")


def test_what_is_asked_for_is_enough_and_nothing_gives_nothing(hat: Known) -> None:
    for answer in measure_stock(hat, read_stock("A 1000 m")):
        assert (answer.rows, answer.sure_rows, answer.stops_in, answer.smaller) == (
            answer.rows_in_all,
            answer.rows_in_all,
            "",
            (),
        )
    for answer in measure_stock(hat, read_fewer("B 1")):
        assert (answer.metres, answer.rows) == (0, 0)


def test_grams_go_by_the_ball(hat: Known) -> None:
    assert measure_stock(hat, read_stock("A 50 g"))[0].metres == 100


@settings(max_examples=40, deadline=None)
@given(metres=st.floats(0, 500), more=st.floats(0, 100))
def test_more_yarn_never_gives_fewer_rows(hat: Known, metres: float, more: float) -> None:
    little = measure_stock(hat, Stock("A", metres=metres))
    much = measure_stock(hat, Stock("A", metres=metres + more))
    for less, greater in zip(little, much, strict=True):
        assert less.rows <= greater.rows <= greater.rows_in_all
        assert greater.sure_rows <= greater.rows


def test_error_a_colour_that_is_not_there(hat: Known) -> None:
    with pytest.raises(UnreadError, match='no colour "Z"'):
        measure_stock(hat, read_fewer("Z"))
    with pytest.raises(UnreadError, match="2 colours"):
        measure_stock(hat, read_stock("3 balls"))
