"""Which measures of the tables of sizes a pattern uses, and which of them nobody has checked."""

import re
from collections.abc import Iterator

from booklet.findings import Finding
from booklet.model.pattern import Pattern
from booklet.model.size_tables import MEMORY
from booklet.sizing import messages


def list_used(pattern: Pattern) -> tuple[str, ...]:
    """The names of measures that the sizes give themselves or that a number is worked out from."""
    names = dict.fromkeys(name for size in pattern.sizes for name in size.measures)
    return tuple(
        name
        for name in names
        if any(name in size.measures and name not in size.borrowed for size in pattern.sizes)
        or any(calls_measure(rule.measure, name, tuple(names)) for rule in pattern.numbers)
    )


def list_borrowed(pattern: Pattern) -> tuple[str, ...]:
    """The measures that come from a table in every size that has them, of those the pattern uses."""
    return tuple(
        name
        for name in list_used(pattern)
        if all(name in size.borrowed for size in pattern.sizes if name in size.measures)
    )


def list_unused(pattern: Pattern) -> tuple[str, ...]:
    """The measures that came with a table and that nothing in the pattern is worked out from."""
    used = list_used(pattern)
    return tuple(dict.fromkeys(name for size in pattern.sizes for name in size.measures if name not in used))


def calls_measure(formula: str, name: str, names: tuple[str, ...] = ()) -> bool:
    """Whether a formula over measures calls one; "waist" is not called by "back waist length"."""
    for longer in sorted(names, key=len, reverse=True):
        if longer != name and name in longer:
            formula = formula.replace(longer, " ")
    return re.search(rf"(?<!\w){re.escape(name)}(?!\w)", formula) is not None


def find_unchecked(pattern: Pattern) -> Iterator[Finding]:
    """A warning for each measure used whose figures were not seen in their source."""
    for name in list_used(pattern):
        sizes = [size for size in pattern.sizes if name in size.borrowed and size.borrowed[name].trust == MEMORY]
        if sizes:
            figure = sizes[0].borrowed[name]
            yield messages.table_from_memory(name, sizes[0].table, figure, sizes)
