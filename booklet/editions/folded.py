"""The booklet at half the size: its pages in order for reading, and two to a side for folding and stapling."""

from dataclasses import replace

from booklet.editions.commission import Commission, Made, draw_for_half_pages
from booklet.editions.printed import set_pages
from booklet.findings import Finding
from booklet.output.imposition import impose_pages
from booklet.pages.edition import HALF_SIZES, HALVES, PAPERS, folded_edition


def print_folded(commission: Commission) -> Made:
    """For A4 the pages on A5, and their sheets on A4; for Letter the same at half Letter."""
    files: dict[str, bytes] = {}
    findings: list[Finding] = []
    # What is measured with is drawn at its true size, for which these pages are too small.
    pictures = tuple(p for p in draw_for_half_pages(commission) if not p.name.startswith("measuring"))
    small = replace(commission, manuscript=replace(commission.manuscript, pictures=pictures))
    for paper in commission.papers:
        data, found = set_pages(small, folded_edition(paper))
        findings += found
        if data is None:
            continue
        half = HALVES[paper]
        width, height = PAPERS[paper]
        files[commission.name_file(half, "pdf")] = data
        folded = impose_pages(data, (height, width), HALF_SIZES[half])
        files[commission.name_file(f"{half}-to-fold-on-{paper}", "pdf")] = folded
    return files, findings
