"""Which bracket steps stand in: a repeat, a group worked into one place, and either within another."""

from booklet.model.style import OTHER, ROUND, SQUARE, STARS
from booklet.model.tree import Repeat
from booklet.rows.print_names import Manner
from booklet.rows.walking import walk_steps

Bracket = tuple[str, str, Manner]
"""What opens it, what closes it, and how the steps in it are printed."""

IN_GROUP = "group"  # a repeat that is all of a group: it stands in the group's place, between brackets
MARKS = {ROUND: ("(", ")"), SQUARE: ("[", "]")}
OPPOSITE = {ROUND: SQUARE, SQUARE: ROUND}


def bracket_group(manner: Manner) -> Bracket:
    """The bracket of a group worked into one place."""
    return _bracket(manner.style.groups or ROUND, manner)


def bracket_repeat(step: Repeat, manner: Manner) -> Bracket | None:
    """The bracket of a repeat; None where it stands between stars.

    Words about the last time round can name nothing but a star, "rep from * 6 times" leaves open what
    "(…) 6 times" does not, and stars within stars cannot be told apart: such repeats keep the mark that they have.
    """
    wanted = manner.style.repeats
    if _is_bound(step) or (step.mark != "(" and (not wanted or _holds_star(step))):
        return None
    if wanted == STARS:
        return None if not manner.inside and not _holds_star(step) else _bracket(ROUND, manner)
    return _bracket(wanted or ROUND, manner)


def _holds_star(step: Repeat) -> bool:
    """Does a repeat that must stand between stars stand within this one?"""
    return any(isinstance(inner, Repeat) and _is_bound(inner) for inner in walk_steps(step.steps))


def _is_bound(step: Repeat) -> bool:
    return bool(step.drop or step.instead) or (step.until == "open" and step.mark != "(")


def _bracket(kind: str, manner: Manner) -> Bracket:
    """A bracket of this kind, or of the kind that the house has for one within another."""
    nested = manner.style.nested
    if manner.inside in MARKS and nested:
        kind = OPPOSITE[manner.inside] if nested == OTHER else nested
    opening, closing = MARKS[kind]
    return opening, closing, manner.within(kind)
