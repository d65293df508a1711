"""What the steps ahead say, before they are worked."""

import re
from collections.abc import Sequence
from dataclasses import replace

from booklet.model.tree import (
    Chain,
    ChangeEvenly,
    Group,
    Join,
    Leave,
    Node,
    Repeat,
    Skip,
    TakeColour,
    Where,
    Work,
    at_size,
)
from booklet.rows.row import list_works
from booklet.working.kinds import height_of, kind_of

AT_BASE = re.compile(r"\bbase\s+of\b|\b(?:first|1st)\s+ch(?:ain)?\s+(?:st(?:itch)?\s+)?of\b", re.IGNORECASE)


def closes_at_base(step: Node) -> bool:
    """ "Sl st at base of first ch-5", "in first ch of beg ch-5": is a round closed below its first chain?"""
    closes = isinstance(step, Join) or (isinstance(step, Work) and step.stitch == "sl st")
    return closes and AT_BASE.search(step.span.text) is not None


def ends_on_top(steps: Sequence[Node]) -> bool:
    """Does the next stitch go into the top of the turning chain, or does that stay unworked?"""
    following = next((step for step in steps if isinstance(step, Work | Group | Repeat | Skip | Leave)), None)
    if isinstance(following, Leave):
        return following.what.kind == "tch"
    return isinstance(following, Work) and following.where.how == "top"


def close_last_loop(steps: list[Node]) -> list[Node]:
    """The steps with "ch 2, dc in first sc" at the end as what they are after ch-5 loops: the last of these, closed.

    The stitch stands for about as many chains as it is high: "ch 3, dc in first sc" closes a ch-5 loop as well.
    """
    stitch = steps[-1] if steps else None
    at = next((at for at in range(len(steps) - 2, -1, -1) if not isinstance(steps[at], Skip)), -1)
    chain = steps[at] if at >= 0 else None
    if not isinstance(stitch, Work) or not isinstance(chain, Chain) or stitch.where.how != "first":
        return steps
    bodies = [step.steps for step in steps if isinstance(step, Repeat)]
    loops = [step.count for body in bodies for step in body if isinstance(step, Chain) and min(step.count) > 2]
    height = height_of(stitch.stitch)
    whole = tuple(count + height for count in chain.count)
    meant = next((loop for loop in [whole, *loops] if loop in loops and _are_near(loop, whole)), None)
    if meant is None or height < 2 or stitch.times != (1,):
        return steps
    return [
        *steps[:at],
        replace(chain, count=meant),
        *steps[at + 1 : -1],
        Join(stitch.span, stitch.where, stitch.stitch),
    ]


def _are_near(loop: tuple[int, ...], whole: tuple[int, ...]) -> bool:
    """Chains that differ by one at most, in every size."""
    return len(loop) == len(whole) and all(abs(a - b) < 2 for a, b in zip(loop, whole, strict=True))


def find_kept(where: Where, steps: Sequence[Node]) -> Where | None:
    """The last places of the row, where what follows stitches in each to the end works, skips or leaves them.

    "To last 5 sts, turn, leaving last 6 sts unworked" names its end twice, and the first is the one that is worked.
    """
    if where.how != "each":
        return None
    following = next((step for step in steps if isinstance(step, Work | Group | Repeat | Skip | Leave)), None)
    if isinstance(following, Work | Group | Skip) and following.where.how == "last":
        return following.where
    if isinstance(following, Leave) and following.count and not any(where.leave):
        return Where("last", following.count)  # "sc across leaving last 2 sts unworked"
    return None


def list_stitches(steps: Sequence[Node]) -> list[Work]:
    """The stitches among the steps, slip stitches left out."""
    return [work for work in list_works(steps) if work.stitch != "sl st"]


def strip_beginning(name: str) -> str:
    """ "cl" of "beg cl" and "beginning-cl": the first of a round, begun with chains"""
    name = name.lower()
    for word in ("beginning", "beg", "starting", "first"):
        if name.startswith((f"{word} ", f"{word}-")):
            return name[len(word) + 1 :]
    return name


def begins_as(name: str, steps: Sequence[Node]) -> tuple[str, int] | None:
    """The stitch that the chain of a "beginning shell" stands for, and its height; "" where it is part of a cluster."""
    works = list_stitches(steps)
    if strip_beginning(name) == name.lower() or not works or not isinstance(steps[0], Chain):
        return None
    kind = kind_of(works[0].stitch)
    return (kind.base if kind.uses == 1 else ""), height_of(kind.base)


def list_form(steps: Sequence[Node]) -> tuple[str, ...]:
    """The stitches of a group in order, "ch" for each run of chains: `(dc, ch 1, dc)` is dc, ch, dc."""
    form: list[str] = []
    for step in steps:
        if isinstance(step, Chain):
            form.append("ch")
        elif isinstance(step, Work) and step.stitch != "sl st":
            form.extend([step.stitch] * at_size(step.times, 0))
        elif isinstance(step, Group):
            form.extend(list_form(step.steps))
        elif isinstance(step, Repeat):
            form.extend(list_form(step.steps) * at_size(step.count, 0))
    return tuple(form)


def is_one_place(step: Work, stitch: str) -> bool:
    """ "Dc3tog in next ch-2 sp", "dc3tog in next st", "dc2tog in same st": a cluster in one place, not over several"""
    where, kind = step.where, kind_of(stitch)
    if where.over or where.bare or where.count != (1,):
        return False
    if where.how == "ring":
        return True
    if where.how == "same":
        behind = step.span.file.text[step.span.end : step.span.end + 12].lower()
        return kind.base != "sc" and " over " not in step.span.text.lower() and " and " not in behind
    if where.how in ("next", "each") and where.what[0].kind in ("sp", "ch-sp"):
        return True
    return where.how == "next" and kind.uses > 2 and kind.base != "sc"


def spreads(steps: Sequence[Node]) -> bool:
    """Does an increase or decrease spread over the row follow?"""
    return bool(steps) and isinstance(steps[0], ChangeEvenly)


def without_late_change(steps: tuple[Node, ...]) -> tuple[Node, ...]:
    """The steps of a range before its last row: a change of colour in the last stitch is for the last row alone.

    A range that takes up more than one colour in each row changes in each row.
    """
    taken = [step for step in steps if isinstance(step, TakeColour)]
    if len(taken) != 1 or not taken[0].late:
        return steps
    return tuple(step for step in steps if step is not taken[0])


def mirror_steps(steps: Sequence[Node]) -> list[Node]:
    """The steps before the middle stitch, from the last back to the first, without the chain at the start.

    Chains over skipped stitches stay before these, as a maker works them.
    """
    first = next((at for at, step in enumerate(steps) if isinstance(step, Work | Group | Repeat | Skip)), len(steps))
    body = list(steps[first:-1])[::-1]
    for at in range(len(body) - 1):
        if isinstance(body[at], Skip) and isinstance(body[at + 1], Chain):
            body[at], body[at + 1] = body[at + 1], body[at]
    return body


def count_deeper(step: Work) -> int:
    """So many rows further down than usual: "2 rows below" the row in hand lies one row deeper than any stitch.

    A spike or a long stitch that does not say how deep it goes is one row deeper.
    """
    return max(1, step.where.below - 1) if step.where.below or step.long else 0
