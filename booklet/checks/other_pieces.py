"""Places on another piece, "ch-3 sp of First Square": the piece that is named makes such a place."""

import re
from collections.abc import Iterator, Sequence

from booklet.checks import messages_edges as messages
from booklet.findings import Finding
from booklet.model.parsed import ParsedPattern
from booklet.model.tree import What, Work
from booklet.model.work import Fabric, WorkedPart, WorkedPattern
from booklet.rows.row import list_works
from booklet.working.kinds import is_of_kind

STITCHES = ("sc", "hdc", "dc", "tr", "dtr")


def check_other_pieces(parsed: ParsedPattern, worked: WorkedPattern) -> Iterator[Finding]:
    """A space of so many chains, or a stitch by name, in another piece that has none; one finding for each row.

    Words that name no title, "of previous square", may mean any piece up to the row's own. What is on trust may
    have anything.
    """
    parts = [part for part in worked.parts if any(part.rows)]
    for at, part in enumerate(worked.parts):
        for row in parsed.parts[at].rows if at < len(parsed.parts) else ():
            for work in list_works(row.steps):
                what = work.where.what[0]
                if work.where.how != "elsewhere" or not (what.kind in STITCHES or what.chains > 0):
                    continue
                named = _find_named(work, [other for other in parts if other is not part])
                meant = named or parts[: parts.index(part) + 1 if part in parts else len(parts)]
                if meant and not any(_may_have(other, what) for other in meant):
                    title = named[0].title if named else ""
                    yield messages.not_on_piece(row.label.text or "this row", title, what, work.span)
                    break


def _find_named(work: Work, parts: Sequence[WorkedPart]) -> list[WorkedPart]:
    """The pieces whose title the words of a place name."""
    text = work.span.text.lower()
    return [part for part in parts if part.title and re.search(rf"\b{re.escape(part.title.lower())}\b", text)]


def _may_have(part: WorkedPart, what: What) -> bool:
    rows = [row for rows in part.rows for row in rows]
    return any(row.status != "worked" or _has(row.fabric, what) for row in rows)


def _has(fabric: Fabric, what: What) -> bool:
    if what.kind in STITCHES:
        return any(is_of_kind(kind, what.kind) for kind in fabric.counts)
    runs = set(fabric.spaces) | {site.chains for site in fabric.sites if site.kind == "ch"}
    beside = {a.chains + b.run for a, b in zip(fabric.sites, fabric.sites[1:], strict=False) if a.chains and b.run}
    return what.chains in runs | beside
