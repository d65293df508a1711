"""Chains, by number or left to the maker; a loop drawn up in their place; more of what was made with one."""

import re

from booklet.model.tree import Aside, Chain, Group, Node, Repeat, Skip, Turn, Where, Work
from booklet.rows.places import parse_where
from booklet.rows.stream import Stream
from booklet.terms import load_table

FREE_REPEATS = 6  # repeats in a chain whose length is left to the maker: enough for edges and a middle


def parse_chain(stream: Stream) -> list[Node] | None:
    """chain = "ch" ["loosely"] n [remark] | "ch" "st"?"""
    first = stream.index
    stream.take()
    stream.take_word("of")
    stream.skip_articles()
    if stream.peek().kind == "num":
        count = stream.take().numbers
        if stream.peek().value == "ch" and stream.peek(1).kind != "num":
            stream.take()  # "a foundation chain of 12 ch"
        return [Chain(stream.place(first), count)]
    return parse_free_chain(stream, first)


SQUARE_WORDS = frozenset({"mesh", "meshes", "square", "squares", "bl", "bls", "block", "blocks", "group", "groups"})


def parse_more_made(stream: Stream, steps: list[Node]) -> list[Node] | None:
    """more_made = n "more" ("sps" | "blocks" | "shells" …), behind "(1 sp made)": what made the first, n times again

    A space is what was worked from its chain on, any other thing the stitches before the remark.
    """
    named = stream.peek(2)
    space = named.is_word("sp") or named.value in ("mesh", "meshes")
    if not stream.peek(1).is_word("more") or not (space or named.kind == "st" or named.value in SQUARE_WORDS):
        return None
    remark = next((at for at in range(len(steps) - 1, -1, -1) if isinstance(steps[at], Aside)), None)
    if remark is None or not re.search(r"\bmade\b", steps[remark].span.text) or remark != len(steps) - 1:
        return None
    body: list[Node] = []
    for step in reversed(steps[:remark]):
        if isinstance(step, Work | Group | Skip) or (isinstance(step, Chain) and space):
            body.insert(0, step)
        elif not isinstance(step, Turn):
            break
        if isinstance(step, Chain):
            break
    first = stream.index
    count = stream.take().numbers
    stream.index += 2
    if body and isinstance(chain := body[0], Chain):
        body[0] = _as_space(chain, body)
    return [Repeat(stream.place(first), tuple(body), "times", count, mark="(")] if body else None


def _as_space(chain: Chain, body: list[Node]) -> Chain:
    """The chain as a space alone: one that also stands for a stitch at the start of the row is so much shorter."""
    skips = sum(step.where.count[0] for step in body if isinstance(step, Skip))
    over = chain.then or (skips if chain.count[0] > skips + 1 else chain.count[0])
    return Chain(chain.span, (over,) if skips else chain.count)


def parse_drawn_loop(stream: Stream) -> list[Node] | None:
    """drawn_loop = ("draw"|"pull") ["up"] ["a"] "loop" … "height" ["of" stitch]: a chain of that height"""
    first = stream.index
    while not stream.done and not stream.peek().is_mark(",", ";", ".", "(", "["):
        stream.take()
    tokens = stream.tokens[first : stream.index]
    tall = next((str(t.value) for t in tokens if t.kind == "st" and t.value != "ch"), "")
    if (
        tall in load_table("stitches")
        and any(t.value == "height" for t in tokens)
        and any(t.is_word("sp") for t in tokens)
    ):
        return [Chain(stream.place(first), (load_table("stitches")[tall]["chains"] or 1,), stands_for=tall, drawn=True)]
    stream.index = first
    return None


def parse_held_cluster(stream: Stream) -> list[Node] | None:
    """held = "holding back" … "last loop of each" stitch ["make"] n stitch where … "draw through all loops"

    A cluster told in movements of the hook: so many stitches worked together in one place.
    """
    first = stream.index
    stop = first
    while stop < stream.stop and not stream.tokens[stop].is_mark("(", ".", ";"):
        stop += 1
    held = any(token.is_word("last") for token in stream.tokens[first:stop])
    at = next(
        (i for i in range(first, stop - 1) if stream.tokens[i].kind == "num" and stream.tokens[i + 1].kind == "st"),
        None,
    )
    gathered = any(token.value in ("through", "thru") for token in stream.tokens[first:stop])
    if at is None or not held or not gathered:
        return None
    stream.index = at
    count, stitch = stream.take().numbers[0], str(stream.take().value)
    where = parse_where(stream) or Where()
    stream.index = stop
    return [Work(stream.place(first), f"{count}-{stitch} cl", (1,), where)]


def parse_free_chain(stream: Stream, first: int) -> list[Node] | None:
    """free_chain = ["in"] ["a"] "multiple" "of" n ["plus" n] | ["any"] ("odd"|"even") "number" """
    mark = stream.index
    stream.take_word("in")
    stream.skip_articles()
    word = str(stream.take().value)
    if word in ("odd", "even"):
        every, plus = 2, int(word == "odd")
    elif word.startswith("multiple") and stream.take_word("of") and stream.peek().kind == "num":
        every, plus = stream.take().numbers[0], 0
        while stream.peek().is_mark(",") or stream.peek().is_word("and") or stream.peek().value in ("+", "add"):
            stream.take()
        if stream.peek().kind == "num":
            plus = stream.take().numbers[0]
    else:
        stream.index = mark
        return None
    span = stream.place(first)
    while not stream.done and not stream.peek().is_mark(",", ";", ".", "("):
        stream.take()
    return [Chain(span, (every * FREE_REPEATS + plus,), free=True)]
