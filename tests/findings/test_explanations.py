"""Every code that can be found is explained, and every explanation is true."""

import ast
from collections.abc import Iterator
from pathlib import Path

import pytest

from booklet.findings.explain import explain, list_codes, read_explanation, suggest_codes
from booklet.pipeline import prove_text

PACKAGE = Path(__file__).parents[2] / "booklet"


def list_raised() -> Iterator[tuple[str, str]]:
    """Code and severity of every finding that the package makes: `error("…"` and `warning("…"`."""
    for path in PACKAGE.rglob("*.py"):
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id in ("error", "warning"):
                first = node.args[0] if node.args else None
                if isinstance(first, ast.Constant) and isinstance(first.value, str):
                    yield first.value, node.func.id


def list_words() -> Iterator[str]:
    """Every whole string in the package: a code may travel to its `error(` through a variable."""
    for path in PACKAGE.rglob("*.py"):
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if isinstance(node, ast.Constant) and isinstance(node.value, str):
                yield node.value


RAISED = dict(list_raised())
WORDS = set(list_words())


def test_every_code_is_explained() -> None:
    assert sorted(set(RAISED) - set(list_codes())) == []


def test_every_explanation_is_of_a_code_that_is_found() -> None:
    assert sorted(set(list_codes()) - WORDS) == []


def test_a_code_has_one_severity() -> None:
    assert len(set(list_raised())) == len(RAISED)


@pytest.mark.parametrize("code", list_codes())
def test_an_explanation_has_the_fixed_form(code: str) -> None:
    explanation = read_explanation(code)
    assert explanation.severity.value == RAISED.get(code, explanation.severity.value)
    for heading, text in explanation.sections.items():
        assert text.strip(), heading


WITH_EXAMPLES = [code for code in list_codes() if read_explanation(code).source_under("Example") is not None]


@pytest.mark.parametrize("code", WITH_EXAMPLES)
def test_the_example_raises_the_code_and_the_other_does_not(code: str, tmp_path: Path) -> None:
    explanation = read_explanation(code)
    example, instead = explanation.source_under("Example"), explanation.source_under("Write instead")
    assert example is not None
    assert instead is not None
    name = str(tmp_path / "pattern.md")
    assert code in {finding.code for finding in prove_text(example, name).findings}
    assert code not in {finding.code for finding in prove_text(instead, name).findings}


@pytest.mark.parametrize("code", WITH_EXAMPLES)
def test_what_to_write_instead_has_no_error(code: str, tmp_path: Path) -> None:
    instead = read_explanation(code).source_under("Write instead")
    assert instead is not None
    findings = prove_text(instead, str(tmp_path / "pattern.md")).findings
    assert [finding.message for finding in findings if finding.severity.value == "error"] == []


def test_error_an_unknown_code_is_answered_with_those_near_it() -> None:
    with pytest.raises(KeyError):
        explain("pango-mising")
    assert suggest_codes("pango-mising")[0] == "pango-missing"
    assert "glyph-missing" in suggest_codes("Glyph Missing")
    assert suggest_codes("zzz") == ()
