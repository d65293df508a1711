"""One row's words as steps: stitches, chains, skips, groups and repeats.

Each `parse_*` function's docstring is its grammar rule. A stretch of words that none of them can
read becomes an `Aside` where it names nothing to work, else an `Unread`, so the rest of the row is
read all the same.
"""

from dataclasses import replace

from booklet.model.parsed import Stated
from booklet.model.tree import (
    Chain,
    MirrorBack,
    Node,
    Repeat,
    Ring,
    Where,
    Work,
)
from booklet.rows.acts import parse_bare_colour, parse_colour, parse_not_worked, take_clause
from booklet.rows.brackets import names_twins, parse_bracket, parse_rep, parse_star, parse_target_first
from booklet.rows.chains import (
    parse_chain,
    parse_drawn_loop,
    parse_free_chain,
    parse_held_cluster,
    parse_more_made,
)
from booklet.rows.counts import parse_bare_count, parse_dash_count
from booklet.rows.first_words import parse_by_first_word
from booklet.rows.layers import FLATTENED, parse_flattened, parse_held_together, parse_through
from booklet.rows.remarks import parse_remark_step, parse_stands_for
from booklet.rows.repeats import parse_times
from booklet.rows.row_repeats import begins_row_repeat, parse_even_rows, parse_row_repeat
from booklet.rows.rows_until import take_over_others
from booklet.rows.settling import settle_last
from booklet.rows.stitches import continue_last, parse_numbered, parse_work
from booklet.rows.stream import Stream
from booklet.rows.tokens import Token
from booklet.rows.unread import skip_unread
from booklet.rows.ways import (
    names_made,
    names_other_side,
    names_some_chains,
    parse_as_below,
    parse_other_side,
    says_there_should_be,
    tells_growth,
    tells_the_last,
    tells_the_way,
)
from booklet.rows.whole_rounds import repeat_trailing, repeat_whole, take_so_on

CHANGES = ("inc", "dec", "increases", "decreases", "adds", "grows")
Count = list[Stated]


def _pass_told(stream: Stream) -> bool:
    """A sentence about the work: "At the end of Row 20 there are 120 dc", "Each row increases by 8 sts" """
    begins = stream.index > 0 and stream.tokens[stream.index - 1].is_mark(".")
    grows = stream.peek().is_word("each") and stream.peek(1).is_word("rows", "rounds")
    tells = begins and (stream.peek().is_word("at") or (grows and str(stream.peek(2).value) in CHANGES))
    while tells and not stream.done and not stream.peek().is_mark("."):
        stream.take()
    return tells


def parse_steps(stream: Stream, stated: Count) -> list[Node]:
    """steps = (step | separator)*, up to the end of the stream; counts go to `stated`."""
    steps: list[Node] = []
    marks: dict[str, int] = {}
    while not stream.done:
        token = stream.peek()
        before = stream.index
        if token.is_mark(",", ";", ".", "!", "/", '"', ":") and not _dash_count(
            stream, stated, bool(steps) and not isinstance(steps[-1], Ring)
        ):
            stream.index = max(stream.index, before + 1)
        elif (
            token.is_mark("-", "=") and _dash_count(stream, stated, bool(steps) and not isinstance(steps[-1], Ring))
        ) or token.is_mark("-", "="):
            stream.index = max(stream.index, before + 1)
        elif _pass_told(stream) or _parse_last_time(stream, steps, stated) or take_so_on(stream, steps):
            pass
        elif says_there_should_be(stream):
            stream.index += 3
        elif token.kind == "num" and steps and (bare := parse_bare_count(stream)):
            stated.append(bare)
        elif token.kind == "star" and not (marks and names_twins(stream)):
            parse_star(stream, steps, marks)
        elif begins_row_repeat(stream, steps):
            steps.append(parse_row_repeat(stream))
            steps.extend(take_over_others(stream))
        elif token.is_word("rep") or token.kind == "star":
            _parse_again(stream, steps, marks, stated)
        elif token.is_mark("(", "["):
            marks["("] = len(steps)
            steps.extend(parse_bracket(stream, steps, stated, parse_steps))
        elif stream.index == before and not token.is_mark(",", ";", ".", ":"):
            parsed = _parse_step(stream, steps)
            steps.extend(parsed if parsed is not None else skip_unread(stream, before, steps))
            settle_last(stream, steps, before)
            repeat_whole(stream, steps, before)
        if stream.index == before:
            stream.index += 1
    return steps


