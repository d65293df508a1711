"""What kinds of row a pattern has, and how often the repeats in them are worked: what a sample has to keep."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import fields

from booklet.model.parsed import ParsedPattern, Row, Stated
from booklet.model.tree import ANY_STITCH, Aside, Chain, Group, Node, Repeat, Skip, Where, Work, at_size
from booklet.model.work import WorkedPattern, WorkedRow
from booklet.rows.walking import walk_steps

Kind = tuple[object, ...]
# A repeat that is worked once does not look like one.
OFTEN_ENOUGH = 2
NUMBERS = (
    "span",
    "count",
    "times",
    "leave",
    "nth",
    "text",
    "word",
    "length_cm",
    "rows",
    "names",
    "last",
    "lasts",
    "passing",
    "below",
)


def list_kinds(row: Row) -> Kind:
    """The row without its numbers: rounds that differ only in the stitches between increases are one kind."""
    return (row.label.kind, *(_strip(step) for step in row.steps if not isinstance(step, Aside)))


def _strip(value: object) -> object:
    """A node as nested texts; numbers and words of advice left out."""
    if isinstance(value, tuple):
        return tuple(_strip(inner) for inner in value)
    if isinstance(value, Node | Where):
        inner = ((f.name, _strip(getattr(value, f.name))) for f in fields(value) if f.name not in NUMBERS)
        return (type(value).__name__, *inner)
    return "" if isinstance(value, Stated) else value


def gather_rows(worked: WorkedPattern, size: int) -> Mapping[int, list[WorkedRow]]:
    """The worked rows of one size by the start of the line that they come from."""
    lines: dict[int, list[WorkedRow]] = {}
    for part in worked.parts:
        for row in part.rows[size]:
            lines.setdefault(row.span.start, []).append(row)
    return lines


def list_lines(parsed: ParsedPattern) -> Mapping[int, Row]:
    """The rows of the pattern by the start of their line."""
    return {row.span.start: row for part in parsed.parts for row in part.rows}


def kinds_worked(parsed: ParsedPattern, worked: WorkedPattern, size: int) -> set[Kind]:
    """The kinds of which at least one row is worked in this size."""
    made = gather_rows(worked, size)
    return {list_kinds(row) for start, row in list_lines(parsed).items() if made.get(start)}


def count_repeats(parsed: ParsedPattern, worked: WorkedPattern, size: int) -> list[int]:
    """How often each repeat is worked within its row, line by line; 0 where its line is not worked in this size."""
    made = gather_rows(worked, size)
    counts: list[int] = []
    for start, row in list_lines(parsed).items():
        rows = made.get(start, [])
        counts += [_count(repeat, rows[-1], size) if rows else 0 for repeat in list_repeats(row.steps)]
    return counts


def list_repeats(steps: Sequence[Node]) -> Iterator[Repeat]:
    """Every repeat, those within others too."""
    return (step for step in walk_steps(steps) if isinstance(step, Repeat))


def _count(repeat: Repeat, row: WorkedRow, size: int) -> int:
    """As its number says; up to the end of a row, as often as what it passes goes into what the row used."""
    if repeat.until in ("end", "last"):
        places = max(1, _count_places(repeat.steps, size))
        return max(1, row.used // places)
    return at_size(repeat.count, size) + (repeat.until == "more")


def _count_places(steps: Sequence[Node], size: int) -> int:
    """How many places of the row below the steps take up."""
    places = 0
    for step in steps:
        if isinstance(step, Work | Skip) and step.where.how == "next":
            places += at_size(step.where.count, size) * _width(step.where)
        elif isinstance(step, Group) and step.where.how == "next":
            places += _width(step.where)
        elif isinstance(step, Repeat) and step.until not in ("end", "last"):
            places += at_size(step.count, size) * _count_places(step.steps, size)
        elif isinstance(step, Chain):
            continue
    return places


def _width(where: Where) -> int:
    """A chain space of k chains is k places."""
    what = where.what[0] if where.what else ANY_STITCH
    return max(1, what.chains)
