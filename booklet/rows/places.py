"""Where the hook goes: the words after "in", "around", "over" and their like, and how far they reach."""

from collections.abc import Callable
from dataclasses import replace

from booklet.model.tree import ANY_STITCH, What, Where
from booklet.rows.far_places import parse_cord, parse_other_piece, parse_reach, parse_whole_piece
from booklet.rows.group_places import parse_between, parse_center, parse_in_group
from booklet.rows.place_words import (
    OWNERS,
    parse_under,
    passes_rounds,
    skip_base,
    take_below,
    take_chain_space,
    take_made,
    take_owner,
    take_tail,
)
from booklet.rows.skipped_places import parse_skipped, take_just_skipped
from booklet.rows.stream import Stream
from booklet.rows.targets import is_what, parse_extent, parse_what, parse_whats, take_spine
from booklet.rows.tops import parse_chain_top, parse_top_of, parse_top_of_made, parse_turning_chain

PREPOSITIONS = ("in", "around", "over", "to")
LOOPS = {"back loops": "back", "front loops": "front", "third loops": "third", "back bumps": "bumps"}


def parse_where(stream: Stream) -> Where | None:
    """where = ["in"|"around"|"over"] [loops ["of"]] place; None (nothing taken) where no place is named."""
    mark = stream.index
    around = stream.peek().is_word("around")
    if stream.peek().is_word("across") and stream.peek(1).is_word("first", "next", "last"):
        stream.take()
    if passes_rounds(stream):
        return None
    if stream.peek().is_word("across", "to end") or (around and not _names_place(stream, 1)):
        return parse_extent(stream)
    if stream.peek().is_word("total") and (places := _parse_all(stream)):
        return places
    if cord := parse_cord(stream):
        return cord
    stream.take_word(*PREPOSITIONS, "at")
    if stream.peek().is_word("back") and stream.peek(1).is_word("in"):
        stream.index += 2  # "dc back in skipped st"
    if stream.peek().value == "back" and stream.peek(1).is_word("of"):
        stream.index += 2  # "in back of next sc of Rnd 2"
    under = stream.index > mark and stream.words(mark, stream.index).lower().startswith("under")
    stream.skip_articles()
    if stream.peek().is_word("sp") and stream.peek(1).is_word("between"):
        stream.take()
    loops = _parse_loops_named(stream)
    stream.skip_articles()
    if stream.take_word("post"):
        stream.take_word("of")
        stream.skip_articles()
    place = (parse_under(stream) if under else None) or _parse_place(stream)
    if place is None:
        if loops:
            return replace(parse_extent(stream) or Where("next", bare=True), loops=loops)
        stream.index = mark
        return None
    return replace(place, loops=loops) if loops else place


def _parse_loops_named(stream: Stream) -> str:
    """loops = ("back loops" | "front loops" | "3rd" "loop") ["only"] ["of"] | "both loops of" """
    if stream.take_word("both"):
        stream.take_word("sp")
        return "both" if stream.take_word("of") else ""
    if stream.peek().kind == "ord" and stream.peek().value == 3 and stream.peek(1).is_word("sp"):
        stream.index += 2
        loops = "third"
    elif stream.peek().kind == "w" and stream.peek().value in LOOPS:
        loops = LOOPS[str(stream.take().value)]
    else:
        return ""
    stream.take_word("only")
    if stream.peek().is_mark("(", "[") and stream.peek(1).value in LOOPS and stream.peek(2).is_mark(")", "]"):
        stream.index += 3  # "back loop only (blo)"
    stream.take_word("of", "in")
    return loops


def _names_place(stream: Stream, ahead: int) -> bool:
    token = stream.peek(ahead)
    while token.is_word("the"):
        ahead += 1
        token = stream.peek(ahead)
    return (
        is_what(token)
        or token.is_word("next", "each", "first", "last", "same", "post", "sk")
        or token.kind in ("num", "ord")
    )


