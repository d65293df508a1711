"""The count at the end of a row, in brackets or after a dash, a colon or an equals sign."""

from collections.abc import Sequence

from booklet.model.parsed import Stated
from booklet.model.tree import ANY_STITCH, PerSize, What
from booklet.rows.count_items import KIND_WORDS, parse_count_items
from booklet.rows.stream import Stream
from booklet.rows.targets import is_what
from booklet.rows.tokens import Token


def is_terminal(stream: Stream) -> bool:
    """Does nothing that makes stitches follow from here to the end of the row?"""
    ahead = 0
    while stream.index + ahead < stream.stop:
        token = stream.peek(ahead)
        if token.kind == "st" and token.value not in ("ch", "sl st"):
            return False
        if token.is_word("in", "sk", "rep", "each", "across", "times", "twice", "once") and not _after_join(
            stream, ahead
        ):
            return False
        if token.is_mark("(", "["):
            inner = stream.index + ahead
            ahead = stream.closes.get(inner, stream.stop) - stream.index
        ahead += 1
    return True


FINISHING = frozenset(
    {
        "fold",
        "sew",
        "stuff",
        "whipstitch",
        "insert",
        "pin",
        "block",
        "press",
        "embroider",
        "tie",
        "thread",
        "fill",
        "put",
    }
    | {"cut", "draw", "pull", "pass", "gather", "graft", "seam", "flatten"}
)


def _after_join(stream: Stream, ahead: int) -> bool:
    """Do the words up to here say that the row is done: a join, or what is done with the finished piece?"""
    return any(
        stream.peek(at).is_word("join", "fasten off", "change to", "with", "weave")
        or stream.peek(at).value in FINISHING
        for at in range(ahead)
    )


COUNTING = ("counting", "including", "incl", "incl.", "excluding")


def parse_bracket_count(inner: Stream, outer: Stream) -> Stated | None:
    """count = "(" items ")" at the end of what the row works, or a bare total "(42)" anywhere.

    `outer` stands behind the closing bracket.
    """
    start = inner.index
    ahead = 0
    while str(inner.peek(ahead).value) in LEADS or inner.peek(ahead).is_mark(":"):
        ahead += 1
    if ahead and inner.peek(ahead).kind == "num":
        inner.index += ahead  # "should be 11 sc", "st count: 11"
    if inner.peek().value == "inc" and inner.peek(1).is_word("of") and inner.peek(2).kind == "num":
        return Stated(((inner.peek(2).numbers, ANY_STITCH),), outer.place(start - 1, outer.index), plus=True)
    includes = _counting(inner)
    plus = inner.peek().kind == "star" and inner.peek().value == "+"
    plus = plus and not any(token.is_mark("=") for token in inner.tokens[inner.index : inner.stop])  # "+1 = 23 sc"
    begun = inner.index
    items = parse_count_items(inner)
    if items is None and is_terminal(outer):
        inner.index = begun
        items = _parse_parts(inner)
    if items is None:
        return None
    following = outer.peek()
    if (
        following.is_word("in", "over", "times", "twice", "once", "across", "around", "to end", "to")
        or following.kind == "num"
    ):
        return None
    plain = len(items) == 1 and items[0][1].kind == "st"
    if not plain and not is_terminal(outer):
        return None
    return Stated(tuple(items), outer.place(start - 1, outer.index), plus, includes)


LEADS = ("should", "be", "count", "st", "stitch", "you", "have", "now")
STEPS = (
    "in",
    "into",
    "over",
    "each",
    "rep",
    "sk",
    "next",
    "last",
    "same",
    "turn",
    "join",
    "counts as",
    "times",
    "across",
)


def _parse_parts(inner: Stream) -> list[tuple[PerSize, What]] | None:
    """The parts of a count that read, where words beside others do not: "20 sc, 1 st decreased each side".

    None where the bracket is no count: where it does not begin with a number of stitches, or has words of steps.
    """
    tokens = inner.tokens[inner.index : inner.stop]
    if len(tokens) < 2 or tokens[0].kind != "num" or not is_what(tokens[1]) or any(t.is_word(*STEPS) for t in tokens):
        return None
    items: list[tuple[PerSize, What]] = []
    start = inner.index
    for at in range(inner.index, inner.stop + 1):
        ends = at == inner.stop
        if not ends and not inner.tokens[at].is_mark(",", ";", "-", "=") and not inner.tokens[at].is_word("and"):
            continue
        found = parse_count_items(inner.inner(start, at)) or _read_one_space(inner, start, at)
        if not found and _has_step(inner.tokens[start:at]):
            return None
        items += found
        start = at + 1
    return items or None


def _has_step(tokens: Sequence[Token]) -> bool:
    """Is there a stitch to be worked? "1 st decreased" tells of one, and is none."""
    tells = any(token.is_word("st") for token in tokens)
    return any(token.kind == "st" and not (tells and token.value in ("dec", "inc")) for token in tokens)


