"""What kind of place is named, and how far along the row the words reach."""

from booklet.model.places import CORNER_SPACE
from booklet.model.tree import ANY_STITCH, What, Where
from booklet.rows.stream import Stream
from booklet.rows.tokens import Token

HANDLES = (
    "handle",
    "handles",
    "strap",
    "straps",
    "buttonhole",
    "buttonholes",
)  # chains over skipped stitches of a bag: worked into as a space
GROUPS = ("group", "groups", "grp")  # of stitches made in one place
BLOCKS = ("block", "blocks", "tile", "tiles")  # of diagonal work: entered by the space at their corner


def is_what(token: Token) -> bool:
    """Does the token name a kind of place?"""
    if token.kind == "word" and token.value in (*BLOCKS, *HANDLES):
        return True
    return (
        token.kind in ("st", "chsp", "chn")
        or token.value in ("free", "unused")
        or token.is_word(
            "unworked", "marked", "st", "sp", "tch", "ring", "corner", "join st", "row end", "row end of", "magic ring"
        )
    )


def parse_what(stream: Stream) -> What:
    """what = stitch | "st" | "ch-"k "sp" | "ch-"k | ["corner"] ("sp" | "ch-"k "sp") | "tch" | "ring"

    Anything else, and nothing at all, stands for any stitch.
    """
    stream.skip_articles()
    if _take_left_free(stream):
        return ANY_STITCH
    token = stream.peek()
    if token.is_word("marked", "corner"):
        return _parse_told_apart(stream)
    if token.kind == "chsp":
        stream.take()
        return What("ch-sp", int(token.value) or -1)
    if token.kind == "chn":
        stream.take()
        return What("ch-sp", int(token.value) or -1)
    if token.kind == "st":
        stream.take()
        stream.take_word("st")  # "sc st"
        return What(str(token.value))
    if token.is_word("st"):
        stream.take()
        return ANY_STITCH
    if token.value in HANDLES and stream.peek(1).kind == "chsp":
        stream.take()
        return parse_what(stream)
    if token.is_word("sp") or token.value in (*BLOCKS, *HANDLES):
        stream.take()
        stream.take_word("sp") if token.value in HANDLES else None
        return What("sp")
    if token.is_word("tch"):
        stream.take()
        chains = int(stream.take().value) if stream.peek().kind == "chn" else 0
        return What("tch", chains) if not stream.take_word("sp") else What("ch-sp", chains)
    if token.is_word("ring", "magic ring"):
        stream.take()
        return What("ring")
    if token.value in GROUPS:
        stream.take()
        return What("group")
    if token.is_word("row end"):
        stream.take()
        return What("row end")
    if token.is_word("row end of"):
        return _parse_row_end(stream)
    return ANY_STITCH


def _parse_told_apart(stream: Stream) -> What:
    """told_apart = "marked" what | "corner" ["sp" | "ch-"k "sp" | stitch]"""
    if stream.take_word("marked"):
        if stream.peek().is_word("st") or stream.peek().kind == "st":
            stream.take()
        return What("marked")
    stream.take()
    if stream.peek().kind == "chsp" or stream.peek().is_word("sp"):
        return CORNER_SPACE if (what := parse_what(stream)) == What("sp") else what
    stream.take_word("st")
    if stream.peek().kind == "st" and not stream.peek(1).is_word("in"):
        stream.take()
    return What("corner")


def _take_left_free(stream: Stream) -> bool:
    """ "free loop", "unworked st", "front loop" of a row further down: each of them is a place for a stitch"""
    mark = stream.index
    named = False
    while stream.peek().is_word("unworked", "front", "back") or stream.peek().value in ("free", "unused"):
        named = stream.take() is not None
    if stream.peek().is_word("front loops", "back loops"):
        stream.take()
        stream.take_word("only")
        return True
    if named and stream.peek().is_word("sp", "st"):
        stream.take()
        return True
    stream.index = mark
    return False


def _parse_row_end(stream: Stream) -> What:
    """row_end = "end of" ["each"|"next"] [n] [stitch] "row" """
    stream.take()
    stream.take_word("each", "next", "same")
    stream.skip_articles()
    stitch = str(stream.take().value) if stream.peek().kind == "st" else ""
    stream.take_word("rows", "rounds")
    return What(f"row end {stitch}".strip())


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


