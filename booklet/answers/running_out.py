"""How far a stock of one colour goes, row by row in the order in which they are worked.

A row's share of the colour's yarn is that of its stitches by their published lengths; the whole is the
pattern's own figure for the colour, so the shares add up to it, tails and all.
"""

from collections.abc import Iterator
from dataclasses import dataclass, replace

from booklet.amounts.gauges import find_gauge, is_row
from booklet.amounts.scales import find_scale, yarn_of
from booklet.amounts.stitch_yarn import measure_stitch
from booklet.amounts.tally import count_size, list_lengths, name_colour
from booklet.answers.asked import OtherNumber, Stock
from booklet.answers.changes import change_number
from booklet.answers.supposing import Known, know
from booklet.findings.render import has_errors
from booklet.model.amounts import YarnNeed
from booklet.model.pattern import NumberRule
from booklet.model.work import WorkedRow
from booklet.pipeline import prove_pattern
from booklet.reading.quantities import UnreadError

HAIR = 1e-9
MOST_TRIALS = 4  # of a smaller number, each a proof of the whole pattern


@dataclass(frozen=True, slots=True)
class Smaller:
    """A number made smaller, so that the stock is enough."""

    number: str
    values: int
    then: int
    metres: float


@dataclass(frozen=True, slots=True)
class StockAnswer:
    """What the stock gives in one size.

    `rows` of the `rows_in_all` that have the colour can be made, `sure_rows` with the margin kept back. The
    yarn runs out in `stops_in` ("" where it is enough).
    """

    letter: str
    colour: str
    size: str
    metres: float
    needed: float
    to_buy: float
    rows: int
    sure_rows: int
    rows_in_all: int
    stops_in: str
    smaller: tuple[Smaller, ...] = ()


def measure_stock(known: Known, stock: Stock) -> tuple[StockAnswer, ...]:
    """How far the stock goes in every size. Raises UnreadError where the colour or its ball is not known."""
    use = known.amounts.yarn
    if use is None or not use.needs:
        raise UnreadError(f"{known.pattern.title} has no yarn figures", "a gauge or a yarn weight, and rows")
    letters = tuple(dict.fromkeys(need.letter for need in use.needs))
    letter = stock.letter or (letters[0] if len(letters) == 1 else "")
    if letter not in letters:
        named = f'no colour "{stock.letter}"' if stock.letter else f"{len(letters)} colours"
        raise UnreadError(f"{known.pattern.title} has {named}", f"one of: {', '.join(letters)}")
    names = {colour.letter: colour.name for colour in known.pattern.colours}
    answers: list[StockAnswer] = []
    for size, name in enumerate(known.pattern.size_names):
        need = next((need for need in use.needs if (need.letter, need.size) == (letter, name)), None)
        if need is not None and need.metres > 0:
            answers.append(_answer(known, stock, need, size, names.get(letter, "")))
    return tuple(answers)


def _answer(known: Known, stock: Stock, need: YarnNeed, size: int, colour: str) -> StockAnswer:
    have = _length_of(known, stock, need)
    shares = list(_share_rows(known, need, size))
    margin = need.metres_to_buy / need.metres
    made, stops = _count_rows(shares, have)
    sure, _ = _count_rows(shares, have / margin)
    answer = StockAnswer(
        letter=need.letter,
        colour=colour,
        size=need.size,
        metres=have,
        needed=need.metres,
        to_buy=need.metres_to_buy,
        rows=made,
        sure_rows=sure,
        rows_in_all=len(shares),
        stops_in=stops,
    )
    if have + HAIR >= need.metres_to_buy:
        return answer
    return replace(answer, smaller=tuple(_find_smaller(known, need, size, have)))