def _read_one_space(inner: Stream, start: int, end: int) -> list[tuple[PerSize, What]]:
    """ "ch-2 sp", a space without a number, and "5 3-ch arches" """
    tokens = inner.tokens[start:end]
    count: PerSize = (1,)
    if tokens and tokens[0].kind == "num":
        count, tokens = tokens[0].numbers, tokens[1:]
    if not tokens or tokens[0].kind not in ("chsp", "chn"):
        return []
    return [(count, What("ch-sp", int(tokens[0].value) or -1))]


def parse_bare_count(stream: Stream) -> Stated | None:
    """count = items, as a sentence of its own at the end of a row: "… across. 30 dc made." """
    mark = stream.index
    before = stream.tokens[mark - 1] if mark else None
    told = before is not None and (before.is_word("total") or before.value == "be")
    if before is None or not (told or before.is_mark(".", ";", "-", ")") or stream.peek(0).kind != "num"):
        return None
    stop = mark
    while stop < stream.stop and not stream.tokens[stop].is_mark(".", "!") and not _remarks(stream, stop):
        stop += 1
    inner = stream.inner(mark, stop)
    includes = _counting(inner)
    tells = any(t.value in KIND_WORDS or t.is_word("total", "rem") for t in inner.tokens[mark:stop])
    items = parse_count_items(inner, bare=before.is_mark("."))
    spaces = items is not None and any(what.kind in ("ch-sp", "sp") for _, what in items)
    if items is None or not (tells or spaces or told or before.is_mark(".")):
        return None
    if not is_terminal(stream.inner(stop, stream.stop)):
        return None
    stream.index = stop
    if stop < stream.stop and _adds_up(stream, stop):
        stream.index = stream.closes[stop] + 1
    return Stated(tuple(items), stream.place(mark, stop), includes_chain=includes)


def _counting(inner: Stream) -> bool | None:
    """ "counting ch-3 as dc", "including tch", "not counting tch" at the end of a count; cut off here."""
    for at in range(inner.index, inner.stop):
        token = inner.tokens[at]
        word = str(token.value)
        if token.is_word("counts as", "does not count") or word in (*COUNTING, "not"):
            if at == inner.index:
                return None
            inner.stop = at
            while inner.stop > inner.index and inner.tokens[inner.stop - 1].is_mark(",", ";"):
                inner.stop -= 1
            return not (token.is_word("does not count") or word in ("not", "excluding"))
    return None


def _explains(stream: Stream, at: int) -> bool:
    """ "26 dc (= 3 repeats + 2)": does a bracket that says what a count comes to begin here?"""
    return stream.tokens[at].is_mark("(") and at + 1 < stream.stop and stream.tokens[at + 1].is_mark("=")


def _remarks(stream: Stream, at: int) -> bool:
    """ "50 hdc (beg ch counts as hdc)", "50 hdc (49 hdc + tch)": does a bracket begin here that is about the count?"""
    if not stream.tokens[at].is_mark("(", "["):
        return False
    end = stream.closes.get(at, stream.stop)
    inside = stream.tokens[at + 1 : end]
    tells = any(t.is_word("counts as", "does not count") or t.value in COUNTING for t in inside)
    return (tells or _adds_up(stream, at)) and all(t.is_mark(".", "!") for t in stream.tokens[end + 1 : stream.stop])


def _adds_up(stream: Stream, at: int) -> bool:
    """ "(49 hdc + tch)", "(= 3 repeats + 2)" behind a count: does a bracket that says how it comes about begin here?"""
    if not stream.tokens[at].is_mark("(", "[") or at not in stream.closes:
        return False
    return any(t.value in ("+", "=", "plus") for t in stream.tokens[at + 1 : stream.closes[at]])


def parse_dash_count(stream: Stream) -> Stated | None:
    """count = ("-" | ":" | "=") items at the end of the row; nothing is taken where none stands here."""
    mark = stream.index
    if not stream.peek().is_mark("-", "=", ":"):
        return None
    stream.take()
    while stream.take_mark("-"):
        pass
    if stream.peek().kind != "num":
        stream.index = mark
        return None
    stop = stream.index
    while stop < stream.stop and not stream.tokens[stop].is_mark(".", "!") and not _explains(stream, stop):
        after = stream.tokens[stop + 1] if stop + 1 < stream.stop else None
        if stream.tokens[stop].is_mark(",", ";") and after is not None and after.is_word("turn", "join", "fasten off"):
            break
        stop += 1
    inner = stream.inner(stream.index, stop)
    includes = _counting(inner)
    items = parse_count_items(inner)
    if items is None or any(what.kind in ("inc", "dec", "inv dec") for _, what in items):
        stream.index = mark
        return None
    rest = stream.inner(stop, stream.stop)
    if not is_terminal(rest):
        stream.index = mark
        return None
    stream.index = stop
    return Stated(tuple(items), stream.place(mark, stop), includes_chain=includes)


def count_follows(stream: Stream) -> bool:
    """Does the count of the row stand here behind a dash or an equals sign, so that a clause ends before it?"""
    mark = stream.index
    found = None if stream.peek().is_mark(":") or stream.nested else parse_dash_count(stream)
    stream.index = mark
    return found is not None
