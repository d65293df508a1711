"""Lengths with their unit, as an author wrote them.

Exact factors: 1 in = 2.54 cm, 1 yd = 0.9144 m (NIST Handbook 44, Appendix C).
"""

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


@dataclass(frozen=True, slots=True)
class Length:
    """A length; `unit` is one of mm, cm, m, in, ft, yd."""

    amount: float
    unit: str

    @property
    def cm(self) -> float:
        return self.amount * CM_PER_UNIT[self.unit]
