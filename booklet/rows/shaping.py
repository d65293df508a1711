"""Shaping told for several rows at once: "Inc 1 st at each end of next row and every 4th row 3 more times"."""

import re

from booklet.model.tree import ShapeRows
from booklet.reading.size_lists import SIZE_LIST, read_size_list
from booklet.source import Span

EVERY = (
    r"(?:every\s+)?(?:(?:foll\w*\s+)?(?P<nth>\d{1,2})(?:st|nd|rd|th)|(?P<other>other|alternate|alt|2nd|second))"
    r"\s+(?:foll\w*\s+)?rows?"
)
SHAPE = re.compile(
    rf"^\W*(?:(?:cont\w*|work\w*)\s+(?:in\s+\w+|even)?,?\s*)?(?P<verb>inc|dec)\w*\s+(?:1|one)\s+(?:st|stitch|sc|hdc|dc|tr)\s+"
    rf"(?:at\s+|on\s+)?(?:each|both)\s+(?:ends?|sides?)\s+(?:of\s+)?"
    rf"(?P<next>(?:the\s+)?(?:next|this)\s+row,?\s+(?:and|then)\s+)?(?:then\s+)?(?:on\s+|of\s+)?(?:every\s+)?{EVERY}\s*,?\s*"
    rf"(?P<times>{SIZE_LIST}|\d{{1,3}}|once|twice)\s*(?P<more>more\s+)?(?:times)?(?P<more2>\s+more)?\s*[.,(\[]",
    re.IGNORECASE,
)
WORDS = {"once": (1,), "twice": (2,)}


def read_shaping(span: Span, sizes: int) -> ShapeRows | None:
    """The rows that such a sentence stands for; None where it is none, or leaves open how many."""
    match = SHAPE.match(span.text)
    if match is None or not (match["next"] or match["nth"] or match["other"]):
        return None
    times = WORDS.get(match["times"].lower()) or read_size_list(match["times"])
    if times is None or len(times) not in (1, sizes):
        return None
    every = int(match["nth"]) if match["nth"] else 2
    place = span.sub(match.start("verb"), match.end("times"))
    return ShapeRows(place, match["verb"].lower() == "inc", bool(match["next"]), every, times) if every > 0 else None
