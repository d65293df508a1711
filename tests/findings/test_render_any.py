"""No text and no place in it can break the rendering of a finding."""

import unicodedata

from hypothesis import given, settings
from hypothesis import strategies as st

from booklet.findings import Note, error
from booklet.findings.render import render_brief, render_full
from booklet.source import SourceFile

TEXT = st.text(st.sampled_from(" \t\nab(12)½→編\u0301\u200d\x1b\r"), max_size=400)


def measure(line: str) -> int:
    wide = sum(unicodedata.east_asian_width(char) in "WF" for char in line)
    return len(line) + wide - sum(unicodedata.combining(char) > 0 for char in line)


@settings(deadline=None)
@given(
    text=TEXT,
    places=st.lists(st.tuples(st.integers(0, 400), st.integers(0, 400)), min_size=2, max_size=4),
    label=TEXT,
    width=st.integers(20, 120),
)
def test_a_rendering_fits_its_width_and_holds_no_control_character(
    text: str, places: list[tuple[int, int]], label: str, width: int
) -> None:
    file = SourceFile("a.md", text)
    spans = [file.span(start, start + length) for start, length in places]
    finding = error("x", label, spans[0], label=label, notes=tuple(Note(span, label) for span in spans[1:]), fix=label)
    rendered = render_full(finding, width)
    headline, _, rest = rendered.partition("\n")
    assert headline == render_brief(finding)
    assert all(measure(line) <= max(width, 40) for line in rest.split("\n"))
    assert not set(rendered) & set("\x1b\r\t\u200d")
