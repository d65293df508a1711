"""Words that no rule reads: passed over where they name nothing to work, else told."""

from booklet.model.tree import Aside, FastenOff, Free, Node, OtherSide, TakeColour, Unread
from booklet.rows.stream import Stream
from booklet.rows.targets import is_what
from booklet.rows.tokens import Token

# Words that leave to the maker how many, how far or how: what they stand in is taken on trust, and told.
FREE_WORDS = frozenset(
    {"patt", "pattern", "established", "desired", "armhole", "armholes", "correspond", "corresponding", "reverse"}
    | {"cont", "continue", "continuing"}
    | {"reversing", "enough", "matching", "continuity", "simultaneously", "underarm", "needed", "required", "wished"}
)
ACTS = ("sk", "rep", "turn", "join", "leave", "work even", "as row", "change to", "as established", "magic ring")


def skip_unread(stream: Stream, first: int, steps: list[Node]) -> list[Node]:
    """The words up to the next separator, as an aside or as unread."""
    stream.index = first + 1
    while not stream.done and not stream.peek().is_mark(",", ";", ".", "(", "[", ":") and stream.peek().kind != "star":
        stream.index += 1
    tokens = stream.tokens[first : stream.index]
    span = stream.place(first)
    if tokens[0].value == "cut" and any(t.value == "off" for t in tokens):
        return [Aside(span, span.text)]  # "cut off remaining chain"
    late = next((t for t in tokens if t.kind == "colour"), None)
    if late is not None and any(t.is_word("last") for t in tokens):
        return [TakeColour(span, str(late.value), late=True)]  # "finishing last sc with B"
    done = any(isinstance(step, FastenOff) for step in steps) and not any(t.kind == "st" for t in tokens)
    grows = any(t.is_word("more") for t in tokens) and not any(t.kind in ("st", "chsp") for t in tokens)
    if done or grows or tokens[0].value == "not" or any(t.value in ("twist", "twisted", "twisting") for t in tokens):
        return [Aside(span, span.text)]
    if any(t.value in ("stripe", "stripes", "stripe-pattern") for t in tokens):
        return [Aside(span, span.text)]  # "keeping to the stripe pattern": told by the order of colours
    if tokens[0].is_word("or"):  # "or ch 43 and work 42 sc", "or to desired length": another way to the same
        while not stream.done and not stream.peek().is_mark(".", ";"):
            stream.index += 1
        return [Aside(span, stream.words(first, stream.index))]
    if any(t.is_word("unworked") or t.value in ("free", "unused", "opposite") for t in tokens) and any(
        t.is_word("sp", "st", "opposite", "side") for t in tokens
    ):
        return [OtherSide(span)]
    bumps = [stream.span.sub(t.start, t.end).text.lower() for t in tokens if t.is_word("back bumps")]
    if any(text.startswith("bottom") for text in bumps) and not any(t.kind == "st" for t in tokens):
        return [OtherSide(span)]  # "rotate to work into bottom loops"
    if any(t.value in FREE_WORDS for t in tokens):
        while not stream.done and not stream.peek().is_mark(".", "(", "["):
            stream.index += 1
        return [Free(stream.place(first), stream.words(first, stream.index))]
    if _wants_work(tokens):
        unknown = next((t for t in tokens if t.is_strange), None)
        return [Unread(span, span.text, str(unknown.value) if unknown else "")]
    return [Aside(span, span.text)]


def _wants_work(tokens: list[Token]) -> bool:
    """Do the words name a stitch, a place or an act, so that passing over them would lose stitches?

    So does a word that is no term of the trade and no everyday word: it may be a stitch.
    """
    if any(t.kind in ("st", "chsp", "chn") or t.is_word(*ACTS) or t.is_strange for t in tokens):
        return True
    names_place = any(is_what(t) or t.is_word("next") for t in tokens)
    counts = any(t.kind in ("num", "ord") for t in tokens)
    only_numbers = all(t.kind in ("num", "ord") or t.is_mark("-") for t in tokens)
    return only_numbers or (names_place and (counts or any(t.is_word("in", "over", "around") for t in tokens[1:])))
