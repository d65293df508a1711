"""Words that say how a row is worked, or along which edge, and make no stitch themselves."""

from itertools import pairwise

from booklet.model.tree import Node, OtherSide, RepeatRows, Where, Work
from booklet.rows.places import parse_where
from booklet.rows.stream import Stream
from booklet.rows.targets import parse_extent
from booklet.rows.tokens import Token
from booklet.rows.walking import walk_steps

PLAIN = ("sc", "hdc", "dc", "tr", "dtr")


def tells_the_last(stream: Stream, steps: list[Node]) -> bool:
    """ "working last dc in top of tch", "last st worked into …": where the last stitch falls; it makes no new one.

    A "last dc" in a row that works nothing but hdc is no stitch of it, and is not read over.
    """
    ahead = 0 if stream.peek().is_word("last") else 1
    while stream.peek(ahead).is_word("the", "with", "working"):
        ahead += 1
    named = stream.peek(ahead + 1).kind == "st" or stream.peek(ahead + 1).is_word("st")
    made = {step.stitch for step in walk_steps(steps) if isinstance(step, Work)} - {"sl st"}
    own = not made or not made <= set(PLAIN) or stream.peek(ahead + 1).value not in {*PLAIN} - made
    behind = ahead + 2 + stream.peek(ahead + 2).is_word("working", "place")
    return stream.peek(ahead).is_word("last") and named and own and stream.peek(behind).is_word("in", "around")


def tells_the_way(stream: Stream) -> bool:
    """ "working in front of last dc", "working behind ch-1", "with right side facing": how, not where"""
    ahead = 1 if stream.peek().is_word("working") else 0
    token = stream.peek(ahead)
    if token.is_word("in") and stream.peek(ahead + 1).is_word("front") and stream.peek(ahead + 2).is_word("of"):
        return True
    return token.value in ("behind", "over") and ahead == 1


def parse_as_below(stream: Stream) -> list[Node] | None:
    """as_below = "work" ["in" stitch] ("to end" | "across" ["in" stitch | n "sts"] | "to last" n what)

    One stitch in each, as the row below where no stitch is named. "Work across 6 sc" says no more than "work 6 sc": its
    first two words are passed over.
    """
    first = stream.index
    said = stream.words(first, first + 1).lower()
    if said not in ("work", "work in"):
        return None
    stream.take()
    if said == "work in" and stream.peek().is_word("each"):
        where = parse_where(stream)
        return [Work(stream.place(first), "st", (1,), where)] if where else None
    stitch = str(stream.take().value) if said == "work in" and stream.peek().kind == "st" else ""
    if not stitch and stream.peek().is_word("across") and stream.peek(1).kind == "num":
        stream.take()
        if stream.peek(1).kind == "st":
            return []
        count = stream.take().numbers
        if stream.take_word("st"):
            return [Work(stream.place(first), "st", (1,), Where("next", count, bare=True))]
    extent = parse_extent(stream) if stream.peek().is_word("to end", "across", "to", "to within") else None
    if extent and stream.peek().is_word("in") and stream.peek(1).kind == "st" and not stitch:
        stitch = str(stream.peek(1).value)
        stream.index += 2
    ends = stream.done or stream.peek().is_mark(",", ".", ";", "(", "[") or stream.peek().is_word("turn", "and", "join")
    if extent is None or not ends or (extent.how == "up to" and not extent.leave) or (said == "work in" and not stitch):
        stream.index = first
        return None
    return [Work(stream.place(first), stitch or "st", (1,), extent)]


def names_other_side(stream: Stream) -> bool:
    ahead = 1
    while stream.peek(ahead).is_word(
        "the", "in", "around", "across", "working", "on", "sp", "rem", "opposite", "each"
    ) or stream.peek(ahead).value in ("free", "down", "up"):
        if stream.peek(ahead).is_word("opposite") or stream.peek(ahead).value == "free":
            return True
        ahead += 1
    return False


def names_some_chains(stream: Stream) -> bool:
    """ "in other side of each of 3 ch": a number of chains, and not all of that side"""
    ahead = 0
    while stream.peek(ahead).is_word("in", "the", "opposite", "of", "each", "next"):
        ahead += 1
    return ahead > 1 and stream.peek(ahead).kind == "num" and stream.peek(ahead + 1).value == "ch"


def parse_other_side(stream: Stream) -> list[Node]:
    """other_side = ["working"] ["in"|"along"|"on"] ("opposite side" | "free loops") ["of"] ["foundation"] ["ch"]"""
    first = stream.index
    while not stream.done and not stream.peek().is_mark(",", ";", ".", "(", "[", ":"):
        stream.take()
    return [OtherSide(stream.place(first))]


def tells_growth(stream: Stream, steps: list[Node]) -> bool:
    """ "Rep Row 3, having 8 more dc in each row": what the rows that are repeated do by themselves"""
    if not steps or not isinstance(steps[-1], RepeatRows):
        return False
    clause: list[Token] = []
    while stream.index + len(clause) < stream.stop and not stream.peek(len(clause)).is_mark(",", ";", ".", "(", "["):
        clause.append(stream.peek(len(clause)))
    grows = any(t.is_word("more") or t.value in ("fewer", "less") for t in clause)
    each_row = [t.is_word("each") and after.is_word("rows", "rounds") for t, after in pairwise(clause)]
    return grows and any(each_row) and not any(t.value in ("inc", "dec") for t in clause)


def names_made(stream: Stream, steps: list[Node]) -> bool:
    """ "5 dc in next ch - shell made": the name of what was just told"""
    named = stream.peek().kind == "st" and stream.peek(1).is_word("working") and bool(steps)
    return named and stream.words(stream.index + 1, stream.index + 2).lower() == "made"


def says_there_should_be(stream: Stream) -> bool:
    """ "There should be 12 sc", "Total 12": words before a count"""
    if stream.peek().is_word("total") and stream.peek(1).kind == "num":
        stream.index -= 2
        return True
    return stream.peek().value == "there" and stream.peek(1).value == "should" and stream.peek(2).value == "be"
