"""What a heading says: whether notes stand under it or a piece, and how many of the piece are made."""

import re

from booklet.findings import Finding
from booklet.reading import messages
from booklet.source import Span

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
_COUNT_WORDS = {"one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6}
_COUNT_WORDS |= {"seven": 7, "eight": 8, "nine": 9, "ten": 10, "eleven": 11, "twelve": 12}
_COUNT = rf"(\d{{1,3}}|{'|'.join(_COUNT_WORDS)})"
_MAKE = re.compile(
    rf"\s*(?:[(\[]\s*(?:make|work|mk)\s+{_COUNT}\b(?P<note>(?:[^()\[\]]|\([^()]*\))*)[)\]]|[-–—,:]\s*(?:make|work)\s+{_COUNT}\s*$|"
    rf"[(\[]?\s*[x×]\s*(\d{{1,3}})\s*[)\]]?\s*$)",
    re.IGNORECASE,
)
_SEVERAL = re.compile(r"\s*(?:\(|\[|,|:|-)\s*\d")


def is_notes(title: str) -> bool:
    """Is it made of words such as "materials", "gauge" or "finishing" and little else?"""
    words = re.findall(r"[a-z'’-]+", title.lower())
    making_up = "making up" in " ".join(words)
    return (making_up or any(word in _NOTE_WORDS for word in words)) and all(
        word in _NOTE_WORDS or word in _FILLERS for word in words
    )


def read_heading(words: Span) -> tuple[str, int, list[Finding]]:
    """Title and number of pieces: `Sleeve (make 2)`, `Leaf ×6`, `Flower - make six`."""
    text = words.text
    match = _MAKE.search(text)
    if match is None:
        return _strip_marks(text), 1, []
    count = next(group for at, group in enumerate(match.groups(), 1) if group and at != match.re.groupindex["note"])
    make = _COUNT_WORDS.get(count.lower()) or int(count)
    note = match["note"] or text[match.end() :]
    findings = [messages.make_differs(words.sub(*match.span()))] if _SEVERAL.match(note) else []
    left = text[: match.start()] + text[match.end() :]
    if (match["note"] or "").strip(" ,;") and not findings:
        left = f"{left.strip()} ({match['note'].strip(' ,;')})"
    return _strip_marks(left), max(1, make), findings


def _strip_marks(text: str) -> str:
    return re.sub(r"\s+", " ", re.sub(r"\*\*|__|`", "", text)).strip(" :-–—")
