"""Stitches worked rows below: are there so many rows, and has the one that is meant the stitch named?"""

from collections.abc import Sequence

from booklet.model.parsed import Row
from booklet.model.tree import What, Where
from booklet.model.work import WorkedRow
from booklet.rows.row import list_works
from booklet.working.kinds import is_of_kind
from booklet.working.problems import Problem

GENERAL = ("st", "sp", "ch", "ch-sp", "corner", "tch", "ring", "row end")  # kinds that say little of the stitch


def is_deep(where: Where) -> bool:
    """ "FPdc around next FPdc 2 rows below": the place along the row is the next, whatever lies above the stitch."""
    return where.how == "next" and where.below > 1 and where.what[0].kind not in GENERAL


def check_depth(row: Row, rows: Sequence[WorkedRow]) -> Problem | None:
    """What is wrong with the first stitch of a row that goes deeper than there are rows, or where none is of its kind.

    `rows` are those worked so far, the foundation among them.
    """
    for work in list_works(row.steps):
        depth = work.where.below
        if depth < 2:
            continue
        if depth > len(rows):
            above = sum(1 for over in rows if over.kind != "foundation")
            return Problem("no-depth", work.span, above, depth)
        if any(over.over is not None for over in rows[-depth:]) or not is_deep(work.where):
            continue
        if rows[-depth].status == "worked" and not any(_has(rows[-depth], what) for what in work.where.what):
            return Problem("not-deep", work.span, 0, depth, what=work.where.what[0], detail=rows[-depth].label)
    return None


def _has(row: WorkedRow, what: What) -> bool:
    if what.kind in GENERAL:
        return True
    return any(is_of_kind(kind, what.kind) for kind in row.fabric.counts) or any(
        is_of_kind(site.kind, what.kind) for site in row.fabric.sites
    )
