"""How a row begins: what the chain at its start is, worked up to and with it."""

from collections.abc import Sequence
from dataclasses import replace

from booklet.model.parsed import ChainRule
from booklet.model.tree import SPACE, Chain, Group, Join, Node, Repeat, Skip, What, Work, at_size
from booklet.model.work import Site
from booklet.rows.markers import without_asides
from booklet.rows.row import list_works
from booklet.rows.walking import walk_steps
from booklet.working.beginnings import Opening, first_chain, first_placed, first_work, rule_for
from booklet.working.choices import Choices
from booklet.working.kinds import height_of, kind_of
from booklet.working.looking import closes_at_base
from booklet.working.making import Loop
from booklet.working.row import RowWorker
from booklet.working.walk import Walk


def prefer_turning(opening: Opening, chains: int, known: str | None) -> str:
    """What an undeclared opening chain most likely is, from the words around it."""
    follows = first_placed(opening.rest)
    if known:
        return known
    if chains == 1 or (isinstance(follows, Work) and follows.stitch == "sl st" and follows.where.how == "next"):
        return "none"  # no stitch that slip stitches lead away from
    if isinstance(follows, Skip):
        passed = at_size(follows.where.count, 0)
        return "chains" if passed > 1 and passed == chains else "stitch"
    if isinstance(follows, Work | Group) and follows.where.how in ("first", "same", "join"):
        return "stitch" if follows.where.what[0].kind in ("sp", "ch-sp", "corner") else "none"
    return _told_by_join(opening) or ("stitch" if chains >= 3 else "none")


def open_row(worker: RowWorker, opening: Opening, rules: Sequence[ChainRule]) -> None:
    """Works the start of a row up to and with its opening chain."""
    for step in opening.before:
        worker.work_step(step)
    chain = opening.chain
    if chain is None:
        return
    chains = at_size(chain.count, worker.size)
    if _works_back_along(opening, chains):
        _open_along_chain(worker, opening, chains)
        return
    base = first_work(opening.rest)
    stitch = base.stitch if base else worker.base
    if (defined := worker.definitions.get(stitch)) and (inner := first_work(defined.steps)):
        stitch = inner.stitch  # the chain before a group is as tall as the group's first stitch
    if _open_as_space(worker, opening, chain, rules):
        return
    taken_for, named = _declared(chain, rules, chains, stitch)
    if taken_for is None and chains > 1:
        taken_for = _told_by_join(opening)
    if taken_for is None and chains == 1:
        taken_for = "none"  # one chain never counts as a stitch (Craft Yarn Council, as secondary pages report it)
    if taken_for is None and worker.goes_elsewhere and _lies_between(opening):
        taken_for = "none"
    if taken_for is None and _begins_block(opening, chains):
        taken_for = "space"
    if taken_for is None and _begins_mesh(opening, chains, stitch):
        taken_for = "stitch"
    moss = taken_for is None and worker.is_row and _begins_moss(opening, chains, worker.size)
    if moss:
        worker.open_points.add("gap")
    if moss and (worker.choices.gap or not worker.is_counted):
        worker.making.add_opening(chains, worker.colour_here(), "space", "ch", (), chains - 1)
        return
    if taken_for is None:
        worker.open_points.add("turning")
        taken_for = worker.choices.turning
    if taken_for == "stitch":
        _stand_for_stitch(worker, opening, chain, chains, named or kind_of(stitch).base, bool(named))
    else:
        worker.making.add_opening(chains, worker.colour_here(), taken_for, "ch", (), 0)


def _open_as_space(worker: RowWorker, opening: Opening, chain: Chain, rules: Sequence[ChainRule]) -> bool:
    """An opening chain that is a space, or a loop of the round; False where it is neither."""
    chains, colour = at_size(chain.count, worker.size), worker.colour_here()
    if run := _find_space(chain, rules, chains):
        worker.making.add_opening(chains, colour, "space", "ch", (), run)
        return True
    if not _is_loop(worker, opening, chain):
        return False
    place = worker.walk.find((What("st"), What("sp")))
    worker.making.add_chains(chains, colour, -1)
    worker.begun_in_loop = True
    if place is not None:
        worker.walk.at, worker.last = place[1], place
    return True


