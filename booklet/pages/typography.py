"""Typewriter habits made into print: quotes, fractions, primes, dashes and the times sign.

Works on plain text only, so Markdown is rendered first and its tags are skipped (`prose`). An inch
mark and a closing quote are the same key on a keyboard: `"` after a digit is an inch mark unless a
quotation is open.
"""

import re

FRACTIONS = {
    "1/2": "½", "1/3": "⅓", "2/3": "⅔", "1/4": "¼", "3/4": "¾",
    "1/8": "⅛", "3/8": "⅜", "5/8": "⅝", "7/8": "⅞",
}  # fmt: skip

NO_BREAK_SPACE = "\u00a0"
_UNITS = "mm|cm|m|in|yd|yds|g|kg|oz"

_WORD = re.compile(r"\S+")
_MARKS_OF_MACHINE_TEXT = ("://", "@", "www.")
_FRACTION = re.compile(r"(?:(?<=\d)[ -])?(?<![\d/.])([1-7]/[2348])(?![\d/])")
_ELLIPSIS = re.compile(r"\.\.\.")
_LONG_DASH = re.compile(r"\s*---\s*")
_DASH = re.compile(r"(?<!-)--(?!-)")
_SPACED_HYPHEN = re.compile(r"(?<=\S) - (?=\S)")
_STANDARD = re.compile(r"\b(EN|ISO|BS|AS) (?=\d)")
# "EN 71-1" is a name, no range.
_RANGE = re.compile(r"(?<![\w-])(?<!\b(?:EN|BS|AS)\u00a0)(?<!\bISO\u00a0)(\d+)-(\d+)(?![\w-])")
_TIMES_BETWEEN = re.compile(r"(?<=[\d½¼¾⅛]) ?[xX] ?(?=\d)")
_TIMES_BEFORE = re.compile(r"(?<![\w×])x ?(?=\d)")
_AROUND_TIMES = re.compile(r" × ?(?=[\d½¼¾⅛])")
_BEFORE_NUMBER = re.compile(r"(?:(?<=[ (][Rr]nd)|(?<=[ (][Rr]nds)|(?<=[ (][Rr]ow)|(?<=[ (][Rr]ows)|(?<=[ (]ch)) (?=\d)")
_UNIT_SPACE = re.compile(rf"(?<=[\d½¼¾⅛⅓⅔⅜⅝⅞]) (?=(?:{_UNITS})\b)")
_TIMES_SPACE = re.compile(r"(?<=[\d)]) (?=times\b)")
_FEET = re.compile(r"(?<=\d)'(?=\s?\d|\W|$)")


def set_type(text: str, before: str = "") -> str:
    """The text as a printer would set it; `before` is the character that stands in front of it."""
    pieces: list[str] = []
    at = 0
    for word in _WORD.finditer(text):
        if any(mark in word[0] for mark in _MARKS_OF_MACHINE_TEXT):
            pieces.append(_set_words(text[at : word.start()], text[at - 1] if at else before))
            pieces.append(word[0])
            at = word.end()
    pieces.append(_set_words(text[at:], text[at - 1] if at else before))
    return "".join(pieces)


def _set_words(text: str, before: str) -> str:
    text = _FRACTION.sub(lambda found: FRACTIONS.get(found[1], found[0]), text)
    text = _ELLIPSIS.sub("…", text)
    text = _LONG_DASH.sub("—", text)
    text = _DASH.sub("–", text)
    text = _SPACED_HYPHEN.sub(" – ", text)
    text = _STANDARD.sub(f"\\1{NO_BREAK_SPACE}", text)
    text = _RANGE.sub(r"\1–\2", text)
    text = _TIMES_BETWEEN.sub(" × ", text)
    text = _TIMES_BEFORE.sub("× ", text)
    text = _AROUND_TIMES.sub(f"{NO_BREAK_SPACE}×{NO_BREAK_SPACE}", text)
    text = _BEFORE_NUMBER.sub(NO_BREAK_SPACE, text)
    text = _UNIT_SPACE.sub(NO_BREAK_SPACE, text)
    text = _TIMES_SPACE.sub(NO_BREAK_SPACE, text)
    return _set_quotes(text, before)


def _set_quotes(text: str, before: str) -> str:
    """Curly quotes, and primes after digits."""
    set_text: list[str] = []
    quotation_open = False
    for char in text:
        previous = set_text[-1] if set_text else before
        opens = not previous or previous in " \u00a0([{—–“‘\n\t/"
        if char == '"':
            if previous.isnumeric() and not quotation_open:
                char = "″"
            else:
                char = "“" if opens else "”"
                quotation_open = opens
        elif char == "'":
            char = "‘" if opens else "’"
        set_text.append(char)
    return "".join(set_text)
