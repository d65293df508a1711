"""A line of gauge: `16 sts and 17 rows = 10 cm in moss stitch, 5 mm hook, blocked`."""

import re
from dataclasses import dataclass

from booklet.model.measure import Length
from booklet.reading.quantities import (
    AMOUNT,
    LENGTH,
    UnreadError,
    find_lengths,
    read_amount,
    read_hook,
    read_length,
)

_FORM = "stitches and rows over a length, such as 16 sts and 17 rows = 10 cm"
_COUNTS = re.compile(
    rf"\s*(?P<sts>{AMOUNT})\s*(?P<kind>[A-Za-z][\w .-]*?)"
    rf"(?:\s*(?:,|&|×|/|\bx\b|\bby\b|\band\b)\s*(?P<rows>{AMOUNT})\s*(?P<row_kind>rows?|rnds?|rounds?))?"
    rf"\s*(?:=|\b(?:to|over|per|in|measures?|is|are)\b)\s*",
    re.IGNORECASE,
)
_OVER = re.compile(
    rf"(?:{AMOUNT}\s*(?:×|x|by)\s*)?(?P<over>{LENGTH}(?:\s*[(\[/]\s*{LENGTH}\s*[)\]]?)?)"
    r"(?:\s*(?:square|sq\.?))?",
    re.IGNORECASE,
)
_HOOK = re.compile(
    rf"(?:\b(?:with|on|using)\s+)?(?:\ban?\s+)?{AMOUNT}\s*mm\b\s*(?:\([^)]*\)\s*)?(?:\bhook\b)?", re.IGNORECASE
)
_UNBLOCKED = re.compile(r"\b(?:unblocked|not blocked|before blocking)\b", re.IGNORECASE)
_BLOCKED = re.compile(
    r"\b(?:(?:washed|wet)\s+and\s+)?blocked\b|\bafter\s+(?:washing\s+and\s+)?blocking\b", re.IGNORECASE
)
_ROUNDS = re.compile(
    r"\b(?:(?:when\s+)?worked\s+)?in\s+(?:the\s+round|(?:continuous\s+)?(?:rounds|rnds))\b", re.IGNORECASE
)
# "1 square = 11 cm", "each motif measures 4 in", "Rnds 1-4 = 10 cm across": a whole motif is measured.
_MOTIF = re.compile(
    rf"\s*(?:(?P<count>{AMOUNT}|one|each|the)\s+)?(?P<motif>(?:[a-z-]+\s+){{0,2}}(?:motif|square|hexagon|triangle|octagon|"
    r"pentagon|circle|block|flower|medallion|rosette|diamond|star)s?|"
    r"(?:rnds?|rounds?)\s*1\s*(?:-|–|to|through)\s*\d+(?:\s+of\s+[\w ]{1,30}?)?)"
    r"\s*(?:=|\b(?:measures?|is|are)\b)\s*",
    re.IGNORECASE,
)
_ACROSS = re.compile(r"^\s*(?:across|square|wide|in\s+diameter|from\s+side\s+to\s+side)\b", re.IGNORECASE)
_PLAIN_STITCHES = ("st", "sts", "stitch", "stitches")
# Finer than sewing thread and coarser than rope are slips of the pen.
STS_PER_CM = (0.05, 10.0)


@dataclass(frozen=True, slots=True)
class GaugeLine:
    """What one line of gauge says."""

    sts: float
    rows: float | None
    over: Length
    stitch: str
    hook_mm: float | None
    blocked: bool
    in_rounds: bool
    motif: str = ""  # what is counted in place of stitches


def read_gauge(text: str) -> GaugeLine:
    """The gauge in a line; words that are not read as a hook, blocking or rounds name the stitch."""
    motif = _MOTIF.match(text)
    if motif is not None:
        return _read_motif(text, motif)
    counts = _COUNTS.match(text)
    if counts is None:
        _refuse_without_length(text)
        raise UnreadError(f'"{text.strip()}" is not a gauge', _FORM)
    over = _OVER.match(text, counts.end())
    if over is None:
        return _refuse_length(text, counts.end())
    rest, hook_mm = _take_hook(text[over.end() :])
    rest, unblocked = _take(_UNBLOCKED, rest)
    rest, blocked = _take(_BLOCKED, rest)
    rest, in_rounds = _take(_ROUNDS, rest)
    kind = counts["kind"].strip()
    stitch, is_named = _name_stitch(rest)
    if not is_named and kind.lower() not in _PLAIN_STITCHES:
        stitch = ", ".join(filter(None, (kind, stitch)))
    line = GaugeLine(
        sts=read_amount(counts["sts"]),
        rows=read_amount(counts["rows"]) if counts["rows"] else None,
        over=read_length(over["over"]),
        stitch=stitch,
        hook_mm=hook_mm,
        blocked=blocked and not unblocked,
        in_rounds=in_rounds or (counts["row_kind"] or "").lower().startswith(("rnd", "round")),
    )
    check_gauge(line.sts, line.rows, line.over)
    return line


