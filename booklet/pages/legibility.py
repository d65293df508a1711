"""Whether a theme's text can be read on its grounds: contrast by WCAG 2.2, level AA.

Text of the size that booklets are set in wants 4.5 : 1 (success criterion 1.4.3).
"""

from collections.abc import Iterator, Mapping

from booklet.drawings.shades import contrast, read_shade
from booklet.findings import Finding
from booklet.pages import messages
from booklet.source import Span

LEAST_CONTRAST = 4.5
TEXTS = ("ink", "quiet", "accent", "warm")
GROUNDS = ("paper", "tint")


def check_legibility(name: str, colours: Mapping[str, Mapping[str, str]], at: Span) -> Iterator[Finding]:
    """A finding for each text colour of a theme that is too faint on one of its grounds.

    `colours` holds the theme's sets of colours by their key in theme.yaml; `at` is where the theme is asked for.
    """
    for key, shades in colours.items():
        for text in TEXTS:
            for ground in GROUNDS:
                if text not in shades or ground not in shades:
                    continue
                ratio = contrast(read_shade(shades[text]), read_shade(shades[ground]))
                if ratio < LEAST_CONTRAST:
                    yield messages.text_too_faint(name, f"{key}: {text}", ground, ratio, LEAST_CONTRAST, at)
                    break
