"""One row over one row below: worked under the readings it allows, the best of them kept."""

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace

from booklet.model.parsed import ChainRule, Row, StitchDefinition
from booklet.model.places import CORNER_SPACE
from booklet.model.tree import (
    Aside,
    Chain,
    FastenOff,
    Group,
    Join,
    KeepColours,
    Node,
    Repeat,
    Ring,
    SkippedCount,
    TakeColour,
    Turn,
    What,
    Work,
    at_size,
)
from booklet.model.work import Fabric
from booklet.rows.walking import walk_steps
from booklet.working.beginnings import Opening, first_work, is_ring, split_opening
from booklet.working.choices import Choices, other_readings
from booklet.working.counting import check_stated
from booklet.working.group_counts import Form
from booklet.working.kinds import DECREASES
from booklet.working.looking import close_last_loop, list_form, list_stitches
from booklet.working.making import EMPTY, RING, finish_fabric, foundation_fabric
from booklet.working.marks import place_marks
from booklet.working.opening import default_choices, open_first_row, open_row, without_articles
from booklet.working.problems import Problem
from booklet.working.row import RowWorker
from booklet.working.turning import split_end
from booklet.working.walk import Walk, find_corner_spaces, find_corners


@dataclass(frozen=True)
class Setting:
    """What a row is worked in: the pattern's rules, and what has been settled in this piece so far."""

    rules: tuple[ChainRule, ...] = ()
    definitions: Mapping[str, StitchDefinition] = field(default_factory=dict)
    preferred: Choices = Choices()
    turning: tuple[tuple[int, str], ...] = ()  # (chains, what such an undeclared turning chain turned out to be)
    colour: str = ""
    base: str = "sc"
    size_names: tuple[str, ...] = ()
    edges: tuple[
        str, ...
    ] = ()  # the stitch of each row of the piece, from the first up, where a row goes along its side
    loops: int = 0  # free loops of the foundation
    row_loop: str = ""  # the loop that a row has named for all rows that follow
    pieces: Mapping[str, int] = field(default_factory=dict)  # by title: stitches in the last row of earlier pieces
    unworked: int = 0  # stitches left, by the rows so far, at the end that this row works to
    title: str = ""  # of the piece itself, in small letters
    decided: frozenset[str] = frozenset()  # open points that counts have decided before

    @property
    def group_forms(self) -> Mapping[str, Form]:
        """The stitches of each of the pattern's groups, where it is worked in one place."""
        return {
            name: list_form(definition.steps)
            for name, definition in self.definitions.items()
            if definition.steps and definition.in_one_place
        }

    @property
    def key(self) -> tuple[object, ...]:
        """What of the setting can change how a row comes out."""
        return self.preferred, self.turning, self.colour, self.base, self.decided, self.row_loop, self.rules


@dataclass(frozen=True)
class Outcome:
    """A worked row: `problems` is empty where all is well; `settled` names the open points that its counts decided."""

    fabric: Fabric
    used: int
    left: int
    problems: tuple[Problem, ...]
    choices: Choices
    open_points: frozenset[str] = frozenset()
    settled: frozenset[str] = frozenset()
    asks: frozenset[str] = frozenset()
    colour: str = ""
    base: str = ""
    turning_chain: int = 0
    makes: bool = True
    skipped_count: bool = False
    trials: int = 1  # readings that were tried
    usual: "Outcome | None" = None  # the row under the reading that was preferred, where another one was taken
    along: bool = False  # worked along an edge of the piece, not over the row below


PLAIN = ("sc", "hdc", "dc", "tr", "dtr")  # a count by such a name holds no slip stitches
FEWEST_SPACES = 4  # worked into, before one that is left is missed

# Rows worked before, with what keeps the ids in their keys alive.
Memo = dict[tuple[object, ...], tuple[Outcome, Fabric, tuple[Node, ...]]]


