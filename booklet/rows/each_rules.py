"""Two rules for one round: "sc in each dc around, 3 sc in each ch-2 sp" goes round once, each place by its own rule.

Taken one after the other the first would use up the row, and the second would find nothing left. So what works into
stitches and what works into the spaces between them is put together, in either order; and so are rules for stitches of
different names.
"""

from collections.abc import Sequence
from dataclasses import replace

from booklet.model.places import CORNER_SPACE
from booklet.model.tree import Chain, Group, Node, Skip, What, Where, Work
from booklet.rows.stitches import loosen

SPACES = ("sp", "ch-sp", "corner")


def join_rules(steps: Sequence[Node]) -> list[Node]:
    """The steps, with a rule for all stitches and one for all spaces next to it made one."""
    joined: list[Node] = []
    for step in steps:
        before = joined[-1] if joined else None
        earlier = joined[-2] if len(joined) > 1 else None
        if isinstance(before, Work) and isinstance(step, Work) and _says_how(before, step):
            joined[-1] = step
        elif isinstance(before, Work) and isinstance(step, Work | Group) and _belongs(before, step):
            rules = (replace(step, also=()), *step.also) if isinstance(step, Work) else (step,)
            joined[-1] = replace(before, span=before.span.to(step.span), also=(*before.also, *rules))
        elif isinstance(earlier, Work) and isinstance(before, Chain) and _skips_under(earlier, step):
            over = Work(before.span.to(step.span), "ch", before.count, step.where)  # type: ignore[attr-defined]
            joined[-2:] = [replace(earlier, span=earlier.span.to(step.span), also=(*earlier.also, over))]
        else:
            joined.append(step)
    return _split_at_center(joined)


def _split_at_center(steps: list[Node]) -> list[Node]:
    """ "Sc across, inc 1 st in center st": up to the middle, there by its own rule, and on to the end"""
    if len(steps) < 2:
        return steps
    across, center = steps[-2:]
    if not (isinstance(across, Work) and isinstance(center, Work) and center.where.how == "center"):
        return steps
    if not _is_all_of_it(across.where) or across.also:
        return steps
    first = replace(across, where=replace(across.where, how="up to", leave_what=What("center")))
    return [*steps[:-2], first, center, across]


def _skips_under(before: Work, step: Node) -> bool:
    """ "Sc in each sc, ch 1 and sk each dc": are stitches of another kind passed over, with chains above them?"""
    if not isinstance(step, Skip) or step.where.how != "each" or any(step.where.leave):
        return False
    return _is_all_of_it(before.where) and _are_named_apart(before.where, step.where)


def _are_named_apart(first: Where, second: Where) -> bool:
    """Does each name stitches of its own, so that every stitch of the row is the one's or the other's?"""
    kinds, others = ({what.kind for what in where.what} for where in (first, second))
    return not kinds & others and not (kinds | others) & {*SPACES, "st", "tch", "ring", "row end"}


def _is_all_of_it(where: Where) -> bool:
    return where.how == "each" and not any(where.leave) and not where.passing


def _says_how(before: Work, step: Work) -> bool:
    """ "Sc around, working 1 sc in each dc and 3 sc in each ch-2 sp": does the second say how the first is done?"""
    is_whole = _is_all_of_it(before.where) and before.where.what == (What("st"),) and not before.also
    return is_whole and _is_all_of_it(step.where) and bool(step.also) and before.stitch == step.stitch


def _are_spaces_apart(before: Work, step: Work | Group) -> bool:
    """ "Sc in each dc and ch-1 sp, 3 sc in each ch-2 sp": does the second name spaces of another length?"""
    rules = (before, *(rule for rule in before.also if isinstance(rule, Work | Group)))
    named = [what for rule in rules for what in rule.where.what if what.kind in SPACES]
    long = {what.chains for what in named if what.kind == "ch-sp"}
    others = {what.chains for what in step.where.what if what.kind == "ch-sp"}
    whole = len(named) == sum(what.kind == "ch-sp" for what in named) and len(others) == len(step.where.what)
    return whole and all(chains > 0 for chains in long | others) and not long & others


def _is_in_spaces(rule: Node) -> bool:
    return isinstance(rule, Work | Group) and all(what.kind in SPACES for what in rule.where.what)


def _belongs(before: Work, step: Work | Group) -> bool:
    kinds, others = ({what.kind for what in work.where.what} for work in (before, step))
    if not _is_all_of_it(before.where) or any(kind.startswith("row end") for kind in kinds | others):
        return False
    if "ch" in kinds | others:  # "sc in each sc around, sc in each ch around"
        whole = isinstance(step, Work) and _is_all_of_it(step.where) and not step.also
        return whole and _are_named_apart(before.where, step.where)
    if others == {"marked"}:
        return step.where.how == "each" and not (isinstance(step, Work) and step.also)
    at_corners = all(what in (What("corner"), CORNER_SPACE) for what in step.where.what) and "corner" not in kinds
    apart = _are_spaces_apart(before, step)
    in_spaces = bool(others & set(SPACES)) and (at_corners or not kinds & set(SPACES) or apart)
    if isinstance(step, Group):
        return _is_all_of_it(step.where) and in_spaces
    if any(step.where.leave) or (step.also and not (in_spaces and all(_is_in_spaces(rule) for rule in step.also))):
        return False
    if step.where.how == "next":  # "sc in each sc and 2 sc in ch-2 sp"
        one = step.where.count == (1,) and not step.where.bare
        return one and others <= {"sp", "ch-sp"} and not kinds & set(SPACES)
    if step.where.how != "each":
        return False
    one_kind = bool(kinds & set(SPACES)) != bool(others & set(SPACES))  # one rule for stitches, one for spaces
    return in_spaces or one_kind or _are_named_apart(before.where, step.where)


def group_in_space(steps: list[Node]) -> None:
    """ "3 dc, ch 2, 3 dc in next sp", as granny squares are often told: the two alike are one group in that space."""
    if len(steps) < 3:
        return
    first, chain, last = steps[-3:]
    if not (isinstance(first, Work) and isinstance(chain, Chain) and isinstance(last, Work)):
        return
    in_space = last.where.what[0].kind in ("sp", "ch-sp", "corner") and last.where.how in ("next", "each")
    alike = first.where.bare and first.stitch == last.stitch and first.where.count == last.times
    if in_space and alike and first.times == (1,) and last.where.count == (1,):
        within = loosen(first)
        steps[-3:] = [Group(first.span.to(last.span), (within, chain, replace(within, span=last.span)), last.where)]
