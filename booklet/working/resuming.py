"""How the work goes on after a row that is wrong, so that one mistake gives one finding."""

from booklet.model.work import Fabric, Site
from booklet.working.making import EMPTY

MOST_STITCHES = 100_000


def list_likely(made: Fabric, below: Fabric, total: int | None) -> tuple[Fabric, ...]:
    """What the next row may stand on: what was made, what is said to be there, or the row below once more."""
    likely = [made]
    if total is not None and total != made.made and 0 <= total <= MOST_STITCHES:
        likely.append(resize(made, total))
    if below.made == (made.made if total is None else total) and below is not EMPTY:
        likely.append(below)
    return tuple(likely)


def resize(fabric: Fabric, total: int) -> Fabric:
    """The fabric with as many stitches as the row says it has: cut at its end, or its pattern carried on there."""
    sites = list(fabric.sites)
    made = fabric.made
    while made > total and sites:
        made -= sites.pop().counts
    pattern = sites[-_find_period(sites) :]
    if not any(site.counts for site in pattern):
        counted = [site for site in sites if site.counts] or [Site("sc")]
        pattern = [max(counted, key=counted.count)]
    at = 0
    while made < total:
        sites.append(pattern[at % len(pattern)])
        made += sites[-1].counts
        at += 1
    stitches = tuple(s if s.top < len(sites) else s._replace(top=-1) for s in fabric.stitches)
    return Fabric(tuple(sites), stitches, fabric.counts, fabric.spaces, fabric.yarn, total, long=fabric.long)


def _find_period(sites: list[Site]) -> int:
    """After how many stitches the pattern at the end of the row repeats."""
    kinds = [site.kind for site in sites]
    return next((n for n in range(1, 25) if len(kinds) >= 2 * n and kinds[-n:] == kinds[-2 * n : -n]), 1)
