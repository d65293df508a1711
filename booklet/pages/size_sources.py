"""Measures that sizes take from a table: as lines of the table of sizes, and where they come from in words."""

from booklet.findings import join_words
from booklet.model.measure import CM_PER_INCH
from booklet.model.pattern import Pattern, Size, SizedNumber
from booklet.model.size_tables import MEMORY, SizeTable, TableFigure
from booklet.pages.figures import print_both, print_percent
from booklet.pages.manuscript import BookletInput
from booklet.pages.typography import set_type
from booklet.pages.views import Cell, Line
from booklet.sizing.tables import list_borrowed
from booklet.terms import load_table

EMPTY = Cell(("–",))


def list_table_lines(manuscript: BookletInput) -> list[Line]:
    """A line for each borrowed measure, a range where the table gives one: `To fit bust`."""
    pattern = manuscript.pattern
    kinds = {table.name: table.kind for table in pattern.size_tables}
    lines: list[Line] = []
    for name in list_borrowed(manuscript.pattern):
        is_body = any(kinds.get(size.table) == "body" for size in pattern.sizes if name in size.borrowed)
        cells = tuple(_cell_of(size, name, pattern.units_first) for size in pattern.sizes)
        lines.append(Line(set_type(f"To fit {name}" if is_body else f"Usual {name}"), cells))
    return lines


def _cell_of(size: Size, name: str, units_first: str) -> Cell:
    figure = size.borrowed.get(name)
    if figure is None:
        return EMPTY
    lows, highs = (print_both(length.cm, length.cm / CM_PER_INCH, units_first) for length in (figure.low, figure.high))
    if lows == highs:
        return Cell(lows)
    return Cell(tuple(_join_range(low, high) for low, high in zip(lows, highs, strict=True)))


def _join_range(low: str, high: str) -> str:
    """`91.5–96.5 cm`, the unit once."""
    return f"{low[: low.rindex(high[-2:])].rstrip()}–{high}"


def explain_sizes(manuscript: BookletInput) -> list[str]:
    """Two paragraphs: which table measures come from, who says so, how sure it is; ease and rounding of the counts."""
    notes: list[str] = []
    counts: list[str] = []
    used = list_borrowed(manuscript.pattern)
    for table in manuscript.pattern.size_tables:
        names = [name for name in used if any(size.table == table.name for size in manuscript.pattern.sizes)]
        if names:
            notes.append(_explain_table(manuscript, table, names))
    numbers = [number for number in manuscript.sized.numbers.values() if number.target_cm]
    counts += [words for number in numbers if (words := _explain_ease(number, manuscript.pattern.units_first))]
    counts += _explain_fits(manuscript.pattern)
    if used and numbers:
        counts.append(_explain_rounding(numbers))
    return [" ".join(words) for words in (notes, counts) if words]


def _explain_table(manuscript: BookletInput, table: SizeTable, names: list[str]) -> str:
    figures = [
        size.borrowed[name]
        for size in manuscript.pattern.sizes
        for name in names
        if size.table == table.name and name in size.borrowed
    ]
    sources = dict.fromkeys(figure.source for figure in figures)
    said_by = "; ".join(filter(None, sources)) or "no source given"
    words = f"{join_words(names)} from the table “{table.title}” ({said_by})."
    if any(figure.low != figure.high for figure in figures):
        words += " Of a range the middle is taken."
    unchecked = _list_unchecked(manuscript, table, names)
    if unchecked:
        words += f" Not checked against the source: {unchecked}."
    return words[0].upper() + words[1:]


def _list_unchecked(manuscript: BookletInput, table: SizeTable, names: list[str]) -> str:
    """The measures from memory, with their sizes where others of them were seen."""
    texts: list[str] = []
    for name in names:
        figures: dict[str, TableFigure] = {
            size.name: size.borrowed[name]
            for size in manuscript.pattern.sizes
            if size.table == table.name and name in size.borrowed
        }
        doubtful = [size for size, figure in figures.items() if figure.trust == MEMORY]
        if doubtful:
            texts.append(name if len(doubtful) == len(figures) else f"{name} of {join_words(doubtful)}")
    return "; ".join(texts)


def _explain_ease(number: SizedNumber, units_first: str) -> str:
    if not number.ease_cm or not any(number.ease_cm):
        return ""
    name = number.name.replace("_", " ")
    shares = {round(ease / (target - ease), 4) for ease, target in zip(number.ease_cm, number.target_cm, strict=True)}
    first = number.ease_cm[0]
    less = "more" if first > 0 else "less"
    if len(set(number.ease_cm)) == 1:
        metric, imperial = print_both(abs(first), abs(first) / CM_PER_INCH, units_first)
        return f"{name.capitalize()}: {metric} ({imperial}) {less} than {number.measure}."
    if len(shares) == 1:
        return f"{name.capitalize()}: {print_percent(abs(shares.pop()))} {less} than {number.measure}."
    return f"{name.capitalize()}: ease differs by size."


def _explain_fits(pattern: Pattern) -> list[str]:
    """Where the ease of a fit comes from, and how sure that is."""
    fits = load_table("fits")
    words = []
    for fit in dict.fromkeys(ease.fit for rule in pattern.numbers for ease in rule.ease if ease.fit):
        doubt = "" if fits[fit]["trust"] == "seen" else ", not checked against the source"
        words.append(f"{fit.capitalize()} fit by the {fits[fit]['source']}{doubt}.")
    return words


def _explain_rounding(numbers: list[SizedNumber]) -> str:
    ways = {(number.rounding, number.tie) for number in numbers}
    if ways == {("nearest", "up")}:
        return "Counts are the nearest that fit the stitch pattern, the larger where two are equally near."
    if ways == {("nearest", "down")}:
        return "Counts are the nearest that fit the stitch pattern, the smaller where two are equally near."
    ups = [number.name for number in numbers if number.rounding == "up"]
    downs = [number.name for number in numbers if number.rounding == "down"]
    words = "Counts are the nearest that fit the stitch pattern"
    words += f", those of {join_words(ups)} the next above" if ups else ""
    words += f", those of {join_words(downs)} the next below" if downs else ""
    return f"{words}."
