"""The shape of the package: which part may import which, and which library is known to which part."""

import ast
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

PACKAGE = Path(__file__).parents[1] / "booklet"

# A part imports only from the lines below its own; parts of one line do not know each other.
LAYERS = (
    ("__main__",),
    ("cli",),
    ("commands",),
    ("account", "answers", "shapes", "starter"),
    ("pipeline",),
    ("editions",),
    ("output",),
    ("pages",),
    ("drawings",),
    ("checks",),
    ("amounts",),
    ("working",),
    ("rows",),
    ("sizing",),
    ("reading",),
    ("findings", "model", "terms"),
    ("source",),
    ("__init__",),
)

# The only parts that may import a library: another writer of PDF or pictures is then one part's work.
FENCES = {
    "PIL": {"drawings"},
    "click": {"cli", "commands"},
    "coloraide": {"checks"},
    "fontTools": {"output"},
    "jinja2": {"pages"},
    "markdown": {"pages"},
    "nh3": {"pages"},
    "pikepdf": {"output"},
    "pydantic": {"reading"},
    "segno": {"drawings"},
    "simpleeval": {"sizing"},
    "pydyf": {"output"},
    "tinyhtml5": {"output"},
    "weasyprint": {"output"},
    "yaml": {"source", "terms"},
}

RANK = {part: rank for rank, parts in enumerate(LAYERS) for part in parts}
MODULES = sorted(PACKAGE.rglob("*.py"))


def part_of(path: Path) -> str:
    return path.relative_to(PACKAGE).parts[0].removesuffix(".py")


def list_imports(tree: ast.Module) -> Iterator[tuple[str, int]]:
    """Every module imported anywhere in the file, with its line."""
    for node in ast.walk(tree):
        if isinstance(node, ast.Import):
            yield from ((alias.name, node.lineno) for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 0, f"line {node.lineno}: imports name their part in full"
            if node.module == "booklet":
                yield from ((f"booklet.{alias.name}", node.lineno) for alias in node.names)
            else:
                yield node.module or "", node.lineno


def name_module(path: Path) -> str:
    return str(path.relative_to(PACKAGE.parent))


@pytest.mark.parametrize("path", MODULES, ids=name_module)
def test_imports_point_one_way(path: Path) -> None:
    part = part_of(path)
    for module, line in list_imports(ast.parse(path.read_text(encoding="utf-8"))):
        top, _, rest = module.partition(".")
        if top == "booklet":
            other = rest.partition(".")[0]
            other = other if other in RANK else "__init__"
            allowed = other == part or RANK[other] > RANK[part]
            assert allowed, f"line {line}: {part} may not import {other}"
        fence = FENCES.get(top)
        assert fence is None or part in fence, f"line {line}: {top} is known to {fence} only"


@pytest.mark.parametrize("path", MODULES, ids=name_module)
def test_modules_and_functions_stay_readable(path: Path) -> None:
    text = path.read_text(encoding="utf-8")
    assert text.count("\n") <= 400
    for node in ast.walk(ast.parse(text)):
        if isinstance(node, ast.FunctionDef):
            length = (node.end_lineno or node.lineno) - node.lineno + 1
            assert length <= 50, f"{node.name} has {length} lines"


@pytest.mark.parametrize("path", MODULES, ids=name_module)
def test_weasyprint_is_loaded_by_functions_only(path: Path) -> None:
    if path == PACKAGE / "output" / "fetcher.py":  # a subclass; pdf.py loads it when a PDF is asked for
        return
    for node in ast.parse(path.read_text(encoding="utf-8")).body:
        if isinstance(node, ast.Import | ast.ImportFrom):
            names = [alias.name for alias in node.names] + [getattr(node, "module", None) or ""]
            assert not any(name.startswith("weasyprint") or name.endswith("fetcher") for name in names)


def test_every_part_has_its_layer() -> None:
    parts = {part_of(path) for path in MODULES}
    assert parts == set(RANK)


def test_no_module_is_named_for_nothing() -> None:
    vague = {"base", "common", "core", "helpers", "manager", "misc", "tools", "utils"}
    assert not [path for path in MODULES if path.stem in vague]


@pytest.mark.parametrize(
    ("module", "unwanted"),
    [
        ("booklet.cli", ("PIL", "jinja2", "markdown", "pydantic", "weasyprint", "yaml")),
        ("booklet.account", ("PIL", "jinja2", "markdown", "weasyprint")),
    ],
)
def test_what_comes_at_once_loads_nothing_heavy(module: str, unwanted: tuple[str, ...]) -> None:
    script = f"import sys, {module}; print(*(set({unwanted!r}) & set(sys.modules)))"
    ran = subprocess.run([sys.executable, "-c", script], capture_output=True, text=True, check=True)
    assert ran.stdout.split() == []
