"""A row's tree in the trade's ordinary notation: one form for each node, in US or UK terms, for all sizes or one.

What is printed reads back to the same tree, with the words of the chosen terms. Notes that the reader
takes no meaning from keep the author's words, in which only the names of stitches are carried over.
"""

import re
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from typing import Any

from booklet.model.parsed import Row, Stated
from booklet.model.style import PLAIN, STARS, Style
from booklet.model.tree import (
    ANY_STITCH,
    SPACE,
    Aside,
    Chain,
    ChangeEvenly,
    EarlierRow,
    Even,
    FastenOff,
    Free,
    Group,
    Join,
    KeepColours,
    Leave,
    Loops,
    Mark,
    MirrorBack,
    Node,
    OtherSide,
    Repeat,
    RepeatRows,
    Ring,
    ShapeRows,
    Skip,
    SkippedCount,
    TakeColour,
    Turn,
    Unread,
    What,
    Work,
)
from booklet.rows.print_brackets import IN_GROUP, bracket_group, bracket_repeat
from booklet.rows.print_labels import close_before, print_label, print_stated
from booklet.rows.print_names import (
    Manner,
    is_one,
    name_stitch,
    print_digits,
    print_number,
    print_stitches,
    print_what,
)
from booklet.rows.print_places import INTO, ONE, print_place, print_target, print_where
from booklet.rows.print_prose import carry_prose
from booklet.rows.print_repeats import print_often, print_rows_again
from booklet.rows.stream import TOLD
from booklet.rows.vocabulary import FILET

ROUNDS = re.compile(r"\b(?:rounds?|rnds?|around)\b", re.IGNORECASE)  # in a line without a label
FIRST_LETTER = re.compile(r"^([*+#]*[(\[]*)([a-z])")


@dataclass(frozen=True, slots=True)
class PrintedRow:
    """A row as words: `Row 1 (RS)`, its body, its count in brackets, and what is done when it is complete.

    `is_silent` tells that the count is left out on purpose.
    """

    label: str
    body: str
    count: str
    after: str = ""
    is_silent: bool = False

    @property
    def text(self) -> str:
        """The whole line."""
        words = " ".join(part for part in (self.body, self.count, self.after) if part)
        return f"{self.label}: {words}" if self.label else words


def print_row(
    row: Row, terms: str = "US", size: int | None = None, written_in: str = "US", style: Style = PLAIN
) -> PrintedRow:
    """The row in "US" or "UK" terms. `size` prints one size alone, by its place among the sizes.

    `written_in` are the terms of the source, in which the words of its asides stand.
    """
    manner = begin_row(row, terms, size, written_in, style)
    steps = tuple(_part_count(step, row.stated) if isinstance(step, Free) else step for step in row.steps)
    end = _find_end(steps)
    body, after = (_close(print_steps(part, manner)) for part in (steps[:end], steps[end:]))
    count = print_stated(row.stated, manner)
    return PrintedRow(print_label(row.label, manner), close_before(body, count, style), count, after)


def begin_row(row: Row, terms: str, size: int | None, written_in: str, style: Style) -> Manner:
    """How the row is printed: along, or round and round."""
    in_rounds = row.label.kind in ("round", "r") or (not row.label.text and ROUNDS.search(row.words.text) is not None)
    return Manner(terms, size, in_rounds, written_in, row.label.places, style)


def _part_count(step: Free, stated: Stated | None) -> Free:
    """A row that is left to the maker as a whole holds its count among its words; it is printed behind them."""
    if stated is None or not step.span.start < stated.span.start < step.span.end:
        return step
    return replace(step, text=step.span.sub(0, stated.span.start - step.span.start).text.rstrip(" .-–—"))


def _find_end(steps: Sequence[Node]) -> int:
    """Where the work is fastened off, with nothing but notes behind it; a line of nothing else has no such end."""
    end = len(steps)
    while end and isinstance(steps[end - 1], Aside | FastenOff):
        end -= 1
    while end < len(steps) and not isinstance(steps[end], FastenOff):
        end += 1
    return end or len(steps)


def _close(words: str) -> str:
    """A sentence: its first letter large, a full stop behind it."""
    words = _begin(words)
    return f"{words}." if words and not words.endswith((".", "!")) else words


def _begin(words: str) -> str:
    return FIRST_LETTER.sub(lambda match: match[1] + match[2].upper(), words)