def _length_of(known: Known, stock: Stock, need: YarnNeed) -> float:
    """The stock in metres."""
    if stock.metres is not None:
        return stock.metres
    yarn = known.pattern.yarn
    if yarn is None or not yarn.ball_metres or not yarn.ball_grams:
        raise UnreadError(f"{known.pattern.title} does not say what a ball holds", "yarn: with its ball, or metres")
    if stock.grams is not None:
        return stock.grams * yarn.ball_metres / yarn.ball_grams
    balls = stock.balls if stock.balls is not None else max(0, (need.balls or 0) - stock.fewer)
    return balls * yarn.ball_metres


def _share_rows(known: Known, need: YarnNeed, size: int) -> Iterator[tuple[str, float]]:
    """Every row that has the colour, with its name and the metres of the colour in it, in working order."""
    pattern, worked = known.pattern, known.worked
    tally = count_size(pattern, worked, size)
    scales = {name: find_scale(pattern, name, tally) for name in dict.fromkeys(key[0] for key in tally.worked)}
    rows: list[tuple[str, float]] = []
    begun = 0.0  # a foundation is no row: its yarn goes with the row after it
    lengths: dict[int, float] = {}  # equal rows share their fabric
    for part in worked.parts:
        for row in part.rows[size] * part.make:
            key = id(row.fabric)
            if key not in lengths:
                gauge = find_gauge(pattern, part, row)
                scale = scales.get(gauge.name if gauge else None)
                lengths[key] = sum(
                    number * measure_stitch(yarn_of(kind), scale)
                    for (colour, kind), number in list_lengths(row.fabric).items()
                    if scale is not None and name_colour(pattern, colour) == need.letter
                )
            if not is_row(row):
                begun += lengths[key]
            elif lengths[key] + begun:
                rows.append((_name_row(row, part.title), lengths[key] + begun))
                begun = 0.0
    total = sum(length for _, length in rows)
    return ((name, length / total * need.metres) for name, length in rows)


def _count_rows(shares: list[tuple[str, float]], metres: float) -> tuple[int, str]:
    """How many rows can be finished, and the name of the one that cannot; "" where all can."""
    used = 0.0
    for at, (name, length) in enumerate(shares):
        used += length
        if used > metres + HAIR:
            return at, name
    return len(shares), ""


def _find_smaller(known: Known, need: YarnNeed, size: int, have: float) -> Iterator[Smaller]:
    """For each number of rows the largest that the stock is enough for, proved."""
    for rule in known.pattern.numbers:
        number = known.sized.numbers.get(rule.name)
        if number is None or rule.formula or (rule.measure and rule.direction != "rows"):
            continue
        value = number.values[min(size, len(number.values) - 1)]
        if (found := _try_smaller(known, rule, need, size, value, have)) is not None:
            yield found


def _try_smaller(known: Known, rule: NumberRule, need: YarnNeed, size: int, value: int, have: float) -> Smaller | None:
    values = {name: number.values for name, number in known.sized.numbers.items()}
    trial = value - (value - rule.plus) % rule.multiple
    guess = int(value * have / need.metres_to_buy) + rule.multiple
    while trial > max(guess, rule.multiple) or trial >= value:
        trial -= rule.multiple
    for _ in range(MOST_TRIALS):
        if trial < 1:
            return None
        kept = values[rule.name]
        wanted = tuple(trial if at == size else old for at, old in enumerate(kept))
        then = know(prove_pattern(change_number(known.pattern, values, OtherNumber(rule.name, values=wanted))))
        if then is None or has_errors(then.proof.findings) or then.amounts.yarn is None:
            return None
        needs = then.amounts.yarn.needs
        again = next((n for n in needs if (n.letter, n.size) == (need.letter, need.size)), None)
        if again is None or again.metres_to_buy >= need.metres_to_buy - HAIR:
            return None  # the number has nothing to do with this colour
        if again.metres_to_buy <= have + HAIR:
            return Smaller(rule.name, value, trial, again.metres_to_buy)
        trial -= rule.multiple
    return None


def _name_row(row: WorkedRow, part: str) -> str:
    section = row.section or part
    return f"{section}, {row.label}" if section else row.label
