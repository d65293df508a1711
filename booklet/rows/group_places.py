"""Places in and between groups of stitches that were made in one place, and the middle of a row."""

from booklet.model.tree import What, Where
from booklet.rows.stream import Stream
from booklet.rows.targets import is_what, parse_extent, parse_what, take_center_space


def parse_center(stream: Stream) -> Where:
    """center = "center" ("of" ["next"|"first"] sp | group)"""
    mark = stream.index
    space = take_center_space(stream)
    if space is not None and not stream.peek().is_word("of"):
        return Where("next", what=(space,))
    stream.index = mark + 1
    mark = stream.index
    if stream.take_word("of"):
        stream.take_word("next", "first")
        stream.skip_articles()
        if stream.peek().kind == "ord" and stream.peek().value == 1:
            stream.take()  # "center of 1st loop"
        if stream.peek().is_word("sp") or stream.peek().kind in ("chsp", "chn"):
            return Where("next", what=(parse_what(stream),))
        stream.index = mark
    group = parse_in_group(stream, 0)
    named = any(token.is_word("of") for token in stream.tokens[mark : stream.index])
    return group if named else Where("center", what=group.what)


def parse_between(stream: Stream) -> Where:
    """between = "between" ("last" what "and" "next" what | ["next" | "each"] [n] whats | "groups")"""
    every = stream.index > 1 and stream.tokens[stream.index - 2].is_word("each")  # "in each sp between dc"
    following = stream.index > 1 and stream.tokens[stream.index - 2].is_word("next")  # "in next sp between dc"
    stream.take()
    stream.skip_articles()
    following = following and not stream.peek().is_word("next", "first", "each")
    if stream.take_word("last"):
        while is_what(stream.peek()) or stream.peek().is_word("and", "next"):
            stream.take()
        return Where("gap", (0,))
    every = stream.take_word("each") or every
    stream.take_word("next", "first")
    count = stream.take().numbers if stream.peek().kind == "num" else (2,)
    groups = stream.peek().value in ("group", "groups", "shell", "cl", "v-st") or (
        stream.peek().is_mark("-") and stream.take_mark("-")
    )
    while is_what(stream.peek()) or stream.peek().value in ("group", "groups"):
        groups = groups or stream.peek().value in ("group", "groups")
        stream.take()
    leave = (1,) if every else (0,)
    if every:
        parse_extent(stream)
    if groups:
        return Where("gap", (1,), (What("group"),), leave)
    if following and count == (2,):
        return Where("gap", (1,), (What("sp"),))
    return Where("gap", (max(1, count[0] - 1),), leave=leave)


def parse_in_group(stream: Stream, nth: int) -> Where:
    """group = what ["of" ["next"|"each"] group] extent, behind "center" or an ordinal; nth 0 is the middle one"""
    what = parse_what(stream)
    if stream.take_word("of"):
        each = stream.take_word("each")
        stream.take_word("next", "first", "same", "last")
        stream.skip_articles()
        if stream.peek().kind == "num":
            stream.take()
            stream.take_mark("-")
        if is_what(stream.peek()):
            parse_what(stream)
        while stream.peek().value in ("group", "groups", "corner", "grp", "shell", "petal", "fan", "scallop"):
            stream.take()
        extent = parse_extent(stream)
        if each or extent:
            return Where("group", what=(what,), nth=nth, leave=(1,))
    return Where("group", what=(what,), nth=nth)
