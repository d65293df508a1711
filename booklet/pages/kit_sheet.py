"""The kit list as one sheet for whoever packs: what is made, what goes into each kit, what is still to get."""

import math
from collections.abc import Iterator
from dataclasses import dataclass

from booklet.findings import counted
from booklet.model.kits import FinishedMeasure, Item, Kit, KitList, LengthRange, LotList, SizeTable
from booklet.pages import figures
from booklet.pages.figures import print_count, print_date, print_percent, print_yarn_length
from booklet.pages.typography import NO_BREAK_SPACE, set_type
from booklet.pages.views import Cell, ColourPatch, Fact, Line, Section, Table

HAIR = 1e-9
FITS = "fits"
HOW_YARN = {
    "sample": "the weight of a finished sample",
    "swatch": "a weighed swatch",
    "unravelled": "a length of unravelled yarn",
    "estimate": "published lengths of yarn per stitch",
}


@dataclass(frozen=True, slots=True)
class KitSheet:
    """The sheet as its template sees it."""

    title: str
    lead: str
    language: str
    description: str
    facts: tuple[Fact, ...]
    sections: tuple[Section, ...]
    notes: tuple[str, ...]
    patches: tuple[ColourPatch, ...] = ()
    sizes: int = 1


def show_kit_sheet(kits: KitList) -> KitSheet:
    """Every figure of the list, rounded for scales and shop: grams up to whole ones, balls up to whole ones."""
    items = sum(lot.number for lot in kits.lots)
    lead = f"{counted(kits.makers, 'maker')}, {counted(items, 'item')}"
    if kits.date:
        lead += f" · {print_date(kits.date, kits.units_first)}"
    several = len(kits.lots) > 1
    sections = [section for lot in kits.lots for section in _show_lot(kits, lot, several)]
    sections.append(_show_things(kits))
    return KitSheet(
        title=set_type(kits.title),
        lead=set_type(lead),
        language="en-US",
        description=f"A kit list for {counted(kits.makers, 'maker')}: {kits.title}",
        facts=tuple(_list_facts(kits)),
        sections=tuple(sections),
        notes=tuple(set_type(note) for note in _list_notes(kits)),
    )


def _list_facts(kits: KitList) -> Iterator[Fact]:
    for lot in kits.lots:
        yield Fact("Pattern", set_type(lot.title))
        yield Fact("Yarn", set_type(", ".join(word for word in (lot.yarn, lot.gauge) if word)))
    if table := _name_table(kits.table, kits.units_first):
        yield Fact("Size table", set_type(table))


def _name_table(table: SizeTable, units_first: str) -> str:
    date = f"as of {print_date(table.date, units_first)}" if table.date else ""
    return ", ".join(word for word in (table.name, table.source, date) if word)


def _show_lot(kits: KitList, lot: LotList, several: bool) -> Iterator[Section]:
    of = f": {lot.title}" if several else ""
    yield Section("items", set_type(f"What is made{of}"), "items", tables=(_tabulate_items(lot, kits.units_first),))
    yield Section("kits", set_type(f"What goes into a kit{of}"), "kits", tables=(_tabulate_kits(lot, kits),))
    yield Section("yarn", set_type(f"Yarn to get{of}"), "yarn", tables=(_tabulate_balls(lot),))


def _tabulate_items(lot: LotList, units_first: str) -> Table:
    has_bands = any(measure.allowed for item in lot.items for measure in item.measures)
    columns = ["Size to work", "It measures", "Items", "Yarn an item", "Items from a ball"]
    if has_bands:
        columns.insert(0, "Allowed")
    lines: list[Line] = []
    for item in lot.items:
        cells = [
            Cell((set_type(item.size or "the only one"),)),
            Cell(tuple(_say_measures(item, units_first))),
            Cell((print_count(item.number),)),
            Cell(tuple(_say_yarn(item, units_first))),
            Cell((_say_ball_items(item, lot.ball_metres),)),
        ]
        if has_bands:
            cells.insert(0, Cell(tuple(_say_allowed(item)) or ("–",)))
        lines.append(Line(set_type(item.band or "All"), tuple(cells)))
    return Table("", "Size", tuple(columns), tuple(lines))


def _say_allowed(item: Item) -> Iterator[str]:
    for measure in item.measures:
        if measure.allowed is not None:
            yield f"{_print_range(measure.allowed)} {_short(measure)}".replace(" ", NO_BREAK_SPACE)


