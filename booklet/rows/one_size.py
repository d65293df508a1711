"""A row's tree with the numbers of one size alone, and nothing of what is worked in other sizes only."""

from collections.abc import Iterator
from dataclasses import fields, replace
from typing import Any

from booklet.model.parsed import Label, Row, Stated
from booklet.model.tree import Chain, ChangeEvenly, Group, Node, PerSize, Repeat, Where, Work, at_size

PER_SIZE = (tuple[int, ...], tuple[float, ...])
"""Types of the fields that hold a number for each size; a row's label has numbers of another kind."""


def is_for_size(label: Label, name: str) -> bool:
    """Is the row worked in the size of that name?"""
    return not label.sizes or name.lower() in {size.lower() for size in label.sizes}


def take_size(row: Row, size: int) -> Row:
    """The row as it is in one size, by its place among the sizes. A step of no stitches there is left out."""
    return replace(
        row,
        label=take_label(row.label, size),
        steps=take_steps(row.steps, size),
        stated=_take_stated(row.stated, size),
    )


def take_label(label: Label, size: int) -> Label:
    """The label with the numbers of one size, and without the names of the sizes it is for."""
    if label.counts:
        label = replace(label, counts=label.counts[size : size + 1], count=label.counts[size])
    if not label.varied and not label.sizes:
        return label
    return replace(label, sizes=(), places=(), numbers=label.numbers_in(size), varied=())


def take_steps(steps: tuple[Node, ...], size: int) -> tuple[Node, ...]:
    """The steps as they are in one size."""
    return tuple(_take(step, size) for step in steps if not _is_left_out(step, size))


def _take(node: Any, size: int) -> Any:
    """A node, or a place, with one value wherever it had one for each size."""
    changed: dict[str, object] = {}
    for field in fields(node):
        value = getattr(node, field.name)
        if field.type in PER_SIZE and len(value) > 1:
            changed[field.name] = (at_size(value, size),)
        elif isinstance(value, Node | Where):
            changed[field.name] = _take(value, size)
        elif isinstance(value, tuple) and value and all(isinstance(inner, Node) for inner in value):
            changed[field.name] = take_steps(value, size)
    return replace(node, **changed) if changed else node


def _take_stated(stated: Stated | None, size: int) -> Stated | None:
    if stated is None:
        return None
    items = tuple((_one(count, size), what) for count, what in stated.items if not _is_zero(count, size))
    return replace(stated, items=items) if items else None


def _one(values: PerSize, size: int) -> PerSize:
    return (at_size(values, size),) if len(values) > 1 else values


def _is_zero(values: PerSize, size: int) -> bool:
    """A dash in the author's list: nothing of it in this size, though in others."""
    return len(values) > 1 and not at_size(values, size)


def _is_left_out(step: Node, size: int) -> bool:
    return any(_is_zero(values, size) for values in _list_counts(step))


def _list_counts(step: Node) -> Iterator[PerSize]:
    """The numbers that say how often the step is worked."""
    if isinstance(step, Chain | ChangeEvenly):
        yield step.count
    elif isinstance(step, Repeat) and step.until in ("times", "open"):
        yield step.count
    elif isinstance(step, Work):
        yield from (step.times, step.where.count)
    elif isinstance(step, Group):
        yield step.where.count
