"""The command line as scripts and people rely on it: what is printed where, and the exit status."""

import json
import subprocess
import sys
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from booklet.cli import main
from booklet.editions.table import MAKERS
from booklet.model.editions import EDITIONS, USUAL_EDITIONS

SOUND = """---
title: Dune Coaster
gauge: 13 sts and 15 rows = 10 cm in single crochet
yarn: {weight: 4 Medium, fibre: cotton, ball: 50 g = 85 m}
---

Row 1: Ch 11, sc in 2nd ch from hook and in each ch across. (10 sc)

Row 2: Ch 1, turn, sc in each st across. (10 sc)
"""
BROKEN = SOUND.replace("across. (10 sc)\n\nRow 2", "across. (12 sc)\n\nRow 2")

ROW_KEYS = {"part", "label", "line", "size", "status", "used", "made", "left", "stated"}
FINDING_KEYS = {"code", "severity", "file", "line", "column", "message", "sizes"}


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    return tmp_path


def write_pattern(folder: Path, name: str, text: str) -> str:
    (folder / name).mkdir(parents=True)
    (folder / name / "pattern.md").write_text(text, encoding="utf-8")
    return name


def run(*arguments: str) -> Result:
    return CliRunner().invoke(main, arguments)


def list_files(folder: Path) -> set[str]:
    return {str(path.relative_to(folder)) for path in folder.rglob("*") if path.is_file()}


def test_proof_of_a_sound_pattern_ends_with_its_rows(folder: Path) -> None:
    result = run("proof", write_pattern(folder, "coaster", SOUND))
    assert (result.exit_code, result.stderr) == (0, "")
    assert "Dune Coaster: all 2 rows worked stitch by stitch\n" in result.stdout
    assert list_files(folder) == {"coaster/pattern.md"}


def test_proof_of_a_broken_row_shows_it_and_ends_with_1(folder: Path) -> None:
    result = run("proof", write_pattern(folder, "coaster", BROKEN))
    assert result.exit_code == 1
    assert "coaster/pattern.md:7:" in result.stdout
    assert result.stdout.splitlines()[-1] == "1 error in 1 file"


def test_proof_brief_prints_one_line_for_each_finding(folder: Path) -> None:
    result = run("proof", "--brief", write_pattern(folder, "coaster", BROKEN))
    lines = [line for line in result.stdout.splitlines() if ": error[" in line]
    assert len(lines) == 1
    assert lines[0].startswith("coaster/pattern.md:7:")


def test_proof_json_is_one_object_with_the_promised_keys(folder: Path) -> None:
    result = run("proof", "--json", write_pattern(folder, "a", SOUND), write_pattern(folder, "b", BROKEN))
    assert result.exit_code == 1
    patterns = json.loads(result.stdout)["patterns"]
    assert [Path(pattern["source"]) for pattern in patterns] == [Path("a/pattern.md"), Path("b/pattern.md")]
    for pattern in patterns:
        assert set(pattern) >= {"source", "title", "sizes", "rows", "findings", "amounts"}
        assert pattern["title"] == "Dune Coaster"
        assert all(set(row) == ROW_KEYS for row in pattern["rows"])
        assert all(set(finding) >= FINDING_KEYS for finding in pattern["findings"])
        assert isinstance(pattern["amounts"], dict)
    sound, broken = patterns
    assert [(row["made"], row["stated"], row["status"]) for row in sound["rows"]][-2:] == [(10, 10, "worked")] * 2
    assert [row["status"] for row in broken["rows"]].count("broken") == 1
    assert sound["findings"] == [] or all(f["severity"] == "warning" for f in sound["findings"])


@pytest.mark.parametrize("argument", ["no-such-pattern", "empty.md", "latin.md", "void"])
def test_error_a_source_that_cannot_be_used_ends_with_2(folder: Path, argument: str) -> None:
    (folder / "empty.md").write_text("")
    (folder / "latin.md").write_bytes("title: Überwurf".encode("latin-1"))
    (folder / "void").mkdir()
    for command in ("proof", "make"):
        result = run(command, argument)
        assert result.exit_code == 2
        assert "source-unreadable" in result.output
        assert result.exception is None or isinstance(result.exception, SystemExit)
    assert not (folder / "build").exists()


@pytest.mark.parametrize(
    "arguments",
    [
        (),
        ("proof",),
        ("make",),
        ("bake", "x"),
        ("make", "--paper", "A5", "x"),
        ("make", "--edition", "tablet", "x"),
        ("explain", "no-such-code"),
    ],
)
def test_error_a_wrong_command_line_ends_with_2(folder: Path, arguments: tuple[str, ...]) -> None:
    result = run(*arguments)
    assert result.exit_code == 2
    assert isinstance(result.exception, SystemExit)


