"""One form for each setting of a house's style. What publishers disagree about: common practice, US and UK."""

from collections.abc import Callable

import pytest

from booklet.model.parsed import Row
from booklet.model.style import Style
from booklet.rows.print import print_row

Parse = Callable[..., Row]


@pytest.mark.parametrize(
    ("words", "style", "printed"),
    [
        ("*sc, ch 1; rep from * across", Style(repeats="square"), "[Sc, ch 1] across"),
        (
            "*sc in next st, ch 1; rep from * to last 2 sts",
            Style(repeats="round"),
            "(Sc in next st, ch 1) to last 2 sts",
        ),
        ("[sc, inc] 6 times", Style(repeats="stars"), "*Sc, inc* 6 times"),
        ("(sc in next st, ch 1) across", Style(repeats="stars"), "*Sc in next st, ch 1; rep from * across"),
        ("*sc, ch 1; rep from * 5 more times", Style(repeats="square"), "[Sc, ch 1] 5 more times"),
        # Words that a bracket cannot carry: the star stays.
        (
            "*sc in next st, ch 1; rep from * 5 times",
            Style(repeats="square"),
            "*Sc in next st, ch 1; rep from * 5 times",
        ),
        (
            "*sc in next st, ch 1; rep from * across, ending last rep with dc in last st",
            Style(repeats="square"),
            "*Sc in next st, ch 1; rep from * across, ending last rep with dc in last st",
        ),
        ("(2 dc, ch 2, 2 dc) in next ch-2 sp", Style(groups="square"), "[2 dc, ch 2, 2 dc] in next ch-2 sp"),
        (
            "*sk next st, (dc, ch 1, dc) in next st; rep from * across",
            Style(repeats="square", groups="round"),
            "[Sk next st, (dc, ch 1, dc) in next st] across",
        ),
        (
            "*sk next st, (dc, ch 1, dc) in next st; rep from * across",
            Style(repeats="round", nested="square"),
            "(Sk next st, [dc, ch 1, dc] in next st) across",
        ),
        (
            "*sk next st, (dc, ch 1, dc) in next st; rep from * across",
            Style(repeats="square", groups="square", nested="other"),
            "[Sk next st, (dc, ch 1, dc) in next st] across",
        ),
        (
            "*sk next st, (dc, ch 1, dc) in next st; rep from * across",
            Style(groups="square", nested="round"),
            "*Sk next st, [dc, ch 1, dc] in next st; rep from * across",
        ),
        ("(sc, inc) twice, (sc, dec) 6 times", Style(times="digits"), "(Sc, inc) 2 times, (sc, dec) 6 times"),
        ("(sc, inc) twice, (sc, dec) 6 times", Style(times="words"), "(Sc, inc) twice, (sc, dec) six times"),
        ("(sc, inc) twice, (sc, dec) 6 times", Style(times="plain words"), "(Sc, inc) two times, (sc, dec) six times"),
        ("(sc, inc) 11 times", Style(times="words"), "(Sc, inc) 11 times"),
        ("(sc, inc) 11 times", Style(times="words", words_up_to=12), "(Sc, inc) eleven times"),
        ("2 sc in each of next 3 sts, ch 2", Style(numbers="words"), "Two sc in each of next three sts, ch 2"),
        ("rep Rows 2 and 3 twice more", Style(times="digits"), "Rep Rows 2 and 3, 2 more times"),
        ("rep Rows 2-3 5 more times", Style(repeats="round"), "Rep Rows 2-3, 5 more times"),
        ("rep Rows 2-3 5 more times", Style(times="words"), "Rep Rows 2-3 five more times"),
        ("rep last 2 rows 5 more times", Style(repeats="round"), "Rep last 2 rows 5 more times"),
    ],
)
def test_steps(parse: Parse, words: str, style: Style, printed: str) -> None:
    assert print_row(parse(f"Row 4: {words}."), style=style).body == f"{printed}."


@pytest.mark.parametrize(
    ("style", "printed"),
    [
        (Style(counts="round"), "Row 2: Sc in each st across, turn. (18 sc)"),
        (Style(counts="square"), "Row 2: Sc in each st across, turn. [18 sc]"),
        (Style(counts="dash"), "Row 2: Sc in each st across, turn – 18 sc."),
        (Style(counts="equals sign"), "Row 2: Sc in each st across, turn = 18 sc."),
        (Style(counts="full stop"), "Row 2: Sc in each st across, turn. 18 sc."),
        (Style(counts="dash", count_place="own line"), "Row 2: Sc in each st across, turn. – 18 sc."),
    ],
)
def test_counts(parse: Parse, style: Style, printed: str) -> None:
    assert print_row(parse("Row 2: Sc across, turn. (18 sc)"), style=style).text == printed


def test_what_a_row_adds_stays_in_brackets(parse: Parse) -> None:
    row = parse("Row 2: Inc, sc across, inc. (+2 sts)")
    assert print_row(row, style=Style(counts="dash")).count == "(+2 sts)"
    assert print_row(row, style=Style(counts="square")).count == "[+2 sts]"


@pytest.mark.parametrize(
    ("line", "style", "label"),
    [
        ("Row 1 (RS): Sc across.", Style(sides="square"), "Row 1 [RS]"),
        ("Row 1 (RS): Sc across.", Style(rows="R", sides="square"), "R1 [RS]"),
        ("Rows 5-8: Sc across.", Style(rows="R"), "R5–8"),
        ("Rnd 5: Sc around.", Style(rounds="Round"), "Round 5"),
        ("Rnds 5-8: Sc around.", Style(rounds="Round"), "Rounds 5-8"),
        ("Round 5: Sc around.", Style(rounds="Rnd"), "Rnd 5"),
        ("Rnd 5: Sc around.", Style(rounds="R"), "R5"),
        ("Rnd 5: Sc around.", Style(rows="R"), "Rnd 5"),
        ("Next row: Sc across.", Style(rows="R"), "Next row"),
        ("Row 2 and all even rows: Sc across.", Style(rows="R"), "Row 2 and all even rows"),
    ],
)
def test_labels(parse: Parse, line: str, style: Style, label: str) -> None:
    assert print_row(parse(line), style=style).label == label


def test_rounds_that_are_named_in_a_row_are_called_as_labels_are(parse: Parse) -> None:
    row = parse("Rnds 6-8: Rep Rnd 5.")
    assert print_row(row, style=Style(rounds="Round")).text == "Rounds 6-8: Rep Round 5."


def test_no_style_is_as_before(parse: Parse) -> None:
    row = parse("Row 2: *Sc in next st, (dc, ch 1, dc) in next st; rep from * twice. (18 sts)")
    assert print_row(row) == print_row(row, style=Style())
    assert not Style().changes_rows
