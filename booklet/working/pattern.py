"""All pieces in all sizes: the pass from trees to worked stitches."""

import re
from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace

from booklet.findings import Finding, Note
from booklet.model.parsed import ParsedPart, ParsedPattern, StitchDefinition
from booklet.model.pattern import Gauge, Pattern
from booklet.model.tree import Aside, Chain
from booklet.model.work import Fabric, Reading, WorkedPart, WorkedPattern
from booklet.rows.row import list_works
from booklet.working import messages, messages_places
from booklet.working.expand import Gap
from booklet.working.notes import Settled, Trouble
from booklet.working.part import PartWork
from booklet.working.repair import Repair, find_repairs
from booklet.working.setting import Memo, Setting
from booklet.working.state import find_named_gauge
from booklet.working.turning import is_worked_in_rounds

MOST_REPAIRED = 4  # findings for which cures are searched; the search is the slow part


def work_pattern(parsed: ParsedPattern) -> tuple[WorkedPattern, tuple[Finding, ...]]:
    """Every row of every piece in every size, with one finding for each mistake."""
    pattern = parsed.sized.pattern
    parts: list[WorkedPart] = []
    findings: list[Finding] = []
    readings: dict[str, Reading] = {}
    uncompared: dict[int, Reading] = {}
    memo: Memo = {}
    shared: dict[tuple[object, ...], Fabric] = {}
    definitions = {definition.name: definition for definition in parsed.definitions}
    for part in parsed.parts:
        gauge = gauge_of_part(pattern, part)
        in_rounds = is_worked_in_rounds(part)
        works = []
        for size in range(len(pattern.size_names)):
            pieces = {done.title.lower(): done.rows[size][-1].made for done in parts if done.title and done.rows[size]}
            setting = Setting(
                parsed.chain_rules, definitions, size_names=pattern.size_names, pieces=pieces, title=part.title.lower()
            )
            work = PartWork(
                part,
                size,
                setting,
                gauge,
                memo,
                shared,
                in_rounds,
                gauges=pattern.gauges,
                piece_gauge=gauge,
                colours=pattern.colours,
                order=parsed.colour_order,
            )
            work.work()
            works.append(work)
        findings.extend(_tell(works, pattern))
        for work in works:
            for settled in work.settled:
                readings.setdefault(_settled_text(settled), Reading(_settled_text(settled), settled.span))
        for left in (*(left for work in works for left in work.uncompared), *_list_vague(part)):
            uncompared.setdefault(left.span.start, left)
        for free in _list_free_chains(part):
            readings.setdefault(free.text, free)
        for assumed in _list_assumed(part, definitions):
            readings.setdefault(assumed.text, assumed)
        rows = tuple(tuple(work.rows) for work in works)
        parts.append(WorkedPart(part.title, part.make, rows, part.span, in_rounds, gauge.name if gauge else ""))
    names = parsed.terms_used
    defined = {definition.name: definition.text for definition in parsed.definitions}
    told = tuple(sorted(uncompared.values(), key=lambda left: left.span.start))
    return WorkedPattern(tuple(parts), tuple(readings.values()), names, defined, told), tuple(findings)


def _list_free_chains(part: ParsedPart) -> list[Reading]:
    """Chains whose number is left to the maker, with the number that the rows were proved with."""
    return [
        Reading(f"the number of chains is left to the maker; the rows are proved with {step.count[0]}", step.span)
        for row in part.rows
        for step in row.steps
        if isinstance(step, Chain) and step.free
    ]


VAGUE = re.compile(r"[(\[]\s*[^()\[\]]*\b\d+\s*(?:sts?|stitches|sc|hdc|dc|tr|dtr|htr)\b[^()\[\]]*[)\]]", re.IGNORECASE)


def _list_vague(part: ParsedPart) -> list[Reading]:
    """Brackets at the end of rows that hold a number of stitches and are no count: "(approx 49 sc)"."""
    found = []
    for row in part.rows:
        last = row.steps[-1] if row.steps else None
        if row.stated is None and isinstance(last, Aside) and VAGUE.fullmatch(last.text.strip()):
            words = last.text.strip("()[] ")
            found.append(Reading(f"{row.label.text or 'a row'} states “{words}”", last.span))
    return found


