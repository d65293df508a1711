"""How a line of instructions begins: a row label, or an instruction that belongs to the flow without one.

A label is told from prose that mentions a row by what stands behind it: a colon anywhere; a full
stop, a dash, a closing bold mark or nothing at all only where an instruction follows.
"""

import re
from dataclasses import dataclass


def _compile(form: str) -> re.Pattern[str]:
    """The form with every run of blanks held to 6, so that no line, however long, takes long to tell."""
    return re.compile(form.replace(r"\s*", r"\s{0,6}").replace(r"\s+", r"\s{1,6}"), re.IGNORECASE)


_NUMBER = r"\d{1,6}"
_ORDINAL = rf"{_NUMBER}(?:st|nd|rd|th|d)"
_JOIN = r"\s*(?:,\s*and\b|,|&|\band\b|-|–|—|\bto\b|\bthrough\b|\bthru\b)\s*"
_ROW = r"(?:rows?|rws?|rnds?|rounds?|rds?|rns?)"
_SIDES = r"(?:even|odd|RS|WS|right[- ]side|wrong[- ]side|alternate|alt|other)"
# "And every row after" is no such label: it would stand for rows that no line counts.
_EVERY = rf"(?:(?:all|every)(?:\s+foll\w*)?(?:\s+{_SIDES}){{1,2}}(?:[- ]numbered)?|(?:foll\w*\s+)?alt(?:ernate)?)"
_REST = rf"(?:\s*,?\s*and\s+{_EVERY}(?:\s+{_ROW})?)"
# "2nd and every alternate row", "next and alt rows": the rows are named once, behind both.
_BOTH = rf"(?:\s*,?\s*and\s+{_EVERY}\s+{_ROW})"
_FOR_SIZES = r"\s*[,–—-]?\s*(?:for\s+)?(?:sizes?\s+[^:.\n]{1,40}|[^:.,\n(]{1,30}?\s+only)(?=\s*:)"
_AS_FOLLOWS = r"\s+(?:(?:is|are)\s+)?(?:worked\s+)?as\s+follows(?=\s*:)"
_IN_COLOUR = r"\s+(?:with|in|using)\s+[A-Z]{1,2}\d?(?=\s*:)"
_SAID = r"\s+(?:RS|WS|incl?\.?|inclusive)\b"
_ASIDE = rf"(?:\s*[(\[][^()\[\]\n]{{1,60}}[)\]]|{_SAID}|{_IN_COLOUR}|{_FOR_SIZES}|{_AS_FOLLOWS})"
_ONLY = (
    r"(?:[(\[](?:for\s+)?(?:sizes?\s+[^()\[\]\n]{1,40}|[^()\[\]\n]{1,40}?\s+only)[)\]]\s*"
    r"|(?:for\s+)?(?:the\s+)?(?:(?:all|both)\s+sizes|sizes?\s+[^.:\n]{1,60}?\bonly)\s*[-–—:]\s*)"
)

# Words that go before "row" or "rnd" in a name of its own ("Picot rnd:"), but never as its first word.
_NOT_A_NAME = (
    r"(?!(?:return|a|an|the|this|these|that|those|each|every|all|any|both|some|for|in|on|at|to|of|from|with|by|as|if|when|"
    r"while|after|before|until|note|notes|tip|rep|rpt|repeat|repeating|work|working|continue|cont|make|end|ending|"
    r"begin|row|rnd|round|(?:alternate|alt|odd|even|other|rs|ws)\s+(?:rows|rnds|rounds)|join|see|follow|following|count|use|and|or|one|two|three|four|five|six|seven|eight|nine|ten|photo)\b)"
)
_NAMED = (
    rf"(?:on\s+)?(?:the\s+)?(?:next|following|last|final|first|foundation|base|beginning|starting|set[- ]?up|inc|dec|"
    rf"increase|decrease|edging|border|joining|turning|ribbing|rib|trim)\s+"
    rf"(?:{_NUMBER}(?:\s*[(\[][\d\s,:;]{{1,60}}[)\]])?\s+)?{_ROW}(?:\s+{_NUMBER}(?:{_JOIN}{_NUMBER})*|\s+[A-Z]\b)?"
    rf"|(?:on\s+)?(?:the\s+)?(?:next|following)(?:\s+{_ROW})?{_BOTH}"
)
_OWN_NAME = rf"{_NOT_A_NAME}[A-Za-z][\w'’-]*(?:\s+[\w'’-]+){{0,2}}\s+{_ROW}(?:\s+{_NUMBER}|\s+[A-Z]\b)?"
_ALONE = r"(?:foundation(?:\s+(?:ch|chain|round|row|rnd))?|set[- ]?up|base\s+chain|foundation\s+chain)"

