"""Places that lie beyond the row below: another piece, an edge, a row further down; and how far a row reaches."""

import re
from collections.abc import Sequence
from dataclasses import replace

from booklet.model.tree import Aside, EarlierRow, Node, What, Where, Work
from booklet.rows.stream import Stream
from booklet.rows.targets import is_what, parse_what
from booklet.rows.vocabulary import NUMBER_WORDS
from booklet.source import Span

OTHER = frozenset(
    {"finished", "completed", "previous", "prev", "adjacent", "adjoining", "neighbouring", "neighboring", "joined"}
    | {"corresponding", "matching", "preceding", "first", "last", "other", "next", "second"}
)
PIECES = frozenset(
    {"motif", "motifs", "square", "squares", "hexagon", "hexagons", "hex", "piece", "flower", "panel", "triangle"}
    | {
        "leg",
        "legs",
        "arm",
        "arms",
        "ear",
        "ears",
        "foot",
        "feet",
        "paw",
        "wing",
        "sleeve",
        "petal",
        "limb",
        "tentacle",
    }
    | {"granny", "octagon", "medallion", "neighbour", "neighbor", "wheel", "circle"}
)
# What a brim or a cuff is worked onto sideways: "sl st in next 2 sts of hat".
GARMENTS = frozenset({"hat", "beanie", "crown", "mitten", "glove", "sock", "cowl", "cardigan", "sweater", "garment"})
EDGE_WORDS = frozenset(
    {"edge", "edges", "top", "bottom", "lower", "upper", "neckline", "armhole", "foundation", "left", "right"}
)
OTHER_EDGE = re.compile(
    r"\b(?:along|across|down|up|on|over)\s+(?:the\s+)?(?:other|opposite|remaining|last|next|second|third|fourth|\d(?:nd|rd|th))"
    r"(?:\s+(?:long|short))?\s+(?:side|edge|end)\b",
    re.IGNORECASE,
)
# "up right front", "down left front neck", "across back neck", "around neck": the edges of a garment.
GARMENT_EDGE = re.compile(
    r"(?:up|down)\s+(?:(?:the|left|right|first|second|shaped|back|front)\s+){0,3}(?:front|neck|side|edge|armhole|back)\b"
    r"|(?:across|around|along)\s+(?:(?:the|left|right|shaped|back|front)\s+){0,3}(?:neck(?:line)?|armholes?|edge)\b",
    re.IGNORECASE,
)
FEWEST_ALONG = 4
GOES_INTO = re.compile(
    r"\b(?:in|into|to|next|first|across|over)\s+"
    rf"(?:(?:the|next|first|each|of|\d+|{'|'.join(NUMBER_WORDS)})\s+){{0,4}}$",
    re.IGNORECASE,
)
EARLIER = re.compile(
    r"\b(?P<which>free|unused|unworked|rem(?:aining)?|front|back)\s+(?:front\s+|back\s+)?"
    r"(?P<what>loops?|lps?|sts?|stitch(?:es)?|sc|dc|hdc|tr)\b(?:\s+only)?"
    r"(?:\s+(?:left\s+)?(?:of|on|from|in)\s+(?:the\s+)?(?:row|rnd|round)s?\s*(?P<number>\d{1,4})\b)?",
    re.IGNORECASE,
)
# "Join yarn in first skipped st": at an opening, such as a thumb's, that a row further down has left.
SKIPPED = re.compile(
    r"\b(?:join|rejoin|attach|draw up a loop)\w*\b[^.;()]{0,50}?\b(?:in|into|to)\s+(?:the\s+)?"
    r"(?:first|next|any|1st|last)?\s*"
    r"(?P<what>(?:skipped|missed|sk'd)\s+(?:\w+\s+)?(?:sts?|stitch(?:es)?|sc|dc|hdc|htr|tr)\b)"
    r"(?:\s+(?:of|on|from|in)\s+(?:the\s+)?(?:row|rnd|round)\s*(?P<number>\d{1,4})\b)?",
    re.IGNORECASE,
)
AND_EACH = re.compile(r"\beach\b[^.;]*\beach\s+$", re.IGNORECASE)
AT_BASE = re.compile(r"\b(?:sk|skip|miss)\w*\s+\w+\s+(?:sts?|stitches)\s+at\s+(?:the\s+)?base\b", re.IGNORECASE)
# "Skip next 9 sts of the last full row and join yarn in next st", "return to Row 2", before any stitch.
COUNT = r"(?:\d[\d\s(),:\[\]-]*|\{[^}]*\}\s*)"
YARN = r"(?:rejoin|attach|join\s+(?:the\s+|new\s+|a\s+new\s+)*(?:yarn|thread|wool|cotton|[A-Z]\b))"
REST = re.compile(
    r"^\s*(?:(?:fasten|break|cut|end)\s+(?:off|yarn)[.;,]?\s+)?"
    r"(?:with\s+(?:rs|ws|right side|wrong side)\s+facing,?\s+)?(?:"
    rf"(?:sk|skip|miss|leave)\s+(?:the\s+)?(?:(?:(?:next|first|cent(?:er|re)|middle)\s+)?{COUNT}"
    rf"(?:sts?|stitches|sc|hdc|dc|htr|tr)\b|(?:next|first)\s+(?:st|stitch|sc|hdc|dc|htr|tr)\s+(?:of|on|from)\s+row\b)"
    rf"[^.]{{0,60}}?\b{YARN}|return to (?:row|rnd|round|the last)\b)",
    re.IGNORECASE,
)
STITCHES = r"(?:sc|dc|hdc|htr|tr|dtr|sts?|stitch(?:es)?)"
ROUND = r"(?:row|rnd|round)"
OF_ROW = re.compile(
    rf"\b(?:next|each|first|last)\s+(?:\d+\s+)?{STITCHES}\s+(?P<where>(?:of|in|from)\s+{ROUND})\s+(?P<number>\d{{1,4}})\b",
    re.IGNORECASE,
)
IN_STITCHES = re.compile(
    rf"\bworking (?:in|into|around) (?:the )?(?:sts?|stitches|posts) of {ROUND} (?P<number>\d{{1,4}})\b", re.IGNORECASE
)
NUMBERED = re.compile(r"\b(?:of|to|on|from) (?:row|rnd|round) (?P<number>\d{1,4})\b", re.IGNORECASE)


