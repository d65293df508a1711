"""A row's steps one after the other, however deep they stand in repeats and groups."""

from collections.abc import Iterator, Sequence
from itertools import pairwise

from booklet.model.tree import Aside, Group, Node, Repeat, Work


def walk_steps(steps: Sequence[Node]) -> Iterator[Node]:
    """Every step, each repeat and group before what it holds; then what its last time round is given."""
    for step in steps:
        yield step
        if isinstance(step, Repeat | Group):
            yield from walk_steps(step.steps)
        if isinstance(step, Repeat):
            yield from walk_steps(step.instead)


def list_remarked(steps: Sequence[Node]) -> Iterator[tuple[Work | Group, Aside]]:
    """Each stitch or group with the remark right behind it, inside repeats too."""
    for step, after in pairwise(steps):
        if isinstance(step, Work | Group) and isinstance(after, Aside):
            yield step, after
    for step in steps:
        if isinstance(step, Repeat):
            yield from list_remarked(step.steps)
