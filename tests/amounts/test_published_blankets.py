"""Blankets that others have made and weighed, worked from source and predicted.

With published lengths a figure may be a fifth off, with a weighed swatch 7 %. Where a source gives no gauge,
one that is usual for its yarn and hook stands in (common practice, from memory), and is marked so.
"""

from dataclasses import dataclass

import pytest

from booklet.model.amounts import YarnNeed
from booklet.model.measure import METRES_PER_YARD
from booklet.pipeline import Proof, prove_text


@dataclass(frozen=True)
class Made:
    """A published item: its gauge, its rows, the yards it took (from, to) and its measures in inches."""

    source: str
    gauge: str
    yarn: str
    rows: str
    yards: tuple[float, float]
    width: float
    length: float


# windchilde.com: 34 x 34 in of hdc on foundation hdc, worsted, 5 mm, 1,046.4 yd by the page's rates. Its gauge
# is not given; 13 sts and 9 rows is usual.
SQUARE = Made(
    "windchilde.com",
    "13 sts and 9 rows = 4 in in hdc",
    "{weight: 4, ball: 100 g = 200 m}",
    """
Row 1: Fhdc 110. (110)

Row 2: Ch 1 (does not count as a st), turn, hdc in each st across. (110)

Rep last row 74 more times.
""",
    (1046.4, 1046.4),
    34,
    34,
)
# crochetme.com 2623: a crib blanket of waves from sc to tr, ch 135, 12 a repeat, 42 x 35 in, worsted, 5.5 mm, 6
# balls (about 1,260 yd; the length of a ball is from memory). Its counts and measures give its gauge.
WAVES = Made(
    "crochetme.com",
    "12.76 sts and 7.6 rows = 4 in",
    "{weight: 4, ball: 100 g = 192 m}",
    """
Foundation: Ch 135.

Row 1: Sc in 2nd ch from hook, sc in next ch, *hdc in next 2 ch, dc in next 2 ch,
tr in next 2 ch, dc in next 2 ch, hdc in next 2 ch, sc in next 2 ch; rep from * across. (134)

Row 2: Ch 1 (does not count as a st), turn, sc in next 2 sts, *hdc in next 2 sts,
dc in next 2 sts, tr in next 2 sts, dc in next 2 sts, hdc in next 2 sts, sc in next 2 sts; rep from * across. (134)

Rep last row 64 more times.
""",
    (1260, 1260),
    42,
    35,
)
# thatcrochetlife.com: sc and hdc by turns, 30 x 36 in, worsted, 6 mm, 900-1,200 yd. Gauge: usual for 6 mm.
FLUFFY = Made(
    "thatcrochetlife.com",
    "12 sts and 11 rows = 4 in",
    "{weight: 4, ball: 100 g = 190 m}",
    """
Foundation: Ch 91.

Row 1: Sc in 2nd ch from hook, *hdc in next ch, sc in next ch; rep from * to last ch, hdc in last ch. (90)

Row 2: Ch 1 (does not count as a st), turn, *sc in next hdc, hdc in next sc; rep from * across. (90)

Rep last row 97 more times.
""",
    (900, 1200),
    30,
    36,
)
BLANKETS = (SQUARE, WAVES, FLUFFY)


def prove(made: Made, facts: str = "") -> Proof:
    proof = prove_text(f"---\ntitle: Blanket\ngauge: {made.gauge}\nyarn: {made.yarn}\n{facts}---\n{made.rows}", "b.md")
    assert [finding.message for finding in proof.findings] == []
    return proof


def total_of(proof: Proof) -> YarnNeed:
    assert proof.amounts is not None
    assert proof.amounts.yarn is not None
    return proof.amounts.yarn.totals[""]


@pytest.mark.parametrize("made", BLANKETS, ids=lambda made: made.source)
def test_predicted_from_published_lengths(made: Made) -> None:
    proof = prove(made)
    yards = total_of(proof).metres / METRES_PER_YARD
    assert made.yards[0] * 0.8 <= yards <= made.yards[1] * 1.2
    assert total_of(proof).low_metres <= sum(made.yards) / 2 * METRES_PER_YARD <= total_of(proof).high_metres
    assert proof.amounts is not None
    measures = {measure.name: measure.inches[0] for measure in proof.amounts.measures}
    assert measures == {"width": pytest.approx(made.width, abs=0.5), "length": pytest.approx(made.length, abs=0.5)}