def parse_other_piece(stream: Stream, whats: tuple[What, ...]) -> Where | None:
    """other_piece = "of" ["the"] (garment | ("finished" | "other" …) ("motif" | "square" …)), behind a place

    The place is then no place of the row below. None (nothing taken) where no such words stand here.
    """
    mark = stream.index
    if stream.take_word("of", "in"):
        stream.skip_articles()
        named = 0
        while _tells_which(stream) or (named and stream.peek().value == "-"):
            stream.take()
            named += 1
        if str(stream.peek().value) in GARMENTS:
            stream.take()
            return Where("elsewhere", what=whats)
        if named and str(stream.peek().value) in PIECES:
            while str(stream.peek().value) in PIECES:
                stream.take()
            return Where("elsewhere", what=whats)
    stream.index = mark
    return None


CORDS = frozenset(
    {"rope", "cord", "wire", "string", "elastic", "hoop", "clothesline", "piping", "tubing", "tie", "dowel", "twine"}
)


def parse_cord(stream: Stream) -> Where | None:
    """cord = ("over" | "around") ["end of"] "rope": worked round a cord as into a ring; None where no cord is named"""
    mark = stream.index
    if stream.take_word("over", "around"):
        stream.skip_articles()
        stream.take_word("row end of", "row end")
        stream.skip_articles()
        while stream.peek().kind == "word" and stream.peek(1).kind == "word" and stream.peek().value not in CORDS:
            stream.take()  # "hair tie", "metal hoop"
        if stream.take().value in CORDS:
            return Where("ring", what=(What("ring"),))
    stream.index = mark
    return None


