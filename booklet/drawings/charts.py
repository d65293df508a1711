"""The stitch charts of a pattern, from its worked rows, and the key of the symbols they use.

A piece from its centre is drawn in rounds as far as it grows; rows, and rounds that go straight on,
one over the other. A chart too wide for the page is cut to one repeat with both edges, or, where
nothing repeats, to the rows that fit.
"""

import re
from collections.abc import Sequence
from dataclasses import replace

from booklet.amounts.measures import is_in_rounds, starts_at_centre
from booklet.drawings.chart_blocks import BlockChart, lay_blocks, list_block_rows
from booklet.drawings.chart_cut import FEWEST_ROWS, Also, Chart, is_plain, make_flat, make_wedge
from booklet.drawings.chart_marks import CHAIN, STITCH, ChartRow, count_rows, list_chart_rows, split_at_edges
from booklet.drawings.chart_oval import goes_round_chain
from booklet.drawings.chart_ring import LaidRound
from booklet.drawings.chart_rounds import lay_rounds
from booklet.drawings.chart_sheet import (
    LEAST_MM,
    FlatChart,
    RoundChart,
    fit_blocks,
    fit_rounds,
    plan_blocks,
    plan_flat,
    plan_rounds,
)
from booklet.drawings.chart_sides import place_sides
from booklet.drawings.chart_tiles import say_part
from booklet.drawings.chart_words import (
    Names,
    Table,
    chart_table,
    describe_blocks,
    describe_flat,
    describe_rounds,
    list_notes,
    say_colours,
)
from booklet.drawings.lay import find_directions
from booklet.drawings.paint import paint_plan
from booklet.drawings.picture import Ink, Picture
from booklet.drawings.symbol_key import draw_key, name_own_looks
from booklet.findings import join_words
from booklet.model.pattern import Pattern
from booklet.model.work import WorkedPart, WorkedPattern, WorkedRow

LONGEST_CHAIN = 16  # a run of more chains makes a strap or a handle, which no round has room for
FEWEST_EDGE = 2  # rows along an edge
FEWEST_SYMBOLS = 24  # of a chart of rounds
MOST_BESIDE = 3  # parts of wide rounds side by side
EVEN_ROUNDS = 3  # so many that do not grow, one after the other, go down the side of a hat
ON_EDGE = "The line at the foot is the edge that the first row is worked along."
AT_FOOT = "Round {}, at the foot, is the last of the chart before, which shows how it is worked."
PLAIN_TURNS = (12, 10, 9, 8, 7, 6, 5, 4, 3)


def chart_pieces(worked: WorkedPattern, size: int) -> tuple[Chart, ...]:
    """The charts of all pieces in one size, in the order of the pieces."""
    charts: list[Chart] = []
    for part in worked.parts:
        if size < len(part.rows):
            charts.extend(_chart_part(part, size))
    return name_own_looks(_join_equal([chart for chart in charts if not _is_slight(chart)]))


def _join_equal(charts: Sequence[Chart]) -> list[Chart]:
    """The charts, one for all pieces that begin alike, such as the crowns of a head and a body."""
    joined: list[Chart] = []
    for chart in charts:
        at = next((at for at, other in enumerate(joined) if _is_equal(other, chart)), None)
        if at is None:
            joined.append(chart)
        else:
            also = (*joined[at].also, Also(chart.title, chart.left))
            joined[at] = replace(joined[at], also=also)
    return joined


def _is_equal(first: Chart, second: Chart) -> bool:
    """Do two charts of different pieces put the same symbols in the same places, with the same words beside them?"""
    if first.title == second.title or first.goes_on or second.goes_on:
        return False
    rows = [
        [(row.name, row.marks, row.row.side, row.free, row.blank) for row in chart.rows] for chart in (first, second)
    ]
    return rows[0] == rows[1] and first.glyphs == second.glyphs and type(first.drawn) is type(second.drawn)


def _is_slight(chart: Chart) -> bool:
    """Is it a ring and a round more, of which the rows say as much?"""
    return isinstance(chart.drawn, RoundChart) and len(chart.glyphs) < FEWEST_SYMBOLS


