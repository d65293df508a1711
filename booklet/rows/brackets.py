"""Brackets and stars: groups in one place, repeats, counts, asides.

The functions that meet steps inside are given the reader of steps, `read`, so that this module and
`steps` need not import each other.
"""

from collections.abc import Sequence
from dataclasses import replace

from booklet.model.parsed import Stated
from booklet.model.tree import Aside, Chain, Group, Loops, Node, Repeat, Skip, Unread, Work
from booklet.rows import messages
from booklet.rows.acts import take_clause
from booklet.rows.counts import count_follows, is_terminal, parse_bracket_count
from booklet.rows.layers import in_further_places
from booklet.rows.markers import parse_marker
from booklet.rows.places import LOOPS, parse_where
from booklet.rows.remarks import apply_remark, read_remark
from booklet.rows.repeats import HowOften, parse_how_often, parse_often_again, parse_times
from booklet.rows.stitches import ReadSteps, loosen
from booklet.rows.stream import TOLD, Stream
from booklet.rows.targets import is_what
from booklet.rows.whole_rounds import are_plain, count_from_mark, find_first_stitch, parse_whole_times

Count = list[Stated]


def parse_target_first(stream: Stream, read: ReadSteps) -> list[Node] | None:
    """target-first = where ["working"] (group | steps to the sentence's end): "in next sp make 2 dc, ch 2 and 2 dc" """
    first = stream.index
    loops_only = stream.peek(1)
    if (
        stream.peek().is_word("in")
        and loops_only.kind == "w"
        and loops_only.value in LOOPS
        and not _has_place(stream, 2)
    ):
        stream.index += 2
        stream.take_word("only")
        lasting = stream.take_word("throughout")
        return [Loops(stream.place(first), LOOPS[str(loops_only.value)], lasting)]
    if loops_only.is_word("back bumps"):
        take_clause(stream, first)
        return [Loops(stream.place(first), "bumps")]
    where = parse_where(stream)
    if where is None:
        return None
    stream.take_mark(",", ":")
    stream.take_word("working")
    stream.take_mark(":")
    if stream.peek().kind not in ("num", "st") and not stream.peek().is_mark("("):
        return None
    stop = stream.index
    while stop < stream.stop and not (stream.tokens[stop].is_mark(";", ".", "*") or stream.tokens[stop].is_word("rep")):
        if (
            stop > stream.index
            and stream.tokens[stop].is_mark("(")
            and is_terminal(stream.inner(stream.closes.get(stop, stop) + 1, stream.stop))
        ):
            break
        stop += 1
    stop = min(stop, _end_of_first(stream) or stop) if where.from_hook else stop
    body = read(stream.inner(stream.index, stop), [])
    stream.index = stop
    return [Group(stream.place(first), tuple(loosen(step) for step in body), where)]


def _end_of_first(stream: Stream) -> int:
    """ "In 2nd ch from hook 1 sc, 3 sc, …": more of the same stitch goes on along the chain; 0 where there is none"""
    number, stitch, comma = stream.peek(), stream.peek(1), stream.peek(2)
    again = stream.peek(3).kind == "num" and stream.peek(4).kind == "st" and stream.peek(4).value == stitch.value
    told = number.kind == "num" and stitch.kind == "st" and comma.is_mark(",")
    return stream.index + 2 if told and again else 0


def _has_place(stream: Stream, ahead: int) -> bool:
    token = stream.peek(ahead)
    return token.is_word("of", "next", "each", "only") and (
        stream.peek(ahead + 1).is_word("next", "each", "first") or is_what(stream.peek(ahead + 1))
    )


