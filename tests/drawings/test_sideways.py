"""Rows that lie across the others are drawn as they are measured."""

import pytest

from booklet.drawings.edges import Upright
from booklet.drawings.pieces import lay_pieces
from booklet.pipeline import prove_text
from tests.amounts.test_sideways import BACK, FRONT, HAT


@pytest.mark.parametrize("text", [BACK, HAT, FRONT])
def test_the_drawing_is_as_large_as_the_measures(text: str) -> None:
    proof = prove_text(text, "pattern.md")
    assert proof.worked and proof.amounts and proof.sized
    (piece,) = lay_pieces(proof.sized.pattern, proof.worked, 0)
    measures = {m.name: m.cm[0] for m in proof.amounts.measures}
    width = measures["circumference"] / 2 if "circumference" in measures else measures["width"]
    assert piece.width == pytest.approx(width)
    assert piece.height == pytest.approx(measures["length"])
    assert piece.across and all(isinstance(band.top, Upright) for band in piece.across)


def test_the_front_half_of_a_band_pressed_flat_shows() -> None:
    proof = prove_text(HAT, "pattern.md")
    assert proof.worked and proof.sized
    (piece,) = lay_pieces(proof.sized.pattern, proof.worked, 0)
    assert len(piece.across) == 48


def test_two_borders_lie_on_two_sides() -> None:
    proof = prove_text(FRONT, "pattern.md")
    assert proof.worked and proof.sized
    (piece,) = lay_pieces(proof.sized.pattern, proof.worked, 0)
    xs = [band.top.point(0)[0] for band in piece.across]
    left, _, right, _ = piece.box
    assert min(xs) == pytest.approx(left) and max(xs) == pytest.approx(right)
