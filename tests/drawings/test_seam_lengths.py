"""Seams without a length: as long as their edges, by the plain geometry of rectangles, slants and rings."""

import math

import pytest

from booklet.findings import Severity
from booklet.model.amounts import SeamYarn, YarnUse
from booklet.pipeline import Proof, prove_text

PANEL = """## {title}

Ch 21.

Row 1: Sc in 2nd ch from hook and in each ch across. (20 sc)

Row 2: Ch 1, turn, sc in each st across. (20 sc)

Rep Row 2 until there are {rows} rows. (20 sc)
"""
EAR = """## Ear (make 2)

Rnd 1: With B, 6 sc in a magic ring. (6 sc)

Rnd 2: 2 sc in each st around. (12 sc)

Rnd 3: (Sc in next st, 2 sc in next st) 6 times. (18 sc)

Rnd 4: Sc in each st around. (18 sc)
"""
FRONT = """---
title: Reed Bag
gauge: 16 sts and 18 rows = 10 cm in sc
colours: {A: Reed, B: Mud}
yarn: {weight: 4 Medium, ball: 50 g = 90 m}
seams:
  SEAMS
---

With A throughout, but for the ears.

"""


def prove(seams: str, *pieces: str, front: str = FRONT) -> Proof:
    rows = "\n".join(pieces).replace("Ch 21.", "With A, ch 21.")
    proof = prove_text(front.replace("SEAMS", seams) + rows, "reed.md")
    assert not [finding for finding in proof.findings if finding.severity is Severity.ERROR]
    return proof


def yarn_of(proof: Proof) -> YarnUse:
    assert proof.amounts is not None
    assert proof.amounts.yarn is not None
    return proof.amounts.yarn


def seam_of(seams: str, *pieces: str) -> SeamYarn:
    (seam,) = yarn_of(prove(seams, *pieces)).seams
    return seam


BACK, POCKET = PANEL.format(title="Back", rows=18), PANEL.format(title="Pocket", rows=18)
DEEP = PANEL.format(title="Pocket", rows=27)


# By hand: 20 sts at 16 sts to 10 cm are 12.5 cm, 18 rows at 18 rows to 10 cm are 10 cm, 27 rows 15 cm. Sewing takes
# three times the seam (common practice).
@pytest.mark.parametrize(
    ("seams", "pieces", "cm"),
    [
        ("sides: [Back sides, Pocket sides]", (BACK, POCKET), 20.0),
        ("base: [Back lower edge, Pocket lower edge]", (BACK, POCKET), 12.5),
        ("around: [Back all round, Pocket all round]", (BACK, POCKET), 45.0),
        ("onto: [Pocket sides, Pocket lower edge, Back]", (BACK, POCKET), 32.5),
        ("tube: [Pocket ends]", (BACK, POCKET), 12.5),  # one end to the other
        ("eased: [Back left edge, Pocket right edge]", (BACK, DEEP), 15.0),  # the longer of the two
        ("ears: [Ear last round, Back]", (BACK, EAR), 2 * 18 * 10 / 16),  # two ears of 18 sts
        ("closed: [Ear last round]", (BACK, EAR), 18 * 10 / 16),  # each flattened and sewn to itself
    ],
)
def test_a_seam_is_as_long_as_its_edges(seams: str, pieces: tuple[str, ...], cm: float) -> None:
    seam = seam_of(seams, *pieces)
    assert (seam.how, seam.times) == ("computed", 3)
    assert seam.cm == (pytest.approx(cm),)
    assert seam.metres == (pytest.approx(3 * cm / 100),)


SLEEVE = """## Sleeve (make 2)

With A, ch 21.

Row 1 (RS): Sc in 2nd ch from hook and in each ch across. (20 sc)

Row 2: Ch 1, turn, sc in each st across. (20 sc)

Row 3: Ch 1, turn, 2 sc in first st, sc in each st to last st, 2 sc in last st. (22 sc)

Row 4: Ch 1, turn, sc in each st across. (22 sc)

Rows 5-20: Rep Rows 3 and 4, 8 times. (38 sc)
"""


def test_a_slant_is_longer_than_it_is_high() -> None:
    """By hand: 20 rows are 11.11 cm, 9 sts to a side 5.63 cm; their slant is 12.45 cm (Pythagoras), on both sleeves."""
    (cm,) = seam_of("sleeves: [Sleeve sides]", SLEEVE).cm
    assert cm == pytest.approx(2 * math.hypot(20 * 10 / 18, 9 * 10 / 16), rel=0.02)


def test_a_seam_is_sewn_with_the_colour_of_its_first_edge() -> None:
    def seams_of(words: str) -> dict[str, float]:
        use = yarn_of(prove(words, BACK, EAR))
        return {need.letter: need.seam_metres for need in use.needs}

    assert seams_of("ears: [Ear last round, Back]") == {"A": 0, "B": pytest.approx(0.675)}
    assert seams_of("ears: {edges: [Ear last round, Back], colour: A}") == {"A": pytest.approx(0.675), "B": 0}
    assert seams_of("ears: {edges: [Ear last round, Back], times: 2}") == {"A": 0, "B": pytest.approx(0.45)}
    assert seams_of("ears: {edges: [Ear last round, Back], times: 0}") == {"A": 0, "B": 0}


def test_a_stated_length_goes_before_the_edges() -> None:
    seam = seam_of("base: {edges: [Back lower edge, Pocket lower edge], length: 14 cm}", BACK, POCKET)
    assert (seam.how, seam.cm) == ("stated", (pytest.approx(14),))


def test_no_length_without_a_gauge_in_rows() -> None:
    bare = FRONT.replace("16 sts and 18 rows", "16 sts")
    assert yarn_of(prove("sides: [Back sides, Pocket sides]", BACK, POCKET, front=bare)).seams == ()


def test_each_size_has_its_own_length() -> None:
    sized = FRONT.replace("seams:", "sizes: {Small: {depth: 10 cm}, Large: {depth: 15 cm}}\nseams:")
    piece = BACK.replace("18 rows", "18 (27) rows")
    (seam,) = yarn_of(prove("sides: [Back sides]", piece, front=sized)).seams
    assert seam.cm == (pytest.approx(10), pytest.approx(15))
