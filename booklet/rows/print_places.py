"""Where the hook goes, in words: one form for each kind of place, each of which the reader knows."""

import re
from collections.abc import Callable

from booklet.model.tree import ANY_STITCH, PerSize, What, Where
from booklet.rows.markers import MARKED, name_marked
from booklet.rows.print_names import Manner, is_one, print_number, print_what, print_whats
from booklet.terms import load_table

ONE: PerSize = (1,)
INTO = {"back": "BLO", "front": "FLO", "third": "third loop", "bumps": "back bump", "both": "both loops"}
AROUND = re.compile(r"(?:FP|BP)")
TOGETHER = re.compile(r"\d+tog$")
AROUND_WHAT = ("next", "each", "first", "last", "same")  # places that "around" may stand before


def print_place(stitch: str, times: PerSize, where: Where, manner: Manner) -> str:
    """The words behind a stitch: `in next 3 sts`, `around next dc`, `over next 2 sts`; "" where none are needed."""
    if where.bare:
        return f"in {INTO[where.loops]}" if where.loops else ""
    several = not is_one(times, manner)
    if where.loops:
        return print_target(where, manner, several)
    if AROUND.match(stitch) and where.how in AROUND_WHAT:
        return f"around {print_where(where, manner, several)}"
    if where.over and stitch in load_table("stitches"):
        return "through both layers"
    if where.over:
        return f"over {print_where(where, manner)}"
    if TOGETHER.search(stitch) and where.how == "next" and not several and not is_one(where.count, manner):
        return f"over {print_where(where, manner)}"
    return print_target(where, manner, several)


def print_target(where: Where, manner: Manner, several: bool = False) -> str:
    """A place with its preposition; `several` where more than one stitch goes into each of the places."""
    if where.how == "gap":
        return _print_gap(where, manner)
    loops = f"{INTO[where.loops]} of " if where.loops else ""
    return f"in {loops}{print_where(where, manner, several)}"


def print_where(where: Where, manner: Manner, several: bool = False) -> str:
    """A place without its preposition."""
    return PLACES[where.how](where, manner, several)


def print_extent(leave: PerSize, what: What, manner: Manner) -> str:
    """How far along: `across`, `to last 3 sts`, `to last st`."""
    if leave == (0,):
        return manner.whole
    if is_one(leave, manner):
        return f"to last {print_what(what, ONE, manner)}"
    return f"to last {print_number(leave, manner)} {print_what(what, leave, manner)}"


def print_ordinal(number: int) -> str:
    """1st, 2nd, 3rd, 4th … 11th, 21st."""
    ending = "th" if 10 < number % 100 < 14 else {1: "st", 2: "nd", 3: "rd"}.get(number % 10, "th")
    return f"{number}{ending}"


def _print_counted(where: Where, manner: Manner, several: bool) -> str:
    """`next st`, `first 3 sts`, `each of last 2 dc`; `next` is left out before a corner of no number."""
    whats = print_whats(where.what, where.count, manner)
    whats += _print_below(where, manner)
    if is_one(where.count, manner):
        return whats if where.what[0].kind.startswith("row end ") else f"{where.how} {whats}"
    each = "each of " if several else ""
    return f"{each}{where.how} {print_number(where.count, manner)} {whats}"


def _print_each(where: Where, manner: Manner, several: bool) -> str:
    if where.what[0].kind.startswith("row end "):
        whats = print_whats(where.what, ONE, manner).replace("end of", "end of each", 1)
        return f"{whats} {print_extent(where.leave, where.leave_what, manner)}"
    words = " and ".join(f"each {print_what(what, ONE, manner)}" for what in where.what)
    if where.how == "until":
        sts = print_what(ANY_STITCH, where.count, manner)
        return f"{words} until there are {print_number(where.count, manner)} {sts}"
    if where.passing:
        words += f" {print_extent(where.leave, where.leave_what, manner)}"
        return f"{words}, {'missing' if manner.terms == 'UK' else 'skipping'} every {print_ordinal(where.passing)} st"
    if where.how == "up to":
        return f"{words} {print_goal(where.leave, where.leave_what, manner)}"
    return f"{words} {print_extent(where.leave, where.leave_what, manner)}"


def print_goal(before: PerSize, what: What, manner: Manner) -> str:
    """`to next ch-2 sp`, `to center st`, `to 1 st before center st`"""
    named = name_marked(what) if what.kind in MARKED else print_what(what, ONE, manner)
    if what.kind != "center" and before == (0,):
        return f"to next {named}"
    short = f"{print_number(before, manner)} {print_what(ANY_STITCH, before, manner)} before " if before != (0,) else ""
    if what.kind in MARKED:
        return f"to {short}next {named}"
    return f"to {short}{'center' if manner.terms == 'US' else 'centre'} st"


