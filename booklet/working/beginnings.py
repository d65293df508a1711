"""How the words of a row begin: what stands before its opening chain, the chain, what comes first behind it."""

from collections.abc import Sequence
from dataclasses import dataclass, field, replace

from booklet.model.parsed import ChainRule
from booklet.model.places import CORNER_SPACE
from booklet.model.tree import (
    Aside,
    Chain,
    Group,
    Join,
    KeepColours,
    Loops,
    Node,
    Repeat,
    Ring,
    Skip,
    SkippedCount,
    TakeColour,
    Turn,
    Unread,
    What,
    Where,
    Work,
)
from booklet.rows.row import list_works
from booklet.rows.walking import walk_steps
from booklet.working.kinds import kind_of

SPACES = ("sp", "ch-sp", "corner")
CORNERS = (What("corner"), CORNER_SPACE)
QUIET = (Aside, TakeColour, Turn, KeepColours, Loops, Unread, SkippedCount, Join, Ring)


@dataclass(slots=True)
class Opening:
    """The steps of a row taken apart: what comes before its opening chain, the chain, the rest."""

    before: list[Node] = field(default_factory=list)
    chain: Chain | None = None
    rest: list[Node] = field(default_factory=list)


def split_opening(steps: Sequence[Node]) -> Opening:
    """opening = (quiet step | travelling slip stitch)* chain"""
    opening = Opening()
    for index, step in enumerate(steps):
        if isinstance(step, Group) and (taken := _take_from_group(step)):
            return Opening([*opening.before, *taken[0]], taken[1], [taken[2], *steps[index + 1 :]])
        if isinstance(step, Chain):
            opening.chain = step
            opening.before = [_go_straight(slip) for slip in opening.before]
            opening.rest = _group_beside(opening.before, _stay_in_corner(opening.before, steps[index + 1 :]))
            return opening
        if isinstance(step, QUIET) or (isinstance(step, Work) and step.stitch == "sl st" and step.where.how != "each"):
            opening.before.append(step)
            continue
        break
    return Opening([], None, list(steps))


def _go_straight(step: Node) -> Node:
    """ "Sl st across to corner sp, ch 3": however many slip stitches it takes, the row begins in that space."""
    if not isinstance(step, Work) or step.where.how != "up to" or step.where.leave_what.kind not in SPACES:
        return step
    return replace(step, where=Where("next", what=(step.where.leave_what,)))


def _group_beside(before: Sequence[Node], rest: list[Node]) -> list[Node]:
    """ "Sl st to corner sp; ch 3, 2 dc, ch 2, 3 dc in same sp": the 2 dc beside the chain are in that space as well."""
    slips = [step for step in before if isinstance(step, Work)]
    is_there = bool(slips) and (slips[-1].also or slips)[-1].where.what[0].kind in SPACES
    placed = [at for at, step in enumerate(rest) if not isinstance(step, QUIET)][:3]
    first, chain, last = [rest[at] for at in placed] if len(placed) == 3 else (None, None, None)
    if not is_there or not isinstance(first, Work) or not isinstance(chain, Chain) or not isinstance(last, Work):
        return rest
    same = last.where.how == "same" and last.where.what[0].kind in SPACES and first.stitch == last.stitch
    if not same or not first.where.bare or first.times != (1,):
        return rest
    at = placed[0]
    return [*rest[:at], replace(first, times=first.where.count, where=last.where), *rest[at + 1 :]]


def _stay_in_corner(before: Sequence[Node], rest: Sequence[Node]) -> list[Node]:
    """ "Sl st in corner sp, ch 3, 2 dc in corner sp": the chain has just come to that corner, and it is the same."""
    slips = [step for step in before if isinstance(step, Work)]
    is_there = bool(slips) and (slips[-1].also or slips)[-1].where.what[0] in CORNERS
    at = next((at for at, step in enumerate(rest) if not isinstance(step, QUIET)), None)
    first = rest[at] if at is not None else None
    if at is None or not is_there or not isinstance(first, Work | Group):
        return list(rest)
    if first.where.how != "next" or first.where.what[0] not in CORNERS:
        return list(rest)
    return [*rest[:at], replace(first, where=replace(first.where, how="same")), *rest[at + 1 :]]


def _take_from_group(group: Group) -> tuple[list[Node], Chain, Group] | None:
    """The opening chain within brackets, "(ch 3, 2 dc, ch 2, 3 dc) in same sp": what is before it, the chain, the rest.

    A petal, "(ch 3, 2 dc, ch 3, sl st) in next sp", has none: its chain stands for no stitch.
    """
    steps = list(group.steps)
    slip = steps[0] if steps and isinstance(steps[0], Work) and steps[0].stitch == "sl st" else None
    rest = steps[1:] if slip else steps
    in_space = group.where.what[0].kind in ("sp", "ch-sp", "corner", "ring")
    if not in_space or len(rest) < 2 or group.where.count != (1,):
        return None
    chain, follows, last = rest[0], rest[1], rest[-1]
    if not isinstance(chain, Chain) or min(chain.count) < 2 or group.where.how not in ("next", "same", "join", "ring"):
        return None
    is_petal = isinstance(last, Work) and last.stitch == "sl st"
    if not isinstance(follows, Work) or follows.stitch in ("sc", "sl st") or is_petal:
        return None
    before: list[Node] = [replace(slip, where=group.where)] if slip else []
    where = group.where if group.where.how == "ring" else replace(group.where, how="same")
    return before, chain, replace(group, steps=tuple(rest[1:]), where=where)


def first_work(steps: Sequence[Node]) -> Work | None:
    """The first stitch that the steps work, inside repeats and groups too."""
    return next((work for work in list_works(steps) if work.stitch not in ("sl st", "inc", "dec", "inv dec")), None)


def first_placed(steps: Sequence[Node]) -> Work | Group | Skip | None:
    """The first step that goes somewhere."""
    for step in steps:
        if isinstance(step, Work | Group | Skip):
            return step
        if isinstance(step, Repeat):
            return first_placed(step.steps)
    return None


def is_ring(steps: Sequence[Node]) -> bool:
    """Does the row start a ring: a magic ring, or stitches worked into "ring"?"""
    return any(
        isinstance(step, Ring) or (isinstance(step, Work | Group) and step.where.how == "ring")
        for step in walk_steps(steps)
    )


def rule_for(rules: Sequence[ChainRule], chains: int, stitch: str) -> ChainRule | None:
    """The pattern's own rule for a chain of this height before this stitch; the most exact one."""
    fitting = [rule for rule in rules if rule.chains in (0, chains) and rule.when in ("", stitch, kind_of(stitch).base)]
    fitting.sort(key=lambda rule: (rule.chains == 0, rule.when == ""))
    return fitting[0] if fitting else None


def first_chain(steps: Sequence[Node]) -> Chain | None:
    """The first chain that the steps make, inside repeats too."""
    for step in steps:
        if isinstance(step, Chain):
            return step
        if isinstance(step, Repeat) and (found := first_chain(step.steps)):
            return found
    return None