def _parse_last_time(stream: Stream, steps: list[Node], stated: Count) -> bool:
    """last_time = "when" "repeating" ["from" mark] … "last" "time" "," ["work"] steps: the end of the last repeat"""
    begins = stream.peek().value in ("when", "whenever") and stream.peek(1).is_word("rep")
    if not begins or not steps or not isinstance(steps[-1], Repeat):
        return False
    while not stream.done and not stream.peek().is_mark(","):
        stream.take()
    stream.take_mark(",")
    stop = stream.index
    while stop < stream.stop and not stream.tokens[stop].is_mark(".", ";"):
        stop += 1
    instead = parse_steps(stream.inner(stream.index, stop), stated)
    stream.index = stop
    steps[-1] = replace(steps[-1], drop=1, instead=tuple(instead))
    return True


def _dash_count(stream: Stream, stated: Count, worked: bool) -> bool:
    if not stream.peek().is_mark("-", "=", ":") or not worked or stream.nested:
        return False
    found = parse_dash_count(stream)
    if found:
        stated.append(found)
    return found is not None


def _parse_step(stream: Stream, steps: list[Node]) -> list[Node] | None:
    """step = work | chain | skip | colour | turn | join | ring | loops | leave | even | target-first work"""
    token = stream.peek()
    first = stream.index
    if tells_growth(stream, steps) or names_made(stream, steps):
        return take_clause(stream, first)
    even = parse_even_rows(stream)
    if even:
        return even
    if token.kind == "num":
        return parse_more_made(stream, steps) or parse_numbered(stream, parse_steps)
    if token.kind == "chn":
        stream.take()
        return [Chain(stream.place(first), (int(token.value),))]
    if token.kind == "st":
        return parse_chain(stream) if token.value == "ch" else parse_work(stream, (1,), first)
    if token.kind == "colour":
        return parse_bare_colour(stream)
    if token.value in ("odd", "even") and stream.peek(1).value == "number":
        return parse_free_chain(stream, first)
    if token.value in ("holding", "retaining", "keeping") and (cluster := parse_held_cluster(stream)):
        return cluster
    if token.value == "do" and stream.peek(1).value == "not" and (left := parse_not_worked(stream)):
        return left
    if token.value in ("draw", "pull") and (drawn := parse_drawn_loop(stream)):
        return drawn
    if token.value in FLATTENED:
        return parse_flattened(stream)
    if token.kind != "w":
        return None
    return _parse_word_step(stream, steps, token, first)


def _parse_word_step(stream: Stream, steps: list[Node], token: Token, first: int) -> list[Node] | None:
    """A step that a word other than a stitch begins, by the table of such words."""
    word = str(token.value)
    if word == "in" and stream.peek(1).kind == "colour":
        return parse_colour(stream)
    if word == "in" and stream.peek(1).kind == "st" and stream.peek(2).is_mark(":"):
        stream.index += 3
        return []
    behind = bool(steps) and (
        isinstance(last := steps[-1], Repeat) or (isinstance(last, Work) and last.where.how == "each")
    )
    if (word in ("working", "and") or (word == "last" and behind)) and tells_the_last(stream, steps):
        return take_clause(stream, first, ":")
    if word == "opposite" or (
        not names_some_chains(stream) and word in ("working", "in", "around") and names_other_side(stream)
    ):
        return parse_other_side(stream)
    if word == "and" and (further := continue_last(stream, steps)):
        return further
    if tells_the_way(stream):
        return take_clause(stream, first)
    if word in ("working", "work") and (worked := _parse_working(stream, steps)) is not None:
        return worked
    if word in ("for", "as", "to") and (said := parse_stands_for(stream, steps)) is not None:
        return said
    if word in FILLERS:
        if not repeat_trailing(stream, steps):
            stream.take()
        return []
    if word in ("counts as", "does not count", "tch"):
        return parse_remark_step(stream, steps)
    if word in ("in", "next", "over", "each"):
        return parse_through(stream) or parse_target_first(stream, parse_steps)
    if word == "from" and (again := _parse_between_marks(stream)):
        return again
    return parse_by_first_word(stream, word)


