"""The worked stitches: what each was worked into, in which colour, and what the next row finds."""

from collections import Counter
from collections.abc import Callable
from itertools import pairwise

from booklet.model.work import WorkedRow

Work = Callable[..., list[WorkedRow]]
START = "Ch 7.\n\nRow 1: Sc in 2nd ch from hook and in each ch across. (6 sc)\n\n"
PLAIN = "Ch 1 (does not count as a st), turn, "


def test_a_row_back_goes_into_the_last_stitch_first(work: Work) -> None:
    row = work(START + f"Row 2: {PLAIN}sc in each st across. (6 sc)")[-1]
    stitches = [stitch for stitch in row.fabric.stitches if stitch.kind == "sc"]
    assert [stitch.into for stitch in stitches] == [(5,), (4,), (3,), (2,), (1,), (0,)]
    assert [stitch.top for stitch in stitches] == [0, 1, 2, 3, 4, 5]
    assert row.turned


def test_a_round_goes_on_in_its_order(work: Work) -> None:
    row = work("Rnd 1: 6 sc in magic ring. (6)\n\nRnd 2: 2 sc in each st around. (12)")[-1]
    assert [stitch.into for stitch in row.fabric.stitches] == [(at // 2,) for at in range(12)]
    assert not row.turned


def test_stitches_worked_together_hold_all_their_places(work: Work) -> None:
    row = work(START + f"Row 2: {PLAIN}(sc2tog) 3 times. (3 sc)")[-1]
    assert [tuple(sorted(stitch.into)) for stitch in row.fabric.stitches if stitch.kind == "sc2tog"] == [
        (4, 5),
        (2, 3),
        (0, 1),
    ]


def test_a_group_is_a_cluster_in_one_place(work: Work) -> None:
    row = work(START + f"Row 2: {PLAIN}sc in next 2 sts, (hdc, dc, hdc) in next st, sc in next 3 sts. (8 sts)")[-1]
    group = [stitch for stitch in row.fabric.stitches if stitch.cluster >= 0]
    assert [stitch.kind for stitch in group] == ["hdc", "dc", "hdc"]
    assert len({stitch.cluster for stitch in group}) == 1
    assert {stitch.into for stitch in group} == {(3,)}


def test_a_stitch_in_a_chain_space_holds_the_whole_space(work: Work) -> None:
    rows = work(
        START
        + f"Row 2: {PLAIN}sc in first st, ch 2, sk next 2 sts, sc in next st, ch 2, sk next st, sc in last st.\n\n"
        + f"Row 3: {PLAIN}3 sc in each ch-2 sp across. (6 sc)"
    )
    stitch = next(stitch for stitch in rows[-1].fabric.stitches if stitch.kind == "sc")
    assert stitch.into_space
    assert len(stitch.into) == 2
    sites = rows[-2].fabric.sites
    assert [(sites[at].kind, sites[at].run) for at in stitch.into] == [("ch", 2), ("ch", 2)]


def test_a_join_leaves_no_place_to_work_into(work: Work) -> None:
    row = work("Rnd 1: Ch 1, 6 sc in magic ring, join with sl st in first sc. (6 sc)")[-1]
    assert len([site for site in row.fabric.sites if site.counts]) == 6
    assert [stitch.top for stitch in row.fabric.stitches if stitch.kind == "sl st"] == [-1]
    assert row.fabric.yarn[("", "sl st")] == 1


def test_a_turning_chain_that_counts_is_one_place_of_its_kind(work: Work) -> None:
    row = work(START + "Row 2: Ch 3 (counts as dc), turn, sk first st, dc in each st across. (6 dc)")[-1]
    first = row.fabric.sites[0]
    assert (first.kind, first.chains, first.counts) == ("dc", 3, True)
    assert row.fabric.counts == {"dc": 6}
    assert row.fabric.yarn == {("", "ch"): 3, ("", "dc"): 5}


def test_yarn_is_counted_by_colour_and_kind(work: Work) -> None:
    rows = work(
        "With A, ch 7.\n\nRow 1: Sc in 2nd ch from hook and in each ch across. (6 sc)\n\n"
        "Row 2: With B, ch 1 (does not count as a st), turn, sc in next 3 sts, with A, sc in next 3 sts. (6 sc)"
    )
    yarn: Counter[tuple[str, str]] = Counter()
    for row in rows:
        yarn.update(row.fabric.yarn)
    assert yarn == {("A", "ch"): 7, ("A", "sc"): 9, ("B", "ch"): 1, ("B", "sc"): 3}


def test_equal_rows_share_one_fabric(work: Work) -> None:
    rows = work(START + f"Row 2: {PLAIN}sc in each st across. (6 sc)\n\nRows 3-400: Rep Row 2. (6 sc)")
    assert len(rows) == 401
    assert len({id(row.fabric) for row in rows[2:]}) == 1


def test_every_stitch_goes_into_places_that_are_there(work: Work) -> None:
    rows = work(
        START + f"Row 2: {PLAIN}*sc in next st, ch 1, sk next st; rep from * across. (6 sts)\n\n"
        f"Row 3: {PLAIN}*2 sc in next ch-1 sp, sk next st; rep from * across. (6 sc)\n\n"
        f"Row 4: {PLAIN}sc2tog, sc in each st across. (5 sc)"
    )
    for below, row in pairwise(rows):
        for stitch in row.fabric.stitches:
            assert all(0 <= at < len(below.fabric.sites) for at in stitch.into)
            assert stitch.top < len(row.fabric.sites)
