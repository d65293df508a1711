"""Every stitch of the row below is used or left: rows made up from pieces whose arithmetic is known."""

from hypothesis import given, settings
from hypothesis import strategies as st

from booklet.model.work import WorkedRow
from booklet.pipeline import prove_text

quick = settings(max_examples=60, deadline=None)

# Words that work over `uses` stitches and make `makes`, chains over skipped stitches counted.
PIECES = {
    "sc in next st": (1, 1),
    "hdc in next 2 sts": (2, 2),
    "2 dc in next st": (1, 2),
    "3 sc in next st": (1, 3),
    "sc2tog over next 2 sts": (2, 1),
    "dc3tog over next 3 sts": (3, 1),
    "ch 1, sk next st, sc in next st": (2, 2),
    "ch 2, sk next 2 sts, dc in next st": (3, 3),
    "(sc, hdc, sc) in next st": (1, 3),
    "sk next st, 2 hdc in next st": (2, 2),
    "FPdc around next st, BPdc around next st": (2, 2),
    "bobble in next st": (1, 1),
}

pieces = st.lists(st.sampled_from(sorted(PIECES)), min_size=1, max_size=5)


def work(chain: int, *rows: str) -> list[WorkedRow]:
    """The rows over a foundation of so many sc; each may be broken."""
    opening = f"Ch {chain + 1}.\n\nRow 1: Sc in 2nd ch from hook and in each ch across. ({chain} sc)\n\n"
    lines = "\n\n".join(
        f"Row {number}: Ch 1 (does not count as a st), turn, {row}." for number, row in enumerate(rows, 2)
    )
    proof = prove_text(f"---\ntitle: Sum\n---\n\n{opening}{lines}\n", "sum.md")
    assert proof.worked is not None
    return list(proof.worked.parts[0].rows[0])


def add_up(names: list[str]) -> tuple[int, int]:
    return sum(PIECES[name][0] for name in names), sum(PIECES[name][1] for name in names)


@quick
@given(pieces)
def test_a_row_uses_what_its_pieces_use(names: list[str]) -> None:
    uses, makes = add_up(names)
    row = work(uses, ", ".join(names))[-1]
    assert (row.status, row.used, row.left, row.made) == ("worked", uses, 0, makes)


@quick
@given(pieces, st.integers(2, 6))
def test_a_bracket_is_worked_so_many_times(names: list[str], times: int) -> None:
    uses, makes = add_up(names)
    row = work(uses * times, f"({', '.join(names)}) {times} times")[-1]
    assert (row.status, row.used, row.left, row.made) == ("worked", uses * times, 0, makes * times)


@quick
@given(pieces, st.integers(1, 5))
def test_a_star_is_worked_so_many_times_more(names: list[str], more: int) -> None:
    uses, makes = add_up(names)
    row = work(uses * (more + 1), f"*{', '.join(names)}; rep from * {more} more times")[-1]
    assert (row.status, row.used, row.made) == ("worked", uses * (more + 1), makes * (more + 1))


@quick
@given(pieces, st.integers(1, 6))
def test_a_star_is_worked_across(names: list[str], times: int) -> None:
    uses, makes = add_up(names)
    row = work(uses * times, f"*{', '.join(names)}; rep from * across")[-1]
    assert (row.status, row.used, row.left, row.made) == ("worked", uses * times, 0, makes * times)


@quick
@given(pieces, st.integers(1, 5), st.integers(1, 4))
def test_a_star_is_worked_to_the_last_few(names: list[str], times: int, last: int) -> None:
    uses, makes = add_up(names)
    row = work(uses * times + last, f"*{', '.join(names)}; rep from * to last {last} sts, hdc in last {last} sts")[-1]
    assert (row.status, row.used, row.made) == ("worked", uses * times + last, makes * times + last)


@quick
@given(pieces, st.integers(1, 4), st.integers(1, 40))
def test_what_does_not_fit_is_told(names: list[str], times: int, over: int) -> None:
    """A repeat across over a number that it does not divide is never passed over in silence."""
    uses, _ = add_up(names)
    over = over % uses
    row = work(uses * times + over, f"*{', '.join(names)}; rep from * across")[-1]
    assert (row.status == "worked") == (over == 0)


@quick
@given(pieces, st.integers(1, 9))
def test_used_and_left_are_what_the_row_below_offers(names: list[str], over: int) -> None:
    uses, makes = add_up(names)
    row = work(uses + over, f"{', '.join(names)}, leave remaining sts unworked")[-1]
    assert (row.status, row.used, row.left, row.made) == ("worked", uses, over, makes)


@quick
@given(st.lists(pieces, min_size=2, max_size=4))
def test_each_row_stands_on_the_one_below(names: list[list[str]]) -> None:
    """Whatever is made below, “each st” uses all of it, the chains over skipped stitches included."""
    below = names[0]
    uses, makes = add_up(below)
    rows = work(uses, ", ".join(below), "sc in each st across", "sc in each st across")
    assert [row.status for row in rows[-2:]] == ["worked", "worked"]
    assert rows[-1].used == rows[-2].made
    assert rows[-2].made == makes
