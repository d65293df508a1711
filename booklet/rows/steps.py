"""One row's words as steps: stitches, chains, skips, groups and repeats.

Each `_parse_*` function's docstring is its grammar rule. A stretch of words that none of them can
read becomes an `Aside` where it names nothing to work, else an `Unread`, so the rest of the row is
read all the same.
"""

from dataclasses import replace

from booklet.model.tree import (
    Aside, Chain, Even, FastenOff, Group, Join, KeepColours, Leave, Loops, Node, Repeat, Ring, Skip, SkippedCount, Stated, TakeColour, Turn, Unread, What, Where, Work,
)
from booklet.rows import messages
from booklet.rows.counts import is_terminal, parse_bracket_count, parse_dash_count
from booklet.rows.places import LOOPS, is_what, parse_where, parse_whats
from booklet.rows.row_repeats import parse_row_repeat, starts_row_repeat
from booklet.rows.repeats import HowOften, parse_how_often, parse_times
from booklet.rows.stream import Stream
from booklet.rows.tokens import Token

ACTS = ("sk", "rep", "turn", "join", "leave", "tog", "work even", "as row", "change to", "as established", "magic ring")
Count = list[Stated]


def parse_steps(stream: Stream, stated: Count) -> list[Node]:
    """steps = (step | separator)*, up to the end of the stream; counts go to `stated`."""
    steps: list[Node] = []
    marks: dict[str, int] = {}
    while not stream.done:
        token = stream.peek()
        before = stream.index
        if token.is_mark(",", ";", ".", "!", "/", '"', ":") and not _dash_count(stream, stated):
            stream.index = max(stream.index, before + 1)
        elif token.is_mark("-", "=") and _dash_count(stream, stated) or token.is_mark("-", "="):
            stream.index = max(stream.index, before + 1)
        elif token.kind == "star":
            _parse_star(stream, steps, marks)
        elif token.is_word("rep", "as row") and starts_row_repeat(stream):
            steps.append(parse_row_repeat(stream))
        elif token.is_word("rep"):
            _parse_rep(stream, steps, marks, stated)
        elif token.is_mark("(", "["):
            steps.extend(_parse_bracket(stream, steps, stated))
        elif stream.index == before and not token.is_mark(",", ";", ".", ":"):
            parsed = _parse_step(stream, steps)
            steps.extend(parsed if parsed is not None else _skip_unread(stream, before))
        if stream.index == before:
            stream.index += 1
    return steps


def _dash_count(stream: Stream, stated: Count) -> bool:
    if not stream.peek().is_mark("-", "=", ":"):
        return False
    found = parse_dash_count(stream)
    if found:
        stated.append(found)
    return found is not None


def _skip_unread(stream: Stream, first: int) -> list[Node]:
    """The words up to the next separator, as an aside or as unread."""
    stream.index = first + 1
    while not stream.done and not stream.peek().is_mark(",", ";", ".", "(", "[", ":") and not stream.peek().kind == "star":
        stream.index += 1
    tokens = stream.tokens[first : stream.index]
    span = stream.place(first)
    if any(t.kind in ("st", "num", "chsp", "chn", "ord") or t.is_word(*ACTS) for t in tokens) or any(
        t.is_word("in") for t in tokens[1:2]
    ):
        unknown = next((t for t in tokens if t.kind == "word"), None)
        return [Unread(span, span.text, str(unknown.value) if unknown else "")]
    return [Aside(span, span.text)]


def _parse_step(stream: Stream, steps: list[Node]) -> list[Node] | None:
    """step = work | chain | skip | colour | turn | join | ring | loops | leave | even | target-first work"""
    token = stream.peek()
    first = stream.index
    if token.kind == "num":
        return _parse_numbered(stream)
    if token.kind == "chn":
        stream.take()
        return [Chain(stream.place(first), (int(token.value),))]
    if token.kind == "st":
        return _parse_chain(stream) if token.value == "ch" else _parse_work(stream, (1,), first)
    if token.kind == "colour":
        return _parse_bare_colour(stream)
    if token.kind == "chsp" or token.kind == "ord":
        return None
    if token.kind != "w":
        return None
    return _parse_word_step(stream, steps, token, first)


