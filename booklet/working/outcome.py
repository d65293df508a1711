"""One row over one row below: worked under the readings it allows, the best of them kept."""

from collections.abc import Sequence
from dataclasses import replace

from booklet.model.parsed import Row
from booklet.model.tree import (
    Chain,
    FastenOff,
    Group,
    Join,
    Node,
    Repeat,
    Ring,
    SkippedCount,
    TakeColour,
    Turn,
    Work,
    at_size,
)
from booklet.model.work import Fabric
from booklet.rows.sections import closes_chain
from booklet.rows.walking import walk_steps
from booklet.working.beginnings import Opening, first_placed, first_work, is_ring, split_opening
from booklet.working.choices import Choices, other_readings
from booklet.working.counting import check_stated
from booklet.working.looking import close_last_loop, list_stitches
from booklet.working.making import EMPTY, RING, foundation_fabric
from booklet.working.once import is_foundation, work_once
from booklet.working.opening import default_choices, without_articles
from booklet.working.setting import Outcome, Setting

PLAIN = ("sc", "hdc", "dc", "tr", "dtr")  # a count by such a name holds no slip stitches


def work_row(row: Row, steps: Sequence[Node], below: Fabric, turned: bool, size: int, setting: Setting) -> Outcome:
    """The row under the first reading that agrees with all that is known, or else under the likeliest."""
    steps = close_last_loop(without_articles(steps))
    if below is EMPTY or not below.sites:
        foundation = _work_foundation(row, steps, size, setting)
        if foundation is not None:
            return foundation
    if is_foundation(below) and is_ring(steps) and _works_into_chain(steps):
        steps = tuple(step for step in steps if not isinstance(step, Ring | Join) or step is steps[-1])
        turned = False  # "Join to form a ring; sc in each ch around": into the chain, not into the ring
    elif is_foundation(below) and is_ring(steps):
        return _best_ring(row, split_opening(steps), size, setting)
    opening = split_opening(steps)
    preferred = default_choices(opening, size, dict(setting.turning), setting.preferred)
    first = work_once(row, opening, below, turned, size, setting, preferred)
    if is_foundation(below) and row.label.kind == "round" and first.problems and first.problems[0].kind == "too-few":
        ring = _best_ring(row, opening, size, setting)
        if not ring.problems and row.stated is not None:
            return ring  # "Ch 4, join. Rnd 1: Ch 3, 11 dc": into the ring, as their number says
    first = _without_travel(row, opening, first, turned)
    if not first.open_points:
        return first
    if not first.problems:
        return first if row.stated else replace(first, asks=_asks(row, opening, below, turned, size, setting, first))
    trials = 1
    for choices in other_readings(preferred, first.open_points):
        other = work_once(row, opening, below, turned, size, setting, choices)
        trials += 1
        if not other.problems:
            changed = frozenset(
                name for name in first.open_points if getattr(choices, name) != getattr(preferred, name)
            )
            return replace(other, settled=changed, trials=trials, usual=first)
    return replace(first, trials=trials)


def _without_travel(row: Row, opening: Opening, first: Outcome, turned: bool) -> Outcome:
    """The outcome, with the slip stitches at the start no open point where they cannot be stitches of the row.

    A count by names has none of them in it, and a round that begins with a chain begins behind them.
    """
    named = row.stated is not None and all(what.kind in PLAIN for _, what in row.stated.items)
    is_round = not turned and row.label.kind != "row"
    if "travel" in first.open_points and (named or (is_round and opening.chain is not None)):
        return replace(first, open_points=first.open_points - {"travel"})
    return first


def fits(
    row: Row, steps: Sequence[Node], below: Fabric, turned: bool, size: int, setting: Setting, choices: Choices
) -> bool:
    """Does the row come out under this one reading? A row that makes its own foundation is taken to."""
    if below is EMPTY or not below.sites:
        return True
    steps = without_articles(steps)
    if is_foundation(below) and is_ring(steps):
        below, turned = RING, False
    return not work_once(row, split_opening(steps), below, turned, size, setting, choices).problems


def _works_into_chain(steps: Sequence[Node]) -> bool:
    """Does the first stitch go into a chain of the foundation?"""
    first = next((work for work in list_stitches(steps) if work.stitch != "sl st"), None)
    return first is not None and first.where.how in ("each", "next", "first") and first.where.what[0].kind == "ch"


