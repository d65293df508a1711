"""Small worked pieces, made by hand stitch by stitch, for drawings to draw."""

from collections import Counter
from pathlib import Path

import pytest

from booklet.drawings.picture import Ink
from booklet.model.measure import Length
from booklet.model.pattern import Colour, Gauge, Pattern, Size, SizedPattern
from booklet.model.work import Fabric, Site, Stitch, WorkedPart, WorkedPattern, WorkedRow
from booklet.source import SourceFile

SOURCE = SourceFile("harebell.md", "---\ntitle: Harebell\n---\n\nRow 1: Sc across.\n")
SPAN = SOURCE.span(0, 3)
GAUGES = (("moss", 16, 17), ("rounds", 14, 11))
FONTS = Path(__file__).parents[2] / "themes" / "fonts"


@pytest.fixture
def ink() -> Ink:
    return Ink(FONTS)


def make_fabric(stitches: list[Stitch], sites: list[Site] | None = None) -> Fabric:
    """A fabric of the stitches; each leaves one site of its kind and colour where none are given."""
    if sites is None:
        sites = [Site(stitch.kind, stitch.colour, 1 if stitch.kind == "ch" else 0) for stitch in stitches]
        stitches = [stitch._replace(top=index) for index, stitch in enumerate(stitches)]
    counts = Counter(stitch.kind for stitch in stitches)
    yarn = Counter((stitch.colour, stitch.kind) for stitch in stitches)
    made = sum(site.counts for site in sites)
    return Fabric(tuple(sites), tuple(stitches), counts, {}, yarn, made)


def make_row(number: int, fabric: Fabric, kind: str = "row", gauge: str = "") -> WorkedRow:
    side = ("RS" if number % 2 else "WS") if kind == "row" else ""
    label = f"{'Row' if kind == 'row' else 'Rnd'} {number}"
    turned = kind == "row" and number > 1
    return WorkedRow(
        label, kind, number, SPAN, "worked", fabric.made, fabric.made, 0, fabric.made, fabric, side, turned, gauge
    )


def make_chain(count: int, colour: str = "") -> WorkedRow:
    fabric = make_fabric([Stitch("ch", colour)] * count)
    return WorkedRow("Foundation", "foundation", None, SPAN, "worked", 0, count, 0, None, fabric)


