"""Numbers that differ from size to size, marked so that a page can show those of one size alone.

Whatever belongs to some sizes only carries the class `only` and one class for each of these sizes,
`size-1` for the first. Brackets and commas between the numbers carry `only` alone: they belong to no size.
What is shown of some sizes alone, where one of them is the one shown, carries `alone` and their classes.
Which size is shown is then a matter of one style rule (`write_size_rules`); nothing is computed on the page,
and a page without that rule shows all sizes as they are printed.
"""

import re
from collections.abc import Collection, Iterable, Iterator, Sequence
from dataclasses import fields, is_dataclass, replace

from markupsafe import Markup, escape

from booklet.model.parsed import Label, Row
from booklet.model.tree import Group, Node, PerSize, Repeat
from booklet.pages.views import Entry, Fact, Line, Passage, Piece, Section, Table
from booklet.rows.print_labels import list_runs

ALL_ONLY = "only"  # the class of what is of use only while all sizes are shown
ALONE = "alone"  # the class of what is of use only while one size is shown
LONGEST_WHOLE = 30  # letters of a list that no line end divides
FEW_TIMES = 2  # a repeat worked so often needs no counting

_VALUE = r"(?:\d{1,3}(?:\u202f\d{3})+|\d+(?:\.\d+)?[½¼¾⅓⅔⅛⅜⅝⅞]?|[½¼¾⅓⅔⅛⅜⅝⅞])"
_LIST = rf"(?<![\d.,½¼¾]){_VALUE}(?:[ \u00a0]\({_VALUE}(?:, ?{_VALUE})*\))+(?![\d½¼¾])"
_NUMBER = re.compile(_VALUE)
_BY_SIZE = re.compile(r"(?: by| and) size(?=,|$)")
FOR_SIZES = re.compile(r" ?\(sizes? [^()]* only\)")
_TAG = re.compile(r"(<[^>]*>)")
_LINE_END = re.compile(r"<br ?/?>")


def name_sizes(sizes: Collection[int], of: int) -> str:
    """The classes of what belongs to these sizes, by their places from 0; empty where it belongs to all."""
    if not sizes or len(sizes) >= of:
        return ""
    return " ".join([ALL_ONLY, *(f"size-{size + 1}" for size in sorted(sizes))])


def name_alone(sizes: Collection[int]) -> str:
    """The classes of what waits until one of these sizes is chosen, by their places from 0."""
    return " ".join([ALONE, *(f"size-{size + 1}" for size in sorted(sizes))])


def write_size_rules(sizes: int) -> str:
    """The style by which `data-size` on the root element shows one size alone; empty for a single size."""
    if sizes < 2:
        return ""
    hidden = ",".join(
        f'[data-size="{size}"] .{kind}:not(.size-{size})' for size in range(1, sizes + 1) for kind in (ALL_ONLY, ALONE)
    )
    return f"{hidden},:root:not([data-size]) .{ALONE}{{display:none!important}}"


def find_numbers(rows: Iterable[Row]) -> list[PerSize]:
    """Every number of the rows that differs from size to size, each once."""
    found = [number for row in rows for number in (*_label_numbers(row.label), *_walk((row.steps, row.stated)))]
    return list(dict.fromkeys(found))


def _label_numbers(label: Label) -> Iterator[PerSize]:
    return (number for run in list_runs(label) for number in run if len(number) > 1) if label.varied else iter(())


def _walk(node: object) -> Iterator[PerSize]:
    if isinstance(node, tuple):
        if len(node) > 1 and all(isinstance(value, int) for value in node):
            yield node
        else:
            for inner in node:
                yield from _walk(inner)
    elif is_dataclass(node) and not isinstance(node, Label):
        for field in fields(node):
            if field.name not in ("span", "rows"):  # rows worked again are named by their numbers
                yield from _walk(getattr(node, field.name))


def list_repeats(rows: Iterable[Row]) -> tuple[str, ...]:
    """How often each repeat of the rows is worked: "8", "5 6 8" by size, or "" where as often as it fits.

    Repeats that say the same are listed once: a maker who counts begins with each anew.
    """
    times = [_count_times(repeat) for row in rows for repeat in _find_repeats(row.steps)]
    return tuple(dict.fromkeys(" ".join(map(str, most)) for most in times if not most or max(most) > FEW_TIMES))


def _find_repeats(steps: Sequence[Node]) -> Iterator[Repeat]:
    """The outermost repeats of the steps."""
    for step in steps:
        if isinstance(step, Repeat):
            yield step
        elif isinstance(step, Group):
            yield from _find_repeats(step.steps)


def _count_times(repeat: Repeat) -> PerSize:
    """How often in all; () where the tree leaves it open or it is as often as fits."""
    if repeat.until == "times":
        return repeat.count
    return tuple(count + 1 for count in repeat.count) if repeat.until == "more" else ()


def mark_numbers(text: Markup, sizes: int, known: Sequence[PerSize] = ()) -> Markup:
    """HTML in which every list of one number a size is marked.

    `77 (83, 89)` is one wherever it holds as many numbers as there are sizes; `known` are lists that may
    also stand in the other forms of the trade.
    """
    if sizes < 2:
        return text
    forms = [form for values in known if len(values) == sizes for form in _list_forms(values)]
    pattern = re.compile("|".join([*forms, _LIST]))

    def mark(found: re.Match[str]) -> str:
        values = list(_NUMBER.finditer(found[0]))
        return _mark_list(found[0], values) if len(values) == sizes else found[0]

    pieces = _TAG.split(str(text))
    marked = (piece if piece.startswith("<") else pattern.sub(mark, piece) for piece in pieces)
    return Markup("".join(marked))  # noqa: S704 - the text was HTML before, and only tags of our own came in


