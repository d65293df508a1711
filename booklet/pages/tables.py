"""The tables of sizes and of yarn: a column for each size, or a line for each where there are many."""

from dataclasses import replace

from booklet.amounts.figures import print_number
from booklet.model.amounts import Measure, YarnNeed
from booklet.model.measure import CM_PER_INCH
from booklet.model.pattern import Pattern
from booklet.pages.figures import print_both, print_count, print_difference, print_length, print_yarn_length
from booklet.pages.manuscript import BookletInput
from booklet.pages.size_sources import explain_sizes, list_borrowed, list_table_lines, list_unused
from booklet.pages.typography import NO_BREAK_SPACE, set_type
from booklet.pages.views import Cell, Fact, Line, Section, Table
from booklet.pages.yarn_tables import explain_yarn, tabulate_needs

MAX_COLUMNS = 5
MOST_COLUMNS = 9  # of narrow cells, beside the heads of the lines
MAX_WIDE_COLUMNS = 3  # of cells that hold both units on one line
EMPTY = Cell(("–",))
ALL = "*"  # stands for the letters of all colours


def show_sizes(manuscript: BookletInput) -> Section | None:
    """What each size is planned to measure, and what it will measure by the counts of its rows."""
    lines = [*list_table_lines(manuscript), *_list_planned(manuscript), *list_finished(manuscript)]
    if not lines:
        return None
    table = Table(
        caption="Measures by size, after blocking" if manuscript.amounts.measures else "Measures by size",
        corner="Measure",
        columns=_name_columns(manuscript),
        lines=tuple(lines),
    )
    notes: list[str] = []
    if manuscript.amounts.measures:
        notes.append(
            "Finished measures are worked out from the stitches and rows of this pattern at the stated gauge, in "
            f"each unit on its own, and rounded once. {_explain_inch(manuscript.pattern)}"
        )
    if any(line.letter for line in lines) and manuscript.pictures_for("schematic"):
        notes.append("Letters are those of the schematic.")
    paragraphs = (" ".join(notes), *explain_sizes(manuscript))
    note = tuple(set_type(words) for words in paragraphs if words)
    return Section("sizes", "Sizes", "sizes", tables=fit_table(table, "Size"), notes=note)


def _explain_inch(pattern: Pattern) -> str:
    if pattern.cm_per_inch == CM_PER_INCH:
        return f"An inch is {print_number(pattern.cm_per_inch)} cm, exactly."
    return f"As gauge is stated over 4 in and 10 cm alike, 1 in is counted as {print_number(pattern.cm_per_inch)} cm."


def show_materials(manuscript: BookletInput) -> Section | None:
    """Yarn for each colour and size, then hooks and notions, then how the figures came about."""
    pattern, amounts = manuscript.pattern, manuscript.amounts
    tables = (_tabulate_yarn(manuscript), tabulate_needs(manuscript)) if amounts.yarn and amounts.yarn.needs else ()
    facts = [Fact("Yarn", _describe_yarn(manuscript))] if pattern.yarn else []
    headings = dict.fromkeys(material.heading for material in amounts.materials)
    for heading in headings:
        if heading == "Yarn" and (tables or facts):
            continue
        texts = [material.text for material in amounts.materials if material.heading == heading]
        facts.append(Fact(heading, set_type("; ".join(texts))))
    if not tables and not facts:
        return None
    return Section(
        "materials",
        "Materials",
        "materials",
        facts=tuple(fact for fact in facts if fact.value),
        tables=tables,
        notes=tuple(set_type(note) for note in explain_yarn(manuscript)),
    )


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


def _name_columns(manuscript: BookletInput) -> tuple[str, ...]:
    return tuple(set_type(name) or "All" for name in manuscript.pattern.size_names)


def _list_planned(manuscript: BookletInput) -> list[Line]:
    """The sizes' measures that no finished measure is held against, as their author gave them."""
    pattern = manuscript.pattern
    held = {measure.target_name for measure in manuscript.amounts.measures}
    names = dict.fromkeys(name for size in pattern.sizes for name in size.measures)
    elsewhere = {*held, *list_borrowed(manuscript), *list_unused(manuscript)}
    return [_plan_line(pattern, name) for name in names if name not in elsewhere]


def _plan_line(pattern: Pattern, name: str) -> Line:
    """A measure of the sizes in its author's unit and in the other."""
    cells: list[Cell] = []
    for size in pattern.sizes:
        if (length := size.measures.get(name)) is None:
            cells.append(EMPTY)
        elif length.unit in ("cm", "in"):
            cells.append(_plan_cell(length.amount, length.unit, pattern))
        else:
            cells.append(Cell((print_length(length),)))
    return Line(set_type(f"Planned {name}"), tuple(cells))


def _plan_cell(amount: float, unit: str, pattern: Pattern) -> Cell:
    inches = amount if unit == "in" else amount / pattern.cm_per_inch
    return Cell(_set_both(print_both(inches * pattern.cm_per_inch, inches, pattern.units_first), pattern))


