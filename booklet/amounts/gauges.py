"""Which gauge measures a row, and lengths from it.

The trade states a gauge over 4 in and 10 cm alike, that is 2.5 cm to the inch; a house or a pattern may ask
for the exact 2.54. A measure is computed in each unit from its count and the gauge; neither figure is ever
converted into the other.
"""

from dataclasses import dataclass
from functools import lru_cache

from booklet.model.pattern import Gauge, Pattern
from booklet.model.work import Fabric, WorkedPart, WorkedRow


@dataclass(frozen=True, slots=True)
class Extent:
    """A length in both units, each from the gauge; they add up piece by piece."""

    cm: float
    inches: float

    def __add__(self, other: "Extent") -> "Extent":
        return Extent(self.cm + other.cm, self.inches + other.inches)

    def times(self, factor: float) -> "Extent":
        return Extent(self.cm * factor, self.inches * factor)


NOTHING = Extent(0.0, 0.0)


def find_gauge(pattern: Pattern, part: WorkedPart, row: WorkedRow | None = None) -> Gauge | None:
    """The gauge that the row names, else its part, else the pattern's only one; None where none is plain."""
    usable = {gauge.name: gauge for gauge in pattern.gauges if gauge.sts > 0 and gauge.over.amount > 0}
    for name in (row.gauge if row else "", part.gauge):
        if name in usable and name:
            return usable[name]
    return next(iter(usable.values())) if len(usable) == 1 else None


def measure_over(gauge: Gauge) -> Extent:
    """The length that the gauge was taken over, in both units by the rule that the gauge follows."""
    cm = gauge.over.cm_at(gauge.cm_per_inch)
    return Extent(cm, cm / gauge.cm_per_inch)


def measure_stitches(stitches: float, gauge: Gauge) -> Extent:
    """The width of so many stitches."""
    return measure_over(gauge).times(stitches / gauge.sts)


def measure_rows(rows: float, gauge: Gauge) -> Extent | None:
    """The height of so many rows; None where the gauge counts no rows."""
    return measure_over(gauge).times(rows / gauge.rows) if gauge.rows else None


@lru_cache(maxsize=512)  # equal rows share their fabric, and it is the same for every measure of them
def count_width(fabric: Fabric) -> int:
    """Stitches that lie side by side along the top of a row, each chain of a chain space included.

    A turning chain that does not count takes no width. A row that was not worked has no sites: what it
    is said to make stands for them.
    """
    return sum(site.counts for site in fabric.sites) or fabric.made


def is_row(row: WorkedRow) -> bool:
    """True for what adds height: every row but a foundation made of chains alone."""
    return row.kind != "foundation" or any(kind != "ch" for _, kind in row.fabric.yarn)
