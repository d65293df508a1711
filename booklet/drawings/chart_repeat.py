"""The repeat across a chart of rows: found in the laid symbols, and shown once where there is no room for all.

What repeats is read from where symbols came to lie, so that it holds for stitches, chains and the
places they stand on alike.
"""

from bisect import bisect_left
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass, replace

from booklet.drawings.chart_flat import LaidRow
from booklet.drawings.chart_glyphs import Glyph

NEAR = 0.2  # symbols so near to where a repeat expects them are there
SHOWN_WIDE = 10.0  # stitches: a narrower repeat is shown more than once
MOST_PERIODS = 40
LEAST_SHARE = 0.5  # of the width must repeat


@dataclass(frozen=True, slots=True)
class AcrossRepeat:
    """From `start` on, `width` stitches wide, `times` beside one another in the piece, of which `shown` are drawn.

    Rounds that are nothing but repeats have `around` of them, `first` being where the one that begins them all starts
    in the piece laid flat.
    """

    start: float
    width: float
    times: int
    shown: int
    stitches: int
    around: int = 0
    first: float = 0.0

    @property
    def hidden(self) -> float:
        """How much narrower the chart is than the piece."""
        return (self.times - self.shown) * self.width

    @property
    def marked(self) -> float:
        """Where the repeat that is marked starts in the chart."""
        return self.first - self.hidden if self.around else self.start

    @property
    def drawn(self) -> int:
        """How many repeats are to be seen, the incomplete ones at the edges of rows not among them."""
        return self.around - self.times + self.shown if self.around else self.shown


def place_of(glyph: Glyph) -> float:
    """Where along its row a symbol counts as lying."""
    return (glyph.head[0] + glyph.feet[0][0]) / 2 if glyph.look == "ch" else glyph.head[0]


@dataclass(frozen=True, slots=True)
class _Item:
    x: float
    look: str
    lean: float
    high: float


def find_across(laid: Sequence[LaidRow], glyphs: Sequence[Glyph]) -> AcrossRepeat | None:
    """The narrowest repeat that all rows share for at least twice its width; None where there is none."""
    rows: dict[int, list[_Item]] = {}
    for glyph in glyphs:
        foot = sum(x for x, _ in glyph.feet) / len(glyph.feet)
        look = f"{glyph.look} {glyph.loop}" if glyph.loop else glyph.look
        item = _Item(place_of(glyph), look, glyph.head[0] - foot, glyph.head[1] - laid[glyph.row].line)
        rows.setdefault(glyph.row, []).append(item)
    lines = [sorted(items, key=lambda item: item.x) for items in rows.values()]
    left, right = max(row.left for row in laid), min(row.right for row in laid)
    whole = max(row.right for row in laid) - min(row.left for row in laid)
    if right - left < 4 or not lines:
        return None
    busiest = max(lines, key=lambda items: (len({item.look for item in items}), len(items)))
    middle = bisect_left([item.x for item in busiest], (left + right) / 2) // 2
    origin = busiest[middle]
    periods = [item.x - origin.x for item in busiest[middle + 1 :] if item.look == origin.look]
    for period in periods[:MOST_PERIODS]:
        if period > (right - left) / 2:
            break
        span = _shared_span(lines, period)
        if span and span[1] - span[0] >= 2 * period - NEAR and span[1] - span[0] > LEAST_SHARE * whole:
            return _keep_equal(_choose_start(lines, span, period, laid), lines)
    return None


def _keep_equal(across: AcrossRepeat, lines: Sequence[Sequence[_Item]]) -> AcrossRepeat | None:
    """The longest stretch of repeats that hold the same symbols in every row."""
    contents = []
    for number in range(across.times):
        low = across.start + number * across.width
        rows = [Counter(item.look for item in items if low <= item.x < low + across.width) for items in lines]
        contents.append(rows)
    first, longest = 0, (0, 0)
    for number in range(1, across.times + 1):
        if number == across.times or contents[number] != contents[first]:
            longest = max(longest, (number - first, -first))
            first = number
    times, first = longest[0], -longest[1]
    if times < 2:
        return None
    shown = min(times, across.shown)
    return replace(across, start=across.start + first * across.width, times=times, shown=shown)


def _shared_span(lines: Sequence[Sequence[_Item]], period: float) -> tuple[float, float] | None:
    """The stretch in which every row is the same one period further on."""
    begin, end = float("-inf"), float("inf")
    for items in lines:
        span = _longest_span(items, period)
        if span is None:
            return None
        begin, end = max(begin, span[0]), min(end, span[1])
    return (begin, end) if end > begin else None


