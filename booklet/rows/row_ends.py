"""Shaping at the ends of one row, told beside its stitches: "sc in each st, dec 1 st at each end"."""

import re
from collections.abc import Sequence
from dataclasses import replace

from booklet.model.tree import ANY_STITCH, Chain, Node, Where, Work
from booklet.source import Span

AT_ENDS = re.compile(
    r"(?:^|[,;])\s*(?:and\s+|then\s+)?(?P<act>inc|dec)\w*\s+(?:1|one)\s+(?:sts?|stitch|sc)\s+(?:at\s+|on\s+)?(?:the\s+)?"
    r"(?P<ends>each\s+end|both\s+ends|beg\w*|start|end)(?:\s+of\s+(?:the\s+|this\s+)?row)?\s*(?=[,;.(\[]|$)",
    re.IGNORECASE,
)
HIGHEST = 1  # chains at the start of a row that stand for no stitch: above them it is open beside which one is shaped


def shape_ends(steps: Sequence[Node], body: Span) -> list[Node] | None:
    """The steps with one stitch more, or one less, at the ends that the words name; None where they name none.

    Of single crochet alone: a taller row begins with a chain, and whether it is shaped before that stitch or behind it
    is not said.
    """
    told = AT_ENDS.search(body.text)
    if told is None or AT_ENDS.search(body.text, told.end()):
        return None
    clause = body.sub(told.start(), told.end())
    kept = [step for step in steps if step.span.end <= clause.start or clause.end <= step.span.start]
    works = [step for step in kept if isinstance(step, Work)]
    chains = max((step.count[0] for step in kept if isinstance(step, Chain)), default=0)
    if len(works) != 1 or not _goes_all_across(works[0]) or chains > HIGHEST:
        return None
    shaped = _shape(works[0], told["act"].lower() == "inc", told["ends"].lower())
    at = next(at for at, step in enumerate(kept) if step is works[0])
    return [*kept[:at], *shaped, *kept[at + 1 :]]


def _goes_all_across(work: Work) -> bool:
    plain = work.stitch == "sc" and work.times == (1,) and not work.also
    return plain and work.where.how == "each" and not any(work.where.leave) and not work.where.loops


def _shape(work: Work, adds: bool, ends: str) -> list[Node]:
    """The stitches of the row with those at its ends."""
    first = not ends.startswith("end")
    last = ends.startswith(("each", "both", "end"))
    if adds:
        before = replace(work, times=(2,), where=Where("first"))
        behind = replace(work, times=(2,), where=Where("last"))
    else:
        before = behind = replace(work, stitch=f"{work.stitch}2tog", where=Where("next", bare=True))
    leave = (1,) if adds else (2,)
    across = replace(work, where=replace(work.where, leave=leave, leave_what=ANY_STITCH)) if last else work
    return [*([before] if first else []), across, *([behind] if last else [])]
