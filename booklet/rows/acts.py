"""What a maker does beside stitches: joins, changes colour, leaves stitches, minds a marker."""

import re
from collections.abc import Callable

from booklet.model.tree import ANY_STITCH, Aside, Join, Leave, Node, OtherSide, Ring, TakeColour, Where, Work
from booklet.rows.counts import count_follows
from booklet.rows.places import parse_where
from booklet.rows.stream import Stream
from booklet.rows.targets import is_what, parse_whats

# An end of yarn that is left, by its names or its length.
YARN_ENDS = ("tail", "tails", "end", "ends", "yarn", "length", "lengths", "cm", "inch", "inches", "mm", "yd", "yards")
RINGS = ("tube", "loop", "circle", "cylinder", "band")  # what an edge or a chain is closed to, besides a ring


def take_clause(stream: Stream, first: int, *ends: str) -> list[Node]:
    """The words to the end of the clause, or to one of the `ends`, as an aside."""
    while not stream.done and not stream.peek().is_mark(",", ";", ".", "(", "[", *ends) and not count_follows(stream):
        stream.take()
    return [Aside(stream.place(first), stream.words(first, stream.index))]


ALONG_CHAIN = re.compile(
    r"\b(?:foundation|opposite\s+side|other\s+side|bottom|lower)\s+(?:edge|side|of\s+(?:the\s+)?(?:\w+\s+)?ch(?:ain)?)\b"
    r"|\bfoundation\s+(?:ch(?:ain)?|rnd|round|row)\b",
    re.IGNORECASE,
)


def parse_join(stream: Stream) -> list[Node]:
    """A join; where its words name the free side of the foundation, the row goes on along it."""
    return _go_along(stream, _parse_join) or []


def parse_colour(stream: Stream) -> list[Node] | None:
    """A change of colour or a new yarn, joined perhaps at the free side of the foundation."""
    return _go_along(stream, _parse_colour)


def _go_along(stream: Stream, parse: Callable[[Stream], list[Node] | None]) -> list[Node] | None:
    first = at = stream.index
    steps = parse(stream)
    while at < stream.stop and not stream.tokens[at].is_mark(",", ";", ".", "(", "["):
        at += 1
    is_ring = any(isinstance(step, Ring) for step in steps or ())
    if not steps or is_ring or not ALONG_CHAIN.search(stream.words(first, at)):
        return steps
    stream.index = max(stream.index, at)
    return [*(step for step in steps if isinstance(step, TakeColour)), OtherSide(stream.place(first))]


def _parse_join(stream: Stream) -> list[Node]:
    """join = "join" ["with" stitch] [("in"|"to") place] ["to" "form" "ring"]"""
    first = stream.index
    stream.take()
    stitch = "sl st"
    if seam := _parse_seam(stream, first):
        return seam
    if other := _parse_join_to(stream, first):
        return other
    if stream.take_word("with"):
        stream.skip_articles()
        if stream.peek().kind == "st":
            stitch = str(stream.take().value)
        elif stream.peek().kind == "colour":
            letter = str(stream.take().value)
            take_clause(stream, first)
            return [TakeColour(stream.place(first), letter)]
    elif stream.peek().kind == "colour":
        letter = str(stream.take().value)
        return [TakeColour(stream.place(first), letter), *_join_new_yarn(stream)]
    elif stream.peek().value in ("yarn", "thread", "wool"):
        stream.take()
        return [*_join_new_yarn(stream), Aside(stream.place(first), stream.words(first, stream.index))]
    if standing := _parse_standing(stream):
        return standing
    where = parse_where(stream) if stream.peek().is_word("in", "to", "around", "over", "at") else None
    if stream.take_word("to"):
        where = parse_where(stream) or where  # "in first sc to work in rounds"
    if stream.take_word("form"):
        if not stream.take_word("ring") and str(stream.peek().value) in RINGS:
            stream.take()
        return [Ring(stream.place(first), 1)]
    return [Join(stream.place(first), where or Where("join"), stitch)]


