"""The yarn of each colour in each size: what to buy, what is needed and left, and where the figures come from."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace

from booklet.findings import counted, join_words
from booklet.model.amounts import SharedBall, YarnNeed, YarnUse
from booklet.model.pattern import Pattern
from booklet.pages.figures import print_percent, print_range, print_yarn_length, sum_grams, sum_left, sum_yarn_lengths
from booklet.pages.fitting import (
    EMPTY,
    MAX_COLUMNS,
    MAX_WIDE_COLUMNS,
    MOST_COLUMNS,
    set_both,
    turn_if_wide,
    turn_table,
)
from booklet.pages.manuscript import BookletInput
from booklet.pages.typography import NO_BREAK_SPACE, set_type
from booklet.pages.views import Cell, Line, Table

GAUGES = {
    "gauge": "for this weight and gauge",
    "size": "for the room that a stitch has in the size given, because no gauge is stated",
    "motif": "for the room that a stitch has in a motif of the size given, because no gauge is stated",
    "weight": "at a gauge that is usual for this weight of yarn, because none is stated",
    "hook": "at a gauge that is usual for this hook, because none is stated",
    "ball": "at a gauge that is usual for a yarn of this length to the weight, because none is stated",
}
ALL = "*"  # stands for the letters of all colours
ORIGINS = {
    "swatch": "a weighed swatch",
    "unravelled": "a length of unravelled yarn",
    "estimate": "published lengths of yarn per stitch",
}


def tabulate_needs(manuscript: BookletInput, in_lines: bool = False) -> Table:
    """A line for each colour in each size, and for all colours of a size together; for those who test the pattern.

    With `in_lines` both units of a cell stand on one line, as paper has room for.
    """
    yarn, pattern = manuscript.amounts.yarn, manuscript.pattern
    assert yarn is not None
    names = {colour.letter: set_type(colour.name) for colour in pattern.colours}
    is_one_size = len(pattern.size_names) < 2
    lines: list[Line] = []
    for size in pattern.size_names:
        needs = [need for need in yarn.needs if need.size == size]
        said = "" if is_one_size else size
        for need in needs:
            head = name_need(need, said, names, is_alone=len(needs) == 1)
            cells = list_cells((need,), pattern, None, in_lines)
            lines.append(Line(head, cells, need.letter, is_colour=need.letter in names))
        if len(needs) > 1 and size in yarn.totals:
            cells = list_cells(needs, pattern, yarn.totals[size], in_lines)
            lines.append(Line(name_need(yarn.totals[size], said, names), cells))
    sure = {need.how for need in (*yarn.needs, *yarn.totals.values())}
    if len(sure) == 1:  # told once, at the head
        lines = [replace(line, cells=(*line.cells[:-1], _drop_words(line.cells[-1]))) for line in lines]
    last = f"Range, {min(sure)}" if len(sure) == 1 else "How sure"
    columns = ("Need", f"With {print_percent(yarn.margin)} reserve", "Balls", "Left over", last)
    corner = "Colour" if is_one_size else "Size and colour"
    return Table("Yarn: what is needed, bought and left", corner, columns, tuple(lines), may_close=True)


def _drop_words(cell: Cell) -> Cell:
    """The range alone of `computed, 343–420 m`, on one line or two."""
    return Cell((cell.lines[-1].rpartition(", ")[2],))


def name_need(need: YarnNeed, size: str, names: Mapping[str, str], is_alone: bool = False) -> str:
    """`Lap, Slate`, `Lap, in all`; the size or the colour alone where there is but one of the other."""
    colour = names.get(need.letter, "in all" if need.letter == ALL else "")
    if is_alone and size:
        return set_type(size)
    words = ", ".join(word for word in (set_type(size), colour) if word)
    return words[:1].upper() + words[1:] if words else "Yarn"


def list_cells(needs: Sequence[YarnNeed], pattern: Pattern, total: YarnNeed | None, in_lines: bool) -> tuple[Cell, ...]:
    """Lengths in the pattern's own unit, and below or beside in the other; what is bought in grams as well.

    For several colours each figure is the sum of theirs as printed, and `total` says how sure they are together.
    """

    def stack(first: str, second: str, form: str = "{} ({})") -> Cell:
        return Cell((form.format(first, second),) if in_lines else (first, second))

    first = pattern.units_first
    whole = total or needs[0]
    bought = sum_yarn_lengths([need.metres_to_buy for need in needs], first)
    grams = [need.grams for need in needs if need.grams is not None]
    if grams:
        bought = (bought[0], f"{bought[1]}, {sum_grams(grams)}")
    left = [need.left_metres for need in needs if need.left_metres is not None]
    return (
        stack(*sum_yarn_lengths([need.metres for need in needs], first)),
        stack(*bought),
        EMPTY if whole.balls is None else Cell((str(whole.balls),)),
        stack(*sum_left(left, first)) if left else EMPTY,
        stack(whole.how, _print_range(needs, whole, first), "{}, {}"),
    )


def _print_range(needs: Sequence[YarnNeed], whole: YarnNeed, units_first: str) -> str:
    """From where to where a length may be; of several colours the sum of theirs, where that is their own but for it."""
    lows, highs = ([getattr(need, end) for need in needs] for end in ("low_metres", "high_metres"))
    if max(abs(sum(lows) - whole.low_metres), abs(sum(highs) - whole.high_metres)) > 1:
        lows, highs = [whole.low_metres], [whole.high_metres]
    return print_range(lows, highs, units_first)


def tabulate_yarn(manuscript: BookletInput) -> Table:
    """What to buy of each colour in each size, the reserve included: length, weight and balls."""
    yarn, pattern = manuscript.amounts.yarn, manuscript.pattern
    assert yarn is not None
    colours = {colour.letter: set_type(colour.name) for colour in pattern.colours}
    needs = {(need.letter, need.size): need for need in yarn.needs if need.metres_to_buy > 0}
    letters = list(dict.fromkeys([*(letter for letter in colours), *(need.letter for need in yarn.needs)]))
    letters = [letter for letter in letters if any((letter, size) in needs for size in pattern.size_names)]
    sizes = len(pattern.size_names)
    is_narrow = MAX_COLUMNS < sizes <= MOST_COLUMNS and len(letters) < MAX_WIDE_COLUMNS
    is_turned = sizes > max(MAX_WIDE_COLUMNS, len(letters)) and not is_narrow
    is_wide = is_turned and len(letters) <= MAX_WIDE_COLUMNS

    def list_buys(letter: str) -> tuple[Cell, ...]:
        wanted = letters if letter == ALL else [letter]
        found = ([needs[one, size] for one in wanted if (one, size) in needs] for size in pattern.size_names)
        cells = (_list_bought(of_size, pattern, is_wide) for of_size in found)
        return tuple(_stack(lines, is_narrow) for lines in cells)

    lines = [
        Line(colours.get(letter, "Yarn"), list_buys(letter), letter, is_colour=letter in colours) for letter in letters
    ]
    if len(lines) > 1 and yarn.totals:
        lines.append(Line("In all", list_buys(ALL)))
    by = [word for word, is_there in (("colour", len(letters) > 1), ("size", len(pattern.size_names) > 1)) if is_there]
    words = ["Yarn to buy", f"by {join_words(by)}" if by else "", f"{print_percent(yarn.margin)} reserve included"]
    caption = ", ".join(word for word in words if word) if yarn.margin else ", ".join(filter(None, words[:2]))
    names = tuple(set_type(name) or "All" for name in pattern.size_names)
    table = Table(caption, "Colour" if colours else "", names, tuple(lines))
    if is_narrow:
        return table
    return turn_table(table, "Size") if is_turned else turn_if_wide(table, "Size")


def _stack(lines: tuple[str, ...], is_narrow: bool) -> Cell:
    """The lines as a cell; in one of many narrow columns weight and balls have a line each."""
    return Cell(tuple(", ".join(lines).split(", ")) if is_narrow else lines) if lines else EMPTY


def _list_bought(needs: Sequence[YarnNeed], pattern: Pattern, is_wide: bool) -> tuple[str, ...]:
    """Length, weight and balls of one colour, or of several as a reader adds them up; () without any."""
    if not needs:
        return ()
    lengths = sum_yarn_lengths([need.metres_to_buy for need in needs], pattern.units_first)
    grams = [need.grams for need in needs if need.grams is not None]
    known = [need.balls for need in needs if need.balls is not None]
    balls = f"{sum(known)}{NO_BREAK_SPACE}{'ball' if sum(known) == 1 else 'balls'}" if known else ""
    bought = ", ".join(words for words in (sum_grams(grams) if grams else "", balls) if words)
    figures = (set_pair(lengths),) if is_wide else set_both(lengths, pattern)
    return tuple(words for words in (*figures, bought) if words)


def set_pair(lengths: tuple[str, str]) -> str:
    return f"{lengths[0]} ({lengths[1]})"


def explain_yarn(manuscript: BookletInput) -> tuple[str, ...]:
    """How the lengths came about, how far they may be off, and what they include."""
    yarn, pattern = manuscript.amounts.yarn, manuscript.pattern
    if yarn is None or not yarn.needs:
        return ()
    may = f"may be off by about {print_percent(yarn.spread)} either way"
    weighed = yarn.basis == "sample" or yarn.reports
    notes = [
        (
            f"Lengths are worked out from every stitch of the pattern and {tell_origin(yarn, pattern)}. "
            + (f"Where no one has weighed the yarn of a size, its lengths {may}." if weighed else f"They {may}.")
        ),
        " ".join(tell_contents(manuscript, yarn)),
    ]
    if yarn.reports:
        held = counted(yarn.reports, "tester\u2019s report").replace("tester\u2019s reports", "testers\u2019 reports")
        notes.append(f"{held} {'is' if yarn.reports == 1 else 'are'} taken in: of all figures the highest is printed.")
    if any(need.balls is not None for need in yarn.needs):
        notes.append("Balls are whole balls. Buy them from one dye lot, and one more if your row gauge differs.")
    notes.extend(tell_shared(yarn.shared, pattern))
    return tuple(notes)


def tell_origin(yarn: YarnUse, pattern: Pattern) -> str:
    if yarn.basis == "sample":
        return "the weight of the finished sample" + (f" in size {yarn.sample_size}" if yarn.sample_size else "")
    swatch = pattern.swatch
    if yarn.basis == "swatch" and swatch is not None:
        return f"{ORIGINS['swatch']} of {swatch.sts} stitches by {swatch.rows} rows ({swatch.grams:g}{NO_BREAK_SPACE}g)"
    if yarn.basis == "estimate":
        return f"{ORIGINS['estimate']} {GAUGES[yarn.gauge_from]}; no swatch was weighed"
    return ORIGINS[yarn.basis]


def tell_contents(manuscript: BookletInput, yarn: YarnUse) -> Iterator[str]:
    """What is in the need and what is not."""
    pattern = manuscript.pattern
    turning = any(row.turned for part in manuscript.worked.parts for size in part.rows for row in size)
    parts = [
        "foundation and turning chains" if turning else "all chains",
        f"{yarn.tail_cm:g}{NO_BREAK_SPACE}cm at each end of a strand",
    ]
    if any(need.seam_metres for need in yarn.needs):
        parts.append("seams")
    parts.extend(item.name for item in pattern.finishing if item.kind == "trimming")
    yield f"The need includes {join_words(parts)}."
    if yarn.strands > 1:
        yield f"{yarn.strands} strands are held together throughout, and counted each."
    swatch = next((need for need in yarn.needs if need.swatch_metres), None)
    if swatch is not None:
        length = set_pair(print_yarn_length(swatch.swatch_metres, pattern.units_first))
        of = f" of {swatch.letter}" if swatch.letter and len(pattern.colours) > 1 else ""
        several = len(pattern.swatches) > 1
        yield f"Balls{of} allow for {'the swatches' if several else 'a swatch'} besides, {length}."
    else:
        yield "A swatch is not included."


def tell_shared(shared: Sequence[SharedBall], pattern: Pattern) -> Iterator[str]:
    """Which colours would share a ball, sizes that say the same told together."""
    sizes: dict[tuple[str, ...], list[str]] = {}
    for ball in shared:
        sizes.setdefault(ball.letters, []).append(ball.size)
    for letters, named in sizes.items():
        where = "" if len(named) == len(pattern.size_names) else f" in {join_words(named)}"
        yield f"{join_words(letters)} together need no more than one ball{where}: in a single shade one ball is enough."
