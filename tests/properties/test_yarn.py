"""What holds of yarn whatever the pattern, and whatever its lengths rest on."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from booklet.model.amounts import YarnNeed, YarnUse
from booklet.pipeline import prove_text

quick = settings(max_examples=12, deadline=None)
KINDS = st.sampled_from(["sc", "hdc", "dc", "tr", "FPdc", "3-dc cl", "bobble"])
# What the lengths may rest on, from the surest to none: each is a line of front matter.
EVIDENCE = st.sampled_from(
    [
        "sample: {used: 310 g}\n",
        "swatch: {sts: 20, rows: 20, weight: 19 g}\n",
        "swatch: {sts: 20, rows: 20, weight: 19 g, after: 15 x 17 cm, stitch: sc}\n",
        "unravelled: {sts: 10, length: 70 cm}\n",
        "testers: [{used: 280 g}]\n",
        "",
    ]
)
# What the gauge may come from: itself, a finished size, the yarn's weight, the hook.
GAUGES = st.sampled_from(
    [
        "gauge: 14 sts and 12 rows = 10 cm\n",
        "gauge: 14 sts = 10 cm\n",
        "sizes: {One: {width: 80 cm, length: 90 cm}}\n",
        "hook: 5.5 mm\n",
        "",
    ]
)


def use_of(front: str, kind: str, sts: int, rows: int, yarn: str = "weight: 4, ball: 100 g = 190 m") -> YarnUse:
    text = f"""---
title: Square
{front}yarn: {{{yarn}}}
---
Row 1: Fsc {sts}.

Row 2: Ch 1 (does not count as a st), turn, {kind} in each st across.

Rep last row until there are {rows} rows.
"""
    proof = prove_text(text, "square.md")
    assert proof.amounts is not None
    assert proof.amounts.yarn is not None
    return proof.amounts.yarn


def total_of(use: YarnUse) -> YarnNeed:
    return next(iter(use.totals.values()))


def bare_of(use: YarnUse) -> float:
    return total_of(use).metres - total_of(use).tail_metres


@quick
@given(
    gauge=GAUGES, evidence=EVIDENCE, kind=KINDS, sts=st.integers(4, 40), rows=st.integers(3, 40), more=st.integers(1, 9)
)
def test_more_stitches_or_rows_never_need_less(
    gauge: str, evidence: str, kind: str, sts: int, rows: int, more: int
) -> None:
    """What was weighed of the item itself holds for the item as it is; of anything else, more stitches take more."""
    before = total_of(use_of(gauge + evidence, kind, sts, rows)).metres
    wider, longer = (
        total_of(use_of(gauge + evidence, kind, *size)).metres for size in ((sts + more, rows), (sts, rows + more))
    )
    if evidence.startswith(("sample", "testers")):
        assert min(wider, longer) >= before - 1e-6
    else:
        assert min(wider, longer) > before


@quick
@given(gauge=GAUGES, evidence=EVIDENCE, kind=KINDS, sts=st.integers(4, 40), rows=st.integers(3, 40))
def test_every_figure_has_its_range_and_how_it_came_about(
    gauge: str, evidence: str, kind: str, sts: int, rows: int
) -> None:
    use = use_of(gauge + evidence, kind, sts, rows)
    for need in (*use.needs, total_of(use)):
        assert 0 < need.low_metres <= need.metres <= need.high_metres
        assert need.how in ("measured", "computed", "estimated")
        assert need.how != "measured" or evidence.startswith(("sample", "testers"))
        assert need.how != "estimated" or not evidence or evidence.startswith("testers")
        assert need.balls is not None
        assert need.left_metres is not None
        assert 0 <= need.left_metres < 190 + 1e-6
        assert need.balls * 190 == pytest.approx(need.metres_to_buy + need.swatch_metres + need.left_metres)


# A fabric that is larger throughout takes yarn in proportion: twice as wide stitches in twice as high rows, twice the
# length of yarn.
@quick
@given(kind=KINDS, sts=st.integers(8, 30), rows=st.integers(6, 30), times=st.floats(0.3, 4))
def test_yarn_grows_with_the_fabric(kind: str, sts: int, rows: int, times: float) -> None:
    small = use_of(f"gauge: {sts} sts and {rows} rows = 10 cm\n", kind, 20, 20)
    large = use_of(f"gauge: {sts} sts and {rows} rows = {10 * times:.6f} cm\n", kind, 20, 20)
    assert bare_of(large) == pytest.approx(bare_of(small) * times, rel=1e-4)


# As wide and half as high, or half as wide and as high, is the same area for a stitch, and the same yarn.
@quick
@given(kind=KINDS, sts=st.integers(8, 20), rows=st.integers(6, 20))
def test_yarn_goes_by_the_area_of_a_stitch(kind: str, sts: int, rows: int) -> None:
    one = use_of(f"gauge: {2 * sts} sts and {rows} rows = 10 cm\n", kind, 20, 20)
    other = use_of(f"gauge: {sts} sts and {2 * rows} rows = 10 cm\n", kind, 20, 20)
    assert bare_of(one) == pytest.approx(bare_of(other), rel=0.05)  # the chains at the edge lie along it


@quick
@given(kind=KINDS, sts=st.integers(4, 40), rows=st.integers(3, 40), strands=st.integers(2, 4))
def test_strands_held_together_are_counted_each(kind: str, sts: int, rows: int, strands: int) -> None:
    gauge = "gauge: 9 sts and 6 rows = 10 cm\n"
    single = use_of(gauge, kind, sts, rows)
    together = use_of(gauge, kind, sts, rows, f"weight: 4, strands: {strands}, ball: 100 g = 190 m")
    assert bare_of(together) == pytest.approx(bare_of(single) * strands)
    assert (total_of(together).balls or 0) >= strands
