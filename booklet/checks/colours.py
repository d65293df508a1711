"""The letters of colours: those that rows take up against those that the pattern lists."""

import re
from collections.abc import Iterator

from booklet.checks import messages
from booklet.findings import Finding
from booklet.model.parsed import ParsedPattern
from booklet.model.pattern import Pattern, Prose
from booklet.model.tree import TakeColour
from booklet.model.work import WorkedPattern
from booklet.rows.walking import walk_steps

COLOURS = re.compile(r"^\W*colou?rs?(?:\s+(?:key|used|sequence))?\W*[:=](?P<list>[^\n]+)", re.IGNORECASE | re.MULTILINE)
LETTER = re.compile(r"(?<![\w'-])(?P<letter>[A-Z]|MC|CC\d?)(?=\s*(?:[=(:,;.–—]|-\s|\band\b|$))")


def check_colours(parsed: ParsedPattern, worked: WorkedPattern) -> Iterator[Finding]:
    """Letters used and not listed, listed and not used.

    Where the front matter lists no colours, two or more letters in a line of prose ("Colours: A = Fern,
    B = Chalk") are the list; what such a line lists beyond the rows is not told, for it may hold more than letters.
    """
    pattern = parsed.sized.pattern
    listed = {colour.letter: colour for colour in pattern.colours}
    known = tuple(listed) or list_in_prose(pattern)
    if not known:
        return
    used: set[str] = set(parsed.colour_order.rows) if parsed.colour_order else set()
    for part in parsed.parts:
        for row in part.rows:
            for step in walk_steps(row.steps):
                for letter in step.letter.split("+") if isinstance(step, TakeColour) else ():
                    if letter not in known and letter not in used:
                        yield messages.colour_unknown(letter, step.span, known)
                    used.add(letter)
    worked_in = {letter for part in worked.parts for rows in part.rows for row in rows for letter, _ in row.fabric.yarn}
    used |= {strand for letters in worked_in for strand in letters.split("+")}  # a heading may name it alone
    for letter, colour in listed.items():
        if letter not in used and len(listed) > 1:
            yield messages.colour_unused(letter, colour.name, colour.span)


def list_in_prose(pattern: Pattern) -> tuple[str, ...]:
    """The letters of a line "Colours: A = Fern, B = Chalk"; () where fewer than two are named."""
    letters: dict[str, None] = {}
    for part in pattern.parts:
        for block in part.blocks:
            if isinstance(block, Prose):
                for line in COLOURS.finditer(block.text):
                    letters |= dict.fromkeys(match["letter"] for match in LETTER.finditer(line["list"]))
    return tuple(letters) if len(letters) > 1 else ()
