"""Stitches and groups in more than one place: through both layers of a piece, over two stitches, in further spaces."""

import re
from dataclasses import replace

from booklet.model.tree import Aside, Group, Node, Repeat, What, Where, Work
from booklet.rows.acts import take_clause
from booklet.rows.places import parse_where
from booklet.rows.repeats import parse_times
from booklet.rows.stream import Stream
from booklet.rows.targets import parse_whats

FLAT = re.compile(r"\b(?:fold|flat|flatten|press|pinch|squash|squeeze)\w*\b", re.IGNORECASE)
TOGETHER = re.compile(r"\b(?:hold|pieces|squares|panels|wrong sides)\w*\b", re.IGNORECASE)
# The row in hand held against the chain that the piece begins with: each stitch goes through one place of both.
ENDS = r"(?:the\s+)?(?:sts?\s+(?:of|on)\s+)?(?:the\s+)?"
FOUNDATION = r"(?:foundation|beginning|beg|starting|base|first|1st)\s+(?:ch(?:ain)?|row|rnd|round|edge)"
LAST = r"(?:last|this|final|current|working)\s+(?:row|rnd|round)"
BOTH_ENDS = re.compile(
    rf"through\s+(?:both\s+)?{ENDS}(?:{LAST}\s+and\s+{ENDS}{FOUNDATION}|{FOUNDATION}\s+and\s+{ENDS}{LAST})\b",
    re.IGNORECASE,
)
LAYERS = ("layer", "layers", "side", "sides", "thickness", "thicknesses", "edges")


def parse_layers(stream: Stream, stitch: str, count: tuple[int, ...] | None, first: int) -> list[Node]:
    """layers = ("through" | "across") "both" "layers" ["across" | "to close"], in a piece that is folded flat

    Each stitch closes two places of it, so many times or to the end; [] (nothing taken) where none of it stands here.
    """
    mark = stream.index
    text = stream.span.text
    if _take_both_ends(stream):
        return [Work(stream.place(first), stitch, (1,), Where("next", count) if count else Where("each"))]
    stream.take_word("across")
    if stream.peek().value == "through":
        stream.take()
    named = stream.index > mark and stream.take_word("both") and stream.words(stream.index, stream.index + 1).lower()
    if not named or named not in LAYERS or not FLAT.search(text) or TOGETHER.search(text):
        stream.index = mark
        return []
    stream.take()
    stop = stream.index
    while not stream.done and stream.peek().kind in ("w", "word", "num") and not stream.peek().is_word("turn", "join"):
        stream.take()  # "to close"
    often = parse_times(replace(stream, index=stop))
    count = count or (often.count if often else None)
    work = Work(stream.place(first, stop), stitch, (1,), Where("next", (2,), over=True))
    if stream.nested and not count:
        return [work]  # "(sc through both layers) 6 times"
    return [Repeat(stream.place(first, stop), (work,), "times" if count else "end", count or (1,), mark="(")]


def _take_both_ends(stream: Stream) -> bool:
    """both_ends = "through" ["both"] "last row" "and" "foundation ch" ["across"]"""
    stop = stream.index
    while stop < stream.stop and not stream.tokens[stop].is_mark(",", ";", ".", "(", "["):
        stop += 1
    if BOTH_ENDS.match(stream.words(stream.index, stop)) is None:
        return False
    stream.index = stop
    return True


def parse_held_together(stream: Stream) -> list[Node]:
    """held_together = "working" "through" "last row" "and" "foundation ch": how the stitches of the row go"""
    first = stream.index
    stream.take()
    if _take_both_ends(stream):
        return [Aside(stream.place(first), stream.words(first, stream.index))]
    stream.index = first
    return []


def parse_through(stream: Stream) -> list[Node]:
    """through = "next" n stitch "through" …: so many of the stitch, each through another piece as well"""
    first = stream.index
    told = stream.peek().is_word("next") and stream.peek(1).kind == "num" and stream.peek(2).kind == "st"
    if not told or stream.peek(3).value != "through":
        return []
    count, stitch = stream.peek(1).numbers, str(stream.peek(2).value)
    stream.index += 3
    work = Work(stream.place(first), stitch, (1,), Where("next", count, bare=True))
    return [work, *take_clause(stream, stream.index)]


FLATTENED = ("fold", "flatten", "press", "pinch", "squash", "squeeze")


def parse_flattened(stream: Stream) -> list[Node]:
    """flattened = "fold" "flat" ["and"], before "work 6 sc" or "sc"; else the words to the end of the clause"""
    mark = stream.index
    while stream.peek().kind == "word" or stream.peek().is_word("the", "in", "tog", "sp", "opening"):
        stream.take()
    stop = stream.index
    if stream.take_word("and") and (stream.peek().is_word("working") or stream.peek().kind in ("st", "num")):
        return [Aside(stream.place(mark, stop), stream.words(mark, stop))]
    stream.index = mark
    return take_clause(stream, mark)


def take_together(stream: Stream, stitch: str, where: Where) -> Where:
    """together = "and" ["next"] what, behind "FPdc2tog over next FPdc": both of them, one after the other"""
    mark = stream.index
    if not stitch.endswith("2tog") or where.how != "next" or where.bare or len(where.what) > 1:
        return where
    if stream.take_word("and"):
        stream.take_word("next")
        if stream.peek().kind in ("st", "chsp") and not stream.peek(1).is_word("in", "each", "next", "over"):
            return replace(where, count=(2,), what=(*where.what, *parse_whats(stream)))
    stream.index = mark
    return where


def over_chain(stream: Stream, first: int, times: tuple[int, ...] | None, where: Where) -> Where:
    """ "4 sc over ch": several over a chain of the row below, in its space"""
    over = any(token.is_word("over") for token in stream.tokens[first : stream.index])
    single = where.how == "next" and where.what == (What("ch"),) and where.count == (1,)
    return replace(where, what=(What("sp"),)) if over and single and times not in (None, (1,)) else where


def in_further_places(stream: Stream, group: Group) -> list[Node]:
    """further = ("and" ["in"] ("each" | "next") place)*, behind "(sc, dc, sc) in same sp": the group there too"""
    groups: list[Node] = [group]
    while stream.peek().is_word("and") and stream.peek(2 if stream.peek(1).is_word("in") else 1).is_word(
        "each", "next"
    ):
        first = stream.index
        stream.take()
        where = parse_where(stream)
        if where is None or where.what[0].kind not in ("sp", "ch-sp", "corner") or stream.peek().is_word("working"):
            stream.index = first
            break
        groups.append(replace(group, span=stream.place(first + 1), where=where))
    return groups
