"""Which rows a line stands for: ranges, "Rep Row 4", "Rep Rows 2 and 3 six more times", "until piece measures …"."""

import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from booklet.model.measure import CM_PER_INCH, are_inches
from booklet.model.parsed import Row
from booklet.model.pattern import Gauge
from booklet.model.tree import (
    Aside,
    Even,
    Free,
    Node,
    RepeatRows,
    ShapeRows,
    Where,
    Work,
    at_size,
)
from booklet.source import Span
from booklet.working.changed_rows import change_rows

MAX_ROWS = 5_000


@dataclass(frozen=True, slots=True)
class Instance:
    """One row to be worked: the row whose words are followed, its number, and whether its own count applies."""

    row: Row
    number: int | None
    line: Row  # the line of the source that asks for it
    is_last: bool = True
    is_repeat: bool = False


@dataclass(frozen=True, slots=True)
class Gap:
    """Why a line cannot be worked as it stands.

    `kind` is missing-row, backwards, range-does-not-fit, other-end, open-goal, no-row-gauge or, where a row goes on
    from a row further down that is not there or has nothing left, nothing-left.
    """

    kind: str
    span: Span
    number: int = 0
    rows: int = 0
    cycle: int = 0
    name: str = ""


def group_interleaved(lines: Iterable[Row]) -> Iterator[list[Row]]:
    """Each line by itself; together those whose numbers run through each other: "Rows 4 and 6", "Rows 5 and 7"."""
    group: list[Row] = []
    for line in lines:
        if group and not _runs_through(group, line):
            yield group
            group = []
        group.append(line)
    if group:
        yield group


def _runs_through(group: Sequence[Row], line: Row) -> bool:
    first, numbers = group[0].label, line.label.numbers
    if len(first.numbers) < 2 or first.numbers[-1] - first.numbers[0] < len(first.numbers):
        return False
    taken = {number for row in group for number in row.label.numbers}
    inside = numbers and first.numbers[0] < numbers[0] < max(taken) and not taken & set(numbers)
    return bool(inside) and line.section == group[0].section


def order_of(instance: Instance) -> int:
    """Where a row stands among those whose lines run through each other."""
    return instance.number or 0


def find_row_repeat(row: Row) -> RepeatRows | None:
    """The row repeat that a line consists of, if it does."""
    return next((step for step in row.steps if isinstance(step, RepeatRows)), None)


def expand_line(
    line: Row,
    known: Mapping[int | str, Row],
    worked: Sequence[Row],
    last_number: int | None,
    so_far: tuple[float, int],
    size: int,
    gauge: Gauge | None,
    side: str = "",
    made: Sequence[int] = (),
) -> tuple[list[Instance], list[Gap]]:
    """The rows that a line stands for, in order, numbered on from `last_number` where it has no numbers.

    `worked` are all rows so far, for "the last 2 rows"; `last_number` is None after a row that has none.
    `made` are the stitches of the rows so far, from which follows how many are made or left each time.
    `so_far` are the rows of the piece, as many of this gauge as are as high, and those of the section; `side` is that
    of the last row, where rows turn.
    """
    repeats = [step for step in line.steps if isinstance(step, RepeatRows)]
    shaping = next((step for step in line.steps if isinstance(step, ShapeRows)), None)
    if shaping is not None:
        return _number(line, shape_rows(line, shaping, size, made[-1] if made else 0), last_number), []
    if not repeats:
        told = at_size(line.label.counts, size) if line.label.counts else line.label.count
        many = told if not line.label.numbers else 0  # "Next 3 rows"
        labelled: Sequence[int | None] = line.label.numbers or (None,) * max(1, many)
        last = len(labelled) - 1
        return [Instance(line, n, line, i == last, len(labelled) > 1) for i, n in enumerate(labelled)], []
    rows: list[Row] = []
    gaps: list[Gap] = []
    for repeat in repeats:
        targets, missing = _targets(repeat, known, worked, line, size)
        gaps += missing
        if not targets:
            continue
        repeat = _without_first(repeat, line, _count_before(targets, worked), len(targets), size, made)
        gaps += [*_check_end(repeat, known, line), *_check_goal(repeat, line)]
        if repeat.until == "sts":
            count, trouble = _count_to(repeat, len(targets), size, made)
        else:
            count, trouble = _how_many(repeat, None if repeats[1:] else line, len(targets), so_far, size, gauge)
        to_side = repeat.ending and side and repeat.until not in ("times", "more")
        if to_side and len(targets) % 2 and (side == repeat.ending) == bool(count % 2):
            count += len(targets)  # one more, so that the last row is of the side that is asked for
        gaps += [trouble] if trouble else []
        rows.extend(targets[i % len(targets)] for i in range(min(count, MAX_ROWS)))
    asked = len(line.label.numbers)
    if len(repeats) > 1 and asked > 1 and asked != len(rows):
        gaps.append(Gap("range-does-not-fit", line.label.span, rows=asked, cycle=len(rows)))
    return _number(line, change_rows(line, rows), last_number), gaps


