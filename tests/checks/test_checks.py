"""The checks over a whole pattern: what each tells, and what it keeps silent about."""

import pytest

from booklet.pipeline import prove_text

PLAIN = "(does not count as a st), turn,"
COLOURS = 'colours:\n  A: {name: Fog, shade: "#c9ced2"}\n  B: {name: Kelp, shade: "#5b6b3a"}\n'
CHAIN_A = "With A, ch 11.\n\nRow 1: Sc in 2nd ch from hook and in each ch across.\n\n"
START = "Ch 11.\n\nRow 1: Sc in 2nd ch from hook and in each ch across. (10 sc)\n\n"


def codes(rows: str, front: str = "") -> list[str]:
    """The codes of the checks that are found, in order."""
    ours = {
        "colour-unknown",
        "colour-unused",
        "stitch-unused",
        "turning-chain-differs",
        "turning-chain-height",
        "grade-not-steady",
    }
    proof = prove_text(f"---\ntitle: Case\n{front}---\n\n{rows}\n", "case.md")
    return [finding.code for finding in proof.findings if finding.code in ours]


# colours


def test_colours_that_are_listed_and_used() -> None:
    assert (
        codes(
            CHAIN_A + f"Row 2: With B, ch 1 {PLAIN} sc in each st across.",
            COLOURS,
        )
        == []
    )


def test_a_colour_inside_a_repeat_is_used() -> None:
    assert (
        codes(
            CHAIN_A + f"Row 2: Ch 1 {PLAIN} (with A, sc in next st; with B, sc in next st) 5 times.",
            COLOURS,
        )
        == []
    )


def test_a_colour_nobody_listed_is_told_once() -> None:
    rows = CHAIN_A.replace("A", "C") + f"Row 2: With C, ch 1 {PLAIN} sc in next 5 sts, with B, sc in next 5 sts."
    assert codes(rows, COLOURS) == ["colour-unused", "colour-unknown"]


def test_a_single_colour_need_not_be_named_in_a_row() -> None:
    assert codes(START, 'colours:\n  A: {name: Fog, shade: "#c9ced2"}\n') == []


def test_letters_are_free_where_no_colour_is_listed() -> None:
    assert codes("With A, ch 11.\n\nRow 1: Sc in 2nd ch from hook and in each ch across.") == []


# special stitches


def test_a_special_stitch_that_is_worked() -> None:
    front = "special stitches:\n  lantern: (dc, ch 1, dc) in next st\n"
    assert codes(START + f"Row 2: Ch 3 {PLAIN} *lantern in next st, sk next st; rep from * across.", front) == []
    assert codes(START, front) == ["stitch-unused"]


# chains at the start


def test_heights_within_one_chain_are_the_maker_s_own() -> None:
    assert codes(START + f"Row 2: Ch 2 {PLAIN} dc in each st across.") == []
    assert codes(START + f"Row 2: Ch 4 {PLAIN} dc in each st across.") == []
    assert codes(START + f"Row 2: Ch 1 {PLAIN} hdc in each st across.") == []


@pytest.mark.parametrize(("chains", "stitch"), [(3, "sc"), (1, "dc"), (2, "tr"), (5, "dc"), (4, "hdc")])
def test_heights_that_differ_by_more_are_told(chains: int, stitch: str) -> None:
    assert codes(START + f"Row 2: Ch {chains} {PLAIN} {stitch} in each st across.") == ["turning-chain-height"]


def test_a_chain_that_is_a_stitch_and_a_space_may_be_tall() -> None:
    opening = "Row 2: Ch 5 (counts as dc and ch 2), turn, sk next 2 sts, dc in next st, "
    assert codes(START + opening + "*ch 2, sk next 2 sts, dc in next st; rep from * across.") == []


def test_one_row_that_begins_otherwise_than_its_like() -> None:
    rows = [
        f"Row {number}: Ch {chains} {PLAIN} hdc in each st across."
        for number, chains in ((2, 2), (3, 2), (4, 1), (5, 2))
    ]
    assert codes(START + "\n\n".join(rows)) == ["turning-chain-differs"]


def test_two_ways_that_are_both_used_often_are_meant() -> None:
    rows = [f"Row {number}: Ch {2 if number % 2 else 1} {PLAIN} hdc in each st across." for number in range(2, 10)]
    assert codes(START + "\n\n".join(rows)) == []


# grading


def grade(chains: str, count: str) -> list[str]:
    return codes(
        f"Ch {chains}.\n\nRow 1: Sc in 2nd ch from hook and in each ch across. ({count} sc)", "sizes: [S, M, L]\n"
    )


def test_counts_that_rise_with_the_sizes() -> None:
    assert grade("21 (25, 29)", "20 (24, 28)") == []
    assert grade("21 (21, 29)", "20 (20, 28)") == []


def test_a_count_that_falls_is_told_once() -> None:
    """DROPS 3330 has 76-72-76-80-84 after its increases: its smallest size is larger than the next."""
    assert grade("77 (73, 77)", "76 (72, 76)") == ["grade-not-steady"]


def test_a_count_that_is_broken_anyway_is_not_graded() -> None:
    rows = "Ch 21 (25, 29).\n\nRow 1: Sc in 2nd ch from hook and in each ch across.\n\n"
    assert codes(f"{rows}Row 2: Ch 1 {PLAIN} sc in next 20 (10, 28) sts.", "sizes: [S, M, L]\n") == []
