"""Words for a voice or for braille: abbreviations in full, units in words, no mark that is read out wrongly.

Which letters are an abbreviation is decided by the reader of rows, so that "st" is a stitch and "in 3 in" no
inch. Brackets become commas, fractions and signs become words, and a list of sizes names each size.
"""

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from booklet.amounts.key import explain_term
from booklet.findings import join_words
from booklet.model.pattern import Pattern
from booklet.model.tree import PerSize
from booklet.rows.lexing import read_tokens
from booklet.rows.parts import pattern_vocabulary
from booklet.rows.print_names import name_stitch
from booklet.rows.tokens import Numbers, Token
from booklet.rows.vocabulary import SPACED, Vocabulary
from booklet.terms import load_table

FRACTIONS = {
    "½": "a half", "¼": "a quarter", "¾": "three quarters", "⅓": "a third", "⅔": "two thirds",
    "⅛": "an eighth", "⅜": "three eighths", "⅝": "five eighths", "⅞": "seven eighths",
}  # fmt: skip
UNITS = {
    "mm": "millimetre", "cm": "centimetre", "m": "metre", "g": "gram", "kg": "kilogram",
    "in": "inch", "yd": "yard", "yds": "yard", "oz": "ounce",
}  # fmt: skip
SQUARES = {"bl": "block", "block": "block", "sp": "space", "space": "space", "sq": "square", "square": "square"}
PLAIN = str.maketrans({
    "\u00a0": " ", "\u202f": " ", "\u2002": " ", "“": '"', "”": '"', "‘": "'", "’": "'",
    "…": "...", "—": ", ", "·": ",", "→": " to ", "[": "(", "]": ")", "{": "(", "}": ")",
})  # fmt: skip

_FIGURE = r"\d[\d.]*"
_PART = "".join(FRACTIONS)
# An inch only where the sentence goes on as after a measure: "3 in ring" is no length.
_AFTER_INCH = (
    r"(?=\s*(?:[(),.;:×=/]|$|(?:wide|long|deep|high|tall|across|around|or|and|by|to|in|for|from|of|a|is|are)\b))"
)
_MEASURE = re.compile(
    rf"(?:(?P<whole>{_FIGURE})\s?)?(?P<part>[{_PART}])?(?<=[\d{_PART} ])(?:(?<=\d)|(?<=[{_PART}])|(?<=\d ))\s?"
    rf"(?:(?P<unit>mm|cm|m|yds?|g|kg|oz)\b|(?P<inch>in\b){_AFTER_INCH}|(?P<prime>[″\"](?!\w)))"
)
_MIXED = re.compile(rf"(?:(?P<whole>\d+)\s?)?(?P<part>[{_PART}])")
_STANDARD = re.compile(r"\b((?:EN|ISO|BS|AS|CFR|ASTM [A-Z]\d*)\s\d+)[-‑](?=\d)")  # "EN 71-1" is a name, no range
_RANGE = re.compile(r"(?<=\d)\s?[–-]\s?(?=\d)")
_TIMES_BETWEEN = re.compile(r"(?<=[\da-z])\s?×\s?(?=\d)")
_TIMES_BEFORE = re.compile(r"(?<![\w×])[×x]\s?(\d+)\b")
_STRONG = re.compile(r"(?:\*\*|__)(?=\S)(.+?)(?<=\S)(?:\*\*|__)")
_STAR = re.compile(r"\s*\*+\s*")
_BRACKET = re.compile(r"\s*\(([^()]*)\)")
_UNIT = r"(?:(?:milli|centi)?metres?|inch(?:es)?|yards?|(?:kilo)?grams?|ounces?)"
_OTHER_UNIT = re.compile(rf"\b({_UNIT})\s*\(([^()]*\d[^()]*\b{_UNIT})\)")  # one length in two units
_WHICH_ROWS = re.compile(r"(?<=[a-z])\s*\(((?:Row|Round|Rnd)s? \d[\d, and–-]*)\)")
_SKIPPED = re.compile(r"^(?:the )?skipped chains? (?=counts?\b|do(?:es)? not\b)", re.IGNORECASE)
_TIDY = (
    (re.compile(r"\s*,(?:\s*,)+"), ","),
    (re.compile(r"\s+([,.;:])"), r"\1"),
    (re.compile(r",\s*([.;:])"), r"\1"),
    (re.compile(r"([.:;]),"), r"\1"),
    (re.compile(r"[ \t]{2,}"), " "),
    (re.compile(r"^[,;]\s*", re.MULTILINE), ""),
    (re.compile(r",$", re.MULTILINE), ""),
)


