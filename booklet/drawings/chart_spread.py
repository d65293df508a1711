"""Things in a row moved apart as little as will do."""

from collections.abc import Sequence


def spread(wanted: Sequence[float], gaps: Sequence[float]) -> list[float]:
    """Places in the same order, neighbours at least `gaps` apart, as near to the wanted ones as can be.

    Least squares under the gaps: what is left of each wish once the gaps before it are taken off
    must not fall, and pools of neighbours that would fall share their mean (the pool-adjacent-violators
    way: Barlow, Bartholomew, Bremner and Brunk 1972, from memory).
    """
    offsets = [0.0]
    for gap in gaps:
        offsets.append(offsets[-1] + gap)
    pools: list[tuple[float, int]] = []  # sum of wishes, how many
    for wish, offset in zip(wanted, offsets, strict=False):
        total, count = wish - offset, 1
        while pools and pools[-1][0] / pools[-1][1] >= total / count:
            before, more = pools.pop()
            total, count = total + before, count + more
        pools.append((total, count))
    levels = [total / count for total, count in pools for _ in range(count)]
    return [level + offset for level, offset in zip(levels, offsets, strict=False)]


def fill_gaps(wanted: Sequence[float | None], gap: float = 1.0) -> list[float]:
    """Wishes where some have none: those lie evenly between their neighbours, or `gap` beyond the last."""
    known = [(index, wish) for index, wish in enumerate(wanted) if wish is not None]
    if not known:
        return [gap * index for index in range(len(wanted))]
    filled: list[float] = []
    ahead = 0  # the first known wish that is not before the place in hand
    for index, wish in enumerate(wanted):
        while ahead < len(known) and known[ahead][0] < index:
            ahead += 1
        if wish is not None:
            filled.append(wish)
        elif 0 < ahead < len(known):
            (before, low), (after, high) = known[ahead - 1], known[ahead]
            filled.append(low + (high - low) * (index - before) / (after - before))
        else:
            nearest, base = known[0] if ahead == 0 else known[-1]
            filled.append(base + gap * (index - nearest))
    return filled
