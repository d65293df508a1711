"""Tables fitted to a page: as they are, turned, or cut where the sizes are many."""

from dataclasses import replace

from booklet.model.pattern import Pattern
from booklet.pages.views import BookletView, Cell, Figure, Line, Table

MAX_COLUMNS = 5
MOST_COLUMNS = 9  # of narrow cells, beside the heads of the lines
MAX_WIDE_COLUMNS = 3  # of cells that hold both units on one line
# On the small screen of a reader or a telephone, without a style that lets a table be moved sideways:
MAX_PLAIN_COLUMNS = 3
MAX_PLAIN_FIGURES = 2  # which stay on one line each
EMPTY = Cell(("–",))


def turn_if_wide(table: Table, corner: str) -> Table:
    """The table with sizes as lines where it has too many of them for columns."""
    return table if len(table.columns) <= MAX_COLUMNS else turn_table(table, corner)


def fit_table(table: Table, corner: str) -> tuple[Table, ...]:
    """The table so that it fits a page: as it is, turned, or cut into tables of fewer sizes."""
    if len(table.columns) <= MAX_COLUMNS or len(table.lines) <= MAX_COLUMNS:
        return (turn_if_wide(table, corner),)
    parts = -(-len(table.columns) // MOST_COLUMNS)
    most = -(-len(table.columns) // parts)
    return tuple(_take_columns(table, start, start + most) for start in range(0, len(table.columns), most))


def _take_columns(table: Table, start: int, end: int) -> Table:
    lines = tuple(replace(line, cells=line.cells[start:end]) for line in table.lines)
    return replace(table, columns=table.columns[start:end], lines=lines)


def turn_table(table: Table, corner: str) -> Table:
    """The table with its columns as lines; letters go into the heads of the columns."""
    heads = tuple(f"{line.letter} {line.head}".strip() for line in table.lines)
    lines = tuple(
        Line(column, tuple(line.cells[at] for line in table.lines)) for at, column in enumerate(table.columns)
    )
    return Table(table.caption, corner, heads, lines, table.form)


def set_both(figures: tuple[str, ...], pattern: Pattern) -> tuple[str, ...]:
    """The two units of a figure on one line where columns are wide enough, else one above the other."""
    if len(figures) == 2 and len(pattern.size_names) <= MAX_WIDE_COLUMNS:
        return (f"{figures[0]} ({figures[1]})",)
    return figures


def list_wide_tables(view: BookletView) -> BookletView:
    """The booklet with every table that is too wide for a small screen told line by line."""

    def tell(table: Table) -> Table:
        most = MAX_PLAIN_FIGURES if table.form == "figures" else MAX_PLAIN_COLUMNS
        return replace(table, form="list") if len(table.columns) > most else table

    def tell_twin(figure: Figure) -> Figure:
        return replace(figure, table=tell(figure.table)) if figure.table else figure

    sections = (
        replace(section, tables=tuple(map(tell, section.tables)), figures=tuple(map(tell_twin, section.figures)))
        for section in view.sections
    )
    return replace(view, sections=tuple(sections))
