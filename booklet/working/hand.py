"""The state of a row in hand, and how a part of it is tried and taken back."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any, NamedTuple

from booklet.model.parsed import StitchDefinition
from booklet.model.tree import ANY_STITCH, Group, What, Work
from booklet.model.work import Fabric
from booklet.working.choices import Choices
from booklet.working.making import Making
from booklet.working.problems import Problem
from booklet.working.walk import Place, Walk

Snapshot = tuple[Any, ...]


class Entry(NamedTuple):
    """How the hook goes into a place: the loop named, how many rows below where not the next one, a gap's two sites."""

    loop: str = ""
    down: int = 0
    gap: tuple[int, ...] = ()


class Approach(NamedTuple):
    """How a row came to a space, from a stitch that it had just worked: by which step, past how many stitches."""

    step: Work | Group
    passed: int


class OutOfPlacesError(Exception):
    """Raised inside a trial of a repeat, and caught by the trial."""

    def __init__(self, problem: Problem) -> None:
        super().__init__(problem.kind)
        self.problem = problem


@dataclass(slots=True)
class Hand:
    """What has been done of a row so far. `trial` is how many trials deep the work is."""

    below: Fabric
    walk: Walk
    size: int
    choices: Choices
    base: str  # the stitch that a bare "inc" or "dec" is made of
    colour: str = ""
    definitions: dict[str, StitchDefinition] = field(default_factory=dict)
    making: Making = field(default_factory=Making)
    problems: list[Problem] = field(default_factory=list)
    open_points: set[str] = field(default_factory=set)
    keep_colours: bool = False
    next_colour: str = ""
    last: Place | None = None
    inside: Place | None = None
    cluster: int = -1
    entry: Entry = Entry()
    row_loop: str = ""  # the loop that the row, or the pattern, names for all that follows
    group: str = ""  # the defined stitch that is being worked
    clusters: int = 0
    covered: bool = False  # a counted turning chain stands on the first place
    leaves: bool = False
    trial: int = 0
    in_gap: int = -1  # the position of the place between two stitches that was worked into last
    passed_stitches: bool = False
    passed_chains: bool = False
    joined: bool = False
    edges: tuple[str, ...] = ()
    loops: int = 0
    sides: int = 0  # sides of the piece that the row has gone along
    pieces: Mapping[str, int] = field(default_factory=dict)  # stitches in the last row of the pieces made so far
    unworked: int = 0  # left at this end by the rows below
    title: str = ""  # of the piece in hand
    goes_elsewhere: bool = False  # stitches on other pieces, joined in this row
    goes_along: bool = False  # so many stitches along an edge: its corners are no places of the row below
    tail_from: int | None = None  # where the last so many stitches begin that a repeat was worked up to
    first_use: int | None = None  # the first place used since this was last cleared
    tail_what: What = ANY_STITCH
    tail_missed: int = 0  # of these, the ones passed over without a word
    left_behind: int = 0  # left where the row went on round a corner of the piece
    aside: Walk | None = None  # the row below, while the row works along a chain of its own
    spare: int = 0  # stitches that the next chains stand over
    mixed: bool = True  # the row works stitches other than slip stitches
    is_row: bool = False  # worked back and forth, not round
    skipped: list[Place] = field(default_factory=list)
    revisited: list[Place] = field(default_factory=list)  # skipped places that were worked into after all
    step: Work | Group | None = None  # in hand, not within another
    marks: list[tuple[int, str]] = field(default_factory=list)  # markers put in: behind which loop, and where
    approaches: list[Approach] = field(default_factory=list)
    slipped: int = 0  # stitches that the slip stitches before the chain at the start have just gone along
    begun_in_loop: bool = False  # the chain at the start is a loop of the round, which is joined in it
    is_counted: bool = False  # the row states a count
    from_hook: tuple[int, Place] | None = None  # where a first row began, and the number from the hook
    is_graded: bool = False  # the pattern has several sizes
    skipped_count: bool = False  # the chains skipped in a first row count as a stitch

    def colour_here(self, place: Place | None = None) -> str:
        """The colour in hand, or, in colours as established, that of the stitch below."""
        if not self.keep_colours:
            return self.colour
        position = place[0] if place else min(self.walk.at, len(self.walk.order) - 1)
        below = self.walk.site(position).colour if self.walk.order else ""
        return below or self.colour

    def stands_at(self) -> tuple[int, int]:
        """Where the row has come to: its position over the row below, and the place between stitches last used."""
        return self.walk.at, self.in_gap

    def has_remaining(self) -> bool:
        """Is any site up to the stop left that wants to be worked into?"""
        return any(
            self.walk.is_countable(position) and not self._is_passed(position)
            for position in range(self.walk.at, self.walk.stop)
        )

    def remaining(self) -> int:
        """Sites up to the stop that still want to be worked into."""
        return sum(
            1
            for position in range(self.walk.at, self.walk.stop)
            if self.walk.is_countable(position) and not self._is_passed(position)
        )

    def _is_passed(self, position: int) -> bool:
        is_chain = self.walk.site(position).kind == "ch"
        if not (self.passed_chains if is_chain else self.passed_stitches):
            return False
        tail = range(position, self.walk.stop)
        return all((self.walk.site(p).kind == "ch") == is_chain or not self.walk.is_countable(p) for p in tail)

    def snapshot(self) -> Snapshot:
        return (
            self.walk,
            self.walk.at,
            self.walk.stop,
            self.making.mark(),
            len(self.skipped),
            len(self.revisited),
            len(self.problems),
            len(self.approaches),
            len(self.marks),
            self.colour,
            self.keep_colours,
            self.last,
            self.base,
            self.in_gap,
            self.passed_stitches,
            self.passed_chains,
            self.inside,
            self.cluster,
            self.group,
            self.clusters,
            self.leaves,
            self.next_colour,
            self.tail_missed,
            self.left_behind,
            self.sides,
            self.aside,
            self.aside.at if self.aside is not None else 0,
            self.entry,
            self.row_loop,
            self.joined,
        )

    def restore(self, snapshot: Snapshot) -> None:
        (
            self.walk,
            self.walk.at,
            self.walk.stop,
            mark,
            skipped,
            revisited,
            problems,
            approaches,
            marks,
            self.colour,
            self.keep_colours,
            self.last,
            self.base,
            self.in_gap,
            self.passed_stitches,
            self.passed_chains,
            self.inside,
            self.cluster,
            self.group,
            self.clusters,
            self.leaves,
            self.next_colour,
            self.tail_missed,
            self.left_behind,
            self.sides,
            self.aside,
            aside_at,
            self.entry,
            self.row_loop,
            self.joined,
        ) = snapshot
        if self.aside is not None:
            self.aside.at = aside_at
        self.making.undo_to(mark)
        del self.skipped[skipped:]
        del self.revisited[revisited:]
        del self.problems[problems:]
        del self.approaches[approaches:]
        del self.marks[marks:]

    def note(self, problem: Problem) -> None:
        """Keeps a problem that takes no place from the row, so that a trial goes on."""
        self.problems.append(problem)

    def fail(self, problem: Problem) -> None:
        if self.trial:
            raise OutOfPlacesError(problem)
        self.problems.append(problem)
