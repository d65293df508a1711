"""What a row is called and which rows it stands for."""

import pytest

from booklet.model.parsed import Label
from booklet.rows.labels import read_label
from booklet.rows.tokens import Numbers
from booklet.source import SourceFile


def label_of(text: str) -> Label:
    label, _, _ = read_label(SourceFile("rows.md", text).span(0, len(text)))
    return label


@pytest.mark.parametrize(
    ("text", "kind", "numbers", "side"),
    [
        ("Row 1: Sc", "row", (1,), ""),
        ("Row 1 (RS): Sc", "row", (1,), "RS"),
        ("Row 2 (wrong side): Sc", "row", (2,), "WS"),
        ("**Row 7:** Sc", "row", (7,), ""),
        ("Rows 5-8: Sc", "row", (5, 6, 7, 8), ""),
        ("Rows 5–8: Sc", "row", (5, 6, 7, 8), ""),
        ("Rows 6 and 8: Sc", "row", (6, 8), ""),
        ("Rows 2, 4, and 6: Sc", "row", (2, 4, 6), ""),
        ("Rnd 3: Sc", "round", (3,), ""),
        ("Round 3. Sc", "round", (3,), ""),
        ("Rnds 4-6: Sc", "round", (4, 5, 6), ""),
        ("2nd rnd: Sc", "round", (2,), ""),
        ("1st row: Sc", "row", (1,), ""),
        ("Next row: Sc", "row", (), ""),
        ("Foundation: Ch 12", "foundation", (), ""),
    ],
)
def test_a_label_names_its_rows(text: str, kind: str, numbers: tuple[int, ...], side: str) -> None:
    label = label_of(text)
    assert (label.kind, label.numbers, label.side) == (kind, numbers, side)


def test_all_even_rows_are_remembered() -> None:
    label = label_of("Row 2 and all even rows: Sc")
    assert (label.numbers, label.every) == ((2,), 2)


def test_a_range_may_say_how_many_rows_it_is() -> None:
    assert label_of("Rows 5-12 (8 rows): Sc").count == 8


def test_sizes_in_a_label() -> None:
    assert label_of("Rnd 6 (sizes Medium, Large and Extra only): Sc").sizes == ("Medium", "Large", "Extra")
    assert label_of("Rnd 7 (size Large only): Sc").sizes == ("Large",)


def test_error_a_range_that_runs_backwards() -> None:
    text = "Rows 9-2: Sc"
    _, _, trouble = read_label(SourceFile("rows.md", text).span(0, len(text)))
    assert trouble is not None
    assert (trouble.kind, trouble.first, trouble.last) == ("backwards", 9, 2)


def test_words_after_the_label_start_behind_it() -> None:
    text = "Row 12 (RS): Sc in next st"
    _, offset, _ = read_label(SourceFile("rows.md", text).span(0, len(text)))
    assert text[offset:] == "Sc in next st"


def label_in(text: str, sizes: int, **names: tuple[int, ...]) -> Label:
    label, _, trouble = read_label(SourceFile("rows.md", text).span(0, len(text)), Numbers(names, sizes))
    assert trouble is None
    return label


@pytest.mark.parametrize(
    ("text", "first", "last"),
    [
        ("Rows 2-6 (8, 10): Sc", (2, 3, 4, 5, 6), tuple(range(2, 11))),
        ("Rows 2–6 [8: 10]: Sc", (2, 3, 4, 5, 6), tuple(range(2, 11))),
        ("Rnds 7 (9, 11)-8 (12, 14): Sc", (7, 8), (11, 12, 13, 14)),
        ("Row 9 (11, 13) (RS): Sc", (9,), (13,)),
        ("Rows 3-{rows}: Sc", (3, 4), tuple(range(3, 9))),
        ("Row {rows + 1}: Sc", (5,), (9,)),
    ],
)
def test_numbers_may_differ_by_size(text: str, first: tuple[int, ...], last: tuple[int, ...]) -> None:
    label = label_in(text, 3, rows=(4, 6, 8))
    assert label.numbers_in(0) == label.numbers == first
    assert label.numbers_in(2) == last


def test_of_two_sizes_the_second_stands_alone_in_its_bracket() -> None:
    assert label_in("Rows 5-12 (14): Sc", 2).varied[1] == tuple(range(5, 15))


def test_a_bracket_that_is_no_list_of_sizes_stays_beside_the_label() -> None:
    assert label_in("Rnds 7-9 (18): Sc", 1).numbers == (7, 8, 9)
    assert label_in("Rows 5-12 (8 rows): Sc", 2).count == 8


def test_error_a_list_with_too_few_sizes() -> None:
    text = "Rows 2-6 (8, 10): Sc"
    _, _, trouble = read_label(SourceFile("rows.md", text).span(0, len(text)), Numbers({}, 4))
    assert trouble is not None
    assert (trouble.kind, trouble.first, trouble.last) == ("sizes", 3, 4)


def test_error_a_name_that_nobody_defined() -> None:
    text = "Rows 2-{rows}: Sc"
    _, _, trouble = read_label(SourceFile("rows.md", text).span(0, len(text)), Numbers({}, 4))
    assert trouble is not None
    assert trouble.kind == "formula"