def test_make_writes_every_edition_and_prints_the_files(folder: Path) -> None:
    result = run("make", write_pattern(folder, "coaster", SOUND))
    assert result.exit_code == 0, result.stderr
    written = set(result.stdout.split())
    assert written == {
        "build/coaster/coaster-US-web.html",
        "build/coaster/coaster-US-A4.pdf",
        "build/coaster/coaster-US-Letter.pdf",
    }
    assert list_files(folder) == written | {"coaster/pattern.md"}
    assert "3 files written" in result.stderr.splitlines()[-1]


def test_make_writes_only_what_was_asked_for_where_it_was_asked_for(folder: Path) -> None:
    result = run(
        "make", write_pattern(folder, "coaster", SOUND), "--edition", "print", "--paper", "A4", "--out", "for/print"
    )
    assert result.stdout.split() == ["for/print/coaster/coaster-US-A4.pdf"]
    assert list_files(folder / "for") == {"print/coaster/coaster-US-A4.pdf"}


def test_error_a_broken_pattern_leaves_what_was_printed(folder: Path) -> None:
    source = write_pattern(folder, "coaster", SOUND)
    run("make", source, "--edition", "web")
    page = folder / "build/coaster/coaster-US-web.html"
    before = page.read_bytes()
    (folder / "coaster/pattern.md").write_text(BROKEN, encoding="utf-8")
    result = run("make", source, "--edition", "web")
    assert result.exit_code == 1
    assert result.stdout == ""
    assert result.stderr.splitlines()[-1] == "1 error in 1 file; nothing was written"
    assert page.read_bytes() == before


def test_error_of_one_pattern_does_not_keep_the_others(folder: Path) -> None:
    sources = [write_pattern(folder, "a", BROKEN), write_pattern(folder, "b", SOUND)]
    result = run("make", *sources, "--edition", "web", "--brief")
    assert result.exit_code == 1
    assert result.stdout.split() == ["build/b/b-US-web.html"]
    assert result.stderr.splitlines()[-1].endswith("; 1 file written, for 1 of 2 patterns")


def test_error_two_patterns_of_one_name_do_not_write_over_each_other(folder: Path) -> None:
    sources = [write_pattern(folder, "spring/wrap", SOUND), write_pattern(folder, "autumn/wrap", SOUND)]
    result = run("make", *sources, "--edition", "web")
    assert result.exit_code == 1
    assert "output-name-taken" in result.stderr
    assert len(result.stdout.split()) == 1


def test_error_an_output_folder_that_is_a_file_ends_with_2(folder: Path) -> None:
    (folder / "taken").write_text("mine")
    result = run("make", write_pattern(folder, "coaster", SOUND), "--edition", "web", "--out", "taken")
    assert result.exit_code == 2
    assert "output-unwritable" in result.stderr
    assert (folder / "taken").read_text() == "mine"


def test_a_folder_of_patterns_and_a_house_file_among_them(folder: Path) -> None:
    write_pattern(folder, "content/a", SOUND)
    write_pattern(folder, "content/b", SOUND)
    (folder / "content/house.yaml").write_text("name: Sandbar Patterns\n")
    for arguments in (["content"], ["content/a", "content/b", "content/house.yaml"]):
        result = run("proof", "--json", *arguments)
        assert [Path(p["source"]).parent.name for p in json.loads(result.stdout)["patterns"]] == ["a", "b"]


def test_what_is_wrong_in_the_house_file_is_told_once(folder: Path) -> None:
    sources = [write_pattern(folder, "content/a", SOUND), write_pattern(folder, "content/b", SOUND)]
    (folder / "content/house.yaml").write_text("name: Sandbar Patterns\nnmae: twice\n")
    lines = run("proof", "--brief", *sources).stdout.splitlines()
    assert len([line for line in lines if line.startswith("content/house.yaml:2:1:")]) == 1
    assert lines[-1] == "1 error in 1 file"


def test_the_editions_offered_are_those_that_can_be_made() -> None:
    assert tuple(EDITIONS) == tuple(MAKERS)
    assert set(USUAL_EDITIONS) <= set(EDITIONS)


def test_strict_lets_a_warning_count(folder: Path) -> None:
    warned = SOUND.replace("title: Dune Coaster", "title: Dune Coaster\nsizes:\n  One: {width: 90 cm}")
    source = write_pattern(folder, "coaster", warned)
    relaxed, strict = run("proof", "--brief", source), run("proof", "--brief", "--strict", source)
    assert relaxed.stdout == strict.stdout
    assert (": warning[" in relaxed.stdout, relaxed.exit_code, strict.exit_code) == (True, 0, 1)


def test_new_makes_a_pattern_that_is_sound_and_never_writes_over(folder: Path) -> None:
    result = run("new", "Dune Wrap")
    assert result.exit_code == 0
    assert list_files(folder) == {"dune-wrap/pattern.md"}
    proof = run("proof", "--strict", "dune-wrap")
    assert proof.exit_code == 0, proof.stdout
    assert "Dune Wrap" in proof.stdout
    (folder / "dune-wrap/pattern.md").write_text("mine")
    again = run("new", "Dune Wrap")
    assert again.exit_code == 2
    assert (folder / "dune-wrap/pattern.md").read_text() == "mine"
    assert run("new", "!!!").exit_code == 2