def parse_whole_piece(stream: Stream, whats: tuple[What, ...]) -> Where | None:
    """whole_piece = ("around" | "across" | "of") ["the"] (which piece | Title), behind "each st": all its last row

    A title is known by its capitals: "each sc of Left Front".
    """
    mark = stream.index
    if stream.take_word("around", "across", "of"):
        stream.skip_articles()
        first = stream.index
        while _is_in_capitals(stream):
            stream.take()
        if stream.index > first:
            return Where("piece", what=whats, piece=stream.words(first, stream.index))
        while _tells_which(stream):
            stream.take()
        if stream.index > first and str(stream.peek().value) in PIECES:
            stream.take()
            return Where("piece", what=whats, piece=stream.words(first, stream.index).lower())
    stream.index = mark
    return None


def _is_in_capitals(stream: Stream) -> bool:
    """Is the next word, as the author writes it, one of a title?"""
    token = stream.peek()
    if token.kind not in ("w", "word") or token.is_word("rows", "rounds", "corner", "beg", "tch"):
        return False
    text = stream.words(stream.index, stream.index + 1)
    return text[:1].isupper() and text[1:].islower()


def _tells_which(stream: Stream) -> bool:
    return str(stream.peek().value) in OTHER or stream.peek().kind == "ord"


def parse_reach(stream: Stream, where: Where) -> Where:
    """reach = "until there are" n what ["in"|"on" "row"] | [","] "skipping every" n-th what, behind "each …" """
    mark = stream.index
    if stream.take_word("until") and stream.peek().kind == "num":
        count = stream.take().numbers
        if is_what(stream.peek()):
            parse_what(stream)
        if stream.take_word("in"):
            stream.skip_articles()
            stream.take_word("rows", "rounds")
        return Where("until", count, where.what)
    stream.index = mark
    stream.take_mark(",")
    if stream.take_word("sk") and stream.take_word("each") and stream.peek().kind == "ord":
        passing = int(stream.take().value)
        if is_what(stream.peek()):
            parse_what(stream)
        return replace(where, passing=passing)
    stream.index = mark
    return where


def parse_along(stream: Stream, stitch: str, first: int) -> list[Node] | None:
    """along = n stitch ("evenly" | "along" edge) … ["," "one in each" …], up to the end of the clause

    So many stitches along an edge; "stitch n evenly" says the same.
    """
    mark = stream.index
    count = stream.tokens[first].numbers if stream.tokens[first].kind == "num" else ()
    if not count and stream.peek().kind == "num":
        count = stream.take().numbers
    if not count or not (stream.take_word("even") or (count != (1,) and _names_edge(stream))):
        stream.index = mark
        return None
    _take_clause(stream)
    if stream.peek().is_mark(",") and stream.peek(1).kind == "num" and stream.peek(2).is_word("in", "for"):
        stream.take()  # "54 sc evenly around the top edge, one in each row end"
        _take_clause(stream)
    return [Work(stream.place(first), stitch, (1,), Where("along", count))]


def go_on_along(steps: Sequence[Node]) -> list[Node]:
    """ "…, sc in each row end, 8 sc along other side": behind one edge, so many along the next"""
    found: list[Node] = []
    on_edge = False
    for step in steps:
        if isinstance(step, Work) and on_edge and step.where.how == "each" and min(step.times) >= FEWEST_ALONG:
            if OTHER_EDGE.search(step.span.text):
                step = replace(step, times=(1,), where=Where("along", step.times))
        if isinstance(step, Work):
            on_edge = on_edge or step.where.how == "along" or step.where.what[0].kind.startswith("row end")
        found.append(step)
    return found


def _take_clause(stream: Stream) -> None:
    while not stream.done and not stream.peek().is_mark(",", ".", ";", "(", "[", ")"):
        stream.take()