def _parse_place(stream: Stream) -> Where | None:
    """place = each | same | top | counted | ordinal | ring | skipped | group | bare"""
    token = stream.peek()
    word = str(token.value) if token.kind == "w" else ""
    if token.value == "base":
        stream.index -= 1
        skip_base(stream)
        return Where("same")
    closing = token.value == "closing" and (stream.peek(1).value == "ch" or stream.peek(1).is_word("st"))
    if token.value in ("eye", "eyes") or closing:  # "in eye of next star": the stitch that the eye belongs to
        stream.index += 2 if closing else 1
        stream.take_word("of")
        stream.skip_articles()
        return _parse_place(stream) or Where("next")
    if word == "opposite" and (chains := _parse_opposite(stream)):
        return chains
    if skipped := parse_skipped(stream):
        return skipped
    if token.value in ("corresponding", "matching"):
        stream.take()
        whats = parse_whats(stream)
        return parse_other_piece(stream, whats) or Where("elsewhere", what=whats)
    if word in COUNTED:
        stream.take()
        return _parse_counted(stream, COUNTED[word])
    if word in SINGLE:
        stream.take()
        return SINGLE[word]
    if (spine := take_spine(stream)) is not None:
        return Where("center") if spine == What("center") else Where("next", what=(spine,))
    if word == "beg" and (begun := _parse_begun(stream)):
        return begun
    if word in PLACES:
        return PLACES[word](stream)
    if token.kind == "ord":
        return _parse_ordinal(stream)
    if token.kind == "num":
        ends = stream.peek(1).kind == "end" or stream.peek(1).is_mark(",", ".", ";", ")", "]")  # "sc in 3, …"
        follows = is_what(stream.peek(1)) or token.value == "list" or stream.peek(1).is_word("next") or ends
        return _parse_counted(stream, "next") if follows else None
    return _parse_bare(stream) if is_what(token) else None


def _parse_begun(stream: Stream) -> Where | None:
    """begun = "beg" (stitch | "sp" | "corner"): the first stitch of the round, or the space that it began in"""
    following = stream.peek(1)
    if following.kind == "st" and following.value != "ch":
        stream.take()
        return _parse_counted(stream, "first")
    if following.is_word("corner", "sp") or following.kind == "chsp":
        stream.take()
        return Where("begun", what=(parse_what(stream),))
    return None


def _parse_all(stream: Stream) -> Where | None:
    """all = "in all" [n] whats: every stitch, of which there are n"""
    at = 2 if stream.peek(1).kind == "num" else 1
    if stream.words(stream.index, stream.index + 1).lower() != "in all" or not is_what(stream.peek(at)):
        return None
    stream.take()
    if at == 2:
        return _parse_counted(stream, "next")
    return Where("each", what=parse_whats(stream, each=True))


def _parse_opposite(stream: Stream) -> Where | None:
    """opposite = "opposite side" "of" ["each of"] ["next"] n "ch": chains between two pieces, from their other side"""
    mark = stream.index
    stream.take()
    stream.take_word("of")
    stream.skip_articles()
    if stream.take_word("each"):
        stream.take_word("of")
        stream.skip_articles()
    stream.take_word("next")
    if stream.peek().kind == "num" and stream.peek(1).value == "ch":
        return _parse_counted(stream, "next")
    stream.index = mark
    return None


def _parse_bare(stream: Stream) -> Where:
    """bare = whats ["at base of" chain | extent]; "end of each row" is every row end"""
    every = stream.peek().is_word("row end of") and "each" in stream.words(stream.index, stream.index + 2)
    whats = parse_whats(stream)
    if take_just_skipped(stream):
        return Where("skipped", what=whats)
    if elsewhere := parse_other_piece(stream, whats) or take_made(stream, whats):
        return elsewhere
    if stream.peek().is_word("at") and stream.peek(1).is_word("corner"):
        stream.index += 2  # "in the foundation ch at the point"
        return Where("next", what=(What("corner"),))
    if every:
        extent = parse_extent(stream)
        return replace(extent if extent and extent.how == "each" else Where("each"), what=whats)
    if stream.peek().is_word("at") and stream.peek(1).value == "base":
        skip_base(stream)
        return Where("same", what=whats)
    if stream.peek().is_word("of") and stream.peek(1).is_word("each", "next") and is_what(stream.peek(2)):
        each = stream.peek(1).is_word("each")
        stream.index += 3
        parse_extent(stream)
        return Where("each" if each else "next", what=whats)
    whats = take_chain_space(stream, whats)
    below = take_below(stream)
    take_owner(stream)
    extent = parse_extent(stream)
    return replace(extent, what=whats) if extent else Where("next", what=whats, below=below)


