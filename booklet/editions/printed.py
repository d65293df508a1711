"""Editions on paper: each is set on every paper that is asked for."""

from booklet.editions.commission import Commission, Made
from booklet.editions.one_size import take_one_size
from booklet.findings import Finding
from booklet.output.pdf import MAX_PAGES, PrintJob, write_pdf
from booklet.pages.edition import Edition, print_edition
from booklet.pages.render import render_booklet


def print_booklet(commission: Commission) -> Made:
    """The designed booklet."""
    return _print_on_papers(commission, "print", "")


def print_large(commission: Commission) -> Made:
    """Large print, for readers with low vision."""
    return _print_on_papers(commission, "large-print", "large-print")


def _print_on_papers(commission: Commission, name: str, form: str) -> Made:
    """The edition whose templates have this name, on every paper; `form` stands before the paper in its file's name."""
    files: dict[str, bytes] = {}
    findings: list[Finding] = []
    for paper in commission.papers:
        data, found = set_pages(commission, print_edition(paper, name))
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
    job = PrintJob(name, page.html, page.resources, commission.theme.font_folders, commission.at, most_pages)
    data, told = write_pdf(job)
    return data, (*findings, *told)
