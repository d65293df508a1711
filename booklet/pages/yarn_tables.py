"""The yarn of each colour in each size: need, reserve, balls, what is left, how sure, and where it comes from."""

from collections.abc import Iterator, Mapping, Sequence

from booklet.amounts.figures import print_grams
from booklet.findings import counted, join_words
from booklet.model.amounts import SharedBall, YarnNeed, YarnUse
from booklet.model.pattern import Pattern
from booklet.pages.figures import print_left, print_percent, print_range, print_yarn_length
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
EMPTY = Cell(("–",))
ORIGINS = {
    "swatch": "a weighed swatch",
    "unravelled": "a length of unravelled yarn",
    "estimate": "published lengths of yarn per stitch",
}


def tabulate_needs(manuscript: BookletInput) -> Table:
    """A line for each colour in each size, and for all colours of a size together."""
    yarn, pattern = manuscript.amounts.yarn, manuscript.pattern
    assert yarn is not None
    names = {colour.letter: set_type(colour.name) for colour in pattern.colours}
    lines: list[Line] = []
    for size in pattern.size_names:
        needs = [need for need in yarn.needs if need.size == size]
        if len(needs) > 1 and size in yarn.totals:
            needs.append(yarn.totals[size])
        for need in needs:
            head = name_need(need, size, names, is_alone=len(needs) == 1)
            lines.append(Line(head, list_cells(need, pattern), letter_of(need), is_colour=need.letter in names))
    columns = ("Need", f"With {print_percent(yarn.margin)} reserve", "Balls", "Left over", "How sure")
    return Table("Yarn: what is needed, bought and left", "Size and colour", columns, tuple(lines))


def name_need(need: YarnNeed, size: str, names: Mapping[str, str], is_alone: bool) -> str:
    """`Lap, Slate`, `Lap, in all`; the size or the colour alone where there is but one of the other."""
    colour = names.get(need.letter, "in all" if need.letter == "*" else "")
    if is_alone and size:
        return set_type(size)
    words = ", ".join(word for word in (set_type(size), colour) if word)
    return words[:1].upper() + words[1:] if words else "Yarn"


def letter_of(need: YarnNeed) -> str:
    return "" if need.letter == "*" else need.letter


def list_cells(need: YarnNeed, pattern: Pattern) -> tuple[Cell, ...]:
    """Lengths in the pattern's own unit, and below in the other; what is bought in grams as well."""
    first = pattern.units_first
    bought = print_yarn_length(need.metres_to_buy, first)
    if need.grams is not None:
        bought = (bought[0], f"{bought[1]}, {print_grams(need.grams)}{NO_BREAK_SPACE}g")
    return (
        Cell(print_yarn_length(need.metres, first)),
        Cell(bought),
        EMPTY if need.balls is None else Cell((str(need.balls),)),
        EMPTY if need.left_metres is None else Cell(print_left(need.left_metres, first)),
        Cell((need.how, print_range(need.low_metres, need.high_metres, first))),
    )


def set_pair(lengths: tuple[str, str]) -> str:
    return f"{lengths[0]} ({lengths[1]})"


def explain_yarn(manuscript: BookletInput) -> tuple[str, ...]:
    """How the lengths came about, how far they may be off, and what they include."""
    yarn, pattern = manuscript.amounts.yarn, manuscript.pattern
    if yarn is None or not yarn.needs:
        return ()
    notes = [
        (
            f"Lengths are worked out from every stitch of the pattern and {tell_origin(yarn, pattern)}. Where neither "
            f"sample nor tester weighed them, they may be off by about {print_percent(yarn.spread)} either way."
        ),
        " ".join(tell_contents(yarn, pattern)),
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


def tell_contents(yarn: YarnUse, pattern: Pattern) -> Iterator[str]:
    """What is in the need and what is not."""
    parts = ["foundation and turning chains", f"{yarn.tail_cm:g}{NO_BREAK_SPACE}cm at each end of a strand"]
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
