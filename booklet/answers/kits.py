"""Kits for a group: what n makers need to make so many items of a pattern, line by line of their own size table.

Yarn figures are the pattern's own, with its margin; what is kept in reserve for kits that get lost or tangled
comes on top, in whole pieces. Nothing is taken from a built-in size table: those of hospitals and schemes
differ, so the organiser's is the one that holds.
"""

import math
import re
from collections.abc import Iterator, Mapping, Sequence
from itertools import groupby

from booklet.amounts.materials import describe_yarn, name_hook
from booklet.answers.asked import Stock, read_stock
from booklet.answers.bands import Match, match_bands
from booklet.answers.supposing import Known
from booklet.answers.winding import HAIR, count_items, count_whole, count_wound, share_out
from booklet.findings import counted
from booklet.model.amounts import YarnNeed
from booklet.model.kits import (
    BallCount,
    Band,
    Item,
    Kit,
    KitList,
    KitOrder,
    KitYarn,
    Lot,
    LotList,
    Share,
    Thing,
)
from booklet.model.pattern import Gauge, Pattern
from booklet.reading.quantities import UnreadError

MOST_ITEMS = 20_000
NUMBERED = re.compile(r"(\d{1,3})\s+(\D.*)")


def list_kits(order: KitOrder, proved: Sequence[Known]) -> KitList:
    """The list for an order; `proved` are its patterns in order.

    Raises UnreadError where the table asks for what a pattern has not.
    """
    lots = tuple(_list_lot(order, lot, known) for lot, known in zip(order.lots, proved, strict=True))
    return KitList(
        title=order.title or "Kits: " + ", ".join(lot.title for lot in lots),
        date=order.date,
        makers=order.makers,
        spare=order.spare,
        table=order.table,
        lots=lots,
        things=tuple(_list_things(order, proved, lots)),
        notes=tuple(_list_notes(order, lots)),
        units_first=proved[0].pattern.units_first,
    )


def _list_lot(order: KitOrder, lot: Lot, known: Known) -> LotList:
    pattern, use = known.pattern, known.amounts.yarn
    if use is None or not use.needs:
        raise UnreadError(f"{pattern.title} has no yarn figures", "a gauge or a yarn weight in its front matter")
    bands = lot.bands or tuple(Band(name, {}, lot.span, name) for name in pattern.size_names)
    matches = match_bands(pattern, known.amounts, bands)
    numbers = _share_numbers(order, bands)
    items = tuple(_list_item(known, match, number) for match, number in zip(matches, numbers, strict=True))
    kits, portions = _pack_kits(order, items, pattern)
    yarn = pattern.yarn
    stock = _read_on_hand(lot, pattern)
    letters = tuple(dict.fromkeys(need.letter for item in items for need in item.yarn))
    return LotList(
        title=pattern.title,
        source=known.proof.source.path,
        yarn=describe_yarn(yarn, pattern.units_first) if yarn else "",
        gauge=_say_gauge(pattern.gauges),
        ball_grams=yarn.ball_grams if yarn else None,
        ball_metres=yarn.ball_metres if yarn else None,
        margin=use.margin,
        basis=use.basis,
        spread=use.spread,
        items=items,
        kits=kits,
        balls=tuple(_count_balls(order, pattern, letter, portions[letter], stock.get(letter)) for letter in letters),
        cautions=tuple(caution.heading for caution in known.amounts.cautions),
    )


def _share_numbers(order: KitOrder, bands: Sequence[Band]) -> list[int]:
    """How many of each line: as wanted; the others share what the makers make besides, the first get one more."""
    given = sum(band.items or 0 for band in bands)
    open_ = [at for at, band in enumerate(bands) if band.items is None]
    total = order.makers * (order.each or 1)
    rest = share_out(max(0, total - given), len(open_)) if open_ else []
    numbers = [band.items or 0 for band in bands]
    for at, number in zip(open_, rest, strict=True):
        numbers[at] = number
    if not 0 < sum(numbers) <= MOST_ITEMS:
        raise UnreadError(f"the order comes to {counted(sum(numbers), 'item')}", f"from 1 to {MOST_ITEMS} items")
    return numbers


