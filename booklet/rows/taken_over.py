"""Rows taken over from another piece: "Work as for Back to end of Row 6", "Rnds 1-6: As First leg"."""

import re
from collections.abc import Sequence
from dataclasses import replace

from booklet.model.parsed import ParsedPart, Row
from booklet.model.tree import Chain, PerSize

AS_PIECE = re.compile(
    r"^\W*(?:(?:(?P<rest>finish|complete)|work|make)\w*\s+)?(?:exactly\s+)?(?:the\s+)?(?:same\s+as|as|like)\s+(?:for\s+)?"
    r"(?:the\s+)?(?P<name>[A-Za-z][\w' -]*?)"
    r"(?:\s*,?\s+(?:to|through|until|up\s+to)\s+(?:and\s+including\s+)?(?:the\s+)?"
    r"(?:(?:end|beg\w*|start)\s+of\s+)?(?:(?:row|rnd|round)\s+(?P<last>\d{1,4})"
    r"(?:\s*,?\s+(?:inclusive|(?:(?:has|have)\s+been|is|are)\s+(?:completed?|worked|done|finished|made)))?|(?P<part>[a-z]+(?:\s+[a-z]+)?\s+shaping|shaping|[a-z]+\s+(?:edging|border|ribbing)"
    r"|(?:(?:first|left|right|front|back)\s+)?(?:armholes?|underarms?|neck(?:line)?|shoulders?|waist|heel|toe|thumb|crown))))?"
    r"\s*(?:[.(\[]|$)",
    re.IGNORECASE,
)
ROWS_OF = re.compile(
    r"^\W*(?:(?:work|rep(?:eat)?|follow|make)\w*\s+)?(?:(?:the\s+)?same\s+as\s+(?:for\s+)?|as\s+(?:for\s+)?)?"
    r"(?:rows?|rnds?|rounds?)\s+(?P<first>\d{1,4})(?:\s*(?:-|–|to|through|thru)\s*(?P<last>\d{1,4}))?"
    r"\s+(?:of|for|as\s+for)\s+(?:the\s+)?(?P<name>[A-Za-z][\w' -]*?)\s*(?:[.(\[]|$)",
    re.IGNORECASE,
)
# "Rep Rows 2-5 (6) of Front": a range that differs between sizes.
RANGE_OF = re.compile(
    r"^\W*(?:(?:work|rep(?:eat)?|follow|make)\w*\s+)?(?:(?:the\s+)?same\s+as\s+(?:for\s+)?|as\s+(?:for\s+)?)?"
    r"(?:rows?|rnds?|rounds?)\s+(?P<range>\d[\d\s,:;()\[\]–-]*?)"
    r"\s+(?:of|for|as\s+for)\s+(?:the\s+)?(?P<name>[A-Za-z][\w' -]*?)\s*(?:[.(\[]|$)",
    re.IGNORECASE,
)
NO_PIECES = (
    *("above", "below", "before", "shown", "follow", "follows", "desired", "needed", "required", "usual", "normal"),
    *("instructed", "directed", "established", "given", "set", "described", "pictured", "stated", "written"),
)
GOES_ON = re.compile(r"\s*,?\s+(?:to|until|till|through|up|but|except|for)\b", re.IGNORECASE)
SHAPING = re.compile(r"\b(?:shap\w*|the|for|of)\b", re.IGNORECASE)


def take_over(part: ParsedPart, earlier: Sequence[ParsedPart]) -> tuple[ParsedPart, list[Row]]:
    """The section with the rows of other pieces in the place of the lines that ask for them, and those lines.

    A line that names no piece before it stays as it is, one without a label is left out: it was prose.
    """
    rows: list[Row] = []
    replaced: list[Row] = []
    for row in part.rows:
        if named := _take_named(row, rows, earlier):
            replaced.append(row)
            rows.extend(replace(other, section=row.section) for other in named)
            continue
        match = AS_PIECE.match(row.words.text)
        if match is None or not (row.label.numbers or asks_for_piece(row)):
            rows.append(row)
            continue
        piece = find_piece(match["name"], earlier)
        if piece is None:
            if row.label.text or names_start(match["name"], earlier):
                rows.append(row)
            continue
        taken = _take(piece.rows, row, match, rows)
        if taken is None:
            rows.append(row)
            continue
        replaced.append(row)
        if rows and any(other.label.numbers for other in taken):  # the section has a chain of its own
            taken = taken[next(at for at, other in enumerate(taken) if other.label.numbers) :]
            if _first_chain(rows) != _first_chain(piece.rows):
                taken = [replace(other, stated=None) for other in taken]  # its counts are other ones
        taken = [replace(other, section=row.section) for other in taken]
        if taken and row.stated is not None:
            taken[-1] = replace(taken[-1], stated=row.stated)
        rows.extend(taken)
    return replace(part, rows=tuple(rows)), replaced


