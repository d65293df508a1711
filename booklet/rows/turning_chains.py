"""Turning chains moved to the row before or to the start of their own row, as a house wants them.

A chain is moved only where every row that can come before (or after) says the same, so that rows which are
worked again turn with the chain that they had. Whether the rows then come out as before is proved by working
them again (`working/rearranged.py`).
"""

from collections.abc import Collection, Iterator, Sequence
from dataclasses import replace

from booklet.model.parsed import Row
from booklet.model.style import Style
from booklet.model.tree import (
    Chain,
    Group,
    KeepColours,
    Leave,
    Node,
    Repeat,
    RepeatRows,
    ShapeRows,
    SkippedCount,
    TakeColour,
    Turn,
    Work,
)
from booklet.rows.row import is_works

Edge = tuple[int, int]
"""A row by its place in the piece, and one that is worked right after it; -1 for a row that is not known."""

UNKNOWN = -1
ENDS_IN_WORK = (Work, Repeat, Group, TakeColour, KeepColours, Leave, SkippedCount)


def move_to_row_before(rows: Sequence[Row], fixed: Collection[int]) -> dict[int, Row]:
    """The rows that change, by their place, where turning chains go to the end of the row before.

    The rows at the places in `fixed` keep their words.
    """
    edges = list(_list_edges(rows))
    chains = {at: chain for at, row in enumerate(rows) if at not in fixed and (chain := _opening_chain(row))}
    takers = {at for at, row in enumerate(rows) if at not in fixed and _takes_at_end(row)}
    moved = _settle(edges, chains, takers)
    changed: dict[int, Row] = {}
    for _, at in edges:
        if at in moved:
            changed[at] = _without_opening(changed.get(at, rows[at]))
    for before in dict.fromkeys(before for before, at in edges if at in moved):
        given = next(chains[at] for first, at in edges if first == before and at in moved)
        changed[before] = _with_ending(changed.get(before, rows[before]), given)
    return changed


def move_to_start(rows: Sequence[Row], fixed: Collection[int]) -> dict[int, Row]:
    """The rows that change, by their place, where turning chains go to the start of the row that they belong to."""
    edges = [(at, before) for before, at in _list_edges(rows)]
    chains = {at: chain for at, row in enumerate(rows) if at not in fixed and (chain := _closing_chain(row))}
    takers = {at for at, row in enumerate(rows) if at not in fixed and _takes_at_start(row)}
    moved = _settle(edges, chains, takers) & {at for _, at in edges}
    changed = {at: _without_closing(rows[at]) for at in moved}
    for after in dict.fromkeys(after for after, at in edges if at in moved):
        given = next(chains[at] for first, at in edges if first == after and at in moved)
        row = changed.get(after, rows[after])
        changed[after] = replace(row, steps=(given, *row.steps))
    return changed


def keeps_chain(row: Row, style: Style) -> bool:
    """Does the row hold a turning chain where the house has none?"""
    if style.turning_chain == "row before":
        return _opening_chain(row) is not None
    return style.turning_chain == "start of row" and _closing_chain(row) is not None


def _settle(edges: Sequence[Edge], chains: dict[int, Chain], takers: Collection[int]) -> set[int]:
    """The rows whose chain can go: those that all take it have nothing else to take, and can."""
    moved = {at for _, at in edges if at in chains}
    while True:
        refused = {taker for taker, at in edges if taker not in takers or at not in moved}
        for taker in {taker for taker, _ in edges} - refused:
            wanted = [chains[at] for first, at in edges if first == taker]
            if any(_name(chain) != _name(wanted[0]) for chain in wanted):
                refused.add(taker)
        stays = {at for taker, at in edges if taker in refused} & moved
        if not stays:
            return moved
        moved -= stays


def _name(chain: Chain) -> tuple[object, ...]:
    return chain.count, chain.free, chain.drawn, chain.stands_for if chain.drawn else ""


def _list_edges(rows: Sequence[Row]) -> Iterator[Edge]:
    """Every row with each one that may be worked right after it, rows worked again among them."""
    places: dict[int, int] = {}  # of the latest row with each number
    before: int | None = None
    for at, row in enumerate(rows):
        again = [step for step in row.steps if isinstance(step, RepeatRows | ShapeRows)]
        first, last = (at, at) if not again else _find_repeated(again, at, places)
        if before is not None and first != UNKNOWN:
            yield before, first
        if first != UNKNOWN and (again or len(row.label.numbers) > 1 or row.label.varied or row.label.every):
            yield last, first
        before = last
        places |= dict.fromkeys(row.label.numbers, UNKNOWN if again else at)


def _find_repeated(again: Sequence[Node], at: int, places: dict[int, int]) -> Edge:
    """The first and the last row that are worked again."""
    step = again[0]
    if len(again) > 1 or not isinstance(step, RepeatRows) or step.names or step.even or step.lasts:
        return UNKNOWN, UNKNOWN
    if step.last:
        return (at - step.last, at - 1) if at >= step.last else (UNKNOWN, UNKNOWN)
    if not step.rows:
        return UNKNOWN, UNKNOWN
    return places.get(step.rows[0][0], UNKNOWN), places.get(step.rows[-1][1], UNKNOWN)


def _is_row(row: Row) -> bool:
    return row.label.kind in ("row", "r") and not row.label.sizes and not row.label.faulty


def _opening_chain(row: Row) -> Chain | None:
    """The turning chain at the start of a row of which more is worked."""
    first = row.steps[0] if row.steps else None
    rest = _after_opening(row)
    goes_on = is_works(rest) and not isinstance(rest[0], Turn)  # "ch 1, do not turn"
    return first if isinstance(first, Chain) and _is_row(row) and goes_on else None


def _after_opening(row: Row) -> tuple[Node, ...]:
    turned = len(row.steps) > 1 and row.steps[1] == Turn(row.span)
    return row.steps[2 if turned else 1 :]


def _without_opening(row: Row) -> Row:
    return replace(row, steps=_after_opening(row)) if isinstance(row.steps[0], Chain) else row


def _takes_at_end(row: Row) -> bool:
    steps = row.steps[:-1] if row.steps and row.steps[-1] == Turn(row.span) else row.steps
    return _is_row(row) and bool(steps) and isinstance(steps[-1], ENDS_IN_WORK)


def _with_ending(row: Row, chain: Chain) -> Row:
    turn = Turn(row.words)
    steps = row.steps[:-1] if row.steps[-1] == turn else row.steps
    return replace(row, steps=(*steps, chain, turn))


def _closing_chain(row: Row) -> Chain | None:
    """The turning chain at the end of a row: `ch 1, turn` or `turn, ch 1`."""
    last = row.steps[-2:]
    pair = {type(step) for step in last} == {Chain, Turn} and is_works(row.steps[:-2])
    if not pair or not _is_row(row) or not isinstance(row.steps[-3], ENDS_IN_WORK):
        return None
    return next((step for step in last if isinstance(step, Chain)), None) if Turn(row.span) in last else None


def _without_closing(row: Row) -> Row:
    return replace(row, steps=(*row.steps[:-2], Turn(row.words)))


def _takes_at_start(row: Row) -> bool:
    return _is_row(row) and bool(row.steps) and isinstance(row.steps[0], Work | Repeat | Group)