def _names_edge(stream: Stream) -> bool:
    """ "along lower edge", "along foundation ch", "up right front": an edge, and no stitch of the row below"""
    stop = stream.index
    while stop < stream.stop and stream.tokens[stop].kind != "p":
        stop += 1
    if stop > stream.index and GARMENT_EDGE.match(stream.words(stream.index, stop)):
        return True
    if not stream.peek().is_word("across", "around"):
        return False
    said = stream.words(stream.index, stream.index + 1).lower()
    ahead = 1
    while stream.peek(ahead).is_word("the", "side", "opposite") or stream.peek(ahead).value in EDGE_WORDS:
        if stream.peek(ahead).value in EDGE_WORDS or stream.peek(ahead).is_word("side"):
            return True
        ahead += 1
    return said == "along" and stream.peek(ahead).value == "ch"


def find_earlier_row(span: Span, number: int, placed: int) -> EarlierRow | None:
    """The row further down that a row is worked into: its stitches, the loops it left free, or what it left unworked.

    `number` is that of a round itself, 0 for any other row, and `placed` how many of its steps name a place.
    """
    if into := _names_stitches_of(span, number, placed):
        return into
    for match in EARLIER.finditer(span.text):
        loops = match["what"].lower().startswith(("lo", "lp"))
        plain = match["which"].lower() in ("front", "back")
        if plain and not (loops and match["number"]):
            continue
        if match["which"].lower() == "rem" and not match["number"]:
            continue  # "sc in each rem st around": of the row below
        if not match["number"] and AND_EACH.search(span.text[: match.start()]):
            continue  # "sc in each sc and in each unworked st": the row below first
        if not match["number"] and (loops or not _goes_into(span.text, match.start())):
            continue
        return EarlierRow(
            span.sub(match.start(), match.end()), int(match["number"] or 0), "loops" if loops else "unworked"
        )
    if skipped := SKIPPED.search(span.text):
        return EarlierRow(span.sub(skipped.start("what"), skipped.end()), int(skipped["number"] or 0), "skipped")
    base = AT_BASE.search(span.text) or REST.search(span.text)
    if base is None:
        return None
    named = NUMBERED.search(span.text)
    return EarlierRow(span.sub(base.start(), base.end()), int(named["number"]) if named else 0, "unworked")


def _names_stitches_of(span: Span, number: int, placed: int) -> EarlierRow | None:
    """ "*Ch 5, sc around next sc of Rnd 2; rep …": does every place of a round lie in one round, not the one below?"""
    said = IN_STITCHES.search(span.text)
    if said and int(said["number"]) < number - 1:
        return EarlierRow(span.sub(said.start(), said.end()), int(said["number"]), "stitches")
    named = list(OF_ROW.finditer(span.text))
    rows = {int(match["number"]) for match in named}
    if len(rows) != 1 or len(named) != placed or not min(rows) < number - 1:
        return None
    return EarlierRow(span.sub(named[0].start("where"), named[0].end()), min(rows), "stitches")


def _goes_into(text: str, at: int) -> bool:
    """Does "in", "to" or "next" stand before the words: "join yarn in next unworked st"?"""
    return GOES_INTO.search(text[:at]) is not None


def drop_explained(steps: Sequence[Node]) -> list[Node]:
    """ "Work 20 sc evenly around top of cuff (1 sc in end of each row)": the bracket says how, and is no other 20"""
    kept: list[Node] = []
    for step in steps:
        before = kept[-1] if kept else None
        in_bracket = step.span.file.text[: step.span.start].rstrip().endswith(("(", "["))
        if isinstance(step, Work) and isinstance(before, Work) and before.where.how == "along" and in_bracket:
            if (
                step.where.how == "each"
                and step.where.what[0].kind.startswith("row end")
                and step.stitch == before.stitch
            ):
                step = Aside(step.span, f"({step.span.text})")
        kept.append(step)
    return kept
