"""How often: the words after a bracket or after "rep from *"."""

from dataclasses import dataclass

from booklet.model.tree import ANY_STITCH, PerSize, What
from booklet.rows.stream import Stream
from booklet.rows.targets import parse_extent


@dataclass(frozen=True, slots=True)
class HowOften:
    """`until` and what goes with it, as in `Repeat`."""

    until: str
    count: PerSize = (1,)
    what: What = ANY_STITCH


def _take_worded(stream: Stream) -> PerSize:
    """worded = often "(" often ("," often)* ")", one for each size; often = "once" | "twice" | n ["times"]

    () (nothing taken) where no such list stands here; "twice, 2 dc in ring" is none, for two sizes too.
    """
    mark = stream.index
    values: list[int] = []
    opened = closed = told = False
    while stream.peek().is_word("once", "twice") or stream.peek().kind == "num":
        token = stream.take()
        values.append(token.numbers[0] if token.kind == "num" else 1 if token.value == "once" else 2)
        told = stream.take_word("times") or token.kind != "num"
        if len(values) > 1 and stream.take_mark(")", "]"):
            closed = True
            break
        opened = opened or stream.peek().is_mark("(", "[")
        if not stream.take_mark("(", "[", ",", ":", ";"):
            break
    if len(values) == stream.numbers.sizes > 1 and (closed if opened else told):
        stream.take_word("times")
        return tuple(values)
    stream.index = mark
    return ()


def _take_once(stream: Stream) -> HowOften:
    if listed := _take_worded(stream):
        return HowOften("times", listed)
    count: PerSize = (1,) if stream.take().value == "once" else (2,)
    more = stream.take_word("more")
    stream.take_word("times")
    return HowOften("more" if more else "times", count)


def _take_total(stream: Stream) -> HowOften | None:
    """total = ["a"] "total" "of" n ["times"]; None (nothing taken) where no such words stand here"""
    mark = stream.index
    stream.take_word("the")
    if stream.peek().is_word("total") and stream.peek(1).is_word("of") and stream.peek(2).kind == "num":
        stream.index += 2
        count = stream.take().numbers
        stream.take_word("times")
        return HowOften("times", count)
    stream.index = mark
    return None


def _take_another(stream: Stream) -> HowOften | None:
    """another = ("another" | "a further") n "times" """
    further = stream.words(stream.index, stream.index + 1).lower() == "a" and stream.peek(1).is_word("more")
    ahead = 2 if further else 1
    if not further and stream.peek().value != "another":
        return None
    if stream.peek(ahead).kind != "num" or not stream.peek(ahead + 1).is_word("times"):
        return None
    stream.index += ahead
    count = stream.take().numbers
    stream.take()
    return HowOften("more", count)


def parse_times(stream: Stream) -> HowOften | None:
    """times = n "times" ["more"|"total"] | n "more" ["times"] | ("another" | "a further") n "times" | "times" n | once

    once = ("once"|"twice") ["more"]
    "(…) x 6" reads the same as "(…) 6 times". None (nothing taken) where no such words stand here.
    """
    mark = stream.index
    token = stream.peek()
    if another := _take_another(stream):
        return another
    if token.is_word("once", "twice"):
        return _take_once(stream)
    if token.is_word("times") and stream.peek(1).kind == "num":
        stream.take()
        return HowOften("times", stream.take().numbers)
    if token.is_word("for") and stream.peek(1).is_word("the") and stream.peek(2).is_word("total"):
        stream.index += 3
        stream.take_word("of")
        if stream.peek().kind == "num":
            return HowOften("times", stream.take().numbers)
        stream.index = mark
        return None
    if in_all := _take_total(stream):
        return in_all
    if token.kind == "num" and stream.peek(1).is_word("more"):
        count = stream.take().numbers
        stream.take()
        stream.take_word("times")
        return HowOften("more", count)
    if token.kind == "num" and stream.peek(1).is_word("times"):
        count = stream.take().numbers
        stream.take()
        if stream.take_word("more"):
            return HowOften("more", count)
        total = stream.take_word("total")
        stream.take_word("around", "across")
        return HowOften("total" if total else "times", count)
    return None


def parse_often_again(stream: Stream) -> HowOften | None:
    """often_again = "rep" times, behind a bracket: so often in all"""
    mark = stream.index
    if stream.take_word("rep") and (times := parse_times(stream)) is not None:
        return HowOften("times", times.count) if times.until == "total" else times
    stream.index = mark
    return None


def parse_how_often(stream: Stream) -> HowOften | None:
    """how_often = times | extent"""
    times = parse_times(stream)
    if times:
        return HowOften("times", times.count) if times.until == "total" else times
    extent = parse_extent(stream)
    if extent is None:
        return None
    if extent.how == "up to":
        return HowOften("up to", extent.leave, extent.leave_what)
    if extent.leave == (0,):
        return HowOften("end")
    return HowOften("last", extent.leave, extent.leave_what)