def _parse_word_step(stream: Stream, steps: list[Node], token: Token, first: int) -> list[Node] | None:
    word = str(token.value)
    if word == "and" and (further := _continue_last(stream, steps)):
        return further
    if word in ("and", "working", "here", "the", "as", "loosely", "that", "by", "around", "across", "to end"):
        stream.take()
        return [] if not (word in ("around", "across") and steps) else []
    if word == "sk":
        return _parse_skip(stream)
    if word in ("turn", "do not turn"):
        stream.take()
        return [Turn(stream.place(first), word == "turn")]
    if word in ("join", "join st"):
        return _parse_join(stream)
    if word in ("do not join", "spiral", "place marker", "weave"):
        return _take_clause(stream, first)
    if word == "fasten off":
        _take_clause(stream, first)
        return [FastenOff(stream.place(first))]
    if word in ("with", "change to"):
        return _parse_colour(stream)
    if word == "as established":
        stream.take()
        return [KeepColours(stream.place(first))]
    if word == "magic ring":
        stream.take()
        return [Ring(stream.place(first))]
    if word in LOOPS and word != "back bumps":
        stream.take()
        stream.take_word("only")
        lasting = stream.take_word("throughout")
        return [Loops(stream.place(first), LOOPS[word], lasting)]
    if word == "leave":
        return _parse_leave(stream)
    if word in ("counts as", "does not count", "tch"):
        return _parse_counts_step(stream, steps)
    if word == "work even":
        stream.take()
        stream.take_word("around", "across")
        return [Even(stream.place(first))]
    if word in ("in", "next", "over", "each"):
        return _parse_target_first(stream)
    return None


def _take_clause(stream: Stream, first: int) -> list[Node]:
    while not stream.done and not stream.peek().is_mark(",", ";", ".", "(", "["):
        stream.take()
    return [Aside(stream.place(first), stream.words(first, stream.index))]


def _parse_numbered(stream: Stream) -> list[Node] | None:
    """numbered = n stitch [where] | n "ch" | n "(" steps ")" | n ("in"|"into") where | n "more"? "times"?"""
    first = stream.index
    count = stream.take().numbers
    stream.skip_articles()
    token = stream.peek()
    if token.kind == "st" and token.value == "ch":
        stream.take()
        return [Chain(stream.place(first), count)]
    if token.kind == "st":
        return _parse_work(stream, count, first)
    if token.is_mark("(", "[") and stream.index in stream.closes:
        close = stream.closes[stream.index]
        inner = stream.inner(stream.index + 1, close)
        body = parse_steps(inner, [])
        stream.index = close + 1
        return [Repeat(stream.place(first), tuple(body), "times", count, mark="(")]
    return None


def _parse_chain(stream: Stream) -> list[Node] | None:
    """chain = "ch" ["loosely"] n [remark] | "ch" "st"?"""
    first = stream.index
    stream.take()
    stream.skip_articles()
    if stream.peek().kind == "num":
        count = stream.take().numbers
        return [Chain(stream.place(first), count)]
    return None


def _parse_work(stream: Stream, times: tuple[int, ...], first: int) -> list[Node]:
    """work = [n] stitch ([n] | ["next"] n | times | where) ("and" ["in"] where)*"""
    stitch = str(stream.take().value)
    stated_times = times if stream.tokens[first].kind == "num" else None
    stream.take_word("st")  # "2 sc sts"
    token = stream.peek()
    if token.is_word("each", "next") and not stream.peek(0).is_word("in"):
        where = parse_where(stream)
    elif token.kind == "num" and not stream.peek(1).is_word("times", "more") and stitch not in ("inc", "dec", "inv dec"):
        count = stream.take().numbers
        whats = parse_whats(stream) if is_what(stream.peek()) else (What("st"),)
        where = Where("next", count, whats, bare=True)
    else:
        where = parse_where(stream) if token.kind == "w" and token.value not in ("to",) else None
    if where is None:
        where = _bare_where(stated_times)
        times = (1,)
    elif where.bare and stated_times:
        where = replace(where, count=stated_times if where.loops else where.count)
        times = (1,) if where.loops else times
    if _covers(stream, first, stitch, stated_times, where):
        times = (1,)
    nodes: list[Node] = [Work(stream.place(first), stitch, times, where)]
    often = parse_times(stream)
    if often:
        nodes = [Repeat(stream.place(first), tuple(nodes), often.until, often.count, mark="")]
    nodes.extend(_parse_further(stream, stitch, times))
    return nodes


