"""Row numbers of a piece in their order: none twice, none missing."""

import re
from collections.abc import Mapping, Sequence
from dataclasses import replace

from booklet.findings import Finding
from booklet.model.parsed import Label, Row
from booklet.model.tree import Chain, EarlierRow, FastenOff, RepeatRows, Ring, ShapeRows
from booklet.rows import messages
from booklet.rows.row import list_works

NEXT = ("next", "following", "on next", "rs", "ws", "right side", "wrong side")  # rows that have no number
HALF = re.compile(r"\d[b-d]\b", re.IGNORECASE)  # "Row 18B" goes on with the number of Row 18A
UNKNOWN = 1_000_000  # rows: so many that no pattern has them


def is_next(label: Label) -> bool:
    """Is it "Next row", which has no number of its own?"""
    return not label.numbers and label.name.startswith(NEXT)


def number_alternate(rows: Sequence[Row]) -> list[Row]:
    """The rows of a section; "next row and every alternate row" has the number that is due where others have theirs."""
    numbered: list[Row] = []
    due = 0  # 0: not known
    for at, row in enumerate(rows):
        if row.label.every and not row.label.numbers and due and any(later.label.numbers for later in rows[at:]):
            row = replace(row, label=replace(row.label, numbers=(due,)))
        if row.label.numbers:
            due = row.label.numbers[-1] + 1 if not row.label.varied else 0
        elif is_next(row.label) and list_works(row.steps):
            due += due and (row.label.count or 1)
        elif any(isinstance(step, RepeatRows | ShapeRows) for step in row.steps):
            due = 0
        numbered.append(row)
    return numbered


def check_numbering(rows: Sequence[Row], sizes: int = 1) -> list[Finding]:
    """The numbers of the rows of each size: rows for some sizes alone leave out the others."""
    differ = any(row.label.varied or row.label.sizes for row in rows)
    told: dict[tuple[str, int], Finding] = {}
    for size in range(sizes if differ else 1):
        kept = [row for row in rows if not row.label.sizes or size in row.label.places]
        passed = frozenset(number for row in rows if row not in kept for number in row.label.numbers)
        for finding in _check_rows([_take_numbers(row, size) for row in kept], passed):
            told.setdefault((finding.code, finding.span.start), finding)
    return list(told.values())


def _take_numbers(row: Row, size: int) -> Row:
    label = row.label
    return replace(row, label=replace(label, numbers=label.numbers_in(size), varied=())) if label.varied else row


def _check_rows(rows: Sequence[Row], passed: frozenset[int]) -> list[Finding]:
    """One finding for each place where the numbers do not go on by one, or pass over those `passed` in this size.

    Which of two neighbours is at fault is decided by what follows: a range whose end clashes with
    rows that go on steadily after it is named itself, else the later label is.
    """
    runs: list[list[Label]] = [[]]
    numbered = [row for row in rows if row.label.numbers and not row.label.every and not row.label.faulty]
    numbered = [row for row in numbered if not HALF.search(row.label.text)]
    for index, row in enumerate(numbered):
        after = numbered[index + 1] if index + 1 < len(numbered) else None
        before = numbered[index - 1] if index else None
        if before is not None and (
            (_restarts(before, row, after) and _may_begin(rows, before, row)) or _goes_back(rows, before, row)
        ):
            runs.append([])
        runs[-1].append(row.label)
    findings = _check_first(rows, numbered)
    every = frozenset(row.label.numbers[-1] % 2 for row in rows if row.label.every and row.label.numbers)
    repeated = _count_repeated(rows)
    for run in runs:
        if _is_interleaved(run):
            findings.extend(_check_set(run))
        else:
            findings.extend(_check_run(run, every, passed, repeated))
    return findings


def _count_repeated(rows: Sequence[Row]) -> dict[int, int]:
    """How many rows lines without a number repeat before a label, by the label's place in the text.

    Some designers number the next row as if they had not been worked, others count them; how many are repeated to a
    length, or shaped, is not known here, and the number is taken as it stands: UNKNOWN.
    """
    counts: dict[int, int] = {}
    waiting = last = 0
    section = ""
    for row in rows:
        if row.label.numbers:
            whole = row.label.numbers[0] == 1 or (last and row.section == section)
            last, section = (row.label.numbers[-1] if whole else 0), row.section
            if waiting:
                counts[row.label.span.start] = waiting
            waiting = 0
            continue
        waiting += (row.label.count or 1) if row.label.name.startswith(NEXT) and list_works(row.steps) else 0
        for step in row.steps:
            if isinstance(step, RepeatRows) and step.until in ("times", "more", "open") and len(set(step.count)) == 1:
                cycle = step.last or sum(last - first + 1 for first, last in step.rows) or len(step.names) or 1
                waiting += step.count[0] * cycle * step.every
            elif isinstance(step, RepeatRows | ShapeRows):
                waiting += _count_to_total(step, last + waiting if last and row.section == section else 0)
    return counts


IN_ALL = re.compile(r"\b(?:total|in all|altogether|until)\b", re.IGNORECASE)


def _count_to_total(step: RepeatRows | ShapeRows, last: int) -> int:
    """Rows that "rep Row 2 for 21 rows total" comes to behind Row `last`, where the rows are counted from 1."""
    if not isinstance(step, RepeatRows) or step.until != "rows" or len(set(step.count)) > 1:
        return UNKNOWN
    if not IN_ALL.search(step.span.text) or not 0 < last < step.count[0]:
        return UNKNOWN
    return step.count[0] - last


