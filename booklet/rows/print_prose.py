"""An author's sentences carried from one set of English terms to the other.

Only words that are terms are changed, and only where the words beside them say that they are: "a sc and
a dc" becomes "a dc and a tr"; "double" alone, "miss the last bus" and "an even tension" stay. A sentence
that speaks of both sets at once ("sc (UK dc)") has its halves changed over where it names one stitch
twice, and is left as it stands where it does anything else; `find_left` tells which.
"""

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cache
from types import MappingProxyType

from booklet.rows.lexing import read_tokens
from booklet.rows.print_names import name_stitch
from booklet.rows.targets import is_what
from booklet.rows.tokens import Numbers, Token
from booklet.rows.vocabulary import SPACED, build_vocabulary
from booklet.terms import load_table

OTHER = {"US": "UK", "UK": "US"}
NOT_ALONE = frozenset({"single", "double", "half double"})  # everyday words too: they stay
SPELLED = frozenset({"treble", "trebles"})  # full names of one word
SKIPS = {"sk": "miss", "skip": "miss", "skips": "misses", "skipping": "missing", "skipped": "missed"}
MISSES = {"miss": "skip", "misses": "skips", "missing": "skipping", "missed": "skipped"}
BESIDE_PLACE = frozenset({"the", "next", "first", "last", "each", "same", "rem", "center"})
SET_NAME = r"(?:crochet\s+)?(?:terms|terminology|names|abbreviations|notation|conventions)\b"

# What is no sentence keeps its letters: names in braces, links, code, tags.
KEPT = re.compile(r"\{[^{}\n]*\}|https?://\S+|\]\([^()\n]*\)|`[^`\n]*`|<[^<>\n]*>")
PLACEHOLDERS, LAST_PLACEHOLDER = 0xE000, 0xF8FF  # the private use area: a character stands for one kept stretch

YARN_OVER = {
    "US": (re.compile(r"(?<![\w-])(?:(?P<short>yo)|(?P<long>yarn over(?! hook)))(?![\w-])", re.IGNORECASE), "yo"),
    "UK": (
        re.compile(
            r"(?<![\w-])(?:(?P<short>yrh|yoh)|(?P<long>(?:yarn|wool) (?:round|over) hook))(?![\w-])", re.IGNORECASE
        ),
        "yrh",
    ),
}
YARN_OVER_NAMES = {"US": "yarn over", "UK": "yarn round hook"}
GAUGE = {
    "US": re.compile(r"\bgauge\b", re.IGNORECASE),
    # "an even tension" and "the tension on the yarn" are about the hand, not about stitches to the inch.
    "UK": re.compile(
        r"(?<!even )(?<!same )(?<!firm )(?<!yarn )(?<!loose )(?<!tight )(?<!steady )\btension\b"
        r"(?! (?:even|on|of the yarn|steady|loose|firm))",
        re.IGNORECASE,
    ),
}
GAUGE_NAMES = {"US": "gauge", "UK": "tension"}


@dataclass(frozen=True, slots=True)
class Form:
    """One way of writing a stitch: its US abbreviation, in full or short, one or several."""

    stitch: str
    in_full: bool
    several: bool


def carry_prose(text: str, written_in: str, terms: str) -> str:
    """The text with every term in the words of the other set; the same text where the sets are the same."""
    if written_in == terms or not text:
        return text
    return "".join(
        line if _speaks_of_both(line, written_in) else _carry_line(line, written_in, terms)
        for line in text.splitlines(keepends=True)
    )


def find_left(text: str, written_in: str) -> Iterator[tuple[int, int]]:
    """Start and end of each line that names stitches in both sets at once and so keeps its words."""
    at = 0
    for line in text.splitlines(keepends=True):
        if _speaks_of_both(line, written_in):
            yield at, at + len(line.rstrip())
        at += len(line)


def _speaks_of_both(line: str, written_in: str) -> bool:
    """Does the line name the other set beside a stitch, otherwise than as "sc (UK dc)"?"""
    other = OTHER[written_in]
    rest = _dual(written_in).sub("", line)
    stitch = _any_form(other)
    beside = rf"\b{other}\b[\s:=]*(?:{stitch})\b|\b(?:{stitch})\b[\s(=]*\b{other}\b|\b{other}\s+{SET_NAME}"
    return bool(re.search(beside, rest, re.IGNORECASE))


def _carry_line(line: str, written_in: str, terms: str) -> str:
    if any(PLACEHOLDERS <= ord(mark) <= LAST_PLACEHOLDER for mark in line):
        return line  # characters without a meaning of their own: not a sentence that is known how to carry
    kept: list[str] = []

    def keep(words: str) -> str:
        kept.append(words)
        return chr(PLACEHOLDERS + len(kept) - 1)

    def swap(match: re.Match[str]) -> str:
        name = name_stitch(_forms(written_in)[match["own"].lower()].stitch, terms)
        return keep(f"{name} ({written_in} {match['own']})")

    line = KEPT.sub(lambda match: keep(match[0]), line)
    line = _dual(written_in).sub(swap, line)
    tokens, _ = read_tokens(line, build_vocabulary(written_in), Numbers({}))
    pieces: list[str] = []
    at = 0
    for index, token in enumerate(tokens):
        pieces += [line[at : token.start], _carry_token(line, tokens, index, written_in, terms)]
        at = token.end
    carried = "".join([*pieces, line[at:]])
    carried = re.sub(rf"\b{written_in}(?=\s+{SET_NAME})", terms, carried)
    over, short = YARN_OVER[written_in][0], YARN_OVER[terms][1]
    carried = over.sub(lambda m: _match_case(m[0], short if m["short"] else YARN_OVER_NAMES[terms]), carried)
    carried = GAUGE[written_in].sub(lambda m: _match_case(m[0], GAUGE_NAMES[terms]), carried)
    for index in reversed(range(len(kept))):
        carried = carried.replace(chr(PLACEHOLDERS + index), kept[index])
    return carried