def _bare_where(count: tuple[int, ...] | None) -> Where:
    return Where("next", count or (1,), bare=True)


def _covers(stream: Stream, first: int, stitch: str, times: tuple[int, ...] | None, where: Where) -> bool:
    """ "6 dc over 6 dc", "5 sc over next 5 sts": one in each, not five in each."""
    over = any(token.is_word("over") for token in stream.tokens[first : stream.index])
    return over and times is not None and times == where.count and times != (1,)


def _parse_further(stream: Stream, stitch: str, times: tuple[int, ...]) -> list[Node]:
    """further = ("and" | ",") ["in"] ("each" | "next" | "last" | "same" | "across") … for the stitch before"""
    nodes: list[Node] = []
    while True:
        mark = stream.index
        if not stream.take_word("and"):
            return nodes
        start = stream.index
        if not stream.peek().is_word("in", "each", "next", "last", "same", "across", "around", "to end", "first"):
            stream.index = mark
            return nodes
        where = parse_where(stream)
        if where is None or stream.peek().is_word("working") or stream.peek().is_mark("(") and where.how != "each":
            stream.index = mark
            return nodes
        nodes.append(Work(stream.place(start), stitch, times, where))


def _continue_last(stream: Stream, steps: list[Node]) -> list[Node]:
    """ "… (counts as dc) and in each ch across": the stitch before the remark goes on."""
    last = next((step for step in reversed(steps) if not isinstance(step, Aside | SkippedCount)), None)
    return _parse_further(stream, last.stitch, last.times) if isinstance(last, Work) else []


def _parse_skip(stream: Stream) -> list[Node]:
    """skip = "sk" (n [what] | place | "(" n "ch" ")")?"""
    first = stream.index
    stream.take()
    stream.skip_articles()
    if stream.peek().kind == "num":
        count = stream.take().numbers
        whats = parse_whats(stream) if is_what(stream.peek()) else (What("st"),)
        return [Skip(stream.place(first), Where("next", count, whats))]
    where = parse_where(stream)
    if where is None:
        where = Where("next")
    return [Skip(stream.place(first), where)]


def _parse_join(stream: Stream) -> list[Node]:
    """join = "join" ["with" stitch] [("in"|"to") place] ["to" "form" "ring"]"""
    first = stream.index
    stream.take()
    stitch = "sl st"
    if stream.take_word("with"):
        stream.skip_articles()
        if stream.peek().kind == "st":
            stitch = str(stream.take().value)
        elif stream.peek().kind == "colour":
            letter = str(stream.take().value)
            _take_clause(stream, first)
            return [TakeColour(stream.place(first), letter)]
    elif stream.peek().kind == "colour":
        letter = str(stream.take().value)
        return [TakeColour(stream.place(first), letter), *_join_new_yarn(stream)]
    where = parse_where(stream) if stream.peek().is_word("in", "to", "around", "over") else None
    if stream.take_word("to"):
        where = parse_where(stream)
    if stream.take_word("form"):
        stream.take_word("ring")
        return [Ring(stream.place(first), 1)]
    return [Join(stream.place(first), where or Where("join"), stitch)]


def _join_new_yarn(stream: Stream) -> list[Node]:
    """The place where new yarn is joined moves the start of the round; here it is left to the walk."""
    first = stream.index
    if stream.peek().is_word("in", "to", "with"):
        _take_clause(stream, first)
    return []


