"""What README.md, DEVELOPERS.md and CHANGES.md say is so: sources, findings, commands, tree, tables, paths."""

import ast
import re
import shlex
import tomllib
from collections.abc import Iterator
from pathlib import Path

import click
import pytest

from booklet import __version__
from booklet.account import close_proof
from booklet.cli import FOUND, UNUSABLE, main
from booklet.findings.explain import list_codes
from booklet.findings.render import render_brief, render_closing, render_full
from booklet.pipeline import prove_text
from booklet.reading.forms import HouseForm, list_keys

ROOT = Path(__file__).parents[1]
PACKAGE = ROOT / "booklet"
README = (ROOT / "README.md").read_text(encoding="utf-8")
DEVELOPERS = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
CHANGES = (ROOT / "CHANGES.md").read_text(encoding="utf-8")
DOCUMENTS = {"README.md": README, "DEVELOPERS.md": DEVELOPERS, "CHANGES.md": CHANGES}

FENCE = re.compile(r"^(?P<ticks>`{3,})(?P<kind>\w*)\n(?P<text>.*?)^(?P=ticks)$", re.MULTILINE | re.DOTALL)
HEADING = re.compile(r"^#+ (.+)$", re.MULTILINE)


def list_blocks(text: str, heading: str, kind: str) -> list[str]:
    """The fenced blocks of a kind under a heading, up to the next one."""
    section = re.split(rf"^#+ {re.escape(heading)}$", text, flags=re.MULTILINE)[1]
    blocks = []
    for fence in FENCE.finditer(section):
        if HEADING.search(FENCE.sub("", section[: fence.start()])):
            break
        if fence["kind"] == kind:
            blocks.append(fence["text"])
    return blocks


def drop_blocks(text: str) -> str:
    return FENCE.sub("", text)


def list_table(text: str, head: str) -> list[list[str]]:
    """The cells below the table head that begins so, without the marks of code."""
    lines = text[text.index(head) :].split("\n\n")[0].strip().split("\n")[2:]
    return [[cell.strip() for cell in line.strip("|").split("|")] for line in lines]


def read_literal(name: str) -> object:
    """The value of a name assigned in tests/test_layers.py, read without importing it."""
    for node in ast.parse((ROOT / "tests/test_layers.py").read_text(encoding="utf-8")).body:
        if isinstance(node, ast.Assign) and isinstance(node.targets[0], ast.Name) and node.targets[0].id == name:
            return ast.literal_eval(node.value)
    raise AssertionError(f"tests/test_layers.py has no {name}")


# README: the pattern and its finding

(PATTERN,) = list_blocks(README, "A pattern", "markdown")
(CLEAN,) = list_blocks(README, "A pattern", "text")
(CHANGED,) = list_blocks(README, "A finding, and how to act on it", "markdown")
(SHOWN,) = list_blocks(README, "A finding, and how to act on it", "text")


def test_the_pattern_in_the_readme_proves_clean() -> None:
    proof = prove_text(PATTERN, "pebble.md")
    assert [render_full(finding) for finding in proof.findings] == []
    assert "\n".join([*close_proof(proof), render_closing(proof.findings)]) == CLEAN.rstrip("\n")
    assert len([line for line in PATTERN.split("\n") if line]) <= 20


def test_the_finding_in_the_readme_is_what_the_tool_prints() -> None:
    label = CHANGED.partition(":")[0]
    lines = [CHANGED.rstrip("\n") if line.startswith(label) else line for line in PATTERN.split("\n")]
    assert lines != PATTERN.split("\n")
    findings = prove_text("\n".join(lines), "pebble.md").findings
    assert "\n\n".join(render_full(finding) for finding in findings) == SHOWN.rstrip("\n")


# README: commands, exit codes, keys


def list_commands(text: str) -> Iterator[list[str]]:
    """Every `booklet …` in blocks of sh and in code within lines, as the words after its name."""
    shells = "\n".join(fence["text"] for fence in FENCE.finditer(text) if fence["kind"] == "sh")
    for line in shells.split("\n"):
        words = shlex.split(line, comments=True)
        if words and Path(words[0]).name == "booklet":
            yield words[1:]
    for code in re.findall(r"`booklet ([^`]+)`", drop_blocks(text)):
        yield shlex.split(code)


