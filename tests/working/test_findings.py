"""What a finding on a row points to, and the cure that it proposes."""

from collections.abc import Callable

import pytest

from booklet.findings import Finding
from booklet.pipeline import Proof

Prove = Callable[..., Proof]
START = "Ch 13.\n\nRow 1: Sc in 2nd ch from hook and in each ch across. (12 sc)\n\n"
PLAIN = "Ch 1 (does not count as a st), turn, "


def find(proof: Proof, code: str) -> Finding:
    """The one finding of a code."""
    (finding,) = [finding for finding in proof.findings if finding.code == code]
    return finding


def test_a_wrong_count_points_to_the_count_and_the_row_below(prove: Prove) -> None:
    finding = find(prove(START + f"Row 2: {PLAIN}2 sc in first st, sc in each st across. (14 sc)"), "count-mismatch")
    assert finding.span.text == "(14 sc)"
    assert finding.message == "Row 2 makes 13 sc, but the row says 14"
    assert [(note.span.line, note.text) for note in finding.notes] == [(7, "Row 1 leaves 12 stitches to work into")]


@pytest.mark.parametrize(
    ("row", "cure"),
    [
        ("(sc, 2 hdc in next st) 5 times. (18 sts)", "“(sc, 2 hdc in next st) 5 times” with 6 in place of 5"),
        ("sc in next 11 sts. (12 sc)", "“sc in next 11 sts” with 12 in place of 11"),
        ("2 sc in first st, sc in next 11 sts. (14 sc)", "“2 sc in first st” with 3 in place of 2"),
    ],
)
def test_the_one_number_that_mends_a_row_is_proposed(prove: Prove, row: str, cure: str) -> None:
    findings = [finding for finding in prove(START + f"Row 2: {PLAIN}{row}").findings if finding.span.line == 9]
    assert len(findings) == 1
    assert cure in findings[0].fix


def test_a_repeat_that_does_not_fit_names_what_would(prove: Prove) -> None:
    finding = find(
        prove(START + f"Row 2: {PLAIN}*sc in next 3 sts, hdc in next 2 sts; rep from * across."), "repeat-does-not-fit"
    )
    assert finding.message == "Row 2: a repeat of 5 stitches does not fit 12"
    assert finding.label == "2 × 5 = 10, 2 left over"
    assert finding.expected == "10 or 15 stitches for the repeat"


def test_a_mistake_in_every_size_is_told_once(prove: Prove) -> None:
    rows = "Ch 13 (17, 21).\n\nRow 1: Sc in 2nd ch from hook and in each ch across. (12 (16, 20) sc)\n\n"
    finding = find(
        prove(rows + f"Row 2: {PLAIN}2 sc in first st, sc in each st across. (12 (16, 20) sc)", "sizes: [S, M, L]\n"),
        "count-mismatch",
    )
    assert finding.sizes == ("S", "M", "L")


def test_a_mistake_in_a_repeated_row_is_told_once(prove: Prove) -> None:
    proof = prove(
        START + f"Rows 2-9: {PLAIN}sc in next 10 sts. (12 sc)\n\nRow 10: {PLAIN}sc in each st across. (12 sc)"
    )
    assert [finding.code for finding in proof.findings if finding.span.line > 4] == ["stitches-left-over"]


def test_a_reading_the_counts_decided_is_kept_for_later_rows(prove: Prove) -> None:
    proof = prove(START + "Row 2: Ch 2, turn, hdc in next 11 sts. (12 hdc)\n\nRow 3: Ch 2, turn, hdc in next 11 sts.")
    assert proof.worked is not None
    assert [reading.text for reading in proof.worked.readings] == [
        "ch 2 at the start of a row counts as a stitch (decided by the count of Row 2)"
    ]
    assert [row.made for row in proof.worked.parts[0].rows[0]][-2:] == [12, 12]


def test_what_two_readings_allow_is_asked(prove: Prove) -> None:
    finding = find(prove("Ch 15.\n\nRow 1: Dc in 4th ch from hook and in each ch across."), "not-decided")
    assert finding.severity.value == "warning"
    assert finding.expected == "words or a count that decide it"


def test_rows_on_trust_do_not_spread(prove: Prove) -> None:
    proof = prove(
        START
        + "Row 2: Work the strap by 3 of the 5 sts as shown in the picture. (20 sts)\n\n"
        + f"Row 3: {PLAIN}sc in each st across. (20 sc)"
    )
    assert proof.worked is not None
    assert [row.status for row in proof.worked.parts[0].rows[0]] == ["worked", "worked", "trusted", "worked"]


def test_a_long_piece_is_worked_once_for_equal_rows(prove: Prove) -> None:
    """5,000 rows of 300 stitches are a million and a half of stitches; only the first of them is worked."""
    proof = prove(
        "Ch 301.\n\nRow 1: Sc in 2nd ch from hook and in each ch across. (300 sc)\n\n"
        f"Row 2: {PLAIN}sc in each st across. (300 sc)\n\nRows 3-4900: Rep Row 2. (300 sc)"
    )
    assert proof.worked is not None
    rows = proof.worked.parts[0].rows[0]
    assert len(rows) == 4901
    assert {row.made for row in rows[1:]} == {300}
