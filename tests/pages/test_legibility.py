"""Text colours of themes against their grounds."""

import pytest

from booklet.pages.legibility import LEAST_CONTRAST, check_legibility
from booklet.pages.theme import list_themes, load_theme, themes_folder
from booklet.source import SourceFile

SPAN = SourceFile("theme.yaml", "title: Case\n").span(0, 5)


def told(**shades: str) -> list[str]:
    return [finding.label for finding in check_legibility("case", {"colours": shades}, SPAN)]


def test_the_threshold_lies_between_two_greys() -> None:
    """#767676 is the lightest grey that passes 4.5 : 1 on white, #777777 fails (WCAG 2.2, 1.4.3; widely published)."""
    assert told(ink="#767676", paper="#ffffff") == []
    assert told(ink="#777777", paper="#ffffff") == ["colours: ink on paper has a contrast of 4.5 : 1"]
    assert LEAST_CONTRAST == 4.5


def test_a_colour_is_told_once_whatever_its_grounds() -> None:
    assert told(quiet="#9aa3a0", paper="#ffffff", tint="#f1f4f1") == [
        "colours: quiet on paper has a contrast of 2.6 : 1"
    ]
    assert told(line="#eeeeee", paper="#ffffff") == []  # rules are no text


@pytest.mark.parametrize("name", list_themes([themes_folder()]))
def test_themes_that_come_with_the_package_can_be_read(name: str) -> None:
    _, findings = load_theme(name)
    assert [finding.label for finding in findings if finding.code == "text-too-faint"] == []
