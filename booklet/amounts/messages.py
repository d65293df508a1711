"""The findings of amounts, each from facts and places."""

import re
from collections.abc import Sequence
from difflib import get_close_matches

from booklet.amounts.figures import print_cm, print_inches, print_metres, print_number, print_sizes
from booklet.amounts.hazards import Item
from booklet.findings import Finding, Note, counted, warning
from booklet.model.amounts import Measure
from booklet.model.measure import CM_PER_INCH
from booklet.model.pattern import Pattern, SizedNumber, Swatch, Unravelled, YarnReport
from booklet.model.work import WorkedPart, WorkedRow
from booklet.source import Span


def gauge_missing(pattern: Pattern, parts: Sequence[WorkedPart], suggested: str = "") -> Finding:
    """`suggested` is the gauge that the size and the rows come to, where they do."""
    if not pattern.gauges:
        return warning(
            "gauge-missing",
            "no gauge is given, so the finished measures are not known",
            pattern.source.whole(),
            expected="stitches and rows over 10 cm or 4 in, in the pattern's stitch",
            fix=f'measure it; the size and the rows come to "{suggested}"'
            if suggested
            else 'write, for instance, "gauge: 16 sts and 18 rows = 10 cm"',
        )
    names = " or ".join(f'"{gauge.name}"' for gauge in pattern.gauges if gauge.name)
    first, *others = parts
    of = f"the gauge of {quote_part(first)} is not told" if first.title else "the gauge of the rows is not told"
    return warning(
        "gauge-missing",
        f"{of}, so its measures are not known",
        first.span,
        label="no gauge is named for these rows",
        notes=tuple(Note(part.span, "nor for these") for part in others),
        expected=f"the name of one gauge: {names}" if names else "one gauge for each stitch pattern, each with a name",
        fix="name the gauge of the piece, or give the pattern a single gauge",
    )


def measure_off(
    pattern: Pattern,
    part: WorkedPart,
    measure: Measure,
    name: str,
    missed: Sequence[int],
    number: SizedNumber | None,
) -> Finding:
    """`missed` are the places of the sizes that miss; `name` is the author's word for the target."""
    at = missed[0]
    came, target = show_result(measure, at), show_target(measure, at)
    unit = measure.target_unit or "cm"
    what = f"the {measure.name} of {quote_part(part)}" if part.title else f"the {measure.name}"
    size = pattern.size_names[at]
    where = f" in size {size}" if size and len(missed) == 1 else f" in {counted(len(missed), 'size')}" if size else ""
    rows = "row" if measure.unit == "rows" else "stitch"
    return warning(
        "measure-off",
        f"{what} comes to {came} {unit}{where}, not {target} {unit}",
        place_target(pattern, part, number, at),
        label=f"{name or measure.name} of {target} {unit} is asked for here",
        notes=(Note(part.span, f"{counted(measure.count[at], rows)} at the gauge make {came} {unit}"),),
        expected=f"{measure.name} {list_targets(measure, missed)} {unit} in {list_size_names(pattern, missed)}"
        if size
        else f"{measure.name} {target} {unit}",
        fix=f"change the number of {counted(2, rows).split()[1]}, or ask for {list_results(measure, missed)} {unit}",
        sizes=tuple(pattern.size_names[place] for place in missed if pattern.size_names[place]),
    )


def place_target(pattern: Pattern, part: WorkedPart, number: SizedNumber | None, at: int) -> Span:
    """Where the target is written: the named number, the size, or the piece."""
    if number is not None:
        return number.span
    return pattern.sizes[at].span if at < len(pattern.sizes) else part.span


def list_targets(measure: Measure, places: Sequence[int]) -> str:
    return print_sizes([show_target(measure, place) for place in places])


def list_results(measure: Measure, places: Sequence[int]) -> str:
    return print_sizes([show_result(measure, place) for place in places])


def show_target(measure: Measure, at: int) -> str:
    """What was asked for, in its author's unit."""
    if measure.target_unit == "in":
        return print_inches(measure.target[at])
    return print_cm(measure.target_cm[at])


def show_result(measure: Measure, at: int) -> str:
    """What came of it, in the unit of the target."""
    if measure.target_unit == "in":
        return print_inches(measure.inches[at] or 0.0)
    return print_cm(measure.cm[at] or 0.0)


def list_size_names(pattern: Pattern, places: Sequence[int]) -> str:
    return print_sizes([pattern.size_names[place] for place in places])


