"""Shaping told for several rows at once: "Inc 1 st at each end of next row and every 4th row 3 more times"."""

import re

from booklet.model.tree import ShapeRows
from booklet.reading.size_lists import SIZE_LIST, read_size_list
from booklet.source import Span

EVERY = (
    r"(?P<each>every)\s+row|(?:every\s+)?(?:(?:foll\w*\s+)?(?P<nth>\d{1,2})(?:st|nd|rd|th)|(?P<other>other|alternate|alt|2nd|second))"
    r"\s+(?:foll\w*\s+)?rows?"
)
SHAPE = re.compile(
    rf"^\W*(?:(?:cont\w*|work\w*)\s+(?:in\s+\w+|even)?,?\s*)?(?P<verb>inc|dec)\w*\s+(?:1|one)\s+(?:st|stitch|sc|hdc|dc|tr)\s+"
    rf"(?:at\s+|on\s+)?(?:each|both)\s+(?:ends?|sides?)\s+(?:of\s+)?"
    rf"(?P<next>(?:the\s+)?(?:next|this)\s+row,?\s+(?:and|then)\s+)?(?:then\s+)?(?:on\s+|of\s+)?(?:{EVERY})\s*,?\s*"
    rf"(?:(?P<times>{SIZE_LIST}|\d{{1,3}}(?!\s*[(\[]\d+\s*[,:;)\]])|once|twice)\s*(?:more\s+)?(?:times)?(?:\s+more)?"
    rf"|until\s+(?:there\s+are\s+|you\s+have\s+)?(?P<until>{SIZE_LIST}|\d{{1,3}})\s*(?:sts?|stitches|sc|hdc|dc|tr)?"
    r"(?:\s+(?:are\s+)?(?:rem\w*|left|on\s+the\s+row))?)\s*(?:[.,:;=(\[]|[-–—])",
    re.IGNORECASE,
)
MORE = re.compile(
    r"^[^.]{0,12}\b(?:then|and)\b[^.]{0,20}\b(?:every|alternate|other|\d+(?:st|nd|rd|th))\b", re.IGNORECASE
)
WORDS = {"once": (1,), "twice": (2,)}


def read_shaping(span: Span, sizes: int) -> ShapeRows | None:
    """The rows that such a sentence stands for; None where it is none, or leaves open how many."""
    match = SHAPE.match(span.text)
    if match is None or MORE.search(span.text[match.end() - 1 :]):
        return None
    said = match["times"] or match["until"]
    numbers = WORDS.get(said.lower()) or read_size_list(said)
    every = 1 if match["each"] else int(match["nth"]) if match["nth"] else 2
    if numbers is None or len(numbers) not in (1, sizes) or not every:
        return None
    place = span.sub(match.start("verb"), match.end("times") if match["times"] else match.end("until"))
    adds, first = match["verb"].lower() == "inc", bool(match["next"])
    if match["until"]:
        return ShapeRows(place, adds, first, every, until=numbers)
    return ShapeRows(place, adds, first, every, numbers)
