"""House style in the house file and in a pattern: which keys there are, who wins, what a wrong value is told."""

from dataclasses import fields, replace
from pathlib import Path

import pytest

from booklet.model.style import Style
from booklet.pipeline import prove_file, prove_text
from booklet.reading.forms import list_keys
from booklet.reading.style_form import StyleForm

ROOT = Path(__file__).parents[2]
HOUSE = ROOT / "tests/editions/houses/kittiwake.yaml"


def write(folder: Path, front: str, house: str = "") -> Path:
    (folder / "pattern.md").write_text(f"---\ntitle: Cloth\n{front}---\n\nRow 1: Ch 4.\n", encoding="utf-8")
    if house:
        (folder / "house.yaml").write_text(house, encoding="utf-8")
    return folder


def test_every_setting_has_a_key_and_an_other_house_that_sets_it(tmp_path: Path) -> None:
    names = {field.name for field in fields(Style)}
    assert set(StyleForm.model_fields) == names
    pattern = prove_file(str(write(tmp_path, "", HOUSE.read_text(encoding="utf-8")))).pattern
    assert pattern is not None
    assert [name for name in names if getattr(pattern.style, name) in ("", None)] == []


def test_the_pattern_wins_key_by_key(tmp_path: Path) -> None:
    house = "style: {repeats: square, counts: dash, words up to: 12}\n"
    pattern = prove_file(str(write(tmp_path, "style:\n  counts: square\n", house))).pattern
    assert pattern is not None
    assert pattern.style == Style(repeats="square", counts="square", words_up_to=12)
    assert pattern.publisher.style == replace(pattern.style, counts="dash")


def test_no_style_is_no_style() -> None:
    pattern = prove_text("---\ntitle: Cloth\n---\n\nRow 1: Ch 4.\n", "a.md").pattern
    assert pattern is not None
    assert pattern.style == Style()
    assert not pattern.style.changes_rows


@pytest.mark.parametrize(
    ("line", "message", "fix"),
    [
        ("repeats: parentheses", 'style, repeats: "parentheses" is not one of the words known here', 'write "round"'),
        ("counts: en dash", 'style, counts: "en dash" is not one of the words known here', 'write "dash"'),
        ("count rows: changd", 'style, count rows: "changd" is not one of the words known here', 'write "changed"'),
        ("nested: braces", 'style, nested: "braces" is not one of the words known here', ""),
        ("words up to: 300", 'style, words up to: "300" is no number to spell out up to', ""),
    ],
)
def test_a_wrong_value_is_told_with_its_place(tmp_path: Path, line: str, message: str, fix: str) -> None:
    proof = prove_file(str(write(tmp_path, f"style:\n  {line}\n")))
    (finding,) = [finding for finding in proof.findings if finding.code == "wrong-value"]
    assert finding.message == message
    assert finding.span.line == 4
    assert finding.fix == fix
    assert finding.expected


def test_a_wrong_value_in_the_house_file_is_told_there(tmp_path: Path) -> None:
    proof = prove_file(str(write(tmp_path, "", "name: House\nstyle:\n  sides: braces\n")))
    (finding,) = [finding for finding in proof.findings if finding.code == "wrong-value"]
    assert Path(finding.span.file.path).name == "house.yaml"
    assert finding.span.line == 3


def test_an_unknown_key_is_told_with_those_there_are(tmp_path: Path) -> None:
    proof = prove_file(str(write(tmp_path, "style:\n  colour of bullets: red\n")))
    (finding,) = [finding for finding in proof.findings if finding.code == "unknown-key"]
    assert finding.message == '"colour of bullets" is not a key of style'
    assert all(key in (finding.expected or "") for key in list_keys(StyleForm))
