"""The materials list as it is printed."""

from dataclasses import replace
from typing import Any

import pytest

from booklet.amounts.materials import find_us_size, list_materials
from booklet.amounts.yarn import measure_yarn
from booklet.model.pattern import Hook


def list_lines(make: Any, *parts: Any, **facts: Any) -> list[tuple[str, str, str]]:
    sized = make.sized(**facts)
    use, _ = measure_yarn(sized, make.worked(*parts))
    return [(line.heading, line.letter, line.text) for line in list_materials(sized.pattern, use)]


def test_a_whole_list(make: Any) -> None:
    part = make.part(make.panel("sc", 80, 34, "A"), make.panel("sc", 96, 68, "A"))
    lines = list_lines(
        make,
        part,
        gauges=(make.gauge(16, 17),),
        sizes=(make.size("Cot"), make.size("Lap")),
        colours=make.colours("A"),
        yarn=make.yarn(weight=4, weight_name="Medium", fibre="wool", ball_grams=50, ball_metres=100),
        hooks=(Hook(5.0, "", make.span), Hook(4.5, "for the edging", make.span)),
        notions=("stitch marker",),
    )
    assert lines == [
        ("Yarn", "", "4 Medium, wool, 50 g = 100 m (109 yd) a ball"),
        ("Yarn", "A", "Shade A: 2 (5) balls, 182 (433) m / 199 (473) yd"),
        ("Hook", "", "5 mm (US H-8), or the size that gives the gauge"),
        ("Hook", "", "4.5 mm (US 7), for the edging"),
        ("Notions", "", "stitch marker"),
        ("Notions", "", "yarn needle, to weave in about 4 (8) ends"),
    ]


def test_yards_come_first_where_the_pattern_says_so(make: Any) -> None:
    lines = list_lines(
        make,
        make.part(make.panel("sc", 20, 20)),
        gauges=(make.gauge(),),
        yarn=make.yarn(weight=4, weight_name="Medium", ball_grams=100, ball_metres=200),
        units_first="imperial",
    )
    assert lines[0][2] == "4 Medium, 100 g = 219 yd (200 m) a ball"
    assert lines[1][2].startswith("1 ball, ")
    assert lines[1][2].endswith(" m")


def test_the_gauges_hook_stands_in_for_a_list(make: Any) -> None:
    gauge = replace(make.gauge(), hook_mm=6.0)
    assert list_lines(make, gauges=(gauge,)) == [("Hook", "", "6 mm (US J-10), or the size that gives the gauge")]


def test_a_listed_needle_is_not_listed_again(make: Any) -> None:
    lines = list_lines(make, make.part(make.panel("sc", 20, 20)), gauges=(make.gauge(),), notions=("Tapestry needle",))
    assert [line for line in lines if line[0] == "Notions"] == [("Notions", "", "Tapestry needle")]


# Craft Yarn Council, hooks and needles; steel sizes from a page on steel hooks. 7 mm has no US size.
@pytest.mark.parametrize(
    ("mm", "size"), [(5.0, "US H-8"), (7.0, ""), (1.5, "US steel 8"), (3.5, "US E-4"), (2.0, ""), (4.9, "")]
)
def test_us_sizes(mm: float, size: str) -> None:
    assert find_us_size(mm) == size
