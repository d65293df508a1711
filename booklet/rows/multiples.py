"""The stitch multiple that a pattern states: "Multiple of 8 + 2 (add 1 for the base chain)"."""

import re

from booklet.model.parsed import Multiple
from booklet.model.pattern import Pattern

MULTIPLE = re.compile(
    r"""(?P<chain>ch(?:ain)?\s+)?multiples?\s*(?:of|:)\s*(?P<every>\d{1,4})(?:\s*(?:sts?|stitches|ch|chs|chains))?
    (?:\s*(?:,?\s*(?:plus|\+|and\s+add|then\s+add)\s*)(?P<plus>\d{1,4}))?
    (?P<unit>\s*(?:ch|chs|chains)\b)?
    (?:[^.\n]{0,12}?\(?\s*(?:add|plus|\+)\s*(?P<more>\d{1,3})\s*(?:(?:ch|chs|chains?)\b|more\b)?\s*
       (?:for\s+(?:the\s+)?(?:base|foundation|starting|beg(?:inning)?|turning)\b[^.\n)]*)\)?)?""",
    re.VERBOSE | re.IGNORECASE,
)

BESIDE_CHAIN = re.compile(r"\bch(?:ain)?\s+\d+[\d(),\s]*\((?:any\s+|a\s+)?$", re.IGNORECASE)


def read_multiples(pattern: Pattern) -> tuple[Multiple, ...]:
    """Every multiple stated in the body, in order."""
    found = []
    text = pattern.source.text
    start = min((part.span.start for part in pattern.parts), default=0)
    for match in MULTIPLE.finditer(text, start):
        every = int(match["every"])
        if every > 1:
            chains = int(match["more"] or 0)
            beside = BESIDE_CHAIN.search(text[max(0, match.start() - 60) : match.start()]) is not None
            named = (
                beside
                or bool(match["chain"] or match["unit"])
                or "ch" in match.group().lower().split("multiple")[0][-8:]
            )
            found.append(Multiple(every, int(match["plus"] or 0), pattern.source.span(*match.span()), chains, named))
    return tuple(found)
