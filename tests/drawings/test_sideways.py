"""Rows that lie across the others are drawn as they are measured."""

import pytest

from booklet.drawings.edges import Upright
from booklet.drawings.lay import Lay
from booklet.drawings.pieces import lay_pieces
from booklet.pipeline import Proof, prove_text
from tests.patterns.sideways import BACK, FRONT, HAT


def lay(proof: Proof) -> Lay:
    assert proof.worked is not None
    assert proof.sized is not None
    (piece,) = lay_pieces(proof.sized.pattern, proof.worked, 0)
    return piece


@pytest.mark.parametrize("text", [BACK, HAT, FRONT])
def test_the_drawing_is_as_large_as_the_measures(text: str) -> None:
    proof = prove_text(text, "pattern.md")
    piece = lay(proof)
    assert proof.amounts is not None
    measures = {m.name: m.cm[0] for m in proof.amounts.measures}
    width = measures["circumference"] / 2 if "circumference" in measures else measures["width"]
    assert piece.width == pytest.approx(width)
    assert piece.height == pytest.approx(measures["length"])
    assert {type(band.top) for band in piece.across} == {Upright}


def test_the_front_half_of_a_band_pressed_flat_shows() -> None:
    proof = prove_text(HAT, "pattern.md")
    piece = lay(proof)
    assert len(piece.across) == 48


def test_two_borders_lie_on_two_sides() -> None:
    proof = prove_text(FRONT, "pattern.md")
    piece = lay(proof)
    xs = [band.top.point(0)[0] for band in piece.across]
    left, _, right, _ = piece.box
    assert (min(xs), max(xs)) == pytest.approx((left, right))
