"""Ranges of rows that say what is done at the end of one of them: "Rnds 2-5: … Fasten off A at end of Rnd 7"."""

import re
from collections.abc import Iterator

from booklet.checks import messages
from booklet.findings import Finding
from booklet.model.parsed import ParsedPattern
from booklet.model.work import WorkedPattern

AT_END = re.compile(
    r"\b(?:fasten|cut|break|end|change|changing|switch\w*|join\w*|drop\w*|turn|finish\w*)\b[^.;:\n]{0,60}?"
    r"\b(?:(?:at|to|on)\s+(?:the\s+)?end\s+of|in\s+(?:the\s+)?last\s+\w+\s+of)\s+(?P<row>(?:row|rnd|round)\s+(?P<number>\d{1,4}))\b",
    re.IGNORECASE,
)


def check_ranges(parsed: ParsedPattern, worked: WorkedPattern) -> Iterator[Finding]:
    """A row named for the end of a range that is none of its rows, one finding for each range."""
    for part in parsed.parts:
        for row in part.rows:
            numbers = {number for numbers in (row.label.varied or (row.label.numbers,)) for number in numbers}
            named = AT_END.search(row.words.text)
            if named is not None and len(numbers) > 1 and int(named["number"]) not in numbers:
                span = row.words.sub(named.start("row"), named.end("row"))
                yield messages.end_not_in_range(row.label.text, named["row"], span)
