"""Phrases of the trade as steps of a tree."""

from collections.abc import Callable

import pytest

from booklet.model.parsed import Row, Stated
from booklet.model.tree import (
    ANY_STITCH,
    Chain,
    Group,
    Join,
    KeepColours,
    Leave,
    Node,
    Repeat,
    RepeatRows,
    Ring,
    Skip,
    TakeColour,
    Turn,
    What,
    Where,
    Work,
)
from booklet.source import SourceFile

Parse = Callable[..., Row]
HERE = SourceFile("rows.md", "").span(0, 0)  # steps are equal wherever they stand


def work(stitch: str, where: Where, times: int = 1) -> Work:
    return Work(HERE, stitch, (times,), where)


NEXT = Where("next")
BARE = Where("next", bare=True)
SAME = Where("same", bare=True)
EACH = Where("each")


@pytest.mark.parametrize(
    ("words", "step"),
    [
        ("sc in next st", work("sc", NEXT)),
        ("sc in next 4 sts", work("sc", Where("next", (4,)))),
        ("sc in each of next 4 sts", work("sc", Where("next", (4,)))),
        ("2 sc in next st", work("sc", NEXT, 2)),
        ("2 sc in each st around", work("sc", EACH, 2)),
        ("sc in each st across", work("sc", EACH)),
        ("sc in each st to last 3 sts", work("sc", Where("each", leave=(3,)))),
        ("sc in first st", work("sc", Where("first"))),
        ("sc in last 2 sts", work("sc", Where("last", (2,)))),
        ("dc in next ch-2 sp", work("dc", Where("next", what=(What("ch-sp", 2),)))),
        ("dc in each ch-1 sp across", work("dc", Where("each", what=(What("ch-sp", 1),)))),
        ("hdc in next dc", work("hdc", Where("next", what=(What("dc"),)))),
        ("FPdc around next st", work("FPdc", NEXT)),
        ("sc2tog", work("sc2tog", BARE)),
        ("3 sc", work("sc", Where("next", (3,), bare=True))),
        ("8 sc in ring", work("sc", Where("ring", what=(What("ring"),)), 8)),
        ("ch 3", Chain(HERE, (3,))),
        ("sk next 2 sts", Skip(HERE, Where("next", (2,)))),
        ("sk 1 st", Skip(HERE, NEXT)),
        ("turn", Turn(HERE)),
        ("do not turn", Turn(HERE, False)),
        ("make a magic ring", Ring(HERE)),
        ("with B", TakeColour(HERE, "B")),
        ("change to B in last st", TakeColour(HERE, "B", True)),
        ("in colours as established", KeepColours(HERE)),
        ("leave remaining sts unworked", Leave(HERE)),
        ("leave last 3 sts unworked", Leave(HERE, (3,))),
        ("join with sl st in first sc", Join(HERE, Where("first", what=(What("sc"),)))),
    ],
)
def test_a_phrase_is_one_step(parse: Parse, words: str, step: Node) -> None:
    """A stitch before it keeps the words from standing at the start of a row."""
    row = parse(f"Row 2: Sc in next st, {words}.")
    assert row.steps[1:] == (step,)


@pytest.mark.parametrize(
    ("words", "until", "count"),
    [
        ("(sc, hdc) 6 times", "times", 6),
        ("(sc, hdc) x 6", "times", 6),
        ("[sc, hdc] twice", "times", 2),
        ("(sc, hdc) across", "end", 1),
        ("*sc, hdc; rep from * across", "end", 1),
        ("*sc, hdc; rep from * around", "end", 1),
        ("*sc, hdc; rep from * 5 more times", "more", 5),
        ("*sc, hdc; rep from * 5 times more", "more", 5),
        ("*sc, hdc; rep from * once more", "more", 1),
        ("*sc, hdc; rep from * 5 times", "open", 5),
        ("*sc, hdc; rep from * to last 4 sts", "last", 4),
    ],
)
def test_how_often_a_repeat_is_worked(parse: Parse, words: str, until: str, count: int) -> None:
    row = parse(f"Row 2: {words}.")
    (repeat,) = row.steps
    assert isinstance(repeat, Repeat)
    assert (repeat.until, repeat.count, repeat.what) == (until, (count,), ANY_STITCH)
    assert repeat.steps == (work("sc", BARE), work("hdc", BARE))


