"""The words of what reading can find about tables of sizes."""

from collections.abc import Sequence
from difflib import get_close_matches

from booklet.findings import Finding, error, warning
from booklet.model.size_tables import SizeTable
from booklet.source import Span


def table_unknown(words: str, names: Sequence[str], span: Span) -> Finding:
    close = get_close_matches(words.lower(), names, 1, 0.5)
    return error(
        "unknown-size-table",
        f'no table of sizes is called "{words[:40]}"',
        span,
        expected="one of " + ", ".join(names) + ", and a size in it",
        fix=f'write "{close[0]}"' if close else 'add the table under "size tables:"',
    )


def table_size_unknown(table: SizeTable, words: str, span: Span) -> Finding:
    names = {name.lower(): name for name in table.sizes}
    close = get_close_matches(words.lower(), list(names), 1, 0.5)
    return error(
        "unknown-table-size",
        f'the table "{table.name}" has no size "{words[:40]}"',
        span,
        expected="one of " + ", ".join(table.sizes),
        fix=f'write "from: {table.name} {names[close[0]]}"' if close else "",
    )


def table_unsourced(name: str, lacking: str, span: Span) -> Finding:
    return warning(
        "size-table-unsourced",
        f'the table "{name}" has no {lacking}',
        span,
        expected="who gave the figures out, and when: source and date",
        fix='add "source: ..." and "date: ..." to the table',
    )


def table_unreadable(file: str, reason: str, span: Span) -> Finding:
    return error(
        "size-table-unreadable",
        f'"{file[:40]}" {reason}',
        span,
        expected="a YAML file beside this one with source, date and sizes",
        fix="correct the name, or write the table out here",
    )