def _print_range(allowed: LengthRange) -> str:
    form = figures.print_inches if allowed.unit == "in" else figures.print_cm
    high = form(allowed.high)
    if allowed.low == allowed.high:
        return high
    low = form(allowed.low).split(NO_BREAK_SPACE, maxsplit=1)[0]
    return f"up to {high}" if allowed.low <= 0 else f"{low} to {high}"


def _short(measure: FinishedMeasure) -> str:
    return {"circumference": "round", "width": "wide", "depth": "deep", "length": "long"}.get(
        measure.name, measure.name
    )


def _say_measures(item: Item, units_first: str) -> Iterator[str]:
    for measure in item.measures:
        in_inches = measure.allowed.unit == "in" if measure.allowed else units_first == "imperial"
        figure = measure.inches if in_inches else measure.cm
        if figure is None:
            continue
        printed = figures.print_inches(figure) if in_inches else figures.print_cm(figure)
        verdict = "" if measure.allowed is None else f", {_judge(measure)}"
        yield f"{printed} {_short(measure)}{verdict}"


def _judge(measure: FinishedMeasure) -> str:
    if not measure.miss or measure.allowed is None:
        return FITS
    form = figures.print_inches if measure.allowed.unit == "in" else figures.print_cm
    return f"{form(abs(measure.miss))} too {'large' if measure.miss > 0 else 'small'}"


def _say_yarn(item: Item, units_first: str) -> Iterator[str]:
    """What an item takes in all, and colour by colour below; the sum is of the figures as they are printed."""
    parts: list[str] = []
    for need in item.yarn:
        amount = _print_grams(need.grams) if need.grams is not None else _print_metres(need.metres, units_first)
        parts.append(f"{need.letter}{NO_BREAK_SPACE}{amount}" if len(item.yarn) > 1 else amount)
    if len(parts) > 1 and item.grams is not None:
        yield f"{print_count(sum(_round_grams(need.grams) for need in item.yarn))}{NO_BREAK_SPACE}g"
    yield ", ".join(parts)


def _say_ball_items(item: Item, ball_metres: float | None) -> str:
    """Items from a ball of each colour; balls an item where no ball is enough for one."""
    counts = [(need.letter, need.items_per_ball) for need in item.yarn if need.items_per_ball is not None]
    if not counts or not ball_metres:
        return "–"
    if not any(number for _, number in counts):
        return f"{sum(need.metres for need in item.yarn) / ball_metres:.1f} balls an item"
    several = len(item.yarn) > 1
    told = (f"{letter}{NO_BREAK_SPACE}{number or 'none'}" if several else str(number) for letter, number in counts)
    return ", ".join(told)


def _tabulate_kits(lot: LotList, kits: KitList) -> Table:
    letters = {share.letter: share.colour for kit in lot.kits for share in kit.yarn}
    columns = ["Items in it", *(f"{letter} {colour}".strip() or "Yarn" for letter, colour in letters.items())]
    lines = tuple(
        Line(
            counted(kit.number, "kit"),
            (
                Cell((set_type(_say_items(kit)),)),
                *(Cell(tuple(_say_share(kit, letter, kits.units_first)) or ("–",)) for letter in letters),
            ),
        )
        for kit in lot.kits
    )
    return Table("", "How many", tuple(set_type(column) for column in columns), lines)


def _say_items(kit: Kit) -> str:
    return ", ".join(f"{number} × {band}" if band else str(number) for band, number in kit.items)


def _say_share(kit: Kit, letter: str, units_first: str) -> Iterator[str]:
    for share in kit.yarn:
        if share.letter == letter:
            metres = _print_metres(share.metres, units_first)
            wound = f"{_print_grams(share.grams)} ({metres})" if share.grams is not None else metres
            yield wound if share.balls is None else f"{wound}, or {counted(share.balls, 'ball')}"


