"""What a row further down still offers: the loops it left free, or the stitches left unworked at its end."""

from collections.abc import Sequence
from dataclasses import replace

from booklet.model.tree import EarlierRow, Leave, Node, Row
from booklet.model.work import Fabric, Site, WorkedRow


def find_earlier(row: Row) -> EarlierRow | None:
    """The row further down that a row goes into, if it does."""
    return next((step for step in row.steps if isinstance(step, EarlierRow)), None)


def take_earlier(steps: Sequence[Node], earlier: EarlierRow) -> tuple[Node, ...]:
    """The steps without the words that name the row; stitches left unworked need not all be used at once."""
    kept = tuple(step for step in steps if not isinstance(step, EarlierRow))
    return kept if earlier.what == "loops" else (*kept, Leave(earlier.span))


def offer_earlier(rows: Sequence[WorkedRow], earlier: EarlierRow) -> Fabric | None:
    """The places of that row as a fabric of their own; None where there is no such row, or it left nothing."""
    for at in range(len(rows) - 1, -1, -1):
        row = rows[at]
        if earlier.number and row.number != earlier.number:
            continue
        if earlier.what == "loops":
            return _as_fabric([site for site in row.fabric.sites if site.counts])
        after = rows[at + 1] if at + 1 < len(rows) else None
        left = _list_unworked(row, after) if after else []
        if left:
            return _as_fabric(left)
        if earlier.number:
            return None
    return None


def _list_unworked(row: WorkedRow, after: WorkedRow) -> list[Site]:
    """The countable sites behind the last one that the next row worked into, in the direction of that row."""
    used = [index for stitch in after.fabric.stitches for index in stitch.into]
    if not used or not all(0 <= index < len(row.fabric.sites) for index in used):
        return []
    order = range(min(used) - 1, -1, -1) if after.turned else range(max(used) + 1, len(row.fabric.sites))
    return [row.fabric.sites[index] for index in order if row.fabric.sites[index].counts]


def _as_fabric(sites: Sequence[Site]) -> Fabric:
    places = tuple(Site(site.kind, site.colour) for site in sites)
    return Fabric(places, (), {}, {}, {}, len(places))


def without_places(fabric: Fabric) -> Fabric:
    """The stitches without what they were worked into: that is not in the row below."""
    return replace(fabric, stitches=tuple(stitch._replace(into=()) for stitch in fabric.stitches))
