"""Steps that the first word alone tells: joins, loops, colours, turns, a ring."""

from collections.abc import Callable

from booklet.model.tree import Even, FastenOff, KeepColours, Loops, Node, Ring, Skip, Turn, Where, Work
from booklet.rows.acts import parse_colour, parse_join, parse_leave, take_clause
from booklet.rows.markers import parse_marker
from booklet.rows.places import LOOPS, parse_where
from booklet.rows.stitches import parse_skip
from booklet.rows.stream import Stream
from booklet.source import Span


def parse_by_first_word(stream: Stream, word: str) -> list[Node] | None:
    """A step that its first word alone tells."""
    first = stream.index
    if word in LOOPS and word != "back bumps":
        return _parse_loops(stream)
    if word in BEGINNINGS:
        return BEGINNINGS[word](stream)
    if word in MARKS:
        stream.take()
        return [MARKS[word](stream.place(first))]
    return None


def _parse_loops(stream: Stream) -> list[Node]:
    """loops = ("back loops" | "front loops" | "third loops") ["only"] ["throughout"]"""
    first = stream.index
    loops = LOOPS[str(stream.take().value)]
    stream.take_word("only")
    lasting = stream.take_word("throughout")
    return [Loops(stream.place(first), loops, lasting)]


def _parse_start(stream: Stream) -> list[Node] | None:
    """start = "starting" ("in"|"with") n-th "ch" ["from hook"]: the chains before it are skipped"""
    first = stream.index
    stream.take()
    stream.take_word("in", "with", "at", "from", "by")
    stream.take_word("working")
    stream.skip_articles()
    if stream.peek().is_word("magic ring"):
        stream.take()
        return [Ring(stream.place(first))]
    if _begins_step(stream):
        return []  # "Start with 6 sc in ring"
    where = parse_where(stream) if stream.peek().kind == "ord" or stream.peek().is_word("the") else None
    if where is None or where.how != "nth" or where.nth < 2:
        return take_clause(stream, first)
    return [Skip(stream.place(first), Where("next", (where.nth - 1,), where.what))]


def _begins_step(stream: Stream) -> bool:
    """Does a stitch, or a number of them, stand here?"""
    token = stream.peek(int(stream.peek().kind == "num"))
    return token.kind == "st"


def _parse_form_ring(stream: Stream) -> list[Node] | None:
    """form_ring = "form" ["a"] "ring" [words up to the separator]"""
    first = stream.index
    stream.take()
    if not stream.take_word("ring"):
        stream.index = first
        return None
    take_clause(stream, first)
    return [Ring(stream.place(first), 1)]


def _parse_aside(stream: Stream) -> list[Node]:
    return take_clause(stream, stream.index)


def _parse_fasten_off(stream: Stream) -> list[Node]:
    """fasten_off = "fasten off" [words up to the separator]"""
    first = stream.index
    take_clause(stream, first)
    return [FastenOff(stream.place(first))]


def _parse_even(stream: Stream) -> list[Node]:
    """even = "work even" ["around" | "across"] ["in" stitch], in one row"""
    first = stream.index
    stream.take()
    stream.take_word("around", "across")
    if stream.peek().is_word("in") and stream.peek(1).kind == "st":
        stream.take()
        stitch = str(stream.take().value)
        stream.take_word("around", "across")
        return [Work(stream.place(first), stitch, (1,), Where("each"))]
    return [Even(stream.place(first))]


BEGINNINGS: dict[str, Callable[[Stream], list[Node] | None]] = {
    "sk": parse_skip,
    "form": _parse_form_ring,
    "beg": _parse_start,
    "from": _parse_start,
    "join": parse_join,
    "join st": parse_join,
    "do not join": _parse_aside,
    "spiral": _parse_aside,
    "place marker": parse_marker,
    "slip marker": _parse_aside,
    "weave": _parse_aside,
    "fasten off": _parse_fasten_off,
    "with": parse_colour,
    "change to": parse_colour,
    "leave": parse_leave,
    "work even": _parse_even,
}
MARKS: dict[str, Callable[[Span], Node]] = {
    "turn": lambda span: Turn(span, yes=True),
    "do not turn": lambda span: Turn(span, yes=False),
    "as established": KeepColours,
    "magic ring": Ring,
}
