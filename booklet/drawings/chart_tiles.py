"""A chart of rows too wide for the page, in parts that overlap."""

import math
from dataclasses import replace

from booklet.drawings.chart_columns import EVEN_WIDTHS
from booklet.drawings.chart_repeat import place_of
from booklet.drawings.chart_sheet import FlatChart, Window

ROOM = 72.0  # stitches that a part shows
OVERLAP = 4.0
MOST_PARTS = 6
FEW_PARTS = 3  # that are shown where there would be more than that


def cut_tiles(chart: FlatChart) -> list[FlatChart]:
    """The chart in parts from left to right, each with the last stitches of the one before.

    Where there would be many, those at the side where the first row begins. None where rows differ so much in width
    that stitches lean from part to part.
    """
    left, right = min(laid.left for laid in chart.laid), max(laid.right for laid in chart.laid)
    widths = [laid.right - laid.left for laid in chart.laid]
    count = math.ceil((right - left - OVERLAP) / (ROOM - OVERLAP))
    if count < 2 or max(widths) > EVEN_WIDTHS * min(widths):
        return []
    room = (right - left + (count - 1) * OVERLAP) / count
    parts = []
    for number in range(count):
        start = left + number * (room - OVERLAP)
        low = -math.inf if number == 0 else start
        high = math.inf if number == count - 1 else start + room
        glyphs = tuple(glyph for glyph in chart.glyphs if low <= place_of(glyph) < high)
        window = Window(low, high, start + OVERLAP / 2, start + room - OVERLAP / 2, number + 1, count)
        parts.append(replace(chart, glyphs=glyphs, window=window))
    if count <= MOST_PARTS:
        return parts
    first = next((laid for laid in chart.laid if laid.row.name), chart.laid[0])
    shown = parts[-FEW_PARTS:] if first.direction < 0 else parts[:FEW_PARTS]
    return [replace(part, window=replace(part.window, left_out=count - FEW_PARTS)) for part in shown if part.window]


def say_part(window: Window) -> str:
    """What a part's caption says of it."""
    left_out = f" The other {window.left_out} parts are in words alone." if window.left_out else ""
    return (
        f"Part {window.number} of {window.count}, from left to right. At a broken line it goes on in the next part; "
        f"the stitches beyond the line stand in both.{left_out}"
    )