@dataclass(frozen=True)
class Speech:
    """How a pattern is spoken: by which vocabulary its words are known, and what its sizes are called."""

    terms: str
    vocabulary: Vocabulary
    sizes: tuple[str, ...] = ("",)
    own_names: Mapping[str, str] = field(default_factory=dict)  # the pattern's own stitches, by abbreviation

    def speak(self, text: str) -> str:
        """The text in words."""
        text = _STRONG.sub(r"\1", text.translate(PLAIN))
        spoken = tidy(self._speak_marks(_speak_measures(self.write_out(text), self.terms)))
        return _SKIPPED.sub("the skipped chains ", spoken)

    def write_out(self, text: str) -> str:
        """The text with every abbreviation of the trade, and of the pattern, in full."""
        tokens, _ = read_tokens(text, self.vocabulary, Numbers({}, len(self.sizes)))
        pieces: list[str] = []
        at = 0
        for index, token in enumerate(tokens):
            before = tokens[index - 1] if index else None
            if token.start < at:  # two tokens from one stretch, "2 together" and its place
                continue
            words = self._name(text, token, before, tokens[index + 1 : index + 2])
            if text[: token.start].endswith("letter "):  # "letter p" of a drawing is no picot
                words = text[token.start : token.end]
            pieces += [text[at : token.start], words]
            at = token.end
        return "".join([*pieces, text[at:]])

    def list_sizes(self, values: PerSize) -> str:
        """`96 for Lap, 120 for Throw and Bed`: each number once, with the sizes that have it."""
        named: dict[int, list[str]] = {}
        for name, value in zip(self.sizes, values, strict=False):
            named.setdefault(value, []).append(name)
        if len(named) == 1:
            return str(values[0])
        return ", ".join(f"{value} for {join_words(names)}" for value, names in named.items())

    def name_stitch(self, us: str, several: bool = False) -> str:
        """A stitch in full, by its US abbreviation: `half double crochets`, `front post treble crochet`."""
        own = self.own_names.get(us.lower()) or SQUARES.get(us.lower())
        if own is None:
            term = explain_term(us, self.terms)
            own = term.name if term is not None else name_stitch(us, self.terms)
        own = self._spell(own)
        return make_plural(own) if several else own

    def _name(self, text: str, token: Token, before: Token | None, after: Sequence[Token]) -> str:
        raw = text[token.start : token.end]
        several = before is not None and before.kind == "num" and before.numbers != (1,)
        if token.kind == "num" and len(token.numbers) > 1:
            return self.list_sizes(token.numbers)
        if token.kind == "st":
            return self._name_stitch(raw, str(token.value), several)
        if token.kind == "chsp":
            plural = "s" if raw.rstrip(".").lower().endswith("s") else ""
            return f"chain-{token.value} space{plural}"
        if token.kind == "chn":
            return f"chain {token.value}" if raw.lower().startswith("ch") else f"{token.value}-chain"
        return self._name_word(raw) if token.kind in ("w", "word") else raw

    def _name_stitch(self, raw: str, us: str, several: bool) -> str:
        """In full where it stands short; a word such as "shells" or "single crochet" stays."""
        low = raw.lower().rstrip(".")
        short = name_stitch(us, self.terms).lower()
        if low not in (short, f"{short}s", us.lower()) and us.lower() not in self.own_names:
            full = self.name_stitch(us)
            if low in SPACED:
                return self.name_stitch(us, several)
            if low in (full.lower(), make_plural(full).lower()):
                return raw
            if " " in low or not _is_short(low):
                return self._spell(raw)
        named = self.name_stitch(us, several or (low.endswith("s") and low != short and low != us.lower()))
        return named[:1].upper() + named[1:] if raw[:1].isupper() and not raw[1:2].isupper() else named

    def _name_word(self, raw: str) -> str:
        if " " in raw:  # "turning ch"
            return self._spell(raw)
        words = _abbreviations(self.terms).get(raw.lower().rstrip("."))
        if words is None:
            return raw
        ending = "." if raw.endswith(".") and raw.lower() not in _abbreviations(self.terms) else ""
        return (words[:1].upper() + words[1:] if raw[:1].isupper() and not raw.isupper() else words) + ending

    def _spell(self, words: str) -> str:
        """A name of several words, each short one of them in full: `puff st`, `dc spike`."""

        def spell(word: str) -> str:
            low = word.lower()
            if name := _abbreviations(self.terms).get(low):
                return name
            stitch = self.vocabulary.look_up(low)
            return self.name_stitch(stitch[1]) if stitch and stitch[0] == "st" and _is_short(low) else word

        return " ".join(map(spell, words.split(" "))) if " " in words else words

    def _speak_marks(self, text: str) -> str:
        text = _OTHER_UNIT.sub(r"\1 or \2", text)
        text = _WHICH_ROWS.sub(r", that is \1,", text)
        while (opened := _BRACKET.sub(r", \1,", text)) != text:
            text = opened
        text = text.replace("(", ", ").replace(")", ", ")
        text = _MIXED.sub(lambda found: _speak_mixed(found["whole"] or "", found["part"]), text)
        text = _TIMES_BETWEEN.sub(" by ", text)
        text = _TIMES_BEFORE.sub(r"\1 times", text)
        text = re.sub(r"(?<![\w\d])[−+](?=\d)", lambda sign: "minus " if sign[0] == "−" else "plus ", text)
        text = text.replace("×", " by ").replace("=", " equal ").replace("%", " percent").replace("&", " and ")
        text = _RANGE.sub(" to ", _STANDARD.sub(r"\1 part ", text)).replace("–", ", ")
        text = re.sub(r"(?<=\d) / (?=\d)", " or ", text)
        text = re.sub(r"(?i)\bfrom \*+", "from star", text)
        return re.sub(r"(?<!\w)_|_(?!\w)|″|′|☐", "", _STAR.sub(" star, ", text))


