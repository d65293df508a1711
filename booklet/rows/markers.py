"""Markers: where one is put into the work, and rows that go as far as one."""

import re
from collections.abc import Sequence

from booklet.model.places import What
from booklet.model.tree import Aside, Group, Mark, Node, Repeat, Work
from booklet.rows.acts import take_clause
from booklet.rows.stream import Stream
from booklet.rows.walking import walk_steps

MARKED = ("marked", "marker")  # a stitch that holds a marker; a marker, in a stitch or between two
BEGINNING = re.compile(
    r"\b(?:first|beg\w*|start\w*|end|rnds?|rounds?|rows?|each|every|all|rs|ws|right side)\b", re.IGNORECASE
)
CENTER = re.compile(r"\b(?:cent(?:er|re)|middle)\b", re.IGNORECASE)
NTH = re.compile(r"\b(?P<nth>\d{1,3})(?:st|nd|rd|th)\s+(?:sts?|stitch|sc|hdc|dc|htr|tr)\b", re.IGNORECASE)
AROUND_CENTER = re.compile(
    r"\b(?:each|either|both) sides? of (?:the )?cent(?:er|re) (?P<count>\d{1,3}) (?:sts?|sc|hdc|dc|htr|tr)\b",
    re.IGNORECASE,
)
# "Move marker to 2nd of these 3 sts"
OF_GROUP = re.compile(
    r"\b(?P<nth>\d)(?:st|nd|rd|th)\s+of\s+(?:these\s+|the\s+|those\s+)?(?P<number>\d)\b", re.IGNORECASE
)
ORDINAL = re.compile(r"\b(?P<nth>\d{1,3})(?:st|nd|rd|th)\b", re.IGNORECASE)
MADE = re.compile(r"\b(?:(?:last|this|that|same)\s+(?:st|stitch|sc|hdc|dc|htr|tr)\b|just made|it\b)", re.IGNORECASE)
ALONE = re.compile(r"(?:place\s+(?:a\s+|stitch\s+)*marker|pm)(?:\s+here)?\W*", re.IGNORECASE)
MOVES = re.compile(r"mov", re.IGNORECASE)
UP = re.compile(
    r"mov\w*\s+(?:the\s+)?markers?(?:\s+up)?\W*|mov\w*.*\b(?:cent(?:er|re)|middle)\b.*|mov\w*\s.*\bas you go\W*",
    re.IGNORECASE,
)


def parse_marker(stream: Stream) -> list[Node]:
    """marker = ("place marker" | "mark" | "move marker") words up to the end of the clause

    A marker moves up by itself, with the stitch that is worked into its own. One at the beginning of the row or round
    says where that is, and no more.
    """
    first = stream.index
    clause = take_clause(stream, first)
    while stream.peek().is_mark(",") and stream.peek(1).kind == "ord":  # "in 10th, 20th and 30th sc"
        stream.take()
        clause = take_clause(stream, first)
    words = stream.words(first, stream.index)
    place = ""
    if MOVES.match(words):
        place = "" if UP.fullmatch(words) or _is_middle(words) else "?"
    elif around := AROUND_CENTER.search(words):
        place = f"|{around['count']}|"
    elif NTH.search(words):
        place = ",".join(nth["nth"] for nth in ORDINAL.finditer(words))
    elif BEGINNING.search(words):
        place = ""
    elif CENTER.search(words):
        place = "center"
    elif MADE.search(words):
        place = "last"
    else:
        place = "here" if ALONE.fullmatch(words) else ""
    return [Mark(stream.place(first), words, place)] if place else clause


def _is_middle(words: str) -> bool:
    """Is it the middle one of the stitches just made in the marked one, where the marker goes by itself?"""
    named = OF_GROUP.search(words)
    return named is not None and 2 * int(named["nth"]) == int(named["number"]) + 1


def list_marks(steps: Sequence[Node]) -> list[str]:
    """Where the markers of a line that works nothing are put: in these stitches of the row before it."""
    places = [place for step in walk_steps(steps) if isinstance(step, Mark) for place in step.place.split(",")]
    return [place for place in places if place.isdigit() or place.startswith("|")]


def goes_by_markers(steps: Sequence[Node]) -> bool:
    """Does any step go into a marked stitch, or as far as a marker?"""
    for step in walk_steps(steps):
        if isinstance(step, Work | Group):
            also = step.also if isinstance(step, Work) else ()
            wheres = [step.where, *(rule.where for rule in also)]
            if any(what.kind in MARKED for where in wheres for what in (*where.what, where.leave_what)):
                return True
        if isinstance(step, Repeat) and step.what.kind in MARKED:
            return True
    return False


def name_marked(what: What) -> str:
    """`marked st`, `marker`"""
    return "marked st" if what.kind == "marked" else "marker"


def sets_markers(steps: Sequence[Node]) -> bool:
    """Is a marker put into the work?"""
    return any(isinstance(step, Mark) for step in walk_steps(steps))


def without_asides(steps: Sequence[Node]) -> list[Node]:
    """The steps that do something, a marker among them."""
    return [step for step in steps if not isinstance(step, Aside) or isinstance(step, Mark)]