# A number, one number a size ("96 (104, 112)"), or a named one in braces.
_ONE = rf"\#?{_NUMBER}(?:[A-D]\b)?"  # "#9", "18A"
_PLACE = rf"(?:{_ONE}(?:\s*[(\[]\s*{_NUMBER}(?:\s*[,:;]\s*{_NUMBER}){{1,24}}\s*[)\]])?|\{{[^{{}}\n]{{1,60}}\}})"
_NUMBERED = rf"{_ROW}\s*{_PLACE}(?:{_JOIN}(?:{_ROW}\s*)?{_PLACE})*{_REST}?"
_LETTERED = rf"{_ROW}\s+[A-Z](?:{_JOIN}[A-Z])*(?![A-Za-z])"
_SHORT = rf"R(?:nd)?\.?\s?{_NUMBER}(?:{_JOIN}R?{_NUMBER})*"
_ORDERED = rf"{_ORDINAL}(?:{_JOIN}{_ORDINAL})*(?:{_BOTH}|\s+{_ROW}{_BOTH}?)"
_COUNTED = rf"{_NUMBER}\.?\s+(?:row|rnd|round)"
_SPELLED = r"(?:row|rnd|round)\s+(?:one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve)(?![\w-])"

# Labels that say which row they are; these are also found inside a line.
_STRONG = (
    rf"(?:(?:work\s+(?=[^:\n]{{1,40}}\bas\s+follows\s*:))?{_NUMBERED}"
    rf"|{_SPELLED}|{_LETTERED}|{_SHORT}|{_ORDERED}|{_NAMED})"
)
# Labels that need the start of a line and a colon.
# What is shaped, or which side is worked, before a colon.
_SHAPE = (
    r"(?:shape\s+(?:the\s+)?[A-Za-z]+(?:\s+[A-Za-z]+)?"
    r"|(?:first|second|left|right|other)\s+(?:side|shoulder|front|half|strap)(?:\s+of\s+neck)?)"
)
_WEAK = rf"(?:{_COUNTED}|{_SHAPE}|{_OWN_NAME}|{_ALONE}|{_NUMBER}(?:\s*[-–,]\s*{_NUMBER})*|{_ORDINAL}|MR(?=:\s*\d))"

_STITCHES = (
    r"(?:ch|sc|dc|hdc|htr|tr|dtr|ttr|trtr|sl\s?st|ss|slst|inc|dec|inv|esc|ehdc|edc|fsc|fhdc|fdc|FP\w+|BP\w+|"
    r"\w{2,4}\d?tog|shell|cluster|cl|bobble|puff|picot|popcorn|pc|V-st|crab|rev|single|double|half|treble|chain|slip)"
)
_START = (
    rf"(?:[*(\[]|\d+\s*{_STITCHES}\b|{_STITCHES}\b|(?:with|using|in|working|turn|join|attach|rep|repeat|work|sk|skip|miss|"
    r"as|same|like|loosely|fasten|do\s+not|change|beg|pm|place|change|cont|continue|knit|from|"
    r"even|make|draw|yo|rotate|magic|without|starting|beginning|still|again|now|keeping|skipping)\b)"
)
# Behind a label with no mark at all, only what can be nothing but a row.
_BARE_START = (
    r"(?:[*(\[]|\d+\s*(?:sc|dc|hdc|htr|tr|dtr|inc|dec|ch|sl\s?st)\b|(?:ch|sk)\s*\d|"
    r"(?:sc|dc|hdc|htr|tr|dtr|inc|dec|sl\s?st|sc2tog|dc2tog|hdc2tog)\s+(?:in|into|around|across|next|over|\d)\b)"
)
_BOLD = r"(?:\*\*|__)"
_SEPARATOR = (
    rf"(?:\s*{_BOLD}?\s*:(?!\d)\s*{_BOLD}?"
    rf"|\s*{_BOLD}?\.(?:\s*[—–-])?{_BOLD}?(?=\s+{_START}|\s*$)"
    rf"|\s*{_BOLD}?\s*[—–]\s*{_BOLD}?(?=\s*{_START}|\s*\d)"
    rf"|\s*{_BOLD}?\s+-\s+{_BOLD}?(?=\s*{_START}|\s*\d)"
    rf"|\s?[=)]{_BOLD}?(?=\s+{_START}|\s+\d)"
    rf"|\s*{_BOLD}(?=\s|$)"
    rf"|(?=\s+{_BARE_START}))"
)
_COLON = rf"\s*{_BOLD}?\s*:(?!\d)\s*{_BOLD}?"
# "3. *1 sc, 2 sc in next* 6 times (18)": an item of a numbered list that ends with its count.
_LISTED = rf"{_NUMBER}[.)](?=\s+{_START}[^\n]*\(\d+(?:\s+\w+)?\)\s*\.?\s*(?:\n|$))"

