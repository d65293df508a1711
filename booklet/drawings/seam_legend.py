"""The legend of what is sewn and folded, at the foot of the schematic, and the same in words."""

from collections.abc import Sequence

from booklet.drawings.faces import set_text, shorten
from booklet.drawings.lay import Lay
from booklet.drawings.picture import Ink
from booklet.drawings.plan import Line, Shape, bound_shapes, move_shape
from booklet.drawings.seam_marks import (
    DASH_MM,
    LEGEND_POINTS,
    LEGEND_STEP,
    RING_MM,
    Making,
    draw_ticks,
    knows_right_side,
    ring_number,
)
from booklet.model.seams import AT_ROW, Fold

SAMPLE_MM = 9.0
GAP_MM = 6.0
MARGIN_MM = 1.5
MOST_COLUMNS = 3


def measure_legend(pieces: Sequence[Lay], making: Making, ink: Ink, width: float) -> float:
    """How high the legend is, in mm."""
    return len(_lay_lines(pieces, making, ink, width)) * LEGEND_STEP


def draw_legend(pieces: Sequence[Lay], making: Making, ink: Ink, width: float, left: float, top: float) -> list[Shape]:
    """The legend with its upper left corner at a place; `width` is that of the sheet."""
    shapes: list[Shape] = []
    lines = _lay_lines(pieces, making, ink, width)
    breadth = max((x + bound_shapes(entry)[2] for line in lines for x, entry in line), default=0.0)
    left = max(MARGIN_MM, min(left, width - MARGIN_MM - breadth))
    for number, line in enumerate(lines):
        y = top + (number + 0.5) * LEGEND_STEP
        shapes += [move_shape(shape, left + x, y) for x, entry in line for shape in entry]
    return shapes


def _lay_lines(pieces: Sequence[Lay], making: Making, ink: Ink, width: float) -> list[list[tuple[float, list[Shape]]]]:
    """Lines of entries, each with its place from the left: what the marks mean, then every seam."""
    room = width - 2 * MARGIN_MM
    signs = _list_signs(pieces, making, ink)
    lines: list[list[tuple[float, list[Shape]]]] = []
    at = room
    for entry, breadth in signs:
        if at + breadth > room:
            lines.append([])
            at = 0.0
        lines[-1].append((at, entry))
        at += breadth + GAP_MM
    entries = [_draw_entry(seam.number, seam.words, ink, room) for seam in making.seams]
    widest = max((breadth for _, breadth in entries), default=room)
    columns = max(1, min(MOST_COLUMNS, len(entries), int((room + GAP_MM) // (widest + GAP_MM))))
    for first in range(0, len(entries), columns):
        some = entries[first : first + columns]
        lines.append([(number * (widest + GAP_MM), entry) for number, (entry, _) in enumerate(some)])
    return lines


def _list_signs(pieces: Sequence[Lay], making: Making, ink: Ink) -> list[tuple[list[Shape], float]]:
    """A sample of each mark that the sheet has, with what it means, and its breadth."""
    signs: list[tuple[list[Shape], float]] = []
    if making.seams:
        edge = ((0.0, 0.7), (SAMPLE_MM, 0.7))
        sample: list[Shape] = [Line(*edge, 0.45, ink.line), *draw_ticks(edge, ink)]
        signs.append(_add_words(sample, SAMPLE_MM, "sewn as its number says", ink))
    if making.folds:
        sample = [Line((0.0, 0.0), (SAMPLE_MM, 0.0), 0.3, ink.line, dash=DASH_MM)]
        signs.append(_add_words(sample, SAMPLE_MM, "fold", ink))
    if making.seams and any(map(knows_right_side, pieces)):
        text = set_text(ink, "RS", points=8)
        signs.append(_add_words([move_shape(text, text.width / 2, 0.0)], text.width, "right side", ink))
    return signs


def _draw_entry(number: int, words: str, ink: Ink, room: float) -> tuple[list[Shape], float]:
    """A ringed number with what is joined, and its breadth."""
    words = shorten(ink, words, room - 2 * RING_MM - 1.5, LEGEND_POINTS)
    return _add_words(ring_number(number, ink, (RING_MM, 0.0)), 2 * RING_MM, words, ink)


def _add_words(sample: list[Shape], breadth: float, words: str, ink: Ink) -> tuple[list[Shape], float]:
    text = set_text(ink, words, points=LEGEND_POINTS)
    return [*sample, move_shape(text, breadth + 1.5 + text.width / 2, 0.0)], breadth + 1.5 + text.width


def tell_making(pieces: Sequence[Lay], making: Making) -> str:
    """The seams, folds and right sides of the drawing in words; "" where it has none."""
    own = making.of(pieces)
    told = []
    if own.seams:
        told.append(f"Seams: {'; '.join(f'{seam.number} {seam.words}' for seam in own.seams)}.")
    if own.folds:
        told.append(f"Folds: {'; '.join(_tell_fold(title, fold) for title, fold in own.folds)}.")
    return " ".join(told)


def _tell_fold(title: str, fold: Fold) -> str:
    where = f"at row {fold.row}" if fold.way == AT_ROW else f"in half {fold.way}"
    return f"{title} {where}".strip()
