"""One row over one row below, under one reading."""

from collections import Counter
from collections.abc import Sequence
from dataclasses import replace

from booklet.model.parsed import Row
from booklet.model.places import CORNER_SPACE
from booklet.model.tree import Aside, Group, KeepColours, Node, Repeat, TakeColour, Turn, What, Work, at_size
from booklet.model.work import Fabric
from booklet.rows.walking import walk_steps
from booklet.working.beginnings import Opening, first_work
from booklet.working.choices import Choices
from booklet.working.counting import check_stated
from booklet.working.first_row import open_first_row
from booklet.working.kinds import DECREASES
from booklet.working.looking import list_stitches
from booklet.working.making import finish_fabric
from booklet.working.marks import place_marks
from booklet.working.opening import open_row
from booklet.working.problems import Problem
from booklet.working.row import RowWorker
from booklet.working.setting import Outcome, Setting
from booklet.working.turning import split_end
from booklet.working.walk import Walk, find_corner_spaces, find_corners

FEWEST_SPACES = 4  # worked into, before one that is left is missed


def work_once(
    row: Row, opening: Opening, below: Fabric, turned: bool, size: int, setting: Setting, choices: Choices
) -> Outcome:
    """The row under one reading."""
    steps = [*opening.before, *([opening.chain] if opening.chain else []), *opening.rest]
    worker = _take_up(row, steps, below, turned, size, setting, choices)
    offered = worker.walk.countable(0, len(worker.walk.order))
    if is_foundation(below) and opening.chain is None:
        offered -= open_first_row(worker, steps, setting.rules)
    else:
        open_row(worker, opening, setting.rules)
    worker.work_steps(opening.rest)
    worker.return_from_chain()
    if (worker.joined or not worker.is_row) and not worker.leaves:
        worker.close_round()
    if worker.goes_elsewhere and worker.first_use is None and worker.walk.at == 0:
        worker.leaves = True  # all of it on pieces named, one of which the row below belongs to
    left = worker.walk.countable(worker.walk.at, len(worker.walk.order)) if worker.leaves else worker.remaining()
    if left and left == _left_on_purpose(row, size, left):
        worker.leaves = True
    left += worker.left_behind + worker.tail_missed
    fabric = finish_fabric(worker.making, choices)
    if markers := place_marks(worker.making, worker.marks, below, fabric):
        fabric = replace(fabric, markers=markers)
    problems = list(worker.problems)
    if left and not worker.leaves and not problems:
        problems.append(Problem("left-over", row.span, left))
    spaces = 0 if left or worker.leaves or problems else _count_spaces_left(worker, fabric)
    if spaces:
        problems.append(Problem("left-over", row.span, spaces, what=What("sp")))
    if not problems and (missed := worker.find_missed()):
        problems.append(missed)
    if not problems:
        _, chain, _ = split_end(row)
        added = at_size(chain.count, size) if chain is not None else 0
        problems.extend(check_stated(row.stated, fabric, below.made, size, setting.group_forms, added))
    return Outcome(
        fabric,
        max(0, offered - left),
        left,
        tuple(problems[:1]),
        choices,
        frozenset(worker.open_points | ({"chains"} if fabric.spaces else set())),
        colour=worker.next_colour or worker.colour,
        base=worker.base,
        turning_chain=at_size(opening.chain.count, size) if opening.chain else 0,
        skipped_count=worker.skipped_count,
        along=(worker.goes_along or worker.sides > 0) and not any(stitch.into for stitch in fabric.stitches),
    )


def _count_spaces_left(worker: RowWorker, fabric: Fabric) -> int:
    """Spaces that a round which goes from space to space never reaches, of the size that it works into."""
    if worker.is_row:
        return 0
    walk, used = worker.walk, Counter[int]()
    for run in {stitch.into[0] - worker.below.sites[stitch.into[0]].at for stitch in fabric.stitches if stitch.into}:
        site = worker.below.sites[run] if 0 <= run < len(worker.below.sites) else None
        used[site.run if site is not None and site.kind == "ch" else 0] += 1
    ahead = [walk.site(at).run for at in range(walk.at, len(walk.order)) if walk.starts_run(at)]
    return sum(used[run] >= FEWEST_SPACES for run in ahead)


