"""The plans of every demo pattern in every size: legible, and as large as the measures that are printed."""

from functools import cache
from pathlib import Path

import pytest

from booklet.drawings.colour_plan import plan_colours
from booklet.drawings.lay import Lay
from booklet.drawings.measured import Dimension, place_measures
from booklet.drawings.palette import mix_palette, pale_colours
from booklet.drawings.picture import Ink
from booklet.drawings.piece_drawings import NARROW, ON_PAPER, Room
from booklet.drawings.pieces import CROWN, lay_pieces
from booklet.drawings.schematic import FILL, Sheet, measures_of, plan_schematic
from booklet.drawings.seam_marks import find_making
from booklet.drawings.shades import contrast, read_shade
from booklet.pages.theme import list_themes, load_theme, themes_folder
from booklet.pipeline import Proof, list_sources, prove_file

from .checking import check_plan
from .conftest import FONTS

CONTENT = Path(__file__).parents[2] / "content"
SOURCES = list_sources([str(CONTENT)])
INK = Ink(FONTS)


@cache
def prove_once(source: str) -> Proof:
    return prove_file(source)


CASES = [
    pytest.param(source, size, id=f"{Path(source).name}-{size}")
    for source in SOURCES
    for size in range(len(prove_once(source).pattern.size_names))  # type: ignore[union-attr]
]
ROOMS = pytest.mark.parametrize("room", [ON_PAPER, NARROW], ids=["paper", "narrow"])


@cache
def lay_once(source: str, size: int) -> tuple[Lay, ...]:
    proof = prove_once(source)
    assert proof.pattern is not None
    assert proof.worked is not None
    return lay_pieces(proof.pattern, proof.worked, size)


def place_all(source: str, size: int) -> list[tuple[Lay, Dimension]]:
    """Every dimension line of the schematic, with its piece."""
    proof, pieces = prove_once(source), lay_once(source, size)
    assert proof.amounts is not None
    crowns = frozenset(piece.title for piece in pieces if piece.shape == CROWN)
    return [
        (piece, item)
        for piece in pieces
        for item in place_measures(piece, measures_of(piece, proof.amounts.measures, crowns), size)[0]
    ]


@ROOMS
@pytest.mark.parametrize(("source", "size"), CASES)
def test_labels_of_a_schematic_stand_clear(source: str, size: int, room: Room) -> None:
    proof, pieces = prove_once(source), lay_once(source, size)
    assert proof.pattern is not None
    assert proof.amounts is not None
    crowns = frozenset(piece.title for piece in pieces if piece.shape == CROWN)
    names = proof.pattern.size_names
    assert proof.worked is not None
    making = find_making(proof.pattern, proof.worked.parts)
    is_alone = len(names) == len(pieces) == 1
    sheet = Sheet(proof.amounts.measures, size, names, INK, crowns, is_alone, *room.schematic, making)
    check_plan(plan_schematic(pieces, sheet))


@ROOMS
@pytest.mark.parametrize(("source", "size"), CASES)
def test_labels_of_a_colour_plan_stand_clear(source: str, size: int, room: Room) -> None:
    proof = prove_once(source)
    assert proof.pattern is not None
    bodies = [piece for piece in lay_once(source, size) if piece.shape != CROWN]
    check_plan(plan_colours(bodies, mix_palette(proof.pattern.colours), INK, *room.plan))


@pytest.mark.parametrize(("source", "size"), CASES)
def test_every_dimension_is_the_finished_measure(source: str, size: int) -> None:
    """Both come from the stitches, on two ways: by counts and gauges, and by laying row upon row."""
    placed = place_all(source, size)
    assert placed
    for piece, item in placed:
        if not piece.is_to_scale:
            continue
        axis = 0 if item.side in ("below", "above") else 1
        drawn = (item.end[axis] - item.start[axis]) * (2 if item.is_half else 1)
        stated = item.measure.cm[size]
        assert stated is not None
        assert drawn == pytest.approx(stated, rel=0.004, abs=0.05), (piece.title, item.measure.key, item.measure.name)


@pytest.mark.parametrize("theme", list_themes([themes_folder()]))
@pytest.mark.parametrize("source", SOURCES)
def test_what_is_drawn_stands_out_in_every_theme(source: str, theme: str) -> None:
    """4.5 : 1 for letters, 3 : 1 for lines (WCAG 2.2, success criteria 1.4.3 and 1.4.11); a hatch for each colour."""
    pattern = prove_once(source).pattern
    assert pattern is not None
    ink = load_theme(theme)[0].ink()
    ways = [pattern.colours, *(way.colours for way in pattern.colourways)]
    for tints in (mix_palette(pale_colours(colours, ink.paleness)).values() for colours in ways):
        for tint in tints:
            assert contrast(read_shade(tint.letter_shade), read_shade(tint.shade)) >= 4.5, tint.letter
        assert len({tint.hatch for tint in tints}) == len(tints)
    paper, piece = read_shade("#ffffff"), read_shade(FILL)
    for colour in (ink.text, ink.accent):
        assert min(contrast(read_shade(colour), ground) for ground in (paper, piece)) >= 4.5
    assert min(contrast(read_shade(ink.line), ground) for ground in (paper, piece)) >= 3.0
