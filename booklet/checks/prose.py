"""Lines between the rows that read like instructions, though no row of them is worked.

What is not taken for a row is printed as prose and counts for nothing. Where such a line begins like an instruction
and has a number of rows or stitches in it, its author means it to be worked, and silence would hide a wrong count.
"""

import re
from collections.abc import Iterator, Set

from booklet.checks import messages
from booklet.findings import Finding
from booklet.model.parsed import ParsedPattern
from booklet.model.pattern import Part, RowLine
from booklet.model.tree import RepeatRows, ShapeRows
from booklet.model.work import WorkedPattern
from booklet.rows.taken_over import ROWS_OF

STITCH = r"(?:sc|hdc|htr|dc|tr|dtr|sl\s?st|ss|sts?|stitch(?:es)?)"
ROWS = r"(?:rows?|rnds?|rounds?)"
# "Cont in this way until 8 sc rem."
TO_COUNT = (
    r"(?:cont(?:inue|\.)?|rep(?:eat)?|work|keep)\b[^.:;]{0,60}?\b(?:until|till?|to)\s+(?:(?:there\s+are|only)\s+)?\d+"
    rf"(?:\s*[(\[][\d\s,:;]{{1,60}}[)\]])?\s+{STITCH}\s+(?:rem(?:ain(?:s|ing)?)?|are\s+left|left)\b"
)
BEGINS = re.compile(
    rf"^\s*(?:\*\*|__)?(?:[A-Z][\w ]{{0,30}}:\s*(?:\*\*|__)?\s*)?(?:(?:then|now|next|and),?\s+)?(?:"
    rf"(?:work|continue|cont\.?|keep)\b[^.:;]{{0,40}}?\d[^.:;]{{0,30}}?\b{ROWS}\b"
    rf"|(?:repeat|rep|rpt)\b[^.:;]{{0,30}}?\b{ROWS}\b[^.:;]{{0,30}}\d"
    rf"|\d+\s+{STITCH}\b.{{0,40}}\b(?:in|across|around)\b"
    rf"|{STITCH}\s+(?:in|around|across|over|to)\b.{{0,60}}\d"
    rf"|(?:inc|dec)(?:rease)?\s+\d+\s+{STITCH}\b"
    rf"|{TO_COUNT}"
    rf"|(?:complete|finish)\b[^.:;]{{0,40}}\bto\s+match\b)",
    re.IGNORECASE,
)
# Lines without a number that are steps all the same, some behind the name of an edge or a part.
EDGES = (
    r"(?:(?:\w+\s+){0,2}(?:edges?|edging|sides?|border|band|neckband|shaping|shoulders?|straps?|ribbing|heel|toe|cuff|"
    r"collar|hem|heading|join|joining|next))"
)
PLAIN = re.compile(
    rf"^\s*(?:\*\*|__)?(?:{EDGES}:\s*(?:\*\*|__)?\s*(?=(?:ch|{STITCH}|with|join|turn|work|\d)\b)[^.]*?)?(?:"
    rf"(?!sl|ss){STITCH}\s+(?:in|into)\s+(?:the\s+)?(?:each|every|ea|next|first|last)\b"
    rf"|\\?\*+\s*(?:\d+\s+)?(?:{STITCH}|ch|sk|skip|miss)\b.*\brep(?:eat)?\b"
    rf"|(?:(?:turn|(?:using|with)\s+\w+),?\s+(?:and\s+)?)?(?:work|finish|end|add)\s[^.:;]{{0,30}}?\b{ROWS}\s+"
    rf"(?:of\s+|in\s+)?{STITCH}\b"
    rf"|(?:inc|dec)(?:rease)?\s+(?:at|in)\b[^.:;]{{0,40}}\b{ROWS}\b)",
    re.IGNORECASE,
)
EDGE_ROW = re.compile(
    rf"^\s*(?:\*\*|__)?{EDGES}:\s*(?:\*\*|__)?\s*(?:ch\s+\d|join\b[^.:;]*,\s*ch\s+\d|{STITCH}\s)[^.]*\b{STITCH}\b",
    re.IGNORECASE,
)
# A small piece told in one line: "Ties (make 2): Ch 50, sl st in 2nd ch from hook …", "**Cord.** With A, ch 120".
LEAF = re.compile(r"^\s*[A-Z][\w' -]{0,30}?:\s*ch\s+\d[^:\n]*\bfasten\s+off\b", re.IGNORECASE)
PIECE = re.compile(
    r"^\s*(?P<bold>\*\*|__)?[A-Z][\w' -]{0,30}?(?:\s*\([^()\n]{1,30}\))?\s*"
    r"(?::\s*(?:\*\*|__)?|(?(bold)\.?(?:\*\*|__)|(?!)))\s*(?:(?:with|using)\s[^.:;\n]{1,60}?,\s*)?"
    rf"(?:ch\s+\d{{2,}}|join\b[^.:;\n]{{0,60}},\s*(?:work\s+)?(?:ch\s+\d|\d+\s+{STITCH})|work\s+\d+\s+{STITCH})\b",
    re.IGNORECASE,
)
MADE = re.compile(r"^[^:\n]{1,40}\((?:make|work)\s+\d+\)\s*:\s*(?:ch|with|using|join|\d)\b", re.IGNORECASE)
# A later sentence of a line: "Rows 2-3 form pattern. Continue in pattern for 10 rows more."
GOES_ON = re.compile(
    rf"(?:then\s+)?(?:(?:cont(?:inue|\.)?|rep(?:eat)?|work)\b[^.:;]{{0,40}}?\d[^.:;]{{0,30}}?\b{ROWS}\b|{TO_COUNT}"
    r"|(?:rep(?:eat)?|work)\s+(?:them|these)\b[^.:;]{0,20}?(?:\d|\b(?:once|twice|\w+\s+(?:more\s+)?times)\b))",
    re.IGNORECASE,
)
SENTENCE_END, CLAUSE_END = re.compile(r"(?<=[a-z0-9)\]])\.\s"), re.compile(r"(?<=[a-z0-9)\]])[.;]\s")
WORKS = re.compile(rf"\b(?:{STITCH}|inc|dec)\b[^.]{{0,80}}?\b(?:in|into|across|around|each|to)\b", re.IGNORECASE)
LABELLED = re.compile(
    r"^\W*[^:.\n]{0,24}\b(?:rows?|rnds?|rounds?|sizes?)\b[^:.\n]{0,24}[:.—-]|^\s*\d+\s*[).]", re.IGNORECASE
)
# "Every alt row: ch 1, sc in each sc": a rule for rows that no other line names.
RULE = re.compile(
    rf"^\W*(?:{ROWS}\s*\d+\s*,?\s+and\s+|\d+\w*\s+and\s+|on\s+)?"
    rf"(?:(?:all|every|each|foll\w*)\b[^:.\n]{{0,24}}\b{ROWS}(?:\s+after)?|(?:alternate|alt|other|even|odd|[rw]s)\s+r\w+s):\s*"
    rf"(?:(?:with\s+\w+|turn),?\s+)?(?:ch\b|\d+\s?ch\b|(?:\d+\s+)?{STITCH}\b)",
    re.IGNORECASE,
)
COUNTED = re.compile(rf"\b\d+\)?\s*(?:{STITCH})\s*[)\]]?\s*\.?\s*$|[(\[]\s*\d+\s*[)\]]\s*\.?\s*$", re.IGNORECASE)
ALONE = re.compile(
    rf"^\s*(?:[(\[]\s*\d+[^()\[\]]*(?:[(\[][\d\s,]+[)\]])?\s*(?:{STITCH})[^()\[\]]*[)\]]"
    rf"|[-–—=:]*\s*\d+(?:\s*[(\[][\d\s,]+[)\]])*\s*(?:{STITCH}))\s*\.?\s*$",
    re.IGNORECASE,
)
# Sentences that tell of the work, or leave it to the maker, and are no step of it.
TELLS = re.compile(
    r"\b(?:counts?|counted|means?|is|are|was|were|has|have|will|may|can|should|would|if|as\s+(?:many|needed|desired|long)|"
    r"optional\w*|return|re-?join|join|less\s+than|until\s+(?:you|desired)|you|your|instead|every|each\s+time|note|tip|for\s+example)\b",
    re.IGNORECASE,
)


