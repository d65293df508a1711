"""Cautions by who the item is for, what it is, has and is made of."""

from typing import Any

import pytest

from booklet.amounts.cautions import find_hazard, read_length, select_cautions
from booklet.terms import load_table


def select(make: Any, **facts: Any) -> tuple[set[str], list[str]]:
    cautions, findings = select_cautions(make.pattern(**facts))
    return {caution.code for caution in cautions}, [finding.code for finding in findings]


def test_nothing_is_said_of_a_grown_ups_blanket(make: Any) -> None:
    assert select(make, made_for="adult", kind="blanket", has=("fringe",)) == (set(), [])


# American Academy of Pediatrics, July 2022: no loose blanket in the sleep space of a baby under 1 year.
def test_a_babys_blanket_is_not_for_sleep(make: Any) -> None:
    codes, _ = select(make, made_for="baby", kind="Baby blankets")
    assert codes == {"baby-sleep"}


# EN 12586: a soother holder is at most 220 mm long, so 230 mm is told.
@pytest.mark.parametrize(("cord", "findings"), [("cord 230 mm", ["hazard-over-limit"]), ("cord 22 cm", [])])
def test_a_soother_holder(make: Any, cord: str, findings: list[str]) -> None:
    codes, found = select(make, made_for="baby", kind="soother holder", has=(cord,))
    assert {"soother-holder", "child-cord"} == codes
    assert found == findings


# ASTM F1816 and EN 14682: no cord at the hood or neck of a garment for size 4.
def test_a_hood_cord_for_a_child(make: Any) -> None:
    codes, found = select(make, made_for="child", kind="hooded jacket", has=("hood cord 20 cm",))
    assert codes == {"neck-cord"}
    assert found == ["hazard-not-allowed"]


# 16 CFR 1501 and EN 71-1: no small parts for children under 36 months, an 8 mm button among them.
def test_a_button_on_a_toy_for_under_three(make: Any) -> None:
    codes, found = select(make, made_for="under three", kind="soft toy", has=("button 8 mm", "stuffing"))
    assert codes == {"small-parts", "soft-toy", "stuffing"}
    assert found == ["hazard-not-allowed"]


# EN 71-1: cords on a toy at most 220 mm. ASTM F963: strings of a cot mobile at most 7 in.
@pytest.mark.parametrize(
    ("kind", "has", "findings"),
    [
        ("toy", "cord 25 cm", ["hazard-over-limit"]),
        ("toy", "cord 8 in", []),
        ("cot mobile", "string 20 cm", ["hazard-over-limit"]),
        ("cot mobile", "string 7 in", []),
        ("cot mobile", "string", []),
    ],
)
def test_cords_on_playthings(make: Any, kind: str, has: str, findings: list[str]) -> None:
    assert sorted(set(select(make, made_for="baby", kind=kind, has=(has,))[1])) == findings


# ASTM F1816: 3 in of free cord at the waist or hem, sizes 2T-16.
@pytest.mark.parametrize(("cord", "findings"), [("waist cord 3 in", ["hazard-over-limit"]), ("hem tie 7.5 cm", [])])
def test_a_waist_cord(make: Any, cord: str, findings: list[str]) -> None:
    assert select(make, made_for="child", kind="skirt", has=(cord,))[1] == findings


# Common practice: man-made fibre melts; pot holders are of cotton or wool.
@pytest.mark.parametrize(
    ("fibre", "findings"),
    [("acrylic", ["hazard-not-allowed"]), ("80% cotton, 20% polyester", ["hazard-not-allowed"]), ("cotton", [])],
)
def test_fibre_near_heat(make: Any, fibre: str, findings: list[str]) -> None:
    codes, found = select(make, made_for="kitchen", kind="pot holder", yarn=make.yarn(fibre=fibre))
    assert "heat" in codes
    assert found == findings


def test_wool_is_told_for_a_babys_skin(make: Any) -> None:
    codes, _ = select(make, made_for="baby", kind="cardigan", yarn=make.yarn(fibre="merino wool"))
    assert codes == {"sensitive-skin"}


def test_pets_and_their_toys(make: Any) -> None:
    codes, found = select(make, made_for="pet", kind="toy", has=("bells",))
    assert codes == {"pet", "pet-parts"}
    assert found == ["hazard-not-allowed"]


def test_every_caution_ends_with_whom_to_ask(make: Any) -> None:
    table = load_table("cautions")
    cautions, _ = select_cautions(make.pattern(made_for="baby", kind="toy", has=("eyes", "cord", "stuffing")))
    assert len(cautions) >= 5
    for caution in cautions:
        assert caution.text.endswith(tuple(table["deference"].values()))
        assert caution.source
        assert caution.heading


def test_the_place_of_a_finding_is_the_authors_word(make: Any) -> None:
    _, findings = select_cautions(make.pattern(made_for="under three", kind="toy", has=("small parts",)))
    (finding,) = findings
    assert finding.message == '"small parts" is ruled out in something made for "under three"'
    assert finding.span.text == "small parts"


@pytest.mark.parametrize(
    ("named", "hazard"),
    [
        ("safety eyes 8 mm", "small parts"), ("Hood cord 20 cm", "neck cord"), ("cord 40 cm", "cord"),
        ("ties", "cord"), ("drawstring at the waist", "waist cord"), ("pompoms", "fringe"), ("lining", ""),
        ("fibrefill", "stuffing"), ("necktie", ""),
    ],
)  # fmt: skip
def test_hazards_by_their_words(named: str, hazard: str) -> None:
    assert find_hazard(named) == hazard


@pytest.mark.parametrize(
    ("text", "cm"), [("cord 40 cm", 40), ("cord 230 mm", 23), ('ties 7"', 17.78), ("2,5 cm", 2.5), ("cord", None)]
)
def test_lengths_in_words(text: str, cm: float | None) -> None:
    length = read_length(text)
    assert (length.cm if length else None) == (pytest.approx(cm) if cm else None)
