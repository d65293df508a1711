"""The handout: one sheet in black, set as large as goes on its two sides."""

from dataclasses import dataclass, replace

from booklet.drawings.grey import grey_picture
from booklet.drawings.piece_drawings import draw_for_copier
from booklet.drawings.screen import drop_colour
from booklet.editions import messages
from booklet.editions.commission import Commission, Made
from booklet.editions.one_size import take_one_size
from booklet.editions.printed import set_pages
from booklet.findings import Finding
from booklet.pages.edition import Edition

SIDES = 2


@dataclass(frozen=True, slots=True)
class Attempt:
    """One way to set the sheet: type in points, with or without a picture, in two columns or closely in three."""

    type_pt: float
    with_picture: bool = True
    is_close: bool = False

    def edition(self, paper: str) -> Edition:
        return Edition("handout", paper, type_pt=self.type_pt, with_picture=self.with_picture, is_close=self.is_close)


ATTEMPTS = (
    Attempt(12), Attempt(11), Attempt(10.5), Attempt(10), Attempt(10, False), Attempt(9.5, False), Attempt(9, False),
    Attempt(9, False, True), Attempt(8.5, False, True),
)  # fmt: skip
"""From the largest to the closest: the first with which the sheet is enough is taken."""


def print_handout(commission: Commission) -> Made:
    """The sheet on every paper, or one for each size where all are too much for it; a warning where that is too."""
    files: dict[str, bytes] = {}
    findings: list[Finding] = []
    sizes = len(commission.pattern.size_names)
    grey = _make_grey(commission)
    for paper in commission.papers:
        sheets = [grey]
        data, found = _fit(grey, paper)
        if data is None and sizes > 1 and _is_too_long(found):
            sheets = [_make_grey(take_one_size(commission, size, draws=False)[0]) for size in range(sizes)]
        for sheet in sheets:
            if sheet is not grey:
                data, found = _fit(sheet, paper)
            findings += found
            if data is not None:
                files[sheet.name_file(f"handout-{paper}", "pdf")] = data
    return files, findings


def _make_grey(commission: Commission) -> Commission:
    """The commission with one picture that a copier keeps: the author's in grey, else the colours in lines and letters.

    Shades of grey do not tell colours apart, and a dark fabric is a dark patch.
    """
    book = commission.manuscript
    pictures = tuple(grey_picture(picture) for picture in book.pictures_for("cover"))
    if not pictures:
        plan = draw_for_copier(book.pattern, book.worked, commission.theme.ink())
        pictures = (drop_colour(plan),) if plan else ()
    return replace(commission, manuscript=replace(commission.manuscript, pictures=pictures))


def _fit(commission: Commission, paper: str) -> tuple[bytes | None, tuple[Finding, ...]]:
    """The sheet in the largest type with which its sides are enough, found by halving."""
    best: tuple[bytes | None, tuple[Finding, ...]] = (None, (messages.handout_too_long(commission.at, paper),))
    low, high = 0, len(ATTEMPTS)
    while low < high:
        middle = (low + high) // 2
        data, found = set_pages(commission, ATTEMPTS[middle].edition(paper), SIDES)
        if data is not None:
            best, high = (data, found), middle
        elif any(finding.code == "too-many-pages" for finding in found):
            low = middle + 1
        else:
            return None, found
    return best


def _is_too_long(findings: tuple[Finding, ...]) -> bool:
    return any(finding.code == "handout-too-long" for finding in findings)
