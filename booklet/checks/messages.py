"""The findings of the checks over a whole pattern."""

from booklet.findings import Finding, Note, counted, error, warning
from booklet.model.pattern import Colour
from booklet.model.tree import What
from booklet.rows.print_places import print_ordinal
from booklet.source import Span


def colour_unknown(letter: str, span: Span, known: tuple[str, ...]) -> Finding:
    return error(
        "colour-unknown",
        f"colour {letter} is used here, and the list of colours has no {letter}",
        span,
        label="not in the list",
        expected="one of " + ", ".join(known),
        fix=f"add {letter} to `colours:`, or correct the letter",
    )


def colour_unused(letter: str, name: str, span: Span) -> Finding:
    return warning(
        "colour-unused",
        f"colour {letter} ({name}) is listed, and no row uses it",
        span,
        expected="a row that takes up the colour",
        fix="use it, or take it out of `colours:`",
    )


def _name(colour: Colour) -> str:
    return f"{colour.letter} ({colour.name})" if colour.name else colour.letter


def colours_alike(first: Colour, second: Colour, difference: float, least: float) -> Finding:
    return warning(
        "colours-alike",
        f"colours {_name(first)} and {_name(second)} are hard to tell apart",
        second.span,
        label=f"a difference of {difference:.0f}, by CIEDE2000",
        notes=(Note(first.span, "the colour that it is like"),),
        expected=f"shades that differ by {least:.0f} or more",
        fix=f"give {first.letter} or {second.letter} a lighter or a darker shade",
    )


def colours_alike_to_some(first: Colour, second: Colour, difference: float, least: float, vision: str) -> Finding:
    return warning(
        "colours-alike-to-some",
        f"colours {_name(first)} and {_name(second)} look alike to {vision} eyes",
        second.span,
        label=f"a difference of {difference:.0f} is left, by CIEDE2000",
        notes=(Note(first.span, "the colour that it is like"),),
        expected=f"a difference of {least:.0f} or more for the common kinds of colour vision",
        fix=f"let {first.letter} and {second.letter} differ in lightness, not in hue alone",
    )


def colours_alike_in_grey(first: Colour, second: Colour, lightness: float, least: float) -> Finding:
    return warning(
        "colours-alike-in-grey",
        f"colours {_name(first)} and {_name(second)} print as the same grey",
        second.span,
        label=f"lightness differs by {lightness:.1f} of 100",
        notes=(Note(first.span, "the colour that it is like"),),
        expected=f"a lightness that differs by {least:g} or more",
        fix=f"make {first.letter} or {second.letter} a little lighter",
    )


def stitch_unused(name: str, span: Span) -> Finding:
    return warning(
        "stitch-unused",
        f"{name} is defined, and no row uses it",
        span,
        expected="a row that works the stitch",
        fix="use it, or take the definition out",
    )


def grade_not_steady(label: str, values: tuple[int, ...], span: Span, sizes: tuple[str, ...]) -> Finding:
    listed = ", ".join(str(value) for value in values)
    return warning(
        "grade-not-steady",
        f"{label}: the counts do not rise from size to size: {listed}",
        span,
        label="larger size, smaller count",
        expected="counts that do not fall from one size to the next",
        fix="check the numbers of the sizes named",
        sizes=sizes,
    )


def chain_differs(label: str, chains: int, usual: int, stitch: str, span: Span, first: Span) -> Finding:
    return warning(
        "turning-chain-differs",
        f"{label} begins with ch {chains}, where other rows of {stitch} begin with ch {usual}",
        span,
        notes=(Note(first, f"ch {usual} here"),),
        expected=f"ch {usual}, as in the other rows",
        fix=f"write ch {usual}, or keep it if the difference is meant",
    )


def chain_height(label: str, chains: int, height: int, stitch: str, span: Span) -> Finding:
    return warning(
        "turning-chain-height",
        f"{label} begins with ch {chains}, and a {stitch} is about {height} ch tall",
        span,
        expected=f"ch {height} before a {stitch}, give or take one",
        fix=f"write ch {height}, or say what the other chains are for",
    )


def chain_named_differs(label: str, named: int, chains: int, span: Span, chain: Span) -> Finding:
    return error(
        "chain-named-differs",
        f"{label} is joined in a ch-{named}, and begins with ch {chains}",
        span,
        notes=(Note(chain, f"ch {chains} at the beginning"),),
        expected=f"ch-{chains}",
        fix=f"write ch-{chains}, or correct the chain at the beginning",
    )


def parts_differ(label: str, chains: int, stitch: str, height: int, then: int, span: Span) -> Finding:
    return warning(
        "chain-parts-differ",
        f"{label} has ch {chains} as {stitch} and ch {then}, which is ch {height + then}",
        span,
        expected=f"ch {height} for the {stitch}, and ch {then}",
        fix=f"write ch {height + then}, or “{stitch} and ch {chains - height}”",
    )


def chain_part_differs(label: str, nth: int, chains: int, top: int, span: Span, chain: Span) -> Finding:
    """`top` is the chain that is the top of the stitch; 0 where that is not known."""
    said = f"ch {chains}" if nth > chains else f"ch {chains}, whose stitch ends with the {print_ordinal(top)}"
    return warning(
        "chain-parts-differ",
        f"{label} goes into the {print_ordinal(nth)} ch of {said}",
        span,
        notes=(Note(chain, f"ch {chains}"),),
        expected=f"the {print_ordinal(top)} ch" if top else f"the {print_ordinal(chains)} ch, or one below",
        fix="correct the number of one of the two",
    )


