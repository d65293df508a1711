"""Which dimension of a laid piece each computed measure is, and how its figures are written."""

from collections.abc import Sequence
from dataclasses import dataclass

from booklet.amounts.figures import print_cm, print_inches
from booklet.amounts.gauges import count_width
from booklet.amounts.measures import NECK, OPENING
from booklet.amounts.sideways import BAND
from booklet.drawings.lay import Lay
from booklet.drawings.pieces import CROWN
from booklet.drawings.plan import Point
from booklet.drawings.sides import find_sides
from booklet.model.amounts import Measure

LEAST_DEPTH = 0.12  # of the piece's height: an opening less deep has no room for a line
MISSING = "–"


@dataclass(frozen=True, slots=True)
class Dimension:
    """A measure in its place: between two points of the piece (cm), drawn on one of its sides.

    `side` is below, above, left or inside, there at `at` across the piece. `is_half` says that the piece
    pressed flat shows half of it.
    """

    measure: Measure
    side: str
    start: Point
    end: Point
    is_half: bool = False
    at: float = 0.0


def place_measures(
    piece: Lay, measures: Sequence[Measure], size: int
) -> tuple[tuple[Dimension, ...], tuple[Measure, ...]]:
    """Measures of the piece that a dimension line can show, and those that words must name."""
    placed, named = [], []
    for measure in measures:
        dimension = _place(piece, measure, size)
        if dimension:
            placed.append(dimension)
        else:
            named.append(measure)
    return tuple(placed), tuple(named)


def _place(piece: Lay, measure: Measure, size: int) -> Dimension | None:
    left, top, right, bottom = piece.own_box
    if piece.shape == CROWN:
        return Dimension(measure, "below", (left, bottom), (right, bottom))
    if measure.part != piece.title:  # the depth of a border worked round the piece
        return Dimension(measure, "below", (piece.box[0], piece.box[3]), (left, piece.box[3]))
    if measure.name in BAND:
        return _place_band(piece, measure)
    if measure.name in (*NECK, *OPENING):
        return _place_opening(piece, measure)
    if measure.axis == "width" and measure.unit == "rows":
        if piece.shape in ("dome", "tube", "flat"):
            return None
        return Dimension(measure, "below", (left, bottom), (right, bottom))
    if measure.axis == "width":
        return _place_width(piece, measure, size)
    if measure.axis == "circumference" and piece.shape in ("dome", "tube"):
        return _place_around(piece, measure)
    if measure.axis in ("length", "depth") and piece.shape in ("flat", "dome", "tube"):
        return Dimension(measure, "left", (left, top), (left, bottom))
    return None


def _place_opening(piece: Lay, measure: Measure) -> Dimension | None:
    """At the upper edge: the left side, and the opening; its depth within it, where there is room."""
    sides = find_sides(piece.bands)
    if sides is None:
        return None
    left, right = sides.left[-1][1], sides.right[-1][1]
    if measure.name in (NECK[0], OPENING[0]):
        return Dimension(measure, "above", left.point(0), left.point(1))
    if measure.name in (NECK[1], OPENING[1]):
        return Dimension(measure, "above", left.point(1), right.point(0))
    head, foot = left.point(1), sides.left[0][0].point(1)
    if foot[1] - head[1] < LEAST_DEPTH * piece.height:
        return None
    return Dimension(measure, "inside", head, foot, at=(head[0] + right.left) / 2)


def _place_band(piece: Lay, measure: Measure) -> Dimension | None:
    """The depth of a band on the left of it; how long it was before it was worked along, no line shows."""
    if measure.name != BAND[0] or not piece.across:
        return None
    first, last = piece.across[0], piece.across[-1]
    return Dimension(measure, "left", first.base.point(0), last.base.point(1))


def _place_width(piece: Lay, measure: Measure, size: int) -> Dimension | None:
    """Across the row that the width was counted on: the first below, the last above, others below."""
    if piece.shape != "flat":
        return None
    left, _, right, bottom = piece.own_box
    if piece.border:
        return Dimension(measure, "below", (left, bottom), (right, bottom))
    count = measure.count[size]
    first, last = piece.bands[0], piece.bands[-1]
    if piece.across and measure.name == "width":
        return Dimension(measure, "below", (left, bottom), (right, bottom))
    if count == count_width(first.row.fabric):
        return Dimension(measure, "below", first.base.point(0), first.base.point(1))
    if count == count_width(last.row.fabric):
        return Dimension(measure, "above", last.top.point(0), last.top.point(1))
    for band in piece.bands:
        if count == count_width(band.row.fabric):
            return Dimension(measure, "below", band.top.point(0), band.top.point(1))
    return None


def _place_around(piece: Lay, measure: Measure) -> Dimension:
    """Across the lowest of the fullest rounds, of which half shows."""
    edges = [edge for band in piece.bands for edge in (band.base, band.top)]
    start, end = max(
        ((edge.point(0), edge.point(1)) for edge in edges),
        key=lambda ends: (round(ends[1][0] - ends[0][0], 6), ends[0][1]),
    )
    return Dimension(measure, "below", start, end, is_half=True)


def write_measure(measure: Measure, size: int) -> str:
    """The measure in one size in both units: `95 cm (37½ in)`."""
    cm, inches = measure.cm[size], measure.inches[size]
    if cm is None or inches is None:
        return MISSING
    return f"{print_cm(cm)} cm ({print_inches(inches)} in)"


def measure_table(measures: Sequence[Measure], sizes: Sequence[str]) -> tuple[tuple[str, ...], ...]:
    """The text twin of a schematic: letter, what it measures, and its value in every size."""
    parts = {measure.part for measure in measures if measure.part}
    heads = ["" if sizes == ("",) else size for size in sizes]
    if heads == [""]:
        heads = ["Finished"]
    rows = [("Letter", "Measure", *heads)]
    for measure in measures:
        name = measure.name[:1].upper() + measure.name[1:]
        where = f"{measure.part}: {measure.name}" if len(parts) > 1 and measure.part else name
        rows.append((measure.key, where, *(write_measure(measure, size) for size in range(len(measure.cm)))))
    return tuple(rows)