def work_row(row: Row, steps: Sequence[Node], below: Fabric, turned: bool, size: int, setting: Setting) -> Outcome:
    """The row under the first reading that agrees with all that is known, or else under the likeliest."""
    steps = close_last_loop(without_articles(steps))
    if below is EMPTY or not below.sites:
        foundation = _work_foundation(row, steps, size, setting)
        if foundation is not None:
            return foundation
    if is_foundation(below) and is_ring(steps) and _works_into_chain(steps):
        steps = tuple(step for step in steps if not isinstance(step, Ring | Join) or step is steps[-1])
        turned = False  # "Join to form a ring; sc in each ch around": into the chain, not into the ring
    elif is_foundation(below) and is_ring(steps):
        return _best_ring(row, split_opening(steps), size, setting)
    opening = split_opening(steps)
    preferred = default_choices(opening, size, dict(setting.turning), setting.preferred)
    first = _work_once(row, opening, below, turned, size, setting, preferred)
    if is_foundation(below) and row.label.kind == "round" and first.problems and first.problems[0].kind == "too-few":
        ring = _best_ring(row, opening, size, setting)
        if not ring.problems and row.stated is not None:
            return ring  # "Ch 4, join. Rnd 1: Ch 3, 11 dc": into the ring, as their number says
    first = _without_travel(row, opening, first, turned)
    if not first.open_points:
        return first
    if not first.problems:
        return first if row.stated else replace(first, asks=_asks(row, opening, below, turned, size, setting, first))
    trials = 1
    for choices in other_readings(preferred, first.open_points):
        other = _work_once(row, opening, below, turned, size, setting, choices)
        trials += 1
        if not other.problems:
            changed = frozenset(
                name for name in first.open_points if getattr(choices, name) != getattr(preferred, name)
            )
            return replace(other, settled=changed, trials=trials, usual=first)
    return replace(first, trials=trials)


def _without_travel(row: Row, opening: Opening, first: Outcome, turned: bool) -> Outcome:
    """The outcome, with the slip stitches at the start no open point where they cannot be stitches of the row.

    A count by names has none of them in it, and a round that begins with a chain begins behind them.
    """
    named = row.stated is not None and all(what.kind in PLAIN for _, what in row.stated.items)
    is_round = not turned and row.label.kind != "row"
    if "travel" in first.open_points and (named or (is_round and opening.chain is not None)):
        return replace(first, open_points=first.open_points - {"travel"})
    return first


def fits(
    row: Row, steps: Sequence[Node], below: Fabric, turned: bool, size: int, setting: Setting, choices: Choices
) -> bool:
    """Does the row come out under this one reading? A row that makes its own foundation is taken to."""
    if below is EMPTY or not below.sites:
        return True
    steps = without_articles(steps)
    if is_foundation(below) and is_ring(steps):
        below, turned = RING, False
    return not _work_once(row, split_opening(steps), below, turned, size, setting, choices).problems


def _works_into_chain(steps: Sequence[Node]) -> bool:
    """Does the first stitch go into a chain of the foundation?"""
    first = next((work for work in list_stitches(steps) if work.stitch != "sl st"), None)
    return first is not None and first.where.how in ("each", "next", "first") and first.where.what[0].kind == "ch"


def _asks(
    row: Row, opening: Opening, below: Fabric, turned: bool, size: int, setting: Setting, first: Outcome
) -> frozenset[str]:
    """Open points where another reading works out just as well and gives another count."""
    asks: set[str] = set()
    known = {point for point, _ in setting.turning} | setting.decided
    doubtful = first.open_points & {"turning", "skipped", "more"} - setting.decided
    if first.turning_chain < 2 or first.turning_chain in known:
        doubtful -= {"turning"}
    for choices in other_readings(first.choices, doubtful):
        if choices.turning == "chains":
            continue
        other = _work_once(row, opening, below, turned, size, setting, choices)
        if not other.problems and other.fabric.made != first.fabric.made:
            asks.update(name for name in first.open_points if getattr(choices, name) != getattr(first.choices, name))
    return frozenset(asks)


