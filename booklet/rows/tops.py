"""The tops of chains and stitches as places: "3rd ch of turning ch", "top of beg ch-3", "top of last dc made"."""

from booklet.model.tree import What, Where
from booklet.rows.place_words import take_made
from booklet.rows.stream import Stream
from booklet.rows.targets import parse_what


def parse_turning_chain(stream: Stream) -> Where:
    """turning_chain = "tch" ["ch-"k] | "tch" "sp" """
    what = parse_what(stream)
    return Where("top" if what.kind == "tch" else "next", what=(what,))


def parse_top_of(stream: Stream, how: str) -> Where | None:
    """top_of = "of" ["beg"] ("tch" | "ch-"k), behind "next ch": the chain of it that is due is its top

    Behind "first ch" or "last ch" it is that one of its chains.
    """
    mark = stream.index
    if stream.take_word("of"):
        stream.skip_articles()
        stream.take_word("beg", "first", "same")
        if stream.peek().is_word("tch") or stream.peek().kind == "chn":
            chains = parse_what(stream).chains
            nth = {"first": 1, "last": chains}.get(how, 0) if chains else 0
            return Where("top", what=(What("tch", chains),), nth=nth)
    stream.index = mark
    return None


def parse_top_of_made(stream: Stream) -> Where | None:
    """top_of_made = ["last"] stitch "just made", behind "top of" """
    mark = stream.index
    stream.take_word("last")
    if stream.peek().kind == "st" and (made := take_made(stream, (parse_what(stream),))):
        return made
    stream.index = mark
    return None


def parse_chain_top(stream: Stream) -> Where:
    """chain_top = ["beg"] ("ch-"k | "tch" | what), behind "top of" """
    stream.take_word("beg", "first")
    token = stream.peek()
    chains = 0
    if token.is_word("tch"):
        chains = parse_what(stream).chains
    elif token.kind == "chn":
        chains = int(stream.take().value)
    elif token.kind == "num" and stream.peek(1).value == "ch":
        chains = stream.take().numbers[0]
        stream.take()
    elif token.kind == "st":
        stream.take()
        if stream.peek().kind == "num":
            chains = stream.take().numbers[0]
    return Where("top", what=(What("tch", chains),))
