"""Tables of sizes: measures of bodies and beds by size, each figure with its source and trust."""

from collections.abc import Mapping
from dataclasses import dataclass

from booklet.model.measure import Length

MEMORY = "memory"  # the trust of a figure that was not seen in its source
OWN = "own"  # the trust of a figure in a publisher's or a pattern's own table


@dataclass(frozen=True, slots=True)
class TableFigure:
    """One measure of one size, `low` and `high` alike where the table gives no range."""

    low: Length
    high: Length
    source: str
    trust: str  # seen, secondary, memory, computed or own

    @property
    def middle(self) -> Length:
        """What a size takes from a range."""
        return Length((self.low.amount + self.high.amount) / 2, self.low.unit)


@dataclass(frozen=True, slots=True)
class SizeTable:
    """A table by its name; `sizes` hold the figures of each size by measure, smallest size first.

    `kind` is "body" where ease is still to be added, "finished" where the figures are those of the piece.
    """

    name: str
    title: str
    kind: str
    sizes: Mapping[str, Mapping[str, TableFigure]]
    source: str = ""
    date: str = ""
    note: str = ""
    aliases: tuple[str, ...] = ()
    is_own: bool = False

    @property
    def measures(self) -> tuple[str, ...]:
        """The names of its measures, each once."""
        return tuple(dict.fromkeys(name for figures in self.sizes.values() for name in figures))
