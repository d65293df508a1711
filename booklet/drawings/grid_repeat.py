"""What repeats in a chart of squares, across and upwards."""

from collections.abc import Hashable, Sequence
from dataclasses import dataclass

LEAST_SHARE = 0.5  # of the width or height must repeat


@dataclass(frozen=True, slots=True)
class Stretch:
    """From `start` on, `period` squares that come `times` one after the other."""

    start: int
    period: int
    times: int


def find_stretch(lines: Sequence[Hashable], least: int) -> Stretch | None:
    """The shortest repeat, of at least so many lines, that fills more than half of them; None where there is none.

    Lines that are all alike repeat nothing.
    """
    count = len(lines)
    if len(set(lines)) < 2:
        return None
    for period in range(least, count // 2 + 1):
        begin, best = 0, (0, 0)
        for at in range(count - period + 1):
            if at == count - period or lines[at] != lines[at + period]:
                if at > begin:
                    best = max(best, (at - begin, -begin))
                begin = at + 1
        length, start = best[0] + period, -best[1]
        if best[0] and length >= 2 * period and length > LEAST_SHARE * count:
            return Stretch(start, period, length // period)
    return None


def find_repeats(rows: Sequence[Sequence[Hashable]], from_right: bool, by_two: bool) -> list[Stretch | None]:
    """The repeat across, counted from the side where the first row begins, and the repeat of rows.

    `by_two`: rows worked to and fro repeat in even numbers, so that their sides stay as they are.
    """
    columns = [tuple(row[at] for row in rows) for at in range(len(rows[0]))]
    across = find_stretch(columns[::-1] if from_right else columns, 2)
    upwards = find_stretch([tuple(row) for row in rows], 2)
    if upwards and by_two and upwards.period % 2:
        whole = upwards.period * upwards.times
        period = upwards.period * 2
        upwards = Stretch(upwards.start, period, whole // period) if whole >= 2 * period else None
    return [across, upwards]


def keep_places(stretch: Stretch, count: int, wide: int) -> list[int]:
    """Which of `count` places stay where the repeat is shown as often as fits in `wide`, once at the least."""
    shown = min(stretch.times, max(1, wide // stretch.period))
    first, last = stretch.start + shown * stretch.period, stretch.start + stretch.times * stretch.period
    return [*range(first), *range(last, count)]
