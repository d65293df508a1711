"""Rows in a house's arrangement, worked again: what does not come out as before stays as its author has it."""

from collections.abc import Collection, Mapping
from dataclasses import replace

from booklet.findings import Finding
from booklet.model.parsed import ParsedPart, ParsedPattern, Row
from booklet.model.pattern import Pattern
from booklet.model.style import Style
from booklet.model.work import WorkedPart, WorkedPattern
from booklet.rows.arranging import Arranged, arrange_chains, arrange_counts
from booklet.rows.styled_lines import StyledRows, find_told, list_moved, style_lines
from booklet.working.pattern import work_pattern


def style_rows(
    parsed: ParsedPattern, worked: WorkedPattern, style: Style, carried: Pattern
) -> tuple[StyledRows, tuple[Finding, ...]]:
    """All rows in the style and in the terms of `carried`, the same pattern with its prose carried over.

    A row that gains or loses its chain has to be printed; where one cannot be, it is left out of the moving.
    """
    told = find_told(parsed, carried)
    while True:
        arranged = arrange_rows(parsed, worked, style, told)
        styled, findings = style_lines(parsed, carried, style, arranged, told)
        unprinted = list_moved(styled.kept, arranged) - told
        if not unprinted:
            return styled, findings
        told |= unprinted


def arrange_rows(
    parsed: ParsedPattern, worked: WorkedPattern, style: Style, told: frozenset[int] = frozenset()
) -> Arranged:
    """The rows as the house has them. `told` are the starts of rows that keep their author's words.

    Turning chains are moved piece by piece, and only where every row of the piece then comes out in every size as
    it did: the same stitches, in the same places, of the same yarn. Labels are shortened where all pieces do.
    """
    arranged = arrange_counts(parsed, worked, style)
    shortens = "R" in (style.rows, style.rounds)
    if not style.turning_chain and not shortens:
        return arranged
    counted = tuple(_put(part, arranged.rows) for part in parsed.parts)
    moved = {
        at: _by_start(part, arrange_chains(part, style, _places(part, told)))
        for at, part in enumerate(counted)
        if not worked.parts[at].in_rounds
    }
    kept = _work_again(parsed, worked, [_put(part, moved.get(at, {})) for at, part in enumerate(counted)])
    rows = dict(arranged.rows)
    for at, changed in moved.items():
        rows |= changed if at in kept else {}
    has_long_labels = False
    if shortens:
        short = [_shorten(_put(part, rows), style) for part in parsed.parts]
        fits = _work_again(parsed, worked, short)
        has_long_labels = len(fits) < len(parsed.parts)  # in all pieces, so that a booklet has one form of label
    return Arranged(rows, arranged.silent, has_long_labels)


def _put(part: ParsedPart, rows: Mapping[int, Row]) -> ParsedPart:
    return replace(part, rows=tuple(rows.get(row.span.start, row) for row in part.rows))


def _places(part: ParsedPart, starts: Collection[int]) -> frozenset[int]:
    return frozenset(at for at, row in enumerate(part.rows) if row.span.start in starts)


def _by_start(part: ParsedPart, rows: Mapping[int, Row]) -> dict[int, Row]:
    return {part.rows[at].span.start: row for at, row in rows.items()}


def _shorten(part: ParsedPart, style: Style) -> ParsedPart:
    """The piece as a reader takes it whose labels say `R5`: of a row or of a round."""
    short = {kind for kind, word in (("row", style.rows), ("round", style.rounds)) if word == "R"}
    rows = (
        replace(row, label=replace(row.label, kind="r")) if row.label.kind in short and row.label.numbers else row
        for row in part.rows
    )
    return replace(part, rows=tuple(rows))


def _work_again(parsed: ParsedPattern, worked: WorkedPattern, parts: list[ParsedPart]) -> set[int]:
    """The places of the pieces that come out as they did."""
    again, _ = work_pattern(replace(parsed, parts=tuple(parts)))
    return {at for at, (one, other) in enumerate(zip(worked.parts, again.parts, strict=True)) if _is_same(one, other)}


def _is_same(one: WorkedPart, other: WorkedPart) -> bool:
    """Are all rows the same in all sizes?"""
    return one.in_rounds == other.in_rounds and _list_work(one) == _list_work(other)


def _list_work(part: WorkedPart) -> list[list[tuple[object, ...]]]:
    return [
        [
            (
                *(row.kind, row.number, row.status, row.used, row.made, row.left, row.turned, row.side),
                *(row.fabric.sites, row.fabric.stitches, sorted(row.fabric.yarn.items())),
            )
            for row in rows
        ]
        for rows in part.rows
    ]