def make_speech(pattern: Pattern) -> Speech:
    """How this pattern is spoken, in its own terms and for its own sizes."""
    own = {stitch.abbreviation.lower(): stitch.name for stitch in pattern.special_stitches if stitch.abbreviation}
    own |= {short.lower(): meaning for short, meaning in pattern.abbreviations.items() if len(meaning) <= 60}
    return Speech(pattern.terms, pattern_vocabulary(pattern), pattern.size_names, own)


def make_plural(name: str) -> str:
    """`double crochets`, `slip stitches`, `clusters of 3 double crochet`; `… 2 together` stays."""
    head, of, rest = name.partition(" of ")
    if head.endswith(("together", "s", "crocheted")) or not head[-1:].isalpha():
        return name
    ending = "es" if head.endswith(("ch", "sh", "x")) else "s"
    return f"{head}{ending}{of}{rest}"


def tidy(text: str) -> str:
    """No mark twice, none behind a space, and no space twice."""
    for pattern, words in _TIDY:
        text = pattern.sub(words, text)
    return text.strip()


def _is_short(word: str) -> bool:
    """Letters without a vowel between them, or with a number: no everyday word."""
    return not re.search(r"[aeiouy]", word) or any(mark.isdigit() for mark in word) or len(word) < 4


def _speak_measures(text: str, terms: str) -> str:
    def speak(found: re.Match[str]) -> str:
        unit = UNITS["in" if found["inch"] or found["prime"] else found["unit"]]
        if terms == "UK":
            unit = unit.replace("meter", "metre")
        whole, part = found["whole"] or "", found["part"]
        is_size = found.string.startswith(" hook", found.end())  # "a 5 millimeter hook"
        several = unit if is_size else unit + ("es" if unit == "inch" else "s")
        if part and not whole:
            article = "an" if unit[0] in "aeiou" else "a"
            return f"half {article} {unit}" if part == "½" else f"{FRACTIONS[part]} of {article} {unit}"
        if part:
            return f"{_speak_mixed(whole, part)} {several}"
        return f"{whole} {unit if whole == '1' else several}"

    return _MEASURE.sub(speak, text)


def _speak_mixed(whole: str, part: str) -> str:
    return f"{whole} and {FRACTIONS[part]}" if whole else FRACTIONS[part]


def _abbreviations(terms: str) -> Mapping[str, str]:
    """The trade's short words in small letters, one and several, and what each stands for."""
    found: dict[str, str] = {}
    for key, entry in load_table("words").items():
        short, name = (entry["uk"], entry["uk_name"]) if terms == "UK" else (key, entry["us_name"])
        for form in {short.lower(), key.lower()}:
            if form != name.lower():
                found[form] = name
                found.setdefault(f"{form}s", make_plural(name))
    return found
