"""Swatches in words: what was counted, and what blocking does to it."""

from booklet.amounts.figures import print_number
from booklet.model.measure import Length
from booklet.model.pattern import Swatch
from booklet.pages.manuscript import BookletInput
from booklet.pages.typography import NO_BREAK_SPACE, set_type
from booklet.pages.views import Entry

# Less than this much is the ruler, not the blocking.
NOTHING = 0.005


def list_swatches(manuscript: BookletInput) -> tuple[Entry, ...]:
    """An entry for each swatch that was measured; one that was only weighed is told with the yarn."""
    return tuple(
        Entry("Swatch", set_type(say_swatch(swatch)))
        for swatch in manuscript.pattern.swatches
        if swatch.before or swatch.after
    )


def say_swatch(swatch: Swatch) -> str:
    """`20 sts and 20 rows in sc: 15 × 14 cm before blocking, 15.5 × 14.5 cm after (3% wider, 4% longer); 19 g`."""
    counted = f"{swatch.sts} sts and {swatch.rows} {'rnds' if swatch.in_rounds else 'rows'}"
    if swatch.stitch:
        counted += f" in {swatch.stitch}"
    sizes = []
    if swatch.before:
        sizes.append(f"{_say_extent(swatch.before)} before blocking")
    if swatch.after:
        sizes.append(f"{_say_extent(swatch.after)} after" + ("" if swatch.before else " blocking"))
    words = f"{counted}: {', '.join(sizes)}"
    if swatch.before and swatch.after:
        words += f" ({_say_change(swatch.before, swatch.after)})"
    return words + (f"; {print_number(swatch.grams)}{NO_BREAK_SPACE}g" if swatch.grams else "")


def _say_extent(extent: tuple[Length, Length]) -> str:
    width, length = extent
    if width.unit == length.unit:
        return f"{print_number(width.amount)} × {print_number(length.amount)}{NO_BREAK_SPACE}{width.unit}"
    return " × ".join(f"{print_number(side.amount)}{NO_BREAK_SPACE}{side.unit}" for side in extent)


def _say_change(before: tuple[Length, Length], after: tuple[Length, Length]) -> str:
    changes = []
    for old, new, more, less in zip(before, after, ("wider", "longer"), ("narrower", "shorter"), strict=True):
        share = new.cm / old.cm - 1
        if abs(share) >= NOTHING:
            changes.append(f"{abs(share) * 100:.0f}% {more if share > 0 else less}")
    return ", ".join(changes) or "blocking changes nothing"