def _list_item(known: Known, match: Match, number: int) -> Item:
    pattern = known.pattern
    size = pattern.size_names[match.size]
    names = {colour.letter: colour.name for colour in pattern.colours}
    ball = pattern.yarn.ball_metres if pattern.yarn else None
    needs: Sequence[YarnNeed] = known.amounts.yarn.needs if known.amounts.yarn else ()
    yarn = tuple(
        KitYarn(
            letter=need.letter,
            colour=names.get(need.letter, ""),
            metres=need.metres_to_buy,
            grams=need.grams,
            items_per_ball=count_items(need.metres_to_buy, ball) if ball else None,
        )
        for need in needs
        if need.size == size and need.metres > 0
    )
    return Item(match.band.name or size, size, number, match.measures, yarn)


def _pack_kits(
    order: KitOrder, items: Sequence[Item], pattern: Pattern
) -> tuple[tuple[Kit, ...], Mapping[str, list[float]]]:
    """Items dealt to the makers in the order of the table; equal kits together. The portions of each colour besides."""
    dealt = [at for at, item in enumerate(items) for _ in range(item.number)]
    bags: list[tuple[int, ...]] = []
    start = 0
    for number in share_out(len(dealt), order.makers):
        bags.append(tuple(dealt[start : start + number]))
        start += number
    portions: dict[str, list[float]] = {need.letter: [] for item in items for need in item.yarn}
    kits: list[Kit] = []
    for bag, same in groupby(bag for bag in bags if bag):
        number = sum(1 for _ in same)
        yarn = _share_yarn([items[at] for at in bag], pattern)
        kits.append(Kit(number, tuple((items[at].band, bag.count(at)) for at in dict.fromkeys(bag)), yarn))
        for share in yarn:
            portions[share.letter] += [share.metres] * number
    return tuple(kits), portions


def _share_yarn(items: Sequence[Item], pattern: Pattern) -> tuple[Share, ...]:
    """The yarn of one kit, colour by colour."""
    yarn = pattern.yarn
    ball, ball_grams = (yarn.ball_metres, yarn.ball_grams) if yarn else (None, None)
    metres: dict[str, float] = {}
    names: dict[str, str] = {}
    for item in items:
        for need in item.yarn:
            metres[need.letter] = metres.get(need.letter, 0.0) + need.metres
            names[need.letter] = need.colour
    return tuple(
        Share(
            letter,
            names[letter],
            length,
            length * ball_grams / ball if ball and ball_grams else None,
            math.ceil(length / ball - HAIR) if ball else None,
        )
        for letter, length in metres.items()
    )


def _count_balls(
    order: KitOrder, pattern: Pattern, letter: str, portions: Sequence[float], stock: Stock | None
) -> BallCount:
    yarn = pattern.yarn
    ball = yarn.ball_metres if yarn else None
    ball_grams = yarn.ball_grams if yarn else None
    colour = next((colour.name for colour in pattern.colours if colour.letter == letter), "")
    grams = sum(portions) * ball_grams / ball if ball and ball_grams else None
    if not ball:
        return BallCount(letter, colour, grams, None, None, None, None, 0.0, None, None)
    whole, split = count_whole(portions, ball), count_wound(portions, ball)
    spare_whole, spare_split = _keep_spare(whole, order.spare), _keep_spare(split, order.spare)
    on_hand = _count_on_hand(stock, ball, ball_grams)
    return BallCount(
        letter=letter,
        colour=colour,
        grams=grams,
        whole=whole,
        split=split,
        spare_whole=spare_whole,
        spare_split=spare_split,
        on_hand=on_hand,
        to_get_whole=max(0, math.ceil(whole + spare_whole - math.floor(on_hand + HAIR) - HAIR)),
        to_get=max(0, math.ceil(split + spare_split - on_hand - HAIR)),
    )


def _keep_spare(number: int, share: float) -> int:
    return math.ceil(number * share - HAIR)


