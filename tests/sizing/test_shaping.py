"""Shaping in every size: its numbers, its sentence, and what is wrong with it."""

import pytest

from booklet.pipeline import Proof, prove_text
from booklet.sizing.shaping import say_shaping

NUMBERS = "sizes: [S, M]\nnumbers:\n  cuff: 30 (32)\n  top: {top}\n  rows: {rows}\n"


def prove(rule: str, top: str = "46 (52)", rows: str = "38 (40)", prose: str = "") -> Proof:
    front = NUMBERS.format(top=top, rows=rows) + f"shaping:\n  sleeve: {rule}\n"
    return prove_text(f"---\ntitle: Sleeve\n{front}---\n\n{prose}\n\nCh 11.\n", "sleeve.md")


def say(rule: str, **facts: str) -> str:
    proof = prove(rule, **facts)
    assert proof.sized is not None
    assert [f.message for f in proof.findings if f.severity.value == "error"] == []
    (shaping,) = proof.sized.shaping
    return say_shaping(shaping)


def test_numbers_that_rows_can_call() -> None:
    proof = prove("{from: cuff, to: top, over: rows, every: 2}")
    assert proof.sized is not None
    numbers = {name: number.values for name, number in proof.sized.numbers.items() if name.startswith("sleeve")}
    assert numbers == {
        "sleeve_changes": (8, 10),
        "sleeve_every": (4, 4),
        "sleeve_times": (5, 10),
        "sleeve_then_every": (6, 0),
        "sleeve_then_times": (3, 0),
        "sleeve_rest": (0, 0),
    }


@pytest.mark.parametrize(
    ("rule", "top", "rows", "words"),
    [
        (
            "{from: cuff, to: top, over: rows, every: 2}",
            "46 (52)",
            "38 (40)",
            (
                "increase 1 stitch at each end of every 4th row 5 (10) times, then of every 6 (0) rows 3 (0) times: "
                "46 (52) sts"
            ),
        ),
        (
            "{from: top, to: cuff, over: rows, first: 1}",
            "46 (48)",
            "15",
            "decrease 1 stitch at each end of row 1, then of every 2nd row 7 times: 30 (32) sts",
        ),
        (
            "{from: cuff, to: cuff + 3, over: 10, by: one end}",
            "46 (52)",
            "38",
            "increase 1 stitch at one end of every 3rd row 2 times, then of every 4th row 1 time: 33 (35) sts",
        ),
        (
            "{from: cuff, to: cuff + 12, over: 7, by: 4, every: 2}",
            "46 (52)",
            "38",
            "increase 4 stitches in every 2nd row 3 times; work 1 row even: 42 (44) sts",
        ),
        ("{from: cuff, to: cuff, over: 12}", "46 (52)", "38", "work 12 rows even"),
        ("{from: 30, to: 36, over: 3}", "46 (52)", "38", "increase 1 stitch at each end of every row 3 times: 36 sts"),
    ],
)
def test_the_sentence_that_a_maker_follows(rule: str, top: str, rows: str, words: str) -> None:
    assert say(rule, top=top, rows=rows) == words


@pytest.mark.parametrize(
    ("rule", "top", "code"),
    [
        ("{from: cuff, to: top, over: rows}", "47 (52)", "shaping-not-even"),
        ("{from: cuff, to: top, over: 5}", "46 (52)", "shaping-too-steep"),
        ("{from: cuff, to: top, over: rows}", "46 (20)", "formula-wrong"),
        ("{from: cuf, to: top, over: rows}", "46 (52)", "unknown-name"),
        ("{from: cuff, to: top, over: rows / 3}", "46 (52)", "formula-wrong"),
        ("{from: cuff, to: top +, over: rows}", "46 (52)", "formula-wrong"),
        ("{from: cuff, to: top, over: rows, every: 0}", "46 (52)", "wrong-value"),
        ("{from: cuff, to: top, over: rows, by: many}", "46 (52)", "wrong-value"),
        ("{from: cuff, to: top}", "46 (52)", "wrong-value"),
    ],
)
def test_error_shaping_that_cannot_be(rule: str, top: str, code: str) -> None:
    errors = [finding.code for finding in prove(rule, top).findings if finding.severity.value == "error"]
    assert errors == [code]


def test_rates_in_formulas() -> None:
    front = "numbers:\n  short: every(8, 38, 2)\n  long: then_every(8, 38, 2)\n"
    body = "Ch 11.\n\nRow 1: Sc in 2nd ch from hook and in each ch across. ({short + long} sc)\n"
    proof = prove_text(f"---\ntitle: Sleeve\n{front}---\n\n{body}", "sleeve.md")
    assert "error" not in {finding.severity.value for finding in proof.findings}


def test_error_a_rate_that_cannot_be() -> None:
    proof = prove_text("---\ntitle: Sleeve\nnumbers: {short: 'every(8, 5)'}\n---\n\nCh 11.\n", "sleeve.md")
    (wrong,) = [finding for finding in proof.findings if finding.severity.value == "error"]
    assert wrong.message == "5 rows have room for 5 changes, not 8"
