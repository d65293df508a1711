"""What a row further down still offers: the loops it left free, or the stitches left unworked at its end."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import replace

from booklet.model.parsed import Row
from booklet.model.tree import Chain, ChangeEvenly, EarlierRow, Even, Group, Leave, Node, Repeat, Skip, Work, at_size
from booklet.model.work import Fabric, Site, WorkedRow

WORKING = (Work, Group, Repeat, Chain, ChangeEvenly, Even)


def find_earlier(row: Row) -> EarlierRow | None:
    """The row further down that a row goes into, if it does."""
    return next((step for step in row.steps if isinstance(step, EarlierRow)), None)


def take_earlier(steps: Sequence[Node], earlier: EarlierRow) -> tuple[Node, ...]:
    """The steps without the words that name the row; stitches left unworked need not all be used at once."""
    kept = tuple(step for step in without_start(steps) if not isinstance(step, EarlierRow))
    return kept if earlier.what in ("loops", "stitches") else (*kept, Leave(earlier.span))


def only_moves(row: Row) -> bool:
    """Does the row name where to go on, and work nothing: "skip 9 sts of Row 2 and join yarn in next st"?"""
    return not any(isinstance(step, WORKING) for step in row.steps)


def _find_begin(steps: Sequence[Node]) -> int:
    return next((at for at, step in enumerate(steps) if isinstance(step, WORKING)), len(steps))


def without_start(steps: Sequence[Node]) -> list[Node]:
    """The steps without what is passed over before anything is worked."""
    begin = _find_begin(steps)
    return [step for at, step in enumerate(steps) if at >= begin or not isinstance(step, Skip)]


def count_passed(steps: Sequence[Node], size: int) -> int:
    """How many stitches are passed over before anything is worked."""
    skips = (step for step in steps[: _find_begin(steps)] if isinstance(step, Skip))
    return sum(at_size(step.where.count, size) for step in skips)


def offer_earlier(rows: Sequence[WorkedRow], earlier: EarlierRow) -> tuple[Fabric, int] | None:
    """The places of that row as a fabric of their own, and its index; None where it left nothing, or is not there."""
    for at in range(len(rows) - 1, -1, -1):
        row = rows[at]
        if earlier.number and row.number != earlier.number:
            continue
        if earlier.what == "skipped":
            break
        if earlier.what in ("loops", "stitches"):
            return as_fabric([site for site in row.fabric.sites if site.counts]), at
        after = rows[at + 1] if at + 1 < len(rows) else None
        left = _list_unworked(row, after) if after else []
        if left:
            return as_fabric(left), at
        if earlier.number:
            break
    return _offer_opening(rows, earlier) if earlier.what in ("unworked", "skipped") else None


def settle_skipped(row: Row, rows: Sequence[WorkedRow]) -> Row:
    """The row without the words that name skipped stitches, where no opening left any: these are then the next ones."""
    earlier = find_earlier(row)
    if earlier is None or earlier.what != "skipped" or offer_earlier(rows, earlier) is not None:
        return row
    return replace(row, steps=tuple(step for step in row.steps if step is not earlier))


MOST_OPENINGS = 2  # in one row: the sleeves of a yoke, a thumb; a row with more of them is lace


def _offer_opening(rows: Sequence[WorkedRow], earlier: EarlierRow) -> tuple[Fabric, int] | None:
    """The stitches skipped at the last opening, such as a thumb's, then the other side of the chain over them."""
    for at in range(len(rows) - 1, 0, -1):
        if earlier.number and earlier.number not in (rows[at - 1].number, rows[at].number):
            continue
        openings = list(_list_openings(rows[at - 1], rows[at]))
        if 0 < len(openings) <= MOST_OPENINGS:
            return as_fabric(openings[0]), at
    return None


def _list_openings(row: WorkedRow, after: WorkedRow) -> Iterator[list[Site]]:
    """The places of each opening that a row makes: two and more stitches skipped, and the chain over them."""
    before, chain = -1, None
    for stitch in after.fabric.stitches:
        if stitch.kind == "ch" and stitch.top >= 0:
            chain = after.fabric.sites[stitch.top]
        if not stitch.into or not 0 <= max(stitch.into) < len(row.fabric.sites):
            continue
        low, high = sorted((before, stitch.into[0]))
        skipped = [site for site in row.fabric.sites[low + 1 : high] if site.counts]
        if chain is not None and before >= 0 and len(skipped) > 1:
            yield [*skipped, *(Site("ch", chain.colour) for _ in range(chain.run))]
        before, chain = stitch.into[-1], None


def _list_unworked(row: WorkedRow, after: WorkedRow) -> list[Site]:
    """The countable sites behind the last one that the next row worked into, in the direction of that row."""
    used = [index for stitch in after.fabric.stitches for index in stitch.into]
    if not used or not all(0 <= index < len(row.fabric.sites) for index in used):
        return []
    order = range(min(used) - 1, -1, -1) if after.turned else range(max(used) + 1, len(row.fabric.sites))
    return [row.fabric.sites[index] for index in order if row.fabric.sites[index].counts]


def as_fabric(sites: Sequence[Site]) -> Fabric:
    places = tuple(Site(site.kind, site.colour) for site in sites)
    return Fabric(places, (), {}, {}, {}, len(places))


def without_places(fabric: Fabric) -> Fabric:
    """The stitches without what they were worked into: that is not in the row below."""
    return replace(fabric, stitches=tuple(stitch._replace(into=()) for stitch in fabric.stitches))


def count_left(rows: Sequence[WorkedRow], regained: Mapping[int, int], turned: bool, round_all: bool) -> int:
    """Stitches left at the end that a row works to; at either end where it goes round all.

    `regained` is how many of them rows have taken up since, by the index of the row.
    """
    backwards, left = False, {False: 0, True: 0}
    for at, made in enumerate(rows):
        backwards ^= made.turned
        left[backwards] += (made.left if made.kind != "foundation" else 0) - regained.get(at, 0)
    return sum(left.values()) if round_all else left[backwards ^ turned]


def count_regained(works: Iterable[Work], has: int, size: int) -> int:
    """How many of the stitches left a row takes up: all, or so many as it says."""
    wheres = [work.where for work in works if work.where.how == "unworked"]
    return min(has, sum(at_size(where.count, size) if where.leave == (1,) else has for where in wheres))
