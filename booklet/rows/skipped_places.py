"""Places that the row has skipped, and goes back to: "in skipped st", "around each of 3 skipped sts"."""

from booklet.model.tree import PerSize, Where
from booklet.rows.place_words import take_below
from booklet.rows.stream import Stream
from booklet.rows.targets import parse_what, parse_whats

BACK = ("just", "previously")
SAID = ("you", "that", "which", "were", "was", "had", "been", "have", *BACK)


def names_skipped(stream: Stream, ahead: int) -> bool:
    """Does "skipped", with an article, an ordinal, "just" or a number before it, stand there?"""
    while stream.peek(ahead).is_word("the", "next", "first", "last", "same", "rem") or stream.peek(ahead).value in BACK:
        ahead += 1
    ahead += stream.peek(ahead).is_mark("-") or stream.peek(ahead).kind in ("num", "ord")
    ahead += str(stream.peek(ahead).value) in BACK
    return stream.peek(ahead).is_word("sk")


def parse_skipped(stream: Stream, each: bool = False) -> Where | None:
    """skipped = ["next"|"first"|n-th] [n] "skipped" [what] [below]; None (nothing taken) where nothing skipped is named

    Behind "each" with no number it is all of them, which is told by the number 0.
    """
    if not names_skipped(stream, 0):
        return None
    count: PerSize = (0,) if each else (1,)
    while not stream.peek().is_word("sk"):
        token = stream.take()
        if token.kind == "num":
            count = token.numbers
    stream.take()
    whats = parse_whats(stream) if each else (parse_what(stream),)
    return Where("skipped", count, whats, below=take_below(stream))


def take_just_skipped(stream: Stream) -> bool:
    """just_skipped = ["just" | "you" | "that" "was"] "skipped", behind a place"""
    mark = stream.index
    while str(stream.peek().value) in SAID or stream.peek().is_word("that"):
        stream.take()
    at = stream.index
    if stream.take_word("sk") and stream.words(at, at + 1).lower().endswith(("ed", "'d")):
        return True
    stream.index = mark
    return False