def _chart_part(part: WorkedPart, size: int) -> list[Chart]:
    rows = part.rows[size]
    if blocks := list_block_rows(rows):
        return _chart_blocks(blocks, part.title, len(rows))
    listed = place_sides(list_chart_rows(rows), rows)
    if not any(row.name for row in listed) or _is_mostly_blank(listed):
        return []
    if is_in_rounds(part):
        return _chart_rounds(part, size, listed)
    first, *further = split_at_edges(listed)
    flat = tuple(row for at, row in enumerate(first) if all(other.row.kind != "round" for other in first[: at + 1]))
    beside = [(segment, _chart_edge(segment, part.title)) for segment in further]
    told = sum(count_rows(segment) for segment, charts in beside if charts)
    whole = sum(1 for row in rows if row.kind != "foundation") - told
    return [*make_flat(flat, part.title, whole), *(chart for _, charts in beside for chart in charts)]


def _chart_edge(segment: Sequence[ChartRow], title: str) -> list[Chart]:
    """Rows along an edge of the piece, where one chart shows them all and they are not all of one stitch."""
    kinds = {mark.kind for row in segment for mark in row.marks if mark.role == STITCH}
    if len(segment) < FEWEST_EDGE or (len(kinds) == 1 and is_plain(segment[1:])):
        return []
    section = segment[0].row.section
    name = f"{title}: {section}" if section and title and section != title else section or title
    charts = make_flat(segment, name, count_rows(segment) - 1)
    if len(charts) != 1 or charts[0].left or not isinstance(charts[0].drawn, FlatChart):
        return []
    return [replace(charts[0], drawn=replace(charts[0].drawn, stands_on_edge=True))]


def _chart_blocks(rows: Sequence[ChartRow], title: str, whole: int) -> list[Chart]:
    """Blocks from corner to corner, as many rows of them as the page has room for."""
    for count in range(len(rows), FEWEST_ROWS - 1, -1):
        drawn = lay_blocks(rows[:count])
        if fit_blocks(drawn) >= LEAST_MM:
            return [Chart(title, drawn, tuple(rows[:count]), whole - count)]
    return []


def _is_mostly_blank(listed: Sequence[ChartRow]) -> bool:
    """Are more rows left to the words than drawn?"""
    blank = sum(row.blank for row in listed)
    return blank * 2 > count_rows(listed)


def _chart_rounds(part: WorkedPart, size: int, listed: Sequence[ChartRow]) -> list[Chart]:
    """A crown or motif in rounds, and what goes straight on from there one over the other."""
    whole = sum(1 for row in part.rows[size] if row.kind != "foundation")
    rounds = [row.row for row in listed if row.name]
    is_oval = goes_round_chain(listed)
    if _is_half_known(listed) and not is_oval:
        return []
    if not is_oval and not starts_at_centre(rounds):
        return _chart_wide(listed, part.title, whole)
    base = len(listed) - len(rounds)
    grown = base + _count_outwards(rounds)
    charts = []
    inner = _make_rounds(listed[:grown], part.title)
    if inner is None:  # too wide from the start, as round a neck
        return _chart_wide(listed, part.title, whole)
    if len(inner.rows) < grown and not is_oval:
        names = [row.name for row in listed[len(inner.rows) - 1 : grown]]
        rounds = [row.row for row in listed[len(inner.rows) - 1 : grown]]
        if further := make_wedge(rounds, names, part.title, whole - count_rows(inner.rows)):
            return [replace(inner, goes_on=True), further]
    rest = listed[grown - 1 :]
    rest = rest[: next((at for at, row in enumerate(rest) if _has_strap(row)), len(rest))]
    if len(rest) > 2 and not is_plain(rest[1:]):
        outer = make_flat(rest, part.title, count_rows(rest[1:]) + whole - count_rows(listed))
        if outer:
            drawn = count_rows(inner.rows)
            outer[0] = replace(outer[0], foot=rest[0].name)
            charts = [replace(inner, left=count_rows(listed[:grown]) - drawn), *outer]
    return charts or [replace(inner, left=whole - count_rows(inner.rows))]


