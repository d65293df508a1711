"""Shaping rates: so many changes spread over so many rows, as evenly as whole rows allow.

The problem: 8 changes over 38 rows, all on right-side rows. 38 rows are 19 pairs, 19 = 8 x 2 + 3, so 5 gaps
of 2 pairs and 3 of 3 pairs use them all: every 4th row 5 times, then every 6th row 3 times. Short gaps come
first, as the trade writes them; a change stands in the last row of its gap.
"""

from booklet.model.pattern import Rate


class RateError(ValueError):
    """A rate that no rows can have; says why in plain words."""


def spread_changes(changes: int, rows: int, step: int = 1, first: int = 0) -> Rate:
    """The rate at which so many changes fill so many rows, each gap a multiple of `step`.

    With `first` the first change is in that row, and the others are spread over the rows behind it. Raises
    RateError where there are more changes than rows for them.
    """
    if min(changes, rows, first) < 0 or step < 1:
        raise RateError("changes and rows are whole numbers, 0 or more")
    begins = bool(first and changes)
    others = changes - begins
    units, rest = divmod(rows - first if begins else rows, step)
    if (begins and first > rows) or others > units:
        at_most = max(0, units + begins)
        raise RateError(f"{rows} rows have room for {at_most} changes, not {changes}")
    if not others:
        return Rate(changes, first if begins else 0, 0, 0, 0, 0, rest + units * step)
    short, wider = divmod(units, others)
    return Rate(
        changes=changes,
        first=first if begins else 0,
        every=short * step,
        times=others - wider,
        then_every=(short + 1) * step if wider else 0,
        then_times=wider,
        rest=rest,
    )


def list_changes(rate: Rate) -> tuple[int, ...]:
    """The rows in which the changes stand, from 1."""
    rows = [rate.first] if rate.first else []
    at = rate.first
    for gap, times in ((rate.every, rate.times), (rate.then_every, rate.then_times)):
        for _ in range(times):
            at += gap
            rows.append(at)
    return tuple(rows)


def spread_even(changes: int, stitches: int) -> tuple[tuple[int, int], ...]:
    """The stitches of a round in one run for each change, as (length, how many runs), longer runs first.

    `(9, 2), (8, 4)` for 6 changes over 50 stitches. Raises RateError where there are more changes than stitches.
    """
    if not 0 < changes <= stitches:
        raise RateError(f"{stitches} stitches have room for no {changes} changes")
    short, longer = divmod(stitches, changes)
    return tuple((length, times) for length, times in ((short + 1, longer), (short, changes - longer)) if times)
