"""Editions on paper: each is set on every paper that is asked for."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace
from itertools import pairwise

from booklet.editions.commission import Commission, Made
from booklet.editions.one_size import take_one_size
from booklet.findings import Finding
from booklet.output.fills import PageFill
from booklet.output.pdf import MAX_PAGES, LaidPages, PrintJob, lay_pages, print_pages
from booklet.pages.edition import Edition, print_edition, tester_edition
from booklet.pages.render import render_booklet

LEAST_FILL = 0.35  # of a page's height: a third, and a little for other ways to measure it
LOOSE_FILL = 0.7  # less is no fault, and yet paper that the drawing after it might have
LEAST_PICTURE = 0.6  # of its height, where a drawing is made smaller to stand on the page before
LEAST_CLEAR = 0.8  # and where it is made so for no more than paper
MOST_CLOSER = 3  # tries of a setting without a fault on fewer pages
SMALLER_STILL = 0.88  # of that height, where it does not stand there yet
FEWER_COLUMNS = (5, 3, 0)  # of a table, where one reaches over the margin; 0 is any number
LINE_DRAWINGS = ("schematic", "chart", "measuring")
PAGES_A_SHEET = 4  # folded once
MOST_TRIES = 16  # of laying one edition
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
    """Large print, for readers with low vision: drawings of lines are told in words there."""
    pictures = [one for one in commission.manuscript.pictures if one.name.partition("-")[0] not in LINE_DRAWINGS]
    commission = replace(commission, manuscript=replace(commission.manuscript, pictures=tuple(pictures)))
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

    A table that reaches over the margin is set in parts. Where a page before the last is less than a third full
    or ends with a heading, the drawing after it is made smaller, then type a little larger or smaller is tried,
    and the setting with the fewest such pages is taken. Where there is none, drawings a little smaller may still
    save a page, and fill those that stand half empty.
    """
    best: tuple[tuple[int, int, int], LaidPages, tuple[Finding, ...]] | None = None
    waiting = [replace(edition, fit=fit, picture_fit=picture_fit) for fit, picture_fit in _list_fits(edition)]
    narrower: tuple[int, ...] = FEWER_COLUMNS
    closer = 0
    heights: dict[str, float] = {}  # of drawings as they were first set
    for _ in range(MOST_TRIES):
        trial = waiting.pop(0)
        laid, findings = _lay(commission, trial, most_pages)
        if narrower and any(page.is_too_wide for page in laid.pages):
            # Where the fewest columns are too wide as well, something else is, and the table stays whole.
            fewer, narrower = narrower[0], narrower[1:]
            waiting = [replace(each, most_columns=fewer) for each in (trial, *waiting)]
            continue
        score = (count_faults(laid.pages), _count_paper(laid.pages, edition), _count_loose(laid.pages))
        if best is None or (score < best[0] and laid.document is not None):
            best = (score, laid, findings)
        if laid.document is None:
            break
        is_sound = not best[0][0]
        for page in laid.pages:
            if page.opening is not None:
                heights.setdefault(page.opening.address, page.opening.height)
        bounds = (LOOSE_FILL, LEAST_CLEAR) if is_sound else (LEAST_FILL, LEAST_PICTURE)
        smaller = _draw_up(trial, laid.pages, *bounds, heights)
        if is_sound:
            waiting = waiting if _wastes_a_sheet(best[1].pages, edition) else []
            closer += 1
        waiting[:0] = [smaller] if smaller is not None else []
        if not waiting or closer > MOST_CLOSER:
            break
    assert best is not None
    printed = print_pages(best[1])
    return printed.data, (*best[2], *printed.findings)


def _list_fits(edition: Edition) -> tuple[tuple[float, float], ...]:
    return LARGER_FITS if edition.name == "large-print" else FITS


def _lay(commission: Commission, edition: Edition, most_pages: int) -> tuple[LaidPages, tuple[Finding, ...]]:
    page, findings = render_booklet(commission.manuscript, edition, commission.theme)
    name = f"{edition.name} {edition.paper}"
    fonts = commission.theme.font_folders
    job = PrintJob(name, page.html, page.resources, fonts, commission.at, most_pages, edition.has_form)
    return lay_pages(job), findings


def count_faults(pages: Sequence[PageFill]) -> int:
    """Pages before the last that are less than a third full, or end with what belongs to the next."""
    return sum((page.share < LEAST_FILL) + page.is_open_ended for page in pages[:-1])


def _count_paper(pages: Sequence[PageFill], edition: Edition) -> int:
    """Pages; of a booklet that is folded those of its sheets, empty ones at its end included."""
    return -(-len(pages) // PAGES_A_SHEET) * PAGES_A_SHEET if edition.name == "folded" else len(pages)


def _wastes_a_sheet(pages: Sequence[PageFill], edition: Edition) -> bool:
    return edition.name == "folded" and len(pages) % PAGES_A_SHEET == 1


def _count_loose(pages: Sequence[PageFill]) -> int:
    return sum(page.share < LOOSE_FILL for page in pages[:-1])


def _draw_up(
    edition: Edition, pages: Sequence[PageFill], fill: float, least: float, heights: Mapping[str, float]
) -> Edition | None:
    """The edition with drawings small enough to stand on the pages before them; None without any.

    Only pages that are filled to less than `fill` are given one, and none is made smaller than `least` of the
    height at which it was first set, one of `heights`; where a fault is to be mended, a little smaller still.
    """
    fits: list[tuple[str, float]] = []
    tried = [address for address, _ in edition.picture_fits]
    for page, following in pairwise(pages):
        picture = following.opening
        if page.share >= fill or picture is None or tried.count(picture.address) > 1:
            continue
        room = 1 - page.share - picture.around - 0.01  # and a little, for what is rounded
        if picture.address in tried:  # what is kept with it takes more than could be seen
            room = picture.height * SMALLER_STILL
            least_now = least * SMALLER_STILL if least < LEAST_CLEAR else least
        else:
            least_now = least
        if not least_now * heights.get(picture.address, picture.height) <= room < picture.height:
            continue
        fit = edition.fit_of(picture.address) or edition.picture_fit
        fits.append((picture.address, round(fit * room / picture.most - 0.005, 2)))
    return replace(edition, picture_fits=(*edition.picture_fits, *fits)) if fits else None
