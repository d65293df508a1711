"""Shapes worked in rounds from a ring: circle, crown, sphere.

Each function yields the lines of a piece. Round n of a circle has k x n stitches: n - 2 plain ones and an
increase, k times.
"""

from collections.abc import Iterator, Sequence

from booklet.findings import join_words
from booklet.shapes.stitches import RoundStitch, ShapeError
from booklet.sizing.rates import spread_even

MAX_ROUNDS = 200
MAX_STITCHES = 2_000


def list_circle(
    stitch: RoundStitch, rounds: int, by: int = 0, is_spiral: bool = False, is_staggered: bool = False
) -> Iterator[str]:
    """A flat circle of so many rounds, each `by` stitches larger; by the rule of thumb where that is 0."""
    by = by or stitch.flat
    check_size(rounds, by * rounds, by)
    yield begin_rounds(stitch, by, is_spiral)
    for number in range(2, rounds + 1):
        words = _increase(stitch, number - 2, by, is_staggered and number % 2 == 0)
        yield write_round(f"Rnd {number}", stitch, words, by * number, is_spiral)


def list_crown(
    stitch: RoundStitch, around: int, even: int, by: int = 0, is_spiral: bool = False, is_staggered: bool = False
) -> Iterator[str]:
    """A circle that grows to exactly `around` stitches, then `even` rounds without increases.

    Where `around` is no multiple of `by` the last growing round makes up the rest, spread evenly.
    """
    by = by or stitch.flat
    full, rest = divmod(around, by)
    if not full:
        raise ShapeError(f"{around} stitches are fewer than the first round has: {by}")
    check_size(full + even, around, by)
    yield from list_circle(stitch, full, by, is_spiral, is_staggered)
    number = full
    if rest:
        number += 1
        yield write_round(f"Rnd {number}", stitch, _spread(stitch, rest, by * full), around, is_spiral)
    yield from _list_even(stitch, number + 1, even, around, is_spiral)


