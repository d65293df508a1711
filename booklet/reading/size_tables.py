"""Tables of sizes: the built-in ones, those of a publisher or a pattern, and what a size takes from them."""

import re
from collections.abc import Callable, Iterable, Mapping, Sequence
from functools import cache
from pathlib import Path

from booklet.findings import Finding
from booklet.model.measure import Length
from booklet.model.pattern import Size
from booklet.model.size_tables import MEMORY, OWN, SizeTable, TableFigure
from booklet.reading import messages_sizes as messages
from booklet.reading.forms import FrontMatter
from booklet.reading.front_matter import Places, read_table_form
from booklet.reading.grading_forms import SizeTableForm
from booklet.source import SourceFile, Span
from booklet.source.files import open_source
from booklet.terms import load_table

Tell = Callable[[Finding], None]


@cache
def list_built_in() -> tuple[SizeTable, ...]:
    """The tables that come with the tool, in the order of their file."""
    return tuple(_build_table(name, entry) for name, entry in load_table("size_tables").items())


def _build_table(name: str, entry: Mapping[str, object]) -> SizeTable:
    measures, sizes, unit = entry["measures"], entry["sizes"], str(entry["unit"])
    assert isinstance(measures, Mapping)
    assert isinstance(sizes, tuple)
    figures: dict[str, dict[str, TableFigure]] = {size: {} for size in sizes}
    for measure, facts in measures.items():
        for size, figure in zip(sizes, facts["figures"], strict=True):
            low, high = figure if isinstance(figure, tuple) else (figure, figure)
            trust = MEMORY if size in facts.get("memory", ()) else facts["trust"]
            figures[size][measure] = TableFigure(Length(low, unit), Length(high, unit), facts["source"], trust)
    sources = dict.fromkeys(facts["source"] for facts in measures.values())
    aliases = entry.get("aliases", ())
    assert isinstance(aliases, tuple)
    return SizeTable(
        name=name,
        title=str(entry["title"]),
        kind=str(entry["kind"]),
        sizes=figures,
        source=next(iter(sources)) if len(sources) == 1 else "",
        note=str(entry.get("note", "")),
        aliases=aliases,
    )


def join_tables(*groups: Iterable[SizeTable]) -> tuple[SizeTable, ...]:
    """All tables; one of a later group takes the place of one of the same name."""
    tables: dict[str, SizeTable] = {}
    for table in (*list_built_in(), *(table for group in groups for table in group)):
        tables[_plain(table.name)] = table
    return tuple(tables.values())


def read_own_tables(
    forms: Mapping[str, SizeTableForm], places: Places, folder: Path, tell: Tell
) -> tuple[SizeTable, ...]:
    """The tables written out in a house file or a pattern, or in files beside it."""
    tables: list[SizeTable] = []
    for name, form in forms.items():
        span = places.key("size tables", name)
        full = form
        if form.file:
            loaded = _open_table(form.file, folder, places.value("size tables", name), tell)
            if loaded is None:
                continue
            full, span = loaded
        if not full.source or not full.date:
            lacking = " and ".join(word for word in ("source", "date") if not getattr(full, word))
            tell(messages.table_unsourced(name, lacking, span))
        tables.append(_own_table(name, full))
    return tuple(tables)


def _open_table(file: str, folder: Path, span: Span, tell: Tell) -> tuple[SizeTableForm, Span] | None:
    """The form in a file beside the source; None where it cannot be read, which is told."""
    path = folder / file
    inside = path.resolve().is_relative_to(folder.resolve()) and path.suffix.lower() in (".yaml", ".yml")
    if not inside:
        tell(messages.table_unreadable(file, "is no YAML file beside this one", span))
        return None
    try:
        source: SourceFile = open_source(path)
    except OSError as problem:
        tell(messages.table_unreadable(file, f"cannot be opened: {problem.strerror or 'unknown reason'}", span))
        return None
    except ValueError as problem:
        tell(messages.table_unreadable(file, f"cannot be read: {problem}", span))
        return None
    form, findings = read_table_form(source)
    for finding in findings:
        tell(finding)
    if not form.sizes:
        if not findings:
            tell(messages.table_unreadable(file, "has no sizes", span))
        return None
    return form, source.whole()


def _own_table(name: str, form: SizeTableForm) -> SizeTable:
    source = ", ".join(word for word in (form.source, form.date) if word)
    sizes = {
        size: {measure: TableFigure(low, high, source, OWN) for measure, (low, high) in measures.items()}
        for size, measures in form.sizes.items()
    }
    return SizeTable(name, form.title or name, form.kind, sizes, form.source, form.date, is_own=True)


def list_sizes(
    front: FrontMatter, places: Places, tables: Sequence[SizeTable], tell: Tell
) -> tuple[tuple[Size, ...], tuple[SizeTable, ...]]:
    """The sizes with all their measures, and the tables that some of these come from."""
    sizes: list[Size] = []
    used: dict[str, SizeTable] = {}
    common = None
    if front.size_table:
        common = find_table(front.size_table, tables)
        if common is None:
            tell(messages.table_unknown(front.size_table, [t.name for t in tables], places.value("size table")))
    for name, form in front.sizes.items():
        span = places.key("sizes", name)
        found = _find_entry(name, form.entry, common, tables, places.value("sizes", name, "from"), span, tell)
        if found is None:
            sizes.append(Size(name, form.measures, span))
            continue
        table, entry = found
        used[table.name] = table
        figures = {measure: figure for measure, figure in table.sizes[entry].items() if measure not in form.measures}
        measures = {measure: figure.middle for measure, figure in figures.items()} | form.measures
        sizes.append(Size(name, measures, span, table.name, entry, figures))
    return tuple(sizes), tuple(used.values())


def _find_entry(
    name: str, words: str, common: SizeTable | None, tables: Sequence[SizeTable], span: Span, key: Span, tell: Tell
) -> tuple[SizeTable, str] | None:
    """The table and the size in it that a size goes by; None where it goes by none or the words name none."""
    table, rest, place = common, name, key
    if words:
        named = split_entry(words, tables)
        table, rest = named if named is not None else (common, words)
        rest, place = rest or name, span
        if table is None:
            tell(messages.table_unknown(words, [table.name for table in tables], span))
            return None
    if table is None:
        return None
    entry = next((entry for entry in table.sizes if _plain(entry) == _plain(rest)), "")
    if not entry:
        tell(messages.table_size_unknown(table, rest, place))
        return None
    return table, entry


def find_table(words: str, tables: Iterable[SizeTable]) -> SizeTable | None:
    """The table of a name, or of another word for it."""
    wanted = _plain(words)
    return next((t for t in tables if wanted in {_plain(name) for name in (t.name, *t.aliases)}), None)


def split_entry(words: str, tables: Iterable[SizeTable]) -> tuple[SizeTable, str] | None:
    """The table that the words begin with, the longest name first, and the size behind it: `bed covers Queen`."""
    tables = tuple(tables)
    parts = re.split(r"[\s,:]+", words.strip())
    for length in range(len(parts), 0, -1):
        table = find_table(" ".join(parts[:length]), tables)
        if table is not None:
            return table, " ".join(parts[length:])
    return None


def _plain(words: str) -> str:
    return re.sub(r"[\s._-]+", " ", words.strip().lower()).strip()