def _carry_token(line: str, tokens: list[Token], index: int, written_in: str, terms: str) -> str:
    token = tokens[index]
    raw = line[token.start : token.end]
    if token.kind == "st":
        before = tokens[index - 1] if index else None
        if before is not None and before.value == "half" and raw.lower() in SPELLED:
            return raw
        if raw.isupper() and len(raw) < 3 and not _stands_among_stitches(tokens, index):
            return raw
        return _carry_stitch(raw, str(token.value), written_in, terms)
    if token.is_word("sk"):
        words = SKIPS if terms == "UK" else MISSES
        if raw.lower() in words and (raw.lower() == "sk" or _place_follows(tokens, index)):
            return _match_case(raw, words[raw.lower()])
    return raw


def _stands_among_stitches(tokens: list[Token], index: int) -> bool:
    """Is the word beside a number or a word of place, so that "DC" is a stitch and no town?"""
    near = tokens[max(0, index - 1) : index] + tokens[index + 1 : index + 2]
    return any(token.kind in ("num", "st") or token.is_word("in", "each", "next", "over", "around") for token in near)


def _place_follows(tokens: list[Token], index: int) -> bool:
    """ "skip the next 2 sts", "skip first ch", "miss 2,": a place is passed over, not a chapter"""
    at = index + 1
    if at + 1 < len(tokens) and tokens[at].kind == "num" and tokens[at + 1].is_mark(",", ";", ".", ")"):
        return True
    while at < len(tokens) and (tokens[at].kind == "num" or tokens[at].is_word(*BESIDE_PLACE)):
        at += 1
    return at < len(tokens) and is_what(tokens[at])


def _carry_stitch(raw: str, us: str, written_in: str, terms: str) -> str:
    """One stitch as written ("DC", "half double crochets", "front post double crochet", "standing dc", "dc2tog")."""
    forms = _forms(written_in)
    form = forms.get(raw.lower())
    if form is not None:
        return _match_case(raw, _write_form(form, terms))
    words = raw.split(" ")
    for start in range(1, len(words)):
        tail = " ".join(words[start:])
        if tail.lower() in forms:
            return " ".join([*words[:start], _match_case(tail, _write_form(forms[tail.lower()], terms))])
    if any(mark.isdigit() for mark in raw) or raw[:2].upper() in ("FP", "BP"):
        own, carried = name_stitch(us, written_in), name_stitch(us, terms)
        if raw.lower().startswith(own.lower()):
            return carried + raw[len(own) :]
        return carried
    return raw


def _write_form(form: Form, terms: str) -> str:
    entry = load_table("stitches")[form.stitch]
    if form.in_full:
        name = str(entry["uk_name" if terms == "UK" else "us_name"])
        return f"{name}s" if form.several else name
    name = name_stitch(form.stitch, terms)
    return f"{name}s" if form.several else name


def _match_case(raw: str, name: str) -> str:
    """The name in capitals, or with a capital, where the word it replaces is so written."""
    if raw.isupper() and len(raw) > 1:
        return name.upper()
    return name[:1].upper() + name[1:] if raw[:1].isupper() else name


@cache
def _forms(terms: str) -> Mapping[str, Form]:
    """Every way of writing a stitch that the other set calls otherwise, in small letters."""
    key, aliases, other = ("uk", "uk_aliases", "us") if terms == "UK" else ("us", "aliases", "uk")
    found: dict[str, Form] = {}
    for us, entry in load_table("stitches").items():
        names = {"us": (us, entry["us_name"]), "uk": (entry["uk"], entry["uk_name"])}
        if names["us"] == names["uk"]:
            continue
        short, full = names[key]
        written = {short: False, f"{short}s": False, full: True, f"{full}s": True}
        written |= {alias: " " in alias or alias in SPELLED for alias in entry.get(aliases, ())}
        for words, in_full in written.items():
            if words in NOT_ALONE or (full == names[other][1] and in_full):
                continue
            several = words.endswith("s") and words != short and words != full
            found.setdefault(words.lower(), Form(us, in_full, several))
    if terms == "US":
        for spaced, us in SPACED.items():  # "s c", as American leaflets print it
            found.setdefault(spaced, Form(us, in_full=False, several=spaced.endswith("s")))
    return MappingProxyType(found)


@cache
def _any_form(terms: str) -> str:
    return "|".join(re.escape(words) for words in sorted(_forms(terms), key=len, reverse=True))


@cache
def _dual(written_in: str) -> re.Pattern[str]:
    """ "sc (UK dc)": one stitch by both its names"""
    other = OTHER[written_in]
    pairs = []
    for words, form in _forms(written_in).items():
        twin = name_stitch(form.stitch, other)
        if not form.in_full and not form.several and words == name_stitch(form.stitch, written_in).lower():
            pairs.append(rf"{re.escape(words)}(?=\s*\(\s*{other}:?\s+{re.escape(twin)}\s*\))")
    return re.compile(rf"\b(?P<own>{'|'.join(pairs)})\s*\(\s*{other}:?\s+[a-z ]+?\s*\)", re.IGNORECASE)
