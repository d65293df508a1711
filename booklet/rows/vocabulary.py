"""Which words mean which stitch, place or act, in US or UK terms.

`Vocabulary.phrases` maps lower-case phrases of one or more words to (class, value); the classes are
"st" (a stitch, value its US abbreviation) and "w" (any other word of the trade, value one spelling
for all its forms). The stitches come from `terms/stitches.yaml`, the other words from
`terms/phrases.yaml`.
"""

import re
from collections.abc import Container
from dataclasses import dataclass
from functools import lru_cache

from booklet.terms import load_table

MAX_WORDS = 6

# Usual names of colours, as toys have them beside their stitches.
COLOURS = "white black red blue green yellow orange pink purple violet brown grey gray beige cream tan gold silver navy"
MORE_COLOURS = "teal turquoise mint peach coral maroon lilac ivory charcoal rose mustard"
COLOUR_WORDS = frozenset(f"{COLOURS} {MORE_COLOURS}".split())
UNITS = "zero one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen sixteen"
TENS = "seventeen eighteen nineteen twenty"
ORDINALS = "second third fourth fifth sixth seventh eighth ninth tenth eleventh twelfth"
NUMBER_WORDS = {word: value for value, word in enumerate(f"{UNITS} {TENS}".split())}
ROUND_TENS = "thirty forty fifty sixty seventy eighty ninety"
NUMBER_WORDS |= {word: 10 * tens for tens, word in enumerate(ROUND_TENS.split(), start=3)}
ORDINAL_WORDS = {word: value for value, word in enumerate(ORDINALS.split(), start=2)}


# Squares of filet: read as stitches where a number stands before them, else as the places these words name.
FILET = ("sp", "space", "bl", "block", "sq", "square")

# Abbreviations with their letters set apart, as thread leaflets of 1915-1955 print them (common practice).
SPACED = {
    "s c": "sc",
    "s cs": "sc",
    "d c": "dc",
    "d cs": "dc",
    "h d c": "hdc",
    "h dc": "hdc",
    "tr c": "tr",
    "t r": "tr",
    "d tr": "dtr",
    "d tr c": "dtr",
    "tr tr": "trtr",
    "s l s t": "sl st",
    "sl s t": "sl st",
    "s st": "sl st",
}


NEVER_SHORT = ("long", "basic", "first", "last", "edge", "raised", "main", "body")  # that "… stitch" is never called


@dataclass(frozen=True, eq=False)
class Vocabulary:
    """Phrases of one dialect, and the pattern's own stitches and colour letters."""

    dialect: str
    phrases: dict[str, tuple[str, str]]
    colours: frozenset[str]
    own_words: frozenset[str]  # other words that the author uses outside the rows, in small letters
    squares: dict[str, str]  # spelling -> name of the filet squares that the pattern defines: "sps", "bls"
    letters: dict[str, str]  # capital letters that stand for a stitch: "X = sc"
    plain: dict[str, str]  # spelling of a basic stitch -> US abbreviation, for FPdc, dc2tog and the like

    def look_up(self, phrase: str) -> tuple[str, str] | None:
        return self.phrases.get(phrase)

    def names_colour(self, brace: str, numbers: Container[str]) -> bool:
        """ "{white} 6 sc": is it a colour in braces, by its usual name or the pattern's, and none of its numbers?"""
        word = brace.strip("{} ")
        named = word.lower() in COLOUR_WORDS or word.lower() in {colour.lower() for colour in self.colours}
        return named and word not in numbers

    def compound(self, word: str) -> str | None:
        """The US name of a compound such as FPdc, BPtr, dc2tog, 3-dc cl; None where it is none."""
        return _read_compound(word, self.plain)


def _read_compound(word: str, plain: dict[str, str]) -> str | None:
    """compound = [fp|bp] stitch [N "tog"] | stitch ("fp"|"bp") | N "-" stitch "-" ("cl"|"bobble"|"shell"|...)"""
    low = word.lower()
    names = "|".join(sorted((re.escape(name) for name in plain), key=len, reverse=True))
    match = re.fullmatch(rf"(fp|bp)?-?({names})(?:([2-9])-?tog)?", low)
    if match and (match[1] or match[3]):
        post = (match[1] or "").upper()
        return f"{post}{plain[match[2]]}" + (f"{match[3]}tog" if match[3] else "")
    raised = re.fullmatch(rf"r({names})(f|b)", low)  # "rtrf", raised treble front, of British patterns
    if raised:
        return f"{raised[2].upper()}P{plain[raised[1]]}"
    match = re.fullmatch(rf"({names})-?(fp|bp)", low)
    if match:
        return f"{match[2].upper()}{plain[match[1]]}"
    match = re.fullmatch(
        rf"(\d+)-?({names})-?(cl|cls|clusters?|bobbles?|bob|puffs?|pc|popcorns?|shells?|fans?|v-st)", low
    )
    if match:
        family = {"cl": "cl", "cls": "cl", "bob": "bobble", "pc": "pc"}.get(match[3], match[3].rstrip("s"))
        family = {"cluster": "cl", "popcorn": "pc", "fan": "shell"}.get(family, family)
        return f"{match[1]}-{plain[match[2]]} {family}"
    return None


