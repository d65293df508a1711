"""Turning chains moved from row to row, counts named otherwise: the rows come out as they did."""

import pytest

from booklet.account import close_proof, proof_as_json
from booklet.model.style import Style
from booklet.pipeline import Proof, prove_text
from booklet.rows.styled_lines import StyledRows
from booklet.working.pattern import work_pattern
from booklet.working.rearranged import style_rows

BEFORE = Style(turning_chain="row before")
START = Style(turning_chain="start of row")

AT_START = """---
title: Cloth
gauge: 16 sts and 12 rows = 10 cm
---

Ch 11.

Row 1: Sc in 2nd ch from hook and in each ch across, turn. (10 sc)

Row 2: Ch 2 (counts as hdc), hdc in next st and in each st across, turn. (10 hdc)

Row 3: Ch 1, sc in each st across, turn. (10 sc)

Rows 4-7: Rep Rows 2 and 3.

Row 8: Ch 2 (counts as hdc), hdc in next st and in each st across. (10 hdc)
"""

AT_END = """---
title: Cloth
gauge: 16 sts and 12 rows = 10 cm
---

Ch 11.

Row 1: Sc in 2nd ch from hook and in each ch across, ch 1, turn. (10 sc)

Row 2: Sc in each st across, ch 1, turn. (10 sc)

Rows 3-6: Sc in each st across, ch 1, turn. (10 sc)

Row 7: Sc in each st across. (10 sc)
"""


def prove(text: str) -> Proof:
    return prove_text(text, "cloth.md")


def style(proof: Proof, house: Style) -> StyledRows:
    assert proof.parsed is not None
    assert proof.worked is not None
    assert proof.pattern is not None
    styled, findings = style_rows(proof.parsed, proof.worked, house, proof.pattern)
    assert findings == ()
    return styled


def print_lines(proof: Proof, house: Style) -> list[str]:
    assert proof.pattern is not None
    printed = style(proof, house).carried.printed
    lines = [line for part in proof.pattern.parts for line in part.rows]
    return [printed[line.span.start, line.span.end].text for line in lines]


def test_chains_go_to_the_row_before() -> None:
    """`ch 1, turn` at the end of a row, the turning chain of the next: common practice, US and UK."""
    proof = prove(AT_START)
    assert print_lines(proof, BEFORE) == [
        "Ch 11.",
        "Row 1: Sc in 2nd ch from hook and in each ch across, ch 2 (counts as hdc), turn. (10 sc)",
        "Row 2: Hdc in next st, hdc in each st across, ch 1, turn. (10 hdc)",
        "Row 3: Sc in each st across, ch 2 (counts as hdc), turn. (10 sc)",
        "Rows 4-7: Rep Rows 2 and 3.",
        "Row 8: Hdc in next st, hdc in each st across. (10 hdc)",
    ]


def test_chains_go_to_the_start_of_their_own_row() -> None:
    assert print_lines(prove(AT_END), START) == [
        "Ch 11.",
        "Row 1: Sc in 2nd ch from hook and in each ch across, turn. (10 sc)",
        "Row 2: Ch 1, sc in each st across, turn. (10 sc)",
        "Rows 3-6: Ch 1, sc in each st across, turn. (10 sc)",
        "Row 7: Ch 1, sc in each st across. (10 sc)",
    ]


@pytest.mark.parametrize(("text", "house"), [(AT_START, BEFORE), (AT_END, START)], ids=["before", "start"])
def test_the_printed_rows_prove_to_the_same_work(text: str, house: Style) -> None:
    """What is printed is a pattern of its own: proved anew, it makes the same stitches in the same places."""
    proof = prove(text)
    front = text.split("\n\n")[0]
    again = prove("\n\n".join([front, *print_lines(proof, house)]) + "\n")
    assert [finding.code for finding in again.findings] == [finding.code for finding in proof.findings]
    assert proof.worked is not None
    assert again.worked is not None
    for one, other in zip(proof.worked.parts[0].rows[0], again.worked.parts[0].rows[0], strict=True):
        assert (one.used, one.made, one.left, one.turned) == (other.used, other.made, other.left, other.turned)
        assert one.fabric.sites == other.fabric.sites
        assert one.fabric.stitches == other.fabric.stitches
        assert dict(one.fabric.yarn) == dict(other.fabric.yarn)


