"""What holds of measures, yarn and printed figures whatever the pattern."""

import re

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from booklet.amounts.figures import (
    QUARTERS,
    print_cm,
    print_inches,
    print_left,
    print_left_yards,
    print_metres,
    print_yards,
)
from booklet.model.amounts import Amounts
from booklet.model.measure import METRES_PER_YARD
from booklet.pipeline import prove_text

KINDS = st.sampled_from(["sc", "hdc", "dc", "tr"])


def prove(kind: str, sts: int, rows: int, gauge: str = "14 sts and 12 rows = 10 cm", facts: str = "") -> Amounts:
    text = f"""---
title: Square
gauge: {gauge}
yarn: {{weight: 4, ball: 100 g = 190 m}}
{facts}---
## Square

Row 1: F{kind if kind != "tr" else "dc"} {sts}.

Row 2: Ch 1 (does not count as a st), turn, {kind} in each st across.

Rep last row until there are {rows} rows.
"""
    proof = prove_text(text, "square.md")
    assert proof.amounts is not None
    assert [finding.message for finding in proof.findings if finding.severity.value == "error"] == []
    return proof.amounts


def metres_of(amounts: Amounts) -> float:
    assert amounts.yarn is not None
    return next(iter(amounts.yarn.totals.values())).metres


@settings(max_examples=25, deadline=None)
@given(kind=KINDS, sts=st.integers(2, 120), rows=st.integers(3, 120), more=st.integers(1, 9))
def test_more_stitches_or_rows_never_need_less_yarn(kind: str, sts: int, rows: int, more: int) -> None:
    before = metres_of(prove(kind, sts, rows))
    assert metres_of(prove(kind, sts + more, rows)) > before
    assert metres_of(prove(kind, sts, rows + more)) > before


@settings(max_examples=25, deadline=None)
@given(
    sts=st.integers(6, 40),
    rows=st.integers(6, 40),
    width=st.integers(20, 200),
    multiple=st.integers(1, 8),
    scale=st.sampled_from([0.5, 2, 3, 10]),
)
def test_gauge_and_measure_scaled_together_change_no_count(
    sts: int, rows: int, width: int, multiple: int, scale: float
) -> None:
    def work(over: float, wide: float) -> Amounts:
        facts = (
            f"sizes: {{One: {{width: {wide:g} cm}}}}\nnumbers: {{panel: {{measure: width, multiple: {multiple}}}}}\n"
        )
        text = f"---\ntitle: Mat\ngauge: {sts} sts and {rows} rows = {over:g} cm\n{facts}---\nRow 1: Fsc {{panel}}.\n"
        amounts = prove_text(text, "mat.md").amounts
        assert amounts is not None
        return amounts

    small, large = work(10, width), work(10 * scale, width * scale)
    assert [measure.count for measure in small.measures] == [measure.count for measure in large.measures]
    for one, other in zip(small.measures, large.measures, strict=True):
        assert other.cm[0] == pytest.approx((one.cm[0] or 0) * scale)


@settings(max_examples=25, deadline=None)
@given(
    stripes=st.lists(st.tuples(st.sampled_from("ABCD"), KINDS), min_size=1, max_size=12),
    swatch=st.booleans(),
    seam=st.booleans(),
)
def test_the_colours_and_sizes_add_up(stripes: list[tuple[str, str]], swatch: bool, seam: bool) -> None:
    facts = ["colours: {A: Fog, B: Oat, C: Rust, D: Pine}", "sizes: [Small, Large]"]
    facts += ["swatch: {sts: 20, rows: 20, weight: 18 g}"] if swatch else []
    facts += (
        ["seams: {side: {length: 30 cm, colour: A}}", "trimmings: {fringe: {number: 20, cut: 24 cm, colour: D}}"]
        if (seam)
        else []
    )
    rows = ["Row 1: With A, fsc 20 (30)."]
    rows += [
        f"Next row: With {letter}, ch 1 (does not count as a st), turn, {kind} in each st across."
        for letter, kind in stripes
    ]
    front = "title: Stripes\ngauge: 14 sts and 12 rows = 10 cm\nyarn: {weight: 4, ball: 50 g = 90 m}\n" + "\n".join(
        facts
    )
    amounts = prove_text(f"---\n{front}\n---\n" + "\n\n".join(rows) + "\n", "stripes.md").amounts
    assert amounts is not None
    assert amounts.yarn is not None
    fields = (
        "stitches", "metres", "metres_to_buy", "grams", "balls", "left_metres", "ends", "low_metres", "high_metres",
        "tail_metres", "seam_metres", "trimming_metres", "swatch_metres", "left_grams",
    )  # fmt: skip
    for size, total in amounts.yarn.totals.items():
        needs = [need for need in amounts.yarn.needs if need.size == size]
        for field in fields:
            assert getattr(total, field) == pytest.approx(sum(getattr(need, field) for need in needs)), field
        for need in needs:
            assert need.low_metres <= need.metres <= need.high_metres
            assert need.metres_to_buy == pytest.approx(need.metres * 1.1)
            assert (need.balls or 0) * 90 == pytest.approx(
                need.metres_to_buy + need.swatch_metres + (need.left_metres or 0)
            )


def read_figure(text: str) -> float:
    match = re.fullmatch(r"(\d*)([¼½¾]?)", text)
    if match is None:
        return float(text)
    return float(match[1] or 0) + QUARTERS.index(match[2]) / 4


# A ruler shows quarter inches and half centimetres: a printed figure is never further off than half of that.
@given(length=st.floats(0, 1e4))
def test_rounding_never_moves_a_measure_by_more_than_half_a_step(length: float) -> None:
    assert abs(float(print_cm(length)) - length) <= 0.25 + 1e-6
    assert abs(read_figure(print_inches(length)) - length) <= 0.125 + 1e-6


@given(metres=st.floats(0, 1e5))
def test_needs_are_rounded_up_and_leftovers_down(metres: float) -> None:
    assert -1e-6 <= int(print_metres(metres)) - metres < 1
    assert -1e-6 <= int(print_yards(metres)) - metres / METRES_PER_YARD < 1
    assert -1e-6 <= metres - int(print_left(metres)) < 1
    assert -1e-6 <= metres / METRES_PER_YARD - int(print_left_yards(metres)) < 1
