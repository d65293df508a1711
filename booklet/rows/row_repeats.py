"""Rows worked again: "Rep Rows 2 and 3 six more times", "As Row 4", "Rep last 2 rows until piece measures 90 cm"."""

import re

from booklet.model.measure import CM_PER_UNIT
from booklet.model.tree import Node, PerSize, RepeatRows
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


def starts_row_repeat(stream: Stream) -> bool:
    """Do the next tokens name whole rows: ("rep" | "as row") ["the"] ("rows" n | "last" n "rows" | "row" name)?"""
    names = _name_ahead(stream)[0]
    if stream.peek().is_word("as row"):
        return stream.peek(1).kind in ("num", "ord")
    if stream.peek().is_word("working"):
        named = bool(names) and stream.peek(1).is_word("rows", "rounds")
        return named or (stream.peek(1).is_word("rows", "rounds") and stream.peek(2).kind == "num")
    if names:
        return True
    ahead = 1
    while stream.peek(ahead).is_word("the", "as", "working"):
        ahead += 1
    if stream.peek(ahead).is_word("rows", "rounds"):
        return True
    if _is_last(stream, ahead) and (
        stream.peek(ahead + 1).is_word("rows", "rounds") or stream.peek(ahead + 2).is_word("rows", "rounds")
    ):
        return True
    while stream.peek(ahead).kind == "ord" and _joins(stream, ahead + 1):
        ahead += 2
    return stream.peek(ahead).kind == "ord" and stream.peek(ahead + 1).is_word("rows", "rounds")


def _is_last(stream: Stream, ahead: int) -> bool:
    """ "last 2 rows", "these two rows", "the previous row" """
    token = stream.peek(ahead)
    return token.is_word("last") or str(token.value) in ("these", "those", "previous", "preceding")


def _joins(stream: Stream, ahead: int) -> bool:
    token = stream.peek(ahead)
    return token.is_word("to", "and") or token.is_mark("-", ",") or token.value in THROUGH


THROUGH = ("through", "thru")
REMAIN = ("remain", "remains", "remaining", "left", "on")
NAME_ENDS = ("rows", "rounds")


def _name_ahead(stream: Stream) -> tuple[tuple[str, ...], int]:
    """names = "rows" letter (("and"|",") letter)* | ["the"] word [word] "row", behind "rep", "work" or "as"

    The names in small letters ("row a", "inc row") and how many tokens they take; () where none stands here.
    """
    ahead = 1
    while stream.peek(ahead).is_word("the", "as"):
        ahead += 1
    if stream.peek(ahead).is_word(*NAME_ENDS):
        names: list[str] = []
        ahead += 1
        while len(letter := _text(stream, ahead)) == 1 and letter.isupper():
            names.append(f"row {letter.lower()}")
            ahead += 1
            ahead += stream.peek(ahead).is_mark(",") or stream.peek(ahead).is_word("and")
        return tuple(names), ahead
    words: list[str] = []
    while (
        len(words) < 2 and stream.peek(ahead).kind in ("w", "word", "st") and not stream.peek(ahead).is_word(*NAME_ENDS)
    ):
        words.append(_text(stream, ahead))
        ahead += 1
    named = words and stream.peek(ahead).is_word(*NAME_ENDS) and not {"last", "these", "next"} & set(words)
    return ((name_row(f"{' '.join(words)} row"),), ahead + 1) if named else ((), 0)


def _text(stream: Stream, ahead: int) -> str:
    return stream.words(stream.index + ahead, stream.index + ahead + 1) if stream.index + ahead < stream.stop else ""


def name_row(name: str) -> str:
    """A row's name as it is looked up: "Increase Round" and "inc row" are the same."""
    words = re.sub(r"\b(?:rounds?|rnds?|rows)\b", "row", name.lower())
    return re.sub(r"\binc\w*", "inc", re.sub(r"\bdec\w*", "dec", words)).strip()


def parse_row_repeat(stream: Stream) -> RepeatRows:
    """row_repeat = ("rep" | "as row") refs [times | until]

    refs = "rows" n (("-"|"and"|",") n)* | "last" [n] "rows"
    """
    first = stream.index
    names, taken = _name_ahead(stream)
    if names:
        stream.index += taken
        until, count, length, ending = _parse_until(stream)
        return RepeatRows(stream.place(first), (), names, until, count, length, 0, ending)
    as_row = False
    if not stream.peek().is_word("rows", "rounds"):
        as_row = stream.take().is_word("as row")
    last = 0
    lasts: PerSize = ()
    rows: list[tuple[int, int]] = []
    while stream.peek().is_word("the", "as", "working"):
        stream.take()
    if _is_last(stream, 0):
        stream.take()
        counted = stream.take().numbers if stream.peek().kind == "num" else (1,)
        last, lasts = counted[0], counted if len(counted) > 1 else ()
        stream.take_word("rows", "rounds")
    else:
        if stream.peek().kind == "ord":  # "2nd to 5th rows"
            rows.extend(_parse_refs(stream))
            stream.take_word("rows", "rounds")
        else:
            stream.take_word("rows", "rounds")
            rows.extend(_parse_refs(stream))
    if stream.peek().is_word("in") and str(stream.peek(1).value) in ("pattern", "patt", "order", "sequence"):
        stream.index += 2
    until, count, length, ending = _parse_until(stream)
    if as_row and until == "label":
        until = "label"
    return RepeatRows(stream.place(first), tuple(rows), (), until, count, length, last, ending, lasts=lasts)


