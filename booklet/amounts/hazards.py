"""What a pattern has that calls for care: as its author lists it, among its notions, as pieces of its own, and
where its prose says how long a cord is.

A drawstring that is crocheted is a cord whether or not `has:` names it, and it is as long as it measures. Only a
heading that says nothing else is taken so: "Tie (make 2)" is a cord, "Tie-dye border" is none.
"""

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from booklet.amounts.gauges import count_width, find_gauge, measure_stitches
from booklet.model.amounts import Measure
from booklet.model.measure import Length
from booklet.model.pattern import Pattern, Prose
from booklet.model.work import WorkedPart, WorkedPattern
from booklet.source import Span
from booklet.terms import load_table

LENGTH = re.compile(r'(?P<amount>\d+(?:[.,]\d+)?)\s*(?P<unit>mm|cm|in\b|inch(?:es)?|"|″|m\b)', re.IGNORECASE)
UNITS = {'"': "in", "″": "in", "inch": "in", "inches": "in"}
_LENGTH = r'(?P<length>\d+(?:[.,]\d+)?\s*(?:mm|cm|inch(?:es)?|in|m)\b|\d+(?:[.,]\d+)?\s*["″])'
_CORD = (
    r"(?P<cord>(?:(?:hood|neck|chin|waist|hem|cuff|sleeve|back|mitten|ear ?flap)[ -])?"
    r"(?:cords?|drawstrings?|ribbons?|straps?|strings?|lanyards?|sash(?:es)?|ties))\b"
)
CORD_THEN_LENGTH = re.compile(rf"(?i)\b{_CORD}(?:\s+(?:is|are|of|about|each|measures?|long))*,?\s+{_LENGTH}")
LENGTH_THEN_CORD = re.compile(rf"(?i)\b{_LENGTH}[ -]+(?:long\s+|of\s+|crochet(?:ed)?\s+|twisted\s+)*{_CORD}")
WORDS = re.compile(r"[a-z]+(?:-[a-z]+)?")
# What a heading may say of a piece beside its name.
PLAIN_WORDS = frozenset(
    ("front", "back", "left", "right", "long", "short", "first", "second", "one", "two", "the", "and")
)
# A piece of these is the thing itself; a crocheted eye or nose is no small part but what stands in for it.
PIECES = frozenset(
    ("loop", "neck cord", "waist cord", "sleeve cord", "back tie", "mitten cord", "sash", "cord", "fringe")
)
# Among notions these words mean what they say; needles have eyes, and pins hold the work.
NOTIONS = frozenset(("magnet", "small parts", "toggle", "stuffing", "weight"))
TOOLS = re.compile(r"needle|marker|\bpins?\b|thread|scissors|hook|tape|\bframe", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class Item:
    """Something that the pattern has: its words, the hazard they stand for ("" for none) and where they stand.

    `lengths_cm` are the lengths stated or measured, one or one a size; empty where none is known.
    """

    named: str
    hazard: str
    span: Span
    lengths_cm: tuple[float, ...] = ()


def list_items(pattern: Pattern, worked: WorkedPattern, measures: Sequence[Measure]) -> tuple[Item, ...]:
    """All that calls for care, in the order: listed, notions, pieces. What is listed is not told twice."""
    listed = tuple(list_named(pattern))
    known = {item.hazard for item in listed}
    others = (*list_notions(pattern), *list_pieces(pattern, worked, measures), *list_stated(pattern))
    # What was listed without a length gets it from the piece or the prose; a notion that was listed brings nothing.
    return (*listed, *(item for item in others if item.hazard not in known or item.lengths_cm))


def list_named(pattern: Pattern) -> Iterator[Item]:
    """What stands under `has:`."""
    after = max(0, pattern.source.text.find("\nhas:"))
    for named in pattern.has:
        length = read_length(named)
        yield Item(named, find_hazard(named), find_words(pattern, named, after), (length.cm,) if length else ())


def list_notions(pattern: Pattern) -> Iterator[Item]:
    """Eyes, buttons, filling and the like among the notions; ribbon is cut to length, so its length says nothing."""
    after = max(0, pattern.source.text.find("\nnotions:"))
    for named in pattern.notions:
        hazard = find_hazard(named)
        if hazard in NOTIONS and not TOOLS.search(named):
            yield Item(named, hazard, find_words(pattern, named, after))


def list_pieces(pattern: Pattern, worked: WorkedPattern, measures: Sequence[Measure]) -> Iterator[Item]:
    """Pieces that are a cord, a loop or a fringe by their heading, with their lengths."""
    for part in worked.parts:
        hazard = find_hazard(part.title)
        if hazard in PIECES and says_only(part.title, hazard):
            yield Item(part.title, hazard, part.span, measure_piece(pattern, part, measures))


def list_stated(pattern: Pattern) -> Iterator[Item]:
    """Cords whose length the prose states: `a ribbon 80 cm long`, `two 30 cm cords`, `the drawstring is 1 m`.

    "Tie" alone is a verb more often than not, and loops are what crochet is made of: these are passed over.
    """
    for part in pattern.parts:
        for block in part.blocks:
            if not isinstance(block, Prose):
                continue
            for pattern_of in (CORD_THEN_LENGTH, LENGTH_THEN_CORD):
                for match in pattern_of.finditer(block.span.text):
                    length = read_length(match["length"])
                    hazard = find_hazard(match["cord"])
                    if length is not None and hazard in PIECES:
                        yield Item(match["cord"], hazard, block.span.sub(match.start(), match.end()), (length.cm,))


def measure_piece(pattern: Pattern, part: WorkedPart, measures: Sequence[Measure]) -> tuple[float, ...]:
    """How long the piece is in each size: its greatest measure, or its chain where it is nothing but a chain."""
    own = [measure.cm for measure in measures if measure.part == part.title]
    longest: list[float] = []
    for size, rows in enumerate(part.rows):
        lengths = [cm[size] or 0.0 for cm in own if size < len(cm)]
        for row in rows[:1]:
            gauge = find_gauge(pattern, part, row)
            if gauge is not None:
                lengths.append(measure_stitches(count_width(row.fabric), gauge).cm)
        longest.append(max(lengths, default=0.0))
    return tuple(longest) if any(longest) else ()


def find_hazard(named: str) -> str:
    """The hazard that the author's words stand for, "" for none: "hood cord 20 cm" is a neck cord."""
    for hazard, words in load_table("cautions")["hazards"].items():
        if any(holds_words(named, word) for word in (hazard, *words)):
            return str(hazard)
    return ""


def says_only(title: str, hazard: str) -> bool:
    """True where a heading names the hazard and nothing that it might belong to."""
    words = {singular(word) for known in load_table("cautions")["hazards"][hazard] for word in WORDS.findall(known)}
    said = {singular(word) for word in WORDS.findall(title.lower())}
    return bool(said) and said <= words | {singular(word) for word in WORDS.findall(hazard)} | PLAIN_WORDS


def holds_words(text: str, words: str) -> bool:
    """True where all the words stand in the text, in any order, one or several of each."""
    present = {singular(word) for word in WORDS.findall(text.lower())}
    return all(singular(word) in present for word in WORDS.findall(words.lower()))


def singular(word: str) -> str:
    """`buttons` button, `booties` bootie; short words and `dress` stay."""
    return word[:-1] if len(word) > 3 and word.endswith("s") and not word.endswith("ss") else word


def read_length(text: str) -> Length | None:
    """The first length in a few words, such as "cord 40 cm"."""
    match = LENGTH.search(text)
    if match is None:
        return None
    unit = match["unit"].lower()
    return Length(float(match["amount"].replace(",", ".")), UNITS.get(unit, unit))


def find_words(pattern: Pattern, words: str, after: int = 0) -> Span:
    """The first place of the words in the source, the whole file where they are not written so."""
    at = pattern.source.text.find(words, after) if words else -1
    return pattern.source.span(at, at + len(words)) if at >= 0 else pattern.source.whole()