def test_there_and_back_again() -> None:
    proof = prove(AT_END)
    front = AT_END.split("\n\n")[0]
    moved = prove("\n\n".join([front, *print_lines(proof, START)]) + "\n")
    assert print_lines(moved, BEFORE)[1:] == [
        "Row 1: Sc in 2nd ch from hook and in each ch across, ch 1, turn. (10 sc)",
        "Row 2: Sc in each st across, ch 1, turn. (10 sc)",
        "Rows 3-6: Sc in each st across, ch 1, turn. (10 sc)",
        "Row 7: Sc in each st across. (10 sc)",
    ]


def test_a_chain_stays_where_rows_worked_again_need_another() -> None:
    """Row 3 is worked again and again: what follows it is itself, and then a row with a chain of another height."""
    text = AT_START.replace("Rep Rows 2 and 3.", "Rep Row 3.").replace("Row 8: Ch 2 (counts", "Row 8: Ch 3 (counts")
    proof = prove(text)
    lines = print_lines(proof, BEFORE)
    assert lines[3] == "Row 3: Ch 1, sc in each st across, turn. (10 sc)"
    assert lines[5].startswith("Row 8: Ch 3 (counts as hdc), hdc in next st")
    assert style(proof, BEFORE).unmoved_lines == (12, 16)


def test_chains_stay_where_the_rows_would_come_out_otherwise() -> None:
    """Row 8 says the same chain, but works into the first stitch too: there it counts as nothing."""
    proof = prove(AT_START.replace("Row 8: Ch 2 (counts as hdc), hdc", "Row 8: Ch 2 (does not count), hdc"))
    assert style(proof, BEFORE).unmoved_lines == (10, 12, 16)
    assert print_lines(proof, BEFORE)[1] == "Row 1: Sc in 2nd ch from hook and in each ch across, turn. (10 sc)"


def test_a_chain_in_a_new_colour_stays_with_it() -> None:
    text = AT_START.replace("Row 3: Ch 1", "Row 3: With B, ch 1").replace("gauge", "colours: {A: Fog, B: Rust}\ngauge")
    lines = print_lines(prove(text), BEFORE)
    assert lines[2].endswith("hdc in each st across, turn. (10 hdc)")
    assert lines[3].startswith("Row 3: With B, ch 1, sc in each st across")


def test_a_row_whose_words_say_more_than_its_tree_keeps_them_and_its_chain() -> None:
    text = AT_START.replace("Row 3: Ch 1, sc in each st", "Row 3: Ch 1, sc in each st of the cloth")
    proof = prove(text)
    styled = style(proof, BEFORE)
    assert [row.label.text for row in styled.kept] == ["Row 3"]
    assert 12 in styled.unmoved_lines


def test_rounds_keep_their_chains() -> None:
    text = (
        "---\ntitle: Ring\n---\n\nRnd 1: Ch 4, join to form ring, ch 3 (counts as dc), 11 dc in ring, join. (12 dc)\n\n"
        "Rnd 2: Ch 3, dc in first st, 2 dc in each st around, join. (24 dc)\n"
    )
    proof = prove(text)
    assert not any(style(proof, BEFORE).arranged.take(row) != row for part in proof.parsed.parts for row in part.rows)  # type: ignore[union-attr]


def test_a_count_like_that_of_the_row_before_is_left_out_and_stays_in_the_proof() -> None:
    """One magazine wants the count on every row unless constant, then on the first alone: common practice."""
    proof = prove(AT_END)
    styled = style(proof, Style(count_rows="changed"))
    lines = print_lines(proof, Style(count_rows="changed"))
    assert lines[1].endswith("(10 sc)")
    assert lines[2:] == [
        "Row 2: Sc in each st across, ch 1, turn.",
        "Rows 3-6: Sc in each st across, ch 1, turn.",
        "Row 7: Sc in each st across.",
    ]
    assert styled.silent_lines == (10, 12, 14)
    assert proof.worked is not None
    assert [row.made for row in proof.worked.parts[0].rows[0]][1:] == [10] * 7