def print_steps(steps: Sequence[Node], manner: Manner) -> str:
    """The steps in order, set apart by commas; remarks in brackets stand behind the step that they are about."""
    words = ""
    before: Node | None = None
    for at, step in enumerate(steps):
        printed = print_step(step, manner)
        if isinstance(step, TakeColour) and _counts_stitches(steps[at + 1 : at + 2]):
            continue  # "5 A": printed with the number
        if isinstance(before_it := steps[at - 1] if at else None, TakeColour) and _counts_stitches(steps[at : at + 1]):
            printed = f"{printed} {before_it.letter}"
        if not printed:
            continue
        if isinstance(before, Free):  # what is left to the maker reaches to the full stop
            words = f"{words}. {_begin(printed)}"
        elif goes_on(steps[at - 2] if isinstance(before, SkippedCount) and at > 1 else before, step):
            # "sc in 2nd ch from hook and in each ch across"
            words += f" and {printed[printed.index('in each') :]}"
        else:
            words += _print_break(before, step, printed) + printed if words else printed
        before = step
    return words


def goes_on(before: Node | None, step: Node) -> bool:
    """The same stitch along the chain after that in its nth chain from the hook: one stitch each, nothing beside."""
    if not (isinstance(before, Work) and isinstance(step, Work)) or step.where.how != "each":
        return False
    first, second = (replace(one, span=step.span, where=step.where) for one in (before, step))
    plain = not (step.also or step.where.loops or before.where.loops) and step.times == (1,)
    return plain and before.where.from_hook and before.where.count == (1,) and first == second


def _counts_stitches(steps: Sequence[Node]) -> bool:
    """Is the step a bare number of stitches?"""
    return any(isinstance(step, Work) and step.stitch == "st" and step.where.bare for step in steps)


def _print_break(before: Node | None, step: Node, printed: str) -> str:
    if isinstance(step, Aside) and printed[:1].isupper() and isinstance(before, FastenOff):
        return ". "  # "Fasten off. Fill the body"
    if isinstance(before, RepeatRows) and isinstance(step, Aside) and printed.startswith(("working ", "omitting ")):
        return ", "  # "Rep Row 2, working sc over dc": of the row that is repeated, no work of its own
    if isinstance(before, RepeatRows) or (isinstance(before, Repeat) and before.instead):
        return "; "  # the words of the last repeat end here
    if isinstance(step, OtherSide) or (isinstance(step, TakeColour) and not step.late):
        return "; "
    return " " if printed.startswith("(") and printed.endswith(")") and _is_note(printed) else ", "


def _is_note(printed: str) -> bool:
    """Is all of it one bracket?"""
    return printed.find(")") == len(printed) - 1


def print_step(step: Node, manner: Manner) -> str:
    """One step; "" for what cannot be told in words."""
    return FORMS[type(step)](step, manner)


def _print_chain(step: Chain, manner: Manner) -> str:
    words = f"ch {print_digits(step.count, manner)}"
    if step.drawn:
        words = f"draw up loop to height of {name_stitch(step.stands_for, manner.terms, manner.written_in)}"
    if step.free:  # the tree holds one number that fits; the rule is in the author's words
        words = " ".join(step.span.text.split()).lower()
        words = words if words.startswith("ch") else f"ch an {words} number"
    if step.counts is None:
        return words
    return f"{words} ({_print_counts(step.counts, step.stands_for, step.then, manner)}{_lasting(step.throughout)})"


def _print_counts(counts: bool, stitch: str, then: int, manner: Manner, several: bool = False) -> str:
    """`counts as dc and ch 2`, `does not count as a st`; `count` for several chains."""
    verb = ("count as" if several else "counts as") if counts else f"{'do' if several else 'does'} not count as"
    if stitch == SPACE:
        return f"{verb} ch-{then} sp"
    name = name_stitch(stitch, manner.terms, manner.written_in) if stitch else "a st"
    return f"{verb} {name}" + (f" and ch {then}" if then else "")


def _lasting(throughout: bool) -> str:
    return " throughout" if throughout else ""