def multiple_differs(every: int, plus: int, chains: int, span: Span, chain: Span, sizes: tuple[str, ...]) -> Finding:
    low = (chains - plus) // every * every + plus
    return error(
        "multiple-differs",
        f"the multiple is {every} + {plus}, and the foundation chain has {chains}",
        span,
        notes=(Note(chain, f"{chains} chains"),),
        expected=f"{low} or {low + every} chains",
        fix="correct the multiple or the chain",
        sizes=sizes,
    )


def sides_differ(label: str, odd: int, usual: int, span: Span) -> Finding:
    return warning(
        "sides-differ",
        f"{label} has one side of {counted(odd, 'stitch')}, and the others have {usual}",
        span,
        expected=f"{counted(usual, 'stitch')} on every side",
        fix="make the sides equal, or keep it if the shape is meant",
    )


def mirror_rows_differ(
    title: str, rows: int, other: str, others: int, span: Span, twin: Span, sizes: tuple[str, ...]
) -> Finding:
    return warning(
        "mirror-differs",
        f"{title} has {counted(rows, 'row')}, and {other} has {others}",
        span,
        notes=(Note(twin, f"{others} rows"),),
        expected="as many rows in both",
        fix="write both sides out alike",
        sizes=sizes,
    )


def mirror_differs(
    label: str, made: int, other: str, others: int, span: Span, twin: Span, sizes: tuple[str, ...]
) -> Finding:
    return warning(
        "mirror-differs",
        f"{label} has {counted(made, 'stitch')}, and the same row of {other} has {others}",
        span,
        notes=(Note(twin, counted(others, "stitch")),),
        expected="the same count in both",
        fix="write both sides out alike",
        sizes=sizes,
    )


def mirror_sides_differ(
    label: str, other: str, mirrored: bool, span: Span, twin: Span, sizes: tuple[str, ...]
) -> Finding:
    end, before = ("the same end", "opposite ends") if mirrored else ("opposite ends", "the same end")
    return warning(
        "mirror-differs",
        f"{label} is shaped at {end} here and in {other}, and the rows before are at {before}",
        span,
        label="ends as the row is worked",
        notes=(Note(twin, f"the same row of {other}"),),
        expected="all rows mirrored, or all rows alike",
        fix="in one of the two, work at the end of the row what stands at its start, or the other way round",
        sizes=sizes,
    )


def grade_out_of_step(
    label: str, values: tuple[int, ...], at: int, wanted: int, span: Span, sizes: tuple[str, ...]
) -> Finding:
    listed = ", ".join(str(value) for value in values)
    return warning(
        "grade-out-of-step",
        f"{label}: one of the counts {listed} breaks an even step",
        span,
        label=f"{values[at]}, where even steps give {wanted}",
        expected=str(wanted),
        fix=f"write {wanted} in place of {values[at]}, or keep it if the step is meant",
        sizes=sizes,
    )


def group_apart(label: str, what: What, span: Span) -> Finding:
    place = "corner" if what.kind == "corner" else "space"
    return error(
        "slip-stitches-differ",
        f"{label} comes by slip stitches to one {place} and begins there, and puts the rest of the group in the next",
        span,
        label=f"one stitch fewer than the other groups: the chain is its first, in the {place} before",
        expected=f"the group in the {place} that the chain stands in",
        fix=f"write “in same {'corner' if place == 'corner' else 'sp'}”, or leave out the slip stitches to the {place}",
    )


def group_differs(label: str, name: str, has: int, needs: int, span: Span) -> Finding:
    return error(
        "group-differs",
        f"{label} makes a {name} of {counted(has, 'stitch')}, and the pattern's has {needs}",
        span,
        expected=f"{counted(needs, 'stitch')} in the {name}",
        fix=f"write {needs}, or correct what the pattern says of the {name}",
    )


def chain_of_none(label: str, span: Span) -> Finding:
    return error(
        "chain-of-none",
        f"{label} asks for 0 chains",
        span,
        expected="a number of chains",
        fix="write the number, or leave the words out",
    )


def prose_list_differs(span: Span, found: int, sizes: int) -> Finding:
    return warning(
        "prose-list-differs",
        f"the list has {counted(found, 'figure')}, the pattern has {counted(sizes, 'size')}",
        span,
        label="stays as it is in the booklet of one size",
        expected=f"one figure for every size: {sizes}",
        fix="write a figure for each size, or one that holds for all",
    )


def end_not_in_range(label: str, row: str, span: Span) -> Finding:
    return error(
        "range-does-not-fit",
        f"{label} says what is done at the end of {row}, which is none of its rows",
        span,
        expected="one of the rows of its label",
        fix="correct the number, or the range",
    )


def instruction_unread(span: Span) -> Finding:
    return warning(
        "instruction-unread",
        "this line reads like an instruction, and it is not worked",
        span,
        label="printed as it stands, and counted for nothing",
        expected="a row label before it, or words that the proof reads",
        fix='start it with "Next row:", or put ">" before it if it is a remark',
    )
