"""Shades, hatches and patches."""

from io import BytesIO
from itertools import combinations

import pytest
from PIL import Image, ImageChops, ImageStat

from booklet.drawings.hatches import HATCHES, paint_hatch
from booklet.drawings.palette import make_tint
from booklet.drawings.patches import draw_patches, plan_patch
from booklet.drawings.picture import Ink
from booklet.drawings.plan import overlap, shape_box
from booklet.drawings.shades import contrast, hatch_shade, letter_shade, luminance, read_shade

from .conftest import make_pattern


@pytest.mark.parametrize(
    ("first", "second", "ratio"),
    [
        # WCAG 2.2 definition of contrast ratio; 4.54 and 8.59 are the ratios published for these pairs
        ("#000000", "#ffffff", 21.0),
        ("#767676", "#ffffff", 4.5422),
        ("#777777", "#ffffff", 4.4781),
        ("#ff0000", "#0000ff", 2.1489),
        ("#ffff00", "#ffffff", 1.0738),
        ("#0000ff", "#ffffff", 8.5925),
    ],
)
def test_contrast_is_that_of_the_standard(first: str, second: str, ratio: float) -> None:
    assert contrast(read_shade(first), read_shade(second)) == pytest.approx(ratio, abs=5e-5)


def test_luminance_weights_of_the_standard() -> None:
    # WCAG 2.2, relative luminance: 0.2126 R + 0.7152 G + 0.0722 B
    assert luminance((255, 0, 0)) == pytest.approx(0.2126)
    assert luminance((0, 255, 0)) == pytest.approx(0.7152)
    assert luminance((0, 0, 255)) == pytest.approx(0.0722)


@pytest.mark.parametrize("step", range(0, 256, 15))
def test_letters_can_be_read_on_every_shade_and_hatches_seen(step: int) -> None:
    for shade in ((step, step, step), (step, 255 - step, 90), (200, step, 30), (20, step, 255 - step)):
        assert contrast(letter_shade(shade), shade) >= 4.5
        assert contrast(hatch_shade(shade), shade) >= 2.4


@pytest.mark.parametrize("text", ["", "red", "#12345", "#gggggg", "rgb(1,2,3)"])
def test_a_shade_that_cannot_be_read_is_undyed_wool(text: str) -> None:
    assert read_shade(text) == read_shade("#cfc8bd")


def test_hatches_differ_clearly_without_colour() -> None:
    assert len(HATCHES) >= 10
    masks = [paint_hatch(number, 240, 140, 12) for number in range(len(HATCHES))]
    for first, second in combinations(masks, 2):
        assert ImageStat.Stat(ImageChops.difference(first, second)).mean[0] > 12  # 5 % of the surface


def test_hatches_repeat_without_a_seam() -> None:
    size = 4 * 12
    for number in range(len(HATCHES)):
        sheet = paint_hatch(number, 3 * size, 3 * size, 12)
        assert (
            ImageChops.difference(
                sheet.crop((0, 0, size, size)), sheet.crop((size, size, 2 * size, 2 * size))
            ).getbbox()
            is None
        )


def test_a_patch_for_each_colour(ink: Ink) -> None:
    patches = draw_patches(make_pattern().pattern.colours, ink)
    assert [patch.name for patch in patches] == ["patch-A", "patch-B", "patch-C", "patch-D"]
    assert patches[1].alt == "Colour B, Slate: rising lines"
    assert len({patch.png for patch in patches}) == 4


def test_the_letter_stands_on_its_plate(ink: Ink) -> None:
    for letter in ("A", "MC", "CC2"):
        plan = plan_patch(make_tint(letter, "", "#46566b", 3), ink)
        (text,) = plan.texts
        plate = shape_box(plan.shapes[-2])
        box = shape_box(text)
        assert plate[0] < box[0]
        assert box[2] < plate[2]
        assert overlap(plate, box)


def test_grey_patches_can_be_told_apart(ink: Ink) -> None:
    colours = make_pattern().pattern.colours
    greys = [Image.open(BytesIO(patch.png)).convert("L") for patch in draw_patches(colours, ink)]
    for first, second in combinations(greys, 2):
        assert ImageStat.Stat(ImageChops.difference(first, second)).mean[0] > 8
