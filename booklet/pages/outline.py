"""The author's headings sorted into the sections of a booklet.

A heading at the top level that names a customary section (Notes, Gauge, Finishing …) moves there
with everything under it; all others are pieces to be worked. A section that holds rows stays where
it stands, since its place in the order of work may matter.
"""

import re
from collections.abc import Sequence
from dataclasses import dataclass

from booklet.model.pattern import Part

_WORDS_OF_SECTION = {
    "notes": "notes|note|pattern notes|before you begin|about this pattern|introduction|construction",
    "sizes": "size|sizes|measurements|finished measurements|finished size|finished sizes",
    "materials": "materials|material|supplies|yarn|hook|hooks|tools|notions",
    "colours": "colours|colors|colour key|color key",
    "gauge": "gauge|tension",
    "key": "abbreviations|key|stitch key",
    "special": "special stitches|special stitch|stitches used|stitch guide|stitches",
    "finishing": "finishing|assembly|making up|to finish|blocking|finish",
    "care": "care|washing|care instructions|aftercare",
    "safety": "safety|safety notes|cautions",
    "about": "licence|license|copyright|contact|support|errata",
}
_SECTION_OF_WORD = {word: key for key, words in _WORDS_OF_SECTION.items() for word in words.split("|")}
_WRAPPERS = {"instructions", "pattern", "directions", "the pattern"}
_NOT_LETTERS = re.compile(r"[^a-z ]+")


@dataclass(frozen=True, slots=True)
class Placed:
    """A part with its depth below the section it stands in, 0 for its own top level."""

    part: Part
    depth: int


@dataclass(frozen=True, slots=True)
class Outline:
    """Parts by section key; the pieces to be worked stand under `instructions`."""

    sections: dict[str, tuple[Placed, ...]]

    def parts(self, key: str) -> tuple[Placed, ...]:
        return self.sections.get(key, ())


def outline_parts(parts: Sequence[Part]) -> Outline:
    """Every part in its section, in the order in which the author wrote them."""
    placed: dict[str, list[Placed]] = {}
    top = min((part.level for part in parts if part.title), default=2)
    levels: list[int] = []  # of the headings that enclose the current part
    current = "instructions"
    for index, part in enumerate(parts):
        if not part.title:
            current = "instructions" if part.rows else "notes"
            levels = []
        elif part.level <= top:
            levels = []
            title = _NOT_LETTERS.sub("", part.title.casefold()).strip()
            if title in _WRAPPERS:
                current, top = "instructions", _level_below(parts, index)
                if part.blocks:
                    placed.setdefault(current, []).append(Placed(_without_title(part), 0))
                continue
            key = _SECTION_OF_WORD.get(title, "instructions")
            current = key if not _holds_rows(parts, index) else "instructions"
        while levels and levels[-1] >= part.level:
            levels.pop()
        placed.setdefault(current, []).append(Placed(part, len(levels)))
        levels.append(part.level)
    return Outline({key: tuple(list_of) for key, list_of in placed.items()})


def _holds_rows(parts: Sequence[Part], index: int) -> bool:
    """Whether the part, or a part under its heading, has a row."""
    part = parts[index]
    if part.rows:
        return True
    for below in parts[index + 1 :]:
        if below.level <= part.level:
            break
        if below.rows:
            return True
    return False


def _level_below(parts: Sequence[Part], index: int) -> int:
    """The level of the headings directly under a part, its own where there are none."""
    below = parts[index + 1 : index + 2]
    return below[0].level if below and below[0].level > parts[index].level else parts[index].level


def _without_title(part: Part) -> Part:
    return Part("", part.level, part.blocks, part.span, part.make)
