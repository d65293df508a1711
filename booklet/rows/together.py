"""Stitches worked together in words set apart: "sc 2 tog", "2 sc together", "sc next 2 sts tog", "2dctog"."""

import re
from dataclasses import replace

from booklet.rows.tokens import Token
from booklet.rows.vocabulary import Vocabulary
from booklet.terms import load_table

MOST = 9  # stitches worked together; more are no such stitch


def join_together(tokens: list[Token], vocabulary: Vocabulary) -> list[Token]:
    """The tokens with each of these forms as the one stitch "sc2tog"; where it goes stays behind it.

    together = stitch n "tog" | n (stitch | "sts") "tog" | [stitch] ["in"] ("next"|"last"|"first") n what "tog"
    """
    joined: list[Token] = []
    at = 0
    while at < len(tokens):
        found = _spread_out(tokens, at) or _glued(tokens, at, vocabulary) or _over_places(tokens, at)
        if found is None:
            joined.append(tokens[at])
            at += 1
        else:
            joined.extend(found[0])
            at = found[1]
    return joined


def _spread_out(tokens: list[Token], at: int) -> tuple[list[Token], int] | None:
    """ "Sc 2 tog", "sc 2 sts tog" or "2 sc tog" """
    named = tokens[at : at + 4]
    if len(named) > 2 and _is_base(named[0]) and (number := _number(named[1])):
        behind = 3 if len(named) > 3 and _is_stitch(named[2]) else 2
        if behind < len(named) and named[behind].is_word("tog"):
            return [_gather(named[0], number, named[behind])], at + behind + 1
    if len(named) > 2 and (number := _number(named[0])) and named[2].is_word("tog"):
        if _is_base(named[1]):
            return [replace(_gather(named[1], number, named[2]), start=named[0].start)], at + 3
        if named[1].is_word("st") and number == 2:
            return [_decrease(named[0], named[2])], at + 3
    return None


def _glued(tokens: list[Token], at: int, vocabulary: Vocabulary) -> tuple[list[Token], int] | None:
    """ "2dctog" """
    number = _number(tokens[at])
    word = str(tokens[at + 1].value) if number and at + 1 < len(tokens) and tokens[at + 1].kind == "word" else ""
    match = re.fullmatch(r"([a-z]+?)-?tog", word.lower())
    meaning = vocabulary.look_up(match[1]) if match else None
    if meaning is None or meaning[0] != "st":
        return None
    base = replace(tokens[at + 1], kind="st", value=meaning[1])
    return (
        ([replace(_gather(base, number, tokens[at + 1]), start=tokens[at].start)], at + 2) if _is_base(base) else None
    )


def _over_places(tokens: list[Token], at: int) -> tuple[list[Token], int] | None:
    """ "Sc next 2 sts tog", "work next 2 sc tog": the places stay behind the stitch"""
    base = tokens[at] if _is_base(tokens[at]) else None
    here = at + (base is not None)
    if base is not None and here < len(tokens) and tokens[here].is_word("in", "over"):
        here += 1
    places = tokens[here : here + 4]
    if len(places) < 4 or not places[0].is_word("next", "last", "first") or not places[3].is_word("tog"):
        return None
    number = _number(places[1])
    if not number or not _is_stitch(places[2]):
        return None
    if base is None and not _is_base(places[2]) and number != 2:
        return None
    named = base or places[2]
    stitch = _gather(named, number, named) if _is_base(named) else _decrease(places[0], places[0])
    return [replace(stitch, start=tokens[at].start, end=named.end if base else places[0].end), *places[:3]], here + 4


def _number(token: Token) -> int:
    """A number of stitches that can be worked together, else 0."""
    single = token.kind == "num" and len(token.numbers) == 1 and not str(token.value).startswith("{")
    return token.numbers[0] if single and 2 <= token.numbers[0] <= MOST else 0


def _is_stitch(token: Token) -> bool:
    return token.is_word("st") or token.kind == "st"


def _is_base(token: Token) -> bool:
    """Is it a plain stitch, one round a post, or one of the pattern's own?"""
    table, name = load_table("stitches"), str(token.value)
    if token.kind != "st" or name == "sl st":
        return False
    return bool(table.get(name, {}).get("basic")) or (name not in table and not re.search(r"tog$|\d|-", name))


def _gather(base: Token, number: int, last: Token) -> Token:
    return replace(base, value=f"{base.value}{number}tog", end=last.end)


def _decrease(first: Token, last: Token) -> Token:
    return replace(first, kind="st", value="dec", numbers=(), end=last.end)
