"""What things are called in US or UK terms: stitches, places, numbers per size.

A tree holds every stitch by its US abbreviation, so a name in either set of terms is one look in the
table; a stitch of the pattern's own keeps its name, and a stitch named inside it ("dc spike") is
carried over with it.
"""

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cache
from types import MappingProxyType

from booklet.model.places import CORNER_SPACE
from booklet.model.style import PLAIN, Style
from booklet.model.tree import PerSize, What, at_size
from booklet.rows.count_items import COUNT_NOUNS
from booklet.rows.vocabulary import NUMBER_WORDS
from booklet.terms import load_table

COMPOUND = re.compile(r"(?P<post>FP|BP)?(?P<plain>[a-z ]+?)(?:(?P<together>\d)tog)?")
OF_SEVERAL = re.compile(r"(?P<number>\d+)-(?P<plain>[a-z ]+) (?P<family>[a-z-]+)")
SHOWN = {"v-st": "V-st"}
WITH_S = frozenset({"shell", "bobble", "puff", "picot", "v-st", "cl"})  # the others look the same in the plural


@dataclass(frozen=True, slots=True)
class Manner:
    """How rows are printed: in which terms, for all sizes or one, along rows or round and round.

    `size` is None for all sizes, else the place of the one size in the pattern's list. `written_in`
    are the terms of the author's own words, which asides keep. `style` is that of the house, `inside` the
    bracket that is open: round, square, stars, or "".
    """

    terms: str = "US"
    size: int | None = None
    in_rounds: bool = False
    written_in: str = "US"
    places: tuple[int, ...] = ()  # of the sizes that the row is for, where it is not for all
    style: Style = PLAIN
    inside: str = ""

    @property
    def whole(self) -> str:
        """How far "to the end" is."""
        return "around" if self.in_rounds else "across"

    @property
    def word(self) -> str:
        """What one trip is called in a sentence."""
        return "rnd" if self.in_rounds else "row"

    @property
    def noun(self) -> str:
        """What a row that is named by its number is called: `Row`, `Rnd`, or `Round` where the house says so."""
        return "Round" if self.in_rounds and self.style.rounds == "Round" else self.word.capitalize()

    def going(self, in_rounds: bool) -> "Manner":
        return replace(self, in_rounds=in_rounds)

    def within(self, bracket: str) -> "Manner":
        """How the steps in a bracket are printed."""
        return replace(self, inside=bracket)


def print_number(values: PerSize, manner: Manner) -> str:
    """A number of stitches or places, in words where the house wants it."""
    if manner.style.numbers == "words":
        return spell_number(values, manner)
    return print_digits(values, manner)


def spell_number(values: PerSize, manner: Manner) -> str:
    """One number in words, up to the house's largest; a list of sizes keeps its digits."""
    figures = print_digits(values, manner)
    if not figures.isdecimal() or int(figures) > manner.style.most_in_words:
        return figures
    return next((word for word, value in NUMBER_WORDS.items() if value == int(figures)), figures)


def print_digits(values: PerSize, manner: Manner) -> str:
    """One number for all sizes, `77 (83, 89)` for several, one alone for a single size."""
    if manner.size is not None:
        return str(at_size(values, manner.size))
    if manner.places and len(values) > 1:
        kept = tuple(values[place] for place in manner.places)
        values = kept if len(set(kept)) > 1 else kept[:1]
    return print_sizes([str(value) for value in values])


def print_sizes(figures: Sequence[str]) -> str:
    """The trade's list: the smallest size, the others in brackets."""
    first, *others = figures
    return f"{first} ({', '.join(others)})" if others else first


def is_one(values: PerSize, manner: Manner) -> bool:
    """Is it 1 wherever it is printed?"""
    return print_digits(values, manner) == "1"


def name_stitch(us: str, terms: str, written_in: str = "US") -> str:
    """The abbreviation of a stitch in "US" or "UK" terms, from its US one: in UK dc2tog is tr2tog, 3-dc cl 3-tr cl.

    A stitch of the pattern's own stands in the tree as the author wrote it, in the terms `written_in`.
    """
    plain = _name_plain(us, terms)
    if plain:
        return SHOWN.get(plain, plain)
    match = OF_SEVERAL.fullmatch(us)
    if match and (base := _name_plain(match["plain"], terms)) and (family := _name_plain(match["family"], terms)):
        return f"{match['number']}-{base} {family}"
    match = COMPOUND.fullmatch(us)
    if match and (base := _name_plain(match["plain"], terms)):
        return f"{match['post'] or ''}{base}" + (f"{match['together']}tog" if match["together"] else "")
    if terms == written_in:
        return us
    return " ".join(carry_words(terms).get(word, word) for word in us.split(" "))


def _name_plain(us: str, terms: str) -> str:
    entry = load_table("stitches").get(us)
    if entry is None:
        return ""
    return str(entry["uk"]) if terms == "UK" else us


@cache
def carry_words(terms: str) -> Mapping[str, str]:
    """Abbreviations of one word that the two sets of terms use differently, from the other set to this."""
    pairs = [(us, str(entry["uk"])) for us, entry in load_table("stitches").items() if entry["uk"] != us]
    pairs = [pair for pair in pairs if " " not in pair[0]]
    return MappingProxyType(dict(pairs) if terms == "UK" else {uk: us for us, uk in pairs})


def print_stitches(us: str, count: PerSize, manner: Manner) -> str:
    """The stitch as it stands behind a number: `3 dc`, `6 shells`."""
    name = name_stitch(us, manner.terms, manner.written_in)
    last = us.rpartition(" ")[2]
    return f"{name}s" if last in WITH_S and not is_one(count, manner) else name


def print_what(what: What, count: PerSize, manner: Manner) -> str:
    """The kind of place a row names, one or several: `st`, `ch-2 sps`, `row ends`, `dc`."""
    several = "" if is_one(count, manner) else "s"
    if what.kind == "ch-sp":
        return f"ch-{max(what.chains, 0)} sp{several}" if what.chains else f"tch sp{several}"
    if what.kind == "tch" and what.chains:
        return f"tch ch-{what.chains}"
    if what.kind.startswith("row end "):
        return f"end of {name_stitch(what.kind.removeprefix('row end '), manner.terms, manner.written_in)} row"
    if what == CORNER_SPACE:
        return f"corner sp{several}"
    if what.kind == "side":
        return "on each side"
    if what.kind == "half":
        return f"half group{several}"
    if what.kind in COUNT_NOUNS and what.chains:
        return f"{what.kind}{several} of {what.chains}"
    if what.kind == "marked":
        return f"marked st{several}"
    if what.kind in ("st", "sp", "corner", "tch", "ring", "row end", *COUNT_NOUNS):
        return f"{what.kind}{several}"
    return print_stitches(what.kind, count, manner)


def print_whats(whats: Sequence[What], count: PerSize, manner: Manner) -> str:
    """whats joined with "and": `dc and ch-1 sp`"""
    return " and ".join(print_what(what, count, manner) for what in whats)
