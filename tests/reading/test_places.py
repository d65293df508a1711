"""From an argument to a source, and the house file beside it."""

from pathlib import Path

import pytest

from booklet.reading.house import find_house, read_house
from booklet.reading.places import find_source

HOUSE = Path(__file__).parents[2] / "content" / "house.yaml"


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    place = tmp_path / "harbour-hat"
    place.mkdir()
    (place / "pattern.md").write_text("---\ntitle: Harbour Hat\n---\n", encoding="utf-8")
    return place


def test_a_folder_stands_for_its_pattern(folder: Path) -> None:
    source, findings = find_source(str(folder))
    assert findings == ()
    assert (source.path, source.folder) == (str(folder / "pattern.md"), folder)
    assert find_source(str(folder / "pattern.md"))[0].text == source.text


@pytest.mark.parametrize(
    ("name", "content", "reason"),
    [
        ("empty.md", b" \n", "the file is empty"),
        ("latin.md", b"caf\xe9", "the file is not UTF-8 text (byte 3)"),
        ("huge.md", b"x" * 2_000_001, "the file is larger than 2 MB"),
        ("row.txt", b"Row 1: Sc.", "this is not a Markdown file"),
    ],
)
def test_error_files_that_cannot_be_used(tmp_path: Path, name: str, content: bytes, reason: str) -> None:
    (tmp_path / name).write_bytes(content)
    source, (finding,) = find_source(str(tmp_path / name))
    assert source is None
    assert (finding.code, finding.message) == ("source-unreadable", reason)
    assert finding.span.file.path == str(tmp_path / name)
    assert (finding.span.line, finding.span.column) == (1, 1)


def test_error_names_that_lead_nowhere(folder: Path, tmp_path: Path) -> None:
    source, (finding,) = find_source(str(folder / "patern.md"))
    assert (source, finding.message, finding.fix) == (None, "there is no such file", f'name "{folder / "pattern.md"}"')
    _, (finding,) = find_source(str(tmp_path / "harbor-hat"))
    assert finding.fix == f'name "{folder}"'
    (tmp_path / "bare").mkdir()
    _, (finding,) = find_source(str(tmp_path / "bare"))
    assert finding.message == "the folder holds no pattern.md"
    assert find_source("a\0b.md")[1][0].code == "source-unreadable"


def test_the_house_file_stands_beside_the_source_or_one_folder_up(folder: Path, tmp_path: Path) -> None:
    assert find_house(folder) is None
    (tmp_path / "house.yaml").write_text("name: Lantern Lane\n", encoding="utf-8")
    assert find_house(folder) == tmp_path / "house.yaml"
    (folder / "house.yaml").write_text("name: Own House\n", encoding="utf-8")
    assert find_house(folder) == folder / "house.yaml"


def test_a_house_file_gives_the_publisher(tmp_path: Path) -> None:
    path = tmp_path / "house.yaml"
    path.write_text(
        "name: Lantern Lane\nlicense: Be kind.\nmargin: 15 %\npaper: [A4]\nunits: imperial\n", encoding="utf-8"
    )
    publisher, findings = read_house(path)
    assert findings == ()
    assert (publisher.name, publisher.licence, publisher.margin, publisher.papers, publisher.units_first) == (
        "Lantern Lane",
        "Be kind.",
        0.15,
        ("A4",),
        "imperial",
    )


@pytest.mark.parametrize(
    ("text", "code", "line"),
    [
        ("nmae: Lantern\n", "unknown-key", 1),
        ("name: A\nmargin: 10\n", "missing-unit", 2),
        ("name: [\n", "yaml-syntax", 1),
    ],
)
def test_error_house_files(tmp_path: Path, text: str, code: str, line: int) -> None:
    path = tmp_path / "house.yaml"
    path.write_text(text, encoding="utf-8")
    _, (finding,) = read_house(path)
    assert (finding.code, finding.span.line, finding.span.file.path) == (code, line, str(path))


def test_error_a_house_file_that_is_not_there(tmp_path: Path) -> None:
    assert [f.code for f in read_house(tmp_path / "house.yaml")[1]] == ["source-unreadable"]


def test_the_house_file_of_the_demo_patterns_is_in_order() -> None:
    publisher, findings = read_house(HOUSE)
    assert findings == ()
    assert publisher.name
    assert publisher.margin == 0.1
