"""Where the work is turned or goes round, and the turning chain that ends a row and belongs to the next."""

from collections.abc import Sequence

from booklet.model.parsed import ParsedPart, Row
from booklet.model.tree import (
    Aside,
    Chain,
    FastenOff,
    Group,
    Join,
    Node,
    OtherSide,
    Repeat,
    Skip,
    TakeColour,
    Turn,
    Where,
    Work,
    at_size,
)
from booklet.rows.sections import closes_own_chain
from booklet.rows.walking import walk_steps
from booklet.working.beginnings import is_ring


def split_end(row: Row) -> tuple[tuple[Node, ...], Chain | None, bool | None]:
    """The row without a turning chain at its end, that chain, and whether the work is turned after it."""
    steps = list(row.steps)
    turn: bool | None = None
    carried: Chain | None = None
    while steps and len(steps) > 1:
        last = steps[-1]
        if isinstance(last, Turn):
            turn = last.yes if turn is None else turn
            steps.pop()
        elif (
            isinstance(last, Chain)
            and turn is not None
            and any(isinstance(s, Work | Repeat | Group) for s in steps[:-1])
        ):
            carried = last
            steps.pop()
            break
        else:
            break
    if turn is None and steps and any(isinstance(s, Turn) for s in steps[-3:]) and not _turns_at_start(steps):
        turn = next(s.yes for s in reversed(steps) if isinstance(s, Turn))
    return tuple(steps), carried, turn


def find_turning_line(row: Row) -> Chain | None:
    """The chain of a line of its own between two rows, "With B, ch 1, turn": it belongs to the next row."""
    chains = [step for step in row.steps if isinstance(step, Chain)]
    quiet = all(isinstance(step, Chain | Turn | TakeColour) for step in row.steps)
    turned = any(isinstance(step, Turn) and step.yes for step in row.steps)
    return chains[0] if quiet and turned and len(chains) == 1 and not row.label.text else None


def _turns_at_start(steps: list[Node]) -> bool:
    for step in steps:
        if isinstance(step, Turn):
            return True
        if isinstance(step, Work | Repeat | Group):
            return False
    return False


def is_turned(steps: Sequence[Node], turned_before: bool | None, is_row: bool) -> bool:
    """Is the row worked back over the one below? Rows turn unless the text says otherwise, rounds do not."""
    for step in steps:
        if isinstance(step, Turn):
            return step.yes
        if isinstance(step, Work | Repeat | Group):
            break
    return is_row if turned_before is None else turned_before


def has_sizes(row: Row) -> bool:
    """Does the row hold a number that differs between sizes?"""
    return _steps_have_sizes(row.steps) or (
        row.stated is not None and any(len(values) > 1 for values, _ in row.stated.items)
    )


def _steps_have_sizes(steps: Sequence[Node]) -> bool:
    for step in walk_steps(steps):
        numbers = [getattr(step, name, ()) for name in ("count", "times")]
        works = (step, *step.also) if isinstance(step, Work) else (step,)
        for where in (getattr(work, "where", None) for work in works):
            numbers += [where.count, where.leave] if isinstance(where, Where) else []
        numbers += [work.times for work in works[1:] if isinstance(work, Work)]
        if any(len(number) > 1 for number in numbers):
            return True
    return False


def goes_round(steps: Sequence[Node]) -> bool:
    """Does the row go along the ends of the rows, or the other side of the foundation of a worked piece?"""
    return any(
        isinstance(step, OtherSide)
        or (isinstance(step, Work | Group) and step.where.what[0].kind.startswith("row end"))
        for step in walk_steps(steps)
    )


def is_worked_in_rounds(part: ParsedPart) -> bool:
    """Do the labels or the start say rounds?"""
    for row in part.rows:
        if row.label.kind == "round" or is_ring(row.steps):
            return True
        if row.label.kind == "r" and any(isinstance(step, OtherSide) for step in row.steps):
            return True  # an oval: round both sides of a chain
        if row.label.kind == "r" and _closes_round(row):
            return True
        if row.label.kind == "row":
            return False
    return False


def _closes_round(row: Row) -> bool:
    """Is a row that a short label, "R1", leaves open joined to its own beginning?"""
    works = [step for step in row.steps if isinstance(step, Work | Join | Repeat | Group)]
    last = works[-1] if works else None
    slips = isinstance(last, Work) and last.stitch == "sl st" and last.where.how in ("top", "join")
    return slips or (isinstance(last, Join) and last.where.how in ("top", "join", "first"))


def lays_chain(row: Row, rows: Sequence[Row], size: int) -> bool:
    """Is the line a chain of its own, with which something new begins in the middle of a piece?

    The next row is worked along it from the hook, as a ribbing laid on in between; or it is closed, and Rnd 1 follows.
    """
    chains = sum(at_size(step.count, size) for step in row.steps if isinstance(step, Chain))
    following = next((other for other in rows if other.span.start > row.span.start), None)
    if following is None or row.label.numbers or not chains:
        return False
    others = [step for step in row.steps if not isinstance(step, Chain | Aside | TakeColour | Turn | FastenOff)]
    if others:
        begins = following.label.numbers[:1] == (1,)
        before = next((other for other in reversed(rows) if other.span.start < row.span.start and other.steps), None)
        return begins and len(others) == 1 and closes_own_chain(others[0], before, (following,))
    if any(isinstance(step, Turn) for step in row.steps):
        return False
    placed = next((step for step in following.steps if isinstance(step, Work | Group | Repeat | Skip | Chain)), None)
    return isinstance(placed, Work) and placed.where.from_hook and 1 < placed.where.nth <= chains
