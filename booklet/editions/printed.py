"""Editions on paper: each is set on every paper that is asked for."""

from booklet.editions.commission import Commission, Made
from booklet.editions.one_size import take_one_size
from booklet.findings import Finding
from booklet.output.pdf import PrintJob, write_pdf
from booklet.pages.edition import Edition, print_edition
from booklet.pages.render import render_booklet


def print_booklet(commission: Commission) -> Made:
    """The designed booklet."""
    files: dict[str, bytes] = {}
    findings: list[Finding] = []
    for paper in commission.papers:
        data, found = set_pages(commission, print_edition(paper))
        findings += found
        if data is not None:
            files[commission.name_file(paper, "pdf")] = data
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


def set_pages(commission: Commission, edition: Edition) -> tuple[bytes | None, tuple[Finding, ...]]:
    """One edition as a PDF; None where it cannot be set."""
    page, findings = render_booklet(commission.manuscript, edition, commission.theme)
    name = f"{edition.name} {edition.paper}"
    job = PrintJob(name, page.html, page.resources, commission.theme.font_folders, commission.at)
    data, told = write_pdf(job)
    return data, (*findings, *told)
