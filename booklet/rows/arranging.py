"""Rows as a house arranges them, tree by tree: what their counts name, which rows have one, where chains stand.

Nothing is printed here. What comes out is worked again before it is used (`working/rearranged.py`).
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace

from booklet.model.parsed import ParsedPart, ParsedPattern, Row, Stated
from booklet.model.style import Style
from booklet.model.tree import ANY_STITCH, What, at_size
from booklet.model.work import WorkedPart, WorkedPattern, WorkedRow
from booklet.rows.turning_chains import move_to_row_before, move_to_start
from booklet.terms import load_table

Made = Mapping[int, Sequence[Sequence[WorkedRow]]]
"""Worked rows by the start of the line that they come from, a list for each size."""


@dataclass(frozen=True, slots=True)
class Arranged:
    """The rows that change, by the start of their span, and those whose count is left out.

    `has_long_labels` tells that labels stay in full, since a short one would make rounds of rows, or rows of rounds.
    """

    rows: Mapping[int, Row] = field(default_factory=dict)
    silent: frozenset[int] = frozenset()
    has_long_labels: bool = False

    def take(self, row: Row) -> Row:
        """The row as the house has it."""
        taken = self.rows.get(row.span.start, row)
        return replace(taken, stated=None) if row.span.start in self.silent else taken


def arrange_counts(parsed: ParsedPattern, worked: WorkedPattern, style: Style) -> Arranged:
    """The counts as the house names them, and the rows that lose theirs since it is that of the row before."""
    rows: dict[int, Row] = {}
    silent: set[int] = set()
    for part, done in zip(parsed.parts, worked.parts, strict=True):
        made = group_made(done)
        for row in part.rows:
            stated = _restate(row.stated, style.count_form, made.get(row.span.start, ()))
            if stated != row.stated:
                rows[row.span.start] = replace(row, stated=stated)
        if style.count_rows == "changed":
            silent |= _find_unchanged(part, made)
    return Arranged(rows, frozenset(silent))


def arrange_chains(part: ParsedPart, style: Style, told: frozenset[int]) -> dict[int, Row]:
    """The rows of a piece whose turning chain comes or goes, by their place; `told` are those that keep their words."""
    if style.turning_chain == "row before":
        return move_to_row_before(part.rows, told)
    return move_to_start(part.rows, told) if style.turning_chain == "start of row" else {}


def group_made(part: WorkedPart) -> dict[int, list[list[WorkedRow]]]:
    """The worked rows of a piece by the line that they come from."""
    grouped: dict[int, list[list[WorkedRow]]] = {}
    for size, rows in enumerate(part.rows):
        for row in rows:
            grouped.setdefault(row.span.start, [[] for _ in part.rows])[size].append(row)
    return grouped


def _find_unchanged(part: ParsedPart, made: Made) -> set[int]:
    """The rows that make in every size what the row before made, and say no more of it; sections begin anew."""
    unchanged: set[int] = set()
    before: list[set[int]] = []
    kinds: tuple[What, ...] = ()
    section = ""
    for row in part.rows:
        done = made.get(row.span.start, ())
        if not done:
            continue
        whole = all(rows and all(each.kind != "foundation" for each in rows) for rows in done)
        named = tuple(what for _, what in row.stated.items) if row.stated else kinds
        same = whole and row.section == section and (len(named) < 2 or named == kinds)
        if same and [{each.made for each in rows} for rows in done] == before:
            unchanged.add(row.span.start)
        before = [{rows[-1].made} for rows in done] if whole else []
        kinds, section = named, row.section
    return unchanged


def _restate(stated: Stated | None, form: str, done: Sequence[Sequence[WorkedRow]]) -> Stated | None:
    """The count in another form, where the worked rows say that it is the same: a total, or a total of one kind."""
    if stated is None or stated.plus or stated.includes_chain is not None or len(stated.items) != 1 or not form:
        return stated
    ((count, what),) = stated.items
    lasts = [rows[-1] if rows else None for rows in done]
    for size, last in enumerate(lasts):
        if last is not None and (last.status != "worked" or last.made != at_size(count, size)):
            return stated
    if not any(lasts):
        return stated
    if form != "stitches":
        return replace(stated, items=((count, ANY_STITCH),)) if what.kind in load_table("stitches") else stated
    kinds = {tuple(kind for kind, number in last.fabric.counts.items() if number) for last in lasts if last}
    one = next(iter(kinds)) if len(kinds) == 1 else ()
    if what != ANY_STITCH or len(one) != 1 or one[0] not in load_table("stitches"):
        return stated
    whole = all(last.fabric.counts[one[0]] == last.made for last in lasts if last)
    return replace(stated, items=((count, What(one[0])),)) if whole else stated
