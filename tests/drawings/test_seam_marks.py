"""Seams, folds and the right side on schematics: in their places, as long as the edges, clear of everything."""

import math
from dataclasses import replace
from itertools import pairwise
from pathlib import Path

import pytest

from booklet.amounts.measures import measure_parts
from booklet.amounts.piece_edges import list_edges
from booklet.drawings.picture import Ink
from booklet.drawings.piece_drawings import NARROW, ON_PAPER, Room, draw_pieces
from booklet.drawings.piece_edges import Path as EdgePath
from booklet.drawings.piece_edges import trace_fold, trace_paths
from booklet.drawings.pieces import CROWN, lay_pieces
from booklet.drawings.plan import Line, Plan
from booklet.drawings.schematic import Sheet, plan_schematic
from booklet.drawings.seam_legend import tell_making
from booklet.drawings.seam_marks import Making, SeamMark, draw_ticks, find_making, walk_path
from booklet.model.seams import Fold
from booklet.model.work import WorkedPart
from booklet.pipeline import Proof, prove_file

from .checking import check_plan
from .conftest import FONTS, SPAN, make_pattern, make_worked
from .test_plans import PIECES

CONTENT = Path(__file__).parents[2] / "content"
TEE = prove_file(str(CONTENT / "millpond-tee" / "pattern.md"))
HARE = prove_file(str(CONTENT / "hedgerow-hare" / "pattern.md"))


def length_of(path: EdgePath) -> float:
    return sum(math.dist(one, other) for one, other in pairwise(path))


def measure_edge(proof: Proof, title: str, edge: str, size: int) -> list[float]:
    """The lengths in cm of an edge of a demo's piece, each stretch by itself."""
    assert proof.pattern is not None
    assert proof.worked is not None
    piece = next(piece for piece in lay_pieces(proof.pattern, proof.worked, size) if piece.title == title)
    return [length_of(path) for path in trace_paths(piece, piece.outline, edge)]


@pytest.mark.parametrize("size", range(9))
@pytest.mark.parametrize(
    ("title", "edge", "name"),
    [
        ("Back", "lower edge", "width"),
        ("Back", "left shoulder", "shoulder"),
        ("Front", "right shoulder", "shoulder"),
        ("Sleeve", "lower edge", "width at the start"),
        ("Neckband", "right edge", "length"),
        ("Neckband", "lower edge", "width"),
    ],
)
def test_an_edge_is_as_long_as_the_finished_measure(title: str, edge: str, name: str, size: int) -> None:
    """Measures count stitches and rows over gauge; the edges are traced on the outline."""
    assert TEE.amounts is not None
    stated = next(m.cm[size] for m in TEE.amounts.measures if m.part == title and m.name == name)
    assert measure_edge(TEE, title, edge, size) == [pytest.approx(stated, rel=0.01)]


@pytest.mark.parametrize("size", range(9))
def test_edges_that_are_sewn_together_fit(size: int) -> None:
    """Shoulder to shoulder and side to side, by the plain geometry of a tee: what is joined is equally long."""
    for edge in ("shoulders", "sides", "armholes"):
        back, front = (measure_edge(TEE, title, edge, size) for title in ("Back", "Front"))
        assert len(back) == 2, edge
        assert back == [pytest.approx(length, rel=0.01) for length in front], edge
    (cap,) = measure_edge(TEE, "Sleeve", "cap", size)
    armhole = sum(measure_edge(TEE, title, "left armhole", size)[0] for title in ("Back", "Front"))
    assert 0.85 < cap / armhole < 1.15


def test_a_tee_goes_once_round_its_edges() -> None:
    """Lower edge, sides, armholes, shoulders and neck are the outline, with nothing left out and nothing twice."""
    parts = ("lower edge", "sides", "armholes", "shoulders", "neck")
    (whole,) = measure_edge(TEE, "Back", "all round", 4)
    assert sum(sum(measure_edge(TEE, "Back", edge, 4)) for edge in parts) == pytest.approx(whole, rel=1e-6)


@pytest.mark.parametrize("kind", PIECES)
@pytest.mark.parametrize("sizes", [1, 3])
def test_the_edges_that_are_listed_can_be_traced(kind: str, sizes: int) -> None:
    parts = PIECES[kind](sizes)
    pieces = lay_pieces(make_pattern(sizes).pattern, make_worked(*parts), sizes - 1)
    for part in parts:
        piece = next((piece for piece in pieces if piece.title == part.title and piece.shape != CROWN), None)
        if piece is None:  # a border lies round the piece before it
            continue
        for edge in list_edges(part, sizes - 1):
            paths = trace_paths(piece, piece.outline, edge)
            assert paths, edge
            assert all(length_of(path) > 0 for path in paths)


def mark_all(parts: list[WorkedPart]) -> Making:
    """A seam at every edge of every piece, and each piece folded both ways."""
    seams = [
        SeamMark(number, f"{part.title} {edge} to itself", ((part.title, edge),))
        for number, (part, edge) in enumerate(((part, edge) for part in parts for edge in list_edges(part, 0)), 1)
    ]
    folds = [(part.title, Fold(part.title, way, 0, SPAN)) for part in parts for way in ("lengthwise", "crosswise")]
    return Making(tuple(seams[:24]), tuple(folds))


