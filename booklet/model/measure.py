"""Lengths with their unit, as an author wrote them.

Exact factors: 1 in = 2.54 cm, 1 yd = 0.9144 m (NIST Handbook 44, Appendix C).
"""

from collections.abc import Sequence
from dataclasses import dataclass

CM_PER_INCH = 2.54
METRES_PER_YARD = 0.9144
GRAMS_PER_OUNCE = 28.349523125

CM_PER_UNIT = {
    "mm": 0.1,
    "cm": 1.0,
    "m": 100.0,
    "in": CM_PER_INCH,
    "ft": 12 * CM_PER_INCH,
    "yd": 100 * METRES_PER_YARD,
}


METRIC = ("mm", "cm", "m")
CM_PER_TRADE_INCH = 2.5  # the trade states a gauge over 4 in and 10 cm alike
NEAR = 1e-6


@dataclass(frozen=True, slots=True)
class Length:
    """A length; `unit` is one of mm, cm, m, in, ft, yd."""

    amount: float
    unit: str

    @property
    def cm(self) -> float:
        return self.amount * CM_PER_UNIT[self.unit]

    def cm_at(self, cm_per_inch: float) -> float:
        """In centimetres, by so many to the inch where it is in inches, feet or yards."""
        return self.cm if self.unit in METRIC else self.cm / CM_PER_INCH * cm_per_inch


def are_inches(cm: Sequence[float]) -> bool:
    """Are these centimetres quarter inches, and no half centimetres? Then that is how they were written."""
    by_quarters = all(_is_whole(value / CM_PER_INCH * 4) for value in cm)
    return by_quarters and not all(_is_whole(value * 2) for value in cm)


def _is_whole(value: float) -> bool:
    return abs(value - round(value)) < NEAR
