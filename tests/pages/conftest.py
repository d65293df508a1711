"""Two invented patterns, worked by hand: a blanket of three colours in three sizes, a hat in five sizes."""

import re
from collections.abc import Callable
from io import BytesIO

import pytest
from PIL import Image, ImageDraw

from booklet.drawings.picture import Picture
from booklet.model.amounts import Amounts, Caution, Material, Measure, Term, YarnNeed, YarnUse
from booklet.model.measure import Length
from booklet.model.pattern import (
    Colour,
    Gauge,
    Hook,
    Part,
    Pattern,
    Prose,
    Publisher,
    RowLine,
    Size,
    SizedNumber,
    SizedPattern,
    SpecialStitch,
    Swatch,
    Yarn,
)
from booklet.model.work import Fabric, WorkedPart, WorkedPattern, WorkedRow
from booklet.pages.manuscript import BookletInput
from booklet.source import SourceFile

NOTHING_MADE = Fabric((), (), {}, {}, {}, 0)

BLANKET_BODY = """
Worked in one piece from the lower edge, with a band of each colour in turn. Every row is worked in *moss
stitch*, so a ch-1 sp lies above every stitch of the row below.

## Notes

- Ch 1 at the start of a row does not count as a stitch.
- The chain is worked a hook size up if it comes out tight - the edge should lie flat.
- Carry no yarn up the side for more than 2 rows; fasten off and weave in.

To make it longer, work more rows of the last band. Each row adds about 0.6 cm (1/4").

## Blanket

### Lower edge

Foundation: With A, ch {chain}.

Row 1 (RS): Sc in 2nd ch from hook and in each ch across. ({width} sc)

Row 2 (WS): Ch 1, turn, sc in first st, *ch 1, sk next st, sc in next st; rep from * across. ({width} sts:
{single} sc, {space} ch-1 sps)

### Bands

Row 3: Ch 1, turn, sc in first st, sc in next ch-1 sp, *ch 1, sk next st, sc in next ch-1 sp; rep from * to last
st, sc in last st.

Row 4: Ch 1, turn, sc in first st, *ch 1, sk next st, sc in next ch-1 sp; rep from * to last 2 sts, ch 1, sk
next st, sc in last st.

Rows 5-40: Rep Rows 3 and 4. Change to B in the last st of Row 40.

Rows 41-80: With B, rep Rows 3 and 4. Change to C in the last st of Row 80.

Rows 81-120: With C, rep Rows 3 and 4, then change to A in last st.

Row 121: With A, ch 1, turn, sc in each st and ch-1 sp across. ({width} sc) Fasten off B and C.

### Border

Place a marker in each corner. The border is worked along all four sides without breaking the yarn.

Rnd 1: With B, join with sl st in any corner, ch 1, *3 sc in corner, sc evenly along the edge to next corner;
rep from * 3 more times, join with sl st in first sc.

Rnd 2: Ch 1, *sc in each st to corner st, 3 sc in corner st; rep from * 3 more times, sc in each rem st, join
with sl st in first sc. Fasten off.

## Special stitches

**Moss stitch:** sc in next st, ch 1, sk next st, on every row into the ch-1 sps of the row below.

## Finishing

1. Weave in all ends along the wrong side, at least 5 cm each way.
2. Wet the blanket, press it in a towel and pin it out to size.
3. Leave it until it is dry.
"""

HAT_BODY = """
## Notes

The hat is worked from the crown down in joined rounds. Ch 2 at the start of a round does not count as a st
"here and throughout".

## Crown

Rnd 1: Make a magic ring, ch 2, 8 hdc in ring, join with sl st in first hdc. (8)

Rnd 2: Ch 2, 2 hdc in each st around, join. (16)

Rnd 3: Ch 2, *hdc in next st, 2 hdc in next st; rep from * around, join. (24)

Rnd 4: Ch 2, *hdc in next 2 sts, 2 hdc in next st; rep from * around, join. (32)

Rnd 5: Ch 2, *hdc in next 3 sts, 2 hdc in next st; rep from * around, join.

Next Rnd: Ch 2, hdc around, increasing evenly to {around} sts, join. ({around})

## Body

Rnds 8-17: Ch 2, hdc in each st around, join. ({around})

Last rnd: Ch 1, sl st in each st around. Fasten off.

## Finishing

Weave in ends.
"""


