"""How the counts of a piece are taken: what the count of one row has fixed holds for the rows after it.

A count fixes a way where the row comes out in that way alone: with its chain spaces counted, or with the chain at its
start as a stitch. A later row that comes out only the other way has another mistake in it, or counts otherwise.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from booklet.model.parsed import Row
from booklet.model.tree import Node
from booklet.model.work import Fabric
from booklet.working.beginnings import first_work
from booklet.working.outcome import fits
from booklet.working.setting import Outcome, Setting

Key = tuple[object, ...]


@dataclass(frozen=True, slots=True)
class Held:
    """A row that came out, and the way in which it did: `value` of one point of its reading."""

    value: object
    label: str
    row: Row
    steps: tuple[Node, ...]
    below: Fabric
    turned: bool
    size: int
    setting: Setting
    outcome: Outcome

    def allows(self, point: str, value: object) -> bool:
        """Does the row come out in the other way too, so that it fixes none?"""
        choices = replace(self.outcome.choices, **{point: value})  # type: ignore[arg-type]
        return fits(self.row, self.steps, self.below, self.turned, self.size, self.setting, choices)


def list_ways(row: Row, steps: Sequence[Node], outcome: Outcome) -> Iterator[tuple[str, Key]]:
    """The points that a row's count may fix, each with what must be alike in the rows that it is fixed for."""
    if outcome.problems or row.stated is None or row.stated.plus:
        return
    if "chains" in outcome.open_points:
        yield "chains", ("chains", *(what.kind for _, what in row.stated.items))
    if "turning" in outcome.open_points and outcome.turning_chain > 1:
        work = first_work(steps)
        yield "turning", ("turning", outcome.turning_chain, work.stitch if work else "", row.label.kind)


def is_same_way(held: Held, row: Row) -> bool:
    """Do two rows of one section give one number, so that the same is counted in both?"""
    if held.row.stated is None or row.stated is None:
        return False
    return held.row.section == row.section and held.row.stated.items == row.stated.items