def _tabulate_balls(lot: LotList) -> Table:
    has_stock = any(ball.on_hand for ball in lot.balls)
    columns = ["In all", "Wound off and shared out", "Whole balls in every kit"]
    columns += ["On hand"] if has_stock else []
    columns += ["Still to get"]
    lines: list[Line] = []
    for ball in lot.balls:
        cells = [
            Cell((_print_grams(ball.grams) if ball.grams is not None else "–",)),
            Cell((_say_balls(ball.split, ball.spare_split),)),
            Cell((_say_balls(ball.whole, ball.spare_whole),)),
        ]
        cells += [Cell((_say_stock(ball.on_hand),))] if has_stock else []
        cells += [Cell(_say_missing(ball.to_get, ball.to_get_whole))]
        lines.append(Line(set_type(ball.colour) or "Yarn", tuple(cells), ball.letter, is_colour=bool(ball.letter)))
    if len(lines) > 1 and all(ball.split is not None for ball in lot.balls):
        lines.append(_add_up(lot, has_stock))
    return Table("", "Colour", tuple(columns), tuple(lines))


def _add_up(lot: LotList, has_stock: bool) -> Line:
    grams = [ball.grams for ball in lot.balls if ball.grams is not None]
    cells = [
        Cell((_print_grams(sum(grams)) if grams else "–",)),
        Cell((_say_balls(_sum(lot, "split"), _sum(lot, "spare_split")),)),
        Cell((_say_balls(_sum(lot, "whole"), _sum(lot, "spare_whole")),)),
    ]
    cells += [Cell((_say_stock(sum(ball.on_hand for ball in lot.balls)),))] if has_stock else []
    cells += [Cell(_say_missing(_sum(lot, "to_get"), _sum(lot, "to_get_whole")))]
    return Line("In all", tuple(cells))


def _sum(lot: LotList, name: str) -> int:
    return sum(getattr(ball, name) or 0 for ball in lot.balls)


def _say_balls(number: int | None, spare: int | None) -> str:
    if number is None:
        return "–"
    total = counted(number + (spare or 0), "ball")
    return f"{total} ({number} + {spare} spare)" if spare else total


def _say_stock(balls: float) -> str:
    return "none" if not balls else f"{balls:.1f}".removesuffix(".0") + f"{NO_BREAK_SPACE}{_noun(balls)}"


def _noun(balls: float) -> str:
    return "ball" if balls == 1 else "balls"


def _say_missing(split: int | None, whole: int | None) -> tuple[str, ...]:
    if split is None or whole is None:
        return ("–",)
    if split == whole:
        return (counted(split, "ball"),)
    return (f"{counted(split, 'ball')}, or {whole} whole",)


def _show_things(kits: KitList) -> Section:
    lines = tuple(
        Line(
            set_type(thing.what[:1].upper() + thing.what[1:]),
            (Cell((print_count(thing.number),)), Cell((print_count(thing.spare),)), Cell((print_count(thing.total),))),
        )
        for thing in kits.things
    )
    table = Table("", "Beside yarn", ("For the makers", "Spare", "To bring"), lines)
    return Section("things", "What else to bring", "things", tables=(table,))


def _list_notes(kits: KitList) -> Iterator[str]:
    yield from kits.notes
    yield from dict.fromkeys(_explain_yarn(lot) for lot in kits.lots)
    if kits.spare:
        yield f"Spare is {print_percent(kits.spare)} of each line, rounded up, for kits that get lost or tangled."
    if any(measure.allowed for lot in kits.lots for item in lot.items for measure in item.measures):
        yield (
            "Measure what is handed in: an item under its range needs a larger hook, one over it a smaller hook. "
            "The size table is the recipient's; ask for the one that holds now."
        )
    cautions = list(dict.fromkeys(caution for lot in kits.lots for caution in lot.cautions))
    if cautions:
        yield f"Safety notes on the handout: {'; '.join(cautions)}. Check the rules that hold where items are given."


def _explain_yarn(lot: LotList) -> str:
    how = HOW_YARN.get(lot.basis, HOW_YARN["estimate"])
    may = f"; it may be off by about {print_percent(lot.spread)} either way" if lot.spread else ""
    return (
        f"Yarn is worked out from every stitch and {how}, with {print_percent(lot.margin)} in reserve{may}. Weigh the "
        "first finished items and adjust the kits that are still to be packed."
    )


def _print_grams(grams: float | None) -> str:
    return f"{print_count(_round_grams(grams))}{NO_BREAK_SPACE}g"


def _round_grams(grams: float | None) -> int:
    """Up to what a kitchen scale shows: a kit that is short cannot be finished."""
    return math.ceil((grams or 0.0) - HAIR)


def _print_metres(metres: float, units_first: str) -> str:
    return print_yarn_length(metres, units_first)[0]