# A row for some sizes without a label of its own, such as "Sizes L and XL only: Ch 1, sc2tog, …"
_FOR_SOME = rf"(?:for\s+)?(?:the\s+)?sizes?\s+[^.:\n]{{1,60}}?\bonly\s*:(?=\s+{_START})"

# Other names before a colon, which are labels where an instruction follows.
_BEFORE_START = r"(?:edging|border|trim|next|RS|WS|right\s+side|wrong\s+side|colou?r\s+[A-Z])"
_AT_START = _compile(
    rf"(?P<bold>{_BOLD})?\s*{_ONLY}?(?:{_STRONG}{_ASIDE}*{_SEPARATOR}|{_WEAK}{_ASIDE}*{_COLON}|{_FOR_SOME}|{_LISTED}|{_ORDINAL}\s*\.\s*[—–]|{_BEFORE_START}{_COLON}(?=\s*{_START}))"
)
_INSIDE = _compile(
    rf"(?:(?<=[.)\]!?}}”\"])|(?<=\d))(?P<gap>\s*)(?={_BOLD}?{_ONLY}?{_STRONG}{_ASIDE}*(?:{_COLON}|\s+[-–—]\s+{_START}|"
    rf"\.\s+{_START}))"
)
_TAIL = 40  # characters at the end of a text that tell how it ends
_UNFINISHED = _compile(
    r"(?:[,(\[+&]|(?<![\w.)*])\*+|\b(?:rep|repeat|repeating|as|for|to|of|in|and|or|from|with|than|like|until|work|through|on|at|after|"
    r"before|the|by|see|between|into|per|next|last|rows?|rnds?|rounds?))\s*$"
)
_FINISHED = _compile(r"[.!?:;)\]”\"—*_]\s*$")

