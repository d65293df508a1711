"""Titles without marks of a heading: lines in bold letters or in capitals alone; which titles are of notes."""

import re

from booklet.reading.labels import find_label, is_flow

_BOLD = re.compile(r" {0,3}(\*\*|__)(?P<words>[A-Z][^*_:]{1,60}?):?\1:?[ \t]*$")
_CAPITALS = re.compile(r" {0,3}(?P<words>[A-Z][A-Z'’ &-]{2,30}(?:\s*\((?:MAKE|make|Make) \d{1,2}\))?):?[ \t]*$")
# A heading of notes is made of these words and little else: "Notes", "Yarn and hook", "Before you begin".
# "Colour block" or "Joining round" are pieces.
# fmt: off
_NOTE_WORDS = frozenset(
    {
        "note", "notes", "material", "materials", "need", "yarn", "yarns", "hook", "hooks", "notion",
        "notions", "supplies", "tools", "abbreviation", "abbreviations", "key", "terms", "terminology",
        "glossary", "stitch", "stitches", "technique", "techniques", "guide", "finishing", "assembly",
        "making-up", "blocking", "care", "washing", "gauge", "tension", "swatch", "size", "sizes",
        "sizing", "measurement", "measurements", "level", "skill", "skills", "about", "introduction",
        "begin", "start", "safety", "warning", "warnings", "licence", "license", "copyright",
        "colours", "colors", "colourways", "colorways", "construction", "schematic", "schematics",
        "chart", "charts", "photo", "photos", "photographs", "tip", "tips", "errata", "contact",
    }
)
_FILLERS = frozenset(
    {
        "the", "a", "an", "and", "or", "of", "for", "to", "on", "in", "you", "your", "will", "what",
        "before", "us", "uk", "crochet", "special", "pattern", "patterns", "basic", "general", "used",
        "list", "finished", "approximate", "project", "designer's", "designers", "important", "useful",
        "additional", "up", "making", "instructions", "information", "size",
    }
)
# fmt: on
SPECIAL = re.compile(
    r"\b(?:special|pattern|basic) (?:stitch(?:es)?|techniques?)|\bstitch(?:es)? (?:guide|used|glossary)|\bstitch key",
    re.IGNORECASE,
)


def find_title(line: str) -> tuple[int, int] | None:
    """Where the words of a title stand in a line in bold letters or in capitals, None where it is no title."""
    match = _BOLD.match(line) or _CAPITALS.match(line)
    return match.span("words") if match and is_title(match["words"]) else None


def is_title(words: str) -> bool:
    """Is a line in bold letters a title, "Ear (make 2)", and neither a row nor what the rows below are for?"""
    is_row = find_label(words) or find_label(f"{words}:") or is_flow(words)
    is_other = is_notes(words) or SPECIAL.search(words)
    return not is_row and not is_other and re.search(r"\bsizes?\b|\bonly\b|[.!?]$", words, re.IGNORECASE) is None


def is_notes(title: str) -> bool:
    words = re.findall(r"[a-z'’-]+", title.lower())
    making_up = "making up" in " ".join(words)
    return (making_up or any(word in _NOTE_WORDS for word in words)) and all(
        word in _NOTE_WORDS or word in _FILLERS for word in words
    )
