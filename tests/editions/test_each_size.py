"""The drawings of every size on one page: which are shown when, and what a heavy page leaves out."""

from dataclasses import replace

import pytest

from booklet.drawings.picture import OWN, STAYS, WAITS, Picture
from booklet.drawings.screen import fit_screens
from booklet.editions import each_size
from booklet.editions.commission import Commission, take_commission
from booklet.editions.each_size import add_each_size
from booklet.pages.edition import WEB_EDITION
from booklet.pages.render import render_booklet
from booklet.pages.theme import load_theme
from booklet.pipeline import prove_text

SOURCE = """---
title: Trial
terms: US
yarn: {weight: 3 Light, ball: 100 g = 200 m}
hook: 4 mm
gauge: 16 sts and 18 rows = 10 cm in sc
colours: {A: {name: Fog, shade: "#cccccc"}, B: {name: Kelp, shade: "#335533"}}
sizes: [S, M, L]
numbers:
  wide: [13, 16, 19]
---

## Cloth

Row 1: With A, ch {wide + 1}, sc in 2nd ch from hook and in each ch across. ({wide} sc)

Row 2: Ch 1, turn, sc in each st across. ({wide} sc)

Row 3: With B, ch 1, turn, sc in first st, *dc in next st, 2 sc in next st, sk next st; rep from * to last 3 sts, sc in
last 3 sts. ({wide} sts)

## Flower

Rnd 1: With A, 6 sc in a magic ring. (6 sc)

Rnd 2: 2 sc in each st around. (12 sc)

Rnd 3: (Sc in next st, 2 sc in next st) 6 times. (18 sc)
"""


@pytest.fixture(scope="module")
def commission() -> Commission:
    proof = prove_text(SOURCE, "trial.md")
    assert proof.parsed is not None
    assert proof.worked is not None
    assert proof.amounts is not None
    theme, _ = load_theme("")
    made, _ = take_commission(proof.parsed, proof.worked, proof.amounts, theme)
    return made


def list_pictures(commission: Commission) -> list[Picture]:
    return [fit_screens(picture, None) for picture in commission.manuscript.pictures if picture.name != "schematic"]


def show(pictures: tuple[Picture, ...], stem: str) -> list[tuple[tuple[int, ...], str]]:
    return [(picture.sizes, picture.showing) for picture in pictures if picture.name.startswith(stem)]


def test_what_differs_stands_for_each_size_and_what_does_not_stands_once(commission: Commission) -> None:
    pictures = add_each_size(commission, list_pictures(commission))
    assert show(pictures, "colour-plan") == [((1,), OWN), ((0,), WAITS), ((2,), WAITS)]
    assert show(pictures, "chart") == [((), "")]  # the flower has no size
    flower = next(picture for picture in pictures if picture.name == "chart-1")
    assert "size" not in flower.caption
    assert len({picture.name for picture in pictures}) == len(pictures)


def test_a_heavy_page_keeps_the_drawings_of_one_size_and_says_so(
    commission: Commission, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(each_size, "MAX_MORE_BYTES", 0)
    pictures = add_each_size(commission, list_pictures(commission))
    assert show(pictures, "colour-plan") == [((1,), STAYS)]
    assert show(pictures, "chart") == [((), "")]
    manuscript = replace(commission.manuscript, pictures=pictures, parsed=commission.parsed)
    page, _ = render_booklet(manuscript, WEB_EDITION, commission.theme)
    assert '<p class="alone size-1 size-3">This drawing shows size M:' in page.html
    assert '<div class="only size-2"><div class="table-frame' in page.html.replace("\n", "")


def test_a_drawing_that_one_size_alone_lacks_comes_behind_the_others(commission: Commission) -> None:
    pictures = add_each_size(commission, list_pictures(commission))
    assert show(pictures, "schematic") == [((0,), WAITS), ((2,), WAITS)]


def test_a_page_of_one_size_has_no_other(commission: Commission) -> None:
    alone = replace(commission, place=1)
    assert add_each_size(alone, commission.manuscript.pictures) == tuple(commission.manuscript.pictures)
