"""A row's steps one after the other, however deep they stand in repeats and groups."""

from collections.abc import Iterator, Sequence

from booklet.model.tree import Group, Node, Repeat


def walk_steps(steps: Sequence[Node]) -> Iterator[Node]:
    """Every step, each repeat and group before what it holds; then what its last time round is given."""
    for step in steps:
        yield step
        if isinstance(step, Repeat | Group):
            yield from walk_steps(step.steps)
        if isinstance(step, Repeat):
            yield from walk_steps(step.instead)
