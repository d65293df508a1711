"""So many stitches along each of several pieces that are made alike: "work 20 sc across top of each panel"."""

import re
from collections.abc import Sequence
from dataclasses import replace

from booklet.model.parsed import ParsedPart, Row
from booklet.model.tree import Node, Repeat, Work

EACH = re.compile(r"\b(?:of|across|along|on|over)\s+each\s+(?:of\s+the\s+)?(?P<name>[a-z]+)\b", re.IGNORECASE)


def work_along_each(part: ParsedPart, earlier: Sequence[ParsedPart]) -> ParsedPart:
    """The part with such steps as often as that piece is made."""
    made = {word: piece.make for piece in earlier if piece.make > 1 for word in _list_words(piece.title)}
    return replace(part, rows=tuple(_go_along_each(row, made) for row in part.rows)) if made else part


def _list_words(title: str) -> list[str]:
    return [word.rstrip("s") for word in re.findall(r"[a-z]+", title.lower())]


def _go_along_each(row: Row, made: dict[str, int]) -> Row:
    steps = tuple(_repeat(step, made) for step in row.steps)
    return replace(row, steps=steps) if steps != row.steps else row


def _repeat(step: Node, made: dict[str, int]) -> Node:
    if not isinstance(step, Work) or step.where.how != "along":
        return step
    named = EACH.search(step.span.text)
    often = made.get(named["name"].lower().rstrip("s"), 1) if named else 1
    return Repeat(step.span, (step,), "times", (often,), mark="(") if often > 1 else step
