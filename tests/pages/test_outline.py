"""Headings sorted into sections."""

from collections.abc import Callable

import pytest

from booklet.model.pattern import Part
from booklet.pages.outline import outline_parts
from booklet.source import SourceFile

Titles = Callable[[str], dict[str, list[tuple[str, int]]]]


@pytest.fixture
def titles(read_body: Callable[[SourceFile, int], tuple[Part, ...]]) -> Titles:
    def list_titles(body: str) -> dict[str, list[tuple[str, int]]]:
        outline = outline_parts(read_body(SourceFile("p.md", body), 0))
        return {key: [(place.part.title, place.depth) for place in places] for key, places in outline.sections.items()}

    return list_titles


def test_customary_headings_move_and_all_others_are_pieces(titles: Titles) -> None:
    assert titles("## Notes\n\nA.\n\n## Back\n\nRow 1: Sc.\n\n### Neck\n\nRow 2: Sc.\n\n## Making up\n\nSew.") == {
        "notes": [("Notes", 0)],
        "instructions": [("Back", 0), ("Neck", 1)],
        "finishing": [("Making up", 0)],
    }


def test_a_section_with_rows_stays_where_it_stands(titles: Titles) -> None:
    assert titles("## Body\n\nRow 1: Sc.\n\n## Finishing\n\nRnd 1: Sc around.") == {
        "instructions": [("Body", 0), ("Finishing", 0)]
    }


def test_a_heading_under_a_piece_stays_with_it(titles: Titles) -> None:
    assert titles("## Sleeve\n\nRow 1: Sc.\n\n### Notes\n\nEasy.") == {"instructions": [("Sleeve", 0), ("Notes", 1)]}


def test_a_heading_that_says_instructions_is_not_printed_twice(titles: Titles) -> None:
    assert titles("## Gauge:\n\nX.\n\n## Instructions\n\n### Back\n\nRow 1: Sc.\n\n### Finishing\n\nSew.") == {
        "gauge": [("Gauge:", 0)],
        "instructions": [("Back", 0)],
        "finishing": [("Finishing", 0)],
    }


def test_prose_before_the_first_heading_is_a_note_and_rows_there_are_instructions(titles: Titles) -> None:
    assert titles("Hello.\n\n## Body\n\nRow 1: Sc.") == {"notes": [("", 0)], "instructions": [("Body", 0)]}
    assert titles("Row 1: Sc.") == {"instructions": [("", 0)]}
