"""Which words mean which stitch, place or act, in US or UK terms.

`Vocabulary.phrases` maps lower-case phrases of one or more words to (class, value); the classes are
"st" (a stitch, value its US abbreviation) and "w" (any other word of the trade, value one spelling
for all its forms). The stitches come from `terms/stitches.yaml`; words that mean an act or a
place stand here, because the parser is written against them.
"""

import re
from dataclasses import dataclass
from functools import lru_cache

from booklet.terms import load_table

MAX_WORDS = 6

WORDS: dict[str, str] = {
    "in": "in, into, under, on",
    "next": "next, nxt, following, foll, the next",
    "each": "each, every, ea, all",
    "same": "same",
    "first": "first",
    "last": "last, final",
    "both": "both",
    "across": "across, across row, across the row, all across, along, all along",
    "around": "around, all around, around the rnd, round, in rnd, in round",
    "to end": "to end, to the end, to end of row, to the end of the row, to end of rnd, to end of round, "
    "to the end of the rnd, to the end of the round, till end, until end, until the end",
    "to": "to, till, until, up to",
    "to within": "to within, till within, until within",
    "sk": "sk, skip, skipping, skipped, miss, missing, pass over",
    "rep": "rep, repeat, repeats, repeating, rpt, rept, reps, work rep",
    "from": "from",
    "hook": "hook, the hook",
    "times": "times, time, x, repeats in all",
    "once": "once",
    "twice": "twice",
    "more": "more, additional, further",
    "total": "total, in all, in total, altogether",
    "turn": "turn, turning, turned, turn work, turn the work, then turn",
    "do not turn": "do not turn, don't turn, without turning, no turn",
    "join": "join, joining, join rnd, join round, unite, close",
    "do not join": "do not join, don't join, no join, without joining",
    "fasten off": "fasten off, fo, f/o, break off, end off, finish off, cut yarn, break yarn, tie off, fasten off yarn",
    "spiral": "continuous rnds, continuous rounds, in a spiral, spiral, in spiral",
    "tch": "tch, t-ch, turning ch, turning chain, beg ch, beginning ch, beginning chain, starting ch, starting chain, start ch, "
    "beg chain, initial ch, t ch",
    "st": "st, sts, stitch, stitches, st(s), st., sts.",
    "sp": "sp, sps, space, spaces, lp, lps, loop, loops, sp(s), ch sp, ch sps, chain space, chain spaces, ch-sp, ch-sps, chain-space, "
    "chain-spaces, ch lp, ch lps, ch space, ch spaces, chain sp, chain loop, ch loop, ch loops",
    "corner": "corner, corners",
    "ring": "ring, the ring, centre ring, center ring",
    "magic ring": "magic ring, mr, magic circle, mc ring, adjustable ring, adjustable loop, magic loop, magic rng",
    "join st": "join, joining, sl st join, joining sl st",
    "top": "top",
    "of": "of",
    "and": "and, &, plus, then, ending with, ending, end with, end",
    "or": "or",
    "with": "with, using, in colour, in color, in colours, in colors",
    "change to": "change to, changing to, switch to, switching to, change colour to, change color to, changing colour to, changing color to, "
    "join yarn, pick up, drop to",
    "as established": "in colours as established, in colors as established, in colour as established, in color as established, "
    "keeping colours as established, keeping colors as established, keeping the colours as established, keeping the colors as established, "
    "working each panel in its own colour, working each panel in its own color, colours as established, colors as established, "
    "in established colours, in established colors, matching colours, matching colors",
    "counts as": "counts as, count as, counting as, counted as, counts for, stands for, takes the place of, replaces",
    "does not count": "does not count, do not count, doesn't count, don't count, not counted, does not count as, do not count as, doesn't count as, "
    "don't count as, not counted as, never counts as, never counts, is not counted, are not counted, does not count for",
    "throughout": "throughout, here and throughout, now and throughout, here and on all following rows, on all following rows",
    "here": "here",
    "over": "over",
    "tog": "tog, together",
    "back loops": "blo, bl, back loop, back loops, back loop only, back loops only, back lp, back lps, back lp only, back lps only, back bar",
    "front loops": "flo, fl, front loop, front loops, front loop only, front loops only, front lp, front lps, front lp only, front lps only",
    "third loops": "third loop, third loops, third lp, third loop only, 3rd loop, 3rd loop only, 3rd lp",
    "back bumps": "back bumps, back bump, back ridge, back ridges, bottom loops, bumps, bottom loop",
    "working": "working, work, worked, works, make, made, making",
    "post": "post, posts, the post",
    "front": "front",
    "back": "back",
    "unworked": "unworked, unused",
    "leave": "leave, leaving, leaves",
    "rem": "rem, remaining, rem., remain, remains, left",
    "even": "even, evenly",
    "work even": "work even, worked even, work without shaping, without shaping, work straight",
    "as row": "as row, as rnd, as round, same as row, same as rnd, same as round, as for row, as for rnd, as for round, like row, like rnd, like round, "
    "work as row, work as rnd, work same as row, work same as rnd",
    "rows": "row, rows",
    "rounds": "rnd, rnds, round, rounds",
    "rs": "rs, right side",
    "ws": "ws, wrong side",
    "until": "until there are, until you have, until",
    "measures": "measures, piece measures, work measures, blanket measures, work measures about, hat measures, it measures, measuring",
    "inch": "in., inch, inches, ins",
    "beg": "beg, beginning, start",
    "row end": "row end, row ends, row-end, row-ends, end of row, end of rows, ends of rows, side of row",
    "except": "except",
    "place": "place, pl",
    "marker": "marker, markers, stitch marker, m",
    "place marker": "place marker, pm, place a marker, place stitch marker, pm in first st, move marker, move marker up",
    "between": "between, bet",
    "the": "the, a, an, your, its",
    "any": "any",
    "center": "center, centre, middle",
    "only": "only",
    "loosely": "loosely, tightly, gently, carefully",
    "by": "by",
    "as": "as",
    "at": "at",
    "that": "that",
    "work": "work in",
    "side": "side, sides",
    "opposite": "opposite side, opposite side of, other side, other side of",
    "for": "for",
    "form": "form, form a, to form, to form a",
    "makes": "makes",
    "side by side": "side by side",
    "weave": "weave in ends, weave in all ends, weave in the ends, weave in",
}

