"""How high a row is: as its gauge says, and where it edges another fabric, as high as its own stitches are.

A border of single crochet round a blanket of double crochet is measured by the blanket's gauge, because no
other is given, but its rounds are not as high as the blanket's rows. Its height is that of the gauge, less or
more as its stitches are lower or taller than those that the gauge was taken in.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache

from booklet.amounts.gauges import Extent, find_gauge, is_row, measure_rows
from booklet.amounts.scales import read_stitch, yarn_of
from booklet.amounts.tally import list_yarn
from booklet.model.pattern import Gauge, Pattern
from booklet.model.work import Fabric, WorkedPart, WorkedPattern, WorkedRow
from booklet.terms import load_table

EDGING_WORDS = ("edging", "edge", "border", "trim")


@dataclass(frozen=True, slots=True)
class Ruler:
    """A pattern's gauges, and by the name of each the height of its fabric's stitches by the table, in inches."""

    pattern: Pattern
    fabric_heights: Mapping[str, float]


def make_ruler(pattern: Pattern, worked: WorkedPattern) -> Ruler:
    """Each gauge with the stitch that it names, else with the mean over all rows it measures that are no border."""
    if not any(is_edging(part) or split_rounds(rows)[1] for part in worked.parts for rows in part.rows):
        return Ruler(pattern, {})  # no border asks for it
    heights: dict[str, tuple[float, int]] = {}
    for part in worked.parts:
        for rows in part.rows if not is_edging(part) else ():
            flat, _ = split_rounds(rows)
            for row in flat:
                gauge = find_gauge(pattern, part, row)
                height, number = sum_heights(row.fabric)
                if gauge is not None and number and not is_edging_row(row):
                    before, count = heights.get(gauge.name, (0.0, 0))
                    heights[gauge.name] = (before + height, count + number)
    means = {name: total / count for name, (total, count) in heights.items()}
    for gauge in pattern.gauges:
        named = read_stitch(gauge.stitch, pattern.terms)
        if named and yarn_of(named).height:
            means[gauge.name] = yarn_of(named).height
    return Ruler(pattern, means)


def measure_height(ruler: Ruler, part: WorkedPart, row: WorkedRow, is_border: bool) -> Extent | None:
    """The height of one row; None where its gauge counts no rows or there is no gauge."""
    gauge = find_gauge(ruler.pattern, part, row)
    height = measure_rows(1, gauge) if gauge is not None else None
    if height is None or gauge is None or not is_border:
        return height
    return height.times(compare_height(ruler, gauge, row))


def compare_height(ruler: Ruler, gauge: Gauge, row: WorkedRow) -> float:
    """How many times as high the row's stitches are as those of the gauge's fabric; 1 where it is not known."""
    fabric = ruler.fabric_heights.get(gauge.name, 0.0)
    total, number = sum_heights(row.fabric)
    if not fabric or not row.fabric.yarn:
        return 1.0
    if not number:  # slip stitches and chains alone
        return float(load_table("yarn_lengths")["slip_edge"]["height_in"]) / fabric
    return total / number / fabric


@lru_cache(maxsize=512)  # equal rows share their fabric
def sum_heights(fabric: Fabric) -> tuple[float, int]:
    """The heights of the row's stitches together, and how many there are; chains and slip stitches have none."""
    heights = [(yarn_of(kind).height, number) for (_, kind), number in list_yarn(fabric).items()]
    return (
        sum(height * number for height, number in heights if height),
        sum(number for height, number in heights if height),
    )


def split_rounds(rows: Sequence[WorkedRow]) -> tuple[Sequence[WorkedRow], Sequence[WorkedRow]]:
    """The rows, and the rounds at the end that go round them; all in the first where there are no rows."""
    at = len(rows)
    while at and rows[at - 1].kind == "round":
        at -= 1
    return (rows[:at], rows[at:]) if any(is_row(row) for row in rows[:at]) else (rows, ())


def is_edging(part: WorkedPart) -> bool:
    """True for a part that is worked on to the edge of others; its stitches are no measure of its own."""
    return has_edging_word(part.title)


def is_edging_row(row: WorkedRow) -> bool:
    """True for a row under a heading of its own that calls it an edging."""
    return has_edging_word(row.section)


def has_edging_word(title: str) -> bool:
    return any(word in EDGING_WORDS for word in title.lower().split())
