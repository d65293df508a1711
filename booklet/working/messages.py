"""The findings of working the rows, each from facts and places."""

from collections.abc import Sequence

from booklet.findings import Finding, Note, counted, error, warning
from booklet.model.places import CORNER_SPACE
from booklet.model.tree import What
from booklet.rows.count_items import COUNT_NOUNS
from booklet.source import Span
from booklet.working.notes import CountedTwice
from booklet.working.repair import Repair


def name_places(count: int, what: What) -> str:
    """ "3 stitches", "1 ch-2 sp", "4 dc" """
    if what.kind == "st":
        return counted(count, "stitch")
    if what.kind == "ch-sp":
        name = f"ch-{what.chains} sp" if what.chains else "ch-sp"
        return counted(count, name)
    if what == CORNER_SPACE:
        return counted(count, "corner space")
    if what.kind in ("sp", "corner", "tch", "ring"):
        return counted(count, {"sp": "space", "corner": "corner", "tch": "turning chain", "ring": "ring"}[what.kind])
    if what.kind in ("shell", "v-st", "picot", "bobble", *COUNT_NOUNS):
        return counted(count, what.kind)
    return f"{count} {what.kind}"


def name_place(what: What) -> str:
    if what.kind == "st":
        return "stitch"
    if what.kind == "ch-sp":
        return f"ch-{what.chains} sp" if what.chains else "chain space"
    return {"sp": "space", "corner": "corner", "tch": "turning chain"}.get(what.kind, what.kind)


def count_mismatch(
    label: str,
    made: int,
    stated: int,
    what: What,
    span: Span,
    offered: int,
    notes: tuple[Note, ...],
    repairs: Sequence[Repair],
    sizes: tuple[str, ...],
) -> Finding:
    return error(
        "count-mismatch",
        f"{label} makes {name_places(made, what)}, but the row says {stated}",
        span,
        label=f"the row says {stated}",
        notes=notes,
        expected=f"{name_places(made, what)}, which uses all that the row below offers"
        if what.kind == "st"
        else name_places(made, what),
        fix=tell_repairs(repairs, f"write {made}"),
        sizes=sizes,
    )


def stitches_missing(
    label: str,
    below: str,
    needs: int,
    has: int,
    what: What,
    span: Span,
    notes: tuple[Note, ...],
    repairs: Sequence[Repair],
    sizes: tuple[str, ...],
    turns: str,
) -> Finding:
    done, total = (int(part) for part in turns.split("/")) if turns else (0, 0)
    if total:
        message = f"{label} repeats {total} times, but {below or 'the row below'} has places for {done}"
        hint = {0: "none", 1: "once"}.get(done, f"{done} times")
        cure = f"write “{hint}”, or correct the row below" if done else "correct the row below, or the repeat"
    else:
        message = f"{label} needs {name_places(needs, what)} here, but {below or 'the row below'} has {has} left"
        hint = f"at most {name_places(has, what)} used here"
        cure = "use fewer stitches here or before, or correct the row below"
    return error(
        "too-few-stitches",
        message,
        span,
        label=f"{has} left here",
        notes=notes,
        expected=hint,
        fix=tell_repairs(repairs, cure),
        sizes=sizes,
    )


def stitches_left(
    label: str,
    below: str,
    left: int,
    span: Span,
    offered: int,
    notes: tuple[Note, ...],
    repairs: Sequence[Repair],
    sizes: tuple[str, ...],
    noun: str = "stitch",
) -> Finding:
    return error(
        "stitches-left-over",
        f"{label} leaves {counted(left, noun)} of {below or 'the row below'} unworked",
        span,
        label=f"ends with {left} to go",
        notes=notes,
        expected=f"a row that uses all {offered}, or the words “leave remaining stitches unworked”"
        if noun == "stitch"
        else "a round that works into the last space too, or skips it",
        fix=tell_repairs(repairs, f"work or skip the last {left}"),
        sizes=sizes,
    )