def list_finished(manuscript: BookletInput) -> list[Line]:
    """The finished measures, each with its figures in every size."""
    measures = manuscript.amounts.measures
    parts = dict.fromkeys(measure.part for measure in measures)
    lines: list[Line] = []
    for measure in measures:
        head = measure.name[:1].upper() + measure.name[1:]
        if len(parts) > 1 and measure.part and measure.part.casefold() not in head.casefold():
            head = f"{measure.part}: {measure.name}"
        if measure.target:
            lines.append(_target_line(measure, manuscript.pattern))
        lines.append(Line(set_type(head), _cells_of(measure, manuscript.pattern), measure.key))
        if measure.target:
            lines.append(_difference_line(measure))
    return lines


def _target_line(measure: Measure, pattern: Pattern) -> Line:
    """What was asked for: a measure of the sizes as it stands, or one worked out from them, with ease perhaps."""
    named = [size.measures.get(measure.target_name) for size in pattern.sizes]
    if [length.cm if length else None for length in named] == list(measure.target_cm):
        return _plan_line(pattern, measure.target_name)
    cells = tuple(_plan_cell(amount, measure.target_unit, pattern) for amount in measure.target)
    return Line(set_type(f"Planned {measure.name}"), cells)


def _difference_line(measure: Measure) -> Line:
    cells = (
        EMPTY if difference is None else Cell((print_difference(difference, measure.target_unit),))
        for difference in measure.difference
    )
    return Line("Difference", tuple(cells))


def _set_both(figures: tuple[str, ...], pattern: Pattern) -> tuple[str, ...]:
    """The two units of a figure on one line where columns are wide enough, else one above the other."""
    if len(figures) == 2 and len(pattern.size_names) <= MAX_WIDE_COLUMNS:
        return (f"{figures[0]} ({figures[1]})",)
    return figures


def _cells_of(measure: Measure, pattern: Pattern) -> tuple[Cell, ...]:
    cells: list[Cell] = []
    for cm, inches, count in zip(measure.cm, measure.inches, measure.count, strict=True):
        figures = _set_both(print_both(cm, inches, pattern.units_first), pattern)
        counted = f"{print_count(count)}{NO_BREAK_SPACE}{'rnds' if measure.in_rounds else measure.unit}"
        cells.append(Cell((*figures, counted)) if figures else Cell((counted,)))
    return tuple(cells)


def _tabulate_yarn(manuscript: BookletInput) -> Table:
    yarn, pattern = manuscript.amounts.yarn, manuscript.pattern
    assert yarn is not None
    colours = {colour.letter: set_type(colour.name) for colour in pattern.colours}
    needs = {(need.letter, need.size): need for need in yarn.needs}
    letters = list(dict.fromkeys([*(letter for letter in colours), *(need.letter for need in yarn.needs)]))
    letters = [letter for letter in letters if any((letter, size) in needs for size in pattern.size_names)]
    is_turned = len(pattern.size_names) > max(MAX_WIDE_COLUMNS, len(letters))
    is_wide = is_turned and len(letters) <= MAX_WIDE_COLUMNS

    def list_cells(letter: str) -> tuple[Cell, ...]:
        found = (yarn.totals.get(size) if letter == ALL else needs.get((letter, size)) for size in pattern.size_names)
        return tuple(_cell_of(need, pattern, is_wide) for need in found)

    lines = [
        Line(colours.get(letter, "Yarn"), list_cells(letter), letter, is_colour=letter in colours) for letter in letters
    ]
    if len(lines) > 1 and yarn.totals:
        lines.append(Line("In all", list_cells(ALL)))
    table = Table(
        "Yarn to buy, by colour and size", "Colour" if colours else "", _name_columns(manuscript), tuple(lines)
    )
    return turn_table(table, "Size") if is_turned else turn_if_wide(table, "Size")


def _cell_of(need: YarnNeed | None, pattern: Pattern, is_wide: bool) -> Cell:
    """Length and balls, on one line where the cell is wide."""
    if need is None or need.metres_to_buy <= 0:
        return EMPTY
    lengths = print_yarn_length(need.metres_to_buy, pattern.units_first)
    balls = "" if need.balls is None else f"{need.balls}{NO_BREAK_SPACE}{'ball' if need.balls == 1 else 'balls'}"
    if is_wide:
        return Cell((", ".join(words for words in (f"{lengths[0]} ({lengths[1]})", balls) if words),))
    return Cell(tuple(words for words in (*_set_both(lengths, pattern), balls) if words))


def _describe_yarn(manuscript: BookletInput) -> str:
    yarn = manuscript.pattern.yarn
    assert yarn is not None
    weight = f"{yarn.weight_name} weight" if yarn.weight_name else ""
    if yarn.weight is not None:
        weight = f"{weight} ({yarn.weight})" if weight else f"weight {yarn.weight}"
    words = [yarn.name, weight, yarn.fibre]
    if yarn.ball_grams and yarn.ball_metres:
        lengths = print_yarn_length(yarn.ball_metres, manuscript.pattern.units_first)
        words.append(f"{yarn.ball_grams:g}{NO_BREAK_SPACE}g = {lengths[0]} ({lengths[1]}) a ball")
    return set_type(", ".join(word for word in words if word))
