"""Shapes that begin with a chain: a flat piece of so many stitches, and an oval round both sides of a chain."""

from collections.abc import Iterator

from booklet.shapes.rounds import check_size
from booklet.shapes.stitches import COUNTED_CHAINS, RoundStitch, ShapeError

# The chain that the first stitch of a row goes into, and how many of those before it stand for a stitch.
ENTRY = {"sc": 2, "hdc": 3, "dc": 4, "tr": 5}


def count_chains(stitch: RoundStitch, sts: int, is_counted: bool) -> int:
    """Chains to start so many stitches: N + T where the turning chain of T is no stitch, N + T - 1 where it is one."""
    turning = ENTRY[stitch.kind] - 1
    return sts + turning - (1 if is_counted else 0)


def list_flat(stitch: RoundStitch, sts: int, rows: int, is_counted: bool | None = None) -> Iterator[str]:
    """A flat piece. The turning chain counts in dc and taller where nothing is said, and never in sc."""
    if is_counted is None:
        is_counted = stitch.kind in ("dc", "tr")
    if is_counted and stitch.kind not in COUNTED_CHAINS:
        raise ShapeError("the turning chain of a sc is never counted as a stitch")
    check_size(max(1, rows), sts, 6)
    name, entry = stitch.name, ENTRY[stitch.kind]
    order = {2: "2nd", 3: "3rd"}.get(entry, f"{entry}th")
    chains = count_chains(stitch, sts, is_counted)
    skipped = ""
    if stitch.kind != "sc":
        skipped = f" (skipped ch count as a {name})" if is_counted else " (skipped ch do not count)"
    yield f"Ch {chains}."
    yield f"Row 1: {name[0].upper()}{name[1:]} in {order} ch from hook{skipped} and in each ch across. ({sts} {name})"
    if rows > 1:
        turning = entry - 1
        label = "Row 2" if rows == 2 else f"Rows 2-{rows}"
        if is_counted:
            words = f"Ch {turning} (counts as a {name}), turn, sk first st, {name} in each st across"
        else:
            words = f"Ch {turning} (does not count as a st), turn, {name} in each st across"
        yield f"{label}: {words}. ({sts} {name})"


def list_oval(stitch: RoundStitch, chains: int, rounds: int) -> Iterator[str]:
    """A flat oval in spiral rounds: twice its straight side and k stitches, k more in each round.

    Half of the increases lie at either end, in the first round in the last chain and in the first.
    """
    end, entry = stitch.flat // 2, ENTRY[stitch.kind]
    along = chains - entry - 1  # without the chain at either end, and those skipped at the start
    if along < 1:
        raise ShapeError(f"a chain of {chains} leaves no straight sides: at least {entry + 2}")
    name = stitch.name
    check_size(rounds, 2 * along + stitch.flat * rounds, stitch.flat)
    order = {2: "2nd", 3: "3rd"}.get(entry, f"{entry}th")
    skipped = " (skipped ch do not count)" if entry > 2 else ""
    side = f"{name} in next {'ch' if along == 1 else f'{along} ch'}"
    yield f"Ch {chains}."
    yield (
        f"Rnd 1: {name[0].upper()}{name[1:]} in {order} ch from hook{skipped}, {side}, {end} {name} in last ch, "
        f"working along the other side of the chain, {side}, {end - 1} {name} in last ch. "
        f"({2 * along + 2 * end} {name})"
    )
    straight = f"{name} in next {'st' if along == 1 else f'{along} sts'}"
    for number in range(2, rounds + 1):
        plain = number - 2
        lead = f"{name} in next {'st' if plain == 1 else f'{plain} sts'}, " if plain else ""
        inc = f"{lead}2 {name} in next st"
        # The first stitch of the round lies at the end where the others of its group were made last.
        words = f"{inc}, {straight}, ({inc}) {end} times, {straight}, ({inc}) {end - 1} times"
        yield f"Rnd {number}: {words[0].upper()}{words[1:]}. ({2 * along + 2 * end * number} {name})"
