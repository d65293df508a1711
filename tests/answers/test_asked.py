"""Questions as they are typed."""

import pytest

from booklet.answers.asked import (
    OtherGauge,
    OtherNumber,
    OtherYarn,
    Stock,
    read_fewer,
    read_other_gauge,
    read_other_number,
    read_other_yarn,
    read_stock,
)
from booklet.model.measure import Length
from booklet.reading.quantities import UnreadError


@pytest.mark.parametrize(
    ("text", "gauge"),
    [
        ("13", OtherGauge("", 13)),
        ("13 sts", OtherGauge("", 13)),
        ("13½ sts and 11 rows", OtherGauge("", 13.5, 11)),
        ("13 x 11", OtherGauge("", 13, 11)),
        ("moss stitch: 15 sts x 16 rows", OtherGauge("moss stitch", 15, 16)),
        ("15 sts and 16 rows = 4 in, 5 mm hook", OtherGauge("", 15, 16, Length(4, "in"), 5)),
    ],
)
def test_gauges(text: str, gauge: OtherGauge) -> None:
    assert read_other_gauge(text) == gauge


@pytest.mark.parametrize(
    ("text", "number"),
    [
        ("panel+4", OtherNumber("panel", 4)),
        ("panel - 2", OtherNumber("panel", -2)),
        ("panel = 36 (44, 60)", OtherNumber("panel", values=(36, 44, 60))),
        ("band=40", OtherNumber("band", values=(40,))),
    ],
)
def test_numbers(text: str, number: OtherNumber) -> None:
    assert read_other_number(text) == number


def test_yarns() -> None:
    assert read_other_yarn("3 Light, 50 g = 120 m") == OtherYarn(3, "Light", 50, 120)
    assert read_other_yarn("worsted") == OtherYarn(4, "Medium")


@pytest.mark.parametrize(
    ("text", "stock"),
    [
        ("B", Stock("B", fewer=1)),
        ("B 2 balls", Stock("B", fewer=2)),
        ("2", Stock("", fewer=2)),
        ("MC: 3", Stock("MC", fewer=3)),
    ],
)
def test_fewer_balls(text: str, stock: Stock) -> None:
    assert read_fewer(text) == stock


@pytest.mark.parametrize(
    ("text", "stock"),
    [
        ("B 3 balls", Stock("B", balls=3)),
        ("B=240 m", Stock("B", metres=240)),
        ("A 100 yd", Stock("A", metres=91.44)),  # 1 yd = 0.9144 m: NIST Handbook 44, Appendix C
        ("85 g", Stock("", grams=85)),
    ],
)
def test_stocks(text: str, stock: Stock) -> None:
    assert read_stock(text) == stock


@pytest.mark.parametrize("text", ["", "x", "0", "13 and", "13 sts and 0 rows", "sts = 10 cm", ":", "-3"])
def test_error_gauges(text: str) -> None:
    with pytest.raises(UnreadError):
        read_other_gauge(text)


@pytest.mark.parametrize("text", ["", "panel", "panel*2", "+4", "panel+", "panel+4 (6)", "panel+x", "3+4"])
def test_error_numbers(text: str) -> None:
    with pytest.raises(UnreadError):
        read_other_number(text)


@pytest.mark.parametrize("text", ["", "B", "B many", "B 3 cm", "B 0.5 balls"])
def test_error_stocks(text: str) -> None:
    with pytest.raises(UnreadError):
        read_stock(text)


@pytest.mark.parametrize("text", ["B 0", "B some", "B -1"])
def test_error_fewer(text: str) -> None:
    with pytest.raises(UnreadError):
        read_fewer(text)