def test_a_count_that_changes_in_one_size_alone_is_printed() -> None:
    text = (
        "---\ntitle: Cloth\nsizes: [S, L]\n---\n\nCh 11 (13).\n\n"
        "Row 1: Sc in 2nd ch from hook and in each ch across. (10 (12) sc)\n\n"
        "Row 2: Ch 1, turn, sc in each st to last 2 (0) sts, leave last 2 (0) sts unworked. (8 (12) sc)\n\n"
        "Row 3: Ch 1, turn, sc in each st across. (8 (12) sc)\n"
    )
    proof = prove(text)
    assert proof.findings == () or all(finding.severity.name != "ERROR" for finding in proof.findings)
    assert style(proof, Style(count_rows="changed")).silent_lines == (12,)


@pytest.mark.parametrize(
    ("form", "stated", "printed"),
    [
        ("total", "10 sc", "(10 sts)"),
        ("number", "10 sc", "(10)"),
        ("number", "10 sts", "(10)"),
        ("stitches", "10 sts", "(10 sc)"),
        ("stitches", "10", "(10 sc)"),
    ],
)
def test_forms_of_a_count(form: str, stated: str, printed: str) -> None:
    proof = prove(AT_END.replace("10 sc", stated))
    assert print_lines(proof, Style(count_form=form))[2].endswith(f"turn. {printed}")


def test_a_count_by_kind_says_more_than_a_total_and_stays() -> None:
    last = "Row 7: *Sc in next st, dc in next st; rep from * across. (5 sc, 5 dc)"
    text = AT_END.replace("Row 7: Sc in each st across. (10 sc)", last)
    assert print_lines(prove(text), Style(count_form="number"))[-1].endswith("(5 sc, 5 dc)")
    mixed = text.replace("(5 sc, 5 dc)", "(10 sts)")
    assert print_lines(prove(mixed), Style(count_form="stitches"))[-1].endswith("(10 sts)")


def test_a_short_label_that_would_make_a_round_of_a_row_stays_long() -> None:
    """`R1` is a round where the piece starts in a ring and no label says row."""
    text = (
        "---\ntitle: Fan\n---\n\nRow 1: Ch 4, join to form ring, ch 3 (counts as dc), 5 dc in ring, turn. (6 dc)\n\n"
        "Row 2: Ch 3 (counts as dc), dc in first st, 2 dc in each st across, turn. (12 dc)\n"
    )
    proof = prove(text)
    assert print_lines(proof, Style(rows="R"))[0].startswith("Row 1: ")
    told = close_proof(prove(text.replace("title: Fan\n", "title: Fan\nstyle: {rows: R}\n")))
    assert '  house style: labels stay in full, as "R1" would make a round of a row, or a row of a round' in told
    assert print_lines(prove(AT_END), Style(rows="R"))[3].startswith("R3–6: ")


def test_nothing_is_worked_again_for_a_style_that_moves_nothing(monkeypatch: pytest.MonkeyPatch) -> None:
    proof = prove(AT_START)
    calls: list[object] = []
    monkeypatch.setattr(
        "booklet.working.rearranged.work_pattern", lambda parsed: (calls.append(parsed), work_pattern(parsed))[1]
    )
    style(proof, Style(repeats="square", counts="dash"))
    assert calls == []


def test_the_proof_says_what_is_not_in_the_style_and_keeps_the_counts() -> None:
    text = AT_START.replace("Row 3: Ch 1, sc in each st", "Row 3: Ch 1, sc in each st of the cloth")
    text = text.replace("gauge:", "style: {turning chain: row before, count rows: changed}\ngauge:")
    proof = prove(text)
    assert close_proof(proof)[1:] == [
        "  house style: 5 of 6 rows printed in it and read back; the words of the author stay at line 13",
        "  house style: the turning chain stays where it is at lines 11, 13 and 17",
    ]
    account = proof_as_json(proof)
    assert account["style"] == {
        "rows": 6,
        "printed": 5,
        "in_words": [13],
        "without_count": [11, 13, 15, 17],
        "chains_unmoved": [11, 13, 17],
    }
    rows = account["rows"]
    assert isinstance(rows, list)
    assert [row["made"] for row in rows][1:] == [10] * 8
    assert proof_as_json(prove(AT_START))["style"] == {}