def _read_motif(text: str, motif: re.Match[str]) -> GaugeLine:
    """The gauge of whole motifs: `1 square = 11 cm, 5 mm hook, blocked`."""
    over = _OVER.match(text, motif.end())
    if over is None:
        return _refuse_length(text, motif.end())
    rest, hook_mm = _take_hook(_ACROSS.sub(",", text[over.end() :]))
    rest, unblocked = _take(_UNBLOCKED, rest)
    rest, blocked = _take(_BLOCKED, rest)
    stitch, _ = _name_stitch(rest)
    count = motif["count"] or "1"
    name = re.sub(r"\s+", " ", motif["motif"]).strip()
    number = read_amount(count) if count[0].isdigit() else 1.0
    check_gauge(number, None, read_length(over["over"]), name)
    return GaugeLine(number, None, read_length(over["over"]), stitch, hook_mm, blocked and not unblocked, False, name)


def _refuse_without_length(text: str) -> None:
    """Say so where stitches and rows are counted over no length: `16 sts and 18 rows, 5 mm hook`."""
    counted = re.match(
        rf"\s*({AMOUNT}\s*(?:sts?|stitches|[a-z]{{2,4}}\b)(?:[\s,&x×/]|and\b){{0,6}}(?:{AMOUNT}\s*(?:rows?|rnds?|rounds?|r\b))?)",
        text,
        re.IGNORECASE,
    )
    if counted is None or any(length.unit != "mm" for length in find_lengths(text)):
        return
    words = counted.group(1).strip(" ,")
    raise UnreadError(
        f'"{text.strip()}" counts over no length',
        _FORM,
        f'write "{words} = 10 cm" or "{words} = 4 in"',
        "gauge-without-length",
    )


def check_gauge(sts: float, rows: float | None, over: Length, motif: str = "") -> None:
    """Refuse a gauge that no yarn can have."""
    if motif:
        if not 0 < sts / over.cm <= STS_PER_CM[1]:
            raise UnreadError(f"{sts:g} {motif} over {over.amount:g} {over.unit} is out of range", "one motif or a few")
        return
    low, high = STS_PER_CM
    for count, unit in ((sts, "sts"), (rows, "rows")):
        if count is not None and not low <= count / over.cm <= high:
            raise UnreadError(
                f"{count:g} {unit} over {over.amount:g} {over.unit} is out of range",
                f"from {low * 10:g} to {high * 10:g} {unit} over 10 cm",
            )


def _refuse_length(text: str, at: int) -> GaugeLine:
    bare = re.match(rf"\s*({AMOUNT})", text[at:])
    if bare is None or find_lengths(text[at:])[:1]:
        raise UnreadError(f'"{text.strip()}" is not a gauge', _FORM)
    number = bare.group(1)
    fix = f'write "{number} cm" or "{number} in"'
    raise UnreadError(f'"{number}" has no unit', _FORM, fix, "missing-unit")


def _take_hook(rest: str) -> tuple[str, float | None]:
    match = _HOOK.search(rest)
    if match is None:
        return rest, None
    return rest[: match.start()] + "," + rest[match.end() :], read_hook(match.group())


def _take(form: re.Pattern[str], rest: str) -> tuple[str, bool]:
    """The text without what the form matches, and whether it was there."""
    match = form.search(rest)
    return (rest, False) if match is None else (rest[: match.start()] + "," + rest[match.end() :], True)


def _name_stitch(rest: str) -> tuple[str, bool]:
    """What is left of the line in plain words, and whether "in" or "over" names a stitch there.

    ` in moss stitch, , yarn held double` gives `moss stitch, yarn held double`.
    """
    pieces = [re.sub(r"\s+", " ", piece).strip(" .;()[]") for piece in re.split(r"[,;]", rest)]
    named = re.compile(r"(?:(?:measured|worked|taken)\s+)?(?:in|over)\s+(?=\S)", re.IGNORECASE)
    words = [named.sub("", piece, count=1) if named.match(piece) else piece for piece in pieces]
    kept = [word for word in words if word and word.lower() not in ("and", "in", "over", "with")]
    return ", ".join(kept), any(named.match(piece) for piece in pieces)
