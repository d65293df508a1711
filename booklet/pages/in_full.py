"""The figures in full, at the back: what was planned, what the stitches come to, and how sure the yarn is.

A maker needs one number of each; whoever checks a pattern, or fits it to another body, needs what lies behind it.
"""

from dataclasses import replace

from booklet.findings import join_words
from booklet.model.amounts import Amounts, Measure
from booklet.pages.figures import print_both, print_difference, print_size_list
from booklet.pages.fitting import fit_table, set_both
from booklet.pages.manuscript import BookletInput
from booklet.pages.tables import list_finished, name_columns
from booklet.pages.typography import set_type
from booklet.pages.views import Cell, Line, Section, Table
from booklet.pages.yarn_tables import tabulate_needs
from booklet.sizing.finishing import STATED


def show_in_full(manuscript: BookletInput) -> Section | None:
    """Planned and true measures with their difference, and the yarn of each size and colour; None without either."""
    amounts = manuscript.amounts
    planned = tuple(measure for measure in amounts.measures if measure.target and _differs(measure))
    compared = replace(manuscript, amounts=replace(amounts, measures=planned), for_testers=True)
    tables: list[Table] = []
    if planned:
        table = Table("Planned, and what the stitches come to", "Measure", name_columns(manuscript), ())
        tables.extend(fit_table(replace(table, lines=tuple(list_finished(compared, amounts.measures))), "Size"))
    if amounts.yarn and amounts.yarn.needs:
        tables.append(replace(tabulate_needs(manuscript, in_lines=manuscript.in_full), may_close=False))
    seams = list_seams(manuscript)
    if seams and not manuscript.in_full:  # on paper a page would go to what a sentence says
        table = Table("Seams: the length that is sewn", "Seam", name_columns(manuscript), seams)
        tables.extend(fit_table(table, "Size"))
    if not tables:
        return None
    swatch = "; the swatch is taken off it too" if _has_swatch(amounts) else ""
    plan = (
        "The true measure is worked out from the stitches and rows, and differs from the plan where a count is rounded "
        "to the repeat. "
    )
    note = (
        f"{plan if planned else ''}Of the yarn each figure says whether it was measured, computed or estimated, and "
        "its range. What is left over is worked out before anything is rounded, so it may be a metre or a yard off the "
        f"figures beside it{swatch}."
    )
    if seams:
        note += " " + tell_seams(manuscript)
    return Section("in-full", "The figures in full", "in-full", tables=tuple(tables), notes=(set_type(note),))


def _differs(measure: Measure) -> bool:
    """Whether what is printed of it is off the plan in any size; else the table of sizes says it all."""
    known = (difference for difference in measure.difference if difference is not None)
    return any(print_difference(difference, measure.target_unit) != "0" for difference in known)


def _has_swatch(amounts: Amounts) -> bool:
    return amounts.yarn is not None and any(need.swatch_metres for need in amounts.yarn.needs)


def list_seams(manuscript: BookletInput) -> tuple[Line, ...]:
    """How long each seam is in every size, and whether that was stated or computed; none where all are stated."""
    yarn, pattern = manuscript.amounts.yarn, manuscript.pattern
    seams = yarn.seams if yarn else ()
    if all(seam.how == STATED for seam in seams):
        return ()
    return tuple(
        Line(
            set_type(f"{seam.name[:1].upper()}{seam.name[1:]}, {seam.how}"),
            tuple(
                Cell(set_both(print_both(cm, cm / pattern.cm_per_inch, pattern.units_first), pattern)) for cm in seam.cm
            ),
        )
        for seam in seams
    )


def tell_seams(manuscript: BookletInput) -> str:
    """Where the lengths of seams are from, how long all of them are, and how much yarn they take."""
    yarn = manuscript.amounts.yarn
    assert yarn is not None
    times = sorted({seam.times for seam in yarn.seams})
    stated = [seam.name for seam in yarn.seams if seam.how == STATED]
    source = f"A seam, but for {join_words(stated)}, whose length is stated," if stated else "A seam"
    lengths = [sum(seam.cm[at] for seam in yarn.seams) for at in range(len(manuscript.pattern.size_names))]
    in_all = f"; all of them come to {print_size_list([f'{round(cm)}' for cm in lengths])} cm"
    return (
        f"{source} is as long as its edges in the schematic, computed, the longer of the two where they differ"
        f"{in_all if manuscript.in_full else ''}. "  # elsewhere a table tells them, size by size
        f"Sewing takes about {' or '.join(f'{number:g}' for number in times)} times that length."
    )