def read_parts(source: SourceFile, body_at: int) -> tuple[Part, ...]:
    """Parts with true spans from a body written the plain way: headings, paragraphs, one row a paragraph."""
    parts: list[Part] = []
    title, level, start = "", 2, body_at
    blocks: list[RowLine | Prose] = []
    for found in re.finditer(r"\S[^\n]*(?:\n[^\n]+)*", source.text[body_at:]):
        span = source.span(body_at + found.start(), body_at + found.end())
        if heading := re.match(r"(#+) (.*)", found[0]):
            parts.append(Part(title, level, tuple(blocks), source.span(start, span.start)))
            title, level, start, blocks = heading[2], len(heading[1]), span.start, []
        elif re.match(r"(Row|Rnd|Rows|Rnds|Foundation|Next|Last)\b[^.]{0,20}:", found[0]):
            blocks.append(RowLine(found[0], span))
        else:
            blocks.append(Prose(found[0], span))
    parts.append(Part(title, level, tuple(blocks), source.span(start, len(source.text))))
    return tuple(part for part in parts if part.title or part.blocks)


def work_rows(parts: tuple[Part, ...], made: dict[str, tuple[int, ...]], sizes: int) -> tuple[WorkedPart, ...]:
    """Every row taken as worked, `made` saying what it comes to where the label starts with the key."""
    worked: list[WorkedPart] = []
    for part in parts:
        rows: list[list[WorkedRow]] = [[] for _ in range(sizes)]
        for line in part.rows:
            label = line.text.split(":")[0]
            span = re.search(r"(\d+)-(\d+)", label)
            numbers = range(int(span[1]), int(span[2]) + 1) if span else [None]
            counts = next((counts for start, counts in made.items() if label.startswith(start)), (0,) * sizes)
            for size in range(sizes):
                for number in numbers:
                    name = f"{label.split()[0].rstrip('s')} {number}" if number else label
                    kind = "foundation" if label == "Foundation" else "row"
                    rows[size].append(
                        WorkedRow(name, kind, number, line.span, "worked", 0, counts[size], 0, None, NOTHING_MADE)
                    )
        if any(rows):
            worked.append(WorkedPart(part.title, part.make, tuple(map(tuple, rows)), part.span))
    return tuple(worked)


def paint_card(
    name: str,
    width_mm: float,
    height_mm: float,
    shade: str,
    alt: str,
    caption: str = "",
    table: tuple[tuple[str, ...], ...] = (),
) -> Picture:
    """A plain picture that stands for a drawing."""
    image = Image.new("RGB", (int(width_mm * 4), int(height_mm * 4)), shade)
    pen = ImageDraw.Draw(image)
    for at in range(0, image.width, 40):
        pen.line((at, 0, image.width - at, image.height), fill="#777777", width=2)
    pen.rectangle((4, 4, image.width - 5, image.height - 5), outline="#222222", width=3)
    file = BytesIO()
    image.save(file, "PNG")
    return Picture(name, file.getvalue(), width_mm, height_mm, alt, caption, table)


