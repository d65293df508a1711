"""One kind of stitch and where it goes: "2 dc in each of next 3 sts", "sc 6", "sk 2", "ch 3"."""

import re
from collections.abc import Callable
from dataclasses import replace

from booklet.model.parsed import Stated
from booklet.model.tree import (
    Aside,
    Chain,
    ChangeEvenly,
    Free,
    Join,
    Node,
    Repeat,
    Ring,
    Skip,
    SkippedCount,
    TakeColour,
    What,
    Where,
    Work,
)
from booklet.rows.acts import take_clause
from booklet.rows.chains import SQUARE_WORDS
from booklet.rows.far_places import parse_along
from booklet.rows.layers import over_chain, parse_layers, take_together
from booklet.rows.place_words import take_behind
from booklet.rows.places import parse_where
from booklet.rows.repeats import parse_times
from booklet.rows.stream import Stream
from booklet.rows.targets import is_what, parse_extent, parse_whats
from booklet.rows.whole_rounds import parse_every_nth
from booklet.terms import load_table

ReadSteps = Callable[[Stream, list[Stated]], list[Node]]


def parse_numbered(stream: Stream, read: ReadSteps) -> list[Node] | None:
    """numbered = n stitch [where] | n "ch" | n "(" steps ")" | n ("in"|"into") where | n "more"? "times"?"""
    first = stream.index
    count = stream.take().numbers
    stream.skip_articles()
    if stream.peek().is_word("more") and stream.peek(1).kind == "st":
        stream.take()  # "11 more dc in ring"
    token = stream.peek()
    if token.kind == "st" and token.value == "ch":
        stream.take()
        return [Chain(stream.place(first), count)]
    if token.kind == "st":
        return parse_work(stream, count, first)
    if token.is_word("each") and (stream.peek(1).is_mark("(", ".", ",") or stream.index + 1 >= stream.stop):
        stream.take()
        return [Work(stream.place(first), "st", count, Where("each"))]  # "2 ea", as toys are noted
    if _is_toy_number(stream):
        return [Work(stream.place(first), "st", (1,), Where("next", count, bare=True))]
    if token.kind == "colour":
        letter = str(stream.take().value)
        return [
            TakeColour(stream.place(first), letter),
            Work(stream.place(first), "st", (1,), Where("next", count, bare=True)),
        ]
    if token.is_word("times") and stream.peek(1).is_mark("(", "["):
        stream.take()
        token = stream.peek()
    if token.is_mark("(", "[") and stream.index in stream.closes:
        close = stream.closes[stream.index]
        inner = stream.inner(stream.index + 1, close)
        body = read(inner, [])
        stream.index = close + 1
        return [Repeat(stream.place(first), tuple(body), "times", count, mark="(")]
    return None


def parse_work(stream: Stream, times: tuple[int, ...], first: int) -> list[Node]:
    """work = [n] stitch ([n] | ["next"] n | times | where) ("and" ["in"] where)*"""
    is_long = stream.place(stream.index, stream.index + 1).text.lower().startswith(LONG)
    stitch = str(stream.take().value)
    if (other := _parse_told_otherwise(stream, stitch, times, first)) is not None:
        return other
    stated_times = times if stream.tokens[first].kind == "num" else None
    stream.take_word("st")  # "2 sc sts"
    stream.take_word("loosely")
    if stated_times is None and _counts_in_one_place(stream):
        times = stated_times = stream.take().numbers  # "sc 6 in magic ring"
    if layers := parse_layers(stream, stitch, stated_times, first):
        return layers
    where = _parse_reach(stream, stitch)
    if stream.peek().is_word("to") and stream.peek(1).is_word("join", "join st") and stitch == "sl st":
        stream.index += 2
        if where is not None and where.how == "each":
            return [Work(stream.place(first), stitch, (1,), where)]  # "sl st across to join"
        return [Join(stream.place(first), where or Where("join"))]
    if where is None:
        where = _bare_where(stated_times)
        times = (1,)
    elif where.bare and stated_times:
        where = replace(where, count=stated_times if where.loops else where.count)
        times = (1,) if where.loops else times
    where = take_together(stream, stitch, over_chain(stream, first, stated_times, where))
    if _covers(stream, first, stitch, stated_times, where):
        times = (1,)
    where, times = _share_out(stream, first, where, times)
    if where.how == "next" and _is_own(stream, first, stitch) and where.count != (1,) and times == (1,):
        where = replace(where, over=True)
    also = _parse_also(stream) if where.how == "each" else ()
    nodes: list[Node] = [Work(stream.place(first), stitch, times, where, also, is_long)]
    if stream.peek().kind == "colour" and (
        stream.peek(1).is_mark(",", ")", "]", ";", ".", "(") or stream.index + 1 >= stream.stop
    ):
        letter = stream.take()
        return [TakeColour(stream.span.sub(letter.start, letter.end), str(letter.value)), *nodes]  # "10 sc blue"
    often = parse_times(stream)
    if often:
        nodes = [Repeat(stream.place(first), tuple(nodes), often.until, often.count, mark="")]
    if where.how == "same" and stitch.endswith("tog") and stream.peek().is_word("and"):
        stream.take()  # "sc2tog over same st and next st"
        parse_where(stream)
    nodes.extend(_parse_further(stream, stitch, times))
    return nodes


