"""Pieces with their rows, in the author's order under a proper order of headings."""

import re
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import replace
from itertools import takewhile

from markupsafe import Markup

from booklet.model.pattern import Part, RowLine, SizedNumber
from booklet.model.work import WorkedRow
from booklet.pages.figures import print_size_list
from booklet.pages.illustrations import show_text_pictures
from booklet.pages.manuscript import BookletInput
from booklet.pages.outline import Placed
from booklet.pages.prose import render_prose
from booklet.pages.row_texts import holds_size_list, show_row
from booklet.pages.size_marks import ALL_ONLY
from booklet.pages.typography import set_type
from booklet.pages.views import Entry, Fact, Passage, Piece, Section

FIRST_LEVEL = 3  # under the section's own h2
LAST_LEVEL = 6

_PLAIN_MEASURE = re.compile(r"[a-z][a-z ]*?( / \d+)?", re.IGNORECASE)
_REASON = re.compile(r"\s*\(decided by .*\)$")  # of use to the author, who reads it in the proof


def show_notes(manuscript: BookletInput) -> Section:
    """The rules of counting that the author left open and the counts decided; the author's own stand as written."""
    rules = [_REASON.sub("", reading.text).strip() for reading in manuscript.worked.readings]
    sentences = [f"{rule[:1].upper()}{rule[1:].rstrip('.')}." for rule in dict.fromkeys(rules) if rule]
    entries = (Entry("How stitches are counted", set_type(" ".join(sentences))),) if sentences else ()
    return Section("notes", "Notes", "notes", entries=entries)


def show_instructions(manuscript: BookletInput, pieces: tuple[Piece, ...]) -> Section:
    """The pieces, and before them how their numbers are to be read."""
    facts: list[Fact] = []
    if order := order_sizes(manuscript):
        facts = [Fact("Sizes", order, ALL_ONLY)]
        facts.append(
            Fact(
                "Numbers",
                "The first is for the smallest size; those in brackets are for the larger ones, in the order above. "
                "A number that stands alone is for every size.",
                ALL_ONLY,
            )
        )
    if not manuscript.only_size and (multiples := _list_multiples(manuscript)):
        facts.append(Fact("Multiples", multiples))
    return Section("instructions", "Instructions", "instructions", facts=tuple(facts if pieces else ()), pieces=pieces)


def order_sizes(manuscript: BookletInput) -> str:
    """The names of the sizes as numbers list them, `Lap (Throw, Bed)`; empty for a single size."""
    names = manuscript.pattern.size_names
    return set_type(print_size_list(names)) if len(names) > 1 else ""


def _list_multiples(manuscript: BookletInput) -> str:
    """What each planned number is a multiple of, for those who want a size of their own."""
    texts: list[str] = []
    for number in manuscript.sized.numbers.values():
        if number.multiple < 2:
            continue
        rule = next((rule for rule in manuscript.pattern.numbers if rule.name == number.name), None)
        unit = "rows" if rule and rule.direction == "rows" else "sts"
        plus = f" plus {number.plus}" if number.plus else ""
        texts.append(f"{_name_number(number)}, a multiple of {number.multiple} {unit}{plus}")
    return set_type(f"For a size of your own: {'; '.join(texts)}.") if texts else ""


def _name_number(number: SizedNumber) -> str:
    """A number by the measure that it is worked out from, `width divided by 4`; else by its name in the source."""
    if _PLAIN_MEASURE.fullmatch(number.measure) is None:
        return number.name.replace("_", " ")
    return number.measure.replace("/", "divided by")


def show_pieces(
    placed: Iterable[Placed],
    manuscript: BookletInput,
    worked: Mapping[int, list[list[WorkedRow]]],
    prefix: str,
    first_level: int = FIRST_LEVEL,
) -> tuple[Piece, ...]:
    """Every part as a piece; anchors are the prefix and the number of the piece in its section.

    `first_level` is the level of the outermost headings, 2 where the first of them becomes the section's own.
    """
    pieces: list[Piece] = []
    depths: list[int] = []  # of the headings that are open, so that no level is skipped
    for number, place in enumerate(placed, start=1):
        while depths and depths[-1] >= place.depth:
            depths.pop()
        level = min(max(first_level + len(depths), FIRST_LEVEL), LAST_LEVEL)
        if place.part.title:
            depths.append(place.depth)
        pieces.append(_show_piece(place.part, f"{prefix}-{number}", level, manuscript, worked))
    return tuple(_name_over_parts([piece for piece in pieces if piece.title or piece.passages]))


def _name_over_parts(pieces: list[Piece]) -> Iterator[Piece]:
    """The pieces, the sizes named under an outer heading too where lists stand under those within it."""
    for at, piece in enumerate(pieces):
        within = takewhile(lambda part: part.level > FIRST_LEVEL, pieces[at + 1 :])
        sizes = next((part.sizes for part in within if part.sizes), "")
        if sizes and not piece.sizes and piece.level == FIRST_LEVEL:
            yield replace(piece, sizes=sizes, is_of_parts=True)
        else:
            yield piece


def _show_piece(
    part: Part, anchor: str, level: int, manuscript: BookletInput, worked: Mapping[int, list[list[WorkedRow]]]
) -> Piece:
    passages: list[Passage] = []
    for number, block in enumerate(part.blocks, start=1):
        if isinstance(block, RowLine):
            passages.append(Passage(show_row(block, f"{anchor}-row-{number}", manuscript, worked), None))
        elif figures := show_text_pictures(block.images, manuscript):
            passages.append(Passage(None, None, figures))
        elif prose := render_prose(manuscript.say_shaping(block.text), manuscript.numbers):
            passages.append(Passage(None, prose))
    has_lists = any(passage.row and holds_size_list(passage.row) for passage in passages)
    names_sizes = has_lists and level <= FIRST_LEVEL + 1
    return Piece(
        title=set_type(part.title),
        anchor=anchor,
        level=level,
        make=f"Make {part.make}" if part.make > 1 else "",
        passages=tuple(passages),
        sizes=order_sizes(manuscript) if names_sizes else "",
    )


def join_prose(pieces: Iterable[Piece]) -> Markup:
    """The prose of pieces that have neither rows nor headings of their own."""
    return Markup("\n").join(passage.prose for piece in pieces for passage in piece.passages if passage.prose)