def _work_once(
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
        heel = last.stitch in DECREASES or last.stitch.endswith("2tog")  # "sc in first 7 sts, sc2tog, turn. (8 sts)"
        again = placed[0].where.how in ("same", "join", "first") if isinstance(placed[0], Work) else False
        part = len(placed) == 2 and again and left >= at_size(last.where.count, size)  # "in same st and in next 9 sts"
        if len(placed) == 1 or (heel and len(placed) == 2) or part:
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
    base = first_work(steps)
    stitch = base.stitch if base and base.stitch not in ("sl st", "st") else setting.base
    worker = RowWorker(below, walk, size, choices, stitch, setting.colour, dict(setting.definitions))
    worker.edges, worker.loops = setting.edges, setting.loops
    worker.row_loop, worker.is_counted = setting.row_loop, row.stated is not None
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


def _work_foundation(row: Row, steps: Sequence[Node], size: int, setting: Setting) -> Outcome | None:
    """The foundation: a chain in one or several colours, a ring, or foundation stitches, perhaps with a first row."""
    chains: list[tuple[str, int]] = []
    said: list[Node] = []
    colour = setting.colour
    rest = list(steps)
    while rest and isinstance(rest[0], Chain | TakeColour | Turn):
        step = rest.pop(0)
        if isinstance(step, TakeColour):
            colour = step.letter
        elif isinstance(step, Chain):
            chains.append((colour, at_size(step.count, size)))
            if step.counts is not None:  # "ch 3 (counts as dc), 11 dc in 3rd ch from hook"
                said = [SkippedCount(step.span, step.counts, step.stands_for, step.then)]
    if chains and any(isinstance(step, Work | Group) and step.where.from_hook for step in rest[:1]):
        rest = [*said, *rest]
    works = any(not isinstance(step, TakeColour | Turn | FastenOff) for step in rest)
    if chains and rest and _closes(rest[0]):
        rest = rest[1:]
        if not any(isinstance(step, Work | Group | Repeat) for step in rest):
            # Worked into as a ring or chain by chain: the next round tells.
            closed = foundation_fabric(chains)
            problems = check_stated(row.stated, closed, 0, size)
            return Outcome(closed, 0, 0, tuple(problems), setting.preferred, colour=colour, base=setting.base)
        return _best_ring(row, split_opening([*_take_up_colour(row, colour), *rest]), size, setting)
    if is_ring(rest):
        kept: list[Node] = [s for s in steps if not isinstance(s, Ring)]
        if not any((isinstance(s, Work) and s.stitch != "sl st") or isinstance(s, Repeat | Group) for s in kept):
            return Outcome(RING, 0, 0, (), setting.preferred, colour=colour, base=setting.base, makes=bool(row.stated))
        return _best_ring(row, split_opening([*_take_up_colour(row, colour), *kept]), size, setting)
    if not chains:
        if works and first_work(rest) is not None:
            return _work_once(
                row, split_opening(rest), EMPTY, False, size, replace(setting, colour=colour), setting.preferred
            )
        return None
    below = foundation_fabric(chains)
    if not works:
        problems = check_stated(row.stated, below, 0, size)
        return Outcome(below, 0, 0, tuple(problems), setting.preferred, colour=colour, base=setting.base)
    inner = replace(setting, colour=colour)
    first = work_row(row, rest, below, True, size, inner)
    yarn = dict(first.fabric.yarn)
    for key, number in below.yarn.items():
        yarn[key] = yarn.get(key, 0) + number
    return replace(first, fabric=replace(first.fabric, yarn=yarn))


def _best_ring(row: Row, opening: Opening, size: int, setting: Setting) -> Outcome:
    preferred = default_choices(opening, size, dict(setting.turning), setting.preferred)
    first = _work_once(row, opening, RING, False, size, setting, preferred)
    if first.problems:
        for choices in other_readings(preferred, first.open_points):
            other = _work_once(row, opening, RING, False, size, setting, choices)
            if not other.problems:
                changed = frozenset(n for n in first.open_points if getattr(choices, n) != getattr(preferred, n))
                return replace(other, settled=changed)
    return first


def _closes(step: Node) -> bool:
    """Is a foundation chain closed: "sl st in first ch", "join with sl st to form ring"?"""
    if isinstance(step, Join) or (isinstance(step, Ring) and step.chains > 0):
        return True
    if not isinstance(step, Work) or step.stitch != "sl st":
        return False
    return step.where.how in ("first", "ring", "join") or (step.where.how == "nth" and step.where.nth == 1)


def _take_up_colour(row: Row, colour: str) -> list[Node]:
    return [TakeColour(row.span, colour)] if colour else []