def plan_marked(parts: list[WorkedPart], making: Making, room: Room) -> Plan:
    sized, worked = make_pattern(), make_worked(*parts)
    measures, _ = measure_parts(sized, worked)
    pieces = lay_pieces(sized.pattern, worked, 0)
    crowns = frozenset(piece.title for piece in pieces if piece.shape == CROWN)
    return plan_schematic(pieces, Sheet(measures, 0, ("",), Ink(FONTS), crowns, False, *room.schematic, making))


@pytest.mark.parametrize("room", [ON_PAPER, NARROW], ids=["paper", "narrow"])
@pytest.mark.parametrize("kind", [kind for kind in PIECES if kind not in ("many", "bordered")])
def test_marks_stand_clear(kind: str, room: Room) -> None:
    parts = PIECES[kind](1)
    making = mark_all(parts)
    usual = Making(making.seams[:4], making.folds[:1])
    check_plan(plan_marked(parts, usual, room))


def test_ticks_stand_along_the_edge_on_its_left() -> None:
    """A lower edge from left to right has the piece above it: y grows downwards."""
    ticks = draw_ticks(((0.0, 10.0), (22.0, 10.0)), Ink(FONTS))
    assert len(ticks) == 10
    for tick in ticks:
        assert isinstance(tick, Line)
        assert tick.start[1] == 10.0
        assert tick.end[1] < 10.0
        assert tick.start[0] == tick.end[0]


def test_a_path_is_walked_by_its_length() -> None:
    path = ((0.0, 0.0), (3.0, 0.0), (3.0, -9.0))
    assert walk_path(path, 0.0) == ((0.0, 0.0), (0.0, -1.0))
    point, inwards = walk_path(path, 0.5)
    assert point == pytest.approx((3.0, -3.0))
    assert inwards == pytest.approx((-1.0, 0.0))


def test_a_fold_lies_within_the_piece() -> None:
    """Half way across a tee's neck the fold ends at the neck, and across the armholes it is as wide as the yoke."""
    assert TEE.pattern is not None
    assert TEE.worked is not None
    back = next(piece for piece in lay_pieces(TEE.pattern, TEE.worked, 0) if piece.title == "Back")
    ((start, end),) = trace_fold(back, back.outline, Fold("Back", "lengthwise", 0, SPAN))
    left, top, right, bottom = back.own_box
    assert start[0] == end[0] == pytest.approx((left + right) / 2)
    assert start[1] > top
    assert end[1] == pytest.approx(bottom)
    ((start, end),) = trace_fold(back, back.outline, Fold("Back", "at row", 6, SPAN))
    assert end[0] - start[0] == pytest.approx(right - left)  # the top of the ribbing: six rows of it
    assert start[1] == pytest.approx(bottom - 6 * 10 / 16)  # 16 rows = 10 cm, the gauge of the ribbing


def test_the_demos_say_what_is_sewn_and_folded() -> None:
    for proof, wanted in (
        (TEE, ("2 Sleeve cap to Back armholes and Front armholes", "Sleeve sides to each other", "in half lengthwise")),
        (HARE, ("2 Head last round to Body last round", "Ear last round to Head", "Ear in half lengthwise")),
    ):
        assert proof.pattern is not None
        assert proof.worked is not None
        assert proof.amounts is not None
        picture = draw_pieces(proof.pattern, proof.worked, proof.amounts, Ink(FONTS))[0]
        for words in wanted:
            assert words in picture.alt


def test_every_number_of_the_drawing_is_in_the_legend() -> None:
    """Each seam stands once in the legend, and once at each stretch of each of its edges."""
    for proof in (TEE, HARE):
        assert proof.pattern is not None
        assert proof.worked is not None
        assert proof.amounts is not None
        size = (len(proof.pattern.size_names) - 1) // 2
        pieces = lay_pieces(proof.pattern, proof.worked, size)
        making = find_making(proof.pattern, proof.worked.parts)
        assert len(making.seams) == len(proof.pattern.seams)
        sheet = Sheet(proof.amounts.measures, size, proof.pattern.size_names, Ink(FONTS), making=making)
        plan = plan_schematic(pieces, sheet)
        numbers = [text.text for text in plan.texts if text.text.isdigit()]
        for seam in making.seams:
            stretches = sum(
                len(trace_paths(piece, piece.outline, edge))
                for title, edge in seam.edges
                for piece in pieces
                if piece.title == title and edge and piece.shape != CROWN
            )
            assert numbers.count(str(seam.number)) == stretches + 1, seam.words
        assert any(text.text == "RS" for text in plan.texts) == (proof is TEE)  # rounds are not turned


def test_a_sheet_without_seams_has_no_legend() -> None:
    parts = PIECES["jumper"](1)
    with_marks = plan_marked(parts, mark_all(parts[:1]), ON_PAPER)
    without = plan_marked(parts, Making(), ON_PAPER)
    assert any("sewn" in text.text for text in with_marks.texts)
    assert not any("sewn" in text.text for text in without.texts)
    assert tell_making(lay_pieces(make_pattern().pattern, make_worked(*parts), 0), Making()) == ""


def test_a_seam_of_another_sheet_is_left_out() -> None:
    """Where pieces go on several sheets, each lists what is sewn to its own."""
    parts = PIECES["jumper"](1)
    making = mark_all(parts)
    own = making.of(lay_pieces(make_pattern().pattern, make_worked(parts[0]), 0))
    assert own.seams
    assert {title for seam in own.seams for title, _ in seam.edges} == {"Back"}
    assert replace(making, seams=()).of([]) == Making()
