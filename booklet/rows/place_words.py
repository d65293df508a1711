"""Words behind a place that say whose it is or how deep it lies, and name no other place."""

from booklet.rows.stream import Stream
from booklet.rows.targets import parse_what

OWNERS = ("block", "blocks", "shell", "group", "motif", "corner", "v-st", "cl")


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
    """ "2 rows below", "one row below": how deep the hook goes; the place along the row is the same"""
    mark = stream.index
    depth = stream.take().numbers[0] if stream.peek().kind == "num" else 1
    stream.take_word("rows", "rounds")
    if stream.peek().value in ("below", "down"):
        stream.take()
        return depth
    stream.index = mark
    return 0


def take_owner(stream: Stream) -> None:
    """ "ch-3 sp of next block", "of block below": whose the place is; there is no other"""
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
