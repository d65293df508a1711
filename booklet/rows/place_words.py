"""Words behind a place that say whose it is or how deep it lies, and name no other place."""

from booklet.model.tree import What, Where
from booklet.rows.stream import Stream
from booklet.rows.targets import parse_what

OWNERS = ("block", "blocks", "tile", "tiles", "shell", "group", "motif", "corner", "v-st", "cl")


def skip_base(stream: Stream) -> None:
    """ "at base of ch-3", "at base of beg ch-3" """
    stream.index += 2
    stream.take_word("of")
    stream.skip_articles()
    stream.take_word("beg", "same", "first")
    if stream.peek().is_word("tch") or stream.peek().kind == "chn":
        parse_what(stream)
    elif stream.peek().value == "ch":
        stream.take()
        if stream.peek().kind == "num":
            stream.take()
    elif stream.peek().kind == "num":
        stream.take()
        stream.skip_articles()
        if stream.peek().value == "ch":
            stream.take()


def take_below(stream: Stream) -> int:
    """below = n "rows" "below" ["next" what] | "in" "row" "below" "next" what: how deep the hook goes

    The place along the row is the same; 0, and nothing taken, where no such words stand here.
    """
    mark = stream.index
    if stream.take_word("in"):
        stream.skip_articles()
        named = stream.take_word("rows", "rounds") and stream.peek().value in ("below", "down")
        if named and stream.take() and _take_next(stream):
            return 2  # the row below the stitch that comes next is the one before the last
    stream.index = mark
    depth = stream.take().numbers[0] if stream.peek().kind == "num" else 1
    stream.take_word("rows", "rounds")
    if stream.peek().value in ("below", "down"):
        stream.take()
        _take_next(stream)
        return depth
    stream.index = mark
    return 0


def _take_next(stream: Stream) -> bool:
    """ "the next st", behind "below" """
    mark = stream.index
    stream.skip_articles()
    if stream.take_word("next", "corresponding"):
        parse_what(stream)
        return True
    stream.index = mark
    return False


def take_made(stream: Stream, whats: tuple[What, ...]) -> Where | None:
    """made = ["just"] "made", behind "last sc" or "sc": the stitch of this row that was worked last"""
    ahead = 1 if stream.peek().value == "just" else 0
    at = stream.index + ahead
    said = stream.peek(ahead).is_word("working") and stream.words(at, at + 1).lower() in ("made", "worked", "completed")
    if not said or whats[0].kind in ("sp", "ch-sp", "ch", "corner"):
        return None
    stream.index = at + 1
    return Where("made", what=whats)


def take_owner(stream: Stream) -> None:
    """ "ch-3 sp of next block", "of block below": whose the place is; there is no other"""
    take_origin(stream)
    mark = stream.index
    if stream.take_word("of"):
        stream.skip_articles()
        stream.take_word("next", "last", "first", "same")
        if stream.peek().value in OWNERS:
            stream.take()
            if stream.peek().value == "below":
                stream.take()
            return
    stream.index = mark


def take_behind(stream: Stream) -> None:
    """ "behind FPdc", "behind the st just made", "in front of it", behind what is skipped: where that lies"""
    front = stream.peek().is_word("in") and stream.peek(1).is_word("front")
    if stream.peek().value in ("behind", "directly") or front:
        while not stream.done and not stream.peek().is_mark(",", ";", ".", "(", "[", ")", "]", ":"):
            if stream.peek().is_word("and") or stream.peek().kind in ("star", "num"):
                return
            stream.take()


MADE = frozenset({"formed", "made", "created", "completed", "worked"})


def take_origin(stream: Stream) -> None:
    """origin = ["just"] "formed" ["by" (["last"] stitch | chain | "and")*], behind a space: what it was made of"""
    mark = stream.index
    stream.index += stream.peek().value == "just"
    at = stream.index
    if stream.done or stream.words(at, at + 1).lower() not in MADE:
        stream.index = mark
        return
    stream.take()
    if not (stream.take_word("by", "with", "in")):
        return
    while not stream.done and (
        stream.peek().kind in ("st", "chn", "num", "chsp")
        or stream.peek().is_word("and", "the", "last", "join", "join st")
    ):
        stream.take()


def take_chain_space(stream: Stream, whats: tuple[What, ...]) -> tuple[What, ...]:
    """chain_space = "sp" "of" ["beg"] ("tch" | "ch-"k), behind "sp": the space of the turning chain"""
    mark = stream.index
    if whats == (What("sp"),) and stream.take_word("of"):
        stream.skip_articles()
        stream.take_word("beg", "first", "turn")
        if stream.peek().is_word("tch") or stream.peek().kind == "chn":
            parse_what(stream)
            return (What("ch-sp"),)
    stream.index = mark
    return whats


def take_tail(stream: Stream) -> None:
    """Words after a place that tell nothing new: "of row", "of rnd", "made", "below"."""
    mark = stream.index
    if stream.take_word("of"):
        stream.skip_articles()
        stream.take_word("same", "last")
        if stream.peek().value in ("full", "complete", "long"):
            stream.take()
        if not stream.take_word("rows", "rounds"):
            stream.index = mark
        elif stream.peek().kind == "num":
            stream.take()


def parse_under(stream: Stream) -> Where | None:
    """under = "under" ["each"] n "ch": the space of so many chains"""
    mark = stream.index
    each = stream.take_word("each")
    stream.take_word("next")
    if stream.peek().kind == "num" and stream.peek(1).value == "ch":
        chains = stream.take().numbers[0]
        stream.take()
        return Where("each" if each else "next", what=(What("ch-sp", chains),))
    stream.index = mark
    return None


def passes_rounds(stream: Stream) -> bool:
    """ "12 sc in each rnd": says of every round what is plain from its label; the words are passed over"""
    if stream.peek().is_word("in") and stream.peek(1).is_word("each") and stream.peek(2).is_word("rows", "rounds"):
        stream.index += 3
        return True
    return False
