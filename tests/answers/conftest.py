"""The demo patterns, proved once for all tests of this part."""

from collections.abc import Callable
from pathlib import Path

import pytest

from booklet.answers.supposing import Known, know
from booklet.pipeline import prove_file, prove_text

CONTENT = Path(__file__).parents[2] / "content"


def prove_sound(text: str) -> Known:
    """A sound pattern from its text."""
    known = know(prove_text(text, "small.md"))
    assert known is not None
    assert [finding.message for finding in known.proof.findings if finding.severity.value == "error"] == []
    return known


@pytest.fixture(scope="session")
def prove() -> Callable[[str], Known]:
    return prove_sound


@pytest.fixture(scope="session")
def blanket() -> Known:
    known = know(prove_file(str(CONTENT / "four-fields-blanket")))
    assert known is not None
    return known


@pytest.fixture(scope="session")
def hat() -> Known:
    known = know(prove_file(str(CONTENT / "lantern-hat")))
    assert known is not None
    return known
