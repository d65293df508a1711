"""What every edition of a pattern is made from: the proved pattern, its theme and its pictures."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace

from booklet.drawings.codes import draw_codes
from booklet.drawings.pattern import draw_pattern, draw_small
from booklet.drawings.photos import prepare_image
from booklet.drawings.picture import Picture
from booklet.drawings.piece_drawings import draw_narrow
from booklet.drawings.screen import drop_colour
from booklet.drawings.trimming import trim_picture
from booklet.findings import Finding
from booklet.model.amounts import Amounts
from booklet.model.parsed import ParsedPattern
from booklet.model.pattern import Pattern, SizedPattern
from booklet.model.work import WorkedPattern
from booklet.output.files import name_file
from booklet.pages.booklet_view import LOGO
from booklet.pages.manuscript import BookletInput
from booklet.pages.other_terms import carry_pattern
from booklet.pages.theme import Theme
from booklet.rows.arranging import Arranged
from booklet.source import Span

LOGO_MM = (60.0, 14.0)  # the most that a logo takes of a cover

Made = tuple[Mapping[str, bytes], Sequence[Finding]]
"""Files by their name, and what was found while they were made."""


@dataclass(frozen=True)
class Commission:
    """One pattern on its way to its editions.

    `parsed`, `worked` and `amounts` are those of the proof; `manuscript` is the same in the terms that were
    asked for, with its pictures, as the pages show it. Findings that belong to no line point `at` the source.
    `made` are the files of the editions before this one, by the edition.
    """

    parsed: ParsedPattern
    worked: WorkedPattern
    amounts: Amounts
    terms: str  # "US", "UK", or "" for the pattern's own
    papers: tuple[str, ...]
    theme: Theme
    manuscript: BookletInput
    at: Span
    size: str = ""  # the one size that it is for, as its files name it
    place: int | None = None  # and its place among the sizes of the proof
    made: Mapping[str, Mapping[str, bytes]] = field(default_factory=dict)
    arranged: Arranged = Arranged()  # the rows as the house has them

    @property
    def pattern(self) -> Pattern:
        """The pattern in the terms asked for."""
        return self.manuscript.pattern

    def name_file(self, form: str, ending: str) -> str:
        """`slug-v1.0-US-form.pdf`; the size stands before the form."""
        words = "-".join(part for part in (self.size, form) if part)
        return name_file(self.pattern.slug, self.pattern.version, self.pattern.terms, words, ending)


def draw_pictures(
    sized: SizedPattern, worked: WorkedPattern, amounts: Amounts, theme: Theme
) -> tuple[tuple[Picture, ...], tuple[Finding, ...]]:
    """All pictures of a booklet, without empty paper round them, and codes for the addresses that it gives."""
    pictures, findings = draw_pattern(sized, worked, amounts, theme.ink())
    trimmed = tuple(trim_picture(picture) if picture.table else picture for picture in pictures)
    dressed, marked = _dress_pictures(trimmed, theme, sized.pattern.publisher.name)
    return (*dressed, *draw_codes(sized.pattern)), (*findings, *marked)


def take_commission(
    parsed: ParsedPattern,
    worked: WorkedPattern,
    amounts: Amounts,
    theme: Theme,
    papers: tuple[str, ...] = (),
    terms: str = "",
) -> tuple[Commission, tuple[Finding, ...]]:
    """The pattern carried into the terms asked for, and drawn. Empty `papers` leave them to the pattern."""
    book, carried = carry_pattern(parsed, worked, amounts, terms)
    pictures, drawn = draw_pictures(book.sized, book.worked, book.amounts, theme)
    manuscript = BookletInput(book.sized, book.worked, book.amounts, pictures, book.rows)
    pattern = book.sized.pattern
    at = pattern.source.whole()
    papers = papers or pattern.papers
    commission = Commission(parsed, worked, amounts, terms, papers, theme, manuscript, at, arranged=book.arranged)
    return commission, (*carried, *drawn)


def draw_for_narrow_screens(commission: Commission) -> dict[str, Picture]:
    """The drawings with letters once more, by their names, as a telephone can show them."""
    book, theme = commission.manuscript, commission.theme
    pictures = draw_narrow(book.pattern, book.worked, book.amounts, theme.ink())
    return {name: drop_colour(picture) if theme.pictures == "grey" else picture for name, picture in pictures.items()}


def draw_for_half_pages(commission: Commission) -> tuple[Picture, ...]:
    """The pictures for pages of half the size, on which letters of drawings stay large enough to read."""
    book, theme = commission.manuscript, commission.theme
    pictures = draw_small(book.pattern, book.worked, book.amounts, theme.ink(), book.pictures)
    return tuple(map(drop_colour, pictures)) if theme.pictures == "grey" else pictures


def _dress_pictures(
    pictures: tuple[Picture, ...], theme: Theme, publisher: str
) -> tuple[tuple[Picture, ...], tuple[Finding, ...]]:
    """The pictures as the theme wants them, in colour or grey, and its logo."""
    findings: tuple[Finding, ...] = ()
    if theme.logo is not None:
        named = replace(theme.logo, alt=f"Logo of {publisher}" if publisher else theme.logo.alt)
        logo, findings = prepare_image(named, theme.logo_folder, LOGO, *LOGO_MM)
        pictures = (*pictures, logo) if logo else pictures
    return tuple(map(drop_colour, pictures)) if theme.pictures == "grey" else pictures, findings