def _take_old_names(old: str, phrases: dict[str, tuple[str, str]], plain: dict[str, str]) -> None:
    """The names of stitches in an older book, in place of today's."""
    for us, names in load_table("dialects")[old]["names"].items() if old else ():
        for name in names:
            for form in (name, f"{name}s"):
                phrases[form] = ("st", us)
            if " " not in name:
                plain[name] = us


@lru_cache(maxsize=16)
def build_vocabulary(
    dialect: str = "US",
    own_stitches: tuple[str, ...] = (),
    colours: tuple[str, ...] = (),
    own_words: frozenset[str] = frozenset(),
    squares: tuple[str, ...] = (),
    letters: tuple[tuple[str, str], ...] = (),
    old: str = "",
) -> Vocabulary:
    """The words of a dialect ("US" or "UK"), with the pattern's own stitch names added.

    `old` is a key of `terms/dialects.yaml`, whose names of stitches come before today's.
    """
    phrases: dict[str, tuple[str, str]] = {}
    for canonical, forms in load_table("phrases").items():
        for form in forms:
            phrases.setdefault(form, ("w", canonical))
    plain: dict[str, str] = {}
    table = load_table("stitches")
    for us, entry in table.items():
        spellings = [entry["uk"], *entry.get("uk_aliases", ())] if dialect == "UK" else [us, *entry.get("aliases", ())]
        for spelling in spellings:
            phrases[spelling.lower()] = ("st", us)
            if spelling.isalpha() and len(spelling) > 1:
                phrases.setdefault(f"{spelling.lower()}s", ("st", us))
        if entry.get("basic") and " " not in spellings[0]:
            plain[spellings[0].lower()] = us
    _take_old_names(old, phrases, plain)
    for spaced, closed in SPACED.items():
        if closed in phrases:
            phrases.setdefault(spaced, phrases[closed])
    for basic in [us for us, entry in table.items() if entry.get("basic")]:
        name = table[basic]["uk_name" if dialect == "UK" else "us_name"]
        short = table[basic]["uk"] if dialect == "UK" else basic
        for prefix in ("standing", "stacked", "chainless", "chainless starting", "spike", "long"):
            phrases[f"{prefix} {short}"] = phrases[f"{prefix} {name}"] = ("st", basic)
        phrases[f"cs{short}"] = ("st", basic)
        phrases[f"{short} dec"] = ("st", f"{basic}2tog")
        phrases[f"fp {short}"], phrases[f"bp {short}"] = ("st", f"FP{basic}"), ("st", f"BP{basic}")
        for side, code in (("front", "FP"), ("back", "BP")):
            phrases[f"{side} post {name}"] = ("st", f"{code}{basic}")
            short = table[basic]["uk"] if dialect == "UK" else basic
            phrases[f"{side} post {short}".lower()] = ("st", f"{code}{basic}")
    phrases["spike st"] = phrases["spike stitch"] = ("st", "sc")  # no stitch is named: the usual one
    _add_own_stitches(own_stitches, phrases)
    plain |= {name.lower(): name for name in own_stitches if name.isalpha()}  # "hhdc2tog"
    filet = {form: name for name in squares for form in (name.lower(), f"{name.lower()}s")}
    return Vocabulary(dialect, phrases, frozenset(colours), own_words, filet, dict(letters), plain)


def _add_own_stitches(names: tuple[str, ...], phrases: dict[str, tuple[str, str]]) -> None:
    """The pattern's own stitches, one and several of them, with "st" behind their names and without."""
    for name in names:
        phrases[name.lower()] = ("st", name)
        phrases[f"{name.lower()}s"] = ("st", name)
        short = re.sub(r" (?:st|stitch)$", "", name.lower())
        forms = (short, f"{short}s") if short not in NEVER_SHORT else ()
        for form in (*forms, name.lower().replace("-", " ")):
            phrases.setdefault(form, ("st", name))  # "star" is star st
        for form in ("st", "sts", "stitch", "stitches") if short != name.lower() else ():
            phrases.setdefault(f"{short} {form}", ("st", name))
