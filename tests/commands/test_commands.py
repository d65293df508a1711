"""The commands of designing, as they are typed."""

from pathlib import Path

import pytest
from click.testing import CliRunner

from booklet.cli import main
from booklet.pipeline import prove_text


def run(*words: str) -> tuple[int, str]:
    result = CliRunner().invoke(main, words)
    return result.exit_code, result.output


@pytest.mark.parametrize(
    "words",
    [
        ("circle", "--rounds", "5"),
        ("circle", "--across", "20 cm", "--gauge", "14 sts and 16 rows = 10 cm", "--stagger", "--spiral"),
        ("crown", "--around", "61", "--even", "4"),
        ("square", "--rounds", "3"),
        ("granny", "--rounds", "4"),
        ("hexagon", "--rounds", "3"),
        ("sphere", "--around", "36"),
        ("oval", "--chains", "12", "--rounds", "4"),
        ("flat", "--stitch", "dc", "--sts", "15", "--rows", "4"),
    ],
)
def test_rows_that_can_be_pasted(words: tuple[str, ...]) -> None:
    code, output = run("rows", *words)
    assert code == 0
    findings = prove_text(f"---\ntitle: Piece\n---\n\n## Piece\n\n{output}", "piece.md").findings
    assert {finding.code for finding in findings} == {"gauge-missing"}


def test_a_crown_for_a_head() -> None:
    code, output = run("rows", "crown", "--head", "22 in", "--gauge", "13 sts and 10 rows = 10 cm", "--multiple", "8")
    assert code == 0
    assert "(72 hdc)" in output
    assert "crown 17.0 cm across, hat 22.4 cm deep" in output


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("circle",), "0 rounds are out of range"),
        (("circle", "--across", "20 cm"), "a measure needs a gauge"),
        (("circle", "--across", "20", "--gauge", "14 sts and 16 rows = 10 cm"), '"20" has no unit'),
        (("sphere", "--around", "31"), "30 is"),
        (("square", "--rounds", "3", "--stitch", "dtr"), "is not one of"),
        (("shaping", "nowhere.md"), "cannot be read"),
    ],
)
def test_error_rows_that_cannot_be_written(words: tuple[str, ...], said: str) -> None:
    code, output = run("rows", *words)
    assert code == 2
    assert said in output


SLEEVE = """---
title: Sleeve
sizes: [S, M]
numbers:
  cuff: 30 (32)
  top: 46 (51)
shaping:
  body: {from: 20, to: 30, over: 20}
  sleeve: {from: cuff, to: top, over: 40}
---
"""


def test_shaping_of_a_pattern(tmp_path: Path) -> None:
    source = tmp_path / "sleeve.md"
    source.write_text(SLEEVE)
    assert run("rows", "shaping", str(source)) == (
        0,
        "body: increase 1 stitch at each end of every 4th row 5 times: 30 sts\n",
    )
    code, output = run("rows", "shaping", str(source), "body")
    assert code == 0
    assert output.startswith(
        "### Shaping\n\nRows 1-3: Ch 1 (does not count as a st), turn, sc in each st across. ({20} sc)"
    )
    code, output = run("rows", "shaping", str(source), "sleeve")
    assert code == 2
    assert "from 32 to 51 sts is 19, and a row changes 2" in output


def test_tables(tmp_path: Path) -> None:
    code, output = run("tables")
    assert code == 0
    assert "woman        Women's body measures: XS, S, M" in output
    code, output = run("tables", "bed", "covers")
    assert code == 0
    assert "Queen          90 in (228.6 cm)" in output
    assert "seen in its source" in output
    assert "H-8" in run("tables", "hooks")[1]
    assert "11-14 sc to 4 in" in run("tables", "yarn", "weights")[1]
    code, output = run("tables", "shoes")
    assert code == 2
    assert "there is no table 'shoes'" in output
    house = tmp_path / "house.yaml"
    house.write_text("size tables: {hats: {source: Ward, date: 2026, sizes: {Small: {head: 22 cm}}}}\n")
    code, output = run("tables", "hats", "--house", str(house))
    assert (code, output) == (
        0,
        (
            "hats (hats): measures of the body or the bed; ease is not in them\n\nhead: Ward, 2026 (your own)\n"
            "  Small          22 cm\n"
        ),
    )


HAT = """---
title: Hat
kind: hat
sizes: {S: {head: 35 cm}, M: {head: 41 cm}, L: {head: 52 cm}}
gauge: 13 sts and 10 rows = 10 cm in hdc, in rounds
yarn: {weight: 4 Medium, ball: 100 g = 200 m}
numbers:
  girth: {measure: head, ease: -5 %, multiple: 2}
---

## Hat

"""


def test_a_crown_in_all_sizes_of_a_pattern(tmp_path: Path) -> None:
    source = tmp_path / "hat.md"
    source.write_text(HAT)
    code, output = run("rows", "crowns", str(source), "girth")
    assert code == 0
    proof = prove_text(HAT + output, "hat.md")
    assert proof.findings == ()
    assert proof.sized is not None
    assert proof.worked is not None
    made = [size[-1].made for size in proof.worked.parts[0].rows]
    assert made == list(proof.sized.numbers["girth"].values) == [44, 50, 64]
    code, output = run("rows", "crowns", str(source), "girt")
    assert code == 2
    assert "there is girth" in output


def test_a_ball_by_its_width() -> None:
    # 8 cm across is 12.57 cm from pole to pole: 28 rounds at 22 to 10 cm (computed from the circle).
    code, output = run("rows", "sphere", "--across", "8 cm", "--gauge", "20 sts and 22 rows = 10 cm")
    assert code == 0
    assert "Rnd 28:" in output
    assert "Rnd 29" not in output
