"""The finished size at a glance, of one piece and of several."""

from dataclasses import replace

import pytest

from booklet.model.amounts import Measure
from booklet.pages.finished_size import list_finished_sizes
from booklet.pages.manuscript import BookletInput


def take(part: str, name: str, axis: str, cm: float, sizes: int) -> Measure:
    values = tuple(cm + 5 * size for size in range(sizes))
    return Measure("a", part, name, axis, values, tuple(value / 2.5 for value in values), (1,) * sizes, "sts")


def list_with(
    blanket: BookletInput, names: list[str], pieces: dict[str, tuple[float, float]], axis: str = "width"
) -> str:
    measures = [
        take(part, name, kind, cm, len(names))
        for part, sides in pieces.items()
        for name, kind, cm in ((axis, axis, sides[0]), ("length", "length", sides[1]))
    ]
    sizes = tuple(replace(blanket.pattern.sizes[0], name=name) for name in names)
    pattern = replace(blanket.pattern, sizes=sizes, units_first="metric")
    amounts = replace(blanket.amounts, measures=tuple(measures))
    shown = list_finished_sizes(replace(blanket, sized=replace(blanket.sized, pattern=pattern), amounts=amounts))
    return str(shown).replace("\u00a0", " ")


def test_one_piece_is_not_named(blanket: BookletInput) -> None:
    shown = list_with(blanket, ["S", "M"], {"Wrap": (40, 50)})
    assert shown == "S: 40 × 50 cm (16 × 20 in)<br>M: 45 × 55 cm (18 × 22 in)"


def test_pieces_that_measure_the_same_stand_together_and_small_ones_by_name(blanket: BookletInput) -> None:
    pieces = {"Back": (45, 50), "Front": (45, 50), "Sleeve": (35, 20), "Neckband": (3, 40)}
    assert list_with(blanket, ["S", "M"], pieces).split("<br>") == [
        "S: back and front 45 × 50 cm (18 × 20 in); sleeve 35 × 20 cm (14 × 8 in)",
        "M: back and front 50 × 55 cm (20 × 22 in); sleeve 40 × 25 cm (16 × 10 in)",
        "Smaller pieces: neckband",
    ]


def test_many_sizes_stand_in_a_line_for_each_measure(blanket: BookletInput) -> None:
    pieces = {"Back": (45, 50), "Sleeve": (30, 20)}
    assert list_with(blanket, list("ABCDE"), pieces).split("<br>") == [
        "Back, width: 45 (50, 55, 60, 65) cm or 18 (20, 22, 24, 26) in",
        "Back, length: 50 (55, 60, 65, 70) cm or 20 (22, 24, 26, 28) in",
        "Smaller pieces: sleeve",
    ]


@pytest.mark.parametrize("count", [1, 4, 7])
def test_what_is_round_is_measured_around(blanket: BookletInput, count: int) -> None:
    pieces = {f"Ball {'abcdefg'[at]}": (20.0 + 10 * at, 8.0) for at in range(count)}
    shown = list_with(blanket, [""], pieces, "circumference").split("<br>")
    if count == 1:
        assert shown == ["20 × 8 cm (8 × 3¼ in)"]
    else:
        assert shown[0].count(" around × ") == 2 * min(count, 4)
        assert len(shown) == (1 if count < 5 else 2)