# A swatch as its maker would weigh it: the share of the blanket's yarn that its stitches are.
@pytest.mark.parametrize("made", BLANKETS, ids=lambda made: made.source)
@pytest.mark.parametrize("rows", [12, 24])
def test_predicted_from_a_weighed_swatch(made: Made, rows: int) -> None:
    proof = prove(made)
    assert proof.worked is not None
    assert proof.pattern is not None
    places = sum(row.made for row in proof.worked.parts[0].rows[0] if row.kind != "foundation")
    yards = sum(made.yards) / 2
    yarn = proof.pattern.yarn
    assert yarn is not None
    assert yarn.ball_grams
    assert yarn.ball_metres
    grams = yards * METRES_PER_YARD / yarn.ball_metres * yarn.ball_grams * (24 * rows / places)
    total = total_of(prove(made, f"swatch: {{sts: 24, rows: {rows}, weight: {grams:.0f} g}}\n"))
    assert total.metres / METRES_PER_YARD == pytest.approx(yards, rel=0.07)
    assert total.how == "computed"


# twopinkhibiscus.blogspot.com: a waffle blanket of FPdc, 27 x 48 in, DK, 4 mm, 2,360 yd bought: an upper bound.
# Gauge: usual for DK and 4 mm.
def test_a_waffle_stays_below_what_was_bought() -> None:
    made = Made(
        "twopinkhibiscus",
        "16 sts and 11 rows = 4 in",
        "{weight: 3, ball: 100 g = 240 m}",
        """
Row 1: Ch 111, dc in 4th ch from hook (skipped ch count as dc) and in each ch across. (109)

Row 2: Ch 3 (counts as dc), turn, *FPdc around next st, dc in next 2 sts; rep from * across. (109)

Rep last row 130 more times.
""",
        (0, 2360),
        27,
        48,
    )
    assert 1500 <= total_of(prove(made)).metres / METRES_PER_YARD <= 2360


def write_granny(rounds: int) -> str:
    """A granny square in rounds of 3-dc groups, every round from the fourth with a group more on each side."""
    corner = "(2 dc, ch 2, 3 dc) in same sp"
    rows = [
        "Ch 4, join with sl st in first ch to form a ring.",
        (
            "Rnd 1: Ch 3 (counts as first dc here and throughout), 2 dc in ring, ch 2, *3 dc in ring, ch 2; rep from * "
            "2 more times, join with sl st in top of beg ch-3. (12 dc)"
        ),
        (
            f"Rnd 2: Sl st in next 2 dc and in ch-2 sp, ch 3, {corner}, *ch 1, (3 dc, ch 2, 3 dc) in next ch-2 sp; rep "
            "from * 2 more times, ch 1, join with sl st in top of beg ch-3. (24 dc)"
        ),
        (
            f"Rnd 3: Sl st in next 2 dc and in corner ch-2 sp, ch 3, {corner}, *ch 1, 3 dc in next ch-1 sp, ch 1, "
            "(3 dc, ch 2, 3 dc) in next corner ch-2 sp; rep from * 2 more times, ch 1, 3 dc in next ch-1 sp, ch 1, "
            "join with sl st in top of beg ch-3. (36 dc)"
        ),
    ]
    rows += [
        f"Rnd {number}: Sl st in next 2 dc and in corner ch-2 sp, ch 3, {corner}, *(ch 1, 3 dc in next ch-1 sp) "
        f"{number - 2} times, ch 1, (3 dc, ch 2, 3 dc) in next corner ch-2 sp; rep from * 2 more times, (ch 1, 3 dc in "
        f"next ch-1 sp) {number - 2} times, ch 1, join with sl st in top of beg ch-3. ({12 * number} dc)"
        for number in range(4, rounds + 1)
    ]
    return "\n\n".join(rows)


# nicolaknits.wordpress.com, 2022: a granny square of 64 in, worsted, 1,800 g. Gauge and metres of the ball: usual for
# worsted, 130-200 m in 100 g (a shop's table).
@pytest.mark.parametrize("sts", [12, 13])
def test_a_giant_granny_square(sts: int) -> None:
    made = Made(
        "nicolaknits",
        f"{sts} sts and 7 rows = 4 in in dc",
        "{weight: 4, ball: 100 g = 180 m}",
        write_granny(56),
        (0, 0),
        64,
        64,
    )
    proof = prove(made)
    total = total_of(proof)
    assert (total.grams or 0) / 1.1 == pytest.approx(1800, rel=0.1)
    assert proof.amounts is not None
    assert [measure.inches[0] for measure in proof.amounts.measures] == [pytest.approx(64, abs=0.5)]