def test_explain_prints_the_explanation_or_what_may_be_meant() -> None:
    assert run("explain", "pango-missing").stdout.startswith("# pango-missing\n")
    assert "perhaps pango-missing" in run("explain", "pango-mising").stderr


def test_schema_is_printed_or_written(folder: Path) -> None:
    printed = run("schema")
    assert json.loads(printed.stdout)["type"] == "object"
    assert run("schema", "front.json").exit_code == 0
    assert json.loads((folder / "front.json").read_text()) == json.loads(printed.stdout)
    assert run("schema", "no/such/folder/front.json").exit_code == 2


def run_alone(folder: Path, *arguments: str) -> subprocess.CompletedProcess[str]:
    script = (
        "import sys\n"
        "from booklet.cli import main\n"
        "try:\n"
        f"    main({list(arguments)!r})\n"
        "finally:\n"
        "    print('loaded:', *sorted({'PIL', 'jinja2', 'weasyprint', 'markdown', 'pydantic'} & set(sys.modules)))\n"
    )
    return subprocess.run([sys.executable, "-c", script], cwd=folder, capture_output=True, text=True, check=False)


def test_proof_and_explain_load_nothing_that_only_printing_needs(folder: Path) -> None:
    source = write_pattern(folder, "coaster", SOUND)
    assert run_alone(folder, "explain", "pango-missing").stdout.splitlines()[-1] == "loaded:"
    assert run_alone(folder, "proof", source).stdout.splitlines()[-1] in ("loaded:", "loaded: pydantic")


def test_output_of_another_encoding_does_not_stop_the_command(folder: Path) -> None:
    source = write_pattern(folder, "coaster", BROKEN.replace("title: Dune", "title: Düne ½ →"))
    ran = subprocess.run(
        [sys.executable, "-m", "booklet", "proof", source],
        cwd=folder,
        env={"PYTHONIOENCODING": "ascii", "PATH": ""},
        capture_output=True,
        check=False,
    )
    assert (ran.returncode, ran.stderr) == (1, b"")


SIZED = """---
title: Reed Cuff
sizes: Small (Large)
gauge: 16 sts and 18 rows = 10 cm in single crochet, 5 mm hook
---

Ch 11 (15).

Row 1: Sc in 2nd ch from hook and in each ch across. (10 (14) sc)
"""


def test_a_size_is_made_alone_in_any_edition(folder: Path) -> None:
    source = write_pattern(folder, "cuff", SIZED)
    ran = run("make", source, "--edition", "text", "--edition", "handout", "--size", "large", "--paper", "A4")
    assert ran.exit_code == 0, ran.output
    names = sorted(path.name for path in (folder / "build/cuff").iterdir())
    assert names == ["cuff-US-Large-handout-A4.pdf", "cuff-US-Large-text.txt"]
    text = (folder / "build/cuff/cuff-US-Large-text.txt").read_text(encoding="utf-8")
    assert "Chain 15." in text
    assert "You have 14 single crochets." in text
    assert "11" not in text


def test_error_a_size_that_the_pattern_does_not_have(folder: Path) -> None:
    source = write_pattern(folder, "cuff", SIZED)
    ran = run("make", source, "--edition", "text", "--size", "Larg", "--brief")
    assert ran.exit_code == 1
    assert 'error[size-unknown]: the pattern has no size "Larg"' in ran.output
    assert not (folder / "build").exists()


def test_the_editions_of_the_pattern_are_made_and_the_command_line_goes_before_them(folder: Path) -> None:
    source = write_pattern(folder, "cuff", SIZED.replace("title: Reed Cuff", "title: Reed Cuff\neditions: text"))
    assert run("make", source).exit_code == 0
    names = {path.name for path in (folder / "build/cuff").iterdir()}
    assert names == {"cuff-US-text.txt", "cuff-US-Small-text.txt", "cuff-US-Large-text.txt"}
    assert run("make", source, "--edition", "web").exit_code == 0
    assert (folder / "build/cuff/cuff-US-web.html").exists()


def test_a_handout_that_is_too_long_is_told_and_the_others_are_made(folder: Path) -> None:
    rows = "".join(f"\nRow {number}: Ch 1, turn, sc in each st across. (10 sc)\n" for number in range(2, 320))
    long = SIZED.replace("sizes: Small (Large)\n", "").replace("11 (15)", "11").replace("10 (14)", "10") + rows
    source = write_pattern(folder, "cuff", long)
    ran = run("make", source, "--edition", "text", "--edition", "handout", "--paper", "A4", "--brief")
    assert ran.exit_code == 0
    assert "warning[handout-too-long]: the pattern does not fit on two sides of A4" in ran.output
    assert [path.name for path in (folder / "build/cuff").iterdir()] == ["cuff-US-text.txt"]
