"""The words by which a pattern is offered: what it is, what is in it, which files a buyer gets.

Plain text for the form fields of a shop or a page, made from the same view as the pages themselves, so
that it says the same as they do.
"""

import html
import re
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from markupsafe import Markup

from booklet.pages.booklet_view import view_booklet
from booklet.pages.front import list_headings
from booklet.pages.manuscript import BookletInput
from booklet.pages.prose import render_prose
from booklet.pages.views import BookletView, Fact

KILOBYTE = 1000
_ENDS = re.compile(r"<br ?/?>|</p>|</li>")
_TAG = re.compile(r"<[^>]*>")
_LANGUAGES = {"en-US": "English", "en-GB": "English"}

# What an edition keeps to, for the makers who choose by it; each sentence is held by the tests of its edition.
ACCESS = {
    "print": "The booklet is a tagged PDF (PDF/UA-1) with headings, bookmarks and links; text can be selected and "
    "read aloud, and nothing is locked.",
    "large-print": "The large print edition is set in 24 point sans serif: one column, black on white, no italics.",
    "text": "The plain text edition has abbreviations and repeats in words, for screen readers and braille.",
    "web": "The web page works without script, on screens from 320 pixels wide, by keyboard, in light and in dark.",
    "ebook": "The e-book takes the face and size that its reader chooses.",
}


@dataclass(frozen=True, slots=True)
class OfferedFile:
    """A file that goes with the pattern. `pages` is 0 where it has none; `alt` is what a picture shows."""

    name: str
    edition: str
    size: int
    pages: int = 0
    pixels: tuple[int, int] = (0, 0)
    alt: str = ""


def write_listing(manuscript: BookletInput, files: Sequence[OfferedFile], editions: dict[str, str]) -> str:
    """The listing; `editions` say by name what each edition of the files is."""
    view = view_booklet(manuscript)
    blocks = [
        [view.title, _join(("Crochet pattern", _by(view)), " ")],
        list(_split_lines(render_prose(manuscript.pattern.summary, manuscript.numbers))),
        ["AT A GLANCE", *_list_facts(view)],
        ["WHAT YOU GET", *_list_files(files, editions)],
        ["ACCESS", *_list_access(view, files)],
        ["SAFETY", *_list_safety(manuscript)],
        ["LICENCE", *_split_lines(render_prose(manuscript.pattern.publisher.licence))],
        ["QUESTIONS AND CORRECTIONS", *_list_contacts(manuscript, view)],
        ["PICTURES", *_list_pictures(files)],
    ]
    kept = (block for block in blocks if len(block) > 1 or not block[:1] or not block[0].isupper())
    return "\n\n".join("\n".join(line for line in block if line) for block in kept if any(block)) + "\n"


def _by(view: BookletView) -> str:
    return f"by {view.designer or view.publisher}" if view.designer or view.publisher else ""


def _join(words: Iterable[str], between: str) -> str:
    return between.join(word for word in words if word)


def _split_lines(text: str | Markup) -> Iterator[str]:
    """HTML as lines of plain text."""
    source = str(text) if isinstance(text, Markup) else html.escape(text)
    for line in _ENDS.split(source):
        if plain := " ".join(html.unescape(_TAG.sub("", line)).split()):
            yield plain


def _list_facts(view: BookletView) -> Iterator[str]:
    glance = next((section for section in view.sections if section.key == "glance"), None)
    facts: Sequence[Fact] = glance.facts if glance else ()
    for fact in facts:
        if fact.label == "Safety":
            continue
        lines = list(_split_lines(fact.value))
        yield f"{fact.label}: {lines[0]}" if len(lines) == 1 else f"{fact.label}:"
        if len(lines) > 1:
            yield from (f"  {line}" for line in lines)
    if view.edition_line:
        yield _join((view.edition_line, view.date), " · ")


def _list_files(files: Sequence[OfferedFile], editions: dict[str, str]) -> Iterator[str]:
    told = ""
    for file in (file for file in files if not file.alt):
        if file.edition != told:
            told = file.edition
            what = editions.get(told, told)
            yield f"{what[:1].upper()}{what[1:]}:"
        pages = f", {file.pages} {'page' if file.pages == 1 else 'pages'}" if file.pages else ""
        yield f"  {file.name}{pages}, {print_file_size(file.size)}"
    yield "Digital files only: no finished piece and no yarn."


def print_file_size(size: int) -> str:
    """Bytes as shops count them, a thousand to the kilobyte: `840 KB`, `1.4 MB`."""
    if size < KILOBYTE * KILOBYTE:
        return f"{max(1, round(size / KILOBYTE))}\u00a0KB"
    return f"{size / KILOBYTE / KILOBYTE:.1f}\u00a0MB"


def _list_access(view: BookletView, files: Sequence[OfferedFile]) -> Iterator[str]:
    yield f"Written in {_LANGUAGES.get(view.language, view.language)}, in {view.terms} crochet terms."
    made = {file.edition for file in files}
    yield from (words for edition, words in ACCESS.items() if edition in made)
    if any(figure.table for section in view.sections for figure in section.figures):
        yield "Every drawing has a description in words, and its figures stand in a table."
    if view.patches:
        yield "Each colour has a letter: no row depends on seeing colours."


def _list_safety(manuscript: BookletInput) -> Iterator[str]:
    if headings := list_headings(manuscript):
        yield f"The pattern has notes on safety: {'; '.join(headings)}."
        yield "Check the rules that hold where the piece is made, given or sold."


def _list_contacts(manuscript: BookletInput, view: BookletView) -> Iterator[str]:
    publisher = manuscript.pattern.publisher
    if publisher.contact:
        yield f"Questions: {publisher.contact}"
    if publisher.website:
        yield f"Website: {publisher.website}"
    if publisher.errata:
        yield f"Corrections, if any are found: {publisher.errata}"


def _list_pictures(files: Sequence[OfferedFile]) -> Iterator[str]:
    for file in (file for file in files if file.alt):
        width, height = file.pixels
        yield f"{file.name}, {width} × {height} pixels, {print_file_size(file.size)}"
        yield f"  In words: {file.alt}"