def _parse_colour(stream: Stream) -> list[Node] | None:
    """colour = ("with" | "change to") ["colour"] letter ["in last st" | "at end"] | "with" anything else"""
    first = stream.index
    word = str(stream.take().value)
    stream.skip_articles()
    if stream.peek().kind == "word" and stream.peek().value in ("colour", "color", "yarn"):
        stream.take()
    if stream.peek().kind != "colour":
        return _take_clause(stream, first)
    letter = str(stream.take().value)
    late = False
    mark = stream.index
    if word == "change to" and stream.peek().is_word("in", "at", "on"):
        rest = stream.peek(1)
        ahead = 2 if rest.is_word("the") else 1
        if stream.peek(ahead).is_word("last", "to end") or stream.peek(ahead).value == "end":
            late = True
            while not stream.done and not stream.peek().is_mark(",", ";", ".", "(", "["):
                stream.take()
        else:
            stream.index = mark
    return [TakeColour(stream.place(first), letter, late)]


def _parse_bare_colour(stream: Stream) -> list[Node] | None:
    """colour = letter ":" """
    first = stream.index
    letter = str(stream.take().value)
    if stream.take_mark(":"):
        return [TakeColour(stream.place(first), letter)]
    return None


def _parse_leave(stream: Stream) -> list[Node]:
    """leave = "leave" ["last"|"rem"] [n] ["st"] ["unworked"]"""
    first = stream.index
    stream.take()
    stream.skip_articles()
    stream.take_word("last", "rem", "next")
    stream.skip_articles()
    count: tuple[int, ...] = ()
    if stream.peek().kind == "num":
        count = stream.take().numbers
    if is_what(stream.peek()):
        parse_whats(stream)
    stream.take_word("unworked")
    return [Leave(stream.place(first), count)]


def _parse_counts_step(stream: Stream, steps: list[Node]) -> list[Node] | None:
    """remark after a comma: "ch 3, counts as dc" """
    first = stream.index
    stop = stream.index
    while stop < stream.stop and not stream.tokens[stop].is_mark(",", ";", ".", "(", "["):
        stop += 1
    remark = read_remark(stream.inner(first, stop))
    if remark is None:
        return None
    stream.index = stop
    return apply_remark(remark, steps, stream.place(first))


def _parse_target_first(stream: Stream) -> list[Node] | None:
    """target-first = where ["working"] (group | steps up to the sentence's end): "in next sp make 2 dc, ch 2 and 2 dc" """
    first = stream.index
    loops_only = stream.peek(1)
    if stream.peek().is_word("in") and loops_only.kind == "w" and loops_only.value in LOOPS and not _has_place(stream, 2):
        stream.take()
        stream.take()
        stream.take_word("only")
        lasting = stream.take_word("throughout")
        return [Loops(stream.place(first), LOOPS[str(loops_only.value)], lasting)]
    where = parse_where(stream)
    if where is None:
        return None
    stream.take_mark(",")
    stream.take_word("working")
    if stream.peek().kind not in ("num", "st") and not stream.peek().is_mark("("):
        return None
    stop = stream.index
    while stop < stream.stop and not stream.tokens[stop].is_mark(";", ".", "*") and not stream.tokens[stop].is_word("rep"):
        if stream.tokens[stop].is_mark("(") and is_terminal(stream.inner(stream.closes.get(stop, stop) + 1, stream.stop)):
            break
        stop += 1
    body = parse_steps(stream.inner(stream.index, stop), [])
    stream.index = stop
    return [Group(stream.place(first), tuple(loosen(step) for step in body), where)]


def _has_place(stream: Stream, ahead: int) -> bool:
    token = stream.peek(ahead)
    return token.is_word("of", "next", "each", "only") and (stream.peek(ahead + 1).is_word("next", "each", "first") or is_what(stream.peek(ahead + 1)))


def loosen(step: Node) -> Node:
    """Inside a group "2 dc" is two in the one place."""
    if isinstance(step, Work) and step.where.bare:
        return replace(step, times=step.where.count, where=Where("same", bare=True))
    if isinstance(step, Repeat):
        return replace(step, steps=tuple(loosen(inner) for inner in step.steps))
    return step