def parse_bracket(stream: Stream, steps: list[Node], stated: Count, read: ReadSteps) -> list[Node]:
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
    if inner.peek().is_word("place marker"):
        return parse_marker(inner)  # "3 sc in next st (mark center st)"
    if steps and isinstance(steps[-1], Skip) and inner.peek().is_word("first") and not _counts_something(inner):
        steps[-1] = replace(steps[-1], where=replace(steps[-1].where, how="first"))
        return []  # "sk 2 dc [first dc and next dc]": the one under the turning chain is among them
    if inner.peek().is_word("times", "twice") and parse_whole_times(inner, steps, is_terminal(stream)):
        return []
    explains = inner.peek().is_mark("=") and any(t.is_word("rep") for t in inner.tokens[first + 1 : close])
    if explains:  # "(= 3 repeats + 2)"
        return [Aside(stream.place(first), stream.words(first, close + 1))]
    if goes_on_making(stream):  # "(1 sp made), make 3 more sps"
        return [Aside(stream.place(first), stream.words(first, close + 1))]
    found = parse_bracket_count(stream.inner(first + 1, close), stream)
    if found:
        stated.append(found)
        return []
    tells = _tells_what_was_made(inner, steps, stream) or _names_what_was_made(inner, stream, steps)
    if tells or not _works_something(inner) or _is_remark(inner):
        return [Aside(stream.place(first), stream.words(first, close + 1))]
    body = read(inner, [])
    worked = _finish_bracket(stream, first, body)
    if worked == body and any(isinstance(step, Unread) for step in body):
        return [
            Aside(stream.place(first), stream.words(first, close + 1))
        ]  # "(half shell)", "(5 dc between increases)"
    return worked


def _tells_what_was_made(inner: Stream, steps: Sequence[Node], stream: Stream) -> bool:
    """ "sc in end of each row (8 sc); …": how many a step comes to that tells no number"""
    last = steps[-1] if steps else None
    is_open = isinstance(last, Work) and last.where.how in ("each", "along") and last.times == (1,)
    is_open = is_open or (isinstance(last, Repeat) and last.until in ("end", "last"))
    told = inner.stop - inner.index == 2 and inner.peek().kind == "num" and is_what(inner.peek(1))
    return is_open and told and (stream.done or stream.peek().is_mark(",", ";", "."))


def goes_on_making(stream: Stream) -> bool:
    """ ", make 3 more …": do more of what was just made follow?"""
    ahead = 0
    while stream.peek(ahead).is_mark(",", ";", ".") or stream.peek(ahead).is_word("working"):
        ahead += 1
    count, more, named = stream.peek(ahead), stream.peek(ahead + 1), stream.peek(ahead + 2)
    return count.kind == "num" and more.is_word("more") and not named.is_word("times", "rows", "rounds")


def _is_remark(inner: Stream) -> bool:
    """ "(multiple of 9 + 2 sc)", "(UK tr)": words about the row, not of it"""
    tokens = inner.tokens[inner.index : inner.stop]
    if tokens and tokens[-1].is_word("working") and not any(token.is_mark(",") for token in tokens):
        return True  # "(shell made)", "(cluster made)"
    return any(t.kind == "word" and t.value in ("multiple", "multiples", "uk", "us", "uk:", "american") for t in tokens)


def _counts_something(inner: Stream) -> bool:
    return any(token.kind == "num" for token in inner.tokens[inner.index : inner.stop])


def _names_what_was_made(inner: Stream, stream: Stream, steps: Sequence[Node]) -> bool:
    """ "ch 3, sl st in last sc made (picot)", "5 dc in next ch (shell)": the name of the stitches just told"""
    name = inner.peek()
    alone = inner.index + 1 == inner.stop and name.kind == "st"
    is_name = str(name.value).rpartition(" ")[2] in NAMES and not stream.peek().is_word("in", "times", "over")
    return alone and is_name and bool(steps) and isinstance(steps[-1], Work | Group)


NAMES = ("picot", "shell", "v-st", "fan", "cl", "pc", "bobble", "puff")


def _works_something(inner: Stream) -> bool:
    tokens = inner.tokens[inner.index : inner.stop]
    return any(token.kind in ("st", "chn", "colour") or token.is_word("sk", "rep", "magic ring") for token in tokens)