def _parse_join_to(stream: Stream, first: int) -> list[Node] | None:
    """join_to = "to" ["the"] which piece "with" stitch ["in" place]: the first stitch on another piece"""
    mark = stream.index
    if stream.take_word("to"):
        stream.skip_articles()
        while not stream.done and not stream.peek().is_word("with") and not stream.peek().is_mark(",", ".", ";", "("):
            stream.take()
        if stream.index > mark + 1 and stream.take_word("with"):
            stream.skip_articles()
            stitch = stream.take()
            if stitch.kind == "st" and stitch.value != "sl st" and str(stream.tokens[mark + 1].value) != "ring":
                take_clause(stream, first)
                return [Work(stream.place(first), str(stitch.value), (1,), Where("elsewhere"))]
    stream.index = mark
    return None


def _parse_seam(stream: Stream, first: int) -> list[Node] | None:
    """seam = ("sides" | "edges" | "pieces" …) "with" stitch "in" "each" …: two edges joined stitch by stitch"""
    mark = stream.index
    while stream.peek().kind == "word" or stream.peek().is_word("side", "the", "both", "tog", "row end"):
        stream.take()
    if stream.index > mark and stream.take_word("with", "by"):
        stream.skip_articles()
        stitch = stream.take()
        if (
            stitch.kind == "st"
            and stream.peek().is_word("in")
            and (where := parse_where(stream))
            and where.how == "each"
        ):
            while not stream.done and not stream.peek().is_mark(",", ".", ";", "("):
                stream.take()  # "through both layers"
            return [Work(stream.place(first), str(stitch.value), (1,), where)]
        if stitch.kind == "st" and (stream.done or stream.peek().is_word("form") or stream.peek().is_mark(".", ",")):
            return take_clause(stream, first)  # "join short ends with sl st to form a tube": making up
    stream.index = mark
    return None


def _join_new_yarn(stream: Stream) -> list[Node]:
    """new_yarn = ["with" stitch] ["in"|"to" place]: a stitch other than sl st is the first of the row"""
    first = stream.index
    if stream.take_word("with"):
        stream.skip_articles()
        if stream.peek().kind == "st" and stream.peek().value not in ("sl st", "ch"):
            stitch = str(stream.take().value)
            where = parse_where(stream)
            return [Work(stream.place(first), stitch, (1,), where or Where("next"))]
    if standing := _parse_standing(stream):
        return standing
    if stream.peek().is_word("in", "to", "with", "at") or stream.peek().kind == "st":
        take_clause(stream, first)
    return []


def _parse_standing(stream: Stream) -> list[Node]:
    """standing = "in" place "with" "standing" stitch: the first stitch of the row; [] (nothing taken) otherwise"""
    first = stream.index
    where = parse_where(stream) if stream.peek().is_word("in", "to", "at") else None
    if where is not None and stream.take_word("with"):
        stream.skip_articles()
        text = stream.words(stream.index, stream.index + 1).lower()
        if stream.peek().kind == "st" and text.startswith(("standing", "stacked", "chainless")):
            return [Work(stream.place(first), str(stream.take().value), (1,), where)]
    stream.index = first
    return []


def _parse_colour(stream: Stream) -> list[Node] | None:
    """colour = ("with" | "change to") ["colour"] letter ["in last st" | "at end"] | "with" anything else"""
    if stream.peek(1).kind == "num" and stream.peek(2).kind == "st":
        stream.take()
        return []  # "sc in each dc around with 3 sc in each corner"
    first = stream.index
    word = str(stream.take().value)
    if _picks_up(stream):
        return []
    stream.skip_articles()
    if stream.peek().kind == "word" and stream.peek().value in ("colour", "color", "yarn"):
        stream.take()
    if stream.peek().kind != "colour":
        return take_clause(stream, first)
    letter = _parse_letters(stream)
    late = False
    mark = stream.index
    if word in ("change to", "in") and stream.peek().is_word("in", "at", "on"):
        rest = stream.peek(1)
        ahead = 2 if rest.is_word("the") else 1
        if stream.peek(ahead).is_word("last", "to end", "row end", "row end of") or stream.peek(ahead).value == "end":
            late = True
            while not stream.done and not stream.peek().is_mark(",", ";", ".", "(", "[") and not count_follows(stream):
                stream.take()
        else:
            stream.index = mark
    return [TakeColour(stream.place(first), letter, late)]


