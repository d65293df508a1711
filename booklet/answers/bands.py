"""Which size of a pattern serves which line of a size table, by what it really measures."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from difflib import get_close_matches

from booklet.model.amounts import Amounts, Measure
from booklet.model.kits import Band, FinishedMeasure, LengthRange
from booklet.model.measure import CM_PER_TRADE_INCH
from booklet.model.pattern import Pattern
from booklet.reading.quantities import UnreadError

# Half of what is printed: nearer than this no ruler tells.
SLACK = {"cm": 0.25, "in": 0.125}
OTHER_NAMES = {"depth": ("depth", "length"), "length": ("length", "depth")}


@dataclass(frozen=True, slots=True)
class Match:
    """The size for a line of the table, by its place among the pattern's sizes."""

    band: Band
    size: int
    measures: tuple[FinishedMeasure, ...]


def match_bands(pattern: Pattern, amounts: Amounts, bands: Sequence[Band]) -> tuple[Match, ...]:
    """A size for every line: the one that is named, else the one that fits, or is nearest where none does.

    Raises UnreadError where a size or a measure of the table is not one of the pattern's.
    """
    return tuple(_match(pattern, amounts, band) for band in bands)


def _match(pattern: Pattern, amounts: Amounts, band: Band) -> Match:
    named = {name: _find_measure(pattern, amounts, name) for name in band.measures}
    if band.size:
        sizes = [at for at, name in enumerate(pattern.size_names) if name.lower() == band.size.lower()]
        if not sizes:
            close = get_close_matches(band.size, pattern.size_names, 1, 0.6)
            raise UnreadError(
                f'line {band.span.line}: {pattern.title} has no size "{band.size}"',
                f"one of: {', '.join(pattern.size_names)}",
                f'write "{close[0]}"' if close else "",
            )
        return Match(band, sizes[0], _measure(amounts, named, band, sizes[0]))
    if not band.measures:
        at = next((at for at, name in enumerate(pattern.size_names) if name.lower() == band.name.lower()), None)
        if at is None and len(pattern.size_names) > 1:
            raise UnreadError(
                f'line {band.span.line}: "{band.name}" is no size of {pattern.title} and gives no measure',
                f"a measure such as circumference: 28 to 32 cm, or one of its sizes: {', '.join(pattern.size_names)}",
            )
        return Match(band, at or 0, _measure(amounts, named, band, at or 0))
    tried = [(_measure(amounts, named, band, at), at) for at in range(len(pattern.size_names))]
    measures, best = min(tried, key=lambda found: (_add_misses(found[0]), _off_middle(found[0])))
    return Match(band, best, measures)


def _find_measure(pattern: Pattern, amounts: Amounts, name: str) -> Measure:
    """The pattern's measure of that name or axis; what has no depth is as deep as it is long."""
    for word in OTHER_NAMES.get(name, (name,)):
        for measure in amounts.measures:
            if word in (measure.name, measure.axis):
                return measure
    known = ", ".join(dict.fromkeys(measure.name for measure in amounts.measures)) or "none"
    raise UnreadError(f'{pattern.title} has no measure "{name}"', f"one of its measures: {known}")


def _measure(amounts: Amounts, named: Mapping[str, Measure], band: Band, size: int) -> tuple[FinishedMeasure, ...]:
    """What the size measures, held against the line; without a line, its first measures."""
    if not named:
        return tuple(FinishedMeasure(m.name, m.cm[size], m.inches[size]) for m in amounts.measures[:1])
    found: list[FinishedMeasure] = []
    for name, measure in named.items():
        cm, inches, allowed = measure.cm[size], measure.inches[size], band.measures[name]
        found.append(FinishedMeasure(name, cm, inches, allowed, _miss(allowed, cm, inches)))
    return tuple(found)


def _miss(allowed: LengthRange, cm: float | None, inches: float | None) -> float:
    """How far outside, in the unit of the table; below 0 where it is too small."""
    figure = inches if allowed.unit == "in" else cm
    if figure is None:
        return 0.0
    slack = SLACK[allowed.unit]
    if figure < allowed.low - slack:
        return figure - allowed.low
    return figure - allowed.high if figure > allowed.high + slack else 0.0


def _add_misses(measures: Sequence[FinishedMeasure]) -> float:
    """All that is outside, in centimetres."""
    return sum(
        abs(measure.miss) * (CM_PER_TRADE_INCH if measure.allowed and measure.allowed.unit == "in" else 1.0)
        for measure in measures
    )


def _off_middle(measures: Sequence[FinishedMeasure]) -> float:
    """How far from the middle of what is allowed: of two sizes that fit, the nearer to it is taken."""
    off = 0.0
    for measure in measures:
        if measure.allowed is not None and measure.cm is not None and measure.inches is not None:
            figure = measure.inches if measure.allowed.unit == "in" else measure.cm
            off += abs(figure - (measure.allowed.low + measure.allowed.high) / 2)
    return off
