"""Shades too alike: the measure against published pairs, and what the check tells."""

import pytest
from coloraide import Color

from booklet.checks.likeness import LEAST_DIFFERENCE, compare_colours, read_lightness, tell_apart
from booklet.drawings.shades import contrast, read_shade
from booklet.model.pattern import Colour
from booklet.source import SourceFile

SPAN = SourceFile("case.md", "Row 1: Sc across.\n").span(0, 3)

# Sharma, Wu and Dalal 2005, Color Research and Application 30(1) 21-30: L a b, L a b, CIEDE2000
SHARMA = (
    (50, 2.6772, -79.7751, 50, 0, -82.7485, 2.0425),
    (50, 3.1571, -77.2803, 50, 0, -82.7485, 2.8615),
    (50, 2.8361, -74.0200, 50, 0, -82.7485, 3.4412),
    (50, -1.3802, -84.2814, 50, 0, -82.7485, 1.0000),
    (50, -1.1848, -84.8006, 50, 0, -82.7485, 1.0000),
    (50, -0.9009, -85.5211, 50, 0, -82.7485, 1.0000),
    (50, 0, 0, 50, -1, 2, 2.3669),
    (50, -1, 2, 50, 0, 0, 2.3669),
    (50, 2.4900, -0.0010, 50, -2.4900, 0.0009, 7.1792),
    (50, 2.4900, -0.0010, 50, -2.4900, 0.0010, 7.1792),
    (50, 2.4900, -0.0010, 50, -2.4900, 0.0011, 7.2195),
    (50, 2.4900, -0.0010, 50, -2.4900, 0.0012, 7.2195),
    (50, -0.0010, 2.4900, 50, 0.0009, -2.4900, 4.8045),
    (50, -0.0010, 2.4900, 50, 0.0010, -2.4900, 4.8045),
    (50, -0.0010, 2.4900, 50, 0.0011, -2.4900, 4.7461),
    (50, 2.5, 0, 50, 0, -2.5, 4.3065),
    (50, 2.5, 0, 73, 25, -18, 27.1492),
    (50, 2.5, 0, 61, -5, 29, 22.8977),
    (50, 2.5, 0, 56, -27, -3, 31.9030),
    (50, 2.5, 0, 58, 24, 15, 19.4535),
    (50, 2.5, 0, 50, 3.1736, 0.5854, 1.0000),
    (50, 2.5, 0, 50, 3.2972, 0, 1.0000),
    (50, 2.5, 0, 50, 1.8634, 0.5757, 1.0000),
    (50, 2.5, 0, 50, 3.2592, 0.3350, 1.0000),
    (60.2574, -34.0099, 36.2677, 60.4626, -34.1751, 39.4387, 1.2644),
    (63.0109, -31.0961, -5.8663, 62.8187, -29.7946, -4.0864, 1.2630),
    (61.2901, 3.7196, -5.3901, 61.4292, 2.2480, -4.9620, 1.8731),
    (35.0831, -44.1164, 3.7933, 35.0232, -40.0716, 1.5901, 1.8645),
    (22.7233, 20.0904, -46.6940, 23.0331, 14.9730, -42.5619, 2.0373),
    (36.4612, 47.8580, 18.3852, 36.2715, 50.5065, 21.2231, 1.4146),
    (90.8027, -2.0831, 1.4410, 91.1528, -1.6435, 0.0447, 1.4441),
    (90.9257, -0.5406, -0.9208, 88.6381, -0.8985, -0.7239, 1.5381),
    (6.7747, -0.2908, -2.4247, 5.8714, -0.0985, -2.2286, 0.6377),
    (2.0776, 0.0795, -1.1350, 0.9033, -0.0636, -0.5514, 0.9082),
)

