"""Special stitches as the body defines them: `**Shell:** 5 dc in next st.`, `Shell (sh): ...`."""

import re

from booklet.model.pattern import SpecialStitch
from booklet.source import Span

# A name of up to six words, an abbreviation in brackets or not, and a colon, a dash or an equals sign.
_NAME = r"[A-Za-z0-9][\w'’/-]*(?:[ \t]+[\w'’/-]+){0,5}"
_ENTRY = re.compile(
    rf"^[ \t]*(?:[-*+][ \t]+)?(?P<bold>\*\*|__)?(?P<name>{_NAME})[ \t]*(?:[(\[](?P<short>[^()\[\]\n]{{1,20}})[)\]])?"
    r"(?:[ \t]*(?P=bold)?[ \t]*(?::|=|[–—]|[ \t]-[ \t])[ \t]*(?P=bold)?|[ \t]*(?P=bold)(?=[ \t]))"
    r"|^[ \t]*(?:[-*+][ \t]+)?(?P<name2>"
    + _NAME
    + r")[ \t]*(?:[(\[](?P<short2>[^()\[\]\n]{1,20})[)\]])?[ \t]*(?::|=|[–—])",
    re.MULTILINE,
)
_NOT_A_STITCH = re.compile(
    r"(?:notes?|tips?|important|remember|see|for example|hint|work\b.*|"
    r".*\b(?:follows|following|below|first|these|this))$",
    re.IGNORECASE,
)
_BULLET = re.compile(r"[ \t]*(?:[-*+][ \t]+)?")
_BLANK = re.compile(r"\n[ \t]*\n")


def find_definitions(span: Span) -> tuple[list[SpecialStitch], list[Span]]:
    """The stitches defined in a stretch of prose, and the stretches that define none.

    An entry runs up to the next one, or to a blank line.
    """
    text = span.text
    stitches: list[SpecialStitch] = []
    rest: list[Span] = []
    done = 0
    for match in list(_ENTRY.finditer(text)):
        name = match["name"] or match["name2"]
        if match.start() < done or _NOT_A_STITCH.match(name):
            continue
        end = _find_end(text, match.end())
        words = re.sub(r"\s+", " ", text[match.end() : end]).strip().strip("*_").strip()
        if not words:
            continue
        rest += _keep(span, done, match.start())
        short = match["short"] or match["short2"] or ""
        entry = text[match.start() : end]
        lead = _BULLET.match(entry)
        place = span.sub(match.start() + (lead.end() if lead else 0), match.start() + len(entry.rstrip()))
        stitches.append(SpecialStitch(name.strip(), words, place, _strip_short(short)))
        done = end
    return stitches, rest + _keep(span, done, len(text))


def _find_end(text: str, start: int) -> int:
    following = _ENTRY.search(text, start)
    blank = _BLANK.search(text, start)
    ends = [match.start() for match in (following, blank) if match]
    return min(ends, default=len(text))


def _keep(span: Span, start: int, end: int) -> list[Span]:
    text = span.text[start:end]
    if not text.strip():
        return []
    first = start + len(text) - len(text.lstrip("\n"))
    return [span.sub(first, start + len(text.rstrip()))]


def _strip_short(text: str) -> str:
    return re.sub(r"^(?:abbreviated|abbr\.?)\s+(?:as\s+)?", "", text.strip())