def _parse_told_otherwise(stream: Stream, stitch: str, times: tuple[int, ...], first: int) -> list[Node] | None:
    """Forms in which the stitch does not stand beside its place; None (nothing taken) where it does."""
    evenly = _parse_evenly(stream, stitch, first)
    if evenly:
        return evenly
    _pass_other_terms(stream)
    if stated := _says_in_colours(stream):
        stream.index += stated
        return []
    if every := parse_every_nth(stream, stitch, times, first):
        return every
    if stitch == "sl st" and (ring := _parse_ring(stream, first)):
        return ring
    makes_up = stream.peek().is_word("rows", "rounds") and any(
        token.is_word("to") for token in stream.tokens[stream.index : stream.index + 4]
    )
    grows = stitch in ("inc", "dec") and stream.peek().kind == "num" and stream.peek(1).value in SQUARE_WORDS
    if makes_up or grows:
        return take_clause(stream, first)  # "sl st Row 40 to foundation", "increasing one block each row"
    return None


def _parse_ring(stream: Stream, first: int) -> list[Node] | None:
    """ring = ["to"] "form" ["a"] "ring", behind "sl st" """
    mark = stream.index
    stream.take_word("to")
    if stream.take_word("form"):
        stream.skip_articles()
        if stream.take_word("ring"):
            return [Ring(stream.place(first), 1)]
    stream.index = mark
    return None


def _parse_reach(stream: Stream, stitch: str) -> Where | None:
    """reach = n [whats] | ["next" | "each" …] where: how many, or where, behind the stitch"""
    token = stream.peek()
    if token.is_word("each", "next") and not stream.peek(0).is_word("in"):
        return parse_where(stream)
    if (
        token.kind == "num"
        and not stream.peek(1).is_word("times", "more")
        and not (stitch in ("inc", "dec") and is_what(stream.peek(1)))
    ):
        count = stream.take().numbers
        whats = parse_whats(stream) if is_what(stream.peek()) else (What("st"),)
        return Where("next", count, whats, bare=True)
    if token.is_word("to") and stitch != "sl st" and (extent := parse_extent(stream)):
        return extent  # "hdc to last 2 sts"
    goes_on = token.kind == "w" and (token.value != "to" or (stitch == "sl st" and not stream.peek(1).is_word("join")))
    return parse_where(stream) if goes_on else None


def _counts_in_one_place(stream: Stream) -> bool:
    """ "6 in magic ring", "6 in 2nd ch from hook", behind a stitch: so many in that one place"""
    ahead = 3 if stream.peek(2).is_word("the") else 2
    if stream.peek().kind != "num" or not stream.peek(1).is_word("in"):
        return False
    if stream.peek(ahead).is_word("ring", "magic ring"):
        return True
    return stream.peek(ahead).kind == "ord" and stream.peek(ahead + 1).value == "ch"


def _is_toy_number(stream: Stream) -> bool:
    """ "(4, inc) x 6": a number alone beside an increase or decrease is that many plain stitches"""
    if not (stream.peek().is_mark(",", ")", "]") or stream.done):
        return False
    near = stream.tokens[max(0, stream.index - 4) : stream.index + 4]
    return any(token.value in ("inc", "dec", "inv dec") for token in near)