def sample_off(
    pattern: Pattern, part: WorkedPart, measure: Measure, at: int, unit: str, came: float, stated: float, span: Span
) -> Finding:
    """`came` is what the counts come to at the gauge and `stated` what the sample measures, both in `unit`."""

    def show(length: float) -> str:
        return f"{print_inches(length)} in" if unit == "in" else f"{print_cm(length)} cm"

    counts = counted(measure.count[at], "row" if measure.unit == "rows" else "stitch")
    over = "4 in" if unit == "in" else "10 cm"
    per = measure.count[at] / stated * (4 if unit == "in" else 10)
    off = came - stated
    share = print_number(round(abs(off) / stated * 100, 1))
    size = pattern.size_names[at]
    return warning(
        "sample-off",
        f"the sample's {measure.name} is {show(stated)}, but the gauge makes it {show(came)}",
        span,
        label=f"{show(abs(off))} ({share} %) {'shorter' if off > 0 else 'longer'} than {counts} at the gauge",
        notes=(Note(part.span, f"{counts} are worked here"),),
        expected=f"a swatch with the sample's {print_number(round(per, 1))} {measure.unit} in {over}",
        fix="measure a larger swatch, washed and dried as the sample was, or measure the sample again",
        sizes=(size,) if size else (),
    )


def ball_missing(pattern: Pattern) -> Finding:
    span = pattern.yarn.span if pattern.yarn else pattern.source.whole()
    return warning(
        "ball-missing",
        "the yarn's ball is not given, so no balls are counted",
        span,
        label="metres and yards only" if pattern.yarn else "",
        expected="grams and metres of one ball, as its label has them",
        fix='write, for instance, "ball: 100 g = 200 m" under "yarn:"',
    )


def swatch_unlikely(swatch: Swatch, factor: float) -> Finding:
    each = swatch.grams / (swatch.sts * swatch.rows) * 1000
    than = f"{print_number(factor)} times" if factor > 1 else f"{print_number(factor * 100)} % of"
    return warning(
        "swatch-unlikely",
        f"the swatch takes {than} the usual yarn for its stitches",
        swatch.span,
        label=f"{print_number(swatch.grams)} g in {swatch.sts} × {swatch.rows} sts is {print_number(each)} mg each",
        expected="the weight of the swatch alone, its stitches and all its rows",
        fix="weigh and count the swatch again; the yarn figures follow it",
    )


def unravelled_unlikely(undone: Unravelled, factor: float) -> Finding:
    than = f"{print_number(factor)} times" if factor > 1 else f"{print_number(factor * 100)} % of"
    each = undone.length.cm / undone.sts
    return warning(
        "unravelled-unlikely",
        f"the unravelled yarn is {than} the usual length for its stitches",
        undone.span,
        label=f"{counted(undone.sts, 'stitch')} in {print_number(undone.length.cm)} cm is {print_number(each)} cm each",
        expected="the length of the yarn of those stitches alone, laid straight without stretching it",
        fix="count and measure again; the yarn figures follow it",
    )


def yarn_unplaced(what: str, span: Span, kind: str, named: str, known: Sequence[str]) -> Finding:
    """`kind` is "size", "colour" or "measure", `known` those that the pattern has."""
    close = get_close_matches(named, known, 1, 0.5)
    message = f'{what} names {kind} "{named}", which is not there' if named else f"{what} names no {kind}"
    return warning(
        "yarn-unplaced",
        message,
        span,
        label="not taken in",
        expected=f"one of the pattern's {kind}s: " + ", ".join(name or "none" for name in known),
        fix=f'write "{close[0]}"' if close else f"name the {kind} as the pattern does",
    )


def report_unlikely(report: YarnReport, letter: str, share: float, metres: float, expected: float) -> Finding:
    """`share` is how many times the computed metres a tester used of a colour, "" for all together."""
    than = f"{print_number(share)} times" if share > 1 else f"{print_number(share * 100)} % of"
    of = f" of {letter}" if letter else ""
    where = f" in size {report.size}" if report.size else ""
    return warning(
        "report-unlikely",
        f"a tester used {than} the computed yarn{of}{where}",
        report.span,
        label=f"{print_metres(metres)} m reported, {print_metres(expected)} m computed",
        expected="what the item took: before and after weighed on one scale, in the pattern's own yarn",
        fix="ask the tester about yarn, gauge and leftovers; leave the report out if it is about something else",
        sizes=(report.size,) if report.size else (),
    )


