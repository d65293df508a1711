"""How long rows are worked again: so often, to so many rows or stitches, to a length, up to a row of one side."""

import re

from booklet.model.measure import CM_PER_UNIT
from booklet.model.tree import Aside, Node, PerSize
from booklet.rows import messages
from booklet.rows.repeats import parse_times
from booklet.rows.stream import Stream
from booklet.rows.tokens import SAME_LENGTH

UNITS = {
    "cm": "cm", "cms": "cm", "mm": "mm", "in": "in", '"': "in", "inch": "in", "inches": "in", "ins": "in", "m": "m",
    "yd": "yd", "yds": "yd",
}  # fmt: skip
_AMOUNT = r"(?:\d+(?:\.\d+)?(?:\s*[½¼¾⅓⅔⅛⅜⅝⅞]|\s+\d+/\d+)?|\d+/\d+|[½¼¾⅓⅔⅛⅜⅝⅞])"
AMOUNT = re.compile(_AMOUNT)
LENGTHS = re.compile(
    rf"(?P<list>{_AMOUNT}(?:\s*[(\[]\s*{_AMOUNT}(?:\s*[,:;]\s*{_AMOUNT})*\s*[)\]])*)"
    r"\s*-?\s*(?P<unit>cms?|mm|inches|inch|ins?|\"|m|yds?)(?![A-Za-z])",
    re.IGNORECASE,
)
FRACTIONS = {"½": 0.5, "¼": 0.25, "¾": 0.75, "⅓": 1 / 3, "⅔": 2 / 3, "⅛": 0.125, "⅜": 0.375, "⅝": 0.625, "⅞": 0.875}
REMAIN = ("remain", "remains", "remaining", "left", "on")


def parse_every(stream: Stream) -> int:
    """every = ["in"] "every" ("other" | n-th) "row", before a number of times; 1, and nothing taken, where none stands

    "Every row" tells nothing that is not known.
    """
    mark = stream.index
    stream.take_word("in")
    if stream.take_word("each"):
        token = stream.peek()
        every = 2 if token.value in ("other", "alternate", "alt") else int(token.value) if token.kind == "ord" else 1
        stream.index += token.kind == "ord" or every == 2
        if stream.take_word("rows", "rounds"):
            behind = stream.index
            if parse_times(stream) is not None:
                stream.index = behind
                return every
    stream.index = mark
    return 1


def parse_until(stream: Stream, works: bool = False) -> tuple[str, PerSize, tuple[float, ...], str]:
    """until = times | "until there are" n "rows" | "until piece measures" length ["ending with a WS row"] | ε

    Of rows that are `works`, "work Row 2 a total of 5 times", the total has those in it that stand before.
    """
    said = stream.index
    for_total = stream.peek().is_word("for") and stream.peek(1).is_word("total", "the")
    times = parse_times(stream)
    if times:
        if for_total and stream.take_word("rows", "rounds"):
            return "rows", times.count, (), ""
        total = works and "total" in stream.words(said, stream.index).lower()
        until = {"times": "all" if total else "open", "total": "all" if total else "times"}.get(
            times.until, times.until
        )
        if times.count == (1,) and times.until == "times":
            until = "times"
        return until, times.count, (), parse_side(stream)
    if stream.peek().value == "alternately":
        stream.take()
    mark = stream.index
    if stream.take_word("until", "to", "for"):
        while stream.peek().kind in ("w", "word") and not stream.peek().is_word("measures"):
            stream.take()
        if stream.take_word("measures") or stream.peek().kind == "num":
            while stream.peek().kind == "word" or stream.peek().is_word("the"):
                stream.take()
            if stream.peek().kind == "num" and stream.peek(1).is_word("rows", "rounds"):
                count = stream.take().numbers
                stream.take()
                stream.take_word("total")
                _take_in_section(stream)
                return "rows", count, (), parse_side(stream)
            if (left := _parse_left(stream)) is not None:
                return "sts", left, (), parse_side(stream)
            length = parse_length(stream)
            if length:
                return "length", (1,), length, parse_side(stream)
        stream.index = mark
    return "label", (1,), (), parse_side(stream) if tells_end(stream) else ""


def tells_end(stream: Stream) -> bool:
    """Does "[,] ["and"] ending with …" stand here? "Then" and "plus" tell of what follows."""
    ahead = int(stream.peek().is_mark(","))
    ahead += read_word(stream, ahead).lower() == "and"
    return read_word(stream, ahead).lower().startswith(("end", "finish"))


def _parse_left(stream: Stream) -> PerSize | None:
    """left = n ("sts" | stitch) ["remain" | "left"]; None (nothing taken) where no such number stands here"""
    follows = stream.peek(1)
    if stream.peek().kind != "num" or not (follows.is_word("st", "rem") or follows.kind == "st"):
        return None
    count = stream.take().numbers
    while stream.peek().is_word("st", "rem") or stream.peek().kind == "st" or str(stream.peek().value) in REMAIN:
        stream.take()
    return count