def repeat_uneven(
    label: str,
    below: str,
    available: int,
    uses: int,
    spare: int,
    span: Span,
    notes: tuple[Note, ...],
    repairs: Sequence[Repair],
    sizes: tuple[str, ...],
) -> Finding:
    fitting = f"{available - spare} or {available - spare + uses}" if uses > spare else f"{available - spare}"
    times = (available - spare) // uses if uses else 0
    return error(
        "repeat-does-not-fit",
        f"{label}: a repeat of {counted(uses, 'stitch')} does not fit {available}",
        span,
        label=f"{times} × {uses} = {available - spare}, {spare} left over" if uses else f"{spare} left over",
        notes=notes,
        expected=f"{fitting} stitches for the repeat",
        fix=tell_repairs(repairs, "change the count of the row below, or the stitches before or after the repeat"),
        sizes=sizes,
    )


def tell_repairs(repairs: Sequence[Repair], otherwise: str) -> str:
    """The nearest single-number cures, each with the words it stands in; else the general cure."""
    printed = [repair for repair in repairs if str(repair.old) in repair.span.text]
    told = [f"write “{repair.span.text}” with {repair.new} in place of {repair.old}" for repair in printed[:2]]
    return "; or ".join([*told, otherwise]) if told else otherwise


def kinds_differ(label: str, named: str, others: tuple[tuple[str, int], ...], span: Span) -> Finding:
    listed = " and ".join(f"{count} {kind}" for kind, count in others)
    return warning(
        "count-kind-differs",
        f"{label} is counted in {named}, and {listed} are among them",
        span,
        label="the total is right, the kind is not",
        expected="a count for each kind, or a total in sts",
        fix=f"write the kinds out, or correct {others[0][0]} to {named} in the row",
    )


def join_missing(label: str, what: What, span: Span, sizes: tuple[str, ...]) -> Finding:
    return error(
        "join-without-stitch",
        f"{label} is joined in the first {name_place(what)}, and makes none",
        span,
        label=f"no {name_place(what)} in this round",
        expected="a join in the first stitch of the round",
        fix="name the first stitch that the round makes",
        sizes=sizes,
    )


def together_differs(label: str, stitch: str, uses: int, places: int, span: Span, sizes: tuple[str, ...]) -> Finding:
    return error(
        "together-differs",
        f"{label} works {stitch} over {counted(places, 'stitch')}",
        span,
        label=f"{stitch} takes {uses}",
        expected=f"{counted(uses, 'stitch')} for each {stitch}",
        fix=f"write “over next {uses}”, or name the stitch that takes {places}",
        sizes=sizes,
    )


def times_differ(label: str, earlier: str, more: bool, span: Span) -> Finding:
    reads, read = ("n more times", "n times in all") if more else ("n times in all", "n more times")
    return warning(
        "times-differ",
        f"{label} comes out with “{reads}”, and {earlier} with “{read}”",
        span,
        expected="the same words for the same thing in all rows",
        fix="correct the number, or write “times in all” or “more times”",
    )


def counted_otherwise(note: CountedTwice) -> Finding:
    if note.point == "chains":
        way = "chains left out" if note.value == "none" else "chains counted"
        was = "chains left out" if note.before == "none" else "chains counted"
        message = f"{note.label} comes out with its {way}, and {note.earlier} with its {was}"
        fix = f"correct the count or the row, or count alike: “{note.label}: … sc, … ch-1 sps”"
    else:
        now = "a stitch" if note.value == "stitch" else "no stitch"
        was = "a stitch" if note.before == "stitch" else "no stitch"
        message = f"ch {note.chains} is {now} in {note.label}, and {was} in {note.earlier}"
        fix = f"correct the row, or say in it what ch {note.chains} is: “(counts as …)”, “(does not count)”"
    return warning(
        "counted-otherwise", message, note.span, expected="the same things counted in all rows of a piece", fix=fix
    )


def row_missing(label: str, name: int | str, span: Span) -> Finding:
    named = f"Row {name}" if isinstance(name, int) else name.title()
    return error(
        "repeated-row-missing",
        f"{label or 'this line'} repeats {named}, which does not stand before it",
        span,
        expected="a row that has been worked already",
        fix="correct the number, or write the row out",
    )


