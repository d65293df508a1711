"""Which sections begin a piece of their own, and which go on from the section before."""

from collections.abc import Sequence

from booklet.model.parsed import ParsedPart, Row
from booklet.model.tree import (
    Aside,
    Chain,
    FastenOff,
    Group,
    Join,
    Node,
    Repeat,
    Ring,
    TakeColour,
    Unread,
    Work,
    at_size,
)
from booklet.rows.row import list_works
from booklet.rows.taken_over import asks_for_piece

BORDERS = {"border", "edging", "edge", "trim", "joining", "assembly"}
# Pieces that are joined to one another before a border goes round them.
JOINED = {"square", "motif", "block", "hexagon", "octagon", "triangle", "diamond", "tile", "panel", "strip", "granny"}


def starts_afresh(part: ParsedPart, before: ParsedPart | None = None) -> bool:
    """Does the section start a piece of its own: with a chain, a ring or foundation stitches?

    A section that does not goes on from the last row of the one before ("## Brim" after "## Crown").
    """
    last = before.rows[-1] if before is not None and before.rows else None
    for at, row in enumerate(part.rows):
        if asks_for_piece(row):
            return True  # "Work as for Back to armholes", where these cannot be found
        steps = [step for step in row.steps if not isinstance(step, Aside | TakeColour | FastenOff | Unread)]
        if not steps:
            last = row if row.steps else last
            continue
        if (row.label.kind == "foundation" and row.label.name.startswith("foundation")) or is_ring_start(steps):
            return True
        first = steps[0]
        if isinstance(first, Work) and first.where.how in ("elsewhere", "piece"):
            return True  # "sc in next 12 sts of first leg": over pieces made before
        if isinstance(first, Work):
            return first.stitch in ("fsc", "fhdc", "fdc") or first.where.from_hook
        if isinstance(first, Chain):
            others = [step for step in steps if not isinstance(step, Chain)]
            chains = sum(at_size(step.count, 0) for step in steps if isinstance(step, Chain))
            if not others or (chains > 2 and count_along(others) == chains - 1):
                return True
            return _begins_piece(others[0], row, last, part.rows[at + 1 : at + 2])
        return False
    return False


def count_along(steps: Sequence[Node], size: int = 0) -> int:
    """Stitches told by their number alone, "24 sl st", "(sc) x 24"; 0 where any is told otherwise."""
    made = 0
    for step in steps:
        if isinstance(step, Repeat) and step.until in ("times", "open"):
            made += count_along(step.steps, size) * at_size(step.count, size)
        elif isinstance(step, Work) and step.where.bare and step.where.how == "next":
            made += at_size(step.where.count, size) * at_size(step.times, size)
        else:
            return 0
    return made


def _begins_piece(follows: Node, row: Row, before: Row | None, after: Sequence[Row]) -> bool:
    """Is a chain the foundation of a piece, by what follows on it: stitches in it, or another piece, or its end?"""
    if isinstance(follows, Work) and (follows.where.from_hook or follows.where.how in ("elsewhere", "piece")):
        return True
    return closes_own_chain(follows, before, after) if closes_chain(follows) else False


def closes_own_chain(step: Node, before: Row | None, after: Sequence[Row]) -> bool:
    """Is a chain joined in itself, and not to the row before: "in first ch", "to form a ring"?

    Where the words do not say in what, it is where the yarn was cut before it or the round after it goes into chains
    alone.
    """
    if not isinstance(step, Join | Work):
        return closes_chain(step)
    where = step.where
    if where.how in ("ring", "top") or where.what[0].kind == "ch" or not closes_chain(step):
        return closes_chain(step)
    cut = before is not None and any(isinstance(other, FastenOff) for other in before.steps)
    works = [work for row in after for work in list_works(row.steps) if work.stitch != "sl st"]
    in_chains = bool(works) and all(what.kind == "ch" for work in works for what in work.where.what)
    return where.how == "join" and (cut or in_chains)


def goes_round_all(before: ParsedPart, part: ParsedPart) -> bool:
    """Is it the border of all pieces joined: "## Border" after "## Square (make 20)", worked once?

    A border with the name of the piece, "## Square border", goes round each of them.
    """
    piece, border = ({word.rstrip("s") for word in title.lower().split()} for title in (before.title, part.title))
    return before.make > 1 and bool(piece & JOINED) and bool(border & BORDERS) and not piece & border


def is_ring_start(steps: list[Node]) -> bool:
    """Is a ring made, or worked into?"""
    return any(isinstance(s, Ring) or (isinstance(s, Work | Group) and s.where.how == "ring") for s in steps[:3])


def closes_chain(step: Node) -> bool:
    """Is a foundation chain closed: "sl st in first ch", "join with sl st to form ring"?"""
    if isinstance(step, Join) or (isinstance(step, Ring) and step.chains > 0):
        return True
    if not isinstance(step, Work) or step.stitch != "sl st":
        return False
    return step.where.how in ("first", "ring", "join") or (step.where.how == "nth" and step.where.nth == 1)
