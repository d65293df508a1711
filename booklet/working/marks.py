"""Markers in the work: put in, carried up from row to row, found again."""

from collections.abc import Sequence
from dataclasses import replace

from booklet.model.work import Fabric, Marker
from booklet.working.making import Making

Marks = list[
    tuple[int, str]
]  # the loop made last when a marker was put in, and where: "here", "last", "center", a number


def place_marks(making: Making, marks: Marks, below: Fabric, fabric: Fabric) -> tuple[Marker, ...]:
    """The markers of a row that is done: those put in, and those of the row below, moved up with their stitches.

    None are known where one was put in, or moved to, a place that the words do not tell.
    """
    if not marks and not below.markers:
        return ()
    tops = _list_tops(making, fabric)
    if any(place == "?" for _, place in marks):
        return ()
    placed = {_find_place(making, at, place, fabric, tops) for at, place in marks}
    if None in placed:
        return ()
    moved = {_move_up(making, marker, tops) for marker in below.markers}
    return tuple(sorted(marker for marker in placed | moved if marker is not None))


def mark_done(fabric: Fabric, places: Sequence[str], is_round: bool) -> Fabric:
    """The row before, with markers put into it by a line of its own; with none where it is open where they are.

    Of a row worked to and fro the words do not say from which edge they count, so what they name must look the same
    from both.
    """
    counted = [index for index, site in enumerate(fabric.sites) if site.counts]
    numbers = sorted(int(place) for place in places if place.isdigit())
    mirrored = sorted(len(counted) + 1 - number for number in numbers)
    if any(not 0 < number <= len(counted) for number in numbers) or (numbers != mirrored and not is_round):
        return replace(fabric, markers=())
    markers = {Marker(counted[number - 1], False) for number in numbers}
    for place in places:
        if not place.isdigit():
            between = _find_sides(counted, int(place.strip("|")))
            if not between:
                return replace(fabric, markers=())
            markers |= between
    return replace(fabric, markers=tuple(sorted({*fabric.markers, *markers})))


def _find_sides(counted: Sequence[int], number: int) -> set[Marker]:
    """The places on both sides of so many stitches in the middle; none where they cannot lie in the middle."""
    beside = len(counted) - number
    if beside % 2 or beside < 2:
        return set()
    return {Marker(counted[beside // 2], True), Marker(counted[beside // 2 + number], True)}


def _list_tops(making: Making, fabric: Fabric) -> list[int]:
    """For each loop of the row the index of its site, -1 where it offers none."""
    stitches = iter(fabric.stitches)
    return [-1 if loop.hidden and loop.kind == "ch" else next(stitches).top for loop in making.loops]


def _find_place(making: Making, at: int, place: str, fabric: Fabric, tops: Sequence[int]) -> Marker | None:
    """Where a marker put in by the words of the row itself stands."""
    if place.isdigit():
        counted = [index for index, site in enumerate(fabric.sites) if site.counts]
        return Marker(counted[int(place) - 1], False) if 0 < int(place) <= len(counted) else None
    if place.startswith("|") or at < 0 or tops[at] < 0:
        return None
    if place == "last":
        return Marker(tops[at], False)
    if place == "here":
        return Marker(tops[at] + 1, True) if tops[at] + 1 < len(fabric.sites) else None
    return _find_center(making, at, fabric, tops)


def _find_center(making: Making, at: int, fabric: Fabric, tops: Sequence[int]) -> Marker | None:
    """The middle of the stitches just made in one place, or else of the row; None where that is even."""
    into = making.loops[at].into
    alike = [index for index, loop in enumerate(making.loops) if into and loop.into == into and tops[index] >= 0]
    if len(alike) > 1:
        return Marker(tops[alike[len(alike) // 2]], False) if len(alike) % 2 else None
    counted = [index for index, site in enumerate(fabric.sites) if site.counts]
    return Marker(counted[len(counted) // 2], False) if len(counted) % 2 else None


def _move_up(making: Making, marker: Marker, tops: Sequence[int]) -> Marker | None:
    """The marker above: in the middle stitch of those worked into the marked one, or between those on both sides."""
    if not marker.between:
        above = _list_above(making, marker.at, tops)
        return Marker(tops[above[len(above) // 2]], False) if above else None
    before, behind = _list_above(making, marker.at - 1, tops), _list_above(making, marker.at, tops)
    if not before or not behind:
        return None
    first, then = (before, behind) if before[-1] < behind[0] else (behind, before)
    return Marker(tops[then[0]], True) if first[-1] < then[0] else None


def _list_above(making: Making, site: int, tops: Sequence[int]) -> list[int]:
    return [index for index, loop in enumerate(making.loops) if site in loop.into and tops[index] >= 0]