@pytest.mark.parametrize("document", DOCUMENTS)
def test_every_command_named_is_one(document: str) -> None:
    for words in list_commands(DOCUMENTS[document]):
        command = main if words[0].startswith("-") else main.commands[words[0]]
        if isinstance(command, click.Group) and words[1:] and not words[1].startswith("-"):
            command = command.commands[words[1]]
        options = {name for parameter in command.params for name in parameter.opts} | {"--help"}
        assert {word for word in words if word.startswith("--")} <= options, words


def test_the_readme_names_every_command_and_option() -> None:
    assert {words[0] for words in list_commands(README)} - {"--version"} == set(main.commands)
    options = {name for command in main.commands.values() for option in command.params for name in option.opts}
    assert sorted(name for name in options if name.startswith("--") and f"`{name}" not in README) == ["--json"]
    assert "booklet proof --json" in README


def test_the_codes_explained_by_example_are_codes() -> None:
    text = README + DEVELOPERS
    named = {words[1] for words in list_commands(README) if words[0] == "explain"}
    named |= set(re.findall(r"(?:error|warning)\[([a-z-]+)\]", text))
    assert named
    assert named <= set(list_codes())


def test_the_exit_codes() -> None:
    assert [row[0] for row in list_table(README, "| code |")] == ["0", str(FOUND), str(UNUSABLE)]


def test_the_keys_of_the_house_file() -> None:
    listed = README[README.index("`house.yaml` has fewer keys:") :].split(".\n")[0].split("keys:")[1]
    assert re.findall(r"`([\w ]+)`", listed) == list(list_keys(HouseForm))


# DEVELOPERS: tree, tables, flow


def read_tree() -> dict[str, str]:
    """What the tree says of each module, by its path; folders are left out."""
    (block,) = list_blocks(DEVELOPERS, "The tree", "text")
    folders: list[str] = []
    told: dict[str, str] = {}
    for line in block.rstrip("\n").split("\n"):
        name, _, words = line.strip().partition(" ")
        depth = (len(line) - len(line.lstrip())) // 2
        del folders[depth:]
        if name.endswith("/"):
            folders.append(name.rstrip("/"))
        else:
            told["/".join((*folders, name))] = words.strip()
    return told


def test_the_tree_lists_every_module_and_no_other() -> None:
    there = {path.relative_to(ROOT).as_posix() for path in PACKAGE.rglob("*.py")}
    told = read_tree()
    assert sorted(there - set(told)) == [], "modules without a line in the tree of DEVELOPERS.md"
    assert sorted(set(told) - there) == [], "lines of the tree of DEVELOPERS.md without a module"


def test_the_tree_says_something_of_each_module() -> None:
    assert [path for path, words in read_tree().items() if not words and not path.endswith("/__init__.py")] == []


def test_the_tables_of_imports_are_those_that_are_tested() -> None:
    lines = tuple(tuple(re.findall(r"`(\w+)`", row[1])) for row in list_table(DEVELOPERS, "| line |"))
    assert lines == read_literal("LAYERS")
    fences = {row[0].strip("`"): set(re.findall(r"`(\w+)`", row[1])) for row in list_table(DEVELOPERS, "| library |")}
    assert fences == read_literal("FENCES")


def test_the_passes_stand_in_the_order_in_which_they_run() -> None:
    (block,) = list_blocks(DEVELOPERS, "How the data flows", "text")
    steps = re.findall(r"^   ([a-z]+_[a-z]+) .* (\w+/\w+\.py)$", block, re.MULTILINE)
    for name, path in steps:
        assert re.search(rf"^def {name}\(", (PACKAGE / path).read_text(encoding="utf-8"), re.MULTILINE), name
    modules = [PACKAGE / "pipeline.py", *(PACKAGE / "editions").glob("*.py")]
    nodes = [node for path in modules for node in ast.walk(ast.parse(path.read_text(encoding="utf-8")))]
    imported = {alias.name for node in nodes if isinstance(node, ast.ImportFrom) for alias in node.names}
    assert {name for name, _ in steps} <= imported
    order = [name for name, _ in steps]
    functions = {node.name: node for node in nodes if isinstance(node, ast.FunctionDef)}
    called: list[str] = []
    for name in (
        "prove_file",
        "_prove",
        "prove_pattern",
        "_print_editions",
        "take_commission",
        "draw_pictures",
        "_lay",
        "set_pages",
        "make_booklet",
    ):
        calls = [node for node in ast.walk(functions[name]) if isinstance(node, ast.Call)]
        for call in sorted(calls, key=lambda call: (call.lineno, call.col_offset)):
            if isinstance(call.func, ast.Name) and call.func.id in order and call.func.id not in called:
                called.append(call.func.id)
    assert called == order


