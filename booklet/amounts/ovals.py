"""Ovals: rounds that go along both sides of a chain, flat or the base of a bag, a bootee, a slipper.

Their first round has too many stitches to be taken for a centre, and their rounds are no height. Across, an oval is as
wide as its rounds on both sides of the chain; along, it is longer by the chain between the stitches at its ends. That
is plain geometry: a straight part with half a circle at either end.
"""

from collections.abc import Sequence

from booklet.amounts.gauges import is_row
from booklet.model.work import WorkedRow


def find_chain_ends(first: WorkedRow) -> tuple[int, int] | None:
    """The chains that a first round turns at, where it goes along one side of a chain and back along the other."""
    feet = [stitch.into[0] for stitch in first.fabric.stitches if stitch.into and stitch.kind != "sl st"]
    if len(feet) < 4:
        return None
    far = feet.index(max(feet))
    ahead, back = feet[: far + 1], [foot for foot in feet[far:] if foot != feet[far]]
    goes_round = far > 0 and len(back) > 1 and ahead == sorted(ahead) and back == sorted(back, reverse=True)
    return (min(feet), max(feet)) if goes_round else None


def goes_round_chain(first: WorkedRow) -> bool:
    return find_chain_ends(first) is not None


def begins_as_oval(rows: Sequence[WorkedRow]) -> bool:
    """Is the first round worked over a foundation chain, round both its sides?"""
    begun = [at for at, row in enumerate(rows) if is_row(row)]
    return bool(begun) and goes_round_chain(rows[begun[0]])


def straight_part(rows: Sequence[WorkedRow]) -> int:
    """Stitches of the straight part of an oval, between those that its ends turn round."""
    near, far = find_chain_ends(next(row for row in rows if is_row(row))) or (0, 0)
    return far - near
