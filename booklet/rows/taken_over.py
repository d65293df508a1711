"""Rows taken over from another piece: "Work as for Back to end of Row 6", "Rnds 1-6: As First leg"."""

import re
from collections.abc import Sequence
from dataclasses import replace

from booklet.model.tree import ParsedPart, Row

AS_PIECE = re.compile(
    r"^\W*(?:(?:(?P<rest>finish|complete)|work|make)\w*\s+)?(?:exactly\s+)?(?:the\s+)?(?:same\s+as|as|like)\s+(?:for\s+)?"
    r"(?:the\s+)?(?P<name>[A-Za-z][\w' -]*?)"
    r"(?:\s*,?\s+(?:to|through|until|up\s+to)\s+(?:the\s+)?(?:(?:end|beg\w*|start)\s+of\s+)?"
    r"(?:(?:row|rnd|round)\s+(?P<last>\d{1,4})|(?P<part>[a-z]+(?:\s+[a-z]+)?\s+shaping|shaping|[a-z]+\s+(?:edging|border|ribbing))))?"
    r"\s*(?:[.(\[]|$)",
    re.IGNORECASE,
)
SHAPING = re.compile(r"\b(?:shap\w*|the|for|of)\b", re.IGNORECASE)


def take_over(part: ParsedPart, earlier: Sequence[ParsedPart]) -> tuple[ParsedPart, list[Row]]:
    """The section with the rows of other pieces in the place of the lines that ask for them, and those lines.

    A line that names no piece before it stays as it is, one without a label is left out: it was prose.
    """
    rows: list[Row] = []
    replaced: list[Row] = []
    for row in part.rows:
        match = AS_PIECE.match(row.words.text)
        if match is None or not (row.label.numbers or asks_for_piece(row)):
            rows.append(row)
            continue
        piece = find_piece(match["name"], earlier)
        if piece is None:
            if row.label.text:
                rows.append(row)
            continue
        taken = _take(piece.rows, row, match, rows)
        if taken is None:
            rows.append(row)
            continue
        replaced.append(row)
        taken = [replace(other, section=row.section) for other in taken]
        if taken and row.stated is not None:
            taken[-1] = replace(taken[-1], stated=row.stated)
        rows.extend(taken)
    return replace(part, rows=tuple(rows)), replaced


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
            if is_named or (wanted and title and wanted == set(title.lower().split())):
                return at
    return None


def asks_for_piece(row: Row) -> bool:
    """Is it a line without a label that asks for the rows of another piece?"""
    return not row.label.text and AS_PIECE.match(row.words.text) is not None


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
