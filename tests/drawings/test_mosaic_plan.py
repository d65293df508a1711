"""Mosaic in the colour plan and the fabric picture: what is seen at a place is the topmost stitch there.

Common practice: every row is worked in one colour; a long stitch lies on the rows that it is worked over and hides them
down to the row that it is worked into.
"""

from itertools import pairwise

import pytest

from booklet.drawings.cells import join_letters
from booklet.drawings.colour_plan import colour_table, plan_colours
from booklet.drawings.lay import Lay
from booklet.drawings.palette import mix_palette
from booklet.drawings.picture import Ink
from booklet.drawings.pieces import lay_pieces
from booklet.drawings.placing import PlacedStitch, View, place_stitches
from booklet.drawings.plan import Area, Point
from booklet.drawings.words import describe_plan
from booklet.pipeline import Proof, prove_text

HEAD = """---
title: Case
gauge: 20 sts and 20 rows = 10 cm in sc
colours:
  A: {name: Fog, shade: "#c9ced2"}
  B: {name: Kelp, shade: "#5b6b3a"}
---
"""
OVERLAY = f"""{HEAD}
Every row is worked on the right side.

With A, ch 6.

Row 1 (RS): Sc in 2nd ch from hook and in each ch across. Fasten off. (5 sc)

Row 2 (RS): With RS facing, join B in first st, ch 1, sc in same st, sc in BLO of next 3 sts, sc in last st.
Fasten off. (5 sc)

Row 3 (RS): With RS facing, join A in first st, ch 1, sc in same st, dc in FLO of next st 2 rows below, sc in
BLO of next st, dc in FLO of next st 2 rows below, sc in last st. Fasten off. (3 sc, 2 dc)

Row 4 (RS): With RS facing, join B in first st, ch 1, sc in same st, sc in BLO of next st, dc in FLO of next st
2 rows below, sc in BLO of next st, sc in last st. Fasten off. (4 sc, 1 dc)
"""
# By hand, from the bottom up: the dc of Row 3 in stitches 2 and 4 lie on Row 2, that of Row 4 in stitch 3 on Row 3.
OVERLAY_SEEN = ("AAAAA", "BABAB", "AABAA", "BBBBB")
INSET = f"""{HEAD}
Chains at the start of a row do not count as a stitch.

With A, ch 8.

Row 1 (RS): Sc in 2nd ch from hook and in each ch across. (7 sc)

Row 2: Ch 1, turn, sc in each st across, changing to B in last st. (7 sc)

Row 3: With B, ch 1, turn, sc in first st, *ch 1, sk next st, sc in next st; rep from * across. (4 sc, 3 ch-1 sps)

Row 4: Ch 1, turn, sc in first sc, *ch 1, sk next ch-1 sp, sc in next sc; rep from * across, changing to A in
last st. (4 sc, 3 ch-1 sps)

Row 5: With A, ch 1, turn, sc in first st, *dc in skipped st 3 rows below, sc in next st; rep from * across. (4
sc, 3 dc)
"""
# By hand: each dc of Row 5 goes into the stitch of Row 2 that Rows 3 and 4 passed over, in front of their chains.
INSET_SEEN = ("AAAAAAA", "AAAAAAA", "BABABAB", "BABABAB", "AAAAAAA")
CASES = pytest.mark.parametrize(
    ("text", "seen"), [(OVERLAY, OVERLAY_SEEN), (INSET, INSET_SEEN)], ids=["overlay", "inset"]
)


def lay_text(text: str) -> tuple[Proof, Lay]:
    proof = prove_text(text, "case.md")
    assert proof.pattern is not None
    assert proof.worked is not None
    (piece,) = lay_pieces(proof.pattern, proof.worked, 0)
    return proof, piece


def area_of(polygon: tuple[Point, ...]) -> float:
    return abs(sum(x * y2 - x2 * y for (x, y), (x2, y2) in pairwise((*polygon, polygon[0])))) / 2


@CASES
def test_the_plan_shows_the_topmost_stitch(text: str, seen: tuple[str, ...], ink: Ink) -> None:
    proof, piece = lay_text(text)
    assert proof.pattern is not None
    for band, letters in zip(piece.bands, seen, strict=True):
        assert "".join(run.letter * run.count for run in band.runs()) == letters
        assert sum(run.count for run in band.runs()) == band.row.made
    palette = mix_palette(proof.pattern.colours)
    areas = [shape for shape in plan_colours([piece], palette, ink).shapes if isinstance(shape, Area)]
    shares = {shape.fill: sum(map(area_of, shape.polygons)) for shape in areas}
    total = sum(shares.values())
    for letter in "AB":
        share = sum(row.count(letter) for row in seen) / sum(map(len, seen))
        assert shares[palette[letter].shade] / total == pytest.approx(share)


@CASES
def test_words_and_table_say_what_is_seen(text: str, seen: tuple[str, ...], ink: Ink) -> None:
    proof, piece = lay_text(text)
    assert proof.pattern is not None
    palette = mix_palette(proof.pattern.colours)
    table = colour_table([piece], palette)
    told = [row[1] for row in table[1:]]
    names = {"A": "A Fog", "B": "B Kelp"}
    expected = []
    for letters in dict.fromkeys(seen):
        runs = join_letters(letters)
        expected.append(", ".join(names[run.letter] + (f" {run.count}" if len(runs) > 1 else "") for run in runs))
    assert sorted(set(told)) == sorted(expected)
    assert "A long stitch is seen down to the row that it is worked into." in describe_plan([piece], palette)[1]


def test_the_yarn_of_the_rows_stays_what_it_is() -> None:
    """The plan shows what is seen; amounts go by what is worked."""
    proof, piece = lay_text(OVERLAY)
    assert [{colour for colour, _ in band.row.fabric.yarn} for band in piece.bands] == [{"A"}, {"B"}, {"A"}, {"B"}]
    assert proof.amounts is not None


@CASES
def test_long_stitches_reach_down_in_the_fabric_picture(text: str, seen: tuple[str, ...]) -> None:
    """From the upper edge of their row to the upper edge of the row that they are worked into."""
    _, piece = lay_text(text)
    rows = list(place_stitches(piece, View(piece.box, 100.0)))[-len(piece.bands) :]
    by_row: list[list[PlacedStitch]] = [[stitch for stitch in row if stitch.kind == "dc"] for row in rows]
    down = 2 if seen is OVERLAY_SEEN else 3
    step = piece.height / len(piece.bands) * 100
    found = [stitch for row in by_row for stitch in row]
    assert len(found) == 3
    for stitch in found:
        assert stitch.foot[1] - stitch.head[1] == pytest.approx(down * step, rel=0.02)