def _take_named(line: Row, before: Sequence[Row], earlier: Sequence[ParsedPart]) -> list[Row]:
    """The rows of "Work Rows 1-6 of Back", with its foundation where the section has none; none for any other line.

    Under another label, or behind other rows, they have the numbers that are due.
    """
    if line.label.varied:
        return _take_varied(line, earlier)
    match = ROWS_OF.match(line.words.text)
    piece = find_piece(match["name"], earlier) if match else None
    if match is None or piece is None:
        return []
    first, last = int(match["first"]), int(match["last"] or match["first"])
    taken = take_rows(piece.rows, set(range(first, last + 1)), None)
    done = max((row.label.numbers[-1] for row in before if row.label.numbers), default=0)
    due = line.label.numbers[0] if line.label.numbers else done + 1 if done else first
    number = sum(len(row.label.numbers) for row in taken)
    if number != last - first + 1 or (line.label.numbers and len(line.label.numbers) != number):
        return []
    if before or first > 1:
        taken = [row for row in taken if row.label.numbers]
    taken = [
        replace(row, label=replace(row.label, numbers=tuple(n + due - first for n in row.label.numbers)))
        for row in taken
    ]
    if line.stated is not None:
        taken[-1] = replace(taken[-1], stated=line.stated)
    return taken


def _take_varied(line: Row, earlier: Sequence[ParsedPart]) -> list[Row]:
    """The rows of "Rows 2-5 (6): Rep Rows 2-5 (6) of Front", whose own label says the same range in every size."""
    match = RANGE_OF.match(line.words.text)
    piece = find_piece(match["name"], earlier) if match else None
    if match is None or piece is None or _squeeze(match["range"]) not in _squeeze(line.label.text):
        return []
    alike = [row for row in piece.rows if row.label.varied == line.label.varied]
    return [replace(row, stated=line.stated or row.stated) for row in alike[:1]]


def _squeeze(numbers: str) -> str:
    return re.sub(r"\s+", "", numbers).replace("–", "-")


def _first_chain(rows: Sequence[Row]) -> PerSize:
    """The chains that a piece begins with, () where it begins otherwise."""
    steps = rows[0].steps if rows else ()
    return next((step.count for step in steps if isinstance(step, Chain)), ())


def names_start(name: str, earlier: Sequence[ParsedPart]) -> bool:
    """ "Back until it measures 30 cm": is it an earlier piece up to some place in it?"""
    titles = [part.title.strip() for part in earlier if part.rows and part.title.strip()]
    return any(name.lower().startswith(title.lower()) and GOES_ON.match(name[len(title) :]) for title in titles)


def _take(rows: Sequence[Row], line: Row, match: re.Match[str], before: Sequence[Row]) -> list[Row] | None:
    """The rows that the line asks for; None where it names a place that the piece has not."""
    if match["part"]:
        end = find_shaping(rows, match["part"])
        return None if end is None else list(rows[:end])
    if match["rest"] and not line.label.numbers:
        done = max((row.label.numbers[-1] for row in before if row.label.numbers), default=0)
        return [row for row in rows if row.label.numbers and row.label.numbers[0] > done]
    wanted = set(line.label.numbers) if line.label.numbers else None
    return take_rows(rows, wanted, int(match["last"]) if match["last"] else None)


def find_shaping(rows: Sequence[Row], name: str) -> int | None:
    """Where the rows begin that stand under "Shape armhole", by the words of "armhole shaping"."""
    wanted = set(SHAPING.sub(" ", name.lower()).split())
    for at, row in enumerate(rows):
        section = row.section if row.section != rows[0].section else ""
        for title in (section, row.above, row.label.text):
            words = {word.rstrip("s") for word in re.findall(r"[a-z]+", title.lower())}
            is_named = all(word.rstrip("s") in words for word in wanted) and any(w.startswith("shap") for w in words)
            short = bool(wanted) and len(words) <= len(wanted) + 2  # "Divide for armholes"
            if is_named or (short and all(word.rstrip("s") in words for word in wanted)):
                return at
    return None


def asks_for_piece(row: Row) -> bool:
    """Is it a line without a label that asks for the rows of another piece?"""
    return not row.label.text and AS_PIECE.match(row.words.text) is not None


def names_piece(row: Row) -> bool:
    """Does the line ask for rows of what can be a piece, not to work "as shown" or "as follows"?"""
    match = AS_PIECE.match(row.words.text) if not row.label.text else None
    return match is not None and match["name"].split()[0].lower() not in NO_PIECES


def find_piece(name: str, earlier: Sequence[ParsedPart]) -> ParsedPart | None:
    """The piece of that title, the last one where several have it."""
    wanted = name.strip().lower()
    titles = {part.title.strip().lower(): part for part in earlier if part.rows}
    return titles.get(wanted)


def take_rows(rows: Sequence[Row], wanted: set[int] | None, last: int | None) -> list[Row]:
    """The rows up to and with Row `last`, or those of the `wanted` numbers; a range is cut where it goes on."""
    taken: list[Row] = []
    for row in rows:
        numbers = row.label.numbers
        kept = tuple(n for n in numbers if (last is None or n <= last) and (wanted is None or n in wanted))
        if numbers and not kept:
            if last is not None and numbers[0] > last:
                break
            continue
        if not numbers and wanted is not None and taken:
            continue
        stated = row.stated if kept == numbers or not row.stated else None
        taken.append(replace(row, label=replace(row.label, numbers=kept), stated=stated))
    return taken