def _print_also(step: Work | Group, manner: Manner) -> str:
    """`, working 3 sc in each corner sp`, `, ch 1 and sk each dc`"""
    if isinstance(step, Group):
        return f", working {print_step(step, manner)}"
    if step.stitch != "ch":
        return f", working {_print_work(step, manner)}"
    chain, skip = Chain(step.span, step.times), Skip(step.span, step.where)
    return f", {print_step(chain, manner)} and {print_step(skip, manner)}"


def _print_work(step: Work, manner: Manner) -> str:
    where = step.where
    also = "".join(_print_also(other, manner) for other in step.also)
    if where.how == "along":
        stitches = print_stitches(step.stitch, where.count, manner)
        return f"{print_number(where.count, manner)} {stitches} evenly along edge"
    if where.bare and where.how == "next" and not where.loops:
        return _print_bare(step, manner) + also
    times = where.count if where.bare and where.loops else step.times
    number = "" if is_one(times, manner) else f"{print_number(times, manner)} "
    place = print_place(step.stitch, step.times, where, manner)
    if step.stitch == "st" and where.how in ("each", "up to") and place.startswith("in each st"):
        return f"work {place.removeprefix('in each st').strip() or 'to end'}" + also
    return f"{number}{_print_long(step)}{print_stitches(step.stitch, times, manner)} {place}".rstrip() + also


def _print_long(step: Work) -> str:
    """ "long " before a stitch that is drawn up and whose own name does not say so"""
    return "long " if step.long and re.search("spike|long", step.stitch, re.IGNORECASE) is None else ""


def _print_bare(step: Work, manner: Manner) -> str:
    """A stitch that names no place: `sc`, `3 sc`; toys leave out the stitch as well (`3, inc`)."""
    count = step.where.count
    if step.stitch == "st":
        return print_number(count, manner)
    stitches = _print_long(step) + print_stitches(step.stitch, count, manner)
    if step.where.what[0].kind != "st" or not is_one(step.times, manner):
        times = "" if is_one(step.times, manner) else f"{print_number(step.times, manner)} "
        return f"{times}{stitches} {print_number(count, manner)} {print_what(step.where.what[0], count, manner)}"
    return (
        stitches
        if is_one(count, manner) and step.stitch.lower() not in FILET
        else f"{print_number(count, manner)} {stitches}"
    )


def _print_group(step: Group, manner: Manner) -> str:
    target = print_target(step.where, manner)
    (only, *others) = step.steps or (None,)
    if not others and isinstance(only, Repeat) and only.mark == "(" and only.until in ("times", "more"):
        return f"{print_step(only, manner.within(manner.inside or IN_GROUP))} {target}"
    opening, closing, inner = bracket_group(manner)
    return f"{opening}{print_steps(step.steps, inner)}{closing} {target}"


def _print_skip(step: Skip, manner: Manner) -> str:
    word = "miss" if manner.terms == "UK" else "sk"
    if any(what.kind not in ("ch", "ch-sp", "sp") for what in step.where.what[1:]):
        passed = (
            f"ch {what.chains}" if what.kind == "ch-sp" else print_what(what, (1,), manner) for what in step.where.what
        )
        return f"{word} ({', '.join(passed)})"
    return f"{word} {print_where(step.where, manner)}"


def _print_closing(step: Repeat, manner: Manner) -> str:
    """`6 sc through both layers of the flat piece`; empty where the repeat is none of a piece folded flat"""
    work = step.steps[0] if len(step.steps) == 1 else None
    if not isinstance(work, Work) or not work.where.over or step.mark not in ("", "(") or work.stitch.endswith("tog"):
        return ""
    stitches = print_stitches(work.stitch, step.count, manner)
    number = "" if step.until == "end" else f"{print_number(step.count, manner)} "
    return f"{number}{stitches} through both layers of the flat piece"


def _print_repeat(step: Repeat, manner: Manner) -> str:
    often = print_often(step, manner)
    if closing := _print_closing(step, manner):
        return closing
    if step.mark == "":
        return f"{' - '.join(print_step(inner, manner) for inner in step.steps)} {often}"
    bracket = bracket_repeat(step, manner)
    if bracket is not None:
        opening, closing, inner = bracket
        inside = f"{opening}{print_steps(step.steps, inner)}{closing}"
        return f"{inside}; rep {often}" if step.until == "open" else f"{inside} {often}"
    step = replace(step, mark="*") if step.mark == "(" else step
    manner = manner.within(STARS)
    inside = print_steps(step.steps, manner)
    if step.until == "times":
        return f"{step.mark}{inside}{step.mark} {often}"
    if step.drop and not step.instead:
        kept = print_steps(step.steps[: -step.drop], manner)
        left = print_steps(step.steps[-step.drop :], manner)
        return f"{step.mark}{kept}, ** {left}; rep from {step.mark} {often}, ending last rep at **"
    instead = print_steps(step.instead, manner).replace("; ", ", ")  # the reader ends it at the first semicolon
    ending = f", ending last rep with {instead}" if step.instead else ""
    return f"{step.mark}{inside}; rep from {step.mark} {often}{ending}"


