"""Rows as printed."""

import re

import pytest

from booklet.model.pattern import RowLine
from booklet.pages.manuscript import BookletInput
from booklet.pages.row_texts import RowText, group_worked_rows, mark_colours, part_numbers, read_row_text, show_row
from booklet.source import SourceFile

NUMBERS = {"chain": (114, 154), "width": (113, 153)}


def read(text: str) -> RowText:
    source = SourceFile("row.md", text)
    return read_row_text(RowLine(text, source.span(0, len(text))), NUMBERS, ())


@pytest.mark.parametrize(
    ("line", "label", "body", "count"),
    [
        ("Row 1 (RS): Sc in each st. ({width} sc)", "Row 1 (RS)", "Sc in each st.", "(113 (153) sc)"),
        ("**Rnd 2:** Inc x 6. (12)", "Rnd 2", "Inc x 6.", "(12)"),
        ("- R7: 6 sc [6]", "R7", "6 sc", "[6]"),
        ("Rows 5–12: Rep Row 4.", "Rows 5–12", "Rep Row 4.", ""),
        ("Foundation: With A, ch {chain}.", "Foundation", "With A, ch 114 (154).", ""),
        ("3rd row: Ch 3, turn.", "3rd row", "Ch 3, turn.", ""),
        ("Next Rnd (dec): Dec around. — 36 (40) sts", "Next Rnd (dec)", "Dec around. — 36 (40) sts", ""),
        ("Rep Rows 2 and 3.", "", "Rep Rows 2 and 3.", ""),
        ("Row 2: (Sc, ch 1) in each sp.", "Row 2", "(Sc, ch 1) in each sp.", ""),
        ("Rnd 4: FPdc around. (20 (24) FPdc, 20 (24) BPdc)", "Rnd 4", "FPdc around.", "(20 (24) FPdc, 20 (24) BPdc)"),
        ("Rnd 5: Pc around. (12 popcorns)", "Rnd 5", "Pc around.", "(12 popcorns)"),
        ("Row 6: Dc across. (Ch 3 counts as dc.)", "Row 6", "Dc across. (Ch 3 counts as dc.)", ""),
    ],
)
def test_a_row_is_taken_apart(line: str, label: str, body: str, count: str) -> None:
    assert read(line) == RowText(label, body, count)


@pytest.mark.parametrize(
    ("text", "marked"),
    [
        ("With A, ch 5", "With [A], ch 5"),
        ("change to B in last st", "change to [B] in last st"),
        ("A dc in next st", "A dc in next st"),
        ("in colours A, B and C", "in colours [A], [B] and [C]"),
        ("with MC work 3 sc", "with [MC] work 3 sc"),
        ("using Alpha", "using Alpha"),
        ("sc in BLO", "sc in BLO"),
    ],
)
def test_colour_letters_become_patches(text: str, marked: str) -> None:
    letters = ["A", "B", "C", "MC"]
    html = str(mark_colours(text, letters))
    for number, letter in enumerate(letters):
        html = html.replace(f'<b class="patch patch-{number}">{letter}</b>', f"[{letter}]")
    assert html == marked


def test_row_text_is_escaped() -> None:
    assert mark_colours("<b>with A</b>", ["A"]) == '&lt;b&gt;with <b class="patch patch-0">A</b>&lt;/b&gt;'


def test_a_row_without_a_count_gets_the_computed_one(blanket: BookletInput) -> None:
    worked = group_worked_rows(blanket)
    row = next(row for part in blanket.pattern.parts for row in part.rows if row.text.startswith("Row 3"))
    assert re.sub("<[^>]*>", "", show_row(row, "r", blanket, worked).count) == "(113 (153, 193) sts)"


def test_a_line_that_stands_for_many_rows_has_a_box_for_each(blanket: BookletInput) -> None:
    worked = group_worked_rows(blanket)
    row = next(row for part in blanket.pattern.parts for row in part.rows if row.text.startswith("Rows 5-40"))
    view = show_row(row, "r", blanket, worked)
    assert len(view.ticks) == 36
    assert (view.ticks[0], view.ticks[-1]) == ("Row 5", "Row 40")
    assert [group.sizes for group in view.groups] == [""]


def test_the_boxes_of_a_repeat_say_where_each_size_stops(blanket: BookletInput) -> None:
    text = "Rep last row until there are 6 (8, 8) rows in the band."
    source = SourceFile("row.md", text)
    line = RowLine(text, source.span(0, len(text)))
    made = next(rows for rows in group_worked_rows(blanket).values() if len(rows[0]) == 36)
    view = show_row(line, "r", blanket, {0: [made[0][:4], made[1][:6], made[2][:6]]})
    assert [(len(group.names), group.sizes) for group in view.groups] == [(4, "Cot"), (2, "Lap, Throw")]
    assert view.label == ""
    assert '<span class="sizes">6 (8, 8)</span> rows' in view.body


def test_a_line_without_a_label_has_one_box_named_by_its_words(blanket: BookletInput) -> None:
    source = SourceFile("row.md", "Fasten off, leaving a long tail.")
    view = show_row(RowLine(source.text, source.whole()), "r", blanket, {})
    assert view.ticks == ("Fasten off, leaving a long tail",)


@pytest.mark.parametrize(
    ("line", "body", "count", "after"),
    [
        ("Row 9: Sc in each st. (20 sc) Fasten off.", "Sc in each st.", "(20 sc)", "Fasten off."),
        ("Row 9: Sc in each st. Fasten off. (20 sc)", "Sc in each st.", "(20 sc)", "Fasten off."),
        ("Row 9: Sc across. Break off A and B. Turn.", "Sc across.", "", "Break off A and B. Turn."),
        ("Row 9: Sc across, fasten off B.", "Sc across, fasten off B.", "", ""),
        ("Fasten off all colours.", "Fasten off all colours.", "", ""),
    ],
)
def test_fastening_off_stands_on_its_own_line(line: str, body: str, count: str, after: str) -> None:
    text = read(line)
    assert (text.body, text.count, text.after) == (body, count, after)


def test_printed_rows_from_outside_win(blanket: BookletInput) -> None:
    row = blanket.pattern.parts[2].rows[0] if blanket.pattern.parts[2].rows else blanket.pattern.parts[3].rows[0]
    given = BookletInput(
        blanket.sized,
        blanket.worked,
        blanket.amounts,
        (),
        {(row.span.start, row.span.end): RowText("Foundation row", "With B, ch 9.", "(9 ch)")},
    )
    view = show_row(row, "r", given, {})
    assert (view.label, view.count) == ("Foundation row", "(9 ch)")
    assert "patch-1" in view.body


@pytest.mark.parametrize(
    ("words", "printed"),
    [
        ("Rep Rows 5–10 5 more times.", "Rep Rows 5–10, 5 more times."),
        ("Rep Rows 3-5 2 (3, 3) (4, 4) more times.", "Rep Rows 3-5, 2 (3, 3) (4, 4) more times."),
        ("Rep Rnds 2 and 3 6 times.", "Rep Rnds 2 and 3, 6 times."),
        ("Rep Row 2 16 (21, 28) times more.", "Rep Row 2, 16 (21, 28) times more."),
        ("Rep Rows 5–10 five more times.", "Rep Rows 5–10 five more times."),
        ("Rep last 2 rows 2 more times.", "Rep last 2 rows 2 more times."),
        ("Rep Rows 2 and 3, 6 times.", "Rep Rows 2 and 3, 6 times."),
    ],
)
def test_the_number_of_a_row_and_a_number_of_times_do_not_meet(words: str, printed: str) -> None:
    assert part_numbers(words) == printed
