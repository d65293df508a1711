"""What stitch charts say: captions, words for those who do not see them, and every row as a line of a table."""

import re
from collections import Counter
from collections.abc import Sequence
from dataclasses import replace

from booklet.amounts.key import explain_term, list_own_terms
from booklet.drawings.chart_blocks import BlockChart
from booklet.drawings.chart_feet import DEEP, SIGNS, say_place
from booklet.drawings.chart_flat import LaidRow
from booklet.drawings.chart_marks import (
    ALONG,
    CHAIN,
    LINK,
    OPENING,
    PICOT,
    ChartRow,
    Mark,
    Repeated,
    count_marks,
    is_counted,
)
from booklet.drawings.chart_sheet import FlatChart, RoundChart
from booklet.drawings.chart_sides import find_feet
from booklet.drawings.chart_wedge import Wedge
from booklet.findings import counted, join_words
from booklet.model.amounts import Term
from booklet.model.pattern import Pattern
from booklet.model.work import WorkedPattern

LOOPS = re.compile(r"\b(?:BLO?|FLO?|(?:back|front|third|3rd)[ -]loops?)\b")
MOST_TABLE_ROWS = 40
IN_PLAN = "The chart shows stitches; where each colour lies is in the colour plan."
Table = tuple[tuple[str, ...], ...]


class Names:
    """What stitches are called in the pattern's own terms."""

    def __init__(self, pattern: Pattern, worked: WorkedPattern) -> None:
        self.terms = pattern.terms
        self.own = list_own_terms(pattern, worked)

    def find(self, kind: str) -> Term:
        """A stitch's abbreviation and name; both its own word where nothing explains it."""
        kind = "ch" if kind == "picot ch" else kind
        own = self.own.get(kind.lower())
        return own or explain_term(kind, self.terms) or Term(kind, "")

    def short(self, kind: str) -> str:
        return self.find(kind).abbreviation


def say_counts(counts: Counter[str], names: Names) -> str:
    """`60 dc, 12 sc, 3 ch`, the most frequent first."""
    by_name: Counter[str] = Counter()
    for kind, number in counts.items():
        by_name[names.short(kind)] += number
    return ", ".join(f"{number} {name}" for name, number in by_name.most_common())


def say_row(row: ChartRow, names: Names) -> str:
    """The symbols of a row in working order: `3 ch (as dc), (sc, ch 1) 12 times, sc`."""
    if row.blank:
        return f"in words alone; {counted(row.row.made, 'st')} at the end"
    unit = "round" if row.row.kind == "round" else "row"
    marks = row.marks
    if marks and marks[0].role == ALONG:  # one chain, of which some are worked along and some stand up
        marks = (replace(marks[0], role=CHAIN, chains=marks[0].chains + marks[1].chains), *marks[2:])
    return ", ".join(fold_words(_say_groups(marks, names, unit)))


def _say_chain(marks: Sequence[Mark]) -> str:
    return f"ch {sum(mark.chains for mark in marks)}"


def _say_groups(marks: Sequence[Mark], names: Names, unit: str) -> list[str]:
    """One word or bracket for each mark, or for marks that go into one place."""
    said: list[str] = []
    at = 0
    while at < len(marks):
        end = at + 1
        if marks[at].feet and marks[at].role not in (CHAIN, LINK):
            last = at
            for other in range(at + 1, len(marks)):
                if marks[other].role == CHAIN or marks[other].role == PICOT:
                    continue
                if marks[other].feet != marks[at].feet or marks[other].role == LINK:
                    break
                last = other
            end = last + 1
        words = fold_words([_say_mark(mark, names, unit) for mark in marks[at:end]])
        said.append(f"({', '.join(words)} in one place)" if end - at > 1 else words[0])
        at = end
    return said


def _say_mark(mark: Mark, names: Names, unit: str) -> str:
    if mark.role == CHAIN:
        return f"ch {mark.chains}"
    if mark.role == OPENING:
        return f"ch {mark.chains} (as {names.short(mark.kind)})" if mark.counts else f"ch {mark.chains}"
    if mark.role == PICOT:
        return f"picot of ch {mark.chains}"
    return names.short(mark.kind) + say_place(mark.loop, mark.down, unit)