def _parse_counted(stream: Stream, how: str) -> Where:
    """counted = [n] what [extent], after "next", "first" or "last" """
    count: tuple[int, ...] = (1,)
    stream.skip_articles()
    if how == "next" and stream.peek().is_word("sp") and stream.peek(1).is_word("between"):
        stream.take()
        return parse_between(stream)
    if stream.peek().kind == "num":
        count = stream.take().numbers
    stream.skip_articles()
    if how == "first" and stream.peek().kind == "st" and stream.peek().value == "ch" and stream.peek(1).is_word("from"):
        pass
    if stream.peek().kind == "chsp" or is_what(stream.peek()):
        whats = parse_whats(stream)
    else:
        whats = (ANY_STITCH,)
    if take_just_skipped(stream):
        return Where("skipped", count, whats)
    below = take_below(stream)
    if elsewhere := parse_other_piece(stream, whats):
        return replace(elsewhere, count=count)
    if how == "last" and count == (1,) and (made := take_made(stream, whats)):
        return made
    if whats == (What("ch"),) and count == (1,) and (top := parse_top_of(stream, how)):
        return top
    take_owner(stream)
    take_tail(stream)
    return Where(how, count, whats, below=below)


def _parse_each(stream: Stream) -> Where:
    """each = "each" ["of" ["next"|"first"|"last"] n] whats [extent]"""
    stream.take()
    stream.take_word("of")
    stream.skip_articles()
    how = "next"
    if stream.peek().is_word("sp") and stream.peek(1).is_word("between"):
        stream.take()
        return parse_between(stream)
    if skipped := parse_skipped(stream, each=True):
        return skipped
    if stream.peek().is_word("next", "first", "last", "rem"):
        word = str(stream.take().value)
        how = word if word in ("first", "last") else "next"
        if word == "rem" and stream.peek().kind != "num":
            whats = parse_whats(stream, each=True)
            return replace(parse_extent(stream) or Where("each"), what=whats)
    if stream.peek().kind == "num":
        count = stream.take().numbers
        whats = parse_whats(stream) if is_what(stream.peek()) else (ANY_STITCH,)
        if take_just_skipped(stream):
            return Where("skipped", count, whats)
        if elsewhere := parse_other_piece(stream, whats):
            return replace(elsewhere, count=count)
        parse_extent(stream) if stream.peek().is_word("around", "across") else None
        return Where(how, count, whats, below=take_below(stream))
    stream.take_word("rem")
    if stream.peek().is_word("unworked"):
        parse_what(stream)
        return replace(parse_extent(stream) or Where("each"), how="unworked")
    whats = parse_whats(stream, each=True)
    if whole := parse_whole_piece(stream, whats):
        return whole
    extent = parse_extent(stream)
    return parse_reach(stream, replace(extent or Where("each"), what=whats))


def _parse_same(stream: Stream) -> Where:
    """same = "same" [what|"place"] ["as" …]; "same st as join" is the place of the join"""
    stream.take()
    what = parse_what(stream) if is_what(stream.peek()) else ANY_STITCH
    stream.take_word("place")
    at_join = False
    if stream.peek().is_word("as") and stream.peek(1).is_word("first", "beg"):
        while not stream.done and not stream.peek().is_mark(",", ";", ".", "(", ")"):
            stream.take()
        return Where("begun", what=(what,))
    if stream.take_word("as"):
        travelled = stream.peek().is_word("last")
        while not stream.done and stream.peek().kind in ("w", "st", "chn") and not stream.peek().is_word("and", "rep"):
            named = stream.peek().is_word("join", "join st") or stream.peek().value == "sl st"
            at_join = at_join or (named and not travelled)
            stream.take()
    return Where("join" if at_join else "same", what=(what,))


