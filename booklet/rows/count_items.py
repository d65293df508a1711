"""The items of a count: so many of this, so many of that."""

from booklet.model.tree import ANY_STITCH, PerSize, What
from booklet.rows.stream import Stream
from booklet.rows.targets import is_what, parse_what

IGNORED = ("total", "rem", "and", "more", "st", "around", "across", "the", "here", "at", "row end", "row end of")
KIND_WORDS = frozenset(["arch", "arches", "made", "now", "each", "per", "size", "sizes", "incl", "including"])

# What a maker counts by and that is no stitch: each noun as it is told in one form, and its other forms.
_NOUNS = {
    "group": "groups grp grps",
    "block": "blocks bl bls",
    "square": "squares sq sqs mesh meshes",
    "petal": "petals",
    "scallop": "scallops",
    "point": "points",
    "wave": "waves",
    "motif": "motifs",
    "panel": "panels",
    "tile": "tiles",
    "spoke": "spokes",
    "ridge": "ridges",
    "spine": "spines",
    "bump": "bumps",
    "opening": "openings buttonhole buttonholes handle handles armhole armholes",
    "gap": "gaps hole holes eyelet eyelets",
    "repeat": "rep reps repeats",
}
COUNT_NOUNS = tuple(_NOUNS)
GROUP_NOUNS = {form: noun for noun, others in _NOUNS.items() for form in (noun, *others.split())}
ARCHES = ("arch", "arches")


def parse_count_items(stream: Stream, bare: bool = False) -> list[tuple[PerSize, What]] | None:
    """items = n [what] ((","|"and"|"+") n [what])* [words that add nothing]; None where other words stand between.

    Of "24 + 24 = 48 sts" the sum is the count. In a `bare` count, which no bracket holds, "8 sc, ch-4" is one as well.
    """
    items: list[tuple[PerSize, What]] = []
    adds = False
    while not stream.done:
        token = stream.peek()
        if token.kind == "num":
            if item := _read_item(stream):
                items.append(item)
        elif token.is_mark("=") and adds and all(what == ANY_STITCH for _, what in items):
            items.clear()
            stream.take()
        elif token.is_mark(",", ";", ".", "=", ":", "-") or token.kind == "star":
            adds = adds or token.value == "+"
            stream.take()
        elif token.kind == "chsp" and stream.peek(-1).kind != "num" and (items or _tells_number(stream)):
            items.append(_read_space(stream))
        elif token.kind == "chn" and bare and items and stream.index == stream.stop - 1:
            items.append(((1,), What("ch-sp", int(stream.take().value))))
        elif token.kind in ("st", "chn") and items and stream.peek(-1).kind != "num":
            return None
        elif token.kind == "chsp" and not items:
            return None
        elif token.is_word("row end", "row end of", "rows", "rounds"):
            stream.take()
            if stream.peek().kind == "num" and items:
                stream.take()  # "at end of Row 8"
        elif (
            token.is_word(*IGNORED)
            or token.is_word("working")
            or (items and token.is_word("corner"))
            or (token.kind == "word" and token.value in KIND_WORDS)
        ):
            stream.take()
        else:
            return None
    return items or None


def _read_item(stream: Stream) -> tuple[PerSize, What] | None:
    """item = n [["half"] noun | n "-" stitch "groups" | what]; None for "10 rows total", which the label tells"""
    token = stream.take()
    named = stream.peek(1).kind in ("num", "chsp", "chn", "st") or stream.peek(1).value in GROUP_NOUNS
    if stream.peek().is_word("times") and named:
        stream.take()  # "7 x 2-dc groups", "6 x 3-ch sps"
    if stream.peek().is_word("rows", "rounds"):
        stream.take()
        return None
    if stream.peek().kind == "num" and stream.peek(1).is_mark("-") and stream.peek(3).value in GROUP_NOUNS:
        size = stream.take().numbers[0]
        stream.index += 2
        what = What(GROUP_NOUNS[str(stream.take().value)], size)
    elif stream.peek().value == "half":
        stream.take()
        stream.take_mark("-")
        if is_what(stream.peek()) or stream.peek().value in GROUP_NOUNS:
            stream.take()
        what = What("half")
    elif stream.peek().value in GROUP_NOUNS:
        what = What(GROUP_NOUNS[str(stream.take().value)], _read_group_size(stream))
    elif stream.peek().value in ARCHES:
        stream.take()
        what = What("sp")
    elif stream.peek().value == "ch" and stream.peek(1).is_word("sp"):
        stream.index += 2  # "7 chain loops"
        what = What("sp")
    else:
        what = parse_what(stream) if is_what(stream.peek()) else ANY_STITCH
    return token.numbers, What("side") if _tells_sides(stream) else what


def _read_group_size(stream: Stream) -> int:
    """ "of 3 dc" behind "6 groups": how many stitches each has; 0 where that is not said"""
    if not stream.peek().is_word("of") or stream.peek(1).kind != "num" or len(stream.peek(1).numbers) > 1:
        return 0
    stream.take()
    size = stream.take().numbers[0]
    if stream.peek().kind == "st":
        stream.take()
    return size


def _tells_number(stream: Stream) -> bool:
    """ "7 ch loops", not "7-ch loops" """
    words = stream.words(stream.index, stream.index + 1)
    return words[:1].isdigit() and words.endswith("s") and " " in words


def _read_space(stream: Stream) -> tuple[PerSize, What]:
    """ "ch-2 sp", one space of two chains, and "5 ch sps", five spaces of any"""
    first = stream.index
    chains = int(stream.take().value)
    many = stream.words(first, stream.index)
    return ((chains,), What("sp")) if many[:1].isdigit() and many.endswith("s") else ((1,), What("ch-sp", chains))


def _tells_sides(stream: Stream) -> bool:
    """ "on each side", "per side", "between increases": a count of a stretch, not of the row; passed over here"""
    ahead = 0
    while stream.peek(ahead).is_word("each", "side", "the", "in") or stream.peek(ahead).value in ("on", "per", "a"):
        ahead += 1
    between = stream.peek(ahead).is_word("between")
    if between or any(stream.peek(at).is_word("side") for at in range(ahead)):
        while not stream.done and not stream.peek().is_mark(",", ";"):
            stream.take()
        return True
    return False
