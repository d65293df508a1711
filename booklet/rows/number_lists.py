"""Numbers listed size by size, joined to one number that has a value for each size."""

import re
from itertools import pairwise

from booklet.model.tree import PerSize
from booklet.rows.tokens import Numbers, Token, TokenTrouble


def join_number_lists(tokens: list[Token], numbers: Numbers, troubles: list[TokenTrouble]) -> list[Token]:
    """Join `77 (83, 89)`, `40 (44, 48) (52, 56)` and `(50, 54, 58)` into one number per size."""
    merged: list[Token] = []
    index = 0
    while index < len(tokens):
        token = tokens[index]
        values, after = _read_list(tokens, index, numbers.sizes)
        in_bracket = bool(merged) and (merged[-1].is_mark("(", "[") or merged[-1].value == "ch")
        has_colon = index + 1 < len(tokens) and tokens[index + 1].is_mark(":")
        if not values and (in_bracket or (has_colon and not _is_label(merged))):
            values, after = _read_run(tokens, index, numbers.sizes)
            if merged and merged[-1].value == "ch" and not _is_chain_list(tokens, values, after):
                values = ()
            if not values and numbers.scope:
                values, after = _read_run(tokens, index, len(numbers.scope))
        elif not values and index + 1 < len(tokens) and tokens[index + 1].is_mark("/"):  # "80/88"
            values, after = _read_run(tokens, index, numbers.sizes)
        elif not values and numbers.sizes > 2 and not (merged and merged[-1].kind in ("st", "num")):
            values, after = _read_run(tokens, index, numbers.sizes)
            if sorted(values) != list(values) or not _counts_something(tokens, after):
                values = ()
        values = numbers.spread(values)
        if len(values) == numbers.sizes and numbers.sizes > 1:
            merged.append(Token("num", "list", token.start, tokens[after - 1].end, values))
            index = after
        elif token.kind == "num" and (len(values) > 2 or (len(values) == 2 and _lacks_sizes(tokens, after, numbers))):
            troubles.append(TokenTrouble("size-count", token.start, tokens[after - 1].end, "", len(values)))
            fitted = (values + values[-1:] * numbers.sizes)[: numbers.sizes]
            merged.append(Token("num", "list", token.start, tokens[after - 1].end, fitted))
            index = after
        else:
            merged.append(token)
            index += 1
    return merged


def _is_chain_list(tokens: list[Token], values: PerSize, after: int) -> bool:
    """Is "114, 154" behind "ch" one number a size? "ch 2, 2 dc" is not: its second number counts a stitch."""
    rises = all(low < high for low, high in pairwise(values))
    return rises and not (after < len(tokens) and tokens[after].kind == "st")


def _is_label(merged: list[Token]) -> bool:
    """Is the number before a colon that of a row: "After row 1: 16 (24) sts"?"""
    return bool(merged) and merged[-1].is_word("rows", "rounds")


def _is_last_group(token: Token, groups: int) -> bool:
    """Is "{25}" in "17 (19, 21)[23]{25}" one more group of the list?"""
    return groups > 0 and token.kind == "num" and re.fullmatch(r"\{\s*\d+\s*\}", str(token.value)) is not None


def _lacks_sizes(tokens: list[Token], after: int, numbers: Numbers) -> bool:
    """Is "5 (7)", before what it counts, a list of sizes with one left out? At the end of a row it is a count."""
    follows = tokens[after] if after < len(tokens) else None
    return numbers.sizes > 2 and follows is not None and (follows.kind == "st" or follows.is_word("st", "times"))


def _counts_something(tokens: list[Token], after: int) -> bool:
    """Does a stitch, and no number of its own, follow a run of numbers: "11, 13, 15 sc"?"""
    return after < len(tokens) and (
        tokens[after].kind in ("st", "chsp") or tokens[after].is_word("st", "rows", "rounds")
    )


def _read_run(tokens: list[Token], index: int, sizes: int) -> tuple[PerSize, int]:
    """run = number ("," number)+ with one number for each size, as in `(183, 195, 207 sts)`"""
    values: list[int] = []
    at = index
    while at < len(tokens) and tokens[at].kind == "num" and len(tokens[at].numbers) == 1 and len(values) < sizes:
        values.append(tokens[at].numbers[0])
        at += 1
        if len(values) == sizes or at >= len(tokens) or not tokens[at].is_mark(",", ":", ";", "/"):
            break
        at += 1
    begins_list = bool(_read_group(tokens, at)[0])  # "ch 1, 33 (49) sc": the last number begins a list of its own
    return (tuple(values), at) if sizes > 1 and len(values) == sizes and not begins_list else ((), index)


def _read_list(tokens: list[Token], index: int, sizes: int) -> tuple[PerSize, int]:
    """list = number group+ | group, a ";" between groups where sizes are left for the next

    The values and the index after the list; () where no list stands here.
    """
    values: list[int] = []
    if tokens[index].kind == "num" and len(tokens[index].numbers) == 1:
        values.append(tokens[index].numbers[0])
        index += 1
    elif not tokens[index].is_mark("(", "["):
        return (), index
    based = bool(values)
    groups = 0
    while index < len(tokens):
        if _is_last_group(tokens[index], groups):
            values.extend(tokens[index].numbers)
            index += 1
            continue
        apart = based and groups and tokens[index].is_mark(";")
        inner, after = _read_group(tokens, index + bool(apart))
        if not inner or (not based and (groups or len(inner) < 2)):
            break
        if apart and len(values) + len(inner) > sizes:
            break
        values.extend(inner)
        groups += 1
        index = after
    return (tuple(values), index) if groups else ((), index)


def _read_group(tokens: list[Token], index: int) -> tuple[list[int], int]:
    """group = "(" number (("," | ":" | ";" | "-") number | group)* ")", and the index after it; [] where none stands"""
    values: list[int] = []
    if index >= len(tokens) or not tokens[index].is_mark("(", "["):
        return [], index
    close = ")" if tokens[index].value == "(" else "]"
    at = index + 1
    while at + 1 < len(tokens) and tokens[at].kind == "num":
        values.append(tokens[at].numbers[0])
        at += 1
        if tokens[at].is_mark("(", "["):  # "(35, 39 [43, 47])"
            inner, at = _read_group(tokens, at)
            values.extend(inner)
        if at < len(tokens) and tokens[at].is_mark(close):
            return values, at + 1
        if at >= len(tokens) or not tokens[at].is_mark(",", ":", ";", "-"):
            break
        at += 1
    return [], index
