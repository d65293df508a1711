"""Numbers for several sizes in the trade's forms."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from booklet.sizing.size_lists import find_measure_lists, read_size_list


@pytest.mark.parametrize(
    ("text", "numbers"),
    [
        ("77 (83, 89)", (77, 83, 89)),
        ("40 (44, 48) (52, 56)", (40, 44, 48, 52, 56)),
        ("40 (44, 48) [52, 56]", (40, 44, 48, 52, 56)),
        ("62 (66: 70: 74)", (62, 66, 70, 74)),
        ("90-96-102-108", (90, 96, 102, 108)),
        ("33 (36-39)", (33, 36, 39)),
        ("12, 14, 16", (12, 14, 16)),
        ("77", (77,)),
        ("6 (-, 8)", (6, 0, 8)),
        # Published: tunic in three sizes, pattern-knit.com: chains and stitches with the turning chain.
        ("55 (63, 69)", (55, 63, 69)),
        ("54 (62, 68)", (54, 62, 68)),
        # Published: lace garment in six sizes, leaflet 136-25 (garnstudio.com): chains and stitches.
        ("102-102-122-122-142-142", (102, 102, 122, 122, 142, 142)),
        ("99-99-119-119-139-139", (99, 99, 119, 119, 139, 139)),
        # Published: ribbed pullover in six sizes, craftorator.com, pattern 674: sc across the ribbing.
        ("65 (69-75-83-91-103)", (65, 69, 75, 83, 91, 103)),
    ],
)
def test_size_lists(text: str, numbers: tuple[int, ...]) -> None:
    assert read_size_list(text) == numbers


@pytest.mark.parametrize(
    "text", ["", "a", "77 83", "2 + 1", "5 - 3", "77 (83", "(83, 89)", "1.5", "77 (a, b)", "1 (" + "2, " * 60 + "2)"]
)
def test_other_texts_are_no_size_lists(text: str) -> None:
    assert read_size_list(text) is None


@given(st.lists(st.integers(0, 999), min_size=2, max_size=12))
def test_every_form_reads_back_as_the_same_numbers(numbers: list[int]) -> None:
    first, *rest = map(str, numbers)
    for text in (
        f"{first} ({', '.join(rest)})",
        f"{first} ({': '.join(rest)})",
        "-".join(map(str, numbers)),
        f"{first} ({'-'.join(rest)})",
    ):
        assert read_size_list(text) == tuple(numbers)


@pytest.mark.parametrize(
    ("text", "slots"),
    [
        ("to 51.4 (56.2, 61) cm", ("51.4", "56.2", "61")),
        ("20 cm (22 cm, 24 cm) wide", ("20 cm", "22 cm", "24 cm")),
        ("12 cm (14, 16) wide", ("12 cm", "14 cm", "16 cm")),
        ("8 in/20 cm (8½ in/22 cm, 9 in/23 cm)", ("8 in/20 cm", "8½ in/22 cm", "9 in/23 cm")),
        ("20 cm [8 in] (22 cm [8½ in], 24 cm [9½ in])", ("20 cm [8 in]", "22 cm [8½ in]", "24 cm [9½ in]")),
        ('20¼ (22, 24½)"', ("20¼", "22", "24½")),
        ("1 1/2 (2, 2 1/2) in", ("1 1/2", "2", "2 1/2")),
        ("23–25 (26–28, 29–31) cm", ("23–25", "26–28", "29–31")),
        ("40.5 (44, 48) [52, 56.5]", ("40.5", "44", "48", "52", "56.5")),
    ],
)
def test_lists_of_measures_in_prose(text: str, slots: tuple[str, ...]) -> None:
    """Common practice of the trade, in the forms that its garment patterns use."""
    (found,) = find_measure_lists(text)
    assert found.slots == slots
    assert not found.is_plain


@pytest.mark.parametrize(
    "text", ["38 cm (15 in)", "1.5 cm (½ in) and 2 cm (¾ in)", "US 7", "{a} (5.5, 6)", "12 to 14 cm"]
)
def test_a_length_in_two_units_is_no_list(text: str) -> None:
    assert find_measure_lists(text) == ()
