"""What a pattern takes for granted or says in a legend: letters for stitches, squares of filet."""

import re

from booklet.model.pattern import Pattern, Prose
from booklet.rows.vocabulary import Vocabulary
from booklet.source import SourceFile, Span

LETTERS = re.compile(r"(?<![A-Za-z])([A-Z])\s*[=:]\s*([A-Za-z][A-Za-z0-9 ]*?)(?=\s*(?:[,;.\n]|$))")
FILET_WORK = re.compile(
    r"\b\d+\s+(?:sps?|spaces?|bls?|blocks?)\s+over\s+\d+\s+(?:sps?|spaces?|bls?|blocks?)\b", re.IGNORECASE
)
# A square of filet is two chains or two stitches, and the stitch that closes it (common practice).
SQUARES = {"sp": "ch 2, sk 2 sts, {dc} in next st", "bl": "{dc} in next 3 sts"}


def read_letters(pattern: Pattern, known: Vocabulary) -> dict[str, str]:
    """Capital letters that a line of prose gives for stitches: "X = sc, V = inc, A = dec"; {} without such a legend.

    One letter alone is a colour or a mark; two that stand for stitches are a legend.
    """
    taken = {colour.letter for colour in pattern.colours}
    for part in pattern.parts:
        for block in part.blocks:
            if not isinstance(block, Prose):
                continue
            found = {}
            for letter, words in LETTERS.findall(block.text):
                meaning = known.look_up(words.lower())
                if meaning and meaning[0] == "st" and letter not in taken:
                    found[letter] = meaning[1]
            if len(found) > 1:
                return found
    return {}


def needs_squares(pattern: Pattern) -> bool:
    """Do the rows work squares of filet over squares ("7 sps over 7 bls")?"""
    return any(FILET_WORK.search(line.text) for part in pattern.parts for line in part.rows)


def usual_square(name: str, terms: str) -> Span:
    """What a square of filet is where the pattern does not say, as a text of its own."""
    text = SQUARES[name].format(dc="tr" if terms == "UK" else "dc")
    return SourceFile("", text).span(0, len(text))