def _print_join(step: Join, manner: Manner) -> str:
    stitch = name_stitch(step.stitch, manner.terms, manner.written_in)
    if step.where.how == "join" and step.stitch == "sl st":
        return "join" if step.where.what[0].kind == "st" else f"join with {stitch} {print_target(step.where, manner)}"
    return f"join with {stitch} {print_target(step.where, manner)}"


def _print_ring(step: Ring, manner: Manner) -> str:
    return f"join with {name_stitch('sl st', manner.terms)} to form ring" if step.chains else "make a magic ring"


def _print_colour(step: TakeColour, manner: Manner) -> str:
    letters = " and ".join(step.letter.split("+")) + (" held together" if "+" in step.letter else "")
    return f"change to {letters} in last st" if step.late else f"with {letters}"


def _print_earlier(step: EarlierRow, manner: Manner) -> str:
    if step.what == "skipped":
        return ""  # the steps name the skipped stitches themselves
    which = {"loops": "free loops", "stitches": "sts"}.get(step.what, "unworked sts")
    return f"working in {which}" + (f" of {manner.word.capitalize()} {step.number}" if step.number else "")


def _print_leave(step: Leave, manner: Manner) -> str:
    if step.what.kind == "tch":
        return f"leave {print_what(step.what, ONE, manner)} unworked"
    if not step.count:
        return "leave rem sts unworked"
    sts = print_what(ANY_STITCH, step.count, manner)
    return f"leave last {print_number(step.count, manner)} {sts} unworked"


def _print_change(step: ChangeEvenly, manner: Manner) -> str:
    stitch = print_what(What(step.stitch or "st"), step.count, manner)
    return f"{'inc' if step.adds else 'dec'} {print_number(step.count, manner)} {stitch} evenly {manner.whole}"


def _print_skipped_count(step: SkippedCount, manner: Manner) -> str:
    word = "missed" if manner.terms == "UK" else "skipped"
    return f"({word} ch {_print_counts(step.counts, step.stitch, step.then, manner, several=True)})"


def _print_words(step: Aside | Free, manner: Manner) -> str:
    return carry_prose(" ".join(step.text.split()), manner.written_in, manner.terms)


def _print_unread(step: Unread, manner: Manner) -> str:
    return "" if step.word == TOLD else carry_prose(" ".join(step.text.split()), manner.written_in, manner.terms)


FORMS: dict[type[Node], Callable[[Any, Manner], str]] = {
    Chain: _print_chain,
    Work: _print_work,
    Group: _print_group,
    Skip: _print_skip,
    Repeat: _print_repeat,
    Join: _print_join,
    Ring: _print_ring,
    Turn: lambda step, manner: "turn" if step.yes else "do not turn",
    TakeColour: _print_colour,
    KeepColours: lambda step, manner: f"in {'colours' if manner.terms == 'UK' else 'colors'} as established",
    Loops: lambda step, manner: f"in {INTO[step.loops]}{_lasting(step.throughout)}",
    SkippedCount: _print_skipped_count,
    Leave: _print_leave,
    EarlierRow: _print_earlier,
    MirrorBack: lambda step, manner: f"work back from {'centre' if manner.terms == 'UK' else 'center'}",
    OtherSide: lambda step, manner: "working along opposite side of ch",
    Even: lambda step, manner: "work even",
    ChangeEvenly: _print_change,
    Free: _print_words,
    ShapeRows: lambda step, manner: carry_prose(" ".join(step.span.text.split()), manner.written_in, manner.terms),
    FastenOff: lambda step, manner: "fasten off",
    RepeatRows: print_rows_again,
    Aside: _print_words,
    Mark: _print_words,
    Unread: _print_unread,
}