def _number(line: Row, rows: Sequence[Row], last_number: int | None) -> list[Instance]:
    """The rows with the numbers of the line's label, or numbered on from the last row."""
    first = line.label.numbers[0] if line.label.numbers else None if last_number is None else last_number + 1
    numbers: list[int | None] = [None if first is None else first + i for i in range(len(rows))]
    numbers[: len(line.label.numbers)] = line.label.numbers[: len(rows)]
    return [
        Instance(row, n, line, i == len(rows) - 1, True) for i, (row, n) in enumerate(zip(rows, numbers, strict=True))
    ]


def shape_rows(line: Row, shaping: ShapeRows, size: int, made: int) -> list[Row]:
    """The rows of a sentence that shapes at both ends: worked even but for every so-manyeth one."""
    even = replace(line, steps=(Even(shaping.span),), stated=None)
    shaped = [replace(line, steps=steps, stated=None) for steps in _shape_ends(shaping)]
    if shaping.until:
        change = at_size(shaping.until, size) - made
        often = max(0, (change if shaping.adds else -change) // (shaping.ends * shaping.by)) - shaping.next
    else:
        often = at_size(shaping.times, size)
    times = max(0, min(often, MAX_ROWS // shaping.every))
    rows = [shaped[0]] if shaping.next else []
    for _ in range(times):
        rows.extend([even] * (shaping.every - 1))
        rows.append(shaped[len(rows) % len(shaped)])
    return rows


def _shape_ends(shaping: ShapeRows) -> list[tuple[Node, ...]]:
    """The steps of a shaped row; of one edge those of a row that begins at it and of one that ends there, by turns."""
    span, by = shaping.span, shaping.by
    first: tuple[Node, ...]
    last: tuple[Node, ...]
    if shaping.adds:
        first, last = ((Work(span, "st", (1 + by,), Where(how)),) for how in ("first", "last"))
        left = 1
    else:
        first = last = (Work(span, "dec", (1,), Where(bare=True)),) * by
        left = 2 * by
    rest, all_but = Work(span, "st", (1,), Where("each")), Work(span, "st", (1,), Where("each", leave=(left,)))
    if shaping.ends == 2:
        return [(*first, all_but, *last)]
    return [(*first, rest), (all_but, *last)] if shaping.edge else [(*first, rest)]


def _targets(
    repeat: RepeatRows, known: Mapping[int | str, Row], worked: Sequence[Row], line: Row, size: int
) -> tuple[list[Row], list[Gap]]:
    if repeat.even:
        even = Work(repeat.span, repeat.stitch, (1,), Where("each")) if repeat.stitch else Even(repeat.span)
        return [replace(line, steps=(even,), stated=None)], []
    if repeat.names:
        unknown = [name for name in repeat.names if name not in known]
        gaps = [Gap("missing-row", repeat.span, name=unknown[0])] if unknown else []
        return _space_out(repeat, [known[name] for name in repeat.names if name in known], line), gaps
    if repeat.last:
        last = at_size(repeat.lasts, size) if repeat.lasts else repeat.last
        return list(worked[-last:]) if last > 0 else [], []
    wanted = [number for first, last in repeat.rows for number in range(first, min(last, first + MAX_ROWS) + 1)]
    backwards = next(((first, last) for first, last in repeat.rows if last < first), None)
    if backwards is not None:
        return [], [Gap("backwards", repeat.span, backwards[0], cycle=backwards[1])]
    missing = [number for number in wanted if number not in known]
    gaps = [Gap("missing-row", repeat.span, missing[0])] if missing else []
    return _space_out(repeat, [known[number] for number in wanted if number in known], line), gaps


def _count_to(repeat: RepeatRows, cycle: int, size: int, made: Sequence[int]) -> tuple[int, Gap | None]:
    """How many rows it takes to so many stitches, as each time changes as many as the last."""
    target = at_size(repeat.count, size)
    each = made[-1] - made[-1 - cycle] if len(made) > cycle else 0
    if made and made[-1] == target:
        return 0, None
    times, rest = divmod(target - made[-1], each) if each and made else (0, 1)
    if rest or times < 0:
        now = made[-1] if made else 0
        return cycle, Gap("never-reached", repeat.span, rows=target, cycle=now, number=each)
    return times * cycle, None


def _count_before(targets: Sequence[Row], worked: Sequence[Row]) -> int:
    """How often these rows have just been worked, one time right after the other."""
    often, cycle = 0, len(targets)
    while len(worked) >= (often + 1) * cycle:
        last = worked[len(worked) - (often + 1) * cycle : len(worked) - often * cycle]
        if any(row is not target for row, target in zip(last, targets, strict=True)):
            break
        often += 1
    return often


def _space_out(repeat: RepeatRows, targets: list[Row], line: Row) -> list[Row]:
    """The rows of one time, those worked even before them: "every 4th row" is three even and the row."""
    between = replace(line, steps=(Even(repeat.span),), stated=None)
    return [*[between] * (repeat.every - 1), *targets] if targets else []


IN_TOTAL = re.compile(r"\b(?:total|in all|altogether)\b", re.IGNORECASE)


def _without_first(
    repeat: RepeatRows, line: Row, before: int, cycle: int, size: int, made: Sequence[int]
) -> RepeatRows:
    """A total of times without those worked before: "work Row 2 a total of 5 times".

    "Repeat Row 2 for a total of 5 times" is that only where the line's count comes out so alone.
    """
    if repeat.until == "all":
        return replace(repeat, until="times", count=(max(0, at_size(repeat.count, size) - before),))
    counted = repeat.until in ("times", "open") and before and len(made) > cycle and line.stated is not None
    if not counted or IN_TOTAL.search(repeat.span.text) is None or line.stated is None or len(line.stated.items) != 1:
        return repeat
    stated, each = at_size(line.stated.items[0][0], size), made[-1] - made[-1 - cycle]
    times = at_size(repeat.count, size)
    if made[-1] + each * times == stated or made[-1] + each * (times - before) != stated:
        return repeat
    return replace(repeat, count=(max(0, times - before),))


FOR_SO_MANY = re.compile(r"\bfor\s+(?:\w+\s+){1,2}(?:rows|rnds|rounds)\b(?!\s+(?:in\s+)?(?:all|total))", re.IGNORECASE)


def _find_end(repeat: RepeatRows, cycle: int) -> int | None:
    """How many rows of the last time round are worked, "ending with Row 5"; None where nothing is said of it."""
    numbers = [number for first, last in repeat.rows for number in range(first, last + 1)]
    if not repeat.ending.isdigit() or int(repeat.ending) not in numbers or len(numbers) != cycle:
        return None
    return (numbers.index(int(repeat.ending)) + 1) % cycle


def _check_end(repeat: RepeatRows, known: Mapping[int | str, Row], line: Row) -> list[Gap]:
    """ "Rep Rows 3 and 4, ending with Row 2": the last row is one of those repeated, or told by its own new number."""
    numbers = {number for first, last in repeat.rows for number in range(first, min(last, first + MAX_ROWS) + 1)}
    if not numbers or not repeat.ending.isdigit():
        return []
    end = int(repeat.ending)
    fits = end in numbers or end in line.label.numbers or end not in known
    return [] if fits else [Gap("other-end", repeat.span, end)]


OPEN_GOAL = re.compile(r"\W*(?:for\s+patt(?:ern)?\s+)?(?:until|till)\b", re.IGNORECASE)
AS_WISHED = re.compile(r"\b(?:desired|wish\w*|like|enough|required|needed|want\w*|prefer\w*)\b", re.IGNORECASE)


def _check_goal(repeat: RepeatRows, line: Row) -> list[Gap]:
    """ "Rep Rows 2 and 3 until your wrap is square": how often is that? "Until large enough" is for the maker."""
    at = next(at for at, step in enumerate(line.steps) if step.span == repeat.span)
    behind = line.steps[at + 1] if at + 1 < len(line.steps) else None
    if repeat.until != "label" or line.label.numbers or not isinstance(behind, Aside | Free):
        return []
    return [Gap("open-goal", behind.span)] if OPEN_GOAL.match(behind.text) and not AS_WISHED.search(behind.text) else []


def _how_many(
    repeat: RepeatRows, line: Row | None, cycle: int, so_far: tuple[float, int], size: int, gauge: Gauge | None
) -> tuple[int, Gap | None]:
    """How many rows the repeat comes to in this size.

    `so_far` are the rows of the piece and of the section; "until there are n rows" means the section.
    """
    labelled = len(line.label.numbers) if line else 0
    if repeat.until == "label":
        rows = labelled or cycle
        ends = _find_end(repeat, cycle)
        fits = rows % cycle == (ends if ends is not None else 0)
        return rows, None if fits else Gap("range-does-not-fit", repeat.span, rows=rows, cycle=cycle)
    if repeat.until in ("times", "more", "open"):
        rows = at_size(repeat.count, size) * cycle
        if labelled and labelled != rows:
            more = rows + cycle
            if repeat.until == "open" and labelled == more:
                return more, None
            return labelled, Gap("range-does-not-fit", repeat.span, rows=labelled, cycle=rows)
        return rows, None
    if repeat.until == "rows":
        asked = at_size(repeat.count, size)
        rows = max(0, asked - so_far[1])
        if not rows and FOR_SO_MANY.search(repeat.span.text):
            rows = asked  # "rep Row 2 for 2 rows", where there are more than 2 already
        if line is None or not labelled:
            return rows, None
        fits = labelled in (rows, asked) or line.label.numbers[-1] == asked  # "for 12 rows", of all or of these
        return labelled, None if fits else Gap("range-does-not-fit", repeat.span, rows=labelled, cycle=int(rows))
    target = repeat.length_cm[size] if len(repeat.length_cm) > 1 else repeat.length_cm[0]
    if gauge is None or gauge.rows_per_cm is None:
        return cycle, Gap("no-row-gauge", repeat.span)
    if are_inches(repeat.length_cm):
        target = target / CM_PER_INCH * gauge.cm_per_inch
    wanted = target * gauge.rows_per_cm - (so_far[0] if repeat.until == "height" or not repeat.even else 0)
    return max(cycle, round(wanted / cycle) * cycle), None
