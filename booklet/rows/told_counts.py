"""Counts told in a sentence, between odd signs or size by size, put into the brackets that counts stand in.

"You should have 12 sts", "| 12 |", "S: 7, M: 9, L: 11 sc" say what "(12 sts)" and "7 (9, 11) sc" say; from here on they
read alike. The new brackets take the place of the words before the number, so every offset stays the author's.
"""

import re
from collections.abc import Sequence
from dataclasses import replace

from booklet.rows.count_items import parse_count_items
from booklet.rows.counts import is_terminal
from booklet.rows.stream import Stream
from booklet.rows.tokens import SAME_LENGTH, Token
from booklet.source import Span

WHO = r"(?:you|we|there|this|that|it|which|(?:the|this|each) (?:row|rnd|round))"
THEN = r"(?:\s+(?:now|still|then))?"
LEAD = re.compile(
    r"(?<![^\s.,;:!()\[\]-])(?<!until )(?<!till )(?<!where )(?<!when )(?<!if )(?<!until you )(?<!once )"
    r"(?:at\s+the\s+end(?:\s+of\s+(?:the|this|each|every)\s+(?:row|rnd|round))?,?\s+)?"
    r"(?:(?:so|now|and|then|thus|so that)\s+)*(?:"
    rf"{WHO}(?:(?:\s+(?:should|will|must|ought\s+to)|'ll|'ve){THEN})?{THEN}"
    r"\s+(?:have|has|be|are|count|gives?|makes?|comes?\s+to|equals?|totals?|end\s+(?:up\s+)?with)"
    r"(?:\s+(?:you|us|now|left|with|a\s+total\s+of|in\s+total|to))*"
    r"|(?:that|which|it)(?:'s|\s+is)"
    r"|(?:(?:your|the|final|total|new)\s+)*(?:st|stitch)\.?\s*count\s*(?:is|of|now|should\s+be)?(?:\s+now)?\s*[:=-]?"
    r"|total\s+(?:sts?|stitches|stitch\s+count|of|is|now|number\s+of\s+(?:sts|stitches))\s*(?:is)?\s*[:=-]?"
    r"|(?:for|giving|making|makes?|with|to\s+give|gives)\s+a\s+(?:new\s+)?total\s+of|(?<=[.;] )makes"
    r"|(?:giving|leaving)\s+you\s+(?:with\s+)?|to\s+give|~)\s*$",
    re.IGNORECASE,
)
OF_OTHER_ROW = re.compile(r"\b(?:rows?|rnds?|rounds?)\s+\d[^.;!]*$", re.IGNORECASE)
LONGEST = 60  # letters of the words before a count
TRAIL = re.compile(
    r"[\s.!]*(?:(?:in|on|at|for|to|from|around|the|this|each|each of|end|start|of|all|total|row|rnd|round"
    r"|hook|now|left|made|altogether|remaining|remain|rem|work with|\d+)[\s.!]*)*$",
    re.IGNORECASE,
)
SIGNS = {"<": ">", "|": "|"}
ENDS = ("turn", "join", "fasten off", "change to", "do not turn", "do not join", "place marker")


def frame_counts(tokens: list[Token], span: Span) -> list[Token]:
    """The tokens with every count that is told in a sentence, or stands between signs, in round brackets."""
    text = span.text.translate(SAME_LENGTH)
    at = 0
    while at < len(tokens):
        if tokens[at].kind == "num":
            tokens = _frame_signs(tokens, at) or _frame_sentence(tokens, at, text, span) or tokens
        at += 1
    return tokens


def _frame_signs(tokens: list[Token], at: int) -> list[Token] | None:
    """ "<12 sc>", "|12|", "*12 sts*" and "**12 sts**", with nothing but a count between the signs, at the row's end"""
    before = tokens[at - 1] if at else None
    if before is None:
        return None
    sign = str(before.value)
    if before.kind == "star" and sign.strip("*") == "":
        close = sign
    elif sign in SIGNS:
        close = SIGNS[sign]
    else:
        return None
    stop = next((index for index in range(at, len(tokens)) if str(tokens[index].value) == close), None)
    if stop is None or any(not token.is_mark(".", "!") for token in tokens[stop + 1 :]):
        return None
    if before.kind == "star" and (not tokens[stop - 1].is_word("st") or stop - at != 2):
        return None  # "*12 sc*" may be steps
    return [
        *tokens[: at - 1],
        _bracket(before, "("),
        *tokens[at:stop],
        _bracket(tokens[stop], ")"),
        *tokens[stop + 1 :],
    ]


def _bracket(token: Token, value: str) -> Token:
    return replace(token, kind="p", value=value, numbers=())


