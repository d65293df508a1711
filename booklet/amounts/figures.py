"""Figures as the trade prints them: what a ruler, a label or a shop shows.

Every figure is computed unrounded and rounded once, here.
"""

import math
from collections.abc import Sequence

from booklet.model.measure import METRES_PER_YARD

QUARTERS = ("", "¼", "½", "¾")
# What a sum of floats may be over a whole number by; far below what any scale or tape shows.
HAIR = 1e-9


def print_cm(cm: float) -> str:
    """Centimetres to the nearest half, the larger on a tie: `43`, `48.5`. No unit."""
    return print_number(math.floor(cm * 2 + 0.5 + HAIR) / 2)


def print_inches(inches: float) -> str:
    """Inches to the nearest quarter, the larger on a tie: `21½`, `¾`. No unit."""
    whole, quarter = divmod(math.floor(inches * 4 + 0.5 + HAIR), 4)
    return f"{whole or ''}{QUARTERS[quarter]}" or "0"


def print_metres(metres: float) -> str:
    """Yarn in whole metres, rounded up: a maker who is short cannot finish. No unit."""
    return str(math.ceil(metres - HAIR))


def print_yards(metres: float) -> str:
    """A length in metres as whole yards, rounded up. No unit."""
    return str(math.ceil(metres / METRES_PER_YARD - HAIR))


def print_left(metres: float) -> str:
    """What is left of a ball in whole metres, rounded down: less is promised than more. No unit."""
    return str(math.floor(metres + HAIR))


def print_left_yards(metres: float) -> str:
    """What is left of a ball as whole yards, rounded down. No unit."""
    return str(math.floor(metres / METRES_PER_YARD + HAIR))


def print_grams(grams: float) -> str:
    """Yarn in whole grams, rounded up. No unit."""
    return str(math.ceil(grams - HAIR))


def print_number(number: float) -> str:
    """A number with at most two places and no needless noughts: `5`, `5.5`, `2.25`."""
    return f"{number:.2f}".rstrip("0").rstrip(".")


def print_sizes(figures: Sequence[str]) -> str:
    """One figure a size in the trade's form, `77 (83, 89)`; one alone where it holds for all."""
    if not figures:
        return ""
    if len(set(figures)) == 1:
        return figures[0]
    return f"{figures[0]} ({', '.join(figures[1:])})"
