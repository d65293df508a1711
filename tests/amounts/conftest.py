"""Patterns and worked fabric built by hand, without reading or working anything."""

from collections import Counter
from collections.abc import Sequence
from pathlib import Path
from typing import Any

import pytest

from booklet.amounts.yarn import measure_yarn
from booklet.model.amounts import YarnUse
from booklet.model.measure import Length
from booklet.model.pattern import Colour, Gauge, Pattern, Size, SizedNumber, SizedPattern, Yarn
from booklet.model.work import Fabric, Site, Stitch, WorkedPart, WorkedPattern, WorkedRow
from booklet.source import SourceFile, Span

TEN_CM = Length(10, "cm")
INCHES_4 = Length(4, "in")
TEXT = "---\ntitle: Lantern Mat\nhas: [small parts, hood cord 20 cm, cord 30 cm]\n---\nRow 1: Sc in each st across.\n"
SOURCE = SourceFile("content/lantern-mat/pattern.md", TEXT, Path("content/lantern-mat"))
SPAN = SOURCE.span(TEXT.index("Row 1"), TEXT.index("Row 1") + 6)


class Maker:
    """Makes the parts of a worked pattern; every argument has a plain default."""

    span: Span = SPAN
    source: SourceFile = SOURCE

    def gauge(
        self, sts: float = 16, rows: float | None = 17, over: Length = TEN_CM, name: str = "", stitch: str = ""
    ) -> Gauge:
        return Gauge(name, sts, rows, over, SPAN, stitch)

    def pattern(self, **facts: Any) -> Pattern:
        return Pattern(SOURCE, "lantern-mat", "Lantern Mat", (), **facts)

    def sized(self, named: Sequence[SizedNumber] = (), **facts: Any) -> SizedPattern:
        return SizedPattern(self.pattern(**facts), {number.name: number for number in named})

    def size(self, name: str, **measures: Length) -> Size:
        return Size(name, measures, SPAN)

    def yarn(self, **facts: Any) -> Yarn:
        return Yarn(SPAN, **facts)

    def colours(self, letters: str) -> tuple[Colour, ...]:
        return tuple(Colour(letter, f"Shade {letter}", "#808080", SPAN) for letter in letters)

    def fabric(self, kinds: Sequence[str], colour: str = "") -> Fabric:
        """A row worked stitch on stitch: every kind is one site; "ch" is a chain over one stitch skipped."""
        sites = tuple(Site(kind, colour, run=1 if kind == "ch" else 0) for kind in kinds)
        stitches = tuple(Stitch(kind, colour, () if kind == "ch" else (at,)) for at, kind in enumerate(kinds))
        counts = Counter(kind for kind in kinds if kind != "ch")
        yarn = Counter((colour, kind) for kind in kinds)
        return Fabric(sites, stitches, counts, {1: kinds.count("ch")}, yarn, len(kinds))

    def row(self, fabric: Fabric, kind: str = "row", gauge: str = "") -> WorkedRow:
        made = fabric.made
        return WorkedRow("Row 1", kind, 1, SPAN, "worked", made, made, 0, made, fabric, gauge=gauge)

    def part(
        self, *sizes: Sequence[WorkedRow], title: str = "", make: int = 1, in_rounds: bool = False, gauge: str = ""
    ) -> WorkedPart:
        return WorkedPart(title, make, tuple(tuple(rows) for rows in sizes), SPAN, in_rounds, gauge)

    def panel(self, kind: str, stitches: int, rows: int, colour: str = "", foundation: str = "ch") -> list[WorkedRow]:
        """A rectangle of one stitch on its foundation; the foundation has its chain alone or is of stitches."""
        row = self.row(self.fabric([kind] * stitches, colour))
        return [self.row(self.fabric([foundation] * stitches, colour), "foundation"), *[row] * rows]

    def moss(self, stitches: int, rows: int, colour: str = "") -> list[WorkedRow]:
        """A rectangle of sc and ch-1 spaces, stitches odd."""
        row = self.row(self.fabric(["sc", "ch"] * (stitches // 2) + ["sc"], colour))
        return [self.row(self.fabric(["ch"] * (stitches + 1), colour), "foundation"), *[row] * rows]

    def rounds(self, kind: str, counts: Sequence[int], colour: str = "") -> list[WorkedRow]:
        return [self.row(self.fabric([kind] * count, colour), "round") for count in counts]

    def worked(self, *parts: WorkedPart, names: Sequence[str] = (), **facts: Any) -> WorkedPattern:
        return WorkedPattern(tuple(parts), stitch_names=tuple(names), **facts)


@pytest.fixture(scope="session")
def make() -> Maker:
    return Maker()


def use_of(make: Any, *parts: Any, **facts: Any) -> YarnUse:
    use, _ = measure_yarn(make.sized(**facts), make.worked(*parts))
    assert use is not None
    return use


def metres_of(make: Any, *parts: Any, **facts: Any) -> float:
    """Metres of the first size, its tails left out."""
    total = next(iter(use_of(make, *parts, **facts).totals.values()))
    return total.metres - total.ends * 0.15
