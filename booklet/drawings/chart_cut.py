"""Rows of a chart cut until they fit the page: to one repeat, to parts side by side, to parts one above the other."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from booklet.drawings.chart_blocks import BlockChart
from booklet.drawings.chart_flat import lay_flat
from booklet.drawings.chart_glyphs import Glyph
from booklet.drawings.chart_marks import STITCH, ChartRow, Repeated, condense_rows, count_rows, list_chart_rows
from booklet.drawings.chart_repeat import cut_across, find_across, go_round
from booklet.drawings.chart_sheet import HEIGHT_MM, LEAST_MM, FlatChart, RoundChart, fit_flat, flat_height
from booklet.drawings.chart_sides import keep_standing
from booklet.drawings.chart_tiles import cut_tiles
from booklet.drawings.chart_wedge import find_wedge
from booklet.drawings.lay import find_directions
from booklet.model.work import WorkedRow

UNCUT_MM = 2.9  # a chart that fits at this scale is shown whole
MOST_ROWS = 60
WIDEST = 74.0  # stitches that a page has room for at the least scale
FEWEST_ROWS = 3  # where others are left out
MOST_UP = 3  # parts one above the other
SPARE_ROWS = 4  # that a next part may have more than the one before


@dataclass(frozen=True, slots=True)
class Also:
    """Another piece that a chart shows as well, and how many of its rows are left to the words."""

    title: str
    left: int


@dataclass(frozen=True, slots=True)
class Chart:
    """One chart of a piece, with how many of the piece's rows it leaves to the words.

    `goes_on` tells that the next chart goes on from its last row; `also` are pieces that it shows as well. `foot` is
    the name of its lowest row where that is the last one of a chart before it, which shows how it is worked.
    """

    title: str
    drawn: FlatChart | RoundChart | BlockChart
    rows: tuple[ChartRow, ...]
    left: int
    goes_on: bool = False
    also: tuple[Also, ...] = ()
    foot: str = ""

    @property
    def glyphs(self) -> tuple[Glyph, ...]:
        return self.drawn.glyphs


def make_flat(listed: Sequence[ChartRow], title: str, whole: int) -> list[Chart]:
    """Charts of rows one over the other: `whole` is how many rows the piece has, the lowest left out if it is no start.

    What is too high for a page goes on in a next part, whose lowest row is the last one of the part before.
    """
    charts: list[Chart] = []
    most = MOST_ROWS
    listed = keep_standing(listed)
    for number in range(MOST_UP):
        made, used, is_high = _make_part(listed, title, whole, most, may_cut=number == 0)
        if charts and not made:
            break
        charts = [replace(chart, left=0, goes_on=True) for chart in charts] + made
        rest = listed[used - 1 :]
        if not made or not made[-1].left or not is_high or len(rest) <= FEWEST_ROWS or is_plain(rest[1:]):
            break
        listed, whole = keep_standing(rest), made[-1].left
        second = next((at for at, row in enumerate(listed) if row.on is not None), len(listed))
        most = len(made[-1].rows) + SPARE_ROWS + len(listed) - second  # a second side stands beside the first
    return charts


def make_wedge(rows: Sequence[WorkedRow], names: Sequence[str], title: str, whole: int) -> Chart | None:
    """Rounds too wide for the page, cut to a wedge; as many of them as fit. None where no wedge can be cut.

    The first of the rows is what they stand on; `names` are what all are called in the piece, and `whole` is how many
    rounds of it no other chart shows.
    """
    wedge = find_wedge(rows, FEWEST_ROWS)
    if wedge is None:
        return None
    listed = [replace(row, name=name) for row, name in zip(list_chart_rows(wedge.rows), names, strict=False)]
    letters = len({letter for row in listed for letter in row.letters}) > 1
    shown, repeats = condense_rows(listed)
    for count in range(min(len(shown), MOST_ROWS), FEWEST_ROWS, -1):
        kept = shown[:count]
        told = tuple(repeated for repeated in repeats if repeated.first + repeated.count <= count)
        laid, glyphs = lay_flat(kept, _find_ways(kept))
        chart = FlatChart(tuple(laid), tuple(glyphs), told, None, letters, wedge=wedge)
        unit = fit_flat(chart)
        if unit >= LEAST_MM and flat_height(chart, unit) <= HEIGHT_MM:
            drawn = count_rows(kept[1:]) + sum(item.count * (item.times - 1) for item in told)
            return Chart(title, chart, kept, max(0, whole - drawn))
    return None


def is_plain(rows: Sequence[ChartRow]) -> bool:
    """Do all of the rows work one stitch of one kind in each stitch, so that a chart would show nothing?"""
    marks = [mark for row in rows for mark in row.marks if mark.role == STITCH]
    return (
        len({(mark.kind, mark.loop, mark.down) for mark in marks}) == 1
        and all(len(mark.feet) == 1 for mark in marks)
        and len({len(row.row.fabric.sites) for row in rows}) == 1
    )


def _make_part(
    listed: Sequence[ChartRow], title: str, whole: int, most: int, may_cut: bool
) -> tuple[list[Chart], int, bool]:
    """The first part of rows that fits, how many of the rows it takes, and whether it was their height that cut it.

    `may_cut` lets fewer than all rows be cut to parts side by side, where nothing else fits. Rows of other colours
    stand for one another only where a chart of each could not show them all; it then leaves colours out.
    """
    some = listed[: MOST_ROWS * 20]
    if _has_colours(some):
        condensed = condense_rows(some, by_colour=True)
        made, used, is_high = _fit_part(listed, condensed, title, whole, most, may_cut, letters=True)
        if len(made) == 1 and not made[0].left:
            return made, used, is_high
    condensed = condense_rows(some)
    letters = condensed == condense_rows(some, by_colour=True)
    return _fit_part(listed, condensed, title, whole, most, may_cut, letters and _has_colours(condensed[0]))


def _has_colours(rows: Sequence[ChartRow]) -> bool:
    return len({letter for row in rows for letter in row.letters}) > 1


def _fit_part(
    listed: Sequence[ChartRow],
    condensed: tuple[tuple[ChartRow, ...], tuple[Repeated, ...]],
    title: str,
    whole: int,
    most: int,
    may_cut: bool,
    letters: bool,
) -> tuple[list[Chart], int, bool]:
    """As many of the condensed rows as fit."""
    rows, repeats = condensed
    is_part = not listed[0].name or listed[0].row.kind == "foundation"
    known: dict[int, FlatChart] = {}
    for may_tile in (False, True) if may_cut else (False,):
        count = min(len(rows), most)
        is_high = count < len(rows)
        while count and any(row.name for row in rows[:count]):
            kept = rows[:count]
            told = tuple(repeated for repeated in repeats if repeated.first + repeated.count <= count)
            chart = known[count] = known.get(count) or _lay_chart(kept, told, letters)
            drawn = count_rows(kept) + sum(item.count * (item.times - 1) for item in told)
            left = whole - drawn if is_part else whole + 1 - drawn
            left = max(0, left if count < len(rows) or count_rows(listed) < whole else 0)
            is_too_few = left > 0 and sum(1 for row in kept if row.name) < FEWEST_ROWS
            parts = _fit_parts(chart, may_tile or count == len(rows))
            if parts and is_too_few:
                break
            if parts:
                return [Chart(title, part, kept, left) for part in parts], _count_used(listed, drawn), is_high
            fitting = _count_fitting(chart)
            is_high = is_high or (fitting > 0 and not _is_wide(chart, fitting))
            # rows that repeat are cut, and fit, once those that do not are left away
            count = min(count - 1, fitting) if fitting > 3 else count - max(1, count // 5)
    return [], 0, False


def _fit_parts(chart: FlatChart, may_tile: bool) -> list[FlatChart]:
    """The chart where it fits a page, else, where it may be cut, parts side by side; none where these do not fit."""
    unit = fit_flat(chart)
    if unit >= LEAST_MM and flat_height(chart, unit) <= HEIGHT_MM:
        return [chart]
    tiles = cut_tiles(chart) if may_tile and not chart.across else []
    if tiles and flat_height(chart, LEAST_MM) <= HEIGHT_MM and min(map(fit_flat, tiles)) >= LEAST_MM:
        return tiles
    return []


def _count_used(listed: Sequence[ChartRow], drawn: int) -> int:
    """How many of the rows listed it takes to come to so many rows of the piece."""
    for at in range(len(listed)):
        if count_rows(listed[: at + 1]) >= drawn:
            return at + 1
    return len(listed)


def _is_wide(chart: FlatChart, count: int) -> bool:
    """Is it the width of the next row that stops a chart after so many rows?"""
    shown = chart.laid[: count + 1]
    return chart.across is None and max(row.right for row in shown) - min(row.left for row in shown) > WIDEST


def _count_fitting(chart: FlatChart) -> int:
    """How many rows, from the first on, would fit the page at the least scale, as they are laid now."""
    left, right = float("inf"), float("-inf")
    for index, laid in enumerate(chart.laid):
        left, right = min(left, laid.left), max(right, laid.right)
        is_wide = chart.across is None and right - left > WIDEST
        if is_wide or (laid.line + 3.0) * LEAST_MM + 12.0 > HEIGHT_MM:
            return index
    return len(chart.laid)


def _lay_chart(kept: Sequence[ChartRow], repeats: Sequence[Repeated], letters: bool) -> FlatChart:
    laid, glyphs = lay_flat(kept, _find_ways(kept))
    across = find_across(laid, glyphs)
    chart = FlatChart(tuple(laid), tuple(glyphs), tuple(repeats), None, letters)
    if across is None:
        return chart
    across = go_round(laid, glyphs, across)
    if fit_flat(chart) >= UNCUT_MM:
        return replace(chart, across=replace(across, shown=across.times))
    return replace(chart, glyphs=tuple(cut_across(glyphs, across)), across=across)


def _find_ways(kept: Sequence[ChartRow]) -> list[int]:
    """For each row +1 where it goes from left to right, a foundation the way it was made."""
    named = [row.row for row in kept if row.row.kind != "foundation"]
    ways = find_directions(named)
    if named[0].kind == "round" and ways[0] > 0:  # behind rows, whose side does not tell which way a round goes
        ways = [-way for way in ways]
    if kept[0].row.kind == "foundation":
        ways = [ways[0] * _way_along(kept[1]), *ways]
    return ways


def _way_along(first: ChartRow) -> int:
    """+1 where a first row goes the way its foundation was made, as in a ring; -1 where it goes back."""
    feet = [mark.feet[0] for mark in first.marks if mark.feet and mark.role == STITCH]
    return 1 if len(feet) > 1 and feet[-1] > feet[0] else -1
