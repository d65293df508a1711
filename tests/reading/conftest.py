"""Sources for reading, written into a folder of their own."""

from collections.abc import Callable
from pathlib import Path

import pytest

from booklet.findings import Finding
from booklet.model.pattern import Pattern, Publisher
from booklet.reading.pattern import read_pattern
from booklet.source import SourceFile

ROW = "Row 1: Sc in 2nd ch from hook and in each ch across. (10 sc)\n"
Read = Callable[..., tuple[Pattern, tuple[Finding, ...]]]


@pytest.fixture
def read(tmp_path: Path) -> Read:
    """Reads a front matter (title and one row added) as a pattern in a folder of its own."""

    def read_front(
        front: str, publisher: Publisher | None = None, body: str = ROW
    ) -> tuple[Pattern, tuple[Finding, ...]]:
        title = "" if "title:" in front else "title: Harbour Square\n"
        source = SourceFile("content/harbour-square/pattern.md", f"---\n{title}{front}\n---\n\n{body}", tmp_path)
        pattern, findings = read_pattern(source, publisher or Publisher())
        assert pattern is not None
        return pattern, findings

    return read_front