def _check_first(rows: Sequence[Row], numbered: Sequence[Row]) -> list[Finding]:
    """A piece whose first row is Row 2, with nothing but a chain or a ring before it."""
    if not numbered or numbered[0].label.numbers[0] != 2 or len(numbered) < 2:
        return []
    before = rows[: next(at for at, row in enumerate(rows) if row is numbered[0])]
    steps = [step for row in before for step in row.steps]
    chained = any(isinstance(step, Chain | Ring) for step in steps)
    if not chained or any(row.stated for row in before) or list_works(tuple(steps)):
        return []
    label = numbered[0].label
    return [messages.row_number_gap(label.span, 1, 2, before[-1].span, _noun(label))]


BEGINS = re.compile(
    r"\b(?:join|attach|rejoin|ring|mr|ch(?:ain)?|f(?:sc|hdc|dc)|edge|ends?|opposite|side|with)\b", re.IGNORECASE
)


ANEW = re.compile(r"\b(?:re)?(?:join|attach)\w*\s+(?:\w+\s+)?(?:yarn|thread|wool)\b", re.IGNORECASE)


def _may_begin(rows: Sequence[Row], before: Row, row: Row) -> bool:
    """Can the row be the first of something: under a heading of its own, after a break, or with a start of its own?"""
    if row.section != before.section or BEGINS.search(row.words.text):
        return True
    between = rows[next(at for at, other in enumerate(rows) if other is before) :]
    between = between[: next(at for at, other in enumerate(between) if other is row)]
    return any(isinstance(step, FastenOff | Chain | Ring) for other in between for step in other.steps[-2:])


def _goes_back(rows: Sequence[Row], before: Row, row: Row) -> bool:
    """Does a line between them go back to what an earlier row left: "skip 9 sc on Row 1, attach yarn in next sc"?"""
    first = next(at for at, other in enumerate(rows) if other is before)
    last = next(at for at, other in enumerate(rows) if other is row)
    moved = any(isinstance(step, EarlierRow) for other in rows[first + 1 : last] for step in other.steps)
    return moved and row.label.numbers[0] <= before.label.numbers[-1]


def _restarts(before: Row, row: Row, after: Row | None) -> bool:
    """Do the numbers begin again at 1: under a new heading, or where the row after goes on from here?"""
    if row.label.numbers[0] <= before.label.numbers[-1] and ANEW.search(row.words.text):
        return True  # "Row 2: With RS facing, … join yarn": the other shoulder, counted from the same row
    if row.label.numbers[0] != 1 or before.label.numbers[-1] < 1:
        return False
    if row.section != before.section:
        return True
    goes_on = after is not None and after.label.numbers[0] == row.label.numbers[-1] + 1
    return before.label.numbers[-1] != 1 and (goes_on or after is None)


def _is_interleaved(run: list[Label]) -> bool:
    """Labels such as "Rows 6 and 8" let numbers come out of their order on purpose."""
    return any(b - a != 1 for label in run for a, b in zip(label.numbers, label.numbers[1:], strict=False))


def _check_set(run: list[Label]) -> list[Finding]:
    seen: dict[int, Label] = {}
    findings = []
    for label in run:
        for number in label.numbers:
            if number in seen and seen[number] is not label:
                findings.append(messages.row_number_again(label.span, number, seen[number].span, _noun(label)))
                break
            seen[number] = label
    return findings


def _check_run(
    run: list[Label], every: frozenset[int], passed: frozenset[int], repeated: Mapping[int, int]
) -> list[Finding]:
    """`every` are the parities that one line stands for ("Row 2 and all even rows"): those numbers may be missing.

    So may those of rows that a line without a number repeats.
    """
    findings = []
    at = 1
    while at < len(run):
        before, label = run[at - 1], run[at]
        due, found = before.numbers[-1] + 1, label.numbers[0]
        due += due % 2 in every and found > due
        if due < found and passed.issuperset(range(due, found)):
            due = found
        more = repeated.get(label.span.start, 0)
        if found == due + more or (more >= UNKNOWN and found > due):
            due = found
        if found != due:
            blamed = _blame(run, at)
            if blamed is label:
                make = messages.row_number_again if found < due else messages.row_number_gap
                findings.append(
                    messages.row_number_again(label.span, found, before.span, _noun(label))
                    if make is messages.row_number_again
                    else messages.row_number_gap(label.span, due, found, before.span, _noun(label))
                )
                if at + 1 < len(run) and run[at + 1].numbers[0] == due + len(label.numbers):
                    at += 1  # the one after goes on from where this should have stood
            elif at == 1 and len(before.numbers) == 1:
                findings.append(messages.row_number_gap(before.span, 1, before.numbers[0], label.span, _noun(before)))
            else:
                findings.append(_range_end(before, label, found))
        at += 1
    return findings


def _blame(run: list[Label], at: int) -> Label:
    """The label whose number breaks the order."""
    before, label = run[at - 1], run[at]
    after = run[at + 1] if at + 1 < len(run) else None
    due = before.numbers[-1] + 1
    if at == 1 and len(before.numbers) == 1 and label.numbers[0] == 2:
        return before
    goes_on = after is not None and after.numbers[0] == label.numbers[-1] + 1
    if after is not None and after.numbers[0] == due + len(label.numbers):
        return label
    if goes_on and len(before.numbers) > 1:
        return before
    return label


def _range_end(before: Label, label: Label, found: int) -> Finding:
    if before.numbers[-1] >= found:
        return messages.row_number_again(before.span, before.numbers[-1], label.span, _noun(before))
    return messages.row_number_gap(before.span, found - 1, before.numbers[-1], label.span, _noun(before))


def _noun(label: Label) -> str:
    return "Rnd" if label.kind in ("round", "r") else "Row"