def _list_assumed(part: ParsedPart, definitions: Mapping[str, StitchDefinition]) -> list[Reading]:
    """Stitches that the piece works in their usual form, since the pattern does not say what they are."""
    return [
        Reading(f"{work.stitch} is not defined; it is taken as {definitions[work.stitch].text}", work.span)
        for row in part.rows
        for work in list_works(row.steps)
        if work.stitch in definitions and definitions[work.stitch].assumed
    ]


def gauge_of_part(pattern: Pattern, part: ParsedPart) -> Gauge | None:
    """The gauge that a piece is measured by: the one named in its heading, else the first."""
    named = find_named_gauge(pattern.gauges, part.title)
    return named or (pattern.gauges[0] if pattern.gauges else None)


def _tell(works: Sequence[PartWork], pattern: Pattern) -> list[Finding]:
    """One finding for each place, with the sizes in which it holds."""
    findings = []
    groups: dict[tuple[object, ...], list[Trouble]] = {}
    for work in works:
        for trouble in work.troubles:
            key = (trouble.problem.kind, trouble.problem.span.start, trouble.row.span.start)
            groups.setdefault(key, []).append(trouble)
    for index, troubles in enumerate(groups.values()):
        findings.append(_tell_trouble(troubles, pattern, search=index < MOST_REPAIRED))
    gaps: dict[tuple[str, int], Finding] = {}
    for work in works:
        for row, gap in work.gaps:
            gaps.setdefault((gap.kind, gap.span.start), _tell_gap(row.label.text, gap))
    findings.extend(gaps.values())
    findings.extend(
        {row.span.start: messages.rows_trusted(row.label.text, row.span) for w in works for row in w.idle}.values()
    )
    mixed = {note.span.start: note for work in works for note in work.mixed}
    findings.extend(messages.kinds_differ(note.label, note.named, note.others, note.span) for note in mixed.values())
    told = [side for work in works for side in work.sided]
    sided = {span.start: messages.side_differs(label, side, due, span) for label, side, due, span in told}
    findings.extend(sided.values())
    twice = {note.span.start: note for work in works for note in work.turned}
    findings.extend(messages.times_differ(note.label, note.earlier, note.more, note.span) for note in twice.values())
    otherwise = {note.span.start: note for work in works for note in work.otherwise}
    findings.extend(messages.counted_otherwise(note) for note in otherwise.values())
    asked: dict[tuple[str, int], list[str]] = {}
    for work in works:
        for ask in work.asked:
            asked.setdefault((ask.point, ask.chains), []).append(pattern.size_names[ask.size])
    for (point, chains), names in asked.items():
        ask = next(a for work in works for a in work.asked if (a.point, a.chains) == (point, chains))
        findings.append(messages.open_point(point, chains, ask.label, ask.span, _sizes(names, pattern)))
    return findings


def _sizes(names: Sequence[str], pattern: Pattern) -> tuple[str, ...]:
    return tuple(dict.fromkeys(name for name in names if name))


def _tell_trouble(troubles: Sequence[Trouble], pattern: Pattern, search: bool) -> Finding:
    """One finding for a place, told with the figures of the first size it concerns, and all that differ."""
    first = troubles[0]
    repairs: list[Repair] = []
    if search and first.below is not None and first.setting is not None:
        repairs = find_repairs(first.row, first.row.steps, first.below, first.turned, first.size, first.setting)
    names = [pattern.size_names[trouble.size] for trouble in troubles]
    finding = _word_trouble(first, repairs, _sizes(names, pattern))
    if first.problem.kind == "count" and len({trouble.problem.has for trouble in troubles}) > 1:
        told = [f"{t.problem.has} in {name}" for t, name in zip(troubles, names, strict=True)]
        finding = replace(finding, expected=", ".join(told))
    return finding