def _parse_bracket(stream: Stream, steps: list[Node], stated: Count) -> list[Node]:
    """bracket = "(" (count | remark | aside | steps) ")" [times] [where | extent]"""
    first = stream.index
    close = stream.closes.get(first)
    if close is None:
        stream.take()
        return []
    inner = stream.inner(first + 1, close)
    stream.index = close + 1
    remark = read_remark(inner.inner(first + 1, close))
    if remark is not None:
        return apply_remark(remark, steps, stream.place(first))
    found = parse_bracket_count(stream.inner(first + 1, close), stream)
    if found:
        if _is_count_of(stream, first):
            stated.append(found)
        return []
    if not _works_something(inner):
        return [Aside(stream.place(first), stream.words(first, close + 1))]
    body = parse_steps(inner, [])
    return _finish_bracket(stream, first, body)


def _is_count_of(stream: Stream, first: int) -> bool:
    return first >= 0


def _works_something(inner: Stream) -> bool:
    tokens = inner.tokens[inner.index : inner.stop]
    return any(token.kind in ("st", "chn") or token.is_word("sk", "rep", "magic ring") for token in tokens)


def _finish_bracket(stream: Stream, first: int, body: list[Node]) -> list[Node]:
    often = parse_times(stream)
    if often is None and stream.peek().kind == "num" and _ends_there(stream, 1):
        often = HowOften("times", stream.take().numbers)
    if often:
        stop = stream.index
        if stream.peek().is_word("in") and (where := parse_where(stream)):
            loosened = tuple(loosen(step) for step in body)
            inner = Repeat(stream.place(first, stop), loosened, often.until, often.count, mark="(")
            return [Group(stream.place(first), (inner,), where)]
        return [Repeat(stream.place(first), tuple(body), often.until, often.count, mark="(")]
    if stream.peek().is_word("in", "over") or stream.peek().is_word("around") and _place_follows(stream):
        where = parse_where(stream)
        if where is not None:
            return [Group(stream.place(first), tuple(loosen(step) for step in body), where)]
    extent = parse_how_often(stream)
    if extent:
        return [Repeat(stream.place(first), tuple(body), extent.until, extent.count, extent.what, mark="(")]
    return body


def _place_follows(stream: Stream) -> bool:
    return stream.peek(1).is_word("next", "each", "same") or is_what(stream.peek(1))


def _ends_there(stream: Stream, ahead: int) -> bool:
    token = stream.peek(ahead)
    return token.kind == "end" or token.is_mark(",", ";", ".", "(", "[")


def read_remark(inner: Stream) -> tuple[bool, str, int, bool, bool] | None:
    """remark = ["skipped"] [n] ["ch"|"tch"|"this"] ("counts as" | "does not count" | "=") [stitch] ["," "ch" n] ["throughout"]

    Gives (counts, stitch, chains beyond it, throughout, about the skipped chains), or None.
    """
    tokens = inner.tokens[inner.index : inner.stop]
    at = next((i for i, t in enumerate(tokens) if t.is_word("counts as", "does not count")), None)
    skipped = any(t.is_word("sk") for t in tokens[: at or 0])
    if at is None:
        at = next((i for i, t in enumerate(tokens) if t.is_mark("=")), None)
        if at is None or not any(t.value == "ch" or t.is_word("sk", "tch") for t in tokens[:at]):
            return None
        skipped = any(t.is_word("sk") for t in tokens[:at])
    counts = not tokens[at].is_word("does not count")
    rest = tokens[at + 1 :]
    stitch = next((str(t.value) for t in rest if t.kind == "st" and t.value != "ch"), "")
    then = 0
    for i, token in enumerate(rest):
        if token.value == "ch" and i + 1 < len(rest) and rest[i + 1].kind == "num":
            then = rest[i + 1].numbers[0]
        elif token.kind in ("chsp", "chn"):
            then = int(token.value)
    throughout = any(t.is_word("throughout") for t in tokens)
    return counts, stitch, then, throughout, skipped


