"""Editions on paper: each is set on every paper that is asked for."""

from collections.abc import Callable
from dataclasses import replace

from booklet.editions.commission import Commission, Made
from booklet.editions.one_size import take_one_size
from booklet.findings import Finding
from booklet.output.pdf import MAX_PAGES, PrintJob, print_pages
from booklet.pages.edition import Edition, print_edition, tester_edition
from booklet.pages.render import render_booklet

LEAST_FILL = 1 / 3  # of a page's height
FITS = (
    (1.0, 1.0),
    (0.98, 1.0),
    (1.02, 1.0),
    (1.0, 0.85),
    (0.96, 0.85),
    (1.04, 0.85),
    (1.0, 0.7),
    (0.96, 0.7),
    (1.04, 0.7),
)
"""How much larger than the theme's its type is, and how high its drawings may be."""
LARGER_FITS = ((1.0, 1.0), (1.02, 1.0), (1.04, 1.0), (1.06, 1.0))  # large print promises its size


def print_booklet(commission: Commission) -> Made:
    """The designed booklet, with its figures in full at the back."""
    manuscript = replace(commission.manuscript, in_full=True)
    return _print_on_papers(replace(commission, manuscript=manuscript), print_edition, "")


def print_large(commission: Commission) -> Made:
    """Large print, for readers with low vision."""
    return _print_on_papers(commission, lambda paper: print_edition(paper, "large-print"), "large-print")


def print_tester(commission: Commission) -> Made:
    """The tester's copy: marked, its lines numbered, with a form."""
    manuscript = replace(commission.manuscript, for_testers=True)
    return _print_on_papers(replace(commission, manuscript=manuscript), tester_edition, "tester")


def _print_on_papers(commission: Commission, edition_for: Callable[[str], Edition], form: str) -> Made:
    """The edition on every paper; `form` stands before the paper in its file's name."""
    files: dict[str, bytes] = {}
    findings: list[Finding] = []
    for paper in commission.papers:
        data, found = set_pages(commission, edition_for(paper))
        findings += found
        if data is not None:
            files[commission.name_file("-".join(filter(None, (form, paper))), "pdf")] = data
    return files, findings


def print_each_size(commission: Commission) -> Made:
    """The designed booklet once for each size; nothing where the pattern has only one, as the booklet is that."""
    files: dict[str, bytes] = {}
    findings: list[Finding] = []
    sizes = len(commission.pattern.size_names)
    for size in range(sizes if sizes > 1 else 0):
        alone, drawn = take_one_size(commission, size)
        made, told = print_booklet(alone)
        files |= made
        findings += [*drawn, *told]
    return files, findings


def set_pages(
    commission: Commission, edition: Edition, most_pages: int = MAX_PAGES
) -> tuple[bytes | None, tuple[Finding, ...]]:
    """One edition as a PDF; None where it cannot be set, or not on so few pages.

    Where a page before the last is less than a third full, type a little larger or smaller is tried, and the
    setting with the fewest such pages is taken.
    """
    best: tuple[int, bytes | None, tuple[Finding, ...]] | None = None
    for fit, picture_fit in LARGER_FITS if edition.name == "large-print" else FITS:
        page, findings = render_booklet(
            commission.manuscript, replace(edition, fit=fit, picture_fit=picture_fit), commission.theme
        )
        name = f"{edition.name} {edition.paper}"
        fonts = commission.theme.font_folders
        job = PrintJob(name, page.html, page.resources, fonts, commission.at, most_pages, edition.has_form)
        printed = print_pages(job)
        thin = sum(fill < LEAST_FILL for fill in printed.fills[:-1])
        if best is None or (thin < best[0] and printed.data is not None):
            best = (thin, printed.data, (*findings, *printed.findings))
        if not best[0] or best[1] is None:
            break
    assert best is not None
    return best[1], best[2]
