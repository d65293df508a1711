"""The findings of drawings: pictures that cannot be used as they are, and fonts that are not there."""

from booklet.findings import Finding, error, warning
from booklet.model.pattern import Image
from booklet.source import Span

KINDS = "JPEG, PNG or WebP"


def picture_unreadable(image: Image, reason: str) -> Finding:
    return error(
        "picture-unreadable",
        f"the picture “{image.file}” cannot be read",
        image.span,
        label=reason,
        expected=f"a {KINDS} file in the pattern's folder",
        fix=f"save the picture again as {KINDS}",
    )


def picture_too_large(image: Image, what: str, limit: str) -> Finding:
    return error(
        "picture-too-large",
        f"the picture “{image.file}” is too large",
        image.span,
        label=what,
        expected=f"at most {limit}",
        fix="scale the picture down; 2500 pixels a side fill a page",
    )


def picture_coarse(image: Image, pixels: int, width_mm: float, dpi: float, wanted: int) -> Finding:
    return warning(
        "picture-coarse",
        f"the picture “{image.file}” prints at {dpi:.0f} dots to the inch",
        image.span,
        label=f"{pixels} pixels across {width_mm:.0f} mm",
        expected=f"{wanted} dots to the inch or more, that is {wanted * width_mm / 25.4:.0f} pixels across",
        fix="take the picture from the camera's own file, not from a web page or a message",
    )


def fonts_missing(folder: str, at: Span) -> Finding:
    """The same as where pages are set: drawings use the theme's fonts alone."""
    return error(
        "fonts-missing",
        "the theme has no fonts",
        at,
        expected=f"at least one .ttf or .otf file in {folder}",
        fix="put the font files that the theme names into its fonts folder",
    )
