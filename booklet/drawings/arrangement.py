"""Several pieces on one sheet, at one scale, none on another."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from booklet.drawings.lay import Lay
from booklet.drawings.plan import Box, Plan, Point, Shape, bound_shapes, move_shape

GAP_MM = 9.0
MARGIN_MM = 1.5
LEAST_MM = 16.0  # a piece that would come out smaller is drawn larger than the others
LARGEST_MM = 105.0  # a single piece needs no more to be clear


@dataclass(frozen=True, slots=True)
class Placing:
    """How large a piece is drawn: millimetres on paper to a centimetre, `times` the scale of the sheet.

    In a trial only its extent matters: what lies within the outline need not be drawn.
    """

    piece: Lay
    scale: float
    times: int
    is_trial: bool = False

    def at(self, point: Point) -> Point:
        """A point of the piece (cm) in mm from the upper left corner of its box."""
        return (point[0] - self.piece.box[0]) * self.scale, (point[1] - self.piece.box[1]) * self.scale

    @property
    def width(self) -> float:
        return self.piece.width * self.scale

    @property
    def height(self) -> float:
        return self.piece.height * self.scale


Draw = Callable[[Placing], list[Shape]]


def arrange_pieces(
    pieces: Sequence[Lay], draw: Draw, width: float, height: float, foot: float = 0.0
) -> tuple[Plan, float]:
    """All pieces drawn in rows as large as fits into `width` x `height` mm, and the scale in mm to a cm.

    They keep their order, unless tall ones side by side leave room for a larger scale. `foot` mm
    are kept free below them.
    """
    room = (width - 2 * MARGIN_MM, height - foot - 2 * MARGIN_MM)
    by_height = sorted(pieces, key=lambda piece: -piece.height)
    in_order, sorted_ = _find_scale(pieces, draw, *room), _find_scale(by_height, draw, *room)
    chosen, scale = (by_height, sorted_) if sorted_ > 1.15 * in_order else (pieces, in_order)
    shapes = _set_rows(_draw_all(chosen, draw, scale, is_trial=False), room[0])
    _, _, _, bottom = bound_shapes(shapes)
    moved = tuple(move_shape(shape, MARGIN_MM, MARGIN_MM) for shape in shapes)
    return Plan(width, bottom + 2 * MARGIN_MM + foot, moved), scale


def _find_scale(pieces: Sequence[Lay], draw: Draw, width: float, height: float) -> float:
    """The largest scale at which the pieces in this order fit, to the width of a hair."""
    high = LARGEST_MM / max(max(piece.width, piece.height) for piece in pieces)
    if _fits(_draw_all(pieces, draw, high), width, height):
        return high
    low = high / 64
    for _ in range(12):
        middle = (low + high) / 2
        if _fits(_draw_all(pieces, draw, middle), width, height):
            low = middle
        else:
            high = middle
    return low


def _draw_all(pieces: Sequence[Lay], draw: Draw, scale: float, is_trial: bool = True) -> list[tuple[list[Shape], Box]]:
    blocks = []
    for piece in pieces:
        largest = max(piece.width, piece.height) * scale
        times = 1 if largest >= LEAST_MM else min(20, -int(-LEAST_MM // max(largest, 1e-6)))
        shapes = draw(Placing(piece, scale * times, times, is_trial))
        blocks.append((shapes, bound_shapes(shapes)))
    return blocks


def _rows(blocks: list[tuple[list[Shape], Box]], width: float) -> list[list[int]]:
    """Numbers of the blocks that stand beside one another, row by row, in their order."""
    rows: list[list[int]] = [[]]
    used = 0.0
    for index, (_, box) in enumerate(blocks):
        breadth = box[2] - box[0]
        if rows[-1] and used + GAP_MM + breadth > width:
            rows.append([])
            used = 0.0
        used += breadth + (GAP_MM if rows[-1] else 0.0)
        rows[-1].append(index)
    return rows


def _fits(blocks: list[tuple[list[Shape], Box]], width: float, height: float) -> bool:
    if any(box[2] - box[0] > width for _, box in blocks):
        return False
    rows = _rows(blocks, width)
    total = sum(max(blocks[i][1][3] - blocks[i][1][1] for i in row) for row in rows)
    return total + GAP_MM * (len(rows) - 1) <= height


def _set_rows(blocks: list[tuple[list[Shape], Box]], width: float) -> list[Shape]:
    """The blocks in rows, each row centred on the sheet and its blocks standing on one line."""
    placed: list[Shape] = []
    y = 0.0
    for row in _rows(blocks, width):
        breadth = sum(blocks[i][1][2] - blocks[i][1][0] for i in row) + GAP_MM * (len(row) - 1)
        depth = max(blocks[i][1][3] - blocks[i][1][1] for i in row)
        x = (width - breadth) / 2
        for index in row:
            shapes, (left, _, right, bottom) = blocks[index]
            dx, dy = x - left, y + depth - bottom
            placed.extend(move_shape(shape, dx, dy) for shape in shapes)
            x += right - left + GAP_MM
        y += depth + GAP_MM
    return placed