def test_the_case_shown_comes_out() -> None:
    (case,) = list_blocks(DEVELOPERS, "Cases and other tests", "markdown")
    blocks = {fence["kind"]: fence["text"] for fence in FENCE.finditer(case)}
    proof = prove_text(f"---\ntitle: Case\n---\n{blocks['rows']}", "rows")
    (told,) = [render_brief(finding) for finding in proof.findings if finding.span.line > 3]
    place, line, rest = told.split(":", 2)
    assert f"{place}:{int(line) - 3}:{rest}\n" == blocks["findings"]
    assert proof.worked is not None
    row = proof.worked.parts[0].rows[0][-1]
    assert f"{row.label}: used {row.used}, made {row.made}\n" == blocks["counts"]


# Paths and links

PATH = re.compile(r"`((?:[\w.-]+/)+[\w.-]*\.?\w*|[\w-]+\.(?:md|toml|py))`")


def exists(path: str) -> bool:
    """At the top, or in the package, where the text leaves `booklet/` out."""
    return any((folder / path).exists() for folder in (ROOT, PACKAGE, ROOT / "themes/wayside"))


# Named as what a user or a run would make, or as a word for a file.
MADE = {"pattern.md", "front-matter.json", "house.yaml", "messages.py", "fonts/", "themes/", "build/",
        "booklet/_themes", "booklet/_content", "utils"}  # fmt: skip


@pytest.mark.parametrize("document", DOCUMENTS)
def test_every_path_named_is_there(document: str) -> None:
    named = {path for path in PATH.findall(drop_blocks(DOCUMENTS[document])) if not path.startswith(".venv/")} - MADE
    assert sorted(path for path in named if not exists(path)) == []


def test_the_scripts_named_are_there() -> None:
    for text in DOCUMENTS.values():
        for script in re.findall(r"\bsh (\.ci/\w+)", text):
            assert (ROOT / script).is_file()


def drop_code(text: str) -> str:
    """The text without what stands in it as code: how a link is written is no link."""
    return re.sub(r"`[^`\n]+`", "", text)


def make_anchor(heading: str) -> str:
    """As sites that show Markdown name the place of a heading."""
    return re.sub(r"[^\w -]", "", heading.lower()).replace(" ", "-")


@pytest.mark.parametrize("document", DOCUMENTS)
def test_every_link_leads_somewhere(document: str) -> None:
    for target in re.findall(r"\]\(([^)]+)\)", drop_code(drop_blocks(DOCUMENTS[document]))):
        file, _, anchor = target.partition("#")
        assert not file or (ROOT / file).is_file(), target
        if anchor:
            headings = HEADING.findall(drop_blocks(DOCUMENTS[file or document]))
            assert anchor in {make_anchor(heading) for heading in headings}, target


def test_the_picture_is_light_and_described() -> None:
    ((words, file),) = re.findall(r"!\[([^\]]+)\]\(([^)]+)\)", drop_code(README))
    assert len(words) > 40
    assert (ROOT / file).stat().st_size < 150_000


def test_the_picture_is_made_by_code_that_runs() -> None:
    (block,) = list_blocks(DEVELOPERS, "The picture in the README", "sh")
    script = block.split("<<'PICTURE'\n")[1].rpartition("PICTURE")[0]
    compile(script, "DEVELOPERS.md", "exec")
    assert "content/four-fields-blanket/page.png" in script


def test_the_top_entry_of_the_changes_is_this_version() -> None:
    entries = re.split(r"^## ", CHANGES, flags=re.MULTILINE)[1:]
    assert entries[0].startswith(__version__)
    assert re.search(r"^- \w", entries[0], re.MULTILINE)


def test_markers_named_are_markers() -> None:
    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))
    markers = {line.partition(":")[0] for line in project["tool"]["pytest"]["ini_options"]["markers"]}
    named = set(re.findall(r'-m "not (\w+)"', DEVELOPERS))
    assert named
    assert named <= markers
