"""Which sizes rows are for: "Size L and XL only:" on a line of its own, "(Child and Adult only)" beside a label.

Such a line holds for the rows under it, up to "All sizes:", the next such line or the next heading. Within it a list
of numbers may name the numbers of its sizes alone.
"""

import re
from collections.abc import Sequence

LONGEST = 90  # letters of a line that says which sizes the rows below are for
# What sizes are called in letters and in words.
LETTERS = {
    "extra small": "xs", "x-small": "xs", "xsmall": "xs", "small": "s", "medium": "m", "large": "l",
    "extra large": "xl", "x-large": "xl", "xlarge": "xl", "1x": "xl", "xxl": "2xl", "2x": "2xl", "3x": "3xl",
    "xxxl": "3xl", "4x": "4xl", "5x": "5xl",
}  # fmt: skip
PREFIX = re.compile(
    r"\s*(?:\*\*|__)?(?P<words>(?:for\s+)?(?:the\s+)?(?:(?:all|both)\s+(?:the\s+)?sizes|sizes?\s[^.:\n]{1,60}?\s+only))\s*(?:\*\*|__)?\s*[:–—-]\s*"
    r"(?:\*\*|__)?\s*(?=\S)",
    re.IGNORECASE,
)
BRACKET = re.compile(
    r"\s*[(\[](?:for\s+)?(?:sizes?\s+)?(?P<words>[^()\[\]]{1,40}?)(?:\s+sizes?)?(?:\s+only)?[)\]]\s*(?=(?:row|rnd|round|next)\b)",
    re.IGNORECASE,
)
ALL = re.compile(
    r"(?:(?:continue|continuing|work)\s+)?(?:for\s+)?(?:(?P<both>both)|all|every|each)\s+(?:of\s+)?(?:the\s+)?"
    r"(?:(?P<number>two|three|four|five|six|\d{1,2})\s+)?sizes?(?:\s+(?:again|continue))?"
)
OTHERS = re.compile(r"(?:for\s+)?(?:all\s+)?(?:the\s+)?(?:other|remaining)\s+sizes(?:\s+only)?")
NAMED = re.compile(
    r"(?:for\s+)?(?:the\s+)?(?:sizes?\s+(?P<after>.+?)(?:\s+only)?|(?P<before>.+?)\s+sizes?(?:\s+only)?|(?P<only>.+?)\s+only)"
)
BETWEEN = re.compile(r"\s*(?:,\s*and\b|,\s*or\b|,|&|\band\b|\bor\b|\+)\s*")
RANGE = re.compile(r"\s+(?:to|through|thru)\s+|\s*[-–—]\s*")
ORDINAL = re.compile(r"(\d{1,2})(?:st|nd|rd|th)")
ORDINALS = {"first": 0, "smallest": 0, "second": 1, "third": 2, "fourth": 3, "fifth": 4}
UP = re.compile(r"(?P<from>.+?)\s*(?:and|&|or)\s*(?:up|upwards?|larger|bigger|above|over)")
MANY = re.compile(
    r"(?:the\s+)?(?P<many>two|three|four|five|six|\d{1,2})\s+(?P<which>smallest|smaller|first|largest|larger|biggest|bigger|last)"
)
COUNTED = ("", "one", "two", "three", "four", "five", "six")
DOWN = re.compile(r"(?P<to>.+?)\s*(?:and|&|or)\s*(?:smaller|below|under|down)")


def read_scope(line: str, names: Sequence[str], before: Sequence[int]) -> tuple[int, ...] | None:
    """The sizes, by their places, that a line of prose says the rows below are for; () for all of them.

    `before` are those of the last such line, which "other sizes" leaves out. None where the line says no such thing.
    """
    words = re.sub(r"[*_#]+", "", line).strip().rstrip(":.-–— ").strip().lower()
    if not words or len(line) > LONGEST or len(names) < 2:
        return None
    if (whole := ALL.fullmatch(words)) and _are_all(whole, len(names)):
        return ()
    if OTHERS.fullmatch(words):
        return tuple(at for at in range(len(names)) if at not in before) if before else ()
    named = NAMED.fullmatch(words)
    if named is None:
        return None
    return find_sizes(named["after"] or named["before"] or named["only"], names)


def split_scope(text: str, names: Sequence[str], before: Sequence[int]) -> tuple[tuple[int, ...] | None, int]:
    """The sizes that the beginning of a line of instructions is for, and the offset of what follows it.

    "For size L only: Next row: …", "All sizes: Row 9: …"; None and 0 where it begins otherwise.
    """
    bracket = BRACKET.match(text)
    if bracket is not None and (places := find_sizes(bracket["words"], names)) is not None:
        return places, bracket.end()
    match = PREFIX.match(text)
    scope = read_scope(match["words"], names, before) if match else None
    return (scope, match.end()) if match and scope is not None else (None, 0)


def find_sizes(words: str, names: Sequence[str]) -> tuple[int, ...] | None:
    """The places of the sizes named, as in "L and XL", "M to XL", "L and up"; None where there is no such size."""
    places = {_fold(name): at for at, name in enumerate(names)}
    words = words.strip().lower()
    if many := MANY.fullmatch(words):
        number = _read_number(many["many"])
        begins = many["which"] in ("smallest", "smaller", "first")
        return tuple(range(len(names)))[:number] if begins else tuple(range(len(names)))[-number:]
    if (up := UP.fullmatch(words)) and (first := places.get(_fold(up["from"]))) is not None:
        return tuple(range(first, len(names)))
    if (down := DOWN.fullmatch(words)) and (last := places.get(_fold(down["to"]))) is not None:
        return tuple(range(last + 1))
    found: list[int] = []
    for part in BETWEEN.split(words):
        ordinal = ORDINAL.fullmatch(part.strip())
        at = int(ordinal[1]) - 1 if ordinal else _find_place(part.strip(), len(names))
        if 0 <= at < len(names) and _fold(part) not in places:
            found.append(at)  # "2nd and 3rd sizes"
            continue
        name = _fold(part)
        ends = [places.get(_fold(end)) for end in RANGE.split(part)]
        if name in places:
            found.append(places[name])
        elif len(ends) == 2 and ends[0] is not None and ends[1] is not None and ends[0] < ends[1]:
            found.extend(range(ends[0], ends[1] + 1))
        else:
            return None
    return tuple(dict.fromkeys(found)) or None


def _are_all(match: re.Match[str], sizes: int) -> bool:
    """Is that all of them, also where the words give their number: "both sizes", "all three sizes"?"""
    number = 2 if match["both"] else _read_number(match["number"]) if match["number"] else sizes
    return number == sizes


def _read_number(word: str) -> int:
    return COUNTED.index(word) if word in COUNTED else int(word)


def _find_place(word: str, sizes: int) -> int:
    """The place of "first", "largest", of two sizes "larger", of three "middle"; -1 for any other word."""
    ends = {"largest": sizes - 1, "biggest": sizes - 1, "last": sizes - 1}
    if sizes == 2:
        ends |= {"smaller": 0, "larger": 1, "bigger": 1}
    if sizes == 3:
        ends |= {"middle": 1}
    return {**ORDINALS, **ends}.get(word, -1)


def _fold(name: str) -> str:
    name = re.sub(r"\s+", " ", re.sub(r"^(?:the\s+)?sizes?\s+|\s+sizes?$", "", name.strip().lower())).strip()
    return LETTERS.get(name, name)
