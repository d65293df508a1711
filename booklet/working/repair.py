"""Which single number, changed, would make a row work out: the cure that a finding proposes."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, fields, is_dataclass, replace
from typing import Any

from booklet.model.parsed import Row
from booklet.model.tree import Node, Where
from booklet.model.work import Fabric
from booklet.source import Span
from booklet.working.outcome import work_row
from booklet.working.setting import Setting

REACH = 8  # how far from the printed number others are tried
MOST_STITCHES = 16_000  # worked in all trials together: the search must not be felt
FEWEST_STITCHES = 40  # what a trial costs at least


@dataclass(frozen=True, slots=True)
class Repair:
    """The step whose number `old` ought to be `new`."""

    span: Span
    old: int
    new: int


def find_repairs(
    row: Row, steps: Sequence[Node], below: Fabric, turned: bool, size: int, setting: Setting
) -> list[Repair]:
    """Single numbers in the steps that, changed, make the row fit below and count, the nearest first.

    Only plain numbers are tried: a number that differs by size has another cause.
    """
    found: list[Repair] = []
    budget = MOST_STITCHES
    for span, old, new, changed in _changed_rows(tuple(steps)):
        if budget <= 0:
            break
        outcome = work_row(row, changed, below, turned, size, setting)
        budget -= outcome.trials * max(FEWEST_STITCHES, len(below.sites), len(outcome.fabric.sites))
        if not outcome.problems:
            found.append(Repair(span, old, new))
    found.sort(key=lambda repair: abs(repair.new - repair.old))
    return found


def _changed_rows(steps: tuple[Node, ...]) -> Iterator[tuple[Span, int, int, tuple[Node, ...]]]:
    for index, step in enumerate(steps):
        for span, old, new, changed in _changed_nodes(step):
            yield span, old, new, (*steps[:index], changed, *steps[index + 1 :])


def _changed_nodes(node: Any) -> Iterator[tuple[Span, int, int, Any]]:
    """Every copy of a step with one of its numbers changed."""
    for field in fields(node):
        value = getattr(node, field.name)
        if field.name in ("count", "times", "leave") and _is_plain(value):
            for new in _others(value[0]):
                yield getattr(node, "span", None), value[0], new, replace(node, **{field.name: (new,)})  # type: ignore[misc]
        elif isinstance(value, Where):
            for _, old, new, changed in _changed_nodes(value):
                yield node.span, old, new, replace(node, **{field.name: changed})
        elif isinstance(value, tuple) and value and is_dataclass(value[0]) and field.name in ("steps", "instead"):
            for span, old, new, changed in _changed_rows(value):
                yield span, old, new, replace(node, **{field.name: changed})


def _is_plain(value: object) -> bool:
    return isinstance(value, tuple) and len(value) == 1 and isinstance(value[0], int) and value[0] > 0


def _others(number: int) -> Iterator[int]:
    for step in range(1, REACH + 1):
        if number - step > 0:
            yield number - step
        yield number + step