def _finish_bracket(stream: Stream, first: int, body: list[Node]) -> list[Node]:
    if stream.peek().kind == "star" and stream.peek().value == "*" and stream.peek(1).kind == "num":
        stream.take()  # "(…) * 6"
    often = parse_times(stream)
    if often is None and stream.peek().kind == "num" and _ends_there(stream, 1):
        often = HowOften("times", stream.take().numbers)
    if often:
        stop = stream.index
        if stream.peek().is_word("in") and (where := parse_where(stream)):
            loosened = tuple(loosen(step) for step in body)
            inner = Repeat(stream.place(first, stop), loosened, often.until, often.count, mark="(")
            return [Group(stream.place(first), (inner,), where)]
        return [Repeat(stream.place(first), count_from_mark(body), often.until, often.count, mark="(")]
    if stream.peek().is_word("in", "over") or (stream.peek().is_word("around") and _place_follows(stream)):
        where = parse_where(stream)
        if where is not None:
            return in_further_places(stream, Group(stream.place(first), tuple(loosen(step) for step in body), where))
    extent = parse_often_again(stream) or parse_how_often(stream)
    if extent:
        return [Repeat(stream.place(first), count_from_mark(body), extent.until, extent.count, extent.what, mark="(")]
    return body


def _place_follows(stream: Stream) -> bool:
    return stream.peek(1).is_word("next", "each", "same") or is_what(stream.peek(1))


def _ends_there(stream: Stream, ahead: int) -> bool:
    token = stream.peek(ahead)
    return token.kind == "end" or token.is_mark(",", ";", ".", "(", "[", "-", "=")


def parse_star(stream: Stream, steps: list[Node], marks: dict[str, int]) -> None:
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
        if _is_twin(stream):
            return
    marks[mark] = len(steps)


def names_twins(stream: Stream, ahead: int = 0) -> bool:
    """ "* to *", with how often behind: what stands between the marks again"""
    first, last = stream.peek(ahead), stream.peek(ahead + 2)
    joined = stream.peek(ahead + 1).is_word("to", "and") or stream.peek(ahead + 1).is_mark("-")
    if not (first.kind == last.kind == "star" and joined):
        return False
    after = replace(stream, index=stream.index + ahead + 3)
    return parse_how_often(after) is not None


def _is_twin(stream: Stream) -> bool:
    """Does a star close the repeat it belongs to: "*…*; rep from * to * across"?"""
    ahead = 0
    while stream.peek(ahead).is_mark(",", ";", ".") or stream.peek(ahead).is_word("working", "and"):
        ahead += 1
    if stream.peek(ahead).kind == "star" and names_twins(stream, ahead):
        return True
    if not stream.peek(ahead).is_word("rep"):
        return False
    between = [stream.peek(ahead + at) for at in range(1, 6)]
    return sum(token.kind == "star" for token in between) == 2 or not any(token.kind == "star" for token in between[:3])


def _is_all_of_round(stream: Stream, steps: Sequence[Node], first: int) -> bool:
    """ "2 sc, dec, repeat around": with no mark, and nothing repeated yet, the steps from the first stitch on."""
    words = stream.words(first, stream.index).lower()
    return are_plain(steps) and "from" not in words and find_first_stitch(steps) < len(steps)


def parse_rep(stream: Stream, steps: list[Node], marks: dict[str, int], stated: Count, read: ReadSteps) -> None:
    """rep = ["rep"] ["from" mark ["to" mark]] [how_often] [ending]; without the word where marks stand for it"""
    first = stream.index
    if stream.peek().kind != "star":
        stream.take()
    stream.take_word("from", "between")
    mark = "*"
    if stream.peek().kind == "star":
        mark = str(stream.take().value)
        if stream.peek().is_word("to", "and") and stream.peek(1).kind == "star":
            stream.index += 2
    elif stream.peek().value == "star":
        stream.take()
    elif stream.peek().is_word("beg"):
        _take_from_start(stream)
        marks["*"] = find_first_stitch(steps)
    elif _names_bracket(stream):
        mark = "("
    start = marks.get(mark)
    often = parse_how_often(stream) or HowOften("end")
    stream.take_word("around", "across")
    if start is None and often.until == "end" and mark == "*" and not marks and _is_all_of_round(stream, steps, first):
        start = find_first_stitch(steps)
        marks["*"] = start
    if start is None:
        _repeat_last(stream, steps, first, often)
        return
    if often.until == "times" and mark != "(":
        often = HowOften("open", often.count)
    body = steps[start:]
    del steps[start:]
    marks.pop(mark)
    drop, instead = _parse_ending(stream, body, marks.pop("**", None), start, stated, read)
    repeated = (count_from_mark(body), often.until, often.count, often.what)
    steps.append(Repeat(stream.place(first), *repeated, drop, instead, mark))


