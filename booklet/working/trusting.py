"""Rows on trust: how many stitches each of a range has, and whether the words agree with the count.

"Rnds 4-8: Continue increasing in this way, 6 sts each round. (48)" cannot be worked, but from 18 it comes to 48.
"""

import re
from collections.abc import Sequence

from booklet.model.tree import Row, Stated, at_size
from booklet.working.problems import Problem

CHANGE = re.compile(
    r"\b(?P<adds>inc(?:reas\w*)?|more|gain\w*)\b|\b(?P<takes>dec(?:reas\w*)?|fewer|less)\b", re.IGNORECASE
)
UNIT = r"(?:sts?|stitch(?:es)?|sc|hdc|dc|tr|times)"
EACH_ROW = re.compile(
    rf"\b(?P<number>\d{{1,3}}|one|two)\s+(?:more\s+|fewer\s+)?{UNIT}?\s*(?:evenly\s+|more\s+|fewer\s+)?(?:(?:at|on|in|of)\s+)?"
    r"(?P<ends>(?:each|both)\s+(?:ends?|sides?|edges?)\s+)?(?:(?:of|on|in|at)\s+)?"
    r"(?:each|every|per)\s+(?:(?P<other>other|alt\w*|second)|(?P<nth>\d{1,2})(?:st|nd|rd|th))?\s*(?:row|rnd|round)\b",
    re.IGNORECASE,
)
WORDS = {"one": 1, "two": 2}


def share_out(
    stated: Stated | None, numbers: Sequence[int], number: int | None, below: int, size: int
) -> Stated | None:
    """The count of one row of a range on trust: its own, or as much nearer to the last one's as the others."""
    if stated is None or number not in numbers or len(numbers) < 2 or stated.plus or len(stated.items) != 1:
        return stated
    at = numbers.index(number)
    if stated.series:
        return stated.of_row(at)
    ((values, what),) = stated.items
    step, rest = divmod(at_size(values, size) - below, len(numbers) - at)
    if rest:
        return stated
    return Stated((((below + step,), what),), stated.span, includes_chain=stated.includes_chain)


def compare_told(row: Row, stated: Stated | None, before: int, size: int) -> Problem | None:
    """The count of a range on trust against the change that its words tell for each row, from `before` stitches."""
    rows = len(row.label.numbers)
    match = EACH_ROW.search(row.words.text)
    ways = {bool(found["adds"]) for found in CHANGE.finditer(row.words.text)}
    if match is None or stated is None or stated.plus or len(stated.items) != 1 or len(ways) != 1 or not before:
        return None
    every = 2 if match["other"] else int(match["nth"] or 1)
    if not rows or not every or stated.series:
        return None
    change = (WORDS.get(match["number"].lower()) or int(match["number"])) * (2 if match["ends"] else 1)
    sign = 1 if ways == {True} else -1
    totals = [before + sign * change * times for times in (rows // every, -(-rows // every))]
    needs = at_size(stated.items[0][0], size)
    return None if needs in totals else Problem("count", stated.span, totals[0], needs, what=stated.items[0][1])
