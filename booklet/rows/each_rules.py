"""Two rules for one round: "sc in each dc around, 3 sc in each ch-2 sp" goes round once, each place by its own rule.

Taken one after the other the first would use up the row, and the second would find nothing left. So what works into
stitches and what works into the spaces between them is put together, in either order.
"""

from collections.abc import Sequence
from dataclasses import replace

from booklet.model.tree import Node, Work

SPACES = ("sp", "ch-sp", "corner")


def join_rules(steps: Sequence[Node]) -> list[Node]:
    """The steps, with a rule for all stitches and one for all spaces next to it made one."""
    joined: list[Node] = []
    for step in steps:
        before = joined[-1] if joined else None
        if isinstance(before, Work) and isinstance(step, Work) and _belongs(before, step):
            joined[-1] = replace(before, span=before.span.to(step.span), also=(*before.also, step))
        else:
            joined.append(step)
    return joined


def _belongs(before: Work, step: Work) -> bool:
    kinds, others = ({what.kind for what in work.where.what} for work in (before, step))
    if any(kind.startswith("row end") or kind == "ch" for kind in kinds | others):
        return False
    all_of_it = before.where.how == "each" and not any(before.where.leave) and not before.where.passing
    if not all_of_it or step.where.how not in ("each", "next") or any(step.where.leave) or step.also:
        return False
    if step.where.how == "next":  # "sc in each sc and 2 sc in ch-2 sp"
        one = step.where.count == (1,) and not step.where.bare
        return one and others <= {"sp", "ch-sp"} and not kinds & set(SPACES)
    return bool(kinds & set(SPACES)) != bool(others & set(SPACES))