def _asks(
    row: Row, opening: Opening, below: Fabric, turned: bool, size: int, setting: Setting, first: Outcome
) -> frozenset[str]:
    """Open points where another reading works out just as well and gives another count."""
    asks: set[str] = set()
    known = {point for point, _ in setting.turning} | setting.decided
    doubtful = first.open_points & {"turning", "skipped", "more"} - setting.decided
    if first.turning_chain < 2 or first.turning_chain in known:
        doubtful -= {"turning"}
    for choices in other_readings(first.choices, doubtful):
        if choices.turning == "chains":
            continue
        other = work_once(row, opening, below, turned, size, setting, choices)
        if not other.problems and other.fabric.made != first.fabric.made:
            asks.update(name for name in first.open_points if getattr(choices, name) != getattr(first.choices, name))
    return frozenset(asks)


def _work_foundation(row: Row, steps: Sequence[Node], size: int, setting: Setting) -> Outcome | None:
    """The foundation: a chain in one or several colours, a ring, or foundation stitches, perhaps with a first row."""
    chains: list[tuple[str, int]] = []
    said: list[SkippedCount] = []
    colour = setting.colour
    rest = list(steps)
    while rest and isinstance(rest[0], Chain | TakeColour | Turn):
        step = rest.pop(0)
        if isinstance(step, TakeColour):
            colour = step.letter
        elif isinstance(step, Chain):
            chains.append((colour, at_size(step.count, size)))
            if step.counts is not None:  # "ch 3 (counts as dc), 11 dc in 3rd ch from hook"
                said = [SkippedCount(step.span, step.counts, step.stands_for, step.then)]
    placed = first_placed(rest[:1])
    if chains and isinstance(placed, Work | Group) and placed.where.from_hook:
        rest = [*_place_said(said, rest, sum(count for _, count in chains), size), *rest]
    works = any(not isinstance(step, TakeColour | Turn | FastenOff) for step in rest)
    if chains and rest and closes_chain(rest[0]):
        rest = rest[1:]
        if not any(isinstance(step, Work | Group | Repeat) for step in rest):
            # Worked into as a ring or chain by chain: the next round tells.
            closed = foundation_fabric(chains)
            problems = check_stated(row.stated, closed, 0, size)
            return Outcome(closed, 0, 0, tuple(problems), setting.preferred, colour=colour, base=setting.base)
        return _best_ring(row, split_opening([*_take_up_colour(row, colour), *rest]), size, setting)
    if is_ring(rest):
        kept: list[Node] = [s for s in steps if not isinstance(s, Ring)]
        if not any((isinstance(s, Work) and s.stitch != "sl st") or isinstance(s, Repeat | Group) for s in kept):
            return Outcome(RING, 0, 0, (), setting.preferred, colour=colour, base=setting.base, makes=bool(row.stated))
        return _best_ring(row, split_opening([*_take_up_colour(row, colour), *kept]), size, setting)
    if not chains:
        if works and first_work(rest) is not None:
            return work_once(
                row, split_opening(rest), EMPTY, False, size, replace(setting, colour=colour), setting.preferred
            )
        return None
    below = foundation_fabric(chains)
    if not works:
        problems = check_stated(row.stated, below, 0, size)
        return Outcome(below, 0, 0, tuple(problems), setting.preferred, colour=colour, base=setting.base)
    inner = replace(setting, colour=colour)
    first = work_row(row, rest, below, True, size, inner)
    yarn = dict(first.fabric.yarn)
    for key, number in below.yarn.items():
        yarn[key] = yarn.get(key, 0) + number
    return replace(first, fabric=replace(first.fabric, yarn=yarn))


def _place_said(said: Sequence[SkippedCount], rest: Sequence[Node], chains: int, size: int) -> list[SkippedCount]:
    """What is said of the chain, for a first stitch in its nth chain.

    Of "ch 4 (counts as ch 1 and dc), 2 dc in 4th ch from hook" the ch 1 is the one that is worked into, and no space,
    where the round has none of that size.
    """
    runs = {at_size(step.count, size) for step in walk_steps(rest) if isinstance(step, Chain)}
    placed = first_placed(rest)
    in_last = isinstance(placed, Work | Group) and placed.where.nth == chains
    return [replace(s, then=s.then - 1) if in_last and s.then and s.then not in runs else s for s in said]


def _best_ring(row: Row, opening: Opening, size: int, setting: Setting) -> Outcome:
    preferred = default_choices(opening, size, dict(setting.turning), setting.preferred)
    first = work_once(row, opening, RING, False, size, setting, preferred)
    if first.problems:
        for choices in other_readings(preferred, first.open_points):
            other = work_once(row, opening, RING, False, size, setting, choices)
            if not other.problems:
                changed = frozenset(n for n in first.open_points if getattr(choices, n) != getattr(preferred, n))
                return replace(other, settled=changed)
    return first


def _take_up_colour(row: Row, colour: str) -> list[Node]:
    return [TakeColour(row.span, colour)] if colour else []
