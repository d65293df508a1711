"""Which edges a worked piece has, for what is sewn and folded: an armhole only where an underarm was left.

An underarm is where a row leaves stitches at both ends of the row below and is narrower by them. What stands above it
is an armhole on each side, or, taken in one from underarm to underarm, the cap of a sleeve.
"""

from collections.abc import Sequence

from booklet.amounts.gauges import count_width, is_row
from booklet.amounts.measures import is_in_rounds, starts_at_centre
from booklet.amounts.openings import find_opening
from booklet.model.pattern import Pattern
from booklet.model.seams import AT_ROW, CROSSWISE, Fold, SeamEdge
from booklet.model.work import WorkedPart, WorkedRow

LEAST_EDGE = 3  # stitches of a first or last row that is an edge, not a point
LEAST_LEFT = 2  # stitches left at either end that make an underarm


def find_part(parts: Sequence[WorkedPart], title: str) -> WorkedPart | None:
    """The piece of that title, in whatever case; the only one where no title is given."""
    if not title:
        return parts[0] if len(parts) == 1 else None
    wanted = " ".join(title.lower().split())
    named = [part for part in parts if " ".join(part.title.lower().split()) in (wanted, wanted.removeprefix("the "))]
    return named[0] if named else None


def list_edges(part: WorkedPart, size: int) -> tuple[str, ...]:
    """The names of the edges that the piece has in one size, as in `terms/edges.yaml`."""
    rows = [row for row in part.rows[size] if is_row(row) and count_width(row.fabric)]
    if not rows:
        return ()
    if is_in_rounds(part):
        return ("last round", "all round") if starts_at_centre(rows) else ("first round", "last round")
    flat = [row for row in rows if row.kind != "round"]
    names = ["sides", "left edge", "right edge", "all round"]
    has_foot = count_width(flat[0].fabric) >= LEAST_EDGE
    names += ["lower edge"] if has_foot else []
    opening = find_opening(part.rows[size])
    has_head = opening is None and count_width(flat[-1].fabric) >= LEAST_EDGE
    if opening is not None:
        names += ["shoulders", "left shoulder", "right shoulder", "neck"]
    names += ["upper edge"] if has_head else []
    names += ["ends"] if has_head and has_foot else []
    if find_underarm(part.rows[size]) is not None:
        names += ["armholes", "left armhole", "right armhole"]
        names += ["cap"] if opening is None else []
    return tuple(names)


def find_underarm(rows: Sequence[WorkedRow]) -> WorkedRow | None:
    """The row that leaves stitches at both ends of the row below; None where no row does."""
    below: WorkedRow | None = None
    for row in rows:
        if row.over is not None:  # the second side of an opening
            return None
        if row.kind != "row" or row.along or not is_row(row):
            continue
        if below is not None and _leaves_both_ends(below, row):
            return row
        below = row
    return None


def _leaves_both_ends(below: WorkedRow, row: WorkedRow) -> bool:
    feet = [place for stitch in row.fabric.stitches if stitch.kind != "sl st" for place in stitch.into]
    last = len(below.fabric.sites) - 1
    if not feet or count_width(row.fabric) > count_width(below.fabric) - 2 * LEAST_LEFT:
        return False
    return min(feet) >= LEAST_LEFT and max(feet) <= last - LEAST_LEFT


def has_edge(part: WorkedPart, edge: SeamEdge) -> bool:
    """Whether the piece has the edge in every size."""
    return not edge.edge or all(edge.edge in list_edges(part, size) for size in range(len(part.rows)))


def has_fold(part: WorkedPart, fold: Fold) -> bool:
    """Whether the row that it is folded at is there in every size, and is not the last."""
    if fold.way != AT_ROW:
        return fold.way != CROSSWISE or all(len(rows) > 1 for rows in part.rows)
    return all(fold.row < sum(is_row(row) for row in rows) for rows in part.rows)


def tell_edge(pattern: Pattern, edge: SeamEdge, parts: Sequence[WorkedPart]) -> str:
    """`Back sides`, `Head`; of the only piece the edge alone."""
    part = find_part(parts, edge.piece)
    title = part.title if part is not None else edge.piece
    return " ".join(word for word in (title if len(parts) > 1 else "", edge.edge) if word) or pattern.title
