"""The findings about single places: one passed over, a center that is none, a place that is not there."""

from collections.abc import Sequence

from booklet.findings import Finding, Note, counted, error
from booklet.model.tree import What
from booklet.source import Span
from booklet.working.messages import name_place, tell_repairs
from booklet.working.repair import Repair


def before_last(
    label: str, between: int, span: Span, notes: tuple[Note, ...], repairs: Sequence[Repair], sizes: tuple[str, ...]
) -> Finding:
    return error(
        "stitches-left-over",
        f"{label} passes over {counted(between, 'stitch')} before the last",
        span,
        label=f"{between} unworked before it",
        notes=notes,
        expected="no stitch left between the repeat and the last stitch",
        fix=tell_repairs(repairs, f"work or skip the {between} before it"),
        sizes=sizes,
    )


def missed_before(
    label: str,
    below: str,
    missed: int,
    what: What,
    span: Span,
    notes: tuple[Note, ...],
    repairs: Sequence[Repair],
    sizes: tuple[str, ...],
) -> Finding:
    place = "the center" if what.kind == "center" else f"a {name_place(what)}"
    every = "it" if what.kind == "center" else f"each {name_place(what)}, as up to the others"
    return error(
        "stitches-left-over",
        f"{label} passes over {counted(missed, 'stitch')} of {below or 'the row below'} before {place}",
        span,
        label=f"{missed} unworked before it",
        notes=notes,
        expected=f"stitches worked or skipped up to {every}",
        fix=tell_repairs(repairs, f"work or skip the {missed} before it"),
        sizes=sizes,
    )


def way_differs(label: str, has: int, needs: int, what: What, span: Span, sizes: tuple[str, ...]) -> Finding:
    lie = f"{counted(needs, 'stitch')} {'lies' if needs == 1 else 'lie'} before it"
    return error(
        "slip-stitches-differ",
        f"{label} goes to a {name_place(what)} by slip stitches in {counted(has, 'stitch')}, and {lie}",
        span,
        label="counted from the stitch that the round before is joined in",
        expected=f"slip stitches in next {needs}" if needs > 0 else "no slip stitch before the one in the space",
        fix=f"write {needs}" if needs > 0 else "leave out the slip stitches before it",
        sizes=sizes,
    )


def center_missing(
    label: str, below: str, has: int, what: What, span: Span, notes: tuple[Note, ...], sizes: tuple[str, ...]
) -> Finding:
    return error(
        "no-center",
        f"{label} works into the center of {has} {what.kind}, which have none",
        span,
        notes=notes,
        expected="a group of an odd number of stitches, or one with a space in its middle",
        fix=f"correct the group in {below}, or name the stitch: “2nd {what.kind} of next group”",
        sizes=sizes,
    )


def middle_missing(
    label: str, below: str, has: int, span: Span, notes: tuple[Note, ...], sizes: tuple[str, ...]
) -> Finding:
    return error(
        "no-center",
        f"{label} works into the center of {has} stitches, which have none",
        span,
        notes=notes,
        expected=f"an odd number of stitches in {below or 'the row below'}",
        fix=f"correct the stitches of {below or 'the row below'}, or write how many to work before the center",
        sizes=sizes,
    )


def place_missing(
    label: str,
    below: str,
    what: What,
    span: Span,
    notes: tuple[Note, ...],
    repairs: Sequence[Repair],
    sizes: tuple[str, ...],
) -> Finding:
    place = name_place(what)
    return error(
        "no-such-place",
        f"{label} works into a {place}, but {below or 'the row below'} has none here",
        span,
        label=f"no {place} is left",
        notes=notes,
        expected=f"a {place} in the row below",
        fix=tell_repairs(repairs, "name a place that the row below makes"),
        sizes=sizes,
    )


def chain_short(label: str, nth: int, chains: int, span: Span, sizes: tuple[str, ...]) -> Finding:
    return error(
        "no-such-place",
        f"{label} works into chain {nth} from the hook, of a chain of {chains}",
        span,
        label=f"{counted(chains, 'chain')} before it",
        expected=f"at most {chains}",
        fix="correct the number, or the chains before it",
        sizes=sizes,
    )


def skipped_differ(label: str, needs: int, has: int, span: Span, sizes: tuple[str, ...]) -> Finding:
    return error(
        "too-few-stitches",
        f"{label} works into {needs} skipped stitches here, and has {has}",
        span,
        expected=counted(has, "skipped stitch"),
        fix=f"write {has}, or skip {needs} before",
        sizes=sizes,
    )


def too_deep(label: str, depth: int, rows: int, span: Span, sizes: tuple[str, ...]) -> Finding:
    return error(
        "no-such-place",
        f"{label} works {counted(depth, 'row')} below, and {counted(rows, 'row')} lie below it",
        span,
        expected="a row that has been worked",
        fix="correct the number of rows",
        sizes=sizes,
    )


def deep_missing(label: str, below: str, depth: int, what: What, span: Span, sizes: tuple[str, ...]) -> Finding:
    place = name_place(what)
    return error(
        "no-such-place",
        f"{label} works into a {place} {counted(depth, 'row')} below, and {below} has none",
        span,
        label=f"{counted(depth, 'row')} below is {below}",
        expected=f"a {place} in that row",
        fix="correct the number of rows, or name a stitch that the row has",
        sizes=sizes,
    )


def unworked_differs(label: str, has: int, needs: int, span: Span, sizes: tuple[str, ...]) -> Finding:
    return error(
        "unworked-differs",
        f"{label} leaves {has} unworked, and says {needs}",
        span,
        expected=f"{has}",
        fix=f"write {has}, or change the stitches before",
        sizes=sizes,
    )