def list_crowns(
    stitch: RoundStitch, arounds: Sequence[int], names: Sequence[str], number: str, by: int = 0
) -> Iterator[str]:
    """The crown of a hat in all its sizes: each round says for which sizes it is, where not for all.

    `arounds` are the stitches of every size, `number` the name that rows call them by. What is no multiple of
    `by` is made up in one round more, which has no number of its own, as sizes end at different ones.
    """
    by = by or stitch.flat
    full = [around // by for around in arounds]
    if not min(full):
        raise ShapeError(f"{min(arounds)} stitches are fewer than the first round has: {by}")
    lines = list(list_circle(stitch, max(full), by))
    for at, line in enumerate(lines, start=1):
        sizes = [name for name, rounds in zip(names, full, strict=True) if rounds >= at]
        only = f" ({say_sizes(sizes)} only)" if len(sizes) < len(names) else ""
        yield line.replace(f"Rnd {at}:", f"Rnd {at}{only}:", 1)
    rests: dict[tuple[int, int], list[str]] = {}
    for name, around, rounds in zip(names, arounds, full, strict=True):
        if around % by:
            rests.setdefault((around % by, by * rounds), []).append(name)
    for (rest, made), sizes in rests.items():
        only = f" ({say_sizes(sizes)} only)" if len(sizes) < len(names) else ""
        words = _spread(stitch, rest, made)
        yield write_round(f"Next rnd{only}", stitch, words, made + rest, False)
    yield write_round("Next rnd", stitch, f"{stitch.name} in each st around", 0, False).replace(
        "(0 ", f"({{{number}}} "
    )


def say_sizes(names: Sequence[str]) -> str:
    """`size S`, `sizes S, M and L`."""
    return f"size{'s' if len(names) > 1 else ''} {join_words(names)}"


def list_sphere(stitch: RoundStitch, around: int, even: int | None = None, is_spiral: bool = True) -> Iterator[str]:
    """A ball: rounds that grow to `around` stitches, even ones, and the growing ones backwards.

    A ball is as high as it is wide: half its girth is a third of the growing rounds, as many even ones, and the
    closing ones, so there are as many even rounds as growing ones where stitches are as high as they are wide.
    """
    by = stitch.flat
    if around % by or around < 2 * by:
        near = max(2, round(around / by)) * by
        raise ShapeError(f"a ball grows by {by}: {around} is no multiple of it, {near} is")
    growing = around // by
    even = growing if even is None else even
    check_size(2 * growing + even, around, by)
    yield from list_circle(stitch, growing, by, is_spiral)
    yield from _list_even(stitch, growing + 1, even, around, is_spiral)
    number = growing + even
    for plain in range(growing - 2, -1, -1):
        number += 1
        lead = f"{stitch.name} in next {say_sts(plain)}, " if plain else ""
        words = f"({lead}{stitch.together}) {by} times"
        yield write_round(
            f"Rnd {number}", stitch, words, by * (plain + 1), is_spiral, stitch.together if not plain else ""
        )
    yield "Fasten off."


def check_size(rounds: int, stitches: int, by: int) -> None:
    """Refuse what nobody makes. Raises ShapeError."""
    if not 1 <= rounds <= MAX_ROUNDS:
        raise ShapeError(f"{rounds} rounds are out of range: 1 to {MAX_ROUNDS}")
    if not 0 < stitches <= MAX_STITCHES:
        raise ShapeError(f"{stitches} stitches are out of range: 1 to {MAX_STITCHES}")
    if not 3 <= by <= 60:
        raise ShapeError(f"{by} more stitches in each round are out of range: 3 to 60")


def begin_rounds(stitch: RoundStitch, first: int, is_spiral: bool) -> str:
    """The first round, of so many stitches into a ring."""
    words = f"{first} {stitch.name} in ring"
    if is_spiral:
        return f"Rnd 1: Make a magic ring, {words}. ({first} {stitch.name})"
    return f"Rnd 1: Make a magic ring, {stitch.opening}, {words}, {_join(stitch.name)}. ({first} {stitch.name})"


def write_round(label: str, stitch: RoundStitch, words: str, made: int, is_spiral: bool, first: str = "") -> str:
    """`first` is the stitch that a round begins with, where it is not the plain one."""
    if is_spiral:
        return f"{label}: {words[0].upper()}{words[1:]}. ({made} {stitch.name})"
    opening = stitch.opening.replace("ch ", "Ch ", 1)
    return f"{label}: {opening}, {words}, {_join(first or stitch.name)}. ({made} {stitch.name})"


def _list_even(stitch: RoundStitch, first: int, even: int, made: int, is_spiral: bool) -> Iterator[str]:
    if even:
        label = f"Rnd {first}" if even == 1 else f"Rnds {first}-{first + even - 1}"
        yield write_round(label, stitch, f"{stitch.name} in each st around", made, is_spiral)


def _increase(stitch: RoundStitch, plain: int, by: int, is_staggered: bool) -> str:
    """So many plain stitches and an increase, `by` times; staggered, the round begins halfway between two."""
    name = stitch.name
    if not plain:
        return f"2 {name} in each st around"
    group = f"({name} in next {say_sts(plain)}, 2 {name} in next st)"
    before = plain // 2
    if not is_staggered or not before:
        return f"{group} {by} times"
    first, last = f"{name} in next {say_sts(before)}", f"{name} in next {say_sts(plain - before)}"
    return f"{first}, 2 {name} in next st, {group} {by - 1} times, {last}"


def _spread(stitch: RoundStitch, changes: int, stitches: int) -> str:
    """Increases spread evenly over a round of so many stitches."""
    name = stitch.name
    groups: list[str] = []
    for length, times in spread_even(changes, stitches):
        lead = f"{name} in next {say_sts(length - 1)}, " if length > 1 else ""
        words = f"{lead}2 {name} in next st"
        groups.append(f"({words}) {times} times" if times > 1 else words)
    return ", ".join(groups)


def say_sts(number: int) -> str:
    """What comes behind "in next": `st`, `4 sts`."""
    return "st" if number == 1 else f"{number} sts"


def _join(name: str) -> str:
    return f"join with sl st in first {name}"