def _frame_sentence(tokens: list[Token], at: int, text: str, span: Span) -> list[Token] | None:
    """The count behind "you should have" and its like, up to the end of its sentence"""
    match = LEAD.search(text, max(0, tokens[at].start - LONGEST), tokens[at].start)
    bare = match is None and _is_bare(tokens, at)
    if (match is None and not bare) or (match is not None and OF_OTHER_ROW.search(text, 0, match.start())):
        return None  # "at the end of Row 20 there are 12 sts": perhaps not this row
    first = at if match is None else next((i for i, token in enumerate(tokens) if token.start >= match.start()), at)
    if first > at or any(token.is_mark("(", "[", ")", "]") for token in tokens[first:at]):
        return None
    stop = _find_end(tokens, at)
    stream = Stream(tokens, span)
    inner = stream.inner(at, stop)
    if parse_count_items(inner) is None:
        stop = _find_end_of_items(tokens, at, stop, text)
        inner = stream.inner(at, stop)
        if stop <= at or parse_count_items(inner) is None:
            return None
    end = stop
    while end < len(tokens) and not tokens[end].is_mark(".", "!", ",", ";", ")", "]"):
        end += 1  # "… on the row"
    if not is_terminal(stream.inner(end, len(tokens))):
        return None
    if first > 0 and tokens[first - 1].is_mark("(", "["):
        return [*tokens[:first], *tokens[at:stop], *tokens[end:]]
    opening = Token("p", "(", tokens[first].start, tokens[first].start + 1)
    closing = Token("p", ")", tokens[end - 1].end, tokens[end - 1].end)
    return [*tokens[:first], opening, *tokens[at:stop], closing, *tokens[end:]]


def _is_bare(tokens: Sequence[Token], at: int) -> bool:
    """ ", 12 sts" or "; 12 sts" at the very end of a row: "sts" are nothing to work"""
    marked = at > 0 and tokens[at - 1].is_mark(",", ";")
    ends = all(token.is_mark(".", "!") for token in tokens[at + 2 :])
    works = any(token.kind == "st" and token.value != "ch" for token in tokens[:at])
    return marked and ends and works and at + 1 < len(tokens) and tokens[at + 1].is_word("st")


def _find_end(tokens: Sequence[Token], at: int) -> int:
    """The index behind the count that begins at `at`: where its sentence or its bracket ends, or the row turns."""
    for index in range(at, len(tokens)):
        token = tokens[index]
        after = tokens[index + 1] if index + 1 < len(tokens) else None
        if token.is_mark(".", "!", "(", "[", ")", "]"):
            return index
        if token.is_mark(",", ";") and after is not None and after.is_word(*ENDS):
            return index
    return len(tokens)


def _find_end_of_items(tokens: Sequence[Token], at: int, stop: int, text: str) -> int:
    """The index behind "12 sts" in "12 sts on the row"; `at` where other words follow"""
    for index in range(at + 1, stop):
        if TRAIL.fullmatch(text, tokens[index].start, tokens[stop - 1].end):
            return index
    return at


def join_named_sizes(tokens: list[Token], text: str, names: Sequence[str]) -> list[Token]:
    """ "S: 7, M: 9, L: 11 sc" and "7 sc (S), 9 sc (M), 11 sc (L)" as one number with a value for each size"""
    if len(names) < 2:
        return tokens
    text = text.translate(SAME_LENGTH)
    sizes = [re.escape(name) for name in names]
    gap = r"\s*(?:[,;/]|and|\s)\s*"
    ahead = gap.join(rf"(?:size\s+)?{name}\s*[:=-]\s*(\d{{1,6}})(?:\s*[a-z]+)?" for name in sizes)
    behind = gap.join(rf"(\d{{1,6}})(?:\s*[a-z]+)?\s*\(\s*(?:size\s+)?{name}\s*\)" for name in sizes)
    for form in (ahead, behind):
        if match := re.search(rf"(?<![\w(]){form}", text, re.IGNORECASE):
            return _join_at(tokens, match.start(), match.end(), tuple(int(value) for value in match.groups()))
    return tokens


def _join_at(tokens: list[Token], start: int, end: int, values: tuple[int, ...]) -> list[Token]:
    """The stretch of text as one number, with the last stitch named in it behind it"""
    inside = [token for token in tokens if start <= token.start < end]
    unit = [token for token in inside if token.kind == "st" or token.is_word("st")][-1:]
    joined = Token("num", "list", start, end if not unit else inside[-1].end, values)
    kept = [replace(token, start=joined.end - 1, end=joined.end) for token in unit]
    return [
        *(token for token in tokens if token.start < start),
        joined,
        *kept,
        *(token for token in tokens if token.start >= end),
    ]
