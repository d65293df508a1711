"""What a step just read makes of those before it."""

from dataclasses import replace

from booklet.model.tree import Node, Repeat, Skip, SkippedCount, Work
from booklet.rows.each_rules import group_in_space
from booklet.rows.stream import Stream


def settle_last(stream: Stream, steps: list[Node], before: int) -> None:
    """What the step just read makes of those before it.

    "Miss 3, 1 tr in the 4th": the 4th is the next. "1 sc - 1 inc x 6": the dash makes one repeat of both.
    """
    group_in_space(steps)
    if len(steps) < 2:
        return
    last, earlier = steps[-1], steps[-2]
    for at in range(-1, max(-3, -len(steps)), -1):
        _settle_ordinal(steps, at)  # of "dc in 2nd dc and in each dc" the one before the last
    last = steps[-1]
    begins = stream.tokens[before].is_word("from", "beg")
    if isinstance(last, Skip) and isinstance(earlier, Work) and begins and earlier.where.bare:
        steps[-2:] = [last, earlier]  # "8 sc starting from 2nd ch from hook"
        return
    dashed = before > 0 and stream.tokens[before - 1].is_mark("-")
    if dashed and isinstance(last, Repeat) and not last.mark and isinstance(earlier, Work):
        steps[-2:] = [replace(last, steps=(earlier, *last.steps))]


def _settle_ordinal(steps: list[Node], at: int) -> None:
    """The step's ordinal, where it counts from what was skipped right before it, is the next place."""
    step, earlier = steps[at], steps[at - 1]
    if isinstance(earlier, SkippedCount) and len(steps) > 1 - at:
        earlier = steps[at - 2]  # "Miss 3 (count as 1 tr), 1 tr in the 4th"
    counted = isinstance(step, Work) and step.where.how == "nth" and not step.where.from_hook
    if counted and isinstance(step, Work) and isinstance(earlier, Skip):
        if earlier.where.count == (step.where.nth - 1,):
            steps[at] = replace(step, where=replace(step.where, how="next", nth=0))