def _print_center(where: Where, manner: Manner, several: bool) -> str:
    which = "center" if manner.terms == "US" else "centre"
    return f"{which} {print_whats(where.what, ONE, manner)}"


def _print_same(where: Where, manner: Manner, several: bool) -> str:
    return f"same {print_whats(where.what, ONE, manner)}"


def _print_gap(where: Where, manner: Manner) -> str:
    if where.leave == (1,):
        return f"between each {'group' if where.what == (What('group'),) else 'st'}"
    if where.what == (What("group"),):
        return "between next 2 groups"
    if where.what == (What("sp"),):
        return "next sp between sts"
    if where.count == (0,):
        return "between last st and next st"
    return f"between next {print_number(tuple(count + 1 for count in where.count), manner)} sts"


def _print_unworked(where: Where, manner: Manner, several: bool) -> str:
    if where.leave != (1,):
        return "each unworked st " + print_extent((0,), ANY_STITCH, manner)
    number = "" if is_one(where.count, manner) else f"{print_number(where.count, manner)} "
    return f"next {number}unworked {print_whats(where.what, where.count, manner)}"


def _print_skipped(where: Where, manner: Manner, several: bool) -> str:
    word = "missed" if manner.terms == "UK" else "skipped"
    if where.count == (0,):
        return f"each {word} {print_whats(where.what, ONE, manner)}{_print_below(where, manner)}"
    number = "" if is_one(where.count, manner) else f"{print_number(where.count, manner)} "
    each = "each of " if number and several else ""
    return f"{each}next {number}{word} {print_whats(where.what, where.count, manner)}{_print_below(where, manner)}"


def _print_below(where: Where, manner: Manner) -> str:
    return f" {where.below} {manner.word}{'' if where.below == 1 else 's'} below" if where.below else ""


def _print_in_group(where: Where, manner: Manner, several: bool) -> str:
    which = print_ordinal(where.nth) if where.nth else "center" if manner.terms == "US" else "centre"
    of = "each" if where.leave == (1,) else "next"
    return f"{which} {print_whats(where.what, ONE, manner)} of {of} group"


def _print_nth(where: Where, manner: Manner, several: bool) -> str:
    numbers = [print_ordinal(where.nth + at) for at in range(where.count[0] if where.from_hook else 1)]
    named = " and ".join(filter(None, (", ".join(numbers[:-1]), numbers[-1])))
    return f"{named} {print_whats(where.what, ONE, manner)}" + (" from hook" if where.from_hook else "")


def _print_top(where: Where, manner: Manner, several: bool) -> str:
    chains = where.what[0].chains
    chain = f"{'beg ' if manner.in_rounds else ''}ch-{chains}" if chains else "beg ch" if manner.in_rounds else "tch"
    return f"{print_ordinal(where.nth)} ch of {chain}" if where.nth else f"top of {chain}"


def _print_ring(where: Where, manner: Manner, several: bool) -> str:
    return "ring"


def _print_join(where: Where, manner: Manner, several: bool) -> str:
    return f"same {print_whats(where.what or (ANY_STITCH,), ONE, manner)} as join"


def _print_elsewhere(where: Where, manner: Manner, several: bool) -> str:
    if is_one(where.count, manner):
        return f"{print_whats(where.what, ONE, manner)} of other motif"
    return f"next {print_number(where.count, manner)} {print_whats(where.what, where.count, manner)} of other motif"


PLACES: dict[str, Callable[[Where, Manner, bool], str]] = {
    "next": _print_counted,
    "first": _print_counted,
    "last": _print_counted,
    "each": _print_each,
    "up to": _print_each,
    "until": _print_each,
    "unworked": _print_unworked,
    "elsewhere": _print_elsewhere,
    "piece": lambda where, manner, several: f"each {print_whats(where.what, ONE, manner)} around {where.piece}",
    "begun": lambda where, manner, several: f"same {print_whats(where.what, ONE, manner)} as first st",
    "same": _print_same,
    "gap": lambda where, manner, several: _print_gap(where, manner),
    "skipped": _print_skipped,
    "group": _print_in_group,
    "center": _print_center,
    "made": lambda where, manner, several: f"last {print_whats(where.what, ONE, manner)} made",
    "nth": _print_nth,
    "top": _print_top,
    "ring": _print_ring,
    "join": _print_join,
}