# Parts of a garment that a row goes across.
CROSSED = ("left", "right", "first", "second", "back", "front", "sleeve", "yoke", "body", "shoulder", "neck", "rem")
EDGES = ("bottom", "edge", "foundation", "upper", "lower", "top")


def take_center_space(stream: Stream) -> What | None:
    """center_space = "center" ("sp" | "ch-"k "sp"): the space in the middle of a group; None where none is named"""
    if not stream.peek().is_word("center") or not (stream.peek(1).is_word("sp") or stream.peek(1).kind == "chsp"):
        return None
    stream.take()
    what = parse_what(stream)
    return CORNER_SPACE if what == What("sp") else what


def take_spine(stream: Stream) -> What | None:
    """spine = "spine" ["sp" | "ch-"k "sp" | stitch]: the space in the middle of a shawl, or the stitch there"""
    if stream.peek().value != "spine":
        return None
    stream.take()
    if stream.peek().is_word("st") or (stream.peek().kind == "st" and stream.peek().value != "ch"):
        stream.take()
        return What("center")
    if stream.peek().kind == "chsp":
        return parse_what(stream)
    stream.take_word("sp")
    return CORNER_SPACE


def _take_center_goal(stream: Stream) -> Where | None:
    """goal = [n ["st"] "before" ["the"]] ("center" [what] | "marker" | "marked" what), behind "to": up to there"""
    mark = stream.index
    if (spine := take_spine(stream)) is not None:
        return Where("up to", leave=(0,), leave_what=spine)
    if (centre := take_center_space(stream)) is not None:
        return Where("up to", leave=(0,), leave_what=centre)
    before = stream.take().numbers if stream.peek().kind == "num" else (0,)
    if before != (0,):
        parse_what(stream) if is_what(stream.peek()) else None
    if (before == (0,) or stream.peek().value == "before") and stream.index >= mark:
        stream.index += before != (0,)
        stream.skip_articles()
        stream.take_word("next", "first")
        if stream.take_word("marker"):
            return Where("up to", leave=before, leave_what=What("marker"))
        if stream.peek().is_word("marked"):
            return Where("up to", leave=before, leave_what=parse_what(stream))
        if stream.take_word("center"):
            parse_what(stream) if is_what(stream.peek()) and not stream.peek(1).is_word("of") else None
            return Where("up to", leave=before, leave_what=What("center"))
    stream.index = mark
    return None


def _take_edge_crossed(stream: Stream) -> None:
    """crossed = edge words | ["left" | "right"] ("back" | "front" | "sleeve" …) before "to" or the clause's end"""
    while stream.peek().is_word("opposite", "side", "the") or stream.peek().value in EDGES:
        stream.take()
    mark = stream.index
    while str(stream.peek().value) in CROSSED:
        stream.take()
    ends = stream.done or stream.peek().is_word("to", "to within", "to end", "and") or stream.peek().kind == "p"
    if not ends:
        stream.index = mark


def parse_extent(stream: Stream) -> Where | None:
    """extent = "across" | "around" | "to end" | ["across"] "to" ["within"] ["last"|"next"] [n] what

    The answer is a Where of which only how, leave, leave_what are of interest; None where none stands here.
    """
    mark = stream.index
    if stream.peek().value in ("down", "up"):
        ahead = 2 if stream.peek(1).is_word("the") else 1
        if stream.peek(ahead).is_word("opposite", "side"):  # "up the other side"
            stream.index += ahead + 1
            return Where("each")
        if stream.peek(1).is_word("to", "across", "around"):
            stream.take()
    went = stream.take_word("across", "around", "to end")
    if went:
        _take_edge_crossed(stream)
    if went and stream.peek().is_word("of") and is_what(stream.peek(1)):
        stream.take()
        parse_what(stream)
    if stream.peek().is_word("to", "to within") and not (went and stream.peek(1).kind == "colour"):
        at = stream.index
        stream.take()
        stream.skip_articles()
        last = stream.take_word("last", "rem")
        following = stream.take_word("next", "first") if not last else False
        stream.skip_articles()
        if (centre := _take_center_goal(stream)) is not None:
            return centre
        token = stream.peek()
        if token.kind == "num":
            stream.take()
            return Where("each", leave=token.numbers, leave_what=parse_what(stream))
        if last and (is_what(token) or token.value in GROUPS):
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