def nothing_left(label: str, number: int, span: Span) -> Finding:
    named = f"Row {number}" if number else "a row below"
    return error(
        "nothing-left",
        f"{label or 'this line'} goes on from {named}, which has no stitch or loop left",
        span,
        expected="a row before it that was left before its end, or whose loops were left free",
        fix="correct the number of the row, or say in the row how many stitches it leaves unworked",
    )


def repeat_backwards(label: str, first: int, last: int, span: Span) -> Finding:
    return error(
        "row-range-backwards",
        f"{label or 'this line'} repeats Rows {first} to {last}, which run backwards",
        span,
        expected="the smaller number first",
        fix=f"write {last}-{first}, or correct one of the numbers",
    )


def side_differs(label: str, side: str, due: str, span: Span) -> Finding:
    return warning(
        "side-differs",
        f"{label} is called {side}, and {due} follows from the rows before",
        span,
        expected=f"{due}, since the work is turned after each row",
        fix=f"write {due}, or correct the number of rows before it",
    )


def never_reached(label: str, target: int, now: int, each: int, span: Span) -> Finding:
    change = f"each time {'adds' if each > 0 else 'takes off'} {abs(each)}" if each else "each time leaves as many"
    return error(
        "count-never-reached",
        f"{label or 'this line'} goes on to {counted(target, 'stitch')}, which its rows do not come to",
        span,
        label=f"{counted(now, 'stitch')} here, and {change}",
        expected="a number of stitches that the rows reach exactly",
        fix="correct the number, or state how often the rows are worked",
    )


def range_does_not_fit(label: str, rows: int, cycle: int, span: Span) -> Finding:
    verb = "stand" if label.lower().startswith(("rows", "rnds", "rounds")) else "stands"
    return error(
        "range-does-not-fit",
        f"{label} {verb} for {counted(rows, 'row')}, but the repeat comes to {cycle}",
        span,
        expected=f"a multiple of {cycle} rows" if rows > cycle else counted(cycle, "row"),
        fix="correct the range or the number of repeats",
    )


def ends_with_other(label: str, number: int, span: Span) -> Finding:
    verb = "end" if label.lower().startswith(("rows", "rnds", "rounds")) else "ends"
    return error(
        "range-does-not-fit",
        f"{label or 'this line'} {verb} with Row {number}, which is none of the rows it repeats",
        span,
        expected="one of the repeated rows as the last",
        fix=f"correct one of the numbers, or write “…, then Row {number} once”",
    )


def row_gauge_missing(label: str, span: Span) -> Finding:
    return warning(
        "row-gauge-missing",
        f"{label or 'this line'} goes on to a length, and the pattern has no row gauge",
        span,
        label="the number of rows is not known",
        expected="a gauge with its rows, such as “16 sts and 18 rows = 10 cm”",
        fix="add the rows to the gauge, or state the number of rows",
    )


def repeat_open(label: str, span: Span) -> Finding:
    return warning(
        "repeat-open",
        f"{label or 'this line'} repeats rows, and how often cannot be worked out",
        span,
        label="worked once here",
        expected="so many times or rows, or a length: “until piece measures 20 cm”",
        fix="state how often the rows are worked, or the length that they come to",
    )


def open_point(point: str, chains: int, label: str, span: Span, sizes: tuple[str, ...]) -> Finding:
    questions = {
        "turning": f"whether ch {chains} at the start of {label} counts as a stitch is not said",
        "skipped": f"whether the skipped chains of {label} count as a stitch is not said",
        "more": f"{label}: whether the repeat is worked so often in all or more is not said",
    }
    cures = {
        "turning": f"write “ch {chains} (counts as …)” or “ch {chains} (does not count as a st)”, or state the count",
        "skipped": "write “(skipped ch count as a st)” or “(skipped ch do not count)”, or state the count",
        "more": "write “n more times”, or state the count",
    }
    return warning(
        "not-decided",
        questions[point],
        span,
        label="both readings work out, with different counts",
        expected="words or a count that decide it",
        fix=cures[point],
        sizes=sizes,
    )


def rows_trusted(label: str, span: Span) -> Finding:
    return warning(
        "nothing-to-work",
        f"{label} names no stitches, so it is taken on trust",
        span,
        expected="the stitches of the row",
        fix="write the row out",
    )
