"""What can go wrong between the proved pattern and the files in the output folder."""

from pathlib import Path

from booklet.findings import Finding, counted, error, warning
from booklet.source import Span

INSTALL_PANGO = (
    "Debian, Ubuntu: sudo apt-get install libpangoft2-1.0-0 libharfbuzz-subset0\n"
    "macOS:          brew install pango\n"
    "Windows:        install MSYS2, then in its shell: pacman -S mingw-w64-ucrt-x86_64-pango"
)


def pango_missing(at: Span, library: str) -> Finding:
    """The typesetter is there, but the system library that it lays text out with is not."""
    named = f" ({library})" if library else ""
    return error(
        "pango-missing",
        "the text layout library Pango is not installed",
        at,
        label=f"no PDF can be made without it{named}; proofs and web pages do not need it",
        fix=INSTALL_PANGO,
    )


def fonts_missing(at: Span, folders: tuple[Path, ...]) -> Finding:
    """A theme without a single font file; the machine's own fonts are never used."""
    return error(
        "fonts-missing",
        "the theme has no fonts",
        at,
        expected="at least one .ttf or .otf file in " + " or ".join(str(folder) for folder in folders),
        fix="put the font files that the theme's style sheet names into its fonts folder",
    )


def glyph_missing(at: Span, character: str) -> Finding:
    """A character that would print as an empty box."""
    return error(
        "glyph-missing",
        f'the fonts of the theme have no "{character}" (U+{ord(character):04X})',
        at,
        label="it would print as an empty box",
        expected="characters that a font of the theme can show",
        fix="write another character or words, or add a font that has it to the theme",
    )


def typesetting_warning(at: Span, text: str, edition: str) -> Finding:
    """The typesetter's own warning, word for word: something of the theme was left out."""
    return warning(
        "typesetting-warning",
        "the typesetter left something out of the page",
        at,
        label=f"{edition}: {text}",
        expected="a theme whose every rule and picture can be printed",
        fix="change the theme at the place that the note names",
    )


def too_many_pages(at: Span, pages: int, most: int) -> Finding:
    """A booklet beyond all measure, most often one row range or table written many times over."""
    return error(
        "too-many-pages",
        f"the booklet comes to {counted(pages, 'page')}",
        at,
        expected=f"at most {counted(most, 'page')}",
        fix="print the pattern in several parts",
    )


def nesting_too_deep(at: Span) -> Finding:
    """Lists or quotations within each other beyond what pages can be laid out for."""
    return error(
        "nesting-too-deep",
        "the text is nested too deep to be laid out",
        at,
        expected="lists and quotations at most 8 levels deep",
        fix="bring the inner lists out to the level of the text",
    )


def output_unwritable(at: Span, path: Path, reason: str) -> Finding:
    """The output folder cannot be used; what it held is as it was."""
    return error(
        "output-unwritable",
        "the output cannot be written; what was there is unchanged",
        at,
        label=f"{path}: {reason}",
        expected="a folder that may be written to, on a disk with room",
        fix="give another folder with --out, or free this one",
    )


def output_name_taken(at: Span, folder: Path, other: str) -> Finding:
    """Two patterns of one run would be written to one folder."""
    return error(
        "output-name-taken",
        "two patterns of this run have the same output folder",
        at,
        label=f"{folder} is already written from {other}",
        expected="another folder or file name for each pattern",
        fix="rename the pattern's folder, or make the two one after the other with --out",
    )