def _longest_span(items: Sequence[_Item], period: float) -> tuple[float, float] | None:
    xs = [item.x for item in items]
    best: tuple[float, float] | None = None
    begin: float | None = None
    last = 0.0
    for item in items:
        if _has_twin(items, xs, item, period):
            begin = item.x if begin is None else begin
            last = item.x + period
            if best is None or last - begin > best[1] - best[0]:
                best = (begin, last)
        else:
            begin = None
    return best


def _has_twin(items: Sequence[_Item], xs: Sequence[float], item: _Item, period: float) -> bool:
    at = bisect_left(xs, item.x + period - NEAR)
    while at < len(xs) and xs[at] <= item.x + period + NEAR:
        other = items[at]
        if other.look == item.look and abs(other.lean - item.lean) < 2 * NEAR and abs(other.high - item.high) < NEAR:
            return True
        at += 1
    return False


def _choose_start(
    lines: Sequence[Sequence[_Item]], span: tuple[float, float], period: float, laid: Sequence[LaidRow]
) -> AcrossRepeat:
    """The repeat from where its edges run through fewest symbols, as far left as may be."""
    begin, end = span
    times = int((end - begin + 2 * NEAR) / period)
    spare = period if times > 2 else min(period, end - begin + NEAR - period)
    steps = max(2, round(spare / 0.25))
    choices = []
    for step in range(steps + 1):
        start = begin - 0.5 + spare * step / steps
        met = sum(
            1 for items in lines for item in items if abs((item.x - start + period / 2) % period - period / 2) < 0.3
        )
        lost = times - int((end + 0.5 - start + NEAR) / period)
        choices.append((met + lost * len(lines) / 2, step, start))
    start = min(choices)[2]
    times = max(1, int((end + 0.5 - start + NEAR) / period))
    shown = min(times, max(1, int(SHOWN_WIDE / period)))
    base = laid[0]
    stitches = sum(
        1
        for (x, _), site in zip(base.sites, base.row.row.fabric.sites, strict=True)
        if start <= x < start + period and site.counts
    )
    return AcrossRepeat(start, period, times, shown, max(1, stitches))


def go_round(laid: Sequence[LaidRow], glyphs: Sequence[Glyph], across: AcrossRepeat) -> AcrossRepeat:
    """The repeat of rounds that are nothing else: so often all round, beginning where the rounds begin, at the right.

    The repeat as it was found where rows have edges, or where a round begins amid one.
    """
    counts = [sum(site.counts for site in row.row.row.fabric.sites) for row in laid]
    around = counts[0] // across.stitches
    is_all = around >= across.times and around * across.stitches == counts[0]
    if not is_all or any(row.row.row.kind != "round" for row in laid) or any(count % around for count in counts):
        return across
    lowest = [x for (x, _), site in zip(laid[0].sites, laid[0].row.row.fabric.sites, strict=True) if site.counts]
    first = max(lowest) + 0.5 - across.width
    if _look_within(glyphs, first, across.width) != _look_within(glyphs, across.start, across.width):
        return across
    return replace(across, around=around, first=first)


def _look_within(glyphs: Sequence[Glyph], start: float, width: float) -> Counter[tuple[int, str]]:
    return Counter((glyph.row, glyph.look) for glyph in glyphs if start <= place_of(glyph) < start + width)


def cut_across(glyphs: Sequence[Glyph], across: AcrossRepeat) -> list[Glyph]:
    """The symbols without the repeats that are not shown; what lies to their right moves left."""
    first = across.start + across.shown * across.width
    last = across.start + across.times * across.width
    kept = []
    for glyph in glyphs:
        x = place_of(glyph)
        if x < first:
            kept.append(glyph)
        elif x >= last:
            kept.append(_shift(glyph, -across.hidden))
    return kept


def _shift(glyph: Glyph, dx: float) -> Glyph:
    feet = tuple((x + dx, y) for x, y in glyph.feet)
    deep = (glyph.deep[0] + dx, glyph.deep[1]) if glyph.deep else None
    return replace(glyph, feet=feet, head=(glyph.head[0] + dx, glyph.head[1]), deep=deep)


def lies_in(glyph: Glyph, across: AcrossRepeat) -> bool:
    """Is the symbol part of the first repeat shown?"""
    return across.start <= place_of(glyph) < across.start + across.width
