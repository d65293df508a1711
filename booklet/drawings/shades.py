"""Yarn shades as numbers: luminance, contrast, mixtures, and the ink that can be read on them.

Luminance and contrast follow WCAG 2.2 (definitions of "relative luminance" and "contrast ratio").
"""

import re
from functools import lru_cache

RGB = tuple[int, int, int]
NO_SHADE = "#cfc8bd"  # undyed wool: stands for yarn whose shade the pattern does not give
BLACK: RGB = (0, 0, 0)
WHITE: RGB = (255, 255, 255)


@lru_cache(maxsize=512)
def read_shade(shade: str) -> RGB:
    """Red, green and blue (0-255) of "#rrggbb" or "#rgb"; undyed wool for anything else."""
    text = shade.strip()
    if re.fullmatch(r"#[0-9a-fA-F]{3}", text):
        text = "#" + "".join(2 * digit for digit in text[1:])
    if not re.fullmatch(r"#[0-9a-fA-F]{6}", text):
        text = NO_SHADE
    return int(text[1:3], 16), int(text[3:5], 16), int(text[5:7], 16)


def write_shade(rgb: RGB) -> str:
    """The shade as "#rrggbb"."""
    return "#{:02x}{:02x}{:02x}".format(*rgb)


def luminance(rgb: RGB) -> float:
    """Relative luminance, 0 for black and 1 for white."""

    def linear(channel: int) -> float:
        share = channel / 255
        return share / 12.92 if share <= 0.03928 else ((share + 0.055) / 1.055) ** 2.4

    red, green, blue = (linear(channel) for channel in rgb)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(first: RGB, second: RGB) -> float:
    """Contrast ratio of two shades, 1 to 21."""
    light, dark = sorted((luminance(first), luminance(second)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


def mix(first: RGB, second: RGB, share: float) -> RGB:
    """`share` of the second shade in the first, channel by channel."""
    red, green, blue = (round(a + (b - a) * share) for a, b in zip(first, second, strict=True))
    return red, green, blue


def grey_of(rgb: RGB) -> int:
    """The grey (0-255) that a greyscale printer makes of the shade (ITU-R BT.601 weights)."""
    return round(0.299 * rgb[0] + 0.587 * rgb[1] + 0.114 * rgb[2])


def letter_shade(rgb: RGB) -> RGB:
    """Black or white, whichever reads better on the shade: always 4.5 : 1 or more."""
    return max(BLACK, WHITE, key=lambda ink: contrast(ink, rgb))


def hatch_shade(rgb: RGB, ratio: float = 2.4) -> RGB:
    """The gentlest darker or lighter tone of the shade that stands out from it by `ratio`."""
    ink = letter_shade(rgb)
    for percent in range(10, 100, 5):
        tone = mix(rgb, ink, percent / 100)
        if contrast(tone, rgb) >= ratio:
            return tone
    return ink