def list_needs(
    letters: dict[str, tuple[float, ...]], sizes: tuple[str, ...], ball: float | None
) -> tuple[YarnNeed, ...]:
    """Yarn needs from metres by colour and size."""
    needs: list[YarnNeed] = []
    for letter, metres in letters.items():
        for size, length in zip(sizes, metres, strict=True):
            bought = length * 1.1
            balls = None if ball is None else int(-(-bought // ball))
            left = None if ball is None or balls is None else balls * ball - bought
            needs.append(YarnNeed(letter, size, int(length * 20), length, bought, bought / 2, balls, left))
    return tuple(needs)


@pytest.fixture
def read_body() -> Callable[[SourceFile, int], tuple[Part, ...]]:
    return read_parts


@pytest.fixture
def blanket() -> BookletInput:
    head = "---\ntitle: Low Water Blanket\n---\n"
    source = SourceFile("low-water/pattern.md", head + BLANKET_BODY)
    place = source.span(4, 28)
    parts = read_parts(source, len(head))
    names = ("Cot", "Lap", "Throw")
    width = (113, 153, 193)
    sizes = tuple(
        Size(name, {"width": Length(w, "cm"), "length": Length(h, "cm")}, place)
        for name, w, h in (("Cot", 70, 78), ("Lap", 95, 78), ("Throw", 120, 78))
    )
    pattern = Pattern(
        source=source,
        slug="low-water-blanket",
        title="Low Water Blanket",
        parts=parts,
        summary="A quiet blanket in three broad bands, worked in moss stitch from one edge to the other and "
        "finished with a narrow border. Easy to learn, easy to wash, and the same on both sides.",
        designer="Ida Fennimore",
        made_for="baby",
        kind="blanket",
        construction="worked flat in one piece, from the lower edge up",
        level="easy",
        terms="US",
        version="1.2",
        date="2026-11-20",
        sizes=sizes,
        gauges=(
            Gauge("moss", 16, 17, Length(10, "cm"), place, "moss stitch", 5, True),
            Gauge("border", 15, 18, Length(10, "cm"), place, "single crochet", 5, True),
        ),
        yarn=Yarn(place, "", 4, "Medium", "superwash wool", 100, 200, "Machine wash at 30 °C, dry flat."),
        colours=(
            Colour("A", "Fog", "#c9ced2", place),
            Colour("B", "Kelp", "#5b6b3a", place),
            Colour("C", "Rust", "#9c4a2f", place),
        ),
        hooks=(Hook(5, "", place),),
        notions=("yarn needle", "4 stitch markers"),
        swatch=Swatch(32, 34, 21, "moss stitch", place),
        special_stitches=(
            SpecialStitch(
                "Long sc",
                "insert hook in the row below, draw up a loop to the height of the row, finish as sc.",
                place,
                "Lsc",
            ),
        ),
        counts_as={"ch 1": False},
        care="Wash before use. Do not tumble dry.",
        publisher=Publisher(
            "Sandpiper Row Patterns",
            "help@sandpiper-row.example",
            "https://sandpiper-row.example",
            "https://sandpiper-row.example/corrections",
            "You may make as many as you like and sell what you make by hand. Please don't copy, share or resell "
            "this booklet; tell others where you found it instead.",
        ),
    )
    numbers = {
        "width": SizedNumber("width", width, place, "moss", "width", 2, 1),
        "chain": SizedNumber("chain", tuple(n + 1 for n in width), place),
        "single": SizedNumber("single", tuple((n + 1) // 2 for n in width), place),
        "space": SizedNumber("space", tuple(n // 2 for n in width), place),
    }
    worked = WorkedPattern(
        work_rows(parts, {"Foundation": (114, 154, 194), "Row": width}, 3),
        stitch_names=("ch", "sc", "sl st", "hdc"),
    )
    needs = list_needs({"A": (310.4, 412.9, 520.2), "B": (280.1, 371.7, 468.0), "C": (262.0, 348.8, 439.3)}, names, 200)
    totals = {
        name: YarnNeed("*", name, 0, m, m * 1.1, m * 0.55, b, None)
        for name, m, b in zip(names, (852.5, 1133.4, 1427.5), (6, 7, 9), strict=True)
    }
    measures = (
        Measure(
            "A", "Blanket", "width", "width", (70.63, 95.63, 120.63), (28.25, 38.25, 48.25), width, "sts", (70, 95, 120)
        ),
        Measure(
            "B",
            "Blanket",
            "length",
            "length",
            (71.18, 71.18, 71.18),
            (28.47, 28.47, 28.47),
            (121, 121, 121),
            "rows",
            (78, 78, 78),
        ),
    )
    amounts = Amounts(
        measures,
        YarnUse(needs, "swatch", 0.1, 0.08, totals),
        (
            Material("Yarn", "Fog", "A"),
            Material("Hook", "5 mm (US H-8)"),
            Material("Notions", "yarn needle"),
            Material("Notions", "4 stitch markers"),
        ),
        (
            Caution(
                "baby-sleep",
                "Not in the cot of a sleeping baby",
                "Keep loose blankets out of the sleeping place of a baby under 12 months.",
                "public health advice on safe sleep, in its current form",
            ),
            Caution(
                "loose-ends",
                "Loose ends and holes",
                "Weave ends in firmly and look the blanket over after washing; small fingers catch in loops.",
                "common practice",
            ),
        ),
        (
            Term("ch", "chain"),
            Term("ch-1 sp", "space under a chain of one"),
            Term("rep", "repeat"),
            Term("rnd", "round"),
            Term("RS", "right side"),
            Term("sc", "single crochet"),
            Term("sk", "skip"),
            Term("sl st", "slip stitch"),
            Term("sp(s)", "space(s)"),
            Term("st(s)", "stitch(es)"),
            Term("WS", "wrong side"),
        ),
    )
    pictures = (
        paint_card("fabric", 160, 200, "#aab3a0", "Moss stitch in bands of grey, green and rust."),
        *(
            paint_card(f"patch-{c.letter}", 18, 9, c.shade, f"Patch of colour {c.letter}, {c.name}")
            for c in pattern.colours
        ),
        paint_card(
            "schematic-blanket",
            120,
            110,
            "#ffffff",
            "A rectangle, A wide and B long, worked upwards.",
            "Blanket, to scale in the size Lap",
            table=(
                ("Letter", "Measure", "Cot", "Lap", "Throw"),
                ("A", "width", "70.5 cm", "95.5 cm", "120.5 cm"),
                ("B", "length", "71 cm"),
            ),
        ),
        paint_card(
            "plan-blanket",
            90,
            80,
            "#eeeeee",
            "Three bands: A below, B in the middle, C above.",
            "Bands of colour from the lower edge",
        ),
    )
    return BookletInput(SizedPattern(pattern, numbers), worked, amounts, pictures)


@pytest.fixture
def hat() -> BookletInput:
    head = "---\ntitle: Lantern Hat\n---\n"
    source = SourceFile("lantern-hat.md", head + HAT_BODY)
    place = source.span(4, 22)
    parts = read_parts(source, len(head))
    names = ("Baby", "Toddler", "Child", "Adult S", "Adult L")
    around = (56, 62, 66, 72, 78)
    sizes = tuple(
        Size(name, {"head": Length(cm, "cm")}, place) for name, cm in zip(names, (42, 47, 51, 55, 59), strict=True)
    )
    pattern = Pattern(
        source=source,
        slug="lantern-hat",
        title="Lantern Hat",
        parts=parts,
        designer="Ida Fennimore",
        kind="hat",
        level="basic",
        terms="UK",
        sizes=sizes,
        gauges=(Gauge("hdc", 14, 10, Length(4, "in"), place, "half treble", 5.5, True, True),),
        yarn=Yarn(place, "Harbour Aran", 4, "Medium"),
        hooks=(Hook(5.5, "", place),),
        units_first="imperial",
        licence="For your own use and for charity.",
    )
    worked = WorkedPattern(
        work_rows(parts, {"Rnd 5": (40,) * 5, "Next": around, "Rnds": around}, 5), stitch_names=("ch", "hdc", "sl st")
    )
    measures = (
        Measure(
            "A",
            "Hat",
            "circumference",
            "circumference",
            (40, 44.3, 47.1, 51.4, 55.7),
            (16, 17.7, 18.9, 20.6, 22.3),
            around,
            "sts",
        ),
        Measure("B", "Hat", "depth", "depth", (17, 18, None, 20, 21), (6.8, 7.2, None, 8, 8.4), (17,) * 5, "rows"),
    )
    needs = list_needs({"": (48.2, 55.1, 61.0, 70.9, 80.5)}, names, None)
    amounts = Amounts(
        measures,
        YarnUse(needs, "estimate", 0.1, 0.25),
        (Material("Hook", "5.5 mm (US I-9)"),),
        (),
        (Term("htr", "half treble"), Term("ch", "chain")),
    )
    numbers = {"around": SizedNumber("around", around, place)}
    return BookletInput(SizedPattern(pattern, numbers), worked, amounts)