def _is_loop(worker: RowWorker, opening: Opening, chain: Chain) -> bool:
    """ "Ch 5, *sc in next dc, ch 5; rep …, sl st in first ch": is the chain itself the first of the round's loops?"""
    last = next((step for step in reversed(opening.rest) if isinstance(step, Work | Group | Repeat | Join)), None)
    joins = isinstance(last, Join) or (isinstance(last, Work) and last.stitch == "sl st")
    if worker.is_row or chain.counts is not None or min(chain.count) < 3 or not joins:
        return False
    where = last.where if isinstance(last, Join | Work) else None
    in_first = where is not None and ((where.how == "first" and where.what[0].kind == "ch") or where.nth == 1)
    in_first = in_first or (last is not None and closes_at_base(last))
    first = first_work(opening.rest)
    on_stitches = first is not None and first.where.how == "next" and first.where.what[0].kind not in ("sp", "ch-sp")
    in_first = in_first or (on_stitches and isinstance(last, Join) and last.where.how == "join")
    alike = any(isinstance(step, Chain) and step.count == chain.count for step in walk_steps(opening.rest))
    return in_first and alike and first is not None and first.stitch == "sc"


def _find_space(chain: Chain, rules: Sequence[ChainRule], chains: int) -> int:
    """The chains of the space that an opening chain is: "ch 2 (counts as ch-1 sp)"; 0 where it is none."""
    if chain.counts is not None:
        return chain.then if chain.counts and chain.stands_for == SPACE else 0
    rule = next((rule for rule in rules if rule.chains == chains and rule.stitch == SPACE), None)
    return rule.then if rule is not None else 0


def _begins_moss(opening: Opening, chains: int, size: int) -> bool:
    """Is an opening chain, one longer than the spaces and before an sc into a space, such a space itself if any?"""
    first, run = first_work(opening.rest), first_chain(opening.rest)
    if first is None or run is None or chains != at_size(run.count, size) + 1:
        return False
    low = all(work.stitch == "sc" for work in list_works(opening.rest))
    return low and first.where.what[0].kind in ("sp", "ch-sp") and first.where.how == "next"


def _begins_mesh(opening: Opening, chains: int, stitch: str) -> bool:
    """ "Ch 5, dc in next dc, *ch 2, dc in next dc": is the chain a stitch and the row's own space beside it?"""
    placed, run, height = first_placed(opening.rest), first_chain(opening.rest), height_of(stitch)
    if run is None or not isinstance(placed, Work) or height < 2 or chains != height + at_size(run.count, 0):
        return False
    goes_on = placed.where.how == "next" and placed.where.count == (1,) and placed.times == (1,)
    return goes_on and all(_is_mesh(step, stitch) for step in opening.rest)


def _is_mesh(step: Node, stitch: str) -> bool:
    """Is it one of the stitches of a mesh, a chain, or none of both?"""
    if isinstance(step, Repeat):
        return all(_is_mesh(inner, stitch) for inner in step.steps)
    return step.stitch == stitch if isinstance(step, Work) else not isinstance(step, Group)


def _lies_between(opening: Opening) -> bool:
    """ "Ch 3, sc in 12 sts of first leg, sc in next 3 ch …": is the chain one between two pieces, worked into later?"""
    wheres = (work.where for work in list_works(opening.rest))
    return any(where.how == "next" and where.what[0].kind == "ch" for where in wheres)


def _begins_block(opening: Opening, chains: int) -> bool:
    """Diagonal blocks, "*sl st in next sp, ch 3, 3 dc in same sp": the first block's chain is a space as well."""
    placed = first_placed(opening.rest)
    if not isinstance(placed, Work) or placed.where.how != "same":
        return False
    return any(_makes_block(step, chains) for step in opening.rest if isinstance(step, Repeat | Group))


def _makes_block(step: Repeat | Group, chains: int) -> bool:
    """ "sl st in next sp, ch 3, 3 dc in same sp", or "(sl st, ch 3, 3 dc) in each sp" """
    is_group = isinstance(step, Group)
    for slip, chain, block in zip(step.steps, step.steps[1:], step.steps[2:], strict=False):
        joined = isinstance(slip, Work) and slip.stitch == "sl st"
        place = step.where if isinstance(step, Group) else slip.where if isinstance(slip, Work) else None
        in_space = joined and place is not None and place.what[0].kind in ("sp", "ch-sp")
        alike = isinstance(chain, Chain) and chain.count == (chains,)
        if in_space and alike and isinstance(block, Work) and (is_group or block.where.how == "same"):
            return True
    return False


def _works_back_along(opening: Opening, chains: int) -> bool:
    """ "Ch 6, dc in 4th ch from hook": is the chain at the start itself worked into, as in diagonal blocks?"""
    placed = first_placed(opening.rest)
    return (
        isinstance(placed, Work) and placed.where.how == "nth" and placed.where.from_hook and placed.where.nth <= chains
    )


