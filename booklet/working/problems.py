"""What can go wrong in working a row, as facts. The words for them are in `messages`."""

from dataclasses import dataclass

from booklet.model.tree import What
from booklet.source import Span


@dataclass(frozen=True, slots=True)
class Problem:
    """One thing that does not work out.

    `kind` is one of
    too-few     `needs` places wanted, `has` offered
    no-place    no place of kind `what` is left
    left-over   `has` places are never worked into
    missed      `has` stitches before a `what` are passed over, where the row elsewhere works up to it
    way         slip stitches into `has` stitches lead to a `what` that `needs` lie before
    before-last `has` places lie between the last stitch and "the last"
    uneven      a repeat that uses `needs` does not divide the `has` offered; `spare` left over
    count       the row makes `has`, and says `needs`; `what` where one kind is meant
    no-join     the round is joined in a `what`, and makes none
    together    a stitch that works `needs` together (`detail`) is given `has` places
    no-center   the middle is wanted of `has` stitches of kind `what`, an even number
    no-middle   the middle of the row below is wanted, which has an even number of stitches, `has`
    short-chain the `needs`th chain from the hook is wanted, and `has` have just been made
    few-skipped the row works into `needs` skipped places, and has skipped `has`
    no-depth    a stitch goes `needs` rows below, and there are `has`
    not-deep    a stitch goes into a `what` `needs` rows below, and that row, `detail`, has none
    unworked    the text leaves `needs`, in fact `has` are left
    """

    kind: str
    span: Span
    has: int = 0
    needs: int = 0
    spare: int = 0
    what: What = What("st")
    detail: str = ""
