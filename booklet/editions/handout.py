"""The handout: one sheet in black. It is set as large as goes on its two sides."""

from dataclasses import replace

from booklet.drawings.grey import grey_picture
from booklet.editions import messages
from booklet.editions.commission import Commission, Made
from booklet.editions.printed import set_pages
from booklet.findings import Finding
from booklet.pages.edition import Edition

SIDES = 2
ATTEMPTS = ((12.0, True), (11.0, True), (10.5, True), (10.0, True), (10.0, False), (9.5, False), (9.0, False))
"""Size of type in points, and whether there is a picture: the first with which the sheet is enough is taken."""


def print_handout(commission: Commission) -> Made:
    """The sheet on every paper; a warning instead where the pattern is too long for it."""
    pictures = tuple(grey_picture(picture) for picture in commission.manuscript.pictures_for("cover", "fabric"))
    grey = replace(commission, manuscript=replace(commission.manuscript, pictures=pictures))
    files: dict[str, bytes] = {}
    findings: list[Finding] = []
    for paper in commission.papers:
        data, found = _fit(grey, paper)
        findings += found
        if data is not None:
            files[commission.name_file(f"handout-{paper}", "pdf")] = data
    return files, findings


def _fit(commission: Commission, paper: str) -> tuple[bytes | None, tuple[Finding, ...]]:
    for type_pt, with_picture in ATTEMPTS:
        edition = Edition("handout", paper, type_pt=type_pt, with_picture=with_picture)
        data, found = set_pages(commission, edition, SIDES)
        if data is not None or not any(finding.code == "too-many-pages" for finding in found):
            return data, found
    several = len(commission.pattern.size_names) > 1
    return None, (messages.handout_too_long(commission.at, paper, several),)