def _chart_wide(listed: Sequence[ChartRow], title: str, whole: int) -> list[Chart]:
    """Rounds that begin with many stitches: laid flat where a page or a few parts show them so, else cut to a wedge."""
    flat = make_flat(listed, title, whole)
    is_in_many = len(flat) > MOST_BESIDE and any(
        isinstance(chart.drawn, FlatChart) and chart.drawn.window is not None for chart in flat
    )
    if flat and not flat[-1].left and not is_in_many:
        return flat
    first = next((at for at, row in enumerate(listed) if row.name), 0)
    lowest = max(0, first - 1)
    wedge = make_wedge([row.row for row in listed[lowest:]], [row.name for row in listed[lowest:]], title, whole)
    if wedge is None:
        return flat
    shows_more = not flat or wedge.left < flat[-1].left
    return [wedge] if shows_more or (is_in_many and wedge.left == flat[-1].left) else flat


def _is_half_known(listed: Sequence[ChartRow]) -> bool:
    """Does the first round go into its foundation with some of its stitches, and elsewhere with others?"""
    if listed[0].name or len(listed) < 2:
        return False
    has_feet = {bool(mark.feet) for mark in listed[1].marks if mark.role == STITCH}
    return len(has_feet) == 2


def _count_outwards(rounds: Sequence[WorkedRow]) -> int:
    """How many rounds go outwards: up to where several in a row are no longer than the one before."""
    even = 0
    for at in range(1, len(rounds)):
        even = even + 1 if len(rounds[at].fabric.sites) <= len(rounds[at - 1].fabric.sites) else 0
        if even == EVEN_ROUNDS:
            return at + 1 - EVEN_ROUNDS
    return len(rounds)


def _make_rounds(listed: Sequence[ChartRow], title: str) -> Chart | None:
    """The rounds as far as the page has room."""
    rows: list[ChartRow] = []
    for row in listed:
        if _has_strap(row):
            break
        rows.append(row)
    while any(row.name for row in rows):
        kept, repeats = tuple(rows), ()
        named = [row.row for row in kept if row.name]
        ways = [1] * (len(kept) - len(named)) + [-way for way in find_directions(named)]
        laid, glyphs, shape = lay_rounds(kept, ways)
        turns = 0 if shape.half else _count_turns(laid)
        drawn = RoundChart(tuple(laid), tuple(glyphs), repeats, turns, shape)
        if fit_rounds(drawn) >= LEAST_MM:
            return Chart(title, drawn, kept, 0)
        rows.pop()
    return None


def _has_strap(row: ChartRow) -> bool:
    """Has a round a run of chains that no chart has room for?"""
    return bool(row.name) and any(mark.role == CHAIN and mark.chains > LONGEST_CHAIN for mark in row.marks)


def _count_turns(laid: Sequence[LaidRound]) -> int:
    """How often every round repeats itself; 0 where one of them does not."""
    sequences = [_tokens(done.row) for done in laid if done.row.name]
    shaped = [sequence for sequence in sequences if len(set(sequence)) > 1]
    if len(shaped) < 2:
        return 0
    for turns in PLAIN_TURNS:
        if all(_is_cyclic(sequence, turns) for sequence in sequences):
            return turns
    return 0


def _tokens(row: ChartRow) -> list[tuple[object, ...]]:
    """Stitches and chains of a round in order, with where several go into one place."""
    tokens: list[tuple[object, ...]] = []
    before: tuple[int, ...] | None = None
    for mark in row.marks:
        if mark.role == CHAIN:
            tokens.append(("ch", mark.chains))
        elif mark.tops and (mark.role == STITCH or mark.counts):
            tokens.append((mark.kind, bool(mark.feet) and mark.feet == before))
            before = mark.feet
    if tokens and row.marks and before is not None:
        first = next((mark for mark in row.marks if mark.tops and mark.role != CHAIN), None)
        if first is not None and first.feet and first.feet == before and len(tokens) > 1:
            tokens[0] = (tokens[0][0], True)
    return tokens


