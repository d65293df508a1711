"""The patterns in content/: nothing may be said against them, in either set of terms, and their figures hold."""

import math
from pathlib import Path

import pytest

from booklet.model.work import WorkedRow
from booklet.pipeline import Order, Proof, list_sources, make_booklet, prove_file

CONTENT = Path(__file__).parents[2] / "content"
DEMOS = {Path(source).name: source for source in list_sources([str(CONTENT)])}


@pytest.fixture(scope="module")
def proofs() -> dict[str, Proof]:
    return {name: prove_file(source) for name, source in DEMOS.items()}


def list_rows(proof: Proof) -> list[WorkedRow]:
    assert proof.worked is not None
    return [row for part in proof.worked.parts for rows in part.rows for row in rows]


@pytest.mark.parametrize("name", DEMOS)
def test_a_demo_is_sound_to_the_last_row(proofs: dict[str, Proof], name: str) -> None:
    proof = proofs[name]
    assert [finding.message for finding in proof.findings] == []
    assert {row.status for row in list_rows(proof)} == {"worked"}


@pytest.mark.parametrize("name", DEMOS)
def test_yarn_is_computed_for_each_colour_and_size(proofs: dict[str, Proof], name: str) -> None:
    proof = proofs[name]
    assert proof.sized is not None
    assert proof.amounts is not None
    assert proof.amounts.yarn is not None
    pattern, yarn = proof.sized.pattern, proof.amounts.yarn
    needs = {(need.letter, need.size): need for need in yarn.needs}
    assert set(needs) == {(colour.letter, size) for colour in pattern.colours for size in pattern.size_names}
    assert all(need.metres > 0 and need.balls for need in needs.values())
    for smaller, larger in zip(pattern.size_names, pattern.size_names[1:], strict=False):
        assert yarn.totals[smaller].metres <= yarn.totals[larger].metres


# Two centimetres, or one repeat of the pattern, are as near as a garment or a blanket is made.
NEAR_CM = {"saltmarsh-shawl": 24 / 1.8 / 2}


@pytest.mark.parametrize("name", DEMOS)
def test_measures_come_out_near_their_targets(proofs: dict[str, Proof], name: str) -> None:
    proof = proofs[name]
    assert proof.amounts is not None
    aimed = [measure for measure in proof.amounts.measures if measure.target_cm]
    assert aimed
    for measure in aimed:
        for cm, target in zip(measure.cm, measure.target_cm, strict=True):
            assert cm == pytest.approx(target, abs=NEAR_CM.get(name, 2.0)), measure.name


# Upper ends of the bust bands of the Craft Yarn Council, women's sizes (cm, as a yarn company's sheet prints them).
BUST_CM = (76, 86, 96.5, 106.5, 117, 127, 137, 147, 158)
# Its upper arms (cm, from memory): a sleeve is to go round them with room to move.
UPPER_ARM_CM = (25, 26, 28, 30.5, 34.5, 39.5, 43, 47, 49.5)


def test_the_tee_fits_the_published_bodies(proofs: dict[str, Proof]) -> None:
    proof = proofs["millpond-tee"]
    assert proof.sized is not None
    assert proof.amounts is not None
    assert [size.measures["to fit bust"].cm for size in proof.sized.pattern.sizes] == pytest.approx(BUST_CM, abs=0.5)
    measures = {(measure.part, measure.name): measure.cm for measure in proof.amounts.measures}
    for bust, width in zip(BUST_CM, measures["Back", "width"], strict=True):
        assert width is not None
        assert 10 <= 2 * width - bust <= 15  # an oversized fit, as the council names it, up to 6 in
    for arm, width in zip(UPPER_ARM_CM, measures["Sleeve", "width"], strict=True):
        assert width is not None
        assert 10 <= width - arm <= 16


def test_the_sleeve_goes_into_the_armhole(proofs: dict[str, Proof]) -> None:
    """The cap's upper edge is as long as the straight edges of both armholes, its slopes have as many rows."""
    proof = proofs["millpond-tee"]
    assert proof.sized is not None
    value = {name: number.values for name, number in proof.sized.numbers.items()}
    for at in range(9):
        straight_rows = value["armhole_rows"][at] - 1 - value["decs"][at]
        assert value["cap"][at] / 16 == pytest.approx(2 * straight_rows / 12, abs=0.1)  # in 10 cm, both by their gauge


# A flat circle of sc grows by 6 in every round (common practice): 6, 12, 18 … to the widest round.
def test_the_hare_grows_by_six(proofs: dict[str, Proof]) -> None:
    proof = proofs["hedgerow-hare"]
    assert proof.worked is not None
    for title, rounds in (("Head", 7), ("Body", 7)):
        part = next(part for part in proof.worked.parts if part.title == title)
        assert [row.made for row in part.rows[0][:rounds]] == [6 * (at + 1) for at in range(rounds)]


# Rows that grow by as much as they are high on both sides make a right angle at the point, so the shawl is half as
# deep as it is wide (geometry of the triangle): 4 sts to 10 cm over 18 against one row to 10 cm over 9.
def test_the_shawl_is_half_as_deep_as_wide(proofs: dict[str, Proof]) -> None:
    proof = proofs["saltmarsh-shawl"]
    assert proof.amounts is not None
    width, depth = (next(m for m in proof.amounts.measures if m.axis == axis) for axis in ("width", "length"))
    for wide, deep in zip(width.cm, depth.cm, strict=True):
        assert wide is not None
        assert deep is not None
        assert math.isclose(deep, wide / 2, rel_tol=0.06)


@pytest.mark.slow
@pytest.mark.parametrize("name", DEMOS)
def test_a_demo_prints_in_the_other_terms(name: str, tmp_path_factory: pytest.TempPathFactory) -> None:
    order = Order(tmp_path_factory.mktemp("build"), papers=("A4",), editions=("print",), terms="UK")
    paths, findings = make_booklet(prove_file(DEMOS[name]), order)
    assert [finding.message for finding in findings] == []
    assert len(list(paths)) == 1
