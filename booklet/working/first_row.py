"""The chains skipped at the start of a first row: a stitch, a space, or neither."""

from collections.abc import Sequence

from booklet.model.parsed import ChainRule
from booklet.model.tree import SPACE, FastenOff, Group, Node, Repeat, Skip, SkippedCount, Work, at_size
from booklet.rows.row import list_works
from booklet.rows.sections import count_along
from booklet.working.beginnings import QUIET, first_chain, first_placed, first_work, rule_for
from booklet.working.kinds import height_of, kind_of
from booklet.working.row import RowWorker


def open_first_row(worker: RowWorker, steps: Sequence[Node], rules: Sequence[ChainRule]) -> int:
    """The chains skipped at the start of a first row; gives how many of them are not offered as places.

    "Dc in 4th ch from hook": 3 chains are skipped, and count as a dc or not by the words beside
    it, by the pattern's rule for ch 3, or else by the choice under trial.
    """
    placed = first_placed(steps)
    nth, stitch = _first_nth(placed, steps)
    if (defined := worker.definitions.get(stitch)) and (inner := first_work(defined.steps)):
        stitch = inner.stitch  # as tall as the stitch that the group begins with
    if nth < 2:
        worker.walk.at = _turning_chain_left(worker, steps)
        nth = worker.walk.at + 1
    if nth < 2:
        return 0
    skipped = nth - 1
    height = height_of(stitch)
    said = next((step for step in steps if isinstance(step, SkippedCount)), None)
    if run := _find_first_space(worker, steps, said, skipped, height):
        worker.making.add_opening(skipped, worker.colour, "space", "ch", (), run, free=True)
        worker.making.loops[-1].spans = run
        return skipped - run
    if said is not None:
        counts, named = said.counts, said.stitch
    elif height <= 1:
        counts, named = False, ""
    elif rule := rule_for(rules, skipped, stitch):
        counts, named = rule.counts, rule.stitch
    elif skipped < 2:
        counts, named = False, ""  # one skipped chain is too low for any stitch but the sc, and never counts as that
    else:
        worker.open_points.add("skipped")
        counts, named = (skipped >= height) == worker.choices.skipped, ""
    worker.skipped_count = counts
    start = min(skipped - 1, len(worker.walk.order) - 1)
    colour = worker.walk.site(start).colour if worker.keep_colours else worker.colour
    if counts:
        kind = named or kind_of(stitch).base
        height = height_of(kind) or height  # as tall as the stitch they stand for, not the one that comes next
        run, base = _space_after(steps, skipped, height, said.then if said and (said.stitch or said.then) else None)
        under = worker.walk.order[skipped - 1 - base : skipped - base]
        worker.making.add_opening(height + run, colour, "stitch", kind, tuple(under), run, free=True)
        if run and base == run:
            worker.making.loops[-1].spans = run
        return max(0, skipped - 1 - base)
    if skipped > 1:
        worker.making.add_opening(skipped, colour, "none", "ch", (), 0, free=True)
    return skipped


def _find_first_space(
    worker: RowWorker, steps: Sequence[Node], said: SkippedCount | None, skipped: int, height: int
) -> int:
    """The chains of the space that the skipped chains of a first row are; 0 where they are none.

    Where nothing is said of them, before "sc in 4th ch, *ch 1, sk next ch, sc in next ch", the count tells.
    """
    if said is not None:
        return min(said.then, skipped) if said.counts and said.stitch == SPACE else 0
    run = first_chain(steps)
    chains = at_size(run.count, worker.size) if run else 0
    if height != 1 or not chains or skipped != 2 * chains + 1:
        return 0
    worker.open_points.add("gap")
    return chains if worker.choices.gap else 0


def _turning_chain_left(worker: RowWorker, steps: Sequence[Node]) -> int:
    """ "Ch 9, turn, 8 sc": the chain that a row of single crochet, told by numbers alone, leaves over to turn with"""
    works = list_works(steps)
    if not works or works[0].stitch not in ("sc", "sl st", "inc", "dec") or not worker.is_row:
        return 0
    told = [step for step in steps if not isinstance(step, (*QUIET, FastenOff))]
    if any(isinstance(step, Repeat) for step in told):
        return 1 if count_along(told, worker.size) == len(worker.walk.order) - 1 else 0
    if not all(isinstance(step, Work) and step.where.bare and step.where.how == "next" for step in told):
        return 0
    used = sum(at_size(work.where.count, worker.size) * kind_of(work.stitch).uses for work in works)
    return 1 if used == len(worker.walk.order) - 1 else 0


def _space_after(steps: Sequence[Node], skipped: int, height: int, said: int | None) -> tuple[int, int]:
    """Chains of the space beside the stitch that skipped chains stand for, and the foundation chains under it.

    "Dc in 8th ch" before "ch 2, sk 2": 7 chains are the dc (3), its ch-2 space, and 2 under that.
    """
    extra = max(0, skipped - height)
    if said is not None:
        return said, max(0, extra - said) if said else 0
    chain = first_chain(steps)
    if chain is None:
        return 0, extra  # "V-st in 5th ch": no spaces outside of groups, so what is more than a dc is skipped under it
    if extra < 2:
        return extra, 0
    run = at_size(chain.count, 0)
    return (run, extra - run) if run < extra else (extra, 0)


def _first_nth(placed: Work | Group | Skip | None, steps: Sequence[Node]) -> tuple[int, str]:
    """n and the stitch of "stitch in nth ch", or of "sk n-1 ch, stitch in next ch"."""
    if (
        isinstance(placed, Work | Group)
        and placed.where.how == "nth"
        and (placed.where.from_hook or placed.where.what[0].kind == "ch")
    ):
        stitch = placed.stitch if isinstance(placed, Work) else getattr(first_work(placed.steps), "stitch", "sc")
        return placed.where.nth, stitch
    if isinstance(placed, Skip) and placed.where.how in ("next", "first") and placed.where.what[0].kind in ("ch", "st"):
        follows = first_work(steps)
        return at_size(placed.where.count, 0) + 1, follows.stitch if follows else "sc"
    return 0, ""