def _parse_working(stream: Stream, steps: list[Node]) -> list[Node] | None:
    """What "work" or "working" says of a row by itself, with no stitch behind it"""
    return _parse_mirror(stream, steps) or parse_held_together(stream) or parse_as_below(stream)


def _parse_mirror(stream: Stream, steps: list[Node]) -> list[Node] | None:
    """mirror = "work" "back" "from" ["the"] "center" ["to" …]"""
    first = stream.index
    stream.take()
    if stream.take_word("back") and stream.take_word("from"):
        stream.skip_articles()
        if stream.take_word("center"):
            take_clause(stream, first)
            if steps and isinstance(steps[-1], Work) and steps[-1].where.how in ("group", "center"):
                steps[-1] = replace(steps[-1], where=Where())  # "sc in center st": where the first half ends
            return [MirrorBack(stream.place(first))]
    stream.index = first
    return None


def _parse_again(stream: Stream, steps: list[Node], marks: dict[str, int], stated: Count) -> None:
    if not _parse_stretch_again(stream, steps, marks):
        parse_rep(stream, steps, marks, stated, parse_steps)


def _parse_stretch_again(stream: Stream, steps: list[Node], marks: dict[str, int]) -> bool:
    """again = "rep" "from" mark "to" mark [times], behind further steps: "*side, corner*, long side; rep from * to *"

    Where the second mark stands right before it, all that the marks hold is one repeat (`brackets.parse_rep`).
    """
    first = stream.index
    stars = [at for at in range(first) if stream.tokens[at].kind == "star"]
    if (
        stream.take_word("rep")
        and stream.peek().is_word("from")
        and len(stars) > 1
        and stream.tokens[stars[-1]].value == stream.peek(1).value
    ):
        further = any(token.kind in ("st", "chsp", "chn") for token in stream.tokens[stars[-1] + 1 : first])
        parsed = _parse_between_marks(stream) if further else None
        if parsed:
            steps.extend(parsed)
            marks.pop("*", None)
            return True
    stream.index = first
    return False


def _parse_between_marks(stream: Stream) -> list[Node] | None:
    """between = "from" mark "to" mark ["once" | n "times"]: what stands between the marks, once more"""
    opening, closing = stream.peek(1), stream.peek(3)
    if opening.kind != "star" or not stream.peek(2).is_word("to", "and") or closing.kind != "star":
        return None
    first = stream.index
    stars = [at for at in range(first) if stream.tokens[at].kind == "star"]
    ends = [at for at in stars if stream.tokens[at].value == closing.value]
    starts = [at for at in stars if stream.tokens[at].value == opening.value and ends and at < ends[-1]]
    if not starts:
        return None
    body = parse_steps(stream.inner(starts[-1] + 1, ends[-1]), [])
    stream.index += 4
    often = parse_times(stream)
    if often is None or often.count == (1,):
        return body
    return [Repeat(stream.place(first), tuple(body), often.until, often.count, mark="(")]


FILLERS = frozenset(("and", "working", "here", "the", "as", "loosely", "that", "by", "around", "across", "to end"))
