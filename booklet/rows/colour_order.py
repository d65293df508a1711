"""The order of colours that a pattern gives for its rows: "Color sequence: *2 rows A, 2 rows B; rep from *"."""

import re

from booklet.model.parsed import ColourOrder
from booklet.model.pattern import Pattern, Prose

SEQUENCE = re.compile(
    r"^[\s>*_-]*(?:colou?r|(?P<striped>stripe))\s+(?:sequence|order|pattern)\s*(?:\*\*|__)?\s*[:.–—-]\s*(?P<text>\S[^\n]*)",
    re.IGNORECASE | re.MULTILINE,
)
ROWS = r"(?:rows?|rnds?|rounds?)"
NUMBER = r"(?P<{0}>\d{{1,3}}|one|two|three|four|five|six)"
END = r"(?=\s*(?:[,;.*]|and\b|then\b|$))"
ITEM = re.compile(
    rf"{NUMBER.format('before')}\s+{ROWS}\s+(?:each\s+)?(?:of|in|with)?\s*(?P<after_rows>[\w' ]+?){END}"
    rf"|(?P<first>[A-Za-z][\w' ]*?)\s*(?:[:=x×-]|for)?\s*{NUMBER.format('behind')}(?:\s+{ROWS})?{END}",
    re.IGNORECASE,
)
AGAIN = re.compile(r"\b(?:rep(?:eat)?\w*|throughout|continue)\b", re.IGNORECASE)
WORDS = {"one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6}


def read_colour_order(pattern: Pattern) -> ColourOrder | None:
    """The first sequence that the prose gives and whose every item is a colour of the pattern; None without one."""
    names = {colour.letter.lower(): colour.letter for colour in pattern.colours}
    names |= {colour.name.lower(): colour.letter for colour in pattern.colours if colour.name}
    for part in pattern.parts:
        for block in part.blocks:
            match = SEQUENCE.search(block.text) if isinstance(block, Prose) else None
            if match is None:
                continue
            found = [_read_item(item, names) for item in ITEM.finditer(match["text"])]
            if len(found) > 1 and all(letter for letter, _ in found):
                rows = tuple(letter for letter, count in found for _ in range(count))
                span = block.span.sub(match.start("text"), match.end("text"))
                again = match["striped"] is not None or AGAIN.search(match["text"]) is not None
                return ColourOrder(rows, again, span)
    return None


def _read_item(item: re.Match[str], names: dict[str, str]) -> tuple[str, int]:
    """The letter of the colour, "" where it is none of the pattern's, and its number of rows."""
    number = (item["before"] or item["behind"]).lower()
    name = re.sub(r"^colou?r\s+", "", (item["after_rows"] or item["first"]).strip().lower())
    return names.get(name, ""), WORDS.get(number) or int(number)