def _is_cyclic(sequence: Sequence[tuple[object, ...]], turns: int) -> bool:
    if len(sequence) % turns or not sequence:
        return False
    step = len(sequence) // turns
    return all(sequence[at] == sequence[at - step] for at in range(len(sequence)))


def draw_charts(
    pattern: Pattern, worked: WorkedPattern, size: int, ink: Ink, is_mirrored: bool = False
) -> tuple[Picture, ...]:
    """Every chart, named `chart-1` …, and behind them the symbols of the key, `symbol-1` …

    A mirrored set, for left-handed makers, has names that end in `-left`, and no key of its own.
    """
    names = Names(pattern, worked)
    charts = chart_pieces(worked, size)
    in_size = f" in size {pattern.size_names[size]}" if len(pattern.size_names) > 1 else ""
    pictures = [
        _draw_chart(replace(chart, title=chart.title or pattern.title), number, names, in_size, ink, is_mirrored)
        for number, chart in enumerate(charts, 1)
    ]
    if pictures and not is_mirrored:
        pictures.extend(draw_key(charts, names, ink))
    return tuple(pictures)


def _draw_chart(chart: Chart, number: int, names: Names, in_size: str, ink: Ink, is_mirrored: bool) -> Picture:
    title = join_words([" ".join(title.split()) for title in (chart.title, *(also.title for also in chart.also))])
    drawn = chart.drawn
    unit = "round" if chart.rows[-1].row.kind == "round" else "row"
    lefts = {chart.left, *(also.left for also in chart.also)}
    notes = list_notes(chart.rows, chart.rows, chart.left if len(lefts) == 1 else 0, unit)
    if len(lefts) > 1:
        each = [f"{also.left or 'none'} of {also.title}" for also in (Also(chart.title, chart.left), *chart.also)]
        notes.insert(0, f"Further {unit}s are in words alone: {join_words(each)}.")
    goes_on = [f"The next chart goes on from its last {unit}."] if chart.goes_on else []
    if isinstance(drawn, RoundChart):
        plan = plan_rounds(drawn, ink, is_mirrored)
        alt, caption = describe_rounds(drawn, title, names, [*notes, *goes_on], in_size)
        table: Table = chart_table(chart.rows, (), names)
    elif isinstance(drawn, BlockChart):
        plan = plan_blocks(drawn, ink, is_mirrored)
        alt, caption = describe_blocks(drawn, title, names, notes, in_size)
        table = chart_table(chart.rows, (), names)
    else:
        notes.extend(say_colours(chart.rows, drawn.shows_letters))
        notes.extend([AT_FOOT.format(chart.foot)] if chart.foot else [])
        notes.extend([say_part(drawn.window)] if drawn.window else [])
        notes.extend([ON_EDGE] if drawn.stands_on_edge else ())
        notes.extend(goes_on)
        plan = plan_flat(drawn, ink, is_mirrored)
        alt, caption = describe_flat(drawn, title, names, notes, in_size)
        alt += f" This is part {drawn.window.number} of {drawn.window.count}." if drawn.window else ""
        table = chart_table(chart.rows, drawn.repeats, names, drawn.shows_letters)
    if is_mirrored:
        alt = f"For left-handed makers. {mirror_words(alt)}"
        caption = f"For left-handed makers. {mirror_words(caption)}"
    png = paint_plan(plan, ink, is_grey=True)
    name = f"chart-{number}{'-left' if is_mirrored else ''}"
    return Picture(name, png, plan.width, plan.height, alt, caption, () if is_mirrored else table)


def mirror_words(text: str) -> str:
    """Directions as a left-handed maker reads them."""
    swapped = {"on the left": "on the right", "on the right": "on the left"}
    swapped |= {"right to left": "left to right", "left to right": "right to left"}
    swapped["counter-clockwise"] = "clockwise"
    return re.sub("|".join(swapped), lambda match: swapped[match[0]], text)