def _word_trouble(trouble: Trouble, repairs: Sequence[Repair], sizes: tuple[str, ...]) -> Finding:
    problem, label, below = trouble.problem, trouble.label, trouble.below_label
    has, needs, what, span = problem.has, problem.needs, problem.what, problem.span
    notes, offered = _notes(trouble), trouble.below_made
    words: dict[str, Callable[[], Finding]] = {
        "count": lambda: messages.count_mismatch(label, has, needs, what, span, offered, notes, repairs, sizes),
        "too-few": lambda: messages.stitches_missing(
            label, below, needs, has, what, span, notes, repairs, sizes, problem.detail
        ),
        "no-place": lambda: messages_places.place_missing(label, below, what, span, notes, repairs, sizes),
        "left-over": lambda: messages.stitches_left(
            label, below, has, span, offered, notes, repairs, sizes, "space" if problem.what.kind == "sp" else "stitch"
        ),
        "uneven": lambda: messages.repeat_uneven(label, below, has, needs, problem.spare, span, notes, repairs, sizes),
        "missed": lambda: messages_places.missed_before(label, below, has, what, span, notes, repairs, sizes),
        "way": lambda: messages_places.way_differs(label, has, needs, what, span, sizes),
        "before-last": lambda: messages_places.before_last(label, has, span, notes, repairs, sizes),
        "no-join": lambda: messages.join_missing(label, what, span, sizes),
        "no-center": lambda: messages_places.center_missing(label, below, has, what, span, notes, sizes),
        "no-middle": lambda: messages_places.middle_missing(label, below, has, span, notes, sizes),
        "together": lambda: messages.together_differs(label, problem.detail, needs, has, span, sizes),
        "short-chain": lambda: messages_places.chain_short(label, needs, has, span, sizes),
        "few-skipped": lambda: messages_places.skipped_differ(label, needs, has, span, sizes),
        "no-depth": lambda: messages_places.too_deep(label, needs, has, span, sizes),
        "not-deep": lambda: messages_places.deep_missing(label, problem.detail, needs, what, span, sizes),
        "unworked": lambda: messages_places.unworked_differs(label, has, needs, span, sizes),
    }
    return words[problem.kind]()


def _notes(trouble: Trouble) -> tuple[Note, ...]:
    if trouble.below_span is None or trouble.below_span.start == trouble.row.span.start:
        return ()
    left = trouble.below_made
    text = (
        f"{trouble.below_label} leaves {left} stitches to work into"
        if left != 1
        else f"{trouble.below_label} leaves 1 stitch"
    )
    return (Note(trouble.below_span, text),)


def _tell_gap(label: str, gap: Gap) -> Finding:
    if gap.kind == "missing-row":
        return messages.row_missing(label, gap.name or gap.number, gap.span)
    if gap.kind == "nothing-left":
        return messages.nothing_left(label, gap.number, gap.span)
    if gap.kind == "backwards":
        return messages.repeat_backwards(label, gap.number, gap.cycle, gap.span)
    if gap.kind == "other-end":
        return messages.ends_with_other(label, gap.number, gap.span)
    if gap.kind == "open-goal":
        return messages.repeat_open(label, gap.span)
    if gap.kind == "never-reached":
        return messages.never_reached(label, gap.rows, gap.cycle, gap.number, gap.span)
    if gap.kind == "range-does-not-fit":
        return messages.range_does_not_fit(label, gap.rows, gap.cycle, gap.span)
    return messages.row_gauge_missing(label, gap.span)


TURNING_TEXT = {
    "none": "does not count as a stitch",
    "stitch": "counts as a stitch",
    "chains": "counts as chains at the edge",
}
CHAINS_TEXT = {
    "all": "chains are counted",
    "none": "chains are not counted",
    "paired": "chains that stand for skipped stitches are counted",
}


def _settled_text(settled: Settled) -> str:
    """What the counts decided, in words for the maker and the author."""
    by = f"(decided by the count of {settled.label})"
    if settled.point == "turning":
        return f"ch {settled.chains} at the start of a row {TURNING_TEXT[str(settled.value)]} {by}"
    if settled.point == "skipped":
        return f"the skipped chains {'count' if settled.value else 'do not count'} as a stitch {by}"
    if settled.point == "more":
        return f"“rep from * n times” means {'n more times' if settled.value else 'n times in all'} {by}"
    if settled.point == "travel":
        return f"slip stitches at the start of a row {'only travel' if settled.value else 'count as stitches'} {by}"
    if settled.point == "gap":
        return f"the chain at the start of a row {'is' if settled.value else 'is not'} a chain space {by}"
    if settled.point == "behind":
        which = "the stitch behind it" if settled.value else "the next one"
        return f"after a stitch worked rows below, {which} is skipped {by}"
    if settled.point == "chains":
        return f"in stated counts, {CHAINS_TEXT[str(settled.value)]} {by}"
    return f"“each st” {'takes in chains' if settled.value else 'does not take in chains'} {by}"