def test_a_repeat_stands_in_a_repeat(parse: Parse) -> None:
    row = parse("Row 2: *Sc in next st, (hdc, dc) 2 times; rep from * across.")
    inner = Repeat(HERE, (work("hdc", BARE), work("dc", BARE)), "times", (2,), mark="(")
    assert row.steps == (Repeat(HERE, (work("sc", NEXT), inner), "end"),)


def test_a_group_goes_into_one_place(parse: Parse) -> None:
    row = parse("Row 2: (2 dc, ch 1, 2 dc) in next ch-2 sp.")
    corner = Where("next", what=(What("ch-sp", 2),))
    assert row.steps == (Group(HERE, (work("dc", SAME, 2), Chain(HERE, (1,)), work("dc", SAME, 2)), corner),)


def test_a_chain_that_counts(parse: Parse) -> None:
    row = parse("Row 2: Ch 3 (counts as dc), turn, dc in next st.")
    assert row.steps[0] == Chain(HERE, (3,), True, "dc")
    row = parse("Row 2: Ch 4 (counts as dc and ch 1), turn, dc in next st.")
    assert row.steps[0] == Chain(HERE, (4,), True, "dc", 1)
    row = parse("Row 2: Ch 1 (does not count as a st), turn, sc in next st.")
    assert row.steps[0] == Chain(HERE, (1,), False)


@pytest.mark.parametrize(
    ("words", "items"),
    [
        ("(42 sts)", [((42,), ANY_STITCH)]),
        ("(42)", [((42,), ANY_STITCH)]),
        ("[42 sc]", [((42,), What("sc"))]),
        ("– 42 sc", [((42,), What("sc"))]),
        ("(12 sc, 11 ch-1 sps)", [((12,), What("sc")), ((11,), What("ch-sp", 1))]),
    ],
)
def test_the_count_at_the_end(parse: Parse, words: str, items: list[object]) -> None:
    row = parse(f"Row 2: Sc in each st across. {words}")
    assert isinstance(row.stated, Stated)
    assert list(row.stated.items) == items


@pytest.mark.parametrize(
    ("words", "rows", "until", "count"),
    [
        ("Rep Row 2", ((2, 2),), "label", 1),
        ("Rep Rows 2 and 3", ((2, 2), (3, 3)), "label", 1),
        ("Rep Rows 2-5 twice", ((2, 5),), "open", 2),
        ("Rep Rows 2 and 3 six more times", ((2, 2), (3, 3)), "more", 6),
        ("As Row 4", ((4, 4),), "label", 1),
    ],
)
def test_rows_worked_again(parse: Parse, words: str, rows: object, until: str, count: int) -> None:
    (step,) = parse(f"Next row: {words}.").steps
    assert isinstance(step, RepeatRows)
    assert (step.rows, step.until, step.count) == (rows, until, (count,))


def test_rows_until_a_length(parse: Parse) -> None:
    (step,) = parse("Next row: Rep Row 2 until piece measures 20 cm, ending with a WS row.").steps
    assert isinstance(step, RepeatRows)
    assert (step.until, step.length_cm, step.ending) == ("length", (20.0,), "WS")
    (step,) = parse("Next row: Rep last 2 rows until piece measures 8 in.").steps
    assert isinstance(step, RepeatRows)
    assert step.last == 2
    assert step.length_cm == pytest.approx((20.32,))  # 1 in = 2.54 cm


def test_a_list_of_sizes_is_one_number(parse: Parse) -> None:
    row = parse("Row 2: Sc in next 10 (12, 14) sts. (10, 12, 14 sc)", sizes="[S, M, L]")
    assert row.steps == (work("sc", Where("next", (10, 12, 14))),)
    assert row.stated is not None
    assert row.stated.items == (((10, 12, 14), What("sc")),)


def test_uk_terms_are_kept_as_us_stitches(parse: Parse) -> None:
    row = parse("Row 2: 1dc in next st, miss 1 st, 2tr in next st.", terms="UK")
    assert row.steps == (work("sc", NEXT), Skip(HERE, NEXT), work("dc", NEXT, 2))


def test_a_remark_is_no_step(parse: Parse) -> None:
    plain = parse("Row 2: Sc in next 2 sts, hdc in next st.")
    told = parse("Row 2: Sc in next 2 sts (keep it loose), hdc in next st.")
    assert [step for step in told.steps if isinstance(step, Work)] == list(plain.steps)
