"""Editions on paper: each is set on every paper that is asked for."""

from collections.abc import Callable

from booklet.editions.commission import Commission, Made
from booklet.editions.one_size import take_one_size
from booklet.findings import Finding
from booklet.output.pdf import MAX_PAGES, PrintJob, write_pdf
from booklet.pages.edition import Edition, print_edition, tester_edition
from booklet.pages.render import render_booklet


def print_booklet(commission: Commission) -> Made:
    """The designed booklet."""
    return _print_on_papers(commission, print_edition, "")


def print_large(commission: Commission) -> Made:
    """Large print, for readers with low vision."""
    return _print_on_papers(commission, lambda paper: print_edition(paper, "large-print"), "large-print")


def print_tester(commission: Commission) -> Made:
    """The tester's copy: marked, its lines numbered, with a form."""
    return _print_on_papers(commission, tester_edition, "tester")


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
    """One edition as a PDF; None where it cannot be set, or not on so few pages."""
    page, findings = render_booklet(commission.manuscript, edition, commission.theme)
    name = f"{edition.name} {edition.paper}"
    job = PrintJob(
        name, page.html, page.resources, commission.theme.font_folders, commission.at, most_pages, edition.has_form
    )
    data, told = write_pdf(job)
    return data, (*findings, *told)