def goes_on_with_rows(stream: Stream, steps: list[Node]) -> bool:
    """ "… twice; then Rows 2-5 once": rows named again without "rep" """
    return (
        bool(steps)
        and isinstance(steps[-1], RepeatRows)
        and stream.peek().is_word("rows", "rounds")
        and stream.peek(1).kind == "num"
    )


def parse_even_rows(stream: Stream) -> list[Node] | None:
    """even_rows = [work] n rows (even | without shaping) | [work] even (for (n rows | length) | until) | rows_in

    Of a length for which rows are worked even, the rows before are no part; of one that the piece measures they are.
    """
    mark = stream.index
    if named := _parse_rows_in(stream):
        return [named]
    stream.index = mark
    stream.take_word("working")
    count: PerSize = ()
    if stream.peek().kind == "num" and stream.peek(1).is_word("rows", "rounds"):
        count = stream.take().numbers
        stream.take()
    said = stream.take_word("work even", "even")
    if said and not count and stream.take_word("for"):
        stream.skip_articles()
        if stream.peek().kind == "num" and stream.peek(1).is_word("rows", "rounds"):
            count = stream.take().numbers
            stream.take()
        elif length := _parse_length(stream):
            return [RepeatRows(stream.place(mark), (), (), "length", (1,), length, 0, "", True)]
    if said and not count and stream.peek().is_word("until", "to"):
        until, rows, reached, ending = _parse_until(stream)
        if until in ("length", "rows"):
            until = "height" if until == "length" else until
            return [RepeatRows(stream.place(mark), (), (), until, rows, reached, 0, ending, True)]
    if said and count:
        return [RepeatRows(stream.place(mark), (), (), "times", count, (), 0, "", True)]
    stream.index = mark
    return None


def _parse_rows_in(stream: Stream) -> RepeatRows | None:
    """rows_in = stitch n rows | [work] n ["more"] rows ("in"|"of") stitch | work [even] "in" stitch ["for"] n rows"""
    first = stream.index
    stream.take_word("working", "work", "work even", "continue")
    stream.take_word("even")
    stream.take_word("in")
    stitch = _take_stitch(stream)
    if stitch:
        stream.take_word("for")
    counted = stream.take().numbers if stream.peek().kind == "num" else ()
    if not counted:
        return None
    more = stream.take_word("more")
    if not stream.take_word("rows", "rounds"):
        return None
    stream.take_word("more")
    if not stitch and stream.take_word("in", "of"):
        stitch = _take_stitch(stream)
    if not stitch:
        return None
    said = "more" if more else "times"
    return RepeatRows(stream.place(first), (), (), said, counted, (), 0, _parse_side(stream), True, stitch=stitch)


def _take_stitch(stream: Stream) -> str:
    return str(stream.take().value) if stream.peek().kind == "st" and stream.peek().value != "ch" else ""


def _parse_refs(stream: Stream) -> list[tuple[int, int]]:
    refs: list[tuple[int, int]] = []
    while stream.peek().kind in ("num", "ord"):
        token = stream.peek()
        if refs and (stream.peek(1).is_word("times", "more", "total")):
            break
        stream.take()
        low = token.numbers[0] if token.kind == "num" else int(token.value)
        high = low
        to = stream.peek().value in THROUGH or _text(stream, 0).lower() == "to"
        if (stream.peek().is_mark("-") or to) and stream.peek(1).kind in ("num", "ord"):
            stream.take()
            end = stream.take()
            high = end.numbers[0] if end.kind == "num" else int(end.value)
        refs.append((low, high))
        mark = stream.index
        if _tells_end(stream):
            break
        if stream.take_mark(",", "&") or stream.take_word("and"):
            stream.take_word("and")
            stream.take_word("rows", "rounds")
            if stream.peek().kind not in ("num", "ord"):
                stream.index = mark
                break
    return refs


def _parse_until(stream: Stream) -> tuple[str, PerSize, tuple[float, ...], str]:
    """until = times | "until there are" n "rows" | "until piece measures" length ["ending with a WS row"] | ε"""
    for_total = stream.peek().is_word("for") and stream.peek(1).is_word("total", "the")
    times = parse_times(stream)
    if times:
        if for_total and stream.take_word("rows", "rounds"):
            return "rows", times.count, (), ""
        until = {"times": "open", "total": "times"}.get(times.until, times.until)
        if times.count == (1,) and times.until == "times":
            until = "times"
        return until, times.count, (), _parse_side(stream)
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
                return "rows", count, (), _parse_side(stream)
            if (left := _parse_left(stream)) is not None:
                return "sts", left, (), _parse_side(stream)
            length = _parse_length(stream)
            if length:
                return "length", (1,), length, _parse_side(stream)
        stream.index = mark
    return "label", (1,), (), _parse_side(stream) if _tells_end(stream) else ""


def _tells_end(stream: Stream) -> bool:
    """Does "[,] ["and"] ending with …" stand here? "Then" and "plus" tell of what follows."""
    ahead = int(stream.peek().is_mark(","))
    ahead += _text(stream, ahead).lower() == "and"
    return _text(stream, ahead).lower().startswith(("end", "finish"))


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


def _parse_length(stream: Stream) -> tuple[float, ...]:
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


def _parse_side(stream: Stream) -> str:
    """side = [","] "ending" ["with"|"after"] ("a" ("RS"|"WS") "row" | "row" n)"""
    mark = stream.index
    if stream.take_word("from", "at"):  # "from beg", "at center"
        stream.skip_articles()
        stream.take()
    if _tells_end(stream):
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