def _list_forms(values: PerSize) -> tuple[str, str]:
    """The list with its larger sizes in one or several brackets, and without any: `40-44-48`."""
    first, *rest = map(str, values)
    bracketed = r"[ \u00a0]?[(\[]" + r"[ \u00a0,()\[\]]+".join(rest) + r"[)\]]"
    return rf"(?<![\d.]){first}{bracketed}", rf"(?<![\d.]){'(?:, ?|/|[–-])'.join([first, *rest])}(?![\d½¼¾])"


def _mark_list(text: str, values: Sequence[re.Match[str]]) -> str:
    pieces: list[str] = []
    at = 0
    for size, value in enumerate(values, start=1):
        if between := text[at : value.start()]:
            pieces.append(f'<span class="{ALL_ONLY}">{between}</span>')
        pieces.append(f'<span class="{ALL_ONLY} size-{size}">{value[0]}</span>')
        at = value.end()
    if rest := text[at:]:
        pieces.append(f'<span class="{ALL_ONLY}">{rest}</span>')
    form = "sizes" if len(text) <= LONGEST_WHOLE else "sizes long"
    return f'<span class="{form}">{"".join(pieces)}</span>'


def mark_sections(sections: Iterable[Section], names: Sequence[str]) -> tuple[Section, ...]:
    """The sections with all that differs by size marked, but for rows, which are marked by their trees.

    `names` are the names of the sizes as they are printed.
    """
    if len(names) < 2:
        return tuple(sections)
    return tuple(
        replace(
            section,
            lead=mark_numbers(section.lead, len(names)),
            passages=_mark_passages(section.passages, names),
            facts=mark_facts(section.facts, names),
            tables=tuple(_mark_table(table, names) for table in section.tables),
            entries=tuple(_mark_entry(entry, names) for entry in section.entries),
            figures=tuple(
                replace(figure, table=_mark_table(figure.table, names)) if figure.table else figure
                for figure in section.figures
            ),
            pieces=tuple(_mark_piece(piece, names) for piece in section.pieces),
        )
        for section in sections
    )


def mark_facts(facts: Iterable[Fact], names: Sequence[str]) -> tuple[Fact, ...]:
    """Facts with all that differs by size marked, where there are several sizes."""
    return tuple(_mark_fact(fact, names) if len(names) > 1 else fact for fact in facts)


def _mark_names(names: Sequence[str]) -> Markup:
    """`Lap, Throw, Bed`, of which one stays."""
    comma = Markup('<span class="{}">, </span>').format(ALL_ONLY)
    marked = (
        Markup('<span class="{} size-{}">{}</span>').format(ALL_ONLY, at, n) for at, n in enumerate(names, start=1)
    )
    return comma.join(marked)


def mark_all_only(words: str, pattern: re.Pattern[str]) -> str | Markup:
    """Words of which a part is said of several sizes alone."""
    found = pattern.search(words)
    if found is None:
        return words
    part = Markup('<span class="{}">{}</span>').format(ALL_ONLY, found[0])
    return escape(words[: found.start()]) + part + escape(words[found.end() :])


def _mark_fact(fact: Fact, names: Sequence[str]) -> Fact:
    if fact.label == "Sizes" and str(fact.value) == ", ".join(names):
        return Fact("Sizes", _mark_names(names), fact.only)
    lines = _LINE_END.split(str(escape(fact.value)))
    own, others = lines[: len(names)], lines[len(names) :]  # what holds for all sizes stands behind them
    if len(own) == len(names) and all(
        line.startswith(str(escape(f"{n}:"))) for line, n in zip(own, names, strict=True)
    ):
        marked = [f'<span class="{ALL_ONLY} size-{at} line">{line}</span>' for at, line in enumerate(own, start=1)]
        return replace(fact, value=Markup("".join([*marked, "<br>".join(others)])))  # noqa: S704 - HTML before
    return replace(fact, value=_mark_text(fact.value, len(names)))


def _mark_text(text: str | Markup, sizes: int) -> str | Markup:
    marked = mark_numbers(escape(text), sizes)
    return marked if marked != escape(text) else text


def _mark_table(table: Table, names: Sequence[str]) -> Table:
    table = replace(table, caption=mark_all_only(table.caption, _BY_SIZE))
    if table.columns == tuple(names):
        return replace(table, sizes_in="columns")
    if tuple(line.head for line in table.lines) == tuple(names):
        return replace(table, sizes_in="lines")
    return replace(table, lines=tuple(_mark_line(line, names) for line in table.lines))


def _mark_line(line: Line, names: Sequence[str]) -> Line:
    """A line about one size, such as `Throw` or `Throw, Slate` among lines for colours and sizes."""
    found = [at for at, name in enumerate(names) if line.head == name or line.head.startswith(f"{name}, ")]
    return replace(line, only=name_sizes(found, len(names))) if found else line


def _mark_entry(entry: Entry, names: Sequence[str]) -> Entry:
    return replace(entry, text=_mark_text(entry.text, len(names)))


def _mark_piece(piece: Piece, names: Sequence[str]) -> Piece:
    return replace(piece, passages=_mark_passages(piece.passages, names))


def _mark_passages(passages: Iterable[Passage], names: Sequence[str]) -> tuple[Passage, ...]:
    return tuple(
        Passage(None, mark_numbers(passage.prose, len(names))) if passage.prose else passage for passage in passages
    )