def plain_row(count: int, kind: str, colours: list[tuple[str, int]], below: int | None = None) -> Fabric:
    """One stitch in each stitch below (`below` of them), colours in working order."""
    letters = [letter for letter, number in colours for _ in range(number)] or [""] * count
    base = count if below is None else below
    stitches = []
    for index, letter in enumerate(letters[:count]):
        # what is made more or less stands at both ends
        at = min(max(index - (count - base) // 2, 0), base - 1)
        stitches.append(Stitch(kind, letter, (base - 1 - at,)))
    return make_fabric(stitches)


def moss_row(count: int, colours: list[tuple[str, int]], is_odd: bool) -> Fabric:
    """sc and ch 1 by turns, each sc in the chain space of the row below."""
    letters = [letter for letter, number in colours for _ in range(number)]
    stitches = []
    for index in range(count):
        is_sc = index in (0, count - 1) or (index % 2 == 0) == is_odd
        kind = "sc" if is_sc else "ch"
        into = (count - 1 - index,) if is_sc else ()
        stitches.append(Stitch(kind, letters[index], into, into_space=is_sc and 0 < index < count - 1))
    return make_fabric(stitches)


def rib_row(count: int, colours: list[tuple[str, int]], is_odd: bool) -> Fabric:
    """FPdc and BPdc by turns, each so that its rib stands out on the right side all the way up."""
    letters = [letter for letter, number in colours for _ in range(number)]
    stitches = [
        Stitch("FPdc" if (index % 2 == 1) == is_odd else "BPdc", letters[index], (count - 1 - index,))
        for index in range(count)
    ]
    return make_fabric(stitches)


def make_blanket(width: int = 61, rows: int = 60, sizes: int = 1) -> WorkedPart:
    """Moss stitch in panels of three colours between two ribbed ends."""
    sized = []
    for size in range(sizes):
        stitches, height = width + 10 * size, rows + 8 * size
        third = stitches // 3
        panels = [("A", third), ("B", stitches - 2 * third), ("C", third)]
        made = [make_chain(stitches, "A")]
        for number in range(1, height + 1):
            colours = panels if number % 2 else panels[::-1]
            if number <= 5 or number > height - 5:
                fabric = rib_row(stitches, [("A", stitches)], number % 2 == 1)
            else:
                fabric = moss_row(stitches, colours, number % 2 == 1)
            made.append(make_row(number, fabric, gauge="moss"))
        sized.append(tuple(made))
    return WorkedPart("Blanket", 1, tuple(sized), SPAN, gauge="moss")


def make_hat(grown: int = 8, even: int = 12, sizes: int = 1, kind: str = "hdc", title: str = "Hat") -> WorkedPart:
    """Rounds of 8, 16, 24 … and then even, the last four in another colour and ribbed."""
    sized = []
    for size in range(sizes):
        made, below = [], 0
        for number in range(1, grown + size + even + 1):
            count = 8 * min(number, grown + size)
            colour = "B" if number > grown + size + even - 4 else "A" if number % 6 else "C"
            stitches = []
            for index in range(count):
                into = () if below == 0 else (index * below // count,)
                name = ("FPdc" if index % 2 else "BPdc") if colour == "B" else kind
                stitches.append(Stitch(name, colour, into))
            made.append(make_row(number, make_fabric(stitches), "round", "rounds"))
            below = count
        sized.append(tuple(made))
    return WorkedPart(title, 1, tuple(sized), SPAN, in_rounds=True, gauge="rounds")


def make_tube(count: int = 40, rounds: int = 20, sizes: int = 1, title: str = "Cowl") -> WorkedPart:
    sized = []
    for size in range(sizes):
        stitches = count + 6 * size
        made = [make_chain(stitches, "A")]
        made += [
            make_row(number, plain_row(stitches, "sc", [("B" if number % 4 < 2 else "A", stitches)]), "round", "moss")
            for number in range(1, rounds + 1)
        ]
        sized.append(tuple(made))
    return WorkedPart(title, 1, tuple(sized), SPAN, in_rounds=True, gauge="moss")


def make_circle(rounds: int = 6, sizes: int = 1, title: str = "Coaster") -> WorkedPart:
    sized = []
    for size in range(sizes):
        made, below = [], 0
        for number in range(1, rounds + size + 1):
            count = 6 * number
            stitches = [
                Stitch("sc", "AB"[number % 2], () if not below else (index * below // count,)) for index in range(count)
            ]
            made.append(make_row(number, make_fabric(stitches), "round", "moss"))
            below = count
        sized.append(tuple(made))
    return WorkedPart(title, 2, tuple(sized), SPAN, in_rounds=True, gauge="moss")


def make_shaped(first: int, last: int, rows: int, title: str = "Sleeve", sizes: int = 1, make: int = 1) -> WorkedPart:
    """A flat piece whose rows grow or shrink evenly at both edges."""
    sized = []
    for size in range(sizes):
        height = rows + 2 * size
        made, below = [make_chain(first + 4 * size, "A")], None
        for number in range(1, height + 1):
            count = first + 2 * round((last - first) / 2 * (number - 1) / max(1, height - 1)) + 4 * size
            made.append(make_row(number, plain_row(count, "sc", [("A", count)], below), gauge="moss"))
            below = count
        sized.append(tuple(made))
    return WorkedPart(title, make, tuple(sized), SPAN, gauge="moss")


def make_square(rounds: int = 5, title: str = "Square") -> WorkedPart:
    """A solid square: (2 dc, ch 2, 2 dc) in each corner."""
    made = []
    for number in range(1, rounds + 1):
        side = max(0, 4 * number - 5) if number > 1 else 0
        stitches: list[Stitch] = []
        colour = "AB"[number % 2]
        for corner in range(4):
            corner_kinds = ["dc", "dc", "ch", "ch", "dc", "dc"]
            stitches += [Stitch(kind, colour, (), cluster=corner) for kind in corner_kinds]
            stitches += [Stitch("dc", colour)] * side
        sites = [Site(stitch.kind, colour, 2 if stitch.kind == "ch" else 0) for stitch in stitches]
        topped = [stitch._replace(top=index) for index, stitch in enumerate(stitches)]
        made.append(make_row(number, make_fabric(topped, sites), "round", "moss"))
    return WorkedPart(title, 1, (tuple(made),), SPAN, in_rounds=True, gauge="moss")


def make_hexagon(rounds: int = 5, sizes: int = 1, title: str = "Hexagon") -> WorkedPart:
    """(dc, ch 2, dc) in each of six corners; each size has a round more."""
    sized = []
    for size in range(sizes):
        made = []
        for number in range(1, rounds + size + 1):
            stitches: list[Stitch] = []
            for corner in range(6):
                stitches += [Stitch(kind, "A", (), cluster=corner) for kind in ("dc", "ch", "ch", "dc")]
                stitches += [Stitch("dc", "A")] * (2 * (number - 1))
            sites = [Site(stitch.kind, "A", 2 if stitch.kind == "ch" else 0) for stitch in stitches]
            topped = [stitch._replace(top=index) for index, stitch in enumerate(stitches)]
            made.append(make_row(number, make_fabric(topped, sites), "round", "moss"))
        sized.append(tuple(made))
    return WorkedPart(title, 1, tuple(sized), SPAN, in_rounds=True, gauge="moss")


def make_border(part: WorkedPart, rounds: int = 3) -> WorkedPart:
    """Rounds of sc all round a flat piece."""
    sized = []
    for rows in part.rows:
        around = 2 * (rows[-1].made + len(rows))
        sized.append(
            tuple(
                make_row(number, plain_row(around + 8 * number, "sc", [("C", around + 8 * number)]), "round", "moss")
                for number in range(1, rounds + 1)
            )
        )
    return WorkedPart("Border", 1, tuple(sized), SPAN, in_rounds=True, gauge="moss")


def make_pattern(sizes: int = 1, gauges: bool = True, folder: Path | None = None) -> SizedPattern:
    source = SOURCE if folder is None else SourceFile("harebell.md", SOURCE.text, folder)
    span = source.span(0, 3)
    colours = [("A", "Chalk", "#e9e2d3"), ("B", "Slate", "#46566b"), ("C", "Rust", "#a9502f"), ("D", "Moss", "#6d7a45")]
    names = ("",) if sizes == 1 else tuple(f"Size {number + 1}" for number in range(sizes))
    pattern = Pattern(
        source=source,
        slug="harebell",
        title="Harebell",
        parts=(),
        sizes=() if sizes == 1 else tuple(Size(name, {}, span) for name in names),
        gauges=tuple(Gauge(*facts, Length(10, "cm"), span) for facts in GAUGES) if gauges else (),
        colours=tuple(Colour(letter, name, shade, span) for letter, name, shade in colours),
    )
    return SizedPattern(pattern, {})


def make_worked(*parts: WorkedPart) -> WorkedPattern:
    return WorkedPattern(parts)
