"""Rows worked again: "Rep Rows 2 and 3 six more times", "As Row 4", "Rep last 2 rows until piece measures 90 cm"."""

import re

from booklet.model.tree import Node, PerSize, RepeatRows
from booklet.rows.rows_until import parse_every, parse_length, parse_side, parse_until, read_word, tells_end
from booklet.rows.stream import Stream


def begins_row_repeat(stream: Stream, steps: list[Node]) -> bool:
    """Do the next tokens tell rows that are worked again? "As 2nd row" does so at the start of a row alone."""
    begins = stream.peek().is_word("rep", "as row", "working") or (stream.peek().is_word("as") and not steps)
    return (begins and starts_row_repeat(stream)) or goes_on_with_rows(stream, steps)


def starts_row_repeat(stream: Stream) -> bool:
    """Do the next tokens name whole rows: ("rep" | "as row") ["the"] ("rows" n | "last" n "rows" | "row" name)?"""
    names = _name_ahead(stream)[0]
    if stream.peek().is_word("as row"):
        return stream.peek(1).kind in ("num", "ord")
    if stream.peek().is_word("as"):
        return _names_by_ordinal(stream, 1, alone=True)
    if stream.peek().is_word("working"):
        named = bool(names) and (stream.peek(1).is_word("rows", "rounds") or "row" in names[0])
        ahead = 1
        while stream.peek(ahead).is_word("as", "as row", "for", "the") or stream.peek(ahead).value == "given":
            ahead += 1
        by_number = stream.peek(ahead).is_word("rows", "rounds") and stream.peek(ahead + 1).kind == "num"
        return named or by_number or _names_by_ordinal(stream, ahead, alone=False)
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


def _names_by_ordinal(stream: Stream, ahead: int, alone: bool) -> bool:
    """ "2nd row", or "2nd" `alone` where nothing follows it in its sentence"""
    while stream.peek(ahead).is_word("the", "for"):
        ahead += 1
    after = stream.peek(ahead + 1)
    ends = alone and (after.kind == "end" or after.is_mark(".", ",", ";"))
    return stream.peek(ahead).kind == "ord" and (after.is_word("rows", "rounds") or ends)


def _is_last(stream: Stream, ahead: int) -> bool:
    """ "last 2 rows", "these two rows", "the previous row" """
    token = stream.peek(ahead)
    return token.is_word("last") or str(token.value) in ("these", "those", "previous", "preceding")


def _joins(stream: Stream, ahead: int) -> bool:
    token = stream.peek(ahead)
    return token.is_word("to", "and") or token.is_mark("-", ",") or token.value in THROUGH


THROUGH = ("through", "thru")
NAME_ENDS = ("rows", "rounds")


def _name_ahead(stream: Stream, ahead: int = 1) -> tuple[tuple[str, ...], int]:
    """names = "rows" letter (("and"|",") letter)* | ["the"] word [word] "row", behind "rep", "work" or "as"

    The names in small letters ("row a", "inc row") and how many tokens they take; () where none stands here.
    """
    while stream.peek(ahead).is_word("the", "as") or read_word(stream, ahead).lower() == "then":
        ahead += 1
    if stream.peek(ahead).is_word(*NAME_ENDS):
        names: list[str] = []
        ahead += 1
        while len(letter := read_word(stream, ahead)) == 1 and letter.isupper():
            names.append(f"row {letter.lower()}")
            ahead += 1
            ahead += stream.peek(ahead).is_mark(",") or stream.peek(ahead).is_word("and")
        return tuple(names), ahead
    words: list[str] = []
    while (
        len(words) < 2 and stream.peek(ahead).kind in ("w", "word", "st") and not stream.peek(ahead).is_word(*NAME_ENDS)
    ):
        words.append(read_word(stream, ahead))
        ahead += 1
    named = words and stream.peek(ahead).is_word(*NAME_ENDS) and not {"last", "these", "next"} & set(words)
    return ((name_row(f"{' '.join(words)} row"),), ahead + 1) if named else ((), 0)


def name_row(name: str) -> str:
    """A row's name as it is looked up: "Increase Round" and "inc row" are the same, "ribbing rnd" and "rib row" too."""
    words = re.sub(r"\b(?:rounds?|rnds?|rows)\b", "row", name.lower())
    return re.sub(r"\b(inc|dec|rib)\w*", r"\1", words).strip()


def parse_row_repeat(stream: Stream) -> RepeatRows:
    """row_repeat = ("rep" | "as row") refs [times | until]

    refs = "rows" n (("-"|"and"|",") n)* | "last" [n] "rows"
    """
    first = stream.index
    works = stream.peek().is_word("working")
    names, taken = _name_ahead(stream, int(stream.peek().is_word("rep", "as row", "working", "as")))
    if names:
        stream.index += taken
        every = parse_every(stream)
        until, count, length, ending = parse_until(stream, works)
        return RepeatRows(stream.place(first), (), names, until, count, length, 0, ending, every=every)
    as_row = False
    if not stream.peek().is_word("rows", "rounds"):
        as_row = stream.take().is_word("as row")
    last = 0
    lasts: PerSize = ()
    rows: list[tuple[int, int]] = []
    while stream.peek().is_word("the", "as", "working", "as row", "for") or stream.peek().value == "given":
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
    every = parse_every(stream) if rows and rows == [(rows[0][0], rows[0][0])] else 1
    until, count, length, ending = parse_until(stream, works)
    if as_row and until == "label":
        until = "label"
    placed = stream.place(first)
    return RepeatRows(placed, tuple(rows), (), until, count, length, last, ending, lasts=lasts, every=every)


def goes_on_with_rows(stream: Stream, steps: list[Node]) -> bool:
    """ "… twice; then Rows 2-5 once", "… twice, then inc row once more": rows named again without "rep" """
    if not steps or not isinstance(steps[-1], RepeatRows):
        return False
    if stream.peek().is_word("rows", "rounds"):
        return stream.peek(1).kind == "num"
    names, ahead = _name_ahead(stream, 0)
    often = stream.peek(ahead).is_word("once", "twice") or stream.peek(ahead + 1).is_word("times", "more")
    return bool(names) and often


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
        elif length := parse_length(stream):
            return [RepeatRows(stream.place(mark), (), (), "length", (1,), length, 0, "", True)]
    if said and not count and stream.peek().is_word("until", "to"):
        until, rows, reached, ending = parse_until(stream)
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
    stream.take_word("working", "work", "work even")
    stream.index += str(stream.peek().value) in ("cont", "continue")
    stream.take_word("even")
    stream.take_word("in")
    stitch = _take_stitch(stream)
    if stitch and stream.peek().is_word("until", "to"):
        until, rows, length, ending = parse_until(stream)
        if until in ("rows", "length"):
            until = "height" if length else until
            return RepeatRows(stream.place(first), (), (), until, rows, length, 0, ending, True, stitch=stitch)
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
    return RepeatRows(stream.place(first), (), (), said, counted, (), 0, parse_side(stream), True, stitch=stitch)


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
        to = stream.peek().value in THROUGH or read_word(stream, 0).lower() == "to"
        if (stream.peek().is_mark("-") or to) and stream.peek(1).kind in ("num", "ord"):
            stream.take()
            end = stream.take()
            high = end.numbers[0] if end.kind == "num" else int(end.value)
        refs.append((low, high))
        mark = stream.index
        if tells_end(stream):
            break
        if stream.take_mark(",", "&") or stream.take_word("and"):
            stream.take_word("and")
            stream.take_word("rows", "rounds")
            if stream.peek().kind not in ("num", "ord"):
                stream.index = mark
                break
    return refs
