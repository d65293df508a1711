"""Drawings made smaller, and type larger or smaller, where a page would come out nearly empty."""

from dataclasses import replace
from typing import Any

import pytest

from booklet.editions import printed
from booklet.editions.printed import count_faults, set_pages
from booklet.output.fills import OpeningPicture, PageFill
from booklet.output.pdf import LaidPages, Printed
from booklet.pages.edition import Edition

SCHEMATIC = OpeningPicture("pictures/schematic.png", height=0.8, around=0.1, most=0.9)
FULL, THIN, OPEN = PageFill(0.9), PageFill(0.3), PageFill(0.9, is_open_ended=True)


def test_faults_are_thin_pages_and_open_ends_but_for_the_last_page() -> None:
    assert count_faults([FULL, THIN, OPEN, FULL, THIN]) == 2


class Typesetter:
    """Stands in for laying pages: answers each setting by what it is told, and keeps what was asked."""

    def __init__(self, answer: Any) -> None:
        self.answer = answer
        self.asked: list[Edition] = []

    def __call__(self, commission: Any, edition: Edition, most_pages: int) -> tuple[LaidPages, tuple[()]]:
        self.asked.append(edition)
        return LaidPages(None, edition, self.answer(edition)), ()  # type: ignore[arg-type]


@pytest.fixture
def set_with(monkeypatch: pytest.MonkeyPatch) -> Any:
    def run(answer: Any) -> tuple[Any, list[Edition]]:
        typesetter = Typesetter(answer)
        monkeypatch.setattr(printed, "_lay", typesetter)
        monkeypatch.setattr(printed, "print_pages", lambda laid: Printed(laid.document, ()))
        chosen, _ = set_pages(None, Edition("print", "A4"))  # type: ignore[arg-type]
        return chosen, typesetter.asked

    return run


def test_what_needs_no_help_is_laid_once(set_with: Any) -> None:
    chosen, asked = set_with(lambda edition: (FULL, FULL, THIN))
    assert asked == [chosen]
    assert chosen == Edition("print", "A4")


def test_a_drawing_is_made_to_stand_on_the_page_before_it(set_with: Any) -> None:
    """Room is 1 − 0.3 − 0.1, and a hundredth is kept back: 0.59 of the page, where 0.9 is the most."""
    following = PageFill(0.9, opening=SCHEMATIC)
    chosen, asked = set_with(lambda edition: (FULL, FULL) if edition.picture_fits else (THIN, following))
    assert len(asked) == 2
    assert chosen.picture_fits == (("pictures/schematic.png", pytest.approx(0.59 / 0.9, abs=0.011)),)
    assert chosen.fit == 1.0


def test_a_drawing_is_not_made_too_small_to_read(set_with: Any) -> None:
    """Less than three fifths of its height would be left; so type is tried instead."""
    tall = PageFill(0.9, opening=OpeningPicture("pictures/schematic.png", height=0.88, around=0.3, most=0.9))
    chosen, asked = set_with(lambda edition: (FULL, FULL) if edition.fit == 1.02 else (THIN, tall))
    assert chosen.fit == 1.02
    assert all(edition.picture_fits == () for edition in asked)


def test_a_table_that_is_too_wide_is_set_in_parts(set_with: Any) -> None:
    wide = PageFill(0.9, is_too_wide=True)
    chosen, asked = set_with(lambda edition: (FULL,) if edition.most_columns == 3 else (wide,))
    assert [edition.most_columns for edition in asked] == [0, 5, 3]
    assert chosen.most_columns == 3


def test_the_setting_with_the_fewest_faults_is_taken_where_none_is_without(set_with: Any) -> None:
    chosen, asked = set_with(lambda edition: (THIN, FULL) if edition.fit == 0.98 else (THIN, OPEN, FULL))
    assert chosen.fit == 0.98
    assert len(asked) == len(printed.FITS)


def test_a_drawing_a_little_smaller_may_save_a_page(set_with: Any) -> None:
    """Room on the half-full page is 1 − 0.5 − 0.1, and a hundredth is kept back: 0.39, where it is 0.45 high."""
    half, following = PageFill(0.5), PageFill(0.9, opening=replace(SCHEMATIC, height=0.45))
    chosen, asked = set_with(lambda edition: (FULL, FULL) if edition.picture_fits else (FULL, half, following))
    assert len(asked) == 2
    assert chosen.picture_fits == (("pictures/schematic.png", pytest.approx(0.39 / 0.9, abs=0.011)),)


def test_a_drawing_keeps_its_size_where_that_saves_nothing(set_with: Any) -> None:
    half, following = PageFill(0.5), PageFill(0.9, opening=replace(SCHEMATIC, height=0.45))
    chosen, asked = set_with(lambda edition: (FULL, half, following))
    assert chosen.picture_fits == ()
    assert len(asked) <= 1 + printed.MOST_CLOSER


def test_a_drawing_is_made_no_smaller_than_four_fifths_for_paper_alone(set_with: Any) -> None:
    half, following = PageFill(0.5), PageFill(0.9, opening=replace(SCHEMATIC, height=0.5))
    _, asked = set_with(lambda edition: (FULL, half, following))
    assert len(asked) == 1
