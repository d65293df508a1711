"""Shaping told for several rows at once: "Inc 1 st at each end of next row and every 4th row 3 more times"."""

import re
from dataclasses import replace

from booklet.model.tree import ShapeRows
from booklet.reading.size_lists import SIZE_LIST, read_size_list
from booklet.source import Span

EVERY = (
    r"(?P<each>every)\s+row|(?:every\s+)?(?:(?:foll\w*\s+)?(?P<nth>\d{1,2})(?:st|nd|rd|th)|"
    r"(?:foll\w*\s+)?(?P<other>other|alternate|alt|2nd|second))\s+(?:foll\w*\s+)?rows?"
)
COUNT = rf"(?:{SIZE_LIST}|\d{{1,3}}(?!\s*[(\[]\d+\s*[,:;)\]]))"
PLACE = (
    r"(?:at\s+|on\s+)?(?:(?P<both>(?:each|both)\s+(?:ends?|sides?|edges?))"
    r"|(?:the\s+)?(?P<edge>(?:neck|armhole|front|side|outer|inner|shaped|sloping|raglan)\s+edges?)"
    r"|(?:the\s+)?(?P<one>beg\w*|start|end))"
)
SHAPE = re.compile(
    rf"^\W*(?:(?:cont\w*|work\w*|keeping)\s+(?:(?:in\s+)?\w+(?:\s+(?:correct|as\s+(?:set|established)))?|even)?,?\s*)?"
    rf"(?P<verb>inc|dec)\w*\s+(?P<by>1|one|2|two|3|three)\s+(?:sts?|stitch(?:es)?|sc|hdc|dc|tr)\s+{PLACE}\s*(?:of\s+|on\s+|in\s+)?"
    rf"(?:(?:the\s+)?next\s+(?:row\s+)?and\s+(?:the\s+)?foll\w*\s+(?P<foll>{COUNT})\s+(?P<alt>alt\w*\s+|other\s+)?rows?"
    rf"|(?:the\s+)?next\s+(?:(?P<rows>{COUNT})\s+)?(?P<run>alt\w*\s+|other\s+)?rows?(?!\s*,?\s+(?:and|then)\b)"
    rf"|(?P<next>(?:the\s+)?(?:next|this)\s+(?:row,?\s+)?(?:and|then)\s+)?(?:then\s+)?(?:on\s+|of\s+)?(?:{EVERY})\s*,?\s*"
    rf"(?:(?P<times>{COUNT}|once|twice)\s*(?:more\s+)?(?:times)?(?:\s+more)?"
    rf"|(?:until\s+(?:there\s+are\s+|you\s+have\s+)?|to\s+)(?P<until>{SIZE_LIST}|\d{{1,3}})\s*(?:sts?|stitches|sc|hdc|dc|tr)?"
    r"(?:\s+(?:are\s+)?(?:rem\w*|left|on\s+the\s+row))?))\s*(?:[.,:;=(\[]|[-–—]|$)",
    re.IGNORECASE,
)
MORE = re.compile(
    r"^[^.]{0,12}\b(?:then|and)\b[^.]{0,20}\b(?:every|alternate|other|\d+(?:st|nd|rd|th))\b", re.IGNORECASE
)
SAME_TIME = re.compile(r"\bat the same time\b", re.IGNORECASE)
WORDS = {"once": (1,), "twice": (2,)}
FEW = {"one": 1, "two": 2, "three": 3}


def read_shaping(span: Span, sizes: int) -> ShapeRows | None:
    """The rows that such a sentence stands for; None where it is none, or leaves open how many."""
    match = SHAPE.match(span.text)
    if match is None or MORE.search(span.text[match.end() - 1 :]) or SAME_TIME.search(span.text):
        return None
    place = span.sub(match.start("verb"), len(match.group().rstrip(" .,:;=([-–—")))
    by = FEW.get(match["by"].lower()) or int(match["by"])
    adds, ends = match["verb"].lower() == "inc", 2 if match["both"] else 1
    shape = ShapeRows(place, adds, False, 1, (1,), ends=ends, by=by, edge=match["edge"] is not None)
    said = match["foll"] or match["rows"] or match["times"] or match["until"]
    numbers = (WORDS.get(said.lower()) or read_size_list(said)) if said else (1,)
    if numbers is None or len(numbers) not in (1, sizes):
        return None
    if match["foll"]:
        return replace(shape, next=True, every=2 if match["alt"] else 1, times=numbers)
    if not (match["times"] or match["until"]):
        if match["run"]:  # "on next 3 alt rows": the first of them is the next row
            return replace(shape, next=True, every=2, times=tuple(max(0, number - 1) for number in numbers))
        return replace(shape, times=numbers)
    every = 1 if match["each"] else int(match["nth"]) if match["nth"] else 2
    if not every:
        return None
    shape = replace(shape, next=bool(match["next"]), every=every)
    return replace(shape, times=(), until=numbers) if match["until"] else replace(shape, times=numbers)
