"""Rows that are repeated with a change: in another colour, over other stitches."""

import re
from collections.abc import Sequence
from dataclasses import replace

from booklet.model.parsed import Row
from booklet.model.tree import Aside, Group, Node, Repeat, RepeatRows, Skip, TakeColour, What, Where, Work

OVER_OTHERS = re.compile(r"\bworking\s+\w+\s+(?:over|in|into|on)\s+\w+", re.IGNORECASE)
PLAIN = ("sc", "hdc", "dc", "tr", "dtr")


def change_rows(line: Row, rows: Sequence[Row]) -> list[Row]:
    """The rows with what their line says beside the repeat: a colour, "working sc over dc and dc over sc"."""
    if any(isinstance(step, Aside) and OVER_OTHERS.search(step.text) for step in line.steps):
        known = {id(row): replace(row, steps=tuple(_stand_on_any(step) for step in row.steps)) for row in rows}
        rows = [known[id(row)] for row in rows]
    return recolour_rows(line, rows)


def _stand_on_any(step: Node) -> Node:
    """The step on whatever stitches come, where it names plain ones."""
    if isinstance(step, Repeat):
        what = _any(step.what)
        return replace(step, steps=tuple(_stand_on_any(inner) for inner in step.steps), what=what)
    if isinstance(step, Work | Group | Skip):
        return replace(step, where=_on_any(step.where))
    return step


def _on_any(where: Where) -> Where:
    return replace(where, what=tuple(_any(what) for what in where.what), leave_what=_any(where.leave_what))


def _any(what: What) -> What:
    return What("st") if what.kind in PLAIN else what


def recolour_rows(line: Row, rows: Sequence[Row]) -> list[Row]:
    """The repeated rows in the colour that their line names: "With C, rep Row 2, changing to A at end".

    A row that works in several colours keeps them; the change at the end is for the last row alone.
    """
    first = next((at for at, step in enumerate(line.steps) if isinstance(step, RepeatRows)), 0)
    own = [step for step in line.steps[:first] if isinstance(step, TakeColour)]
    after = [step for step in line.steps[first:] if isinstance(step, TakeColour)]
    if len(own) > 1 or len(after) > 1 or not (own or after):
        return list(rows)
    known: dict[tuple[int, bool], Row] = {}
    recoloured: list[Row] = []
    for at, row in enumerate(rows):
        key = (id(row), at == len(rows) - 1)
        if key not in known:
            known[key] = _recolour(row, own, after if key[1] else [])
        recoloured.append(known[key])
    return recoloured


def _recolour(row: Row, own: Sequence[TakeColour], after: Sequence[TakeColour]) -> Row:
    taken = [at for at, step in enumerate(row.steps) if isinstance(step, TakeColour)]
    begins = next((at for at, step in enumerate(row.steps) if isinstance(step, Work | Group | Repeat)), len(row.steps))
    late = [at for at in taken if isinstance(step := row.steps[at], TakeColour) and step.late]
    if any(at > begins and at not in late for at in taken):
        return row
    dropped = set(late if after else []) | set(taken if own else [])
    kept = [step for at, step in enumerate(row.steps) if at not in dropped]
    last = max((at for at, step in enumerate(kept) if isinstance(step, Work | Group | Repeat)), default=len(kept) - 1)
    kept[last + 1 : last + 1] = [replace(step, late=True) for step in after]
    return replace(row, steps=(*own, *kept)) if dropped or own or after else row
