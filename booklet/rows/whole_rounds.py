"""Rounds that are one repeat, and say so without "rep": "inc in every 3rd st", "sc, inc around", "sc 5, inc (x6)"."""

from collections.abc import Sequence
from dataclasses import replace

from booklet.model.tree import Aside, Chain, Node, Repeat, Skip, TakeColour, Turn, Where, Work
from booklet.rows.repeats import parse_times
from booklet.rows.stream import Stream
from booklet.rows.targets import is_what, parse_what

SHAPING = ("inc", "dec", "inv dec")


def find_first_stitch(steps: Sequence[Node]) -> int:
    """Behind the chain, turn and colour at the beginning of a row."""
    return next((i for i, step in enumerate(steps) if not isinstance(step, Chain | Turn | Aside | TakeColour)), 0)


def are_plain(steps: Sequence[Node]) -> bool:
    """Stitches, chains and skips alone, with nothing repeated yet?"""
    return all(isinstance(step, Work | Skip | Chain | Turn | Aside | TakeColour) for step in steps)


def parse_every_nth(stream: Stream, stitch: str, times: tuple[int, ...], first: int) -> list[Node] | None:
    """every_nth = "in" "every" ("other" | n-th) what ["around"|"across"], behind "inc" or "2 sc": plain ones between"""
    mark = stream.index
    if stream.take_word("in") and stream.take_word("each"):
        token = stream.take()
        nth = 2 if token.value == "other" else int(token.value) if token.kind == "ord" else 0
        adds = stitch == "inc" or (len(times) == 1 and times[0] > 1 and not stitch.endswith("tog"))
        if nth > 1 and adds and is_what(stream.peek()):
            parse_what(stream)
            stream.take_word("around", "across", "to end")
            span = stream.place(first)
            between = "st" if stitch == "inc" else stitch
            plain = Work(span, between, (1,), Where("next", (nth - 1,), bare=True))
            return [Repeat(span, (plain, Work(span, stitch, times, Where())), "end", mark="(")]
    stream.index = mark
    return None


def repeat_whole(stream: Stream, steps: list[Node], before: int) -> None:
    """ "Sc 2, inc around": single stitches, then an increase or decrease around, are worked again and again."""
    last = steps[-1] if steps else None
    begin = find_first_stitch(steps)
    if not isinstance(last, Work) or last.where.how != "each" or last.times != (1,) or begin == len(steps) - 1:
        return
    shapes = last.stitch in SHAPING or last.stitch.endswith("2tog")
    ahead = before + 1
    goes_on = ahead < len(stream.tokens) and stream.tokens[ahead].is_word("around", "across", "to end")
    counted = [step for step in steps[begin:-1] if isinstance(step, Work) and step.where.bare]
    if shapes and goes_on and len(counted) == len(steps) - 1 - begin and are_plain(steps):
        single = replace(last, where=Where(bare=True))
        steps[begin:] = [Repeat(stream.place(before), (*counted, single), "end", mark="(")]


def repeat_trailing(stream: Stream, steps: list[Node]) -> bool:
    """trailing = "around" behind places one after the other: "sc in next st, 2 sc in next st around" """
    begin = find_first_stitch(steps)
    body = tuple(steps[begin:])
    single = [step for step in body if isinstance(step, Work) and step.where.how == "next"]
    others = [step for step in body if isinstance(step, Work) and step.where.how != "next"]
    behind = stream.peek(1)
    ends = behind.kind == "end" or behind.is_mark(".", ",", ";", "(", "[", "-")
    names_all = stream.peek().is_word("around", "across", "to end")
    if len(body) < 2 or body[0] not in single or others or not (names_all and ends) or not are_plain(steps):
        return False
    mark = stream.index
    stream.take()
    steps[begin:] = [Repeat(stream.place(mark), body, "end", mark="(")]
    return True


def parse_whole_times(inner: Stream, steps: list[Node], ends: bool) -> bool:
    """whole_times = "(" times ")" behind plain stitches at the end of a round: all of them so often"""
    begin = find_first_stitch(steps)
    body = tuple(steps[begin:])
    if not ends or len(body) < 2 or not are_plain(steps):
        return False
    often = parse_times(inner)
    if often is None or often.until != "times" or not inner.done:
        return False
    steps[begin:] = [Repeat(body[0].span.to(body[-1].span), body, "times", often.count, mark="(")]
    return True


def count_from_mark(body: Sequence[Node]) -> tuple[Node, ...]:
    """The steps of a repeat with "2 sc in 3rd st", counted from its start, as the next place where it is that."""
    passed = 0
    counted: list[Node] = []
    for step in body:
        elsewhere = isinstance(step, Work | Skip) and step.where.how not in ("next", "first", "nth")
        if elsewhere or (isinstance(step, Work | Skip) and len(step.where.count) > 1):
            return tuple(body)
        if isinstance(step, Work) and step.where.how == "nth":
            if step.where.nth != passed + 1 or step.where.from_hook or not counted:
                return tuple(body)
            step = replace(step, where=replace(step.where, how="next", nth=0))
        if isinstance(step, Work | Skip):
            passed += step.where.count[0]
        elif not isinstance(step, Chain | Aside):
            return tuple(body)
        counted.append(step)
    return tuple(counted)


def take_so_on(stream: Stream, steps: list[Node]) -> bool:
    """so_on = "and" "so" "on" ["around"]: "1 sc in 1st st, 2 sc in 2nd st, and so on" is worked again and again"""
    if not (stream.peek().is_word("and") and stream.peek(1).value == "so" and stream.peek(2).is_word("on")):
        if not (stream.peek(1).value == "so" and stream.words(stream.index, stream.index + 3).lower() == "and so on"):
            return False
    begin = find_first_stitch(steps)
    body = [step for step in steps[begin:] if isinstance(step, Work)]
    if not are_plain(steps) or not body:
        return False
    mark = stream.index
    stream.index += 3
    stream.take_word("around", "across", "to end")
    told = [1 if step.where.how == "first" else step.where.nth for step in body]
    if told == list(range(1, len(body) + 1)):  # the 1st, then the 2nd: each time the next one
        body = [replace(step, where=replace(step.where, how="next", nth=0)) for step in body]
    steps[begin:] = [Repeat(stream.place(mark), tuple(body), "end", mark="(")]
    return True
