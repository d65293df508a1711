"""Rows of a text as trees."""

from collections.abc import Callable

import pytest

from booklet.model.parsed import ParsedPattern, Row
from booklet.model.pattern import Publisher
from booklet.reading.pattern import read_pattern
from booklet.rows.parts import parse_pattern
from booklet.sizing.numbers import size_pattern
from booklet.source import SourceFile

Parse = Callable[..., Row]


def parse_source(text: str) -> ParsedPattern:
    """The whole source, read, sized and parsed."""
    pattern, _ = read_pattern(SourceFile("case.md", text), Publisher())
    assert pattern is not None
    sized, _ = size_pattern(pattern)
    parsed, _ = parse_pattern(sized)
    return parsed


@pytest.fixture
def parse() -> Parse:
    """The one row of a line, label included; `sizes` and `terms` as the front matter writes them."""

    def parse_line(line: str, sizes: str = "", terms: str = "US") -> Row:
        front = f"title: Case\nterms: {terms}\n" + (f"sizes: {sizes}\n" if sizes else "")
        (part,) = parse_source(f"---\n{front}---\n\n{line}\n").parts
        (row,) = part.rows
        return row

    return parse_line


@pytest.fixture
def parse_all() -> Callable[[str], ParsedPattern]:
    return parse_source
