"""A parsed pattern in one of its sizes alone: every number of a tree that differs from size to size, picked."""

from dataclasses import fields, replace
from typing import Any, TypeVar

from booklet.model.pattern import SizedPattern
from booklet.model.tree import Node, ParsedPart, ParsedPattern, Row, Stated, StitchDefinition, Where

PER_SIZE = ("count", "times", "leave", "length_cm")
T = TypeVar("T")


def pick_size(parsed: ParsedPattern, at: int) -> ParsedPattern:
    """The same rows for the size at this place alone; rows for other sizes are left out."""
    pattern = parsed.sized.pattern
    name = pattern.size_names[at].lower()
    numbers = {
        key: replace(
            number,
            values=(number.values[min(at, len(number.values) - 1)],),
            target_cm=number.target_cm[at : at + 1],
            true_cm=number.true_cm[at : at + 1],
        )
        for key, number in parsed.sized.numbers.items()
    }
    parts = tuple(
        replace(
            part,
            rows=tuple(
                _pick(row, at)
                for row in part.rows
                if not row.label.sizes or name in {size.lower() for size in row.label.sizes}
            ),
        )
        for part in parsed.parts
    )
    sizes = pattern.sizes[at : at + 1]
    return replace(
        parsed,
        sized=SizedPattern(replace(pattern, sizes=sizes), numbers),
        parts=parts,
        definitions=tuple(_pick(definition, at) for definition in parsed.definitions),
    )


def _pick(value: T, at: int) -> T:
    picked: Any = value
    if isinstance(value, tuple):
        picked = tuple(_pick(inner, at) for inner in value)
    elif isinstance(value, Stated):
        picked = replace(value, items=tuple((_pick_number(count, at), what) for count, what in value.items))
    elif isinstance(value, Node | Where | Row | ParsedPart | StitchDefinition):
        changes: dict[str, Any] = {field.name: _pick_field(value, field.name, at) for field in fields(value)}
        picked = replace(value, **changes)
    return picked  # type: ignore[no-any-return]


def _pick_field(node: object, name: str, at: int) -> object:
    value = getattr(node, name)
    if name in PER_SIZE and isinstance(value, tuple):
        return _pick_number(value, at)
    return _pick(value, at)


def _pick_number(values: tuple[T, ...], at: int) -> tuple[T, ...]:
    return values[at : at + 1] if len(values) > 1 else values