_MANY = r"(?:\d+(?:\s*[(\[][\d\s,:;]{1,60}[)\]])*|\{[^}\n]{1,60}\})"  # 14, 14 (16, 18), {rounds}
_COLOUR = r"(?:[A-Z]{1,2}\d?\b|MC|CC\d?|colou?r\s+\w+|(?:main|contrast)\s+colou?r|yarn|thread)"
_CHAIN = (
    r"(?:loosely\s+)?ch(?:ain)?(?:\s+loosely)?\s+"
    r"(?:\d+|\{|an?\s+(?:multiple|odd|even)|any\s+(?:odd|even)|in\s+multiples)"
)
_ROWS_OF = (
    rf"(?:{_STITCHES}\s+{_MANY}\s+(?:more\s+)?{_ROW}\b"
    rf"|(?:work|cont(?:inue)?)\s+(?:even\s+)?in\s+{_STITCHES}\s+(?:for\s+)?{_MANY}\s+(?:more\s+)?{_ROW}\b"
    rf"|(?:work|cont(?:inue)?)\s+(?:even\s+)?in\s+{_STITCHES}\s+until\b[^.\n]{{0,40}}?\d)"
)
# "Cuff: Ch 11." and nothing more in its sentence, which a picot or a loop would have.
_PIECE_AND_CHAIN = _compile(
    rf"(?P<name>(?-i:[A-Z])[a-z]+(?:\s+[a-z]+){{0,2}}):\s+(?:(?:with|using)\s+[^,.:;\n]{{1,30}},\s+)?(?:loosely\s+)?"
    rf"ch(?:ain)?\s+{_MANY}\s*(?:\.|$)"
)
# "Rows 2 and 3 set the pattern." before a sentence that has them worked.
_SETS_PATTERN = _compile(
    rf"(?:(?:the\s+)?{_ROW}\s+{_NUMBER}(?:{_JOIN}{_NUMBER})*|(?:these|the\s+last|last)\s+\w+\s+{_ROW})\s+"
    r"(?:set|sets|form|forms|make|makes|establish|establishes)\s+(?:up\s+)?(?:the\s+)?(?:[a-z]+\s+)?patt(?:ern)?"
    r"(?:\s+rep(?:eat)?)?\s*[.;,:](?=\s+\S)"
)
# Sentences that stand for rows of their own, behind a full stop even on the line below a row.
_SEVERAL = _compile(
    rf"(?:{_ROWS_OF}|work\s+{_MANY}\s+(?:more\s+)?{_ROW}\b"
    r"|(?:keeping\b[^.\n]{0,30}?\b)?(?:inc|dec)(?:rease)?\s+(?:\d+|one|two)\s+(?:sts?|stitch(?:es)?|sc|hdc|htr|dc|tr)\s"
    r"[^.\n]{0,40}?"
    rf"\b(?:next|every|foll\w*)\s[^.\n]{{0,20}}?\b{_ROW}\b)"
)
# "Place markers in 10th and 30th sts", "mark the 10th st", "place a marker on each side of center 10 sts".
_MARKS = (
    r"(?:(?:place|put|attach|insert)\s+(?:(?:a|stitch|st|removable)\s+)*markers?|mark)\s+(?:in\s+|into\s+)?"
    rf"(?:the\s+)?(?:{_ORDINAL}\b|(?:on|at)\s+(?:each|either|both)\s+sides?\s+of\s+(?:the\s+)?cent(?:er|re)\s+\d)"
)
# "As Back.", "Same as for Left Front": a whole line, and a name that can be a piece's.
_AS_PIECE = (
    r"(?:exactly\s+)?(?:the\s+)?(?:same\s+as|as|like)\s+(?:for\s+)?(?:the\s+)?"
    r"(?!(?:above|below|before|shown|follows?|desired|needed|required|usual|instructed|directed|established|given|set|"
    r"described|pictured|stated|many|much|long|you|per|in|on|row|rnd|round|rows|rnds|rounds|last|next|a|an)\b)"
    r"[A-Za-z][A-Za-z'’-]{0,20}(?:\s+[A-Za-z'’-]{1,20}){0,2}(?:\s+\d{1,2})?\s*\.?\s*$"
)
_FLOW = _compile(
    rf"(?:{_CHAIN}(?!\S*\s*(?:counts?|does|do|is|are|at\s+(?:the\s+)?(?:beg\w*|start\w*)|always|never|stands?|replaces?|=|sps?|spaces?|for\s+(?:a\s+)?(?:sc|hdc|dc|tr|dtr|htr|single|half|double|treble|triple))\b)"
    rf"|(?:with|using)\s+(?:[^.;:\n]|\.\d){{1,60}}?,?\s+(?:{_CHAIN}|make\s+\d+\s?ch(?:ain)?s?\b)"
    rf"|(?:rep|repeat|rpt)\s+(?:the\s+)?(?:{_ROW}\b|(?:last|these|previous)\s+(?:\d+|\w+|\{{[^}}\n]*\}}|\d+\s*\([\d\s,]*\))\s+{_ROW}|last\s+{_ROW}|(?:{_NOT_A_NAME}[A-Za-z][\w'’-]*\s+){{1,2}}{_ROW}\b|from\s+(?:row|rnd|round)\b|{_ORDINAL}(?:{_JOIN}{_ORDINAL})*\s+{_ROW}\b)"
    rf"|work\s+(?:{_ROW}\s+\d|{_ROW}\s+[A-Z]\s*(?:,|and\b|&)|even\b|(?:{_MANY}|\w+)\s+(?:more\s+)?{_ROW}\b|(?:in\s+)?(?:patt(?:ern)?|as\s+established)\b)"
    rf"|(?:(?:using|with)\s+[^.;:\n]{{1,40}}?,?\s+)?(?:make|work|loosely\s+(?:make|work))\s+{_MANY}(?:;\s*\d+)*\s?ch(?:ain)?s?\b"
    rf"|{_MANY}\s?ch(?:ain)?s?\s*(?:[.,;]|$)"
    r"|(?:work\s+)?(?:f(?:sc|hdc|dc|htr|tr)\s+(?:\d|\{)|(?:\d+|\{[^}\n]*\})\s+f(?:sc|hdc|dc|htr|tr)\b)"
    r"|(?:loosely\s+)?(?:make|work)\s+(?:a\s+)?(?:foundation\s+|base\s+)?(?:ch|chain)\s+of\s+\d"
    r"|(?:loosely\s+)?(?:make|work)\s+\d+(?:-\d+)+\s+ch"
    r"|(?:make|ch)\s+an?y?\s+(?:odd|even)\s+number|ch\s+any\s+multiple"
    rf"|(?:work\s+)?{_MANY}\s+(?:more\s+)?{_ROW}\s+(?:even|without\s+shaping)\b"
    r"|(?:(?:cont(?:inue)?|keeping)\b[^.\n]{0,30}?\b)?(?:inc|dec)(?:rease|reasing)?\s+(?:\d+|one|two)\s+(?:sts?|stitch(?:es)?|sc|hdc|htr|dc|tr)\b"
    rf"|{_ROWS_OF}"
    r"|cont(?:inue)?\s+(?:to\s+)?(?:inc|dec)|at\s+the\s+same\s+time\b"
    rf"|cont(?:inue)?\s+(?:in\s+patt(?:ern)?|as\s+established|to\s+rep(?:eat)?)\b"
    r"|(?:with\s+(?:RS|WS|right\s+side|wrong\s+side)\s+facing,?\s+)?(?:sk|skip|miss|leave)\s+(?:the\s+)?"
    r"(?:(?:next|first|cent(?:er|re)|middle)\s+)?(?:\d|\{)[^.\n]{0,80}\b(?:join|attach|rejoin)\b"
    r"|(?:work|make|finish|complete)\s+(?:exactly\s+)?"
    r"(?:same\s+as|as|like)\s+(?:for\s+)?(?:the\s+)?[A-Za-z][\w' -]{0,30}?"
    r"(?:\s*,?\s+(?:to|through|until|up\s+to)\s+(?:and\s+including\s+)?(?:the\s+)?(?:end\s+of\s+)?(?:row|rnd|round)\s+\d[^\n]{0,20}|\s*\.?\s*(?:[(\[]\d[^\n]{0,20})?)$"
    rf"|{_AS_PIECE}"
    r"|return\s+to\s+(?:row|rnd|round|the\s+last)\b"
    rf"|(?:fasten|break)\s+off\b|end\s+off\b|f/o\b"
    rf"|(?:with\s+(?:RS|WS|right\s+side|wrong\s+side)\s+facing,?\s+)?(?:join|rejoin|attach|change\s+to|changing\s+to)\s+{_COLOUR}"
    rf"|{_MARKS}"
    r"|(?:do\s+not\s+)?(?:turn|rotate)\b\s*(?:[.,;]|$)"
    rf"|(?:make|form|(?:start|begin)\s+with)\s+an?\s+(?:magic|adjustable)\s+(?:ring|circle|loop))"
)