MAYBE = re.compile(
    r"\b(?:counts?|means?|is|are|was|were|will|may|can|should|if|optional\w*|you|your|note|tip)\b", re.IGNORECASE
)


def check_prose(parsed: ParsedPattern, worked: WorkedPattern) -> Iterator[Finding]:
    """Prose in a piece that has rows, after the first of them; and lines of instructions that no row came of."""
    done = {row.span.start for part in worked.parts for rows in part.rows for row in rows}
    told = {
        row.span.start
        for part in parsed.parts
        for row in part.rows
        if row.unread or any(isinstance(step, RepeatRows | ShapeRows) for step in row.steps)
    }
    defined = {definition.span.start for definition in parsed.definitions}
    for part in parsed.sized.pattern.parts:
        yield from _check_part(part, done | told | defined)


def _check_part(part: Part, known: Set[int]) -> Iterator[Finding]:
    begun = False
    for block in part.blocks:
        if isinstance(block, RowLine):
            begun = True
            is_done = ROWS_OF.match(block.text) or not known.isdisjoint(range(block.span.start, block.span.end))
            if not is_done and _instructs(block.text):
                yield messages.instruction_unread(block.span)
        elif begun:
            start = 0
            for line in block.text.split("\n"):
                span = block.span.sub(start, start + len(line.rstrip()))
                if known.isdisjoint(range(span.start, span.end)) and _instructs(line):
                    yield messages.instruction_unread(span)
                start += len(line) + 1


def _instructs(line: str) -> bool:
    """Does a line begin like an instruction, or has it the label or the count of one beside its stitches?"""
    sentence = re.split(SENTENCE_END, line)[0]
    others = re.split(CLAUSE_END, line)[1:]
    if any(GOES_ON.match(other) and not TELLS.search(other) for other in others):
        return True
    is_work = EDGE_ROW.match(sentence) or RULE.match(sentence) or _names_piece(line)
    if is_work and not MAYBE.search(sentence):
        return True
    if line.lstrip().startswith((">", "|")) or TELLS.search(sentence):
        return False
    if BEGINS.match(sentence) or PLAIN.match(sentence) or ALONE.match(line):
        return True
    return WORKS.search(line) is not None and (LABELLED.match(line) is not None or COUNTED.search(line) is not None)


def _names_piece(line: str) -> bool:
    """Is it a small piece, told in one line behind its name?"""
    return any(form.match(line) for form in (PIECE, MADE, LEAF))
