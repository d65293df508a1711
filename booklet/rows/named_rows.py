"""Stitches of a row further down that is named by its number: "dc in next 6 sts of Row 1"."""

import re
from collections.abc import Sequence
from dataclasses import replace

from booklet.model.tree import Aside, Node, Repeat, Work

NAMED = re.compile(r"\b(?:in|of|on|from|into)\s+(?:row|rnd|round)\s+(?P<number>\d{1,4})\s*$", re.IGNORECASE)
MOST_ROWS = 20  # further down nothing is worked over the rows between


def name_depths(steps: Sequence[Node], number: int) -> list[Node]:
    """The steps of row `number`, each stitch in a row named by its number as one so many rows below."""
    deep: list[Node] = []
    for step in steps:
        before = deep[-1] if deep else None
        if isinstance(step, Repeat):
            step = replace(step, steps=tuple(name_depths(step.steps, number)))
        elif isinstance(step, Work) and (depth := _find_depth(step, step.span.text, number)):
            step = replace(step, where=replace(step.where, below=depth))
        elif isinstance(step, Aside) and isinstance(before, Work) and (depth := _find_depth(before, step.text, number)):
            where = replace(before.where, below=depth)
            deep[-1] = replace(before, where=where, span=before.span.to(step.span))
            continue
        deep.append(step)
    return deep


def _find_depth(work: Work, text: str, number: int) -> int:
    """How many rows below the row in hand a stitch goes, by the number its words end with; 0 for one right below."""
    named = NAMED.search(text)
    depth = number - int(named["number"]) if named else 0
    along = work.where.how == "next" and not work.where.below and work.stitch != "sl st"
    return depth if along and 1 < depth <= MOST_ROWS else 0