def _parse_evenly(stream: Stream, stitch: str, first: int) -> list[Node] | None:
    """evenly = ("inc"|"dec") n ["st"|stitch] "evenly" ["around"|"across"] | stitch "evenly" …"""
    mark = stream.index
    if stitch in ("inc", "dec"):
        count = stream.take().numbers if stream.peek().kind == "num" else ()
        named = str(stream.peek().value) if stream.peek().kind == "st" else ""
        if is_what(stream.peek()):
            stream.take()
        if count == (1,) and stream.peek().is_word("in"):
            return None  # "inc 1 st in center st": what is added is told, and the place follows
        if count and stream.take_word("even"):
            stream.take_word("around", "across", "to end")
            return [ChangeEvenly(stream.place(first), count, stitch == "inc", named)]
        if count and _tells_where(stream):
            close = stream.closes[stream.index]
            stream.index = close + 1
            return [ChangeEvenly(stream.place(first), count, stitch == "inc", named)]
        stream.index = mark
        return None
    if along := parse_along(stream, stitch, first):
        return along
    if stream.take_word("even"):
        while not stream.done and not stream.peek().is_mark(".", ";", "(", "["):
            stream.take()
        return [Free(stream.place(first), stream.words(first, stream.index))]
    return None


def _tells_where(stream: Stream) -> bool:
    """ "(1 in each corner)", "(2 at each end)" behind "inc 4": where the changes of a row lie"""
    if not stream.peek().is_mark("(", "[") or stream.index not in stream.closes:
        return False
    at_each = stream.peek(2).is_word("in", "at", "on") and stream.peek(3).is_word("each")
    return stream.peek(1).kind == "num" and at_each


def _says_in_colours(stream: Stream) -> int:
    """ "sc in colours: A-5, B-2 …": says of what stitch the colours are; how many tokens that takes, 0 for none"""
    if stream.peek().is_word("with") and stream.peek(1).is_mark(":"):
        return 2
    named = stream.peek(1).value in ("colour", "color", "colours", "colors")
    return 3 if stream.peek().is_word("in") and named and stream.peek(2).is_mark(":") else 0


def _pass_other_terms(stream: Stream) -> None:
    """ "dc (UK tr) in each st": the same stitch by its other name"""
    close = stream.closes.get(stream.index)
    if close is not None and any(t.value in ("uk", "us") for t in stream.tokens[stream.index : close]):
        stream.index = close + 1


def _parse_also(stream: Stream) -> tuple[Work, ...]:
    """also = ("," | "and") "working" n stitch "in" ["each"] ("corner" | what), for places met on the way"""
    mark = stream.index
    stream.take_mark(",", ";")
    stream.take_word("and", "with")
    spaces = stream.peek().kind == "num" and stream.peek(1).kind == "st" and stream.peek(3).is_word("each")
    says_so = stream.take_word("working")
    if not says_so and not (spaces and stream.tokens[mark].is_word("and")):
        stream.index = mark
        return ()
    first = stream.index
    each = says_so and stream.peek().kind == "st" and stream.peek(1).is_word("in") and stream.peek(2).is_word("each")
    if each or (stream.peek().kind == "num" and stream.peek(1).kind == "st" and stream.peek(2).is_word("in")):
        times = (1,) if each else stream.take().numbers
        stitch = str(stream.take().value)
        where = parse_where(stream)
        if where is not None and where.what[0].kind in ("sp", "ch-sp", "corner", "ch"):
            if where.what[0].kind == "ch" and stream.take_word("over", "of", "at"):
                _pass_opening(stream)
            return (Work(stream.place(first), stitch, times, where),)
    stream.index = mark
    return ()


def _pass_opening(stream: Stream) -> None:
    """ "thumb opening", "the underarm", behind "each ch over": words up to the separator"""
    while stream.peek().kind in ("w", "word") and not stream.peek().is_word("and", "working", "join", "turn"):
        stream.take()


def _bare_where(count: tuple[int, ...] | None) -> Where:
    return Where("next", count or (1,), bare=True)


def _covers(stream: Stream, first: int, stitch: str, times: tuple[int, ...] | None, where: Where) -> bool:
    """ "6 dc over 6 dc", "5 sc over next 5 sts": one in each, not five in each."""
    over = any(token.is_word("over") for token in stream.tokens[first : stream.index])
    return over and times is not None and times == where.count and times != (1,)


LONG = ("spike", "long ")
MOST_LISTED = 200  # places skipped that are told by their kinds
SEVERAL = 4  # so many stitches are never worked into the end of one row


def _says_each(stream: Stream, first: int) -> bool:
    return any(token.is_word("each") for token in stream.tokens[first : stream.index]) or "each" in stream.words(
        first, stream.index
    )


def _share_out(stream: Stream, first: int, where: Where, times: tuple[int, ...]) -> tuple[Where, tuple[int, ...]]:
    """More than go into one place are one in each: "8 sc in row ends along side", "work 19 sc across" """
    if where.how != "each" or times[0] < SEVERAL or _says_each(stream, first):
        return where, times
    if where.what[0].kind == "row end":
        return replace(where, how="next", count=times), (1,)
    behind = stream.tokens[first + 2 : stream.index]
    if not where.bare and all(token.is_word("across", "around", "the", "to end") for token in behind):
        return Where("next", times, bare=True), (1,)
    return where, times