def apply_remark(remark: tuple[bool, str, int, bool, bool], steps: list[Node], span: object) -> list[Node]:
    """Puts what the words say on the chain before them, or on the skipped chains of a first row."""
    counts, stitch, then, throughout, skipped = remark
    last = steps[-1] if steps else None
    if isinstance(last, Turn) and len(steps) > 1:
        last = steps[-2]
    if isinstance(last, Chain) and not skipped:
        at = steps.index(last)
        steps[at] = replace(last, counts=counts, stands_for=stitch, then=then, throughout=throughout)
        return []
    return [SkippedCount(span, counts, stitch)]  # type: ignore[arg-type]


def _parse_star(stream: Stream, steps: list[Node], marks: dict[str, int]) -> None:
    """star = "*" (opens a repeat) | "*" times|extent (its twin closes it) | "**" (a mark in the repeat)"""
    first = stream.index
    mark = str(stream.take().value)
    if mark in marks:
        often = parse_how_often(stream)
        if often:
            start = marks.pop(mark)
            body = tuple(steps[start:])
            del steps[start:]
            steps.append(Repeat(stream.place(first), body, often.until, often.count, often.what, mark=mark))
            return
    marks[mark] = len(steps)


def _parse_rep(stream: Stream, steps: list[Node], marks: dict[str, int], stated: Count) -> None:
    """rep = "rep" ["from" mark ["to" mark]] [how_often] [ending]"""
    first = stream.index
    stream.take()
    stream.take_word("from", "between")
    mark = "*"
    if stream.peek().kind == "star":
        mark = str(stream.take().value)
        if stream.peek().is_word("to", "and") and stream.peek(1).kind == "star":
            stream.index += 2
    elif stream.peek().value == "star":
        stream.take()
    elif stream.peek().is_mark("(", "[") and steps and isinstance(steps[-1], Repeat):
        stream.index = stream.closes.get(stream.index, stream.index) + 1
    start = marks.get(mark)
    often = parse_how_often(stream) or HowOften("end")
    stream.take_word("around", "across")
    if start is None:
        _repeat_last(stream, steps, first, often)
        return
    if often.until == "times":
        often = HowOften("open", often.count)
    body = steps[start:]
    del steps[start:]
    marks.pop(mark)
    drop, instead = _parse_ending(stream, body, marks.pop("**", None), start, stated)
    steps.append(Repeat(stream.place(first), tuple(body), often.until, often.count, often.what, drop, instead, mark))


def _repeat_last(stream: Stream, steps: list[Node], first: int, often: HowOften) -> None:
    """ "rep" with no mark before it: the last bracket again, else words that cannot be read."""
    if steps and isinstance(steps[-1], Repeat) and steps[-1].mark == "(":
        steps[-1] = replace(steps[-1], until="open" if often.until == "times" else often.until, count=often.count)
        return
    span = stream.place(first)
    stream.findings.append(messages.repeat_without_mark(span))
    steps.append(Unread(span, span.text))


def _parse_ending(
    stream: Stream, body: list[Node], inner_mark: int | None, start: int, stated: Count
) -> tuple[int, tuple[Node, ...]]:
    """ending = [","] "ending" "last" "rep" ("at" "**" | "with" steps) | "omitting" "last" …

    Gives how many steps the last time round leaves out, and what is worked in their place.
    """
    mark = stream.index
    stream.take_mark(",", ";")
    if stream.take_word("and") and stream.take_word("last") and stream.take_word("rep"):
        if stream.take_word("at") and stream.peek().kind == "star":
            stream.take()
            return (len(body) - (inner_mark - start) if inner_mark is not None else 0), ()
        if stream.take_word("with", "in"):
            stop = stream.index
            while stop < stream.stop and not stream.tokens[stop].is_mark(".", ";"):
                stop += 1
            instead = parse_steps(stream.inner(stream.index, stop), stated)
            stream.index = stop
            return 1, tuple(instead)
    stream.index = mark
    if stream.take_mark(",", ";") and stream.peek().value in ("omitting", "omit"):
        stream.take()
        while not stream.done and not stream.peek().is_mark(".", ";"):
            stream.take()
        return 1, ()
    stream.index = mark
    return 0, ()
