"""Stitches that earlier rows left unworked, met behind those of the row below: "…, sc in 3 unworked sts of Row 2"."""

from collections.abc import Sequence
from dataclasses import replace

from booklet.model.tree import EarlierRow, Group, Join, Node, Repeat, TakeColour, Work


def go_on_over_rest(steps: Sequence[Node], earlier: EarlierRow) -> list[Node] | None:
    """The steps, where the row works its own stitches first and goes on over those left; None where it does not."""
    if earlier.what != "unworked":
        return None
    inside = range(earlier.span.start, earlier.span.end)
    overlap = (at for at, s in enumerate(steps) if s.span.start < inside.stop and inside.start < s.span.end)
    at = next(overlap, 0)
    named, before = steps[at] if steps else None, steps[:at]
    begins_there = not any(isinstance(step, Work | Group | Repeat) for step in before)
    if not isinstance(named, Work) or begins_there or any(isinstance(step, Join | TakeColour) for step in before):
        return None
    if named.where.how == "each":
        rest = replace(named.where, how="unworked")
    elif named.where.how in ("next", "first", "last"):
        rest = replace(named.where, how="unworked", leave=(1,))
    else:
        return None
    return [*before, replace(named, where=rest), *steps[at + 1 :]]