COMPOUND = re.compile(r"\dtog$| (?:cl|bobble|puff|pc|shell)$|^[FB]P")


def _is_own(stream: Stream, first: int, stitch: str) -> bool:
    """Is it "star st over next 2 sts", a stitch that the pattern defines worked over several places at once?"""
    over = any(token.is_word("over") for token in stream.tokens[first : stream.index])
    return (
        over
        and stitch not in load_table("stitches")
        and not re.search(r"\dtog$|-(?:cl|bobble|puff|pc|shell)|^[FB]P", stitch)
    )


def _parse_further(stream: Stream, stitch: str, times: tuple[int, ...]) -> list[Node]:
    """further = ("and" | ",") ["in"] ("each" | "next" | "last" | "same" | "across") … for the stitch before"""
    nodes: list[Node] = []
    while True:
        mark = stream.index
        if not stream.take_word("and"):
            return nodes
        start = stream.index
        if not stream.peek().is_word("in", "each", "next", "last", "same", "across", "around", "to end", "first"):
            stream.index = mark
            return nodes
        where = parse_where(stream)
        if where is None or stream.peek().is_word("working") or (stream.peek().is_mark("(") and where.how != "each"):
            stream.index = mark
            return nodes
        nodes.append(Work(stream.place(start), stitch, times, where))


def _parse_skip_list(stream: Stream, first: int) -> list[Node]:
    """skip_list = "(" (stitch | "ch" n) ("," …)* ")": each thing named is passed over"""
    close = stream.closes[stream.index]
    whats: list[What] = []
    for at in range(stream.index + 1, close):
        token = stream.tokens[at]
        if token.kind == "st" and token.value == "ch" and stream.tokens[at + 1].kind == "num":
            whats.append(What("ch-sp", stream.tokens[at + 1].numbers[0]))
        elif token.kind == "st" and token.value != "ch":
            number = stream.tokens[at - 1].numbers[0] if stream.tokens[at - 1].kind == "num" else 1
            whats.extend([What(str(token.value))] * min(number, 50))
        elif token.kind in ("chsp", "chn"):
            whats.append(What("ch-sp", int(token.value)))
    stream.index = close + 1
    return [Skip(stream.place(first), Where("next", what=tuple(whats) or (What("st"),)))]


def continue_last(stream: Stream, steps: list[Node]) -> list[Node]:
    """ "… (counts as dc) and in each ch across": the stitch before the remark goes on."""
    last = next((step for step in reversed(steps) if not isinstance(step, Aside | SkippedCount)), None)
    return _parse_further(stream, last.stitch, last.times) if isinstance(last, Work) else []


def parse_skip(stream: Stream) -> list[Node]:
    """skip = "sk" (n [what] | place | "(" n "ch" ")")?"""
    first = stream.index
    stream.take()
    stream.skip_articles()
    if stream.peek().is_word("center") and stream.peek(1).kind == "num":
        stream.take()  # "skip center 10 sts": they come next
    if stream.peek().kind == "num":
        count = stream.take().numbers
        whats = parse_whats(stream) if is_what(stream.peek()) else (What("st"),)
        take_behind(stream)
        return [Skip(stream.place(first), _list_kinds(Where("next", count, whats)))]
    if stream.index in stream.closes:
        return _parse_skip_list(stream, first)
    extent = parse_extent(stream) if stream.peek().is_word("to") else None  # "skip to next marker"
    where = extent or parse_where(stream) or Where("next")
    take_behind(stream)
    return [Skip(stream.place(first), _list_kinds(where))]


def _list_kinds(where: Where) -> Where:
    """ "Next 7 dc and ch-1 sp", told place by place: the number is that of the stitches, and the space is one"""
    mixed = len(where.what) == 2 and where.what[1].kind in ("sp", "ch-sp") and where.what[0].kind not in ("sp", "ch-sp")
    if where.how != "next" or not mixed or len(where.count) != 1 or not 1 < where.count[0] <= MOST_LISTED:
        return where
    return replace(where, count=(1,), what=(*where.what[:1] * where.count[0], where.what[1]))


def loosen(step: Node) -> Node:
    """Inside a group "2 dc" is two in the one place."""
    if isinstance(step, Work) and step.where.bare:
        return replace(step, times=step.where.count, where=Where("same", bare=True))
    if isinstance(step, Repeat):
        return replace(step, steps=tuple(loosen(inner) for inner in step.steps))
    return step