def _take_in_section(stream: Stream) -> None:
    """Words such as "in the band": the rows of the section, which is what is counted anyway."""
    if stream.take_word("in"):
        while stream.peek().is_word("the") or stream.peek().kind == "word":
            stream.take()


def parse_length(stream: Stream) -> tuple[float, ...]:
    """length = n [list] unit, n with decimals or fractions; in centimetres, () where none stands here

    A list that has not one length for every size is told, and its first is taken.
    """
    if stream.peek().kind != "num":
        return ()
    if str(stream.peek().value).startswith("{"):
        unit = UNITS.get(str(stream.peek(1).value).lower())
        values = tuple(float(value) for value in stream.peek().numbers)
        stream.index += 2 if unit else 0
        return tuple(value * CM_PER_UNIT[unit] for value in values) if unit else ()
    text = stream.span.text.translate(SAME_LENGTH)
    match = LENGTHS.match(text, stream.peek().start)
    unit = UNITS.get(match["unit"].lower()) if match else None
    if match is None or unit is None:
        return ()
    first = stream.index
    while not stream.done and stream.peek().start < match.end():
        stream.take()
    values = tuple(_read_amount(number[0]) for number in AMOUNT.finditer(match["list"]))
    wanted = stream.numbers.scope or range(stream.numbers.sizes)
    if len(values) == len(wanted) != stream.numbers.sizes:
        known = dict(zip(wanted, values, strict=True))
        values = tuple(known.get(at, values[0]) for at in range(stream.numbers.sizes))
    if len(values) not in (1, stream.numbers.sizes):
        stream.findings.append(messages.size_list_differs(stream.place(first), len(values), len(wanted)))
        values = values[:1]
    return tuple(value * CM_PER_UNIT[unit] for value in values)


def _read_amount(text: str) -> float:
    """`16`, `16.5`, `16½`, `16 1/2`."""
    whole = re.match(r"\d+(?:\.\d+)?(?!\s*/)", text)
    amount = float(whole[0]) if whole else 0.0
    if sum_of := re.search(r"(\d+)\s*/\s*(\d+)$", text):
        return (amount if whole else 0.0) + int(sum_of[1]) / max(1, int(sum_of[2]))
    return amount + sum(FRACTIONS.get(letter, 0.0) for letter in text)


def parse_side(stream: Stream) -> str:
    """side = [","] "ending" ["with"|"after"] ("a" ("RS"|"WS") "row" | "row" n)"""
    mark = stream.index
    if stream.take_word("from", "at"):  # "from beg", "at center"
        stream.skip_articles()
        stream.take()
    if tells_end(stream):
        stream.take_mark(",")
        while not stream.done and not stream.peek().is_mark(".", ","):
            token = stream.take()
            if token.is_word("rs", "ws"):
                side = str(token.value).upper()
                if stream.peek().value != "facing":
                    stream.take_word("rows", "rounds")
                    return side
                while not stream.done and not stream.peek().is_mark(".", ","):
                    stream.take()
                return "WS" if side == "RS" else "RS"  # "with RS facing for next row": the last was a WS row
            if token.is_word("rows", "rounds") and stream.peek().kind == "num":
                return str(stream.take().numbers[0])
    stream.index = mark
    return ""


def read_side(text: str) -> str:
    """ "RS" or "WS" where the words name one, else "" """
    match = re.search(r"\b(RS|WS|right side|wrong side)\b", text, re.IGNORECASE)
    if not match:
        return ""
    return "RS" if match[1].lower() in ("rs", "right side") else "WS"


def _names_end(stream: Stream) -> bool:
    """Does the clause name the chain or the turn at the end of the last row, and nothing else?"""
    ahead, words = 1, []
    while stream.index + ahead < stream.stop and not stream.peek(ahead).is_mark(",", ".", ";", "(", "["):
        words.append(read_word(stream, ahead).lower())
        ahead += 1
    return bool({"ch", "turn", "chain", "turning"} & set(words)) and bool({"last", "final", "end"} & set(words))


def take_over_others(stream: Stream) -> list[Node]:
    """What a repeated row is told with: "working sc over dc and dc over sc", "omitting ch 1 at end of last row"."""
    mark, first = stream.index, stream.index + int(stream.peek().is_mark(",", ";"))
    stream.index = first
    is_told = stream.peek().is_word("working") and stream.peek(1).kind == "st" and stream.peek(2).is_word("over", "in")
    omits = read_word(stream, 0).lower() in ("omitting", "omit") and _names_end(stream)
    if not omits and (not is_told or stream.peek(3).kind != "st"):
        stream.index = mark
        return []
    while not stream.done and not stream.peek().is_mark(",", ".", ";", "(", "["):
        stream.take()
    return [Aside(stream.place(first), stream.words(first, stream.index))]


def read_word(stream: Stream, ahead: int) -> str:
    return stream.words(stream.index + ahead, stream.index + ahead + 1) if stream.index + ahead < stream.stop else ""