def _decreases(step: Node) -> bool:
    return isinstance(step, Work) and (step.stitch in DECREASES or step.stitch.endswith("2tog"))


def _left_on_purpose(row: Row, size: int, left: int) -> int:
    """ "… in each st to last 4 sts, turn": how many the row leaves where it turns with nothing worked after them

    Where it does not turn, a count says the same.
    """
    steps = [step for step in row.steps if not isinstance(step, Aside)]
    turns = bool(steps) and isinstance(steps[-1], Turn)
    if len(steps) < 2 or not (turns or row.stated):
        return 0
    last = steps[-2] if turns else steps[-1]
    placed = [step for step in steps if isinstance(step, Work | Group | Repeat)]
    if turns and row.stated and isinstance(last, Work) and last.where.how in ("next", "first"):
        heel = _decreases(last)  # "sc in first 7 sts, sc2tog, turn. (8 sts)"
        again = placed[0].where.how in ("same", "join", "first") if isinstance(placed[0], Work) else False
        part = len(placed) == 2 and again and left >= at_size(last.where.count, size)  # "in same st and in next 9 sts"
        # "Sc in first 12 sts, sc2tog, sc in next st, turn. (14 sts)": the turn of a heel, the last stitch beyond it
        beyond = len(placed) == 3 and _decreases(placed[1]) and at_size(last.where.count, size) == 1
        if len(placed) == 1 or (heel and len(placed) == 2) or part or beyond:
            return left  # "hdc in first 10 sts, turn. (10 hdc)": a short row
    if isinstance(last, Work) and last.where.how == "each":
        return at_size(last.where.leave, size)
    return at_size(last.count, size) if isinstance(last, Repeat) and last.until == "last" else 0


def _take_up(
    row: Row, steps: Sequence[Node], below: Fabric, turned: bool, size: int, setting: Setting, choices: Choices
) -> RowWorker:
    """A worker at the start of the row."""
    order = range(len(below.sites) - 1, -1, -1) if turned else range(len(below.sites))
    corners = find_corners(below.stitches) if _names_corner(steps, What("corner")) else frozenset()
    spaces = find_corner_spaces(below) if _names_corner(steps, CORNER_SPACE) else frozenset()
    walk = Walk(below.sites, tuple(order), turned, each_chain=choices.each, corners=corners, corner_spaces=spaces)
    walk.markers = frozenset(below.markers)
    walk.names = {name: form[0] for name, form in setting.group_forms.items() if len(form) == 1 and form[0] != "ch"}
    base = first_work(steps)
    stitch = base.stitch if base and base.stitch not in ("sl st", "st") else setting.base
    worker = RowWorker(below, walk, size, choices, stitch, setting.colour, dict(setting.definitions))
    worker.edges, worker.loops = setting.edges, setting.loops
    worker.row_loop, worker.is_counted = setting.row_loop, row.stated is not None
    worker.is_graded = len(setting.size_names) > 1
    worker.keep_colours = _keeps_colours(steps)
    worker.mixed = bool(list_stitches(steps))
    worker.pieces, worker.title, worker.unworked = setting.pieces, setting.title, setting.unworked
    worker.goes_elsewhere = any(work.where.how in ("elsewhere", "piece") for work in list_stitches(steps))
    worker.goes_along = any(work.where.how == "along" for work in list_stitches(steps))
    worker.is_row = turned or row.label.kind == "row"
    if any(site.kind == "ch" and site.run and site.counts for site in below.sites):
        worker.open_points.add("each")
    return worker


def _names_corner(steps: Sequence[Node], corner: What) -> bool:
    """Does any step go into a corner, or a space at a corner?"""
    for step in walk_steps(steps):
        if isinstance(step, Work | Group):
            also = step.also if isinstance(step, Work) else ()
            wheres = [step.where, *(work.where for work in also)]
            if any(what == corner for where in wheres for what in (*where.what, where.leave_what)):
                return True
    return False


def _keeps_colours(steps: Sequence[Node]) -> bool:
    return any(isinstance(step, KeepColours) for step in steps) and not any(
        isinstance(step, TakeColour) for step in steps
    )


def is_foundation(below: Fabric) -> bool:
    """Is the row below a foundation chain?"""
    return bool(below.sites) and all(site.kind == "ch" and site.run == 0 and site.chains == 0 for site in below.sites)
