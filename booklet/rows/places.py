"""Where the hook goes: the words after "in", "around", "over" and their like, and how far they reach."""

from dataclasses import replace

from booklet.model.tree import ANY_STITCH, What, Where
from booklet.rows.stream import Stream
from booklet.rows.tokens import Token

PREPOSITIONS = ("in", "around", "over", "to")
LOOPS = {"back loops": "back", "front loops": "front", "third loops": "third", "back bumps": "bumps"}


def is_what(token: Token) -> bool:
    """Does the token name a kind of place?"""
    return token.kind in ("st", "chsp", "chn") or token.is_word(
        "st", "sp", "tch", "ring", "corner", "join st", "row end", "magic ring"
    )


def parse_what(stream: Stream) -> What:
    """what = stitch | "st" | "ch-"k "sp" | "ch-"k | ["corner"] ("sp" | "ch-"k "sp") | "tch" | "ring"

    Anything else, and nothing at all, stands for any stitch.
    """
    stream.skip_articles()
    token = stream.peek()
    if token.is_word("corner"):
        stream.take()
        following = stream.peek()
        if following.kind == "chsp" or following.is_word("sp"):
            return parse_what(stream)
        return What("sp") if not following.is_word("st") else parse_what(stream)
    if token.kind == "chsp":
        stream.take()
        return What("ch-sp", int(token.value))
    if token.kind == "chn":
        stream.take()
        return What("ch-sp", int(token.value))
    if token.kind == "st":
        stream.take()
        stream.take_word("st")  # "sc st"
        return What(str(token.value))
    if token.is_word("st"):
        stream.take()
        return ANY_STITCH
    if token.is_word("sp"):
        stream.take()
        return What("sp")
    if token.is_word("tch"):
        stream.take()
        chains = int(stream.take().value) if stream.peek().kind == "chn" else 0
        return What("tch", chains) if not stream.take_word("sp") else What("ch-sp", chains)
    if token.is_word("ring", "magic ring"):
        stream.take()
        return What("ring")
    if token.is_word("row end"):
        stream.take()
        return What("row end")
    return ANY_STITCH


def parse_whats(stream: Stream, each: bool = False) -> tuple[What, ...]:
    """whats = what ("and" what)*; after "each" also "and" ["in"] "each" what: "each sc and each ch-1 sp" """
    found = [parse_what(stream)]
    while True:
        mark = stream.index
        if not (stream.take_word("and") or stream.take_mark("/")):
            break
        if each:
            stream.take_word("in")
            stream.take_word("each", "next")
        token = stream.peek()
        names_place = token.kind in ("chsp", "chn") or token.is_word("sp") or token.kind == "st"
        following = stream.peek(1)
        works_on = following.kind == "num" or following.is_word("in", "each", "next")
        works_on = works_on or (following.is_word("around", "over") and stream.peek(2).is_word("next", "each", "same"))
        if not names_place or works_on or (token.kind == "st" and not each and token.value != "ch"):
            stream.index = mark
            break
        found.append(parse_what(stream))
    return tuple(found)


def parse_extent(stream: Stream) -> Where | None:
    """extent = "across" | "around" | "to end" | ["across"] "to" ["within"] ["last"|"next"] [n] what

    The answer is a Where of which only how, leave, leave_what are of interest; None where none stands here.
    """
    mark = stream.index
    went = stream.take_word("across", "around", "to end")
    if stream.peek().is_word("to", "to within") and not (went and stream.peek(1).kind == "colour"):
        at = stream.index
        stream.take()
        stream.skip_articles()
        last = stream.take_word("last", "rem")
        following = stream.take_word("next", "first") if not last else False
        stream.skip_articles()
        token = stream.peek()
        if token.kind == "num":
            stream.take()
            return Where("each", leave=token.numbers, leave_what=parse_what(stream))
        if last and is_what(token):
            return Where("each", leave=(1,), leave_what=parse_what(stream))
        if not last and is_what(token) and not token.is_word("st"):
            what = parse_what(stream)
            return Where("up to", leave=(0,), leave_what=what)
        if last or following:
            stream.index = at
            if went:
                return Where("each")
            stream.index = mark
            return None
        stream.index = at
    if went:
        stream.take_word("to end")
        return Where("each")
    stream.index = mark
    return None


def parse_where(stream: Stream) -> Where | None:
    """where = ["in"|"around"|"over"] [loops ["of"]] place; None (nothing taken) where no place is named."""
    mark = stream.index
    around = stream.peek().is_word("around")
    if stream.peek().is_word("across", "to end") or (around and not _names_place(stream, 1)):
        return parse_extent(stream)
    stream.take_word(*PREPOSITIONS, "at")
    stream.skip_articles()
    loops = ""
    if stream.take_word("both"):
        stream.take_word("sp")
        stream.take_word("of")
    if stream.peek().kind == "w" and stream.peek().value in LOOPS:
        loops = LOOPS[str(stream.take().value)]
        stream.take_word("only")
        stream.take_word("of", "in")
    stream.skip_articles()
    if stream.take_word("post"):
        stream.take_word("of")
        stream.skip_articles()
    place = _parse_place(stream)
    if place is None:
        if loops:
            return Where("next", loops=loops, bare=True)
        stream.index = mark
        return None
    return replace(place, loops=loops) if loops else place


