"""What a row is worked in, and what comes of it."""

from collections.abc import Mapping
from dataclasses import dataclass, field

from booklet.model.parsed import ChainRule, StitchDefinition
from booklet.model.tree import Node
from booklet.model.work import Fabric
from booklet.working.choices import Choices
from booklet.working.group_counts import Form
from booklet.working.looking import list_form
from booklet.working.problems import Problem


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


# Rows worked before, with what keeps the ids in their keys alive.
Memo = dict[tuple[object, ...], tuple[Outcome, Fabric, tuple[Node, ...]]]
