"""Numbers with their units as the booklet prints them; `amounts.figures` says how each is rounded."""

from collections.abc import Callable, Sequence
from datetime import date

from booklet.amounts import figures
from booklet.amounts.figures import print_number
from booklet.amounts.own_measures import OwnMeasure
from booklet.model.measure import Length
from booklet.pages.typography import NO_BREAK_SPACE

_MONTHS = (
    "January", "February", "March", "April", "May", "June", "July",
    "August", "September", "October", "November", "December",
)  # fmt: skip


def print_count(number: int) -> str:
    """A whole number, thousands set off by a thin gap: `12 400`; four figures stand together."""
    return f"{number:,}".replace(",", "\u202f") if abs(number) >= 10_000 else str(number)


def print_cm(cm: float) -> str:
    """Centimetres with their unit: `69.5 cm`."""
    return f"{figures.print_cm(cm)}{NO_BREAK_SPACE}cm"


def print_inches(inches: float) -> str:
    """Inches with their unit: `27½ in`."""
    return f"{figures.print_inches(inches)}{NO_BREAK_SPACE}in"


def print_length(length: Length) -> str:
    """A length in the unit its author wrote it in: `70 cm`, `27½ in`."""
    if length.unit == "in":
        return print_inches(length.amount)
    return f"{print_number(length.amount)}{NO_BREAK_SPACE}{length.unit}"


def print_both(cm: float | None, inches: float | None, units_first: str) -> tuple[str, ...]:
    """The measure in both units, the pattern's own first; empty where it is not known."""
    metric = print_cm(cm) if cm is not None else ""
    imperial = print_inches(inches) if inches is not None else ""
    pair = (imperial, metric) if units_first == "imperial" else (metric, imperial)
    return tuple(figure for figure in pair if figure)


def print_own(measure: OwnMeasure, units_first: str) -> list[tuple[str, ...]]:
    """The figures of each size in both units; empty where a size has none."""
    return [print_both(cm, inches, units_first) for cm, inches in zip(measure.cm, measure.inches, strict=True)]


def print_yarn_length(metres: float, units_first: str) -> tuple[str, str]:
    """Metres and yards, both rounded up from the same computed length."""
    return sum_yarn_lengths((metres,), units_first)


def print_left(metres: float, units_first: str) -> tuple[str, str]:
    """What is left of a ball in metres and yards, both rounded down from the same computed length."""
    return sum_left((metres,), units_first)


def sum_yarn_lengths(metres: Sequence[float], units_first: str) -> tuple[str, str]:
    """Lengths together, as a reader adds them up: the sum of what is printed for each, in metres and in yards."""
    return _sum_lengths(figures.print_metres, figures.print_yards, metres, units_first)


def sum_left(metres: Sequence[float], units_first: str) -> tuple[str, str]:
    """What is left of several balls together, the sum of what is printed for each."""
    return _sum_lengths(figures.print_left, figures.print_left_yards, metres, units_first)


def sum_grams(grams: Sequence[float]) -> str:
    """Weights together, the sum of what is printed for each, with their unit."""
    return f"{print_count(sum(int(figures.print_grams(weight)) for weight in grams))}{NO_BREAK_SPACE}g"


def _sum_lengths(
    metric: Callable[[float], str], imperial: Callable[[float], str], metres: Sequence[float], units_first: str
) -> tuple[str, str]:
    in_metres, in_yards = (
        f"{print_count(sum(int(show(length)) for length in metres))}{NO_BREAK_SPACE}{unit}"
        for show, unit in ((metric, "m"), (imperial, "yd"))
    )
    return (in_yards, in_metres) if units_first == "imperial" else (in_metres, in_yards)


def print_range(lows: Sequence[float], highs: Sequence[float], units_first: str) -> str:
    """From so many metres, rounded down, to so many, rounded up; in yards for those who buy by the yard.

    Of several lengths together each end is the sum of what is printed for each.
    """
    down, up, unit = figures.print_left, figures.print_metres, "m"
    if units_first == "imperial":
        down, up, unit = figures.print_left_yards, figures.print_yards, "yd"
    low, high = (print_count(sum(int(show(length)) for length in ends)) for show, ends in ((down, lows), (up, highs)))
    return f"{low}–{high}{NO_BREAK_SPACE}{unit}"


def print_difference(difference: float, unit: str) -> str:
    """How far a measure is off what was planned: `+0.5 cm`, `−¼ in`, `0`."""
    size = figures.print_inches(abs(difference)) if unit == "in" else figures.print_cm(abs(difference))
    if size == "0":
        return size
    return f"{'+' if difference > 0 else '−'}{size}{NO_BREAK_SPACE}{unit}"


def print_date(text: str, units_first: str) -> str:
    """A calendar date in words, the month first for those who measure in inches; any other text stays."""
    try:
        day = date.fromisoformat(text.strip())
    except ValueError:
        return text
    month = _MONTHS[day.month - 1]
    return f"{month} {day.day}, {day.year}" if units_first == "imperial" else f"{day.day} {month} {day.year}"


def print_percent(share: float) -> str:
    """A share of one as a percentage: set close: `10%`."""
    return f"{print_number(share * 100)}%"


def print_size_list(values: Sequence[int | str]) -> str:
    """One value per size in the trade's form, `77 (83, 89)`; once where all sizes share it.

    More than six sizes are bracketed in groups of five, so that the eye finds its place.
    """
    texts = [str(value) for value in values]
    if len(set(texts)) == 1:
        return texts[0]
    first, rest = texts[0], texts[1:]
    if len(texts) <= 6:
        return f"{first} ({', '.join(rest)})"
    groups = [rest[at : at + 5] for at in range(0, len(rest), 5)]
    return f"{first} " + " ".join(f"({', '.join(group)})" for group in groups)
