"""Rows taken over from another piece: "Work as for Back to end of Row 6", "Rnds 1-6: As First leg"."""

import re
from collections.abc import Sequence
from dataclasses import replace

from booklet.model.tree import ParsedPart, Row

AS_PIECE = re.compile(
    r"^\W*(?:(?:work|make)\w*\s+)?(?:exactly\s+)?(?:the\s+)?(?:same\s+as|as|like)\s+(?:for\s+)?(?:the\s+)?"
    r"(?P<name>[A-Za-z][\w' -]*?)"
    r"(?:\s*,?\s+(?:to|through|until|up\s+to)\s+(?:the\s+)?(?:end\s+of\s+)?(?:row|rnd|round)\s+(?P<last>\d{1,4}))?"
    r"\s*(?:[.(\[]|$)",
    re.IGNORECASE,
)


def take_over(part: ParsedPart, earlier: Sequence[ParsedPart]) -> ParsedPart:
    """The section with the rows of other pieces in the place of the lines that ask for them.

    A line that names no piece before it stays as it is, one without a label is left out: it was prose.
    """
    rows: list[Row] = []
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
        wanted = set(row.label.numbers) if row.label.numbers else None
        taken = take_rows(piece.rows, wanted, int(match["last"]) if match["last"] else None)
        taken = [replace(other, section=row.section) for other in taken]
        if taken and row.stated is not None:
            taken[-1] = replace(taken[-1], stated=row.stated)
        rows.extend(taken)
    return replace(part, rows=tuple(rows))


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
