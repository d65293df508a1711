"""Lines of gauge."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from booklet.model.measure import Length
from booklet.reading.gauges import GaugeLine, read_gauge
from booklet.reading.quantities import UnreadError

TEN_CM = Length(10.0, "cm")
FOUR_IN = Length(4.0, "in")


@pytest.mark.parametrize(
    ("text", "line"),
    [
        (
            "16 sts and 17 rows = 10 cm in moss stitch, 5 mm hook, blocked",
            GaugeLine(16, 17, TEN_CM, "moss stitch", 5.0, True, False),
        ),
        ('17 sc and 20 rows = 4"', GaugeLine(17, 20, FOUR_IN, "sc", None, False, False)),
        ("12 sts = 4 in", GaugeLine(12, None, FOUR_IN, "", None, False, False)),
        ("17 tr and 9 rows to 10cm", GaugeLine(17, 9, TEN_CM, "tr", None, False, False)),
        (
            '14 hdc and 11 rnds = 4" (10 cm), with 5 mm (H-8) hook, unblocked, yarn held double',
            GaugeLine(14, 11, FOUR_IN, "hdc, yarn held double", 5.0, False, True),
        ),
        (
            "16 sts, 17 rows over 10 x 10 cm in moss stitch with a 5 mm hook after blocking",
            GaugeLine(16, 17, TEN_CM, "moss stitch", 5.0, True, False),
        ),
        (
            "16 sts x 17 rows to 10 cm square in sc in the round",
            GaugeLine(16, 17, TEN_CM, "sc", None, False, True),
        ),
        ("14½ sts = 4 in", GaugeLine(14.5, None, FOUR_IN, "", None, False, False)),
        ("11 half double crochet = 4 in", GaugeLine(11, None, FOUR_IN, "half double crochet", None, False, False)),
    ],
)
def test_lines_of_gauge(text: str, line: GaugeLine) -> None:
    assert read_gauge(text) == line


@pytest.mark.parametrize(
    ("text", "code"),
    [
        ("16 sts and 17 rows = 10", "missing-unit"),
        ("16 sts and 17 rows", "gauge-without-length"),
        ("a firm fabric", "wrong-value"),
        ("160 sts = 1 cm", "wrong-value"),
        ("16 sts = 4 in (12 cm)", "wrong-value"),
    ],
)
def test_error_lines_of_gauge(text: str, code: str) -> None:
    with pytest.raises(UnreadError) as refused:
        read_gauge(text)
    assert refused.value.code == code


@given(st.text(max_size=80))
def test_no_text_raises_anything_else(text: str) -> None:
    try:
        read_gauge(text)
    except UnreadError:
        return
