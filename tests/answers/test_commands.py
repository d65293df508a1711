"""The commands that ask: what is printed, what is written, exit codes."""

import json
import re
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from booklet.cli import main

CONTENT = Path(__file__).parents[2] / "content"
BLANKET, HAT = str(CONTENT / "four-fields-blanket"), str(CONTENT / "lantern-hat")


@pytest.fixture(autouse=True)
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    return tmp_path


def run(*arguments: str) -> Result:
    return CliRunner().invoke(main, arguments)


def list_files(folder: Path) -> list[str]:
    return sorted(str(path.relative_to(folder)) for path in folder.rglob("*") if path.is_file())


def test_a_gauge_in_one_command_says_in_words_what_the_json_says(folder: Path) -> None:
    words, plain = run("suppose", BLANKET, "--gauge", "13"), run("suppose", BLANKET, "--gauge", "13", "--json")
    assert (words.exit_code, plain.exit_code) == (0, 0)
    (answer,) = json.loads(plain.stdout)["suppositions"]
    for measure in answer["measures"]:
        half = int(measure["then_cm"] * 2 + 0.5) / 2  # to the half centimetre
        line = rf"{measure['size']} +{measure['name']} .* {half:g} cm \("
        assert re.search(line, words.stdout), line
    assert answer["hook"]["try_mm"] == 5
    assert "5 mm (US H-8) instead of 5.5 mm" in words.stdout
    for need in answer["yarn"]:
        assert f"{need['then_balls']} balls" in words.stdout
    assert list_files(folder) == []


def test_several_questions_are_answered_each_on_its_own() -> None:
    result = run(
        "suppose", HAT, "--gauge", "12", "--number", "body+1", "--yarn", "5", "--fewer", "A", "--have", "B 5 g"
    )
    assert result.exit_code == 0
    heads = [line for line in result.stdout.split("\n") if line.startswith("Lantern Hat: ")]
    assert [head.split(" ")[2] for head in heads] == ["if", "if", "if", "what", "what"]


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        ((), "nothing is supposed"),
        (("--gauge", "wide"), "is not a gauge"),
        (("--number", "pannel+4"), 'has no number "pannel"'),
        (("--fewer", "Q"), 'has no colour "Q"'),
        (("--yarn", "chewing gum"), "is not a yarn weight"),
    ],
)
def test_error_a_question_that_cannot_be_asked_ends_with_2(arguments: tuple[str, ...], words: str) -> None:
    result = run("suppose", BLANKET, *arguments)
    assert result.exit_code == 2
    assert words in result.stderr
    assert result.stdout == ""


@pytest.mark.parametrize("command", [("suppose", "--gauge", "13"), ("teach",), ("costs",), ("kits", "--makers", "5")])
def test_error_a_pattern_with_a_mistake_is_not_asked(folder: Path, command: tuple[str, ...]) -> None:
    (folder / "pattern.md").write_text(
        "---\ntitle: X\n---\nRow 1: Ch 6, sc in 2nd ch from hook and in each ch. (9 sc)\n"
    )
    result = run(command[0], "pattern.md", *command[1:])
    assert result.exit_code == 1
    assert "error[" in result.stderr
    assert "nothing is answered" in result.stderr
    assert list_files(folder) == ["pattern.md"]


@pytest.mark.parametrize("command", [("suppose", "--gauge", "13"), ("teach",), ("costs",), ("kits", "--makers", "5")])
def test_error_a_source_that_is_not_there_ends_with_2(command: tuple[str, ...]) -> None:
    result = run(command[0], "nowhere", *command[1:])
    assert result.exit_code == 2
    assert "there is no such" in result.stderr


def test_a_source_alone_is_written_on_demand_and_proves_clean(folder: Path) -> None:
    result = run("teach", BLANKET, "--source-only", "--most", "24")
    assert result.exit_code == 0
    assert list_files(folder) == ["build/four-fields-blanket-sample/pattern.md"]
    assert "begins with ch 17, 16 stitches at the widest, 20 rows, all worked stitch by stitch" in result.stdout
    assert "9 of the 9 kinds of row" in result.stdout
    proof = run("proof", "--strict", "build/four-fields-blanket-sample")
    assert (proof.exit_code, "all 21 rows worked" in proof.stdout) == (0, True)


def test_the_lesson_as_json_writes_nothing(folder: Path) -> None:
    lesson = json.loads(run("teach", BLANKET, "--json").stdout)
    assert (lesson["chain"], lesson["stitches"], lesson["rows"], lesson["kinds"]) == (17, 16, 20, 9)
    assert len(lesson["shown"]) == 17
    assert list_files(folder) == []


def test_error_a_sample_wider_than_asked_for(folder: Path) -> None:
    result = run("teach", HAT, "--most", "24")
    assert result.exit_code == 2
    assert "has 40 stitches in its widest" in result.stderr
    assert list_files(folder) == []


@pytest.mark.slow
def test_the_sample_is_printed_in_both_editions(folder: Path) -> None:
    assert run("teach", BLANKET).exit_code == 0
    assert {Path(name).suffix for name in list_files(folder)} >= {".md", ".html", ".pdf"}


def test_kits_of_a_pattern_by_options(folder: Path) -> None:
    plain = json.loads(run("kits", HAT, "--makers", "10", "--each", "1", "--spare", "20%", "--json").stdout)
    assert (plain["makers"], plain["spare"]) == (10, 0.2)
    assert [item["number"] for item in plain["lots"][0]["items"]] == [2, 2, 2, 2, 2]
    assert list_files(folder) == []


def test_error_kits_without_makers_end_with_2() -> None:
    result = run("kits", HAT)
    assert (result.exit_code, "give --makers" in result.stderr) == (2, True)


def test_error_an_order_that_is_wrong_shows_its_line(folder: Path) -> None:
    (folder / "order.yaml").write_text("makers: many\npattern: hat\n", encoding="utf-8")
    result = run("kits", "order.yaml")
    assert result.exit_code == 1
    assert "order.yaml:1:9: error[wrong-value]" in result.stderr
    assert run("kits", "gone.yaml").exit_code == 2


def test_costs_in_words_and_json() -> None:
    arguments = ("costs", HAT, "--seconds", "2.8", "--rate", "USD 20", "--spent", "450", "--price", "6", "--fees", "1")
    words, sheet = run(*arguments), json.loads(run(*arguments, "--json").stdout)
    assert words.exit_code == 0
    assert sheet["pattern"]["sales_needed"] == 90
    assert "paid back by 90 sales at USD 6.00" in words.stdout
    for item in sheet["items"]:
        assert f"{item['size']} " in words.stdout
        assert f"USD {item['labour'][0]:.2f}" in words.stdout


def test_error_money_that_cannot_be_read() -> None:
    result = run("costs", HAT, "--rate", "a lot")
    assert (result.exit_code, "is not an amount of money" in result.stderr) == (2, True)
