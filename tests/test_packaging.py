"""What is installed is what is in the tree, and works without it."""

import os
import shutil
import subprocess
import sys
import tomllib
import zipfile
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[1]
PACKED = {"booklet": "booklet", "content": "booklet/_content", "themes": "booklet/_themes"}


def test_every_part_and_folder_of_data_is_packed() -> None:
    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))
    packed = set(project["tool"]["setuptools"]["packages"])
    parts = {f"booklet.{path.parent.name}" for path in (ROOT / "booklet").glob("*/__init__.py")}
    assert packed == parts | {"booklet", "booklet._content", "booklet._themes", "booklet.findings.explanations"}


@pytest.fixture(scope="module")
def installed(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A folder with the package as a wheel lays it down, made from a copy of the tree."""
    place = tmp_path_factory.mktemp("wheel")
    tree = place / "tree"
    for folder in PACKED:
        shutil.copytree(ROOT / folder, tree / folder, ignore=shutil.ignore_patterns("__pycache__"))
    for file in ("pyproject.toml", "LICENSE", "README.md"):
        if (ROOT / file).exists():
            shutil.copy(ROOT / file, tree)
    command = [sys.executable, "-m", "pip", "wheel", "--quiet", "--no-deps", "--no-build-isolation", "--wheel-dir"]
    ran = subprocess.run([*command, str(place), str(tree)], capture_output=True, text=True, check=False)
    assert ran.returncode == 0, ran.stdout + ran.stderr
    assert not (tree / "build").exists(), "booklets go into build/, nothing else does"
    (wheel,) = place.glob("*.whl")
    with zipfile.ZipFile(wheel) as archive:
        archive.extractall(place / "site")
    return place / "site"


@pytest.mark.slow
def test_the_wheel_holds_every_file_of_the_tree(installed: Path) -> None:
    in_tree = {
        f"{packed}/{path.relative_to(ROOT / folder).as_posix()}"
        for folder, packed in PACKED.items()
        for path in (ROOT / folder).rglob("*")
        if path.is_file() and "__pycache__" not in path.parts
    }
    in_wheel = {
        path.relative_to(installed).as_posix()
        for path in (installed / "booklet").rglob("*")
        if path.is_file() and "__pycache__" not in path.parts
    }
    assert in_wheel == in_tree


@pytest.mark.slow
def test_the_installed_command_makes_a_booklet_in_a_folder_of_its_own(installed: Path, tmp_path: Path) -> None:
    def run(*arguments: str) -> subprocess.CompletedProcess[str]:
        command = [sys.executable, *arguments]
        environment = {**os.environ, "PYTHONPATH": str(installed)}
        return subprocess.run(command, cwd=tmp_path, env=environment, capture_output=True, text=True, check=False)

    where = run("-c", "import booklet; print(booklet.__file__)")
    assert Path(where.stdout.strip()).is_relative_to(installed)
    assert run("-m", "booklet", "new", "Dune Wrap").returncode == 0
    made = run("-m", "booklet", "make", "dune-wrap", "--paper", "A4")
    assert made.returncode == 0, made.stdout + made.stderr
    assert sorted(path.suffix for path in (tmp_path / "build" / "dune-wrap").iterdir()) == [".html", ".pdf"]