def _read_on_hand(lot: Lot, pattern: Pattern) -> dict[str, Stock]:
    """The yarn that is there, by letter."""
    letters = {colour.letter for colour in pattern.colours}
    stock: dict[str, Stock] = {}
    for letter, words in (lot.on_hand or {}).items():
        if letters and letter not in letters:
            raise UnreadError(f'{pattern.title} has no colour "{letter}"', f"one of: {', '.join(sorted(letters))}")
        stock[letter if letters else ""] = read_stock(f"{letter} {words}")
    return stock


def _count_on_hand(stock: Stock | None, ball: float, ball_grams: float | None) -> float:
    """The stock in balls; weighed yarn is part of one."""
    if stock is None:
        return 0.0
    if stock.balls is not None:
        return float(stock.balls)
    if stock.metres is not None:
        return stock.metres / ball
    return (stock.grams or 0.0) / ball_grams if ball_grams else 0.0


def _list_things(order: KitOrder, proved: Sequence[Known], lots: Sequence[LotList]) -> list[Thing]:
    """What every maker gets beside yarn: each hook once however many patterns want it, notions, sheets.

    Of what one pattern wants there are as many as makers with a kit of it.
    """
    each: dict[str, int] = {}  # how many a maker needs
    makers: dict[str, int] = {}
    for known, lot in zip(proved, lots, strict=True):
        with_kit = sum(kit.number for kit in lot.kits)
        for what, number in _list_tools(known.pattern):
            each[what] = max(each.get(what, 0), number)
            makers[what] = min(order.makers, makers.get(what, 0) + with_kit)
        if order.sheets:
            sheet = "handout" if len(proved) == 1 else f"handout: {known.pattern.title}"
            each[sheet], makers[sheet] = order.sheets, with_kit
    sheets = [what for what in each if what.startswith("handout")]
    return [
        Thing(what, each[what] * makers[what], _keep_spare(each[what] * makers[what], order.spare))
        for what in (*(what for what in each if what not in sheets), *sheets)
    ]


def _list_tools(pattern: Pattern) -> Iterator[tuple[str, int]]:
    """Hooks and notions of a pattern, each with how many one maker needs; a needle where none is listed."""
    sizes = dict.fromkeys(hook.mm for hook in pattern.hooks) or dict.fromkeys(
        gauge.hook_mm for gauge in pattern.gauges if gauge.hook_mm
    )
    for mm in sizes:
        if mm:
            yield f"hook, {name_hook(mm)}", 1
    notions = pattern.notions
    if not any("needle" in notion.lower() for notion in notions):
        notions = ("yarn needle", *notions)
    for notion in notions:
        found = NUMBERED.fullmatch(notion.strip())
        yield (found[2], int(found[1])) if found else (notion.strip(), 1)


def _list_notes(order: KitOrder, lots: Sequence[LotList]) -> list[str]:
    """What does not fit together, and how the table was served."""
    notes: list[str] = [order.note] if order.note else []
    for lot in lots:
        made = order.makers * order.each if order.each is not None else None
        if made is not None and made != lot.number:
            notes.append(
                f"The table asks for {counted(lot.number, 'item')} of {lot.title}; {order.makers} makers with "
                f"{order.each} each would make {made}. The kits hold what the table asks for."
            )
        notes.extend(
            f"No size of {lot.title} fits {item.band}; the nearest, {item.size}, is listed."
            for item in lot.items
            if not item.fits
        )
        if lot.ball_metres is None:
            notes.append(f"{lot.title} does not say what a ball of its yarn holds, so no balls are counted.")
    return notes


def _say_gauge(gauges: Sequence[Gauge]) -> str:
    """`13 sts and 10 rows = 10 cm` of each gauge."""
    said = []
    for gauge in gauges:
        rows = f" and {gauge.rows:g} {'rnds' if gauge.in_rounds else 'rows'}" if gauge.rows else ""
        said.append(f"{gauge.sts:g} sts{rows} = {gauge.over.amount:g} {gauge.over.unit}")
    return "; ".join(said)
