"""The loop that a round begins in: "start with magic loop, 11 dc into loop"."""

import re
from collections.abc import Sequence
from dataclasses import replace

from booklet.model.tree import Group, Node, Repeat, What, Where, Work

MAGIC = re.compile(r"\b(?:magic|adjustable|sliding|slip)\s+loop\b", re.IGNORECASE)
IN_LOOP = re.compile(r"\b(?:in|into|inside|through)\s+(?:the\s+|this\s+)?(?:magic\s+)?loop\s*$", re.IGNORECASE)
RING = Where("ring", what=(What("ring"),))


def settle_loop(steps: Sequence[Node], text: str) -> list[Node]:
    """The steps of a row that begins with a magic loop: what goes "into loop" goes into that."""
    return [_settle(step) for step in steps] if MAGIC.search(text) else list(steps)


def _settle(step: Node) -> Node:
    if isinstance(step, Repeat):
        return replace(step, steps=tuple(_settle(inner) for inner in step.steps))
    is_placed = isinstance(step, Work | Group) and step.where.what[0] == What("sp") and step.where.how == "next"
    if isinstance(step, Work | Group) and is_placed and IN_LOOP.search(step.span.text):
        return replace(step, where=replace(RING, count=step.where.count))
    return step
