"""The editions that a pattern can be made in, by the names that sources and commands use."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from types import MappingProxyType

EDITIONS: Mapping[str, str] = MappingProxyType(
    {
        "print": "the designed booklet as a PDF on each paper",
        "single-size": "the designed booklet once for each size, with the numbers of that size alone",
        "handout": "one sheet in black, for groups that make and give",
        "large-print": "24 point, one column, for readers with low vision",
        "text": "plain words for screen readers and braille",
        "folded": "the booklet at half the size, and its pages in order for folding and stapling",
        "tester": "a marked copy with numbered lines and a form to fill in",
        "web": "the web page, one file",
        "fragment": "the page's matter as clean HTML for a content system, with its pictures",
        "pictures": "the pictures 800 to 1200 pixels wide, an upright card and a wide one",
        "ebook": "an e-book that takes its reader's own settings",
        "listing": "the words for a shop: what the pattern is, and its files with their pages and sizes",
    }
)
"""What each edition is; the names stand in the order in which they are made."""

USUAL_EDITIONS = ("print", "web")
"""Those made where nobody asks for others."""

ALL = "all"
"""The word that asks for every edition."""


@dataclass(frozen=True, slots=True)
class Handout:
    """What a group says on its sheet, in its own words."""

    made_for: str = ""
    not_accepted: tuple[str, ...] = ()
    hand_in: str = ""
    labels: str = ""
    contact: str = ""
    rules_of: str = ""  # a date
    copying: str = ""


def choose_editions(names: Sequence[str]) -> tuple[str, ...]:
    """The editions asked for, each once, in the order in which they are made."""
    return tuple(name for name in EDITIONS if name in names or ALL in names)
