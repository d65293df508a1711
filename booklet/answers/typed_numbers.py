"""Numbers typed into the rows that a smaller version may change: chains that pieces begin with, rows worked again.

A typed chain carries typed counts with it. Where one changes, the counts of its piece are taken off, the rows
worked without them, and what they then make is stated instead: a count is never guessed. Where the counts
decided how a row is read, such as whether a turning chain counts, they cannot be taken off, and the piece stays.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from booklet.answers.row_kinds import gather_rows
from booklet.model.parsed import ParsedPart, ParsedPattern, Row, Stated
from booklet.model.tree import Chain, Node, RepeatRows, What
from booklet.model.work import WorkedPattern, WorkedRow

LEAST_CHAIN = 3
COUNTED_ROWS = ("times", "more", "rows")
IN_BRACES = "{"

# Lines by their start, each with the number that is typed there and the one that takes its place.
Changes = dict[int, tuple[int, int]]
COUNT_ALONE = (0, 0)


@dataclass(frozen=True, slots=True)
class Typed:
    """One such number: the step at `step_at` of a row; `label` tells that it is how many rows a label stands for."""

    part: int
    row: int
    step_at: int
    value: int
    least: int
    label: bool = False


def find_typed(parsed: ParsedPattern) -> tuple[Typed, ...]:
    """Chains first, because what is repeated over them follows from how wide they are."""
    found = [typed for at, part in enumerate(parsed.parts) for typed in _list_typed(at, part)]
    return tuple(sorted(found, key=lambda typed: not isinstance(_step(parsed, typed), Chain)))


def _step(parsed: ParsedPattern, typed: Typed) -> Node | None:
    steps = parsed.parts[typed.part].rows[typed.row].steps
    return None if typed.label else steps[typed.step_at]


def _list_typed(part_at: int, part: ParsedPart) -> Iterator[Typed]:
    last_number = max((number for row in part.rows for number in row.label.numbers), default=0)
    for row_at, row in enumerate(part.rows):
        for step_at, step in enumerate(row.steps):
            if IN_BRACES in step.span.text:
                continue
            if isinstance(step, Chain) and row_at == 0 and len(step.count) == 1 and not step.free:
                yield Typed(part_at, row_at, step_at, step.count[0], LEAST_CHAIN)
                break
            if isinstance(step, RepeatRows) and step.until in COUNTED_ROWS and len(step.count) == 1:
                yield Typed(part_at, row_at, step_at, step.count[0], 1)
        numbers = row.label.numbers
        if len(numbers) > 2 and numbers[-1] == last_number and not row.label.every and not row.label.count:
            yield Typed(part_at, row_at, 0, len(numbers), 2, label=True)


def set_typed(parsed: ParsedPattern, typed: Typed, value: int, keeps_counts: bool) -> tuple[ParsedPattern, Changes]:
    """The pattern with the number changed, the counts of its piece kept or taken off; and the lines that change."""
    part = parsed.parts[typed.part]
    rows = list(part.rows) if keeps_counts else [replace(row, stated=None) for row in part.rows]
    changes = {} if keeps_counts else dict.fromkeys((row.span.start for row in rows), COUNT_ALONE)
    changes[rows[typed.row].span.start] = (typed.value, value)
    rows[typed.row] = _set(rows[typed.row], typed, value)
    parts = list(parsed.parts)
    parts[typed.part] = replace(part, rows=tuple(rows))
    return replace(parsed, parts=tuple(parts)), changes


def _set(row: Row, typed: Typed, value: int) -> Row:
    if typed.label:
        return replace(row, label=replace(row.label, numbers=row.label.numbers[:value]))
    steps = list(row.steps)
    steps[typed.step_at] = replace(steps[typed.step_at], count=(value,))  # type: ignore[call-arg]
    return replace(row, steps=tuple(steps))


def state_again(parsed: ParsedPattern, worked: WorkedPattern, changes: Changes) -> ParsedPattern:
    """The pattern with a count for every changed row whose own was taken off: what it made when it was worked."""
    made = gather_rows(worked, 0)
    return replace(
        parsed,
        parts=tuple(
            replace(
                part,
                rows=tuple(_state(row, made) if row.span.start in changes else row for row in part.rows),
            )
            for part in parsed.parts
        ),
    )


def _state(row: Row, made: Mapping[int, Sequence[WorkedRow]]) -> Row:
    rows = made.get(row.span.start, ())
    if row.stated is not None or not rows or not rows[-1].made:
        return row
    return replace(row, stated=Stated((((rows[-1].made,), What("st")),), row.words))
