"""Rows on trust: how many stitches each of a range has, and whether the words agree with the count.

"Rnds 4-8: Continue increasing in this way, 6 sts each round. (48)" cannot be worked, but from 18 it comes to 48.
"""

import re
from collections.abc import Sequence

from booklet.model.parsed import Row, Stated
from booklet.model.tree import at_size
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
THEN = re.compile(r"\b(?:then|thereafter|after that)\b", re.IGNORECASE)  # of such a row only a part is told
WORDS = {"one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6}
NUMBER = r"(?:one|two|three|four|five|six|\d)"
STITCH = r"(?:sts?|stitch(?:es)?|sc|hdc|htr|dc|tr)"
ALONG = re.compile(
    rf"\b(?P<number>\d{{1,4}})\s*{STITCH}\s+(?:evenly\s+)?(?:along|on|across|down|up|over|to)\s+(?P<each>each|every|all|both)"
    rf"\s+(?:of\s+)?(?:the\s+)?(?:(?P<sides>{NUMBER})\s+)?(?P<kind>long|short|opposite)?\s*(?:\w+\s+)?(?:sides?|edges?)\b",
    re.IGNORECASE,
)
CORNERS = re.compile(
    rf"\b(?P<number>\d{{1,2}})\s*{STITCH}?\s+in\s+(?:each|every|all)\s+(?:of\s+)?(?:the\s+)?(?P<rest>remaining|other)?"
    rf"\s*(?:(?P<corners>{NUMBER})\s+)?corners?\b",
    re.IGNORECASE,
)
ANY_NUMBER = re.compile(rf"\b\d{{1,4}}\s*{STITCH}\b", re.IGNORECASE)


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


def compare_sides(row: Row, stated: Stated | None, size: int) -> Problem | None:
    """The count of a border on trust against its sides: "28 sc along each side and 3 sc in each corner. (124 sc)" """
    if stated is None or stated.plus or len(stated.items) != 1:
        return None
    text = row.words.text[: stated.span.start - row.words.start]
    sides = list(ALONG.finditer(text))
    corners = list(CORNERS.finditer(text))
    numbers = len(sides) + len(corners)
    if not sides or len(corners) > 1 or len(ANY_NUMBER.findall(text)) != numbers:
        return None
    often = [
        _number(found["sides"]) or (2 if found["kind"] or found["each"].lower() == "both" else 4) for found in sides
    ]
    total = sum(int(found["number"]) * times for found, times in zip(sides, often, strict=True))
    for found in corners:
        others = _number(found["corners"])
        total += int(found["number"]) * (others + bool(found["rest"]) if others else sum(often))
    needs = at_size(stated.items[0][0], size)
    return None if needs == total else Problem("count", stated.span, total, needs, what=stated.items[0][1])


def _number(word: str | None) -> int:
    return 0 if not word else WORDS.get(word.lower()) or int(word)


def compare_told(row: Row, stated: Stated | None, before: int, size: int) -> Problem | None:
    """The count of a range on trust against the change that its words tell for each row, from `before` stitches."""
    rows = len(row.label.numbers)
    match = EACH_ROW.search(row.words.text)
    ways = {bool(found["adds"]) for found in CHANGE.finditer(row.words.text)}
    if match is None or stated is None or stated.plus or len(stated.items) != 1 or len(ways) != 1 or not before:
        return None
    every = 2 if match["other"] else int(match["nth"] or 1)
    if not rows or not every or stated.series or THEN.search(row.words.text):
        return None
    change = _number(match["number"]) * (2 if match["ends"] else 1)
    sign = 1 if ways == {True} else -1
    totals = [before + sign * change * times for times in (rows // every, -(-rows // every))]
    needs = at_size(stated.items[0][0], size)
    return None if needs in totals else Problem("count", stated.span, totals[0], needs, what=stated.items[0][1])