@dataclass(frozen=True, slots=True)
class Label:
    """A row label in a text: `start` and `end` are offsets, the separator included."""

    start: int
    end: int


def find_label(text: str, at: int = 0) -> Label | None:
    """The label that a line starts with, at an offset: `Row 1 (RS):`, `**Rnd 3**`, `R9-R13:`, `5-9:`."""
    match = _AT_START.match(text, at)
    if match is None:
        return None
    if match["bold"] and match.group().count(match["bold"]) < 2 and not _closes_bold(text, match):
        return None
    return Label(match.start(), match.end())


def find_inner_labels(text: str, at: int) -> tuple[int, ...]:
    """Offsets of further labels in a text that each start a sentence: `... (12) Rnd 3: ...`."""
    return tuple(match.end("gap") for match in _INSIDE.finditer(text, at) if match.end("gap") > at)


def is_flow(text: str, at: int = 0) -> bool:
    """Whether a line without a label is an instruction: `Ch 34.`, `With A, ch {panel}`, `Fasten off.`"""
    bold = re.compile(r"\*\*|__").match(text, at)
    return _FLOW.match(text, bold.end() if bold else at) is not None


def name_before_chain(text: str) -> int:
    """The length of the name of a piece before its chain, `Cuff: Ch 11.`; 0 where the line begins otherwise."""
    match = _PIECE_AND_CHAIN.match(text)
    return match.end("name") if match else 0


def tells_pattern(text: str) -> int:
    """The length of "Rows 2 and 3 set the pattern." where an instruction follows on the line, else 0."""
    match = _SETS_PATTERN.match(text)
    if match is None:
        return 0
    rest = text[match.end() :]
    return match.end() if is_flow(rest.lstrip()) else 0


def stands_for_rows(text: str) -> bool:
    """Whether a line stands for rows of its own: `Sc 4 rows.`, `Dec 1 st at each end of next row.`"""
    return _SEVERAL.match(text) is not None


def ends_open(text: str) -> bool:
    """Whether a text stops in the middle of a sentence that wants a row's name: `... work as for`."""
    return _UNFINISHED.search(text.rstrip()[-_TAIL:]) is not None


def ends_sentence(text: str) -> bool:
    return _FINISHED.search(text.rstrip()[-1:]) is not None


def _closes_bold(text: str, match: re.Match[str]) -> bool:
    """`**Row 1: Sc across.**` is bold as a whole; the mark may close anywhere later on."""
    return match["bold"] in text[match.end() :]
