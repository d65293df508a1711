"""The tables of sizes and of yarn: a column for each size, or a line for each where there are many."""

from collections.abc import Sequence

from booklet.amounts.figures import print_number
from booklet.amounts.own_measures import OwnMeasure, list_own
from booklet.model.amounts import Measure
from booklet.model.measure import CM_PER_INCH
from booklet.model.pattern import Pattern
from booklet.pages.figures import print_both, print_count, print_difference, print_length, print_own, print_yarn_length
from booklet.pages.fitting import EMPTY, fit_table, set_both
from booklet.pages.front import name_weight
from booklet.pages.manuscript import BookletInput
from booklet.pages.size_sources import explain_sizes, list_table_lines
from booklet.pages.typography import NO_BREAK_SPACE, set_type
from booklet.pages.views import Cell, Fact, Line, Section, Table
from booklet.pages.yarn_tables import explain_yarn, tabulate_needs, tabulate_yarn


def show_sizes(manuscript: BookletInput) -> Section | None:
    """What each size measures by the counts of its rows; for testers what was planned as well."""
    own = [
        _own_line(measure, manuscript.pattern) for measure in list_own(manuscript.sized, manuscript.amounts.measures)
    ]
    lines = [*list_table_lines(manuscript), *own, *list_finished(manuscript)]
    if not lines:
        return None
    table = Table(
        caption=_name_table(manuscript),
        corner="Measure",
        columns=name_columns(manuscript),
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


def _name_table(manuscript: BookletInput) -> str:
    """`Measures by size, after blocking`; of one size `Measures`, and without blocking where nothing is blocked."""
    pattern = manuscript.pattern
    words = "Measures by size" if len(pattern.size_names) > 1 else "Measures"
    return f"{words}, after blocking" if manuscript.amounts.measures and is_blocked(pattern) else words


def is_blocked(pattern: Pattern) -> bool:
    """True where a gauge says so, or there is none to say otherwise."""
    return any(gauge.blocked for gauge in pattern.gauges) or not pattern.gauges


def _explain_inch(pattern: Pattern) -> str:
    if pattern.cm_per_inch == CM_PER_INCH:
        return f"An inch is {print_number(pattern.cm_per_inch)} cm, exactly."
    return f"As gauge is stated over 4 in and 10 cm alike, 1 in is counted as {print_number(pattern.cm_per_inch)} cm."


def show_materials(manuscript: BookletInput) -> Section | None:
    """Yarn for each colour and size, then hooks and notions, then how the figures came about."""
    pattern, amounts = manuscript.pattern, manuscript.amounts
    makers = (tabulate_yarn, tabulate_needs) if manuscript.for_testers else (tabulate_yarn,)
    tables = tuple(tabulate(manuscript) for tabulate in makers) if amounts.yarn and amounts.yarn.needs else ()
    facts = [Fact("Yarn", _describe_yarn(manuscript))] if pattern.yarn else []
    headings = dict.fromkeys(material.heading for material in amounts.materials)
    for heading in headings:
        if heading == "Yarn" and (tables or facts):
            continue
        texts = [material.text for material in amounts.materials if material.heading == heading]
        words = set_type("; ".join(texts))
        facts.append(Fact(heading, words[:1].upper() + words[1:]))
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


def name_columns(manuscript: BookletInput) -> tuple[str, ...]:
    return tuple(set_type(name) or "All" for name in manuscript.pattern.size_names)


def _own_line(measure: OwnMeasure, pattern: Pattern) -> Line:
    """A measure that the sizes give, in both units."""
    cells = (
        Cell(set_both(figures, pattern)) if figures else EMPTY for figures in print_own(measure, pattern.units_first)
    )
    return Line(set_type(measure.name[:1].upper() + measure.name[1:]), tuple(cells))


def _plan_line(pattern: Pattern, name: str) -> Line:
    """What a measure of the sizes was to be, in its author's unit and in the other."""
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
    return Cell(set_both(print_both(inches * pattern.cm_per_inch, inches, pattern.units_first), pattern))


def list_finished(manuscript: BookletInput, among: Sequence[Measure] = ()) -> list[Line]:
    """The finished measures, each with its figures in every size; named so that each is told from all `among` them."""
    measures = manuscript.amounts.measures
    parts = dict.fromkeys(measure.part for measure in among or measures)
    lines: list[Line] = []
    for measure in measures:
        head = measure.name[:1].upper() + measure.name[1:]
        if len(parts) > 1 and measure.part and measure.part.casefold() not in head.casefold():
            head = f"{measure.part}: {measure.name}"
        is_compared = measure.target and manuscript.for_testers
        if is_compared:
            lines.append(_target_line(measure, manuscript.pattern))
        letter = measure.key if manuscript.pictures_for("schematic") else ""
        lines.append(Line(set_type(head), _cells_of(measure, manuscript.pattern), letter))
        if is_compared:
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


def _cells_of(measure: Measure, pattern: Pattern) -> tuple[Cell, ...]:
    cells: list[Cell] = []
    for cm, inches, count in zip(measure.cm, measure.inches, measure.count, strict=True):
        figures = set_both(print_both(cm, inches, pattern.units_first), pattern)
        counted = f"{print_count(count)}{NO_BREAK_SPACE}{'rnds' if measure.in_rounds else measure.unit}"
        cells.append(Cell((*figures, counted)) if figures else Cell((counted,)))
    return tuple(cells)


def _describe_yarn(manuscript: BookletInput) -> str:
    yarn = manuscript.pattern.yarn
    assert yarn is not None
    weight = name_weight(yarn)
    colours = manuscript.pattern.colours
    only = set_type(colours[0].name) if len(colours) == 1 else ""
    words = [yarn.name, weight, yarn.fibre, only]
    if yarn.ball_grams and yarn.ball_metres:
        lengths = print_yarn_length(yarn.ball_metres, manuscript.pattern.units_first)
        words.append(f"{yarn.ball_grams:g}{NO_BREAK_SPACE}g = {lengths[0]} ({lengths[1]}) a ball")
    return set_type(", ".join(word for word in words if word))
