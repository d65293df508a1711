"""Rows worked in one size or several."""

from collections.abc import Callable

import pytest

from booklet.model.work import WorkedRow
from booklet.pipeline import Proof, prove_text

Work = Callable[..., list[WorkedRow]]


@pytest.fixture
def prove() -> Callable[..., Proof]:
    """A proof of rows under a title, with further lines of front matter where they are given."""

    def prove_rows(rows: str, front: str = "") -> Proof:
        return prove_text(f"---\ntitle: Case\n{front}---\n\n{rows}\n", "case.md")

    return prove_rows


@pytest.fixture
def work(prove: Callable[..., Proof]) -> Work:
    """The worked rows of the first piece in one size."""

    def work_rows(rows: str, front: str = "", size: int = 0) -> list[WorkedRow]:
        worked = prove(rows, front).worked
        assert worked is not None
        return list(worked.parts[0].rows[size])

    return work_rows