def fold_words(words: Sequence[str]) -> list[str]:
    """Words that come again together with how often: `5 dc`, `(sc, ch 1) 12 times`."""
    folded: list[str] = []
    at = 0
    while at < len(words):
        period, times = _bestfold_words(words, at)
        if times < 2:
            folded.append(words[at])
            at += 1
            continue
        if period == 1 and _gives_back(words, at + times):
            times -= 1
        inner = words[at : at + period]
        if times == 1:
            folded.append(inner[0])
        elif period == 1:
            is_plain = "(" not in inner[0] and not inner[0][-1].isdigit()
            folded.append(f"{times} {inner[0]}" if is_plain else f"{inner[0]} {times} times")
        else:
            folded.append(f"({', '.join(fold_words(inner))}) {times} times")
        at += period * times
    return folded


def _gives_back(words: Sequence[str], end: int) -> bool:
    """Does the last word of a run belong to the bracket behind it, as makers write `(sc, inc) 6 times`?"""
    if end >= len(words):
        return False
    (period, times), (own, often) = _bestfold_words(words, end - 1), _bestfold_words(words, end)
    return period > 1 and (times - 1) * period >= (often - 1) * own


def _bestfold_words(words: Sequence[str], at: int) -> tuple[int, int]:
    """Period and number of the repeat at this place that saves most words."""
    best, saved = (1, 1), 0
    for period in range(1, min(24, (len(words) - at) // 2) + 1):
        times = 1
        while words[at + times * period : at + (times + 1) * period] == words[at : at + period]:
            times += 1
        if (times - 1) * period > saved:
            best, saved = (period, times), (times - 1) * period
    return best


def describe_flat(chart: FlatChart, title: str, names: Names, notes: Sequence[str], in_size: str) -> tuple[str, str]:
    """Alt text and caption of a chart of rows."""
    rows = [laid.row for laid in chart.laid]
    has_sides = any(row.row.side == "WS" and row.row.kind == "row" for row in rows)
    worked = [row for row in rows if row.name]
    unit = "round" if worked[0].row.kind == "round" else "row"
    first = ". ".join(f"{unit.capitalize()} {row.name}: {say_row(row, names)}" for row in worked[:2])
    alt = f"Stitch chart of {title}{in_size}, {counted(len(worked), unit)} drawn one over the other. {first}."
    total = sum((count_marks(row.marks) for row in rows), Counter())
    alt += f" In all of them: {say_counts(total, names)}.{say_loops(rows)}"
    if chart.wedge:
        notes = [_say_wedge(chart.wedge, unit), *notes]
        alt += f" {notes[0]}"
    if has_sides:
        start = "Rows that are worked on the right side are black and read from right to left"
        caption = f"{start}, those of the wrong side grey and read from left to right."
    elif unit == "round":
        caption = "The rounds laid flat: each one is read from right to left."
    else:
        caption = "The arrow beside each row shows the way that it is worked."
    return alt, " ".join([f"{title}{in_size}." if title else "", caption, *_say_repeats(chart, unit), *notes]).strip()


def _say_wedge(wedge: Wedge, unit: str) -> str:
    """Which part of each round is drawn."""
    if wedge.turns:
        return f"Drawn is the first of the {wedge.turns} repeats of each {unit}; the others are worked like it."
    first = counted(wedge.stitches, "stitch")
    return f"Drawn is the part of each {unit} about its first increase, {first} of the lowest; the words tell the rest."


def say_loops(rows: Sequence[ChartRow]) -> str:
    """Which rows go into one loop, between stitches or into rows further down: ` In back loop: Rows 2 and 3.`"""
    unit = "Round" if rows and rows[-1].row.kind == "round" else "Row"
    found: dict[str, list[str]] = {}
    for row in rows:
        for mark in row.marks:
            for sign in (mark.loop, DEEP if mark.down else ""):
                if sign and row.name not in found.setdefault(sign, []):
                    found[sign].append(row.name)
    said = ""
    for sign in SIGNS:
        if names := found.get(sign):
            where = "Further down" if sign == DEEP else say_place(sign, 0).strip().capitalize()
            said += f" {where}: {unit}{'s' if len(names) > 1 else ''} {join_words(names)}."
    return said


def _say_repeats(chart: FlatChart, unit: str) -> list[str]:
    said = []
    across = chart.across
    if across and (across.hidden or across.width > 1.5):
        strip = f"The grey strip marks one repeat of {counted(across.stitches, 'st')}, worked "
        strip += f"{across.around} times round" if across.around else f"{across.times} times across"
        if across.hidden:
            strip += "; one of them is drawn" if across.drawn == 1 else f"; {across.drawn} of them are drawn"
            strip += "" if across.around else ", with both edges"
        said.append(f"{strip}.")
    for repeated in chart.repeats:
        names = [row.row.name for row in chart.laid[repeated.first : repeated.first + repeated.count]]
        which = f"{unit} {names[0]} stands" if len(names) == 1 else f"{unit}s {names[0]} to {names[-1]} stand"
        which = which.replace(" to ", " and ") if len(names) == 2 else which
        said.append(f"{which.capitalize()} for all {unit}s up to {repeated.until}.")
    return said


def describe_rounds(chart: RoundChart, title: str, names: Names, notes: Sequence[str], in_size: str) -> tuple[str, str]:
    """Alt text and caption of a chart of rounds."""
    rows = [laid.row for laid in chart.laid if laid.row.name]
    first = ". ".join(f"Round {row.name}: {say_row(row, names)}" for row in rows[:2])
    start = "round a chain, along both of its sides" if chart.is_oval else "from the centre outwards"
    alt = f"Stitch chart of {title}{in_size}, {counted(len(rows), 'round')} {start}. {first}."
    total = sum((count_marks(laid.row.marks) for laid in chart.laid), Counter())
    alt += f" In all of them: {say_counts(total, names)}.{say_loops(rows)}"
    turned = any(row.row.turned for row in rows)
    centre = "the chain in the middle" if chart.is_oval else "the centre"
    caption = f"Rounds go outwards from {centre}, black and grey by turns"
    caption += "." if turned else ", counter-clockwise; the number stands where a round begins."
    if chart.turns:
        caption += f" Each round is the same {chart.turns} times over; the arc marks one."
    return alt, " ".join([f"{title}{in_size}." if title else "", caption, *notes]).strip()


def describe_blocks(chart: BlockChart, title: str, names: Names, notes: Sequence[str], in_size: str) -> tuple[str, str]:
    """Alt text and caption of a chart of diagonal work."""
    rows = [laid.row for laid in chart.laid]
    first = ". ".join(f"Row {row.name}: {say_row(row, names)}" for row in rows[:2])
    most = max(len(laid.columns) for laid in chart.laid)
    alt = f"Stitch chart of {title}{in_size}, {counted(len(rows), 'row')} of blocks from corner to corner, "
    total = sum((count_marks(row.marks) for row in rows), Counter())
    alt += f"{most} in the longest. {first}. In all of them: {say_counts(total, names)}."
    caption = "The work begins with the lowest block on the left. Every row lies along the diagonal; its number stands "
    caption += "where it begins, rows of the wrong side are grey."
    return alt, " ".join([f"{title}{in_size}." if title else "", caption, *notes]).strip()


def list_notes(rows: Sequence[ChartRow], kept: Sequence[ChartRow], left: int, unit: str) -> list[str]:
    """What a maker must know besides: rows left out, loops not shown, numbers that are counted."""
    notes = []
    if left:
        notes.append(f"The {counted(left, f'further {unit}')} {'is' if left == 1 else 'are'} in words alone.")
    for row in kept:
        if row.blank:
            which = f"{unit.capitalize()}s {row.name} are" if row.blank > 1 else f"{unit.capitalize()} {row.name} is"
            notes.append(f"{which} left blank: the words alone say how to work there.")
    for row, foot in zip(kept, find_feet(kept), strict=True):
        if row.on is not None and foot >= 0:
            notes.append(f"Row {row.name} begins the second side, on Row {kept[foot].name}.")
    shown = [row for row in kept if any(mark.loop or mark.down for mark in row.marks)]
    if shown:
        notes.append("The signs at the feet of stitches show which loop or place they go into; the key explains them.")
    loops = [row.name for row in kept if row not in shown and not row.blank and LOOPS.search(_words_of(row))]
    if loops:
        which = f"{unit.capitalize()} {loops[0]}" if len(loops) == 1 else f"{unit.capitalize()}s {join_words(loops)}"
        notes.append(f"{which}: the words say which loops to work in; the symbols do not.")
    if is_counted(rows):
        notes.append(f"{unit.capitalize()}s are counted from the start of the piece.")
    return notes


def say_colours(rows: Sequence[ChartRow], shows_letters: bool) -> list[str]:
    """Where the colours of a chart are told."""
    if not shows_letters:
        several = len({letter for row in rows for letter in row.letters}) > 1
        return [IN_PLAN] if several else []
    numbers = {len(row.letters) for row in rows if row.name}
    unit = "round" if rows[-1].row.kind == "round" else "row"
    said = [f"The letter behind a number is the {unit}'s colour."] if 1 in numbers else []
    if max(numbers, default=0) > 1:
        said.append(IN_PLAN)
    return said


def _words_of(row: ChartRow) -> str:
    span = row.row.span
    return span.file.text[span.start : span.end]


def chart_table(
    laid: Sequence[ChartRow], repeats: Sequence[Repeated], names: Names, shows_letters: bool = False
) -> Table:
    """The text twin: every row drawn and those they stand for, in the order in which they are worked.

    Empty where that is a page and more.
    """
    ends = {repeated.first + repeated.count - 1: repeated for repeated in repeats}
    head = "Round" if all(row.row.kind == "round" for row in laid if row.name) else "Row"
    rows: list[tuple[str, ...]] = [(head, "Symbols in working order")]
    for at, row in enumerate(laid):
        if not row.name:
            joined = ", sl st" if any(mark.role == LINK for mark in row.marks) else ""
            rows.append(("Foundation", f"{_say_chain(row.marks)}{joined}"))
            continue
        kind = "Round" if row.row.kind == "round" else "Row"
        unit = f"{kind}s" if row.blank > 1 else kind
        side = f" ({row.row.side})" if row.row.side and row.row.kind != "round" else ""
        colour = f", {row.letters[0]}" if shows_letters and len(row.letters) == 1 else ""
        rows.append((f"{unit} {row.name}{side}{colour}", say_row(row, names)))
        if at in ends:
            rows.append(_say_again(laid, ends[at], kind))
    return tuple(rows) if len(rows) <= MOST_TABLE_ROWS + 1 else ()


def _say_again(laid: Sequence[ChartRow], repeated: Repeated, kind: str) -> tuple[str, str]:
    """`Rows 5 to 178`, `Rows 3 and 4, 87 more times`: the rows that others stand for."""
    names = [row.name for row in laid[repeated.first : repeated.first + repeated.count]]
    more = repeated.times - 1
    how = f"as {kind} {names[0]}" if len(names) == 1 else f"{kind}s {names[0]} to {names[-1]}, {more} more times"
    how = how.replace(" to ", " and ") if len(names) == 2 else how
    how = how.replace("1 more times", "once more") if more == 1 else how
    if not names[-1].isdigit():
        return f"Up to {kind} {repeated.until}", how
    first, last = int(names[-1]) + 1, repeated.until
    if str(first) == last:
        return f"{kind} {first}", how
    return f"{kind}s {first} {'and' if str(first + 1) == last else 'to'} {last}", how


def rows_of(laid: Sequence[LaidRow]) -> list[ChartRow]:
    return [row.row for row in laid]