def _picks_up(stream: Stream) -> bool:
    """ "Pick up and work 72 sc", "pick up 72 sc": stitches along an edge, and no colour; takes up to the number"""
    if stream.words(stream.index - 1, stream.index).lower() != "pick up":
        return False
    ahead = 1 + stream.peek(1).is_word("working", "work") if stream.peek().is_word("and") else 0
    if stream.peek(ahead).kind == "num" and stream.peek(ahead + 1).kind == "st":
        stream.index += ahead
        return True
    return False


def _parse_letters(stream: Stream) -> str:
    """letters = letter | letter ("and" | "+") letter ["held"] "together": several strands at once are "A+B" """
    letters = [str(stream.take().value)]
    mark = stream.index
    while stream.peek().is_word("and") or stream.peek().value == "+":
        stream.take()
        if stream.peek().kind != "colour":
            break
        letters.append(str(stream.take().value))
    if stream.peek().value == "held":
        stream.take()
    if len(letters) > 1 and stream.take_word("tog"):
        return "+".join(letters)
    stream.index = mark
    return letters[0]


def parse_bare_colour(stream: Stream) -> list[Node] | None:
    """colour = letter ":" | letter "-" n (so many stitches of the colour)"""
    first = stream.index
    letter = str(stream.take().value)
    if stream.take_mark(":"):
        return [TakeColour(stream.place(first), letter)]
    if stream.peek().is_mark("-") and stream.peek(1).kind == "num":
        stream.take()
        count = stream.take().numbers
        span = stream.place(first)
        return [TakeColour(span, letter), Work(span, "st", (1,), Where("next", count, bare=True))]
    return None


def parse_leave(stream: Stream) -> list[Node]:
    """leave = "leave" ["last"|"rem"] [n] ["st"] ["unworked"]; "leaving a 6" tail" leaves yarn"""
    first = stream.index
    if _leaves_yarn(stream):
        return take_clause(stream, first)
    stream.take()
    stream.skip_articles()
    stream.take_word("last", "rem", "next")
    stream.skip_articles()
    count: tuple[int, ...] = ()
    if stream.peek().kind == "num":
        count = stream.take().numbers
    what = ANY_STITCH
    if is_what(stream.peek()):
        named = parse_whats(stream)[0]
        what = named if named.kind == "tch" else what
    if stream.take_word("unworked") and stream.take_word("for"):
        take_clause(stream, first)  # "for instep"
    return [Leave(stream.place(first), count, what)]


def _leaves_yarn(stream: Stream) -> bool:
    """Does the clause tell of an end of yarn, by a word for it or by a length, and of no stitches?"""
    ahead = 1
    while not stream.peek(ahead).is_mark(",", ";", ".", "(", "[") and stream.peek(ahead).kind != "end":
        token = stream.peek(ahead)
        if str(token.value) in YARN_ENDS or token.is_mark('"'):
            return True
        if token.is_word("unworked", "st") or token.kind == "st":
            return False
        ahead += 1
    return False


def parse_not_worked(stream: Stream) -> list[Node] | None:
    """not_worked = "do" "not" "work" ["in"] "tch": the turning chain stays unworked"""
    first = stream.index
    stream.index += 2
    works = stream.take_word("working", "work")
    stream.take_word("in")
    stream.skip_articles()
    if works and stream.peek().is_word("tch"):
        what = parse_whats(stream)[0]
        return [Leave(stream.place(first), (), what)]
    stream.index = first
    return None