# Diagonal blocks, worked from their rows: 21.7 in of yarn in a block of 0.8 in (a published blanket of 4,425 blocks).
def test_blocks_from_corner_to_corner() -> None:
    block = "sl st in ch-3 sp of next block, ch 3, 3 dc in same sp"
    rows = ["Row 1: Ch 6, dc in 4th ch from hook and in each of next 2 ch."]
    rows += [
        f"Row {number}: Ch 6, turn, dc in 4th ch from hook and in each of next 2 ch, ({block}) {number - 1} times."
        for number in range(2, 13)
    ]
    front = "title: Blocks\ngauge: 20 sts and 5 rows = 4 in\nyarn: {weight: 4, ball: 100 g = 180 m}"
    proof = prove_text(f"---\n{front}\n---\n" + "\n\n".join(rows), "blocks.md")
    assert proof.worked is not None
    assert all(row.status == "worked" for size in proof.worked.parts[0].rows for row in size)
    total = total_of(proof)
    inches = (total.metres - total.tail_metres) / METRES_PER_YARD * 36
    assert inches / (12 * 13 / 2) == pytest.approx(21.7, rel=0.15)


# Yards to the square inch of plain worsted blankets on a 5 to 5.5 mm hook: 0.83-0.94 (published totals compared);
# super bulky about 0.4. Gauges: usual for the yarn.
@pytest.mark.parametrize(
    ("gauge", "weight", "stitch", "low", "high"),
    [
        ("13 sts and 14 rows = 4 in in sc", 4, "sc", 0.83, 0.94),
        ("12 sts and 13 rows = 4 in in sc", 4, "sc", 0.83, 0.94),
        ("13 sts and 9 rows = 4 in in hdc", 4, "hdc", 0.83, 0.94),
        ("12 sts and 7 rows = 4 in in dc", 4, "dc", 0.83, 0.94),
        ("6 sts and 7 rows = 4 in in sc", 6, "sc", 0.36, 0.48),
    ],
)
def test_yarn_for_an_area(gauge: str, weight: int, stitch: str, low: float, high: float) -> None:
    text = f"""---
title: Square
gauge: {gauge}
yarn: {{weight: {weight}, ball: 100 g = 150 m}}
---
Row 1: F{stitch} 60. (60)

Row 2: Ch 1 (does not count as a st), turn, {stitch} in each st across. (60)

Rep last row 58 more times.
"""
    proof = prove_text(text, "square.md")
    assert proof.amounts is not None
    width, length = (measure.inches[0] or 0.0 for measure in proof.amounts.measures)
    assert low <= total_of(proof).metres / METRES_PER_YARD / (width * length) <= high


# Published totals compared by the square inch: bobbles about 1.5 yd, open lace about 0.56. Gauge: usual for worsted.
@pytest.mark.parametrize(
    ("yards", "gauge", "rows"),
    [
        (
            1.5,
            "13 sts and 13 rows = 4 in",
            """
Row 1: Ch 82, sc in 2nd ch from hook and in each ch across. (81)

Row 2: Ch 1 (does not count as a st), turn, sc in next st, *5-dc bobble in next st, sc in next 3 sts; rep from *
across. (81)

Row 3: Ch 1 (does not count as a st), turn, sc in each st across. (81)

Rep Rows 2 and 3 40 more times.
""",
        ),
        (
            0.56,
            "13 sts and 7 rows = 4 in",
            """
Row 1: Ch 123, dc in 4th ch from hook (skipped ch count as dc) and in each ch across. (121)

Row 2: Ch 4 (counts as dc and ch 1), turn, sk next st, dc in next st, *ch 1, sk next st, dc in next st; rep from *
across.

Row 3: Ch 4 (counts as dc and ch 1), turn, sk next ch-1 sp, dc in next dc, *ch 1, sk next ch-1 sp, dc in next dc; rep
from * across.

Rep last row 60 more times.
""",
        ),
    ],
)
def test_texture_takes_more_and_lace_less(yards: float, gauge: str, rows: str) -> None:
    proof = prove(Made("compared", gauge, "{weight: 4, ball: 100 g = 200 m}", rows, (0, 0), 0, 0))
    assert proof.amounts is not None
    width, length = (
        measure.inches[0] or 0.0 for measure in proof.amounts.measures if measure.name in ("width", "length")
    )
    assert total_of(proof).metres / METRES_PER_YARD / (width * length) == pytest.approx(yards, rel=0.2)
