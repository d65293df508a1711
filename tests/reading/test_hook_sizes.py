"""Hooks given twice: by millimetres and by a US size."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from booklet.reading.hook_sizes import find_hook_pairs, find_millimetres, is_same_hook, name_hook


# Craft Yarn Council, hooks and needles, as an open course repeats it; M/N-13, N/P-15 and P-16 from two shop charts.
@pytest.mark.parametrize(
    "text",
    [
        "5 mm (H-8)",
        "H-8 (5 mm) hook",
        "US H/8 [5 mm]",
        "size I-9 (5.5 mm)",
        "K-10½ (6.5mm)",
        "K-10.5 / 6.5 mm",
        "US 7 (4.5 mm)",
        "M/N-13 (9 mm)",
        "M-13 (9 mm)",
        "N/P-15 (10 mm)",
        "B-1 (2.25 mm)",
        "B/1 (2.5 mm)",
        "US G (4.25 mm)",
        "size J (5.75 mm)",
        "J-10 (6 mm)",
        "5 mm (H) hook",
    ],
)
def test_hooks_that_are_one(text: str) -> None:
    (pair,) = find_hook_pairs(text)
    assert is_same_hook(pair), (pair, find_millimetres(pair.label))


@pytest.mark.parametrize("text", ["5 mm (I-9)", "H-8 (6 mm)", "US K/10.5 [5.5 mm]", "US 7 (5 mm)", "G-6 (5 mm)"])
def test_hooks_that_are_two(text: str) -> None:
    (pair,) = find_hook_pairs(text)
    assert not is_same_hook(pair)


@pytest.mark.parametrize(
    "text",
    [
        "steel hook 7 (1.5 mm)",
        "6 (5 mm) buttons",
        "With B (6 mm hook), ch 3",
        "Row 2 (20 mm wide)",
        "5 mm (A), 6 mm (B)",
    ],
)
def test_what_is_no_pair_or_has_several_scales(text: str) -> None:
    assert all(is_same_hook(pair) for pair in find_hook_pairs(text))


def test_names() -> None:
    assert name_hook(5.0) == "H-8"
    assert name_hook(7.0) == ""
    assert find_millimetres("Z-99") == ()


@given(st.text(max_size=60))
def test_any_text_can_be_looked_through(text: str) -> None:
    for pair in find_hook_pairs(text):
        is_same_hook(pair)
