"""What is installed is what is in the tree."""

import tomllib
from pathlib import Path

ROOT = Path(__file__).parents[1]


def test_every_part_and_folder_of_data_is_packed() -> None:
    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))
    packed = set(project["tool"]["setuptools"]["packages"])
    parts = {f"booklet.{path.parent.name}" for path in (ROOT / "booklet").glob("*/__init__.py")}
    assert packed == parts | {"booklet", "booklet._content", "booklet._themes", "booklet.findings.explanations"}


def test_every_kind_of_data_file_is_packed() -> None:
    data = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["tool"]["setuptools"]["package-data"]
    for path in (ROOT / "booklet").rglob("*"):
        if path.is_file() and path.suffix not in (".py", ".pyc"):
            package = ".".join(path.parent.relative_to(ROOT).parts)
            assert f"*{path.suffix}" in data.get(package, []), path
