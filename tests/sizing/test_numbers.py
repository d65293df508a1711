"""Named numbers worked out for every size."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from booklet.findings import Finding
from booklet.model.pattern import Publisher, SizedPattern
from booklet.reading.pattern import read_pattern
from booklet.sizing.numbers import fit_count, size_pattern
from booklet.source import SourceFile

BLANKET = """gauge:
  moss: 16 sts and 17 rows = 10 cm
  plain: 14 sts = 4 in
sizes:
  Cot: {width: 70 cm, length: 90 cm, finished width: 72 cm}
  Lap: {width: 95 cm, length: 120 cm}
"""


def size(numbers: str, front: str = BLANKET) -> tuple[SizedPattern, tuple[Finding, ...]]:
    text = f"---\ntitle: Tideline\n{front}numbers:\n{numbers}\n---\nRow 1: Sc.\n"
    pattern, findings = read_pattern(SourceFile("tideline.md", text), Publisher())
    assert pattern is not None
    sized, more = size_pattern(pattern)
    return sized, findings + more


def values(numbers: str, name: str, front: str = BLANKET) -> tuple[int, ...]:
    sized, findings = size(numbers, front)
    assert findings == ()
    return sized.numbers[name].values


@pytest.mark.parametrize(
    ("rule", "expected"),
    [
        ("77 (83)", (77, 83)),
        ("12", (12, 12)),
        ("{measure: width, gauge: moss}", (112, 152)),
        # 56 lies between 55 and 57 alike: the larger one is taken.
        ("{measure: width / 2, gauge: moss, multiple: 2 + 1}", (57, 77)),
        ("{measure: width, gauge: moss, multiple: 6}", (114, 150)),
        ("{measure: width, gauge: moss, multiple: odd}", (113, 153)),
        ("{measure: length - 2 * 5 cm, gauge: moss, direction: rows, keep: parity}", (136, 188)),
        ("{measure: length - 2 * 5 cm, gauge: moss, direction: rows, keep: parity, tie: down}", (136, 186)),
        ("{measure: width, gauge: moss, ease: 5 cm}", (120, 160)),
        ("{measure: width, gauge: moss, ease: -10 %}", (101, 137)),
        ("{measure: width, gauge: moss, ease: [2 cm, 4 cm]}", (115, 158)),
        # Craft Yarn Council, ease and fit chart: a classic fit has 5 to 10 cm, of which the middle is taken.
        ("{measure: width, gauge: moss, ease: classic fit}", (124, 164)),
        ("{measure: width, gauge: moss, ease: close-fitting}", (112, 152)),
        ("{measure: width / 2, gauge: moss, multiple: 2 + 1, tie: down}", (55, 75)),
        ("{measure: width, gauge: moss, multiple: 10, round: up}", (120, 160)),
        ("{measure: width, gauge: moss, multiple: 10, round: down}", (110, 150)),
        ("{measure: 2 * width + 10 cm, gauge: moss, multiple: 4 - 1}", (239, 319)),
    ],
)
def test_numbers(rule: str, expected: tuple[int, ...]) -> None:
    assert values(f"  panel: {rule}", "panel") == expected


def test_published_stitches_for_a_width() -> None:
    # 14 sts to 4 in, 30 in wide: 105 sts (14 / 4 x 30), as in a published sc panel.
    assert values("  panel: {measure: 30 in, gauge: plain}", "panel") == (105, 105)


def test_a_target_in_inches_over_a_gauge_in_centimetres() -> None:
    """36 in is nine times 4 in, and the trade states 4 in and 10 cm alike (common practice): 9 times 14 sts."""
    front = "gauge: 14 sts = 10 cm\nsizes: {One: {chest: 36 in}}\n"
    sized, _ = size("  body: {measure: chest}\n  half: {measure: chest / 2 + 2 in}", front)
    assert sized.numbers["body"].values == (126,)
    assert sized.numbers["body"].true_cm == pytest.approx((91.44,))
    assert sized.numbers["half"].values == (70,)


def test_a_target_in_centimetres_over_a_gauge_in_inches() -> None:
    front = "gauge: 16 sts = 4 in\nsizes: {One: {chest: 90 cm}}\n"
    assert size("  body: {measure: chest}", front)[0].numbers["body"].values == (144,)


def test_the_exact_inch_where_the_author_asks_for_it() -> None:
    front = "gauge: 14 sts = 10 cm\ninch: 2.54 cm\nsizes: {One: {chest: 36 in}}\n"
    assert size("  body: {measure: chest}", front)[0].numbers["body"].values == (128,)


def test_published_width_of_a_loose_gauge() -> None:
    # A published gauge of 29 sts to 4 in worked at 28: 290 sts come to 41.43 in.
    front = "gauge: 28 sts = 4 in\nsizes: {One: {chest: 41.43 in}}\n"
    sized, findings = size("  body: {measure: chest, multiple: 10}", front)
    assert findings == ()
    assert sized.numbers["body"].values == (290,)
    assert sized.numbers["body"].true_cm[0] / 2.54 == pytest.approx(41.43, abs=0.005)


@pytest.mark.parametrize(
    ("multiple", "plus", "published"),
    [
        # Published: lace garment in six sizes, leaflet 136-25 (garnstudio.com): repeats of 10 and 9 more.
        (10, 9, (99, 99, 119, 119, 139, 139)),
        # Published: ribbed pullover in six sizes, craftorator.com, pattern 674: odd counts for (sc, dc).
        (2, 1, (65, 69, 75, 83, 91, 103)),
    ],
)
def test_published_counts_fit_their_multiple(multiple: int, plus: int, published: tuple[int, ...]) -> None:
    assert tuple(fit_count(count, multiple, plus) for count in published) == published
    assert tuple(fit_count(count + 0.49 * multiple, multiple, plus) for count in published) == published


def test_published_chains_from_stitches() -> None:
    # Published: tunic in three sizes, pattern-knit.com: ch 55 (63, 69) for 54 (62, 68) sts with the turning chain.
    front = "sizes: [S, M, L]\n"
    assert values("  sts: 54 (62, 68)\n  chain: sts + 1", "chain", front) == (55, 63, 69)


def test_a_measure_keeps_its_target_and_its_true_length() -> None:
    sized, _ = size("  panel: {measure: width / 2, gauge: moss, multiple: 2 + 1}")
    number = sized.numbers["panel"]
    assert (number.gauge, number.measure, number.multiple, number.plus) == ("moss", "width / 2", 2, 1)
    assert number.target_cm == (35.0, 47.5)
    assert number.true_cm == pytest.approx((35.625, 48.125))


def test_formulas_are_worked_out_in_order_of_need() -> None:
    text = "  wide: panel * 2 + edge\n  edge: 4\n  panel: {measure: width, gauge: moss}"
    assert values(text, "wide") == (228, 308)


def test_a_pattern_without_sizes_has_one_value() -> None:
    assert values("  panel: 21\n  both: panel * 2", "both", "") == (42,)


def test_the_only_gauge_need_not_be_named() -> None:
    assert values("  panel: {measure: 30 in}", "panel", "gauge: 14 sts = 4 in\n") == (105,)


@pytest.mark.parametrize(
    ("rule", "code", "words", "fix"),
    [
        ("panle * 2", "unknown-name", 'no number is called "panle"', 'write "panel"'),
        ("panel * 2 +", "formula-wrong", "the formula is not arithmetic", ""),
        ("panel / 2", "formula-wrong", '"x" comes to 10.5 in size Cot', 'write "round(panel / 2)", or floor or ceil'),
        ("5 - panel", "formula-wrong", '"x" comes to -16 in size Cot', ""),
        ("panel * 9999999", "formula-wrong", '"x" comes to 209999979', ""),
        ("{measure: widht, gauge: moss}", "unknown-measure", 'no size has a measure "widht"', 'write "width"'),
        (
            "{measure: finished width, gauge: moss}",
            "unknown-measure",
            '"finished width" is missing in 1 size',
            'add "finished width: ..." to each size',
        ),
        ("{measure: width, gauge: mos}", "unknown-gauge", 'no gauge is called "mos"', 'write "gauge: moss"'),
        ("{measure: width}", "unknown-gauge", '"x" needs a gauge, and the pattern has several', 'write "gauge: moss"'),
        (
            "{measure: length, gauge: plain, direction: rows}",
            "gauge-has-no-rows",
            '"x" counts rows, but gauge "plain" has none',
            'add "and ... rows" to the gauge',
        ),
        ("{measure: width + 2, gauge: moss}", "formula-wrong", "a length and a bare number are mixed", ""),
        ("{measure: 30, gauge: moss}", "formula-wrong", "a length and a bare number are mixed", ""),
        ("{measure: width - 90 cm, gauge: moss}", "formula-wrong", "the measure comes to -20 cm in size Cot", ""),
        ("y + 1", "circular-number", '"x" is worked out from itself', "give one of x, y as numbers or from a measure"),
        ("x + 1", "circular-number", '"x" is worked out from itself', "give one of x as numbers or from a measure"),
        (
            "{measure: width, gauge: moss, multiple: 60}",
            "number-too-coarse",
            'the multiple of "x" is wider than a step in size',
            "use a smaller repeat, a border that makes up the difference, or fewer sizes",
        ),
    ],
)
def test_error_numbers(rule: str, code: str, words: str, fix: str) -> None:
    _, findings = size(f"  panel: 21\n  x: {rule}\n  y: x + 1")
    assert [(f.code, f.message, f.fix) for f in findings] == [(code, words, fix)]
    assert findings[0].expected


@pytest.mark.parametrize(
    ("front", "numbers", "code"),
    [
        ("gauge: 16 sts = 10 cm\nsizes:\n  S: {width: 70}\n", "  x: {measure: width}", "missing-unit"),
        ("gauge: 16 sts = 10\nsizes:\n  S: {width: 70 cm}\n", "  x: {measure: width}", "missing-unit"),
        ("gauge: {moss: firm}\nsizes:\n  S: {width: 70 cm}\n", "  x: {measure: width, gauge: moss}", "wrong-value"),
        ("gauge: [16\nsizes:\n  S: {width: 70 cm}\n", "  x: {measure: width}", "yaml-syntax"),
        ("sizes: [S, S]\n", "  x: {measure: width, gauge: moss}\ngauge: {moss: 16 sts = 10 cm}", "wrong-value"),
        ("", "  y: many * 2\n  many: [a]\n  x: y + 1", "wrong-value"),
    ],
)
def test_error_what_is_missing_because_of_a_mistake_is_not_told_again(front: str, numbers: str, code: str) -> None:
    sized, findings = size(numbers, front)
    assert [f.code for f in findings] == [code]
    assert "x" not in sized.numbers


def test_error_a_list_of_the_wrong_length_is_filled_up() -> None:
    sized, (finding,) = size("  panel: 21 (25, 29)")
    assert finding.code == "size-count-differs"
    assert sized.numbers["panel"].values == (21, 25)
    sized, _ = size("  panel: 21 (25)", "sizes: [S, M, L]\n")
    assert sized.numbers["panel"].values == (21, 25, 25)


@given(st.floats(0, 5000), st.integers(1, 60), st.integers(-60, 60))
def test_a_count_is_the_nearest_that_fits(raw: float, multiple: int, plus: int) -> None:
    count = fit_count(raw, multiple, plus)
    assert count >= 1
    assert (count - plus) % multiple == 0
    lowest = min(n for n in range(1, 200) if (n - plus) % multiple == 0 and n >= plus)
    if raw >= lowest:
        assert abs(count - raw) <= multiple / 2 + 1e-6


@given(st.integers(0, 500), st.integers(1, 30), st.integers(0, 30))
def test_of_two_equally_near_counts_the_larger_is_taken(k: int, half: int, plus: int) -> None:
    multiple = 2 * half
    assert fit_count(multiple * k + plus + half, multiple, plus) == multiple * (k + 1) + plus
