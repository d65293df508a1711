"""What a buyer of the demo patterns reads: sizes by which things are bought, sums that add up, no plans.

That a garment is bought by its bust and a toy by its height, and that length and weight stand beside balls, is
common practice of the trade.
"""

import re
from dataclasses import replace
from functools import cache
from pathlib import Path

import pytest

from booklet.pages.booklet_view import view_booklet
from booklet.pages.handout import list_measures
from booklet.pages.manuscript import BookletInput
from booklet.pages.views import BookletView, Section
from booklet.pipeline import prove_file

CONTENT = Path(__file__).parents[2] / "content"
DEMOS = ("four-fields-blanket", "hedgerow-hare", "lantern-hat", "millpond-tee", "saltmarsh-shawl")


@cache
def view_demo(name: str, for_testers: bool = False) -> BookletView:
    proof = prove_file(str(CONTENT / name))
    assert proof.sized is not None
    assert proof.worked is not None
    assert proof.amounts is not None
    return view_booklet(BookletInput(proof.sized, proof.worked, proof.amounts, for_testers=for_testers))


def find_section(view: BookletView, key: str) -> Section:
    return next(section for section in view.sections if section.key == key)


def tell_fact(name: str, label: str) -> str:
    facts = {fact.label: str(fact.value) for fact in find_section(view_demo(name), "glance").facts}
    return facts[label].replace("\u00a0", " ")


@pytest.mark.parametrize(
    ("name", "size"),
    [
        ("hedgerow-hare", "Height with ears: 24 cm (9½ in)"),
        ("millpond-tee", "Bust: 90 (100, 110, 120, 130, 140) (150, 160, 170) cm or 36 ("),
        ("four-fields-blanket", "Lap: 91.5 × 110 cm (36½ × 44 in)"),
        ("lantern-hat", "Circumference: 31 (37, 43, 49, 55.5) cm"),
    ],
)
def test_the_finished_size_is_that_of_the_whole(name: str, size: str) -> None:
    assert tell_fact(name, "Finished size").startswith(size)


def test_a_bust_is_told_as_the_stitches_make_it() -> None:
    """Twice the width of the back: 72 stitches at 16 to 10 cm are 45 cm."""
    table = find_section(view_demo("millpond-tee"), "sizes").tables[0]
    lines = {line.head: line.cells[0].lines[0] for line in table.lines}
    assert (lines["Bust"], lines["Back: width"]) == ("90\u00a0cm", "45\u00a0cm")
    assert "To fit bust" in lines


@pytest.mark.parametrize("name", DEMOS)
def test_plans_and_ranges_are_for_testers(name: str) -> None:
    def list_heads(view: BookletView) -> list[str]:
        tables = [*find_section(view, "sizes").tables, *find_section(view, "materials").tables]
        return [str(line.head) for table in tables for line in table.lines]

    bought, tested = list_heads(view_demo(name)), list_heads(view_demo(name, for_testers=True))
    assert not [head for head in bought if head.startswith(("Planned", "Difference"))]
    assert "Difference" in tested
    assert len(find_section(view_demo(name), "materials").tables) == 1
    assert not {"Difference"} & set(view_demo(name, for_testers=True).measure_names)


@pytest.mark.parametrize("name", ["four-fields-blanket", "hedgerow-hare", "lantern-hat", "saltmarsh-shawl"])
def test_lengths_of_yarn_add_up_as_printed(name: str) -> None:
    (table,) = find_section(view_demo(name), "materials").tables
    cells = [[read_metres(" ".join(map(str, cell.lines))) for cell in line.cells] for line in table.lines]
    if table.columns[-1].endswith("In all"):
        assert all(total == sum(metres) for *metres, total in cells)
    else:
        *colours, totals = cells
        assert totals == [sum(of_size) for of_size in zip(*colours, strict=True)]


def read_metres(text: str) -> int:
    found = re.search(r"(\d+)\u00a0m\b", text)
    assert found is not None, text
    return int(found[1])


def test_one_size_is_not_named_in_every_line() -> None:
    (table,) = find_section(view_demo("hedgerow-hare"), "materials").tables
    assert [str(line.head) for line in table.lines] == ["Barley", "Cream", "Sloe", "In all"]
    assert table.caption == "Yarn to buy, by colour, 10% reserve included"


def test_a_hat_for_all_ages_is_not_for_a_baby_alone() -> None:
    assert tell_fact("lantern-hat", "What it is") == "Hat, from baby to adult"


def test_safety_in_one_line_is_one_sentence() -> None:
    assert re.sub(r"<[^>]*>", "", tell_fact("hedgerow-hare", "Safety")) == (
        "See the safety notes: not in a baby’s sleep space; a toy that is given or sold; filling"
    )


def test_one_yarn_needs_no_letters() -> None:
    assert all(section.key != "colours" for section in view_demo("millpond-tee").sections)
    yarn = next(fact for fact in find_section(view_demo("millpond-tee"), "materials").facts if fact.label == "Yarn")
    assert "Millstone" in yarn.value


def test_a_sheet_of_one_size_tells_the_measures_of_its_pieces() -> None:
    """A sheet has no schematic to pin pieces out by; a toy that is not blocked needs none."""
    proof = prove_file(str(CONTENT / "hedgerow-hare"))
    assert proof.sized is not None
    assert proof.worked is not None
    assert proof.amounts is not None
    assert list_measures(BookletInput(proof.sized, proof.worked, proof.amounts)) == ()
    gauges = tuple(replace(gauge, blocked=True) for gauge in proof.sized.pattern.gauges)
    blocked = replace(proof.sized, pattern=replace(proof.sized.pattern, gauges=gauges))
    told = {fact.label: fact.value for fact in list_measures(BookletInput(blocked, proof.worked, proof.amounts))}
    assert told["Ear"] == "circumference 7.5\u00a0cm (3\u00a0in), length 8.5\u00a0cm (3½\u00a0in)"


def test_nine_sizes_of_one_yarn_stand_side_by_side() -> None:
    (table, *_) = find_section(view_demo("millpond-tee"), "materials").tables
    assert table.columns[0] == "XS"
    (line,) = table.lines
    assert [text.partition("\u00a0")[2] for text in line.cells[0].lines] == ["m", "yd", "g", "balls"]


def test_ranges_add_up_as_printed() -> None:
    """Four colours of 343 to 420 m, one of them to 421 m."""
    needs = find_section(view_demo("four-fields-blanket", for_testers=True), "materials").tables[-1]
    lap = next(line for line in needs.lines if line.head == "Lap, in all")
    assert lap.cells[-1].lines[-1] == "1372–1681\u00a0m"


def test_balls_are_counted_where_no_ball_is_enough_for_a_piece() -> None:
    table = view_demo("four-fields-blanket").handout.per_item
    assert table is not None
    assert table.columns[-1] == "Balls for 1 blanket"
    assert [line.cells[-1].lines[0] for line in table.lines] == ["12", "16", "32"]
