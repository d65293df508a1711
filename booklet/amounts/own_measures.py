"""Measures that a pattern's sizes give and that no finished measure stands for: what to fit, a bust, a height."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from booklet.model.amounts import Measure
from booklet.model.measure import CM_PER_INCH, Length
from booklet.model.pattern import SizedNumber, SizedPattern
from booklet.sizing.tables import list_borrowed, list_unused

HAIR = 1e-6
UPRIGHT = ("height", "length", "depth", "tall", "high", "long")


@dataclass(frozen=True, slots=True)
class OwnMeasure:
    """One measure in every size, in centimetres and in inches; None in a size that does not give it.

    `is_body` where it is the wearer's, not the piece's.
    """

    name: str
    cm: tuple[float | None, ...]
    inches: tuple[float | None, ...]
    is_body: bool

    @property
    def is_upright(self) -> bool:
        """True where it says how high or long the whole is, so that nothing need stand beside it."""
        return any(word in UPRIGHT for word in self.name.casefold().split())


def list_own(sized: SizedPattern, measures: Sequence[Measure]) -> list[OwnMeasure]:
    """What none of the finished measures is held against, in the order of the sizes' keys.

    A measure that a number of the pattern was worked out from, alone or by a share of it, is told as that
    number makes it; any other as its author gave it.
    """
    pattern = sized.pattern
    held = {measure.target_name for measure in measures}
    names = dict.fromkeys(name for size in pattern.sizes for name in size.measures)
    elsewhere = {*held, *list_borrowed(pattern), *list_unused(pattern)}
    return [_take(sized, name) for name in names if name not in elsewhere]


def _take(sized: SizedPattern, name: str) -> OwnMeasure:
    pattern = sized.pattern
    given = [size.measures.get(name) for size in pattern.sizes]
    made = next(_list_made(sized, name, given), None)
    if made is not None:
        given = [Length(cm, "cm") for cm in made]
    is_body = name.casefold().startswith(("to fit", "fits"))
    pairs = [_pair(length, CM_PER_INCH if is_body else pattern.cm_per_inch) for length in given]
    cm, inches = (tuple(pair[unit] for pair in pairs) for unit in (0, 1))
    return OwnMeasure(name, cm, inches, is_body)


def _pair(length: Length | None, cm_per_inch: float) -> tuple[float | None, float | None]:
    """Centimetres and inches, the author's own figure in its unit; no gauge is in what a tape says of a body."""
    if length is None:
        return None, None
    if length.unit == "in":
        return length.amount * cm_per_inch, length.amount
    return length.cm, length.cm / cm_per_inch


def _list_made(sized: SizedPattern, name: str, given: list[Length | None]) -> Iterator[list[float]]:
    """The measure as each number makes it that is the same share of it in every size."""
    for number in sized.numbers.values():
        if name not in number.measure or number.ease_cm or len(number.true_cm) != len(given):
            continue
        shares = _list_shares(number, given)
        if shares and max(shares) - min(shares) < HAIR:
            yield [true * share for true, share in zip(number.true_cm, shares, strict=True)]


def _list_shares(number: SizedNumber, given: list[Length | None]) -> list[float]:
    if any(length is None for length in given) or min(number.target_cm, default=0.0) <= 0:
        return []
    return [length.cm / cm for length, cm in zip(given, number.target_cm, strict=True) if length is not None]