NUMBER_WORDS = {
    word: value
    for value, word in enumerate(
        "zero one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen sixteen "
        "seventeen eighteen nineteen twenty".split()
    )
}
ORDINAL_WORDS = {
    word: value
    for value, word in enumerate(
        "second third fourth fifth sixth seventh eighth ninth tenth eleventh twelfth".split(), start=2
    )
}


@dataclass(frozen=True)
class Vocabulary:
    """Phrases of one dialect, and the pattern's own stitches and colour letters."""

    dialect: str
    phrases: dict[str, tuple[str, str]]
    colours: frozenset[str]
    plain: dict[str, str]  # spelling of a basic stitch -> US abbreviation, for FPdc, dc2tog and the like

    def look_up(self, phrase: str) -> tuple[str, str] | None:
        return self.phrases.get(phrase)

    def compound(self, word: str) -> str | None:
        """The US name of a compound such as FPdc, BPtr, dc2tog, 3-dc cl; None where it is none."""
        return _read_compound(word, self.plain)


def _read_compound(word: str, plain: dict[str, str]) -> str | None:
    """compound = [fp|bp] stitch [N "tog"] | stitch ("fp"|"bp") | N "-" stitch "-" ("cl"|"bobble"|"shell"|...)"""
    low = word.lower()
    names = "|".join(sorted((re.escape(name) for name in plain), key=len, reverse=True))
    match = re.fullmatch(rf"(fp|bp)?-?({names})(?:(\d)-?tog)?", low)
    if match and (match[1] or match[3]):
        post = (match[1] or "").upper()
        return f"{post}{plain[match[2]]}" + (f"{match[3]}tog" if match[3] else "")
    match = re.fullmatch(rf"({names})-?(fp|bp)", low)
    if match:
        return f"{match[2].upper()}{plain[match[1]]}"
    match = re.fullmatch(rf"(\d+)-?({names})-?(cl|cls|clusters?|bobbles?|bob|puffs?|pc|popcorns?|shells?|fans?|v-st)", low)
    if match:
        family = {"cl": "cl", "cls": "cl", "bob": "bobble", "pc": "pc"}.get(match[3], match[3].rstrip("s"))
        family = {"cluster": "cl", "popcorn": "pc", "fan": "shell"}.get(family, family)
        return f"{match[1]}-{plain[match[2]]} {family}"
    return None


@lru_cache(maxsize=16)
def build_vocabulary(
    dialect: str = "US", own_stitches: tuple[str, ...] = (), colours: tuple[str, ...] = ()
) -> Vocabulary:
    """The words of a dialect ("US" or "UK"), with the pattern's own stitch names added."""
    phrases: dict[str, tuple[str, str]] = {}
    for canonical, forms in WORDS.items():
        for form in forms.split(","):
            phrases.setdefault(form.strip(), ("w", canonical))
    plain: dict[str, str] = {}
    table = load_table("stitches")
    for us, entry in table.items():
        spellings = [entry["uk"], *entry.get("uk_aliases", ())] if dialect == "UK" else [us, *entry.get("aliases", ())]
        for spelling in spellings:
            phrases[spelling.lower()] = ("st", us)
        if entry.get("basic") and " " not in spellings[0]:
            plain[spellings[0].lower()] = us
    for basic in [us for us, entry in table.items() if entry.get("basic")]:
        name = table[basic]["uk_name" if dialect == "UK" else "us_name"]
        for side, code in (("front", "FP"), ("back", "BP")):
            phrases[f"{side} post {name}"] = ("st", f"{code}{basic}")
            short = table[basic]["uk"] if dialect == "UK" else basic
            phrases[f"{side} post {short}".lower()] = ("st", f"{code}{basic}")
    for name in own_stitches:
        phrases[name.lower()] = ("st", name)
        phrases[f"{name.lower()}s"] = ("st", name)
    return Vocabulary(dialect, phrases, frozenset(colours), plain)
