"""Tables with many sizes keep to the page."""

import pytest

from booklet.pages.fitting import MOST_COLUMNS, fit_table
from booklet.pages.views import Cell, Line, Table


def make_table(sizes: int, lines: int) -> Table:
    names = tuple(f"S{at}" for at in range(sizes))
    return Table(
        "Measures",
        "Measure",
        names,
        tuple(Line(f"Line {line}", tuple(Cell((f"{line}-{name}",)) for name in names)) for line in range(lines)),
    )


@pytest.mark.parametrize(
    ("sizes", "lines", "columns"),
    [(1, 16, [1]), (5, 16, [5]), (9, 3, [3]), (6, 16, [6]), (9, 16, [9]), (10, 16, [5, 5]), (13, 16, [7, 6])],
)
def test_a_table_is_turned_or_cut_so_that_it_fits(sizes: int, lines: int, columns: list[int]) -> None:
    tables = fit_table(make_table(sizes, lines), "Size")
    assert [len(table.columns) for table in tables] == columns
    assert all(len(line.cells) == len(table.columns) <= MOST_COLUMNS for table in tables for line in table.lines)


def test_a_cut_loses_no_cell() -> None:
    table = make_table(13, 16)
    cut = fit_table(table, "Size")
    assert sum((part.columns for part in cut), ()) == table.columns
    for at, line in enumerate(table.lines):
        assert sum((part.lines[at].cells for part in cut), ()) == line.cells
        assert {part.lines[at].head for part in cut} == {line.head}