def _open_along_chain(worker: RowWorker, opening: Opening, chains: int) -> None:
    """The chain as a row below of its own; the chains skipped at its end are a space that the next row can use."""
    placed = first_placed(opening.rest)
    assert isinstance(placed, Work)
    skipped = placed.where.nth - 1
    colour = worker.colour_here()
    worker.making.add_opening(skipped, colour, "space", "ch", (), 0)
    worker.making.loops.append(Loop("ch", colour, chains=chains - skipped, hidden=True))
    worker.aside = worker.walk
    sites = tuple(Site("ch", colour) for _ in range(chains))
    worker.walk = Walk(sites, tuple(range(chains)), backwards=False)


def _declared(chain: Chain, rules: Sequence[ChainRule], chains: int, stitch: str) -> tuple[str | None, str]:
    """What the text says the chain is, and the stitch it names; (None, "") where it says nothing."""
    if chain.counts is not None:
        return ("stitch" if chain.counts else "none"), chain.stands_for
    rule = rule_for(rules, chains, stitch)
    if rule is not None:
        return ("stitch" if rule.counts else "none"), rule.stitch
    return None, ""


def _told_by_join(opening: Opening) -> str | None:
    """A round that is joined in its beginning chain counts it; one joined in its first stitch does not."""
    joins = [step for step in opening.rest if isinstance(step, Join)]
    last = next((step for step in reversed(opening.rest) if isinstance(step, Work | Group | Repeat | Join)), None)
    slipped = isinstance(last, Work) and last.stitch == "sl st" and last.where.how == "top" and last.where.nth != 1
    if slipped or (joins and joins[-1].where.how == "top"):
        return "stitch"
    if joins and joins[-1].where.how == "first" and joins[-1].where.what[0].kind not in ("st", "ch"):
        return "none"
    return None


def _stand_for_stitch(worker: RowWorker, opening: Opening, chain: Chain, chains: int, stitch: str, named: bool) -> None:
    height = height_of(stitch)
    extra = chain.then or (max(0, chains - height) if height else 0)
    follows = first_placed(opening.rest)
    whats: tuple[What, ...] = (What("st"), What("sp"))
    if (
        isinstance(follows, Work | Group)
        and follows.where.how == "same"
        and follows.where.what[0].kind in ("sp", "ch-sp", "corner")
    ):
        whats = follows.where.what
    slips = [step for step in opening.before if isinstance(step, Work) and step.stitch == "sl st"]
    is_there = bool(slips) and slips[-1].where.what[0].kind in ("sp", "ch-sp", "corner")
    stands_on_slip = bool(slips) and worker.is_row and not is_there and slips[-1].where.how in ("next", "first")
    is_last = (is_there and whats[0].kind != "st") or stands_on_slip
    place = worker.last if is_last and worker.last is not None else worker.walk.find(whats)
    if place is None and whats[0].kind == "sp":
        place = worker.walk.find((What("st"),))  # "join in any sp between dc, ch 3, dc in same sp": beside a stitch
    shared = is_there and _begins_there(worker, follows)
    place = worker.walk.place_at(worker.walk.at, follows.where.what[0]) if shared and follows else place
    into: tuple[int, ...] = ()
    if place is not None:
        into = tuple(worker.walk.order[place[0] : place[1]])
        worker.walk.at = place[0] if shared else place[1]
        worker.last = place
        worker.covered = True
    worker.making.add_opening(chains, worker.colour_here(place), "stitch", stitch, into, extra)


def _begins_there(worker: RowWorker, follows: Work | Group | Skip | None) -> bool:
    """ "Sl st to corner, ch 3, 2 dc in corner sp": do the first stitches go into the space that the round begins in?"""
    if not isinstance(follows, Work | Group) or worker.is_row or worker.walk.at >= len(worker.walk.order):
        return False
    where = follows.where
    return where.how == "next" and where.count == (1,) and worker.walk.matches(worker.walk.at, where.what[0])


def without_articles(steps: Sequence[Node]) -> list[Node]:
    """The steps that do something."""
    return without_asides(steps)


def default_choices(opening: Opening, size: int, known: dict[int, str], preferred: Choices) -> Choices:
    """The reading to try first for a row."""
    if opening.chain is None:
        return preferred
    chains = at_size(opening.chain.count, size)
    turning = prefer_turning(opening, chains, known.get(chains))
    return replace(preferred, turning=turning)