# WCAG 2.2 contrast ratios; 4.54, 8.59, 2.15 and 1.07 are published for their pairs, the others follow by the formula
RATIOS = (
    ("#000000", "#ffffff", 21.0000),
    ("#767676", "#ffffff", 4.5422),
    ("#777777", "#ffffff", 4.4781),
    ("#949494", "#ffffff", 3.0335),
    ("#959595", "#ffffff", 2.9953),
    ("#595959", "#ffffff", 7.0047),
    ("#5a5a5a", "#ffffff", 6.8969),
    ("#ff0000", "#ffffff", 3.9985),
    ("#00ff00", "#ffffff", 1.3722),
    ("#0000ff", "#ffffff", 8.5925),
    ("#ff0000", "#0000ff", 2.1489),
    ("#ffff00", "#ffffff", 1.0738),
    ("#ff0000", "#000000", 5.2520),
    ("#0000ff", "#000000", 2.4440),
    ("#808080", "#ffffff", 3.9494),
    ("#808080", "#000000", 5.3172),
    ("#800000", "#ffffff", 10.9498),
    ("#000080", "#ffffff", 16.0097),
    ("#ff7f50", "#000000", 8.4036),
)


@pytest.mark.parametrize("pair", SHARMA)
def test_the_difference_is_that_of_the_published_pairs(pair: tuple[float, ...]) -> None:
    first, second = Color("lab-d65", pair[0:3]), Color("lab-d65", pair[3:6])
    assert first.delta_e(second, method="2000") == pytest.approx(pair[6], abs=5e-5)
    assert second.delta_e(first, method="2000") == pytest.approx(pair[6], abs=5e-5)


@pytest.mark.parametrize(("first", "second", "ratio"), RATIOS)
def test_contrast_is_that_of_the_listed_pairs(first: str, second: str, ratio: float) -> None:
    assert contrast(read_shade(first), read_shade(second)) == pytest.approx(ratio, abs=5e-5)
    assert Color(first).contrast(second, method="wcag21") == pytest.approx(ratio, abs=2e-3)


def codes(*shades: str) -> list[str]:
    colours = [Colour(letter, "", shade, SPAN) for letter, shade in zip("ABCD", shades, strict=False)]
    return [finding.code for finding in compare_colours(colours)]


def test_shades_that_differ_are_left_alone() -> None:
    assert codes("#c9ced2", "#5b6b3a", "#8f3d1f") == []
    assert codes("#c9ced2") == []


def test_nearly_the_same_shade() -> None:
    assert codes("#c9ced2", "#c2c8cd") == ["colours-alike"]
    assert Color("#c9ced2").delta_e("#c2c8cd", method="2000") < LEAST_DIFFERENCE


def test_red_and_green_of_one_lightness() -> None:
    assert codes("#9c5a3c", "#5f7038") == ["colours-alike-to-some"]
    assert Color("#9c5a3c").delta_e("#5f7038", method="2000") > 30
    assert tell_apart(Color("#9c5a3c"), Color("#5f7038"), "deutan") < 4


def test_two_colours_and_one_grey() -> None:
    assert codes("#b5533c", "#2f7f86") == ["colours-alike-in-grey"]


def test_simulated_eyes_see_grey_as_others_do() -> None:
    """A colour vision deficiency leaves greys as they are (Vienot, Brettel and Mollon 1999; Machado 2009)."""
    for grey in ("#000000", "#777777", "#ffffff"):
        for vision in ("protan", "deutan"):
            assert Color(grey).filter(vision).delta_e(grey, method="2000") < 0.5


def test_lightness_of_black_and_white() -> None:
    assert read_lightness(Color("black")) == pytest.approx(0, abs=1e-6)
    assert read_lightness(Color("white")) == pytest.approx(100, abs=1e-3)
    assert read_lightness(Color("#777777")) == pytest.approx(50.0, abs=0.5)  # CIELAB's middle grey


def test_a_pair_is_told_once_for_its_strongest_reason() -> None:
    assert codes("#777777", "#787878", "#777777") == ["colours-alike"] * 3