def _parse_top_of_next(stream: Stream) -> Where | None:
    """top_of_next = ["next" | "each" | "same"] stitch, behind "top of": the stitch, which has no other place

    Without a word before it, of a cluster or another compound stitch alone, and not where a round is joined.
    """
    if stream.peek().is_word("next", "each", "same") and stream.peek(1).kind == "st" and stream.peek(1).value != "ch":
        return _parse_counted(stream, "next") if stream.take_word("next") else PLACES[str(stream.peek().value)](stream)
    joins = any(t.is_word("join") or t.value == "sl st" for t in stream.tokens[max(0, stream.index - 5) : stream.index])
    compound = str(stream.peek().value).endswith("tog") or stream.peek().value in (*OWNERS, "bobble", "puff", "pc")
    if stream.peek().kind != "st" or joins or not compound:
        return None
    return Where("next", what=(parse_what(stream),))


def _parse_top(stream: Stream) -> Where:
    """top = "top" ["st"] "of" (["beg"] "ch-"k | "tch" | "first"|"last" what)"""
    stream.take()
    if stream.peek().is_word("st") or (stream.peek().value == "ch" and stream.peek(1).is_word("of")):
        stream.take()
    stream.take_word("of")
    stream.skip_articles()
    if place := parse_top_of_made(stream) or _parse_top_of_next(stream):
        return place
    return parse_chain_top(stream)


def _parse_ordinal(stream: Stream) -> Where:
    """ordinal = n-th ("ch" "from hook" | "ch" ["of" (["beg"] "ch-"k | "tch")] | what)"""
    nth = int(stream.take().value)
    if nth == 1 and stream.peek().kind == "num" and is_what(stream.peek(1)):
        return _parse_counted(stream, "first")  # "1st 2 sts"
    if stream.peek().is_word("of") and stream.peek(1).kind == "num" and stream.peek(2).value == "ch":
        chains = stream.peek(1).numbers[0]
        stream.index += 3
        return Where("top", what=(What("tch", chains),), nth=nth)
    before = stream.index
    further = _take_further(stream, nth)
    what = parse_what(stream)
    if stream.take_word("from"):
        stream.take_word("the")
        stream.take_word("hook")
        return Where("nth", (1 + further,), (what,), nth=nth, from_hook=True)
    stream.index = before
    what = parse_what(stream)
    mark = stream.index
    if stream.take_word("of"):
        stream.skip_articles()
        stream.take_word("beg", "first")
        if stream.peek().is_word("tch") or stream.peek().kind == "chn":
            chains = parse_what(stream).chains
            return Where("top", what=(What("tch", chains),), nth=nth)
        stream.index = mark
        if what.kind not in ("ch", "st"):
            stream.index = before
            return parse_in_group(stream, nth)
    return Where("nth", what=(what,), nth=nth) if nth > 1 else Where("first", what=(what,))


def _take_further(stream: Stream, nth: int) -> int:
    """further = (("," | "and") n-th)*: how many chains more, side by side, in "2nd and 3rd ch from hook" """
    number = 0
    while stream.peek().is_word("and") or stream.peek().is_mark(","):
        ahead = 2 if stream.peek(1).is_word("and") else 1
        if stream.peek(ahead).kind != "ord" or stream.peek(ahead).value != nth + number + 1:
            break
        stream.index += ahead + 1
        number += 1
    return number


COUNTED = {"next": "next", "first": "first", "last": "last", "rem": "last"}
SINGLE = {
    "ring": Where("ring", what=(What("ring"),)),
    "magic ring": Where("ring", what=(What("ring"),)),
    "join st": Where("join"),
    "place": Where("same"),
}
PLACES: dict[str, Callable[[Stream], Where]] = {
    "each": _parse_each,
    "same": _parse_same,
    "top": _parse_top,
    "tch": parse_turning_chain,
    "center": parse_center,
    "between": parse_between,
}
