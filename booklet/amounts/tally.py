"""The stitches of one size, counted: by gauge, colour and kind, and the strands of each colour joined.

A strand is joined where a colour comes in that the row below did not have, and once more for every
further block of that colour in the row. Blocks narrower than `CARRIED_BLOCK` stitches are taken as worked
with the yarn carried along, as colour patterns are. Stripes are taken as cut and joined, which needs a
little more yarn than carrying up the side.
"""

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import groupby

from booklet.amounts.gauges import count_width, find_gauge, is_row
from booklet.amounts.room import find_room
from booklet.model.pattern import Pattern
from booklet.model.work import Fabric, WorkedPattern, WorkedRow

CARRIED_BLOCK = 6


@dataclass(frozen=True, slots=True)
class Tally:
    """What one size takes, all pieces made as often as they are made.

    `gauge` in the keys is the gauge's name, None where no gauge measures the row.
    """

    worked: Mapping[tuple[str | None, str, str], int]  # (gauge, colour, kind) -> how many
    places: Mapping[str | None, int]  # gauge -> stitches side by side, over all rows
    joins: Mapping[str, int]  # colour -> strands joined
    room: tuple[float, str] | None = None  # square inches for one stitch where no gauge is stated, and whence known

    @property
    def colours(self) -> tuple[str, ...]:
        return tuple(dict.fromkeys(colour for _, colour, _ in self.worked))


def count_size(pattern: Pattern, worked: WorkedPattern, size: int) -> Tally:
    """The tally of one size."""
    kinds: Counter[tuple[str | None, str, str]] = Counter()
    places: Counter[str | None] = Counter()
    joins: Counter[str] = Counter()
    for part in worked.parts:
        rows = part.rows[size]
        alike: Counter[tuple[str | None, Fabric, bool]] = Counter()  # equal rows share their fabric
        for row in rows:
            gauge = find_gauge(pattern, part, row)
            alike[gauge.name if gauge else None, row.fabric, is_row(row)] += part.make
        for (name, fabric, adds_height), times in alike.items():
            for (colour, kind), number in list_lengths(fabric).items():
                for strand in colour.split("+"):  # "A+B": two strands held together
                    kinds[name, name_colour(pattern, strand), kind] += number * times
            if adds_height:
                places[name] += count_width(fabric) * times
        for colour, number in count_joins(rows).items():
            for strand in colour.split("+"):
                joins[name_colour(pattern, strand)] += number * part.make
    return Tally(kinds, places, joins, find_room(pattern, worked, size))


def list_yarn(fabric: Fabric) -> Mapping[tuple[str, str], int]:
    """What the row took; a row on trust was not worked, so the stitches it is said to have stand for it."""
    return fabric.yarn or Counter((site.colour, site.kind) for site in fabric.sites if site.counts)


def list_lengths(fabric: Fabric) -> Mapping[tuple[str, str], int]:
    """What the row took, stitches that were worked further down told from the others: `1-row long sc`."""
    if not fabric.long:
        return list_yarn(fabric)
    kinds = Counter(list_yarn(fabric))
    for (colour, kind, rows), number in fabric.long.items():
        kinds[colour, kind] -= number
        kinds[colour, f"{rows}-row long {kind}"] += number
    return +kinds


def name_colour(pattern: Pattern, colour: str) -> str:
    """The letter that yarn is bought under: the only colour's where the rows name none."""
    if not colour and len(pattern.colours) == 1:
        return pattern.colours[0].letter
    return colour


def count_joins(rows: Sequence[WorkedRow]) -> Counter[str]:
    """Strands of each colour that begin in the piece."""
    joins: Counter[str] = Counter()
    below: Mapping[str, int] = {}
    seen: dict[int, Mapping[str, int]] = {}  # equal rows share their fabric
    for row in rows:
        strands = seen.get(id(row.fabric))
        if strands is None:
            strands = seen[id(row.fabric)] = count_strands(row.fabric, row.kind == "round")
        if not strands:
            continue
        for colour, number in strands.items():
            joins[colour] += max(0, number - below.get(colour, 0))
        below = strands
    return joins


def count_strands(fabric: Fabric, is_round: bool) -> Mapping[str, int]:
    """Strands of each colour in use along a row."""
    blocks = list(iterate_blocks(fabric))
    if not blocks:
        return {colour: 1 for (colour, _), number in fabric.yarn.items() if number}
    if is_round and len(blocks) > 1 and blocks[0][0] == blocks[-1][0]:
        blocks[0] = (blocks[0][0], blocks[0][1] + blocks.pop()[1])
    if sum(length for _, length in blocks) < CARRIED_BLOCK * len(blocks):
        return {colour: 1 for colour, _ in blocks}
    return Counter(colour for colour, _ in blocks)


def iterate_blocks(fabric: Fabric) -> Iterator[tuple[str, int]]:
    """Runs of one colour along the row, with how many loops each is long."""
    for colour, run in groupby(loop.colour for loop in fabric.stitches or fabric.sites):
        yield colour, sum(1 for _ in run)
