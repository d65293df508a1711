"""A row's tree in one of its sizes, and names of sizes in file names."""

import pytest

from booklet.editions.one_size import name_size
from booklet.editions.size_rows import SizeRows
from booklet.pipeline import prove_text
from booklet.rows.one_size import is_for_size, take_size
from booklet.rows.print import print_row

FRONT = "---\ntitle: Case\nsizes: S (M, L)\n---\n\n"


def print_sizes(rows: str) -> list[list[str]]:
    """For each size the rows printed from what is left of their trees."""
    parsed = prove_text(f"{FRONT}{rows}\n", "case.md").parsed
    assert parsed is not None
    return [
        [
            print_row(take_size(row, size)).text
            for part in parsed.parts
            for row in part.rows
            if is_for_size(row.label, name)
        ]
        for size, name in enumerate("SML")
    ]


@pytest.mark.parametrize(
    ("row", "printed"),
    [
        ("Ch 10 (12, 14).", ["Ch 10.", "Ch 12.", "Ch 14."]),
        (
            "Row 1: Sc in next 3 (4, 5) sts, (dc in next st, ch 1) 2 (3, 4) times. (6 (7, 8) sts)",
            [
                "Row 1: Sc in next 3 sts, (dc in next st, ch 1) twice. (6 sts)",
                "Row 1: Sc in next 4 sts, (dc in next st, ch 1) 3 times. (7 sts)",
                "Row 1: Sc in next 5 sts, (dc in next st, ch 1) 4 times. (8 sts)",
            ],
        ),
        (
            "Row 1: Sc in next 3 sts, (dc in next st, ch 1) - (2, 3) times, sc in last st.",
            [
                "Row 1: Sc in next 3 sts, sc in last st.",
                "Row 1: Sc in next 3 sts, (dc in next st, ch 1) twice, sc in last st.",
                "Row 1: Sc in next 3 sts, (dc in next st, ch 1) 3 times, sc in last st.",
            ],
        ),
    ],
)
def test_each_size_has_its_own_numbers(row: str, printed: list[str]) -> None:
    if " - (" in row:
        row = row.replace("- (2, 3)", "0 (2, 3)")
    assert [rows[-1] for rows in print_sizes(row)] == printed


def test_a_row_of_other_sizes_is_left_out_and_its_label_names_none() -> None:
    small, middle, large = print_sizes("Ch 10.\n\nRow 1 (sizes M and L only): Sc in next 3 sts. (3 sc)\n")
    assert small == ["Ch 10."]
    assert middle == large == ["Ch 10.", "Row 1: Sc in next 3 sts. (3 sc)"]


def test_what_the_tree_does_not_hold_keeps_its_authors_words() -> None:
    parsed = prove_text(f"{FRONT}Ch 72 (84, 96). Join with sl st in first ch to form a ring.\n", "case.md").parsed
    assert parsed is not None
    (line,) = parsed.sized.pattern.parts[0].rows
    told = [SizeRows(parsed, size, "US").print_line(line) for size in range(3)]
    assert [line.text if line else None for line in told] == [
        f"Ch {chains}. Join with sl st in first ch to form a ring." for chains in (72, 84, 96)
    ]


def test_a_row_that_is_the_same_in_all_sizes_is_left_alone() -> None:
    parsed = prove_text(f"{FRONT}Ch 10.\n\nRow 1: 1 sc into each ch to end.\n", "case.md").parsed
    assert parsed is not None
    rows = SizeRows(parsed, 1, "US")
    assert [rows.print_line(line) for line in parsed.sized.pattern.parts[0].rows] == [None, None]


def test_lists_in_prose_give_way_to_one_number_and_other_brackets_stay() -> None:
    parsed = prove_text(f"{FRONT}Ch 10.\n", "case.md").parsed
    assert parsed is not None
    rows = SizeRows(parsed, 2, "US")
    assert rows.take_prose("Leave 4 (5, 6) sts, about 10 cm (4 in).") == "Leave 6 sts, about 10 cm (4 in)."
    assert rows.take_prose("Sew on {panel} buttons (or more).") == "Sew on {panel} buttons (or more)."


@pytest.mark.parametrize(
    ("names", "name"),
    [(("M", "S"), "M"), (("S/M", "S-M"), "size-1"), (("½", "12"), "size-1"), (("дом", "M"), "size-1")],
)
def test_a_size_is_named_so_that_no_two_files_are_one(names: tuple[str, ...], name: str) -> None:
    assert name_size(names, 0) == name