def _names_place(stream: Stream, ahead: int) -> bool:
    token = stream.peek(ahead)
    while token.is_word("the"):
        ahead += 1
        token = stream.peek(ahead)
    return (
        is_what(token) or token.is_word("next", "each", "first", "last", "same", "post") or token.kind in ("num", "ord")
    )


def _parse_place(stream: Stream) -> Where | None:
    token = stream.peek()
    if token.is_word("each"):
        return _parse_each(stream)
    if token.is_word("same"):
        return _parse_same(stream)
    if token.is_word("top"):
        return _parse_top(stream)
    if token.is_word("next", "first", "last", "rem"):
        stream.take()
        how = {"next": "next", "first": "first"}.get(str(token.value), "last")
        return _parse_counted(stream, how)
    if token.kind == "ord":
        return _parse_ordinal(stream)
    if token.is_word("ring", "magic ring"):
        stream.take()
        return Where("ring", what=(What("ring"),))
    if token.is_word("join st"):
        stream.take()
        return Where("join")
    if token.kind == "num" and (
        is_what(stream.peek(1)) or stream.peek().value == "list" or stream.peek(1).is_word("next")
    ):
        return _parse_counted(stream, "next")
    if token.is_word("tch"):
        chains = parse_what(stream)
        return (
            Where("top", what=(What("tch", chains.chains),)) if chains.kind == "tch" else Where("next", what=(chains,))
        )
    if is_what(token):
        whats = parse_whats(stream)
        extent = parse_extent(stream)
        if extent:
            return replace(extent, what=whats)
        return Where("next", what=whats)
    return None


def _parse_counted(stream: Stream, how: str) -> Where:
    """counted = [n] what [extent], after "next", "first" or "last" """
    count: tuple[int, ...] = (1,)
    stream.skip_articles()
    if stream.peek().kind == "num":
        count = stream.take().numbers
    stream.skip_articles()
    if how == "first" and stream.peek().kind == "st" and stream.peek().value == "ch" and stream.peek(1).is_word("from"):
        pass
    if stream.peek().kind == "chsp" or is_what(stream.peek()):
        whats = parse_whats(stream)
    else:
        whats = (ANY_STITCH,)
    _take_tail(stream)
    return Where(how, count, whats)


def _take_tail(stream: Stream) -> None:
    """Words after a place that tell nothing new: "of row", "of rnd", "made", "below"."""
    mark = stream.index
    if stream.take_word("of"):
        stream.skip_articles()
        stream.take_word("same", "last")
        if not stream.take_word("rows", "rounds"):
            stream.index = mark


def _parse_each(stream: Stream) -> Where:
    """each = "each" ["of" ["next"|"first"|"last"] n] whats [extent]"""
    stream.take()
    stream.take_word("of")
    stream.skip_articles()
    how = "next"
    if stream.peek().is_word("next", "first", "last", "rem"):
        word = str(stream.take().value)
        how = word if word in ("first", "last") else "next"
        if word == "rem" and stream.peek().kind != "num":
            whats = parse_whats(stream, each=True)
            return replace(parse_extent(stream) or Where("each"), what=whats)
    if stream.peek().kind == "num":
        count = stream.take().numbers
        whats = parse_whats(stream) if is_what(stream.peek()) else (ANY_STITCH,)
        parse_extent(stream) if stream.peek().is_word("around", "across") else None
        return Where(how, count, whats)
    stream.take_word("rem")
    whats = parse_whats(stream, each=True)
    extent = parse_extent(stream)
    return replace(extent or Where("each"), what=whats)


def _parse_same(stream: Stream) -> Where:
    """same = "same" [what|"place"] ["as" …]; "same st as join" is the place of the join"""
    stream.take()
    what = parse_what(stream) if is_what(stream.peek()) else ANY_STITCH
    stream.take_word("place")
    at_join = False
    if stream.take_word("as"):
        while not stream.done and stream.peek().kind in ("w", "st", "chn") and not stream.peek().is_word("and", "rep"):
            at_join = at_join or stream.peek().is_word("join", "join st") or stream.peek().value == "sl st"
            stream.take()
    return Where("join" if at_join else "same", what=(what,))


def _parse_top(stream: Stream) -> Where:
    """top = "top" "of" (["beg"] "ch-"k | "tch" | "first"|"last" what)"""
    stream.take()
    stream.take_word("of")
    stream.skip_articles()
    stream.take_word("beg", "first")
    token = stream.peek()
    chains = 0
    if token.is_word("tch"):
        chains = parse_what(stream).chains
    elif token.kind == "chn":
        chains = int(stream.take().value)
    elif token.kind == "st":
        stream.take()
        if stream.peek().kind == "num":
            chains = stream.take().numbers[0]
    return Where("top", what=(What("tch", chains),))


def _parse_ordinal(stream: Stream) -> Where:
    """ordinal = n-th ("ch" "from hook" | "ch" ["of" (["beg"] "ch-"k | "tch")] | what)"""
    nth = int(stream.take().value)
    what = parse_what(stream)
    if stream.take_word("from"):
        stream.take_word("the")
        stream.take_word("hook")
        return Where("nth", what=(what,), nth=nth, from_hook=True)
    mark = stream.index
    if stream.take_word("of"):
        stream.skip_articles()
        stream.take_word("beg", "first")
        if stream.peek().is_word("tch") or stream.peek().kind == "chn":
            chains = parse_what(stream).chains
            return Where("top", what=(What("tch", chains),), nth=nth)
        stream.index = mark
    return Where("nth", what=(what,), nth=nth)
