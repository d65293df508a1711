"""How long each seam is whose edges are named and whose length is not stated, from the pieces as they are laid.

The same outlines are drawn in the schematic, so a seam is as long as its edge there. A piece that is made twice has
its edges twice. An edge that is sewn to itself, such as the two sides of a sleeve, is two of equal length; where
edges are sewn to one another, the longer side counts, and the other is eased in. What it cannot know is which edges of
pieces joined side by side stay outside: it counts them as sewn, which takes a little more yarn than there is need of.
"""

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise

from booklet.amounts.gauges import count_width, find_gauge, is_row, measure_stitches
from booklet.amounts.piece_edges import find_part, list_edges
from booklet.drawings.lay import Lay
from booklet.drawings.piece_edges import trace_paths
from booklet.drawings.pieces import CROWN, lay_pieces
from booklet.drawings.stairs import smooth_outline
from booklet.model.amounts import SeamLength
from booklet.model.pattern import Pattern, SizedPattern
from booklet.model.seams import Seam, SeamEdge
from booklet.model.work import WorkedPart, WorkedPattern, WorkedRow

FIRST, LAST = 0, -1
# The row that the yarn of a seam is taken from, where the edge is one row.
ROW_OF = {"first round": FIRST, "lower edge": FIRST, "last round": LAST, "upper edge": LAST, "shoulders": LAST}


@dataclass(frozen=True, slots=True)
class Laid:
    """The worked pieces of one size, and as they are laid."""

    pattern: Pattern
    parts: Sequence[WorkedPart]
    pieces: Sequence[Lay]
    size: int


def measure_seams(sized: SizedPattern, worked: WorkedPattern) -> Mapping[str, SeamLength]:
    """By its name, the length of each seam that states none, where all its edges can be measured in every size."""
    pattern = sized.pattern
    stated = {item.name for item in pattern.finishing if item.kind == "seam" and item.length}
    wanted = [seam for seam in pattern.seams if seam.name not in stated]
    if not wanted:
        return {}
    parts = [part for part in worked.parts if any(part.rows)]
    sizes = [
        Laid(pattern, parts, lay_pieces(pattern, worked, size), size)
        for size in range(len(pattern.size_names))
        if all(size < len(part.rows) for part in parts)
    ]
    found: dict[str, SeamLength] = {}
    for seam in wanted:
        lengths = [_measure_seam(laid, seam) for laid in sizes]
        known = tuple(cm for cm in lengths if cm)
        if len(known) == len(pattern.size_names):
            found[seam.name] = SeamLength(known, _find_colour(pattern, parts, seam))
    return found


def _measure_seam(laid: Laid, seam: Seam) -> float | None:
    """Centimetres sewn in one size; None where an edge is not there or its gauge is not known."""
    named = [edge for edge in seam.edges if edge.edge]
    lengths = [_measure_edge(laid, edge) for edge in named]
    known = [cm for cm in lengths if cm]
    if not known or len(known) < len(named):
        return None
    if len(seam.edges) == 1:
        return known[0] / 2
    if len(named) < len(seam.edges):  # onto the middle of a piece, that has no edge there
        return sum(known)
    return max(known[0], sum(known[1:]))


def _measure_edge(laid: Laid, edge: SeamEdge) -> float | None:
    part = find_part(laid.parts, edge.piece)
    if part is None or edge.edge not in list_edges(part, laid.size):
        return None
    if edge.edge in ("first round", "last round"):
        return _measure_round(laid, part, ROW_OF[edge.edge])
    piece = next((piece for piece in laid.pieces if piece.title == part.title and piece.shape != CROWN), None)
    if piece is None or not piece.is_to_scale:
        return None
    paths = trace_paths(piece, smooth_outline(piece), edge.edge)
    return part.make * sum(math.dist(one, other) for path in paths for one, other in pairwise(path)) or None


def _measure_round(laid: Laid, part: WorkedPart, at: int) -> float | None:
    """All round the first or last round, for each time that the piece is made."""
    rows = [row for row in part.rows[laid.size] if is_row(row) and count_width(row.fabric)]
    gauge = find_gauge(laid.pattern, part, rows[at])
    return part.make * measure_stitches(count_width(rows[at].fabric), gauge).cm if gauge else None


def _find_colour(pattern: Pattern, parts: Sequence[WorkedPart], seam: Seam) -> str:
    """The colour of the first edge, which a tail for sewing is left of; empty where it is not one row."""
    part = find_part(parts, seam.edges[0].piece)
    at = ROW_OF.get(seam.edges[0].edge)
    if part is None or at is None:
        return ""
    rows = [row for row in part.rows[0] if is_row(row) and count_width(row.fabric)]
    letters = {colour.letter for colour in pattern.colours}
    return _main_colour(rows[at]) if rows and _main_colour(rows[at]) in letters else ""


def _main_colour(row: WorkedRow) -> str:
    yarn: dict[str, int] = {}
    for (colour, _), number in row.fabric.yarn.items():
        yarn[colour] = yarn.get(colour, 0) + number
    return max(yarn, key=yarn.__getitem__, default="")
