"""The figures in full, at the back: what was planned, what the stitches come to, and how sure the yarn is.

A maker needs one number of each; whoever checks a pattern, or fits it to another body, needs what lies behind it.
"""

from dataclasses import replace

from booklet.model.amounts import Amounts, Measure
from booklet.pages.figures import print_difference
from booklet.pages.fitting import fit_table
from booklet.pages.manuscript import BookletInput
from booklet.pages.tables import list_finished, name_columns
from booklet.pages.typography import set_type
from booklet.pages.views import Section, Table
from booklet.pages.yarn_tables import tabulate_needs


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
    if not tables:
        return None
    swatch = "; the swatch is taken off it too" if _has_swatch(amounts) else ""
    plan = (
        "The true measure is worked out from the stitches and rows, and differs from the plan where a count is rounded "
        "to the repeat. "
    )
    note = (
        f"{plan if planned else ''}Of the yarn each figure says whether it was measured, computed or estimated, and "
        "its range. What is left over is worked out before anything is rounded, so it may be a metre or a yard off the figures "
        f"beside it{swatch}."
    )
    return Section("in-full", "The figures in full", "in-full", tables=tuple(tables), notes=(set_type(note),))


def _differs(measure: Measure) -> bool:
    """Whether what is printed of it is off the plan in any size; else the table of sizes says it all."""
    known = (difference for difference in measure.difference if difference is not None)
    return any(print_difference(difference, measure.target_unit) != "0" for difference in known)


def _has_swatch(amounts: Amounts) -> bool:
    return amounts.yarn is not None and any(need.swatch_metres for need in amounts.yarn.needs)