def yarn_unmeasured(pattern: Pattern, kind: str, stand_in: str) -> Finding:
    """`stand_in` is the stitch whose yarn is taken instead, in the pattern's terms."""
    return warning(
        "yarn-unmeasured",
        f'the yarn in "{kind}" is not known; that of a {stand_in} is taken',
        pattern.source.whole(),
        expected="stitches whose yarn has been measured: the plain ones, post stitches, together forms, clusters",
        fix="raise the margin, or weigh a swatch in the pattern's stitch",
    )


def colour_unsaid(row: WorkedRow, number: int) -> Finding:
    return warning(
        "colour-unsaid",
        f"{row.label or 'the row'} works {counted(number, 'stitch')} in no named colour",
        row.span,
        label="no colour is in use here",
        expected="the letter of a colour before the first stitch of a piece",
        fix='start the row with, for instance, "With A,"',
    )


def yarn_left_out(pattern: Pattern, hazard: str) -> Finding:
    span = pattern.yarn.span if pattern.yarn else pattern.source.whole()
    return warning(
        "yarn-left-out",
        f"the yarn of the {hazard} is not in the yarn figures",
        span,
        label="stitches, ends and seams only",
        expected="how many strands it takes, and how long each is cut",
        fix='write it under "trimmings:", for instance "fringe: {number: 60, strands: 3, cut: 30 cm}"',
    )


def hazard_not_allowed(pattern: Pattern, named: str, span: Span, heading: str, rule: str) -> Finding:
    """`named` is what the pattern has, as its author wrote it, or its yarn, or what it is."""
    return warning(
        "hazard-not-allowed",
        f'"{named}" is ruled out in something made for "{pattern.made_for}"',
        span,
        label=heading,
        expected=f"the rule: {rule}",
        fix="leave it out or change who it is for, and check the rules where the item is given or sold",
    )


def hazard_over_limit(item: Item, limit_cm: float, rule: str) -> Finding:
    limit = f"{print_number(limit_cm)} cm ({print_inches(limit_cm / CM_PER_INCH)} in)"
    return warning(
        "hazard-over-limit",
        f'"{item.named}" is longer than the {print_number(limit_cm)} cm that the rule allows',
        item.span,
        label=f"{print_cm(max(item.lengths_cm))} cm long; at most {limit}",
        expected=f"the rule: {rule}",
        fix=f"shorten it to {limit} or less, and check the rules where the item is given or sold",
    )


def caution_left_out(pattern: Pattern, code: str, heading: str, rule: str) -> Finding:
    return warning(
        "caution-left-out",
        f'the safety note "{heading}" is left out of the booklet',
        find_word(pattern, code, max(0, pattern.source.text.find("\nwithout cautions:"))),
        label="left out by the author",
        expected=f"the note, because of this rule: {rule}",
        fix=f'take "{code}" out of "without cautions:"',
    )


def made_for_differs(pattern: Pattern, made_for: str) -> Finding:
    return warning(
        "made-for-differs",
        f'it is a "{pattern.kind}", but for "{pattern.made_for}" as far as the pattern says',
        find_value(pattern, "kind"),
        label=f'no safety note of those for "{made_for}" is printed',
        expected="who it is for, so that the safety notes fit",
        fix=f'write "for: {made_for}"',
    )


def abbreviation_unexplained(pattern: Pattern, name: str) -> Finding:
    return warning(
        "abbreviation-unexplained",
        f'"{name}" is used but the abbreviation key cannot explain it',
        find_word(pattern, name),
        expected="a term of the trade, or a line of the pattern's own abbreviations",
        fix=f'add "{name}" under "abbreviations:" or "Special stitches"',
    )


def find_value(pattern: Pattern, key: str) -> Span:
    """The value of a key that stands on one line of the front matter, the whole file where there is none."""
    match = re.search(rf"^{key}:[ \t]*(\S.*?)[ \t]*$", pattern.source.text, re.MULTILINE | re.IGNORECASE)
    return pattern.source.span(match.start(1), match.end(1)) if match else pattern.source.whole()


def find_word(pattern: Pattern, word: str, after: int = 0) -> Span:
    """The first place of a word in the source, the whole file where it is not written so."""
    at = pattern.source.text.find(word, after) if word else -1
    return pattern.source.span(at, at + len(word)) if at >= 0 else pattern.source.whole()


def quote_part(part: WorkedPart) -> str:
    return f'"{part.title}"'
