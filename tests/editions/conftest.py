"""The demo patterns and the sized ones of tests/patterns, proved once, on their way to editions."""

from functools import cache
from pathlib import Path

import pytest

from booklet.editions.commission import Commission, take_commission
from booklet.pages.theme import load_theme
from booklet.pipeline import Proof, list_sources, prove_file

ROOT = Path(__file__).parents[2]
DEMOS = list_sources([str(ROOT / "content")])
SOUND = [str(path) for path in sorted((ROOT / "tests/patterns/sound").glob("*.md"))]


@cache
def prove_once(source: str) -> Proof:
    return prove_file(source)


@cache
def commission_once(source: str, terms: str = "") -> Commission:
    """The commission without pictures, which take long and hold no rows."""
    proof = prove_once(source)
    assert proof.parsed is not None
    assert proof.worked is not None
    assert proof.amounts is not None
    theme, _ = load_theme("")
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr("booklet.editions.commission.draw_pictures", lambda *given: ((), ()))
        commission, _ = take_commission(proof.parsed, proof.worked, proof.amounts, theme, terms=terms)
    return commission


def list_sized(sources: list[str] | tuple[str, ...]) -> list[tuple[str, int]]:
    """Every source of several sizes that is sound, with each of its sizes."""
    cases = []
    for source in sources:
        proof = prove_once(source)
        if proof.pattern is not None and len(proof.pattern.size_names) > 1 and proof.worked is not None:
            cases += [(source, size) for size in range(len(proof.pattern.size_names))]
    return cases


def name_case(value: object) -> str:
    return Path(value).stem if isinstance(value, str) and value.endswith(".md") else Path(str(value)).name