def _take_from_start(stream: Stream) -> None:
    """ "from beg of rnd" """
    stream.take()
    if stream.take_word("of"):
        stream.skip_articles()
        stream.take_word("rows", "rounds")


def _names_bracket(stream: Stream) -> bool:
    """ "( )", "instructions in ( )", "directions in ( )": the bracket before"""
    ahead = 0
    while stream.peek(ahead).value in ("instructions", "directions", "in", "between", "steps"):
        ahead += 1
    token = stream.peek(ahead)
    if token.is_mark("(", "[") and stream.closes.get(stream.index + ahead) == stream.index + ahead + 1:
        stream.index += ahead + 2
        return True
    return False


def _repeat_last(stream: Stream, steps: list[Node], first: int, often: HowOften) -> None:
    """ "rep" with no mark before it: the last bracket again, else words that cannot be read."""
    if steps and isinstance(steps[-1], Repeat) and steps[-1].mark == "(":
        steps[-1] = replace(steps[-1], until="open" if often.until == "times" else often.until, count=often.count)
        return
    span = stream.place(first)
    stream.findings.append(messages.repeat_without_mark(span))
    steps.append(Unread(span, span.text, TOLD))


OMITS = ("omitting", "omit", "without", "minus")


def _parse_ending(
    stream: Stream, body: list[Node], inner_mark: int | None, start: int, stated: Count, read: ReadSteps
) -> tuple[int, tuple[Node, ...]]:
    """ending = [","] "ending" "last" "rep" ("at" "**" | "with" steps) | ["ending" "last" "rep"] "omitting" "last" …

    Gives how many steps the last time round leaves out, and what is worked in their place.
    """
    mark = stream.index
    stream.take_mark(",", ";")
    if stream.take_word("and") and stream.take_word("last") and stream.take_word("rep"):
        if str(stream.peek().value) in OMITS:
            return _parse_omitted(stream, body)
        if stream.take_word("at") and stream.peek().kind == "star":
            stream.take()
            return (len(body) - (inner_mark - start) if inner_mark is not None else 0), ()
        if stream.take_word("with", "in"):
            stop = stream.index
            while stop < stream.stop and not stream.tokens[stop].is_mark(".", ";"):
                if count_follows(replace(stream, index=stop)):
                    break
                stop += 1
            instead = read(stream.inner(stream.index, stop), stated)
            stream.index = stop
            return 1, tuple(instead)
    stream.index = mark
    if _names_last_chain(stream, body):
        return 0, ()
    stream.index = mark
    stream.take_mark(",", ";")
    if str(stream.peek().value) in OMITS:
        return _parse_omitted(stream, body)
    stream.index = mark
    return 0, ()


def _names_last_chain(stream: Stream, body: Sequence[Node]) -> bool:
    """ "ending with ch 2", where the repeat ends with that chain itself: names it, and makes no other"""
    last = body[-1] if body else None
    stream.take_mark(",", ";")
    ends = stream.peek().is_word("and") and stream.words(stream.index, stream.index + 1).lower().startswith("end")
    chain, count, after = stream.peek(1), stream.peek(2), stream.peek(3)
    if not ends or not isinstance(last, Chain) or chain.value != "ch" or count.numbers != last.count:
        return False
    follows = stream.peek(4)
    if not (after.is_mark(",", ";", ".") or after.kind == "end") or (follows.kind == "st" and follows.value != "sl st"):
        return False
    stream.index += 3
    return True


def _parse_omitted(stream: Stream, body: Sequence[Node]) -> tuple[int, tuple[Node, ...]]:
    """omitted = ["the"] "last" [n] what …: the last step, or so many of its stitches, or as many steps as hold them"""
    stream.take()
    stream.skip_articles()
    stream.take_word("last")
    omitted = stream.take().numbers[0] if stream.peek().kind == "num" else 0
    while not stream.done and not stream.peek().is_mark(".", ";", ",", "(", "["):
        stream.take()
    dropped = 0
    for step in reversed(body):
        dropped += 1
        if not omitted or not isinstance(step, Work) or step.where.how != "next" or len(step.where.count) != 1:
            break
        omitted -= step.where.count[0]
        if omitted < 0:
            return dropped, (replace(step, where=replace(step.where, count=(-omitted,))),)
        if not omitted:
            break
    return dropped, ()
