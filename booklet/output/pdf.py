"""HTML of one edition to a tagged PDF (PDF/UA-1), the same bytes each time.

WeasyPrint and the system library behind it are loaded on first use: proofs and explanations come at
once, and need neither.
"""

import contextlib
import io
import logging
import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any

from booklet.findings import Finding
from booklet.output import messages
from booklet.output.fills import PageFill, measure_pages
from booklet.output.fonts import list_fonts, register_fonts
from booklet.source import Span

MAX_PAGES = 300
VARIANT = "pdf/ua-1"

_MISSING_GLYPH = re.compile(r'\.notdef glyph rendered for Unicode string unsupported by fonts: ".*" \(U\+([0-9A-F]+)\)')
_LIBRARY = re.compile(r"cannot load library '([^']+)'")


@dataclass(frozen=True, slots=True)
class PrintJob:
    """One edition, ready to be set.

    `resources` are what the HTML refers to, by relative address. `fonts` are the folders of the only
    fonts that may be used. `at` is where findings of the typesetter point: the source of the pattern.
    """

    name: str
    html: str
    resources: Mapping[str, bytes]
    fonts: tuple[Path, ...]
    at: Span
    most_pages: int = MAX_PAGES
    has_form: bool = False  # fields can be filled in


@dataclass(frozen=True, slots=True)
class Printed:
    """A PDF, None where it cannot be made, with what was found."""

    data: bytes | None
    findings: tuple[Finding, ...]


@dataclass(frozen=True, slots=True)
class LaidPages:
    """Pages as the typesetter laid them, not yet a PDF: how each is filled, and what was found so far.

    `document` is None where they cannot be printed.
    """

    job: PrintJob
    document: Any
    pages: tuple[PageFill, ...] = ()
    findings: tuple[Finding, ...] = ()


def write_pdf(job: PrintJob) -> tuple[bytes | None, tuple[Finding, ...]]:
    """The PDF and what was found."""
    printed = print_pages(lay_pages(job))
    return printed.data, printed.findings


def lay_pages(job: PrintJob) -> LaidPages:
    """The job's text and pictures on pages. Everything that the typesetter warns of is a finding."""
    if not list_fonts(job.fonts):
        return LaidPages(job, None, findings=(messages.fonts_missing(job.at, job.fonts),))
    register_fonts(job.fonts)  # before WeasyPrint is loaded: it reads the name of the file at that time
    try:
        weasyprint = _load_weasyprint()
    except OSError as missing:
        library = _LIBRARY.search(str(missing))
        return LaidPages(job, None, findings=(messages.pango_missing(job.at, library[1] if library else ""),))
    with _collect_log() as log:
        try:
            document = _lay(weasyprint, job)
            pages = measure_pages(document)
        except RecursionError:
            return LaidPages(job, None, findings=(messages.nesting_too_deep(job.at),))
    if len(pages) > job.most_pages:
        return LaidPages(job, None, pages, (messages.too_many_pages(job.at, len(pages), job.most_pages),))
    return LaidPages(job, document, pages, _read_log(log, job))


def print_pages(laid: LaidPages) -> Printed:
    """The PDF; None where it cannot be made or would not show all of the text.

    Two runs over the same job with the same versions of WeasyPrint and Pango give the same bytes.
    """
    from booklet.output.structure import finish_structure

    if laid.document is None:
        return Printed(None, laid.findings)
    job = laid.job
    with _collect_log() as log:
        try:
            data: bytes = laid.document.write_pdf(
                finisher=finish_structure, pdf_variant=VARIANT, pdf_forms=job.has_form
            )
        except RecursionError:
            return Printed(None, (messages.nesting_too_deep(job.at),))
    return Printed(data, tuple(dict.fromkeys((*laid.findings, *_read_log(log, job)))))


def _load_weasyprint() -> Any:
    """The module. Raises OSError where Pango or a library that it needs is not installed."""
    # Without Pango, WeasyPrint prints a block of advice with links; our finding says what to install.
    with contextlib.redirect_stdout(io.StringIO()):
        import weasyprint  # loaded only here, and only when a PDF is asked for

        return weasyprint


def _lay(weasyprint: Any, job: PrintJob) -> Any:
    """The typesetter's document. Raises RecursionError where elements are nested too deeply."""
    from booklet.output.fetcher import ORIGIN, BookFetcher  # it loads WeasyPrint

    html = weasyprint.HTML(string=job.html, base_url=ORIGIN, url_fetcher=BookFetcher(job.resources))
    return html.render(font_config=_load_fonts(job.fonts), pdf_variant=VARIANT, pdf_forms=job.has_form)


@cache
def _load_fonts(folders: tuple[Path, ...]) -> Any:
    """One font configuration for all the booklets of a run; making one anew costs as much as two pages."""
    from weasyprint.text.fonts import FontConfiguration  # it loads Pango

    del folders  # named in FONTCONFIG_FILE by register_fonts, for which this is the key
    return FontConfiguration()


@contextlib.contextmanager
def _collect_log() -> Iterator[list[logging.LogRecord]]:
    """Records of warnings and errors that typesetting logs, instead of lines on the terminal."""
    records: list[logging.LogRecord] = []

    class Collector(logging.Handler):
        def emit(self, record: logging.LogRecord) -> None:
            records.append(record)

    collector = Collector(logging.WARNING)
    loggers = [logging.getLogger(name) for name in ("weasyprint", "fontTools")]
    earlier = [logger.propagate for logger in loggers]
    for logger in loggers:
        logger.addHandler(collector)
        logger.propagate = False
    try:
        yield records
    finally:
        for logger, propagate in zip(loggers, earlier, strict=True):
            logger.removeHandler(collector)
            logger.propagate = propagate


def _read_log(log: list[logging.LogRecord], job: PrintJob) -> tuple[Finding, ...]:
    findings: dict[str, Finding] = {}
    for record in log:
        text = record.getMessage()
        if text in findings:
            continue
        missing = _MISSING_GLYPH.match(text)
        if missing:
            character = chr(int(missing[1], 16))
            findings[text] = messages.glyph_missing(_find_character(character, job.at), character)
        else:
            findings[text] = messages.typesetting_warning(job.at, text, job.name)
    return tuple(findings.values())


def _find_character(character: str, at: Span) -> Span:
    """Where the character stands in the source; the source as a whole where a theme or a term brought it in."""
    start = at.file.text.find(character)
    return at.file.span(start) if start >= 0 else at
