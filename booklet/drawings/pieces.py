"""The pieces of a pattern in one size, laid flat and ready to draw."""

import math
import re
from collections.abc import Sequence
from dataclasses import replace

from booklet.amounts.measures import count_growing, has_crown, is_edging, is_in_rounds, list_sides, stands_on_oval
from booklet.amounts.ovals import goes_round_chain
from booklet.amounts.sideways import split_part
from booklet.drawings.lay import Band, Lay, Sizing, lay_rows, list_rows, outline_bands
from booklet.drawings.mosaic import find_mosaic
from booklet.drawings.plan import Box, Point
from booklet.drawings.rounds import LEAST_FLAT, lay_border, lay_motif, lay_rounds
from booklet.drawings.sideways import lay_across
from booklet.model.pattern import Pattern
from booklet.model.work import WorkedPart, WorkedPattern, WorkedRow

CROWN = "crown"  # the shape of a second view: the top of a dome, from above


def pick_size(pattern: Pattern) -> int:
    """The size that is drawn: the one in the middle."""
    return (len(pattern.size_names) - 1) // 2


def lay_pieces(pattern: Pattern, worked: WorkedPattern, size: int) -> tuple[Lay, ...]:
    """Every piece that has rows. A border worked round the flat piece before it is laid round that."""
    pieces: list[Lay] = []
    for part in worked.parts:
        body, _, sideways = split_part(pattern, part)
        rows = list_rows(body, size) if size < len(part.rows) else []
        if not rows:
            continue
        sizing = Sizing(pattern, body)
        if is_edging(part) and is_in_rounds(part) and pieces and pieces[-1].shape == "flat":
            pieces[-1] = _add_border(pieces[-1], part, rows, sizing)
        else:
            piece = show_mosaic(lay_piece(body, rows, sizing), body.rows[size])
            if sideways[size].band or sideways[size].sides:
                piece = lay_across(piece, sideways[size], Sizing(pattern, part))
            pieces.append(piece)
            crown = lay_crown(body, rows, sizing) if pieces[-1].shape == "dome" else None
            pieces.extend([crown] if crown else [])
    return tuple(pieces)


def lay_crown(part: WorkedPart, rows: list[WorkedRow], sizing: Sizing) -> Lay | None:
    """The flat crown of a piece that starts at its centre, from above; None where there is none."""
    growing = rows[: count_growing(rows)]
    heights = [sizing.row_cm(row) for row in growing]
    flatness = sizing.widths_cm(growing)[-1] / (math.tau * sum(heights))
    if not has_crown(rows) or len(growing) < 2 or flatness < LEAST_FLAT:
        return None
    _, bands = lay_motif(growing, heights)
    outline = outline_bands(bands)
    return Lay(
        title=part.title,
        parts=(part.title,),
        make=part.make,
        shape=CROWN,
        bands=bands,
        border=(),
        outline=outline,
        box=_box(outline),
        own_box=_box(outline),
        start="start",
        goes_up=False,
        stitch_cm=sizing.stitch_cm(growing[-1]),
        is_to_scale=all(sizing.knows(row) for row in growing),
    )


def lay_piece(part: WorkedPart, rows: list[WorkedRow], sizing: Sizing) -> Lay:
    """One piece, laid flat. Rounds that follow flat rows are a border."""
    border: tuple[Band, ...] = ()
    if is_in_rounds(part):
        shape, bands = lay_rounds(list_sides(rows) if stands_on_oval(part) else rows, sizing)
    else:
        shape = "flat"
        last = max(index for index, row in enumerate(rows) if row.kind != "round")
        bands = lay_rows(rows[: last + 1], sizing)
        if last + 1 < len(rows):
            border = lay_border(rows[last + 1 :], sizing, _box(outline_bands(bands)))
    outline = outline_bands(border or bands)
    goes_up = shape == "flat" or bands[0].base.point(0)[1] > bands[-1].top.point(0)[1]
    has_foundation = shape in ("flat", "tube") or (shape == "dome" and goes_up)
    if shape != "flat" and goes_round_chain(rows[0]):  # a chain in the middle of what is closed
        has_foundation = False
    return Lay(
        title=part.title,
        parts=(part.title,),
        make=part.make,
        shape=shape,
        bands=bands,
        border=border,
        outline=outline,
        box=_box(outline),
        own_box=_box(outline),
        start="foundation edge" if has_foundation else "start",
        goes_up=goes_up,
        stitch_cm=sizing.stitch_cm(rows[len(rows) // 2]),
        is_to_scale=all(sizing.knows(row) for row in rows),
    )


def show_mosaic(piece: Lay, rows: Sequence[WorkedRow]) -> Lay:
    """The piece with the colours that are seen where long stitches hide the rows below them; any other unchanged."""
    mosaic = None if piece.bands[0].top.closed else find_mosaic(rows)
    if mosaic is None or len(mosaic.seen) != len(piece.bands):
        return piece
    bands = tuple(replace(band, shown=shown) for band, shown in zip(piece.bands, mosaic.seen, strict=True))
    return replace(piece, bands=bands)


def _add_border(piece: Lay, part: WorkedPart, rows: list[WorkedRow], sizing: Sizing) -> Lay:
    border = piece.border + lay_border(rows, sizing, piece.box)
    outline = outline_bands(border)
    is_to_scale = piece.is_to_scale and all(sizing.knows(row) for row in rows)
    parts = (*piece.parts, part.title)
    return replace(piece, parts=parts, border=border, outline=outline, box=_box(outline), is_to_scale=is_to_scale)


def _box(points: Sequence[Point]) -> Box:
    xs, ys = zip(*points, strict=True)
    return min(xs), min(ys), max(xs), max(ys)


def row_name(row: WorkedRow) -> str:
    """What a row is called in the words of a drawing: "Row 3", "Round 3", or its own label."""
    if row.number is None:
        return re.sub(r"\s*\(.*?\)", "", row.label).strip(" :.") or "Row"
    return f"{'Round' if row.kind == 'round' else 'Row'} {row.number}"
