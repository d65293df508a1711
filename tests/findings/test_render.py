"""Findings as text: the whole rendering is asserted, carets included."""

from pathlib import Path

import pytest

from booklet.findings import Finding, Note, error, warning
from booklet.findings.render import (
    has_errors,
    list_as_json,
    order_findings,
    render_brief,
    render_closing,
    render_full,
)
from booklet.source import SourceFile, Span


def place(file: SourceFile, words: str, nth: int = 0) -> Span:
    start = -1
    for _ in range(nth + 1):
        start = file.text.index(words, start + 1)
    return file.span(start, start + len(words))


@pytest.fixture
def hat() -> SourceFile:
    rows = ["Rnd 2: 2 sc in each st around. (12)", "Rnd 3: (Sc in next st, inc) 5 times. (18)"]
    return SourceFile("content/harbour-hat/pattern.md", "\n" * 40 + "\n".join(rows) + "\n", Path())


def test_full_form_of_a_count_that_does_not_follow(hat: SourceFile) -> None:
    finding = error(
        "count-mismatch",
        "Rnd 3 makes 15 stitches, but the row says 18",
        place(hat, "(18)"),
        label="the row says 18",
        notes=(
            Note(place(hat, "(12)"), "Rnd 2 leaves 12 stitches to work into"),
            Note(place(hat, "(Sc in next st, inc) 5 times"), "5 × (1 + 2) = 15, and uses 10 of the 12"),
        ),
        expected="a round that uses all 12 stitches of Rnd 2; 18 stitches is 6 repeats",
        fix='write "6 times"',
        sizes=("S", "M"),
    )
    assert render_full(finding) == (
        "content/harbour-hat/pattern.md:42:38: error[count-mismatch]: Rnd 3 makes 15 stitches, but the row says 18\n"
        "\n"
        "  41 | Rnd 2: 2 sc in each st around. (12)\n"
        "     |                                ---- Rnd 2 leaves 12 stitches to work into\n"
        "  42 | Rnd 3: (Sc in next st, inc) 5 times. (18)\n"
        "     |        ---------------------------- 5 × (1 + 2) = 15, and uses 10 of the 12\n"
        "     |                                      ^^^^ the row says 18\n"
        "\n"
        "   sizes     S, M\n"
        "   expected  a round that uses all 12 stitches of Rnd 2; 18 stitches is 6 repeats\n"
        '   fix       write "6 times"'
    )


def test_lines_left_out_between_two_places_are_told() -> None:
    file = SourceFile("a.md", "title: One\nx\nx\ntitle: Two\n")
    finding = error(
        "yaml-duplicate-key",
        "title is given twice",
        place(file, "title", 1),
        notes=(Note(place(file, "title"), "first"),),
    )
    assert render_full(finding).splitlines()[2:] == [
        "   1 | title: One",
        "     | ----- first",
        " ...",
        "   4 | title: Two",
        "     | ^^^^^",
    ]


def test_a_place_over_several_lines_is_marked_on_the_first_and_the_last() -> None:
    file = SourceFile("a.md", "Row 1: Sc in\n  each st\n  across.\n")
    finding = warning("x", "m", file.span(7, len(file.text) - 1), label="all of it")
    assert render_full(finding).splitlines()[2:] == [
        "   1 | Row 1: Sc in",
        "     |        ^^^^^",
        " ...",
        "   3 |   across.",
        "     |   ^^^^^^^ all of it",
    ]


def test_tabs_wide_and_combining_characters_keep_the_marks_in_place() -> None:
    file = SourceFile("a.md", "\tRow\t1: 編み e\u0301 12\n")
    finding = error("x", "m", place(file, "12"), notes=(Note(place(file, "編み"), "wide"),))
    assert render_full(finding).splitlines()[2:] == [
        "   1 |     Row 1: 編み e\u0301 12",
        "     |            ---- wide",
        "     |                   ^^",
    ]


def test_control_characters_never_reach_the_terminal() -> None:
    file = SourceFile("a\x1b[31m.md", "Row 1: \x1b[2J sc \u202e12\n")
    finding = error("x", "says \x1b]0;t\x07", place(file, "sc"), label="\x9b", fix="write \x1b")
    assert not set(render_full(finding)) & {"\x1b", "\x07", "\x9b", "\u202e"}


@pytest.mark.parametrize("width", [40, 60, 100])
@pytest.mark.parametrize("at", [0, 150, 290])
def test_a_long_line_is_shown_through_a_window_round_its_mark(width: int, at: int) -> None:
    text = "".join(f"{number:03} " for number in range(75))[:298]
    file = SourceFile("a.md", f"{text}\n")
    finding = error("x", "m", file.span(at, at + 3), label="a few words that say what is wrong here, at length")
    headline, blank, source, *marks = render_full(finding, width).splitlines()
    assert (headline, blank) == (f"a.md:1:{at + 1}: error[x]: m", "")
    assert max(map(len, [source, *marks])) <= width
    start = marks[0].index("^")
    shown = source[start : start + marks[0].count("^")]
    assert shown == text[at : at + 3]
    words = " ".join(line[7:].replace("^", "").strip() for line in marks)
    assert " ".join(words.split()) == finding.label


def test_two_far_places_on_one_long_line_get_a_window_each() -> None:
    file = SourceFile("a.md", "a" * 10 + " first " + "b" * 300 + " last\n")
    finding = error("x", "m", place(file, "last"), notes=(Note(place(file, "first"), "cause"),))
    lines = render_full(finding, 60).splitlines()[2:]
    assert [line for line in lines if "first" in line or "last" in line] == [lines[0], lines[2]]
    assert lines[0].endswith("…")
    assert lines[2].startswith("   1 | …")


def test_a_note_in_another_file_stands_under_its_path() -> None:
    file, house = SourceFile("a.md", "margin: 10\n"), SourceFile("content/house.yaml", "margin: 5 %\n")
    finding = error("x", "m", place(file, "10"), notes=(Note(place(house, "5 %"), "the house says"),))
    assert render_full(finding).splitlines()[2:] == [
        "   1 | margin: 10",
        "     |         ^^",
        "    in content/house.yaml",
        "   1 | margin: 5 %",
        "     |         --- the house says",
    ]


def test_a_finding_about_a_whole_file_shows_no_line() -> None:
    finding = error("source-unreadable", "there is no such file", SourceFile("no.md", "").whole(), fix="check the name")
    assert render_full(finding) == (
        "no.md:1:1: error[source-unreadable]: there is no such file\n\n   fix       check the name"
    )


def test_paint_is_given_the_role_of_each_piece() -> None:
    file = SourceFile("a.md", "sc dc\n")
    finding = error("x", "m", place(file, "sc"), notes=(Note(place(file, "dc"), "n"),))
    roles: list[str] = []

    def note_role(text: str, role: str) -> str:
        roles.append(role)
        return text

    render_full(finding, paint=note_role)
    assert roles == ["error", "margin", "margin", "secondary", "margin", "primary"]


def test_findings_stand_in_order_and_are_told_once() -> None:
    first, second = SourceFile("a.md", "one two\n"), SourceFile("b.md", "one\n")

    def at(file: SourceFile, word: str, code: str = "x", sizes: tuple[str, ...] = ()) -> Finding:
        return error(code, "m", place(file, word), sizes=sizes)

    found = [
        at(second, "one"),
        at(first, "two", sizes=("S",)),
        at(first, "two", sizes=("M", "S")),
        at(first, "one", "b"),
        at(first, "one", "a", sizes=("S",)),
        at(first, "one", "a"),
    ]
    assert [(f.span.file.path, f.code, f.span.start, f.sizes) for f in order_findings(found)] == [
        ("a.md", "a", 0, ()),
        ("a.md", "b", 0, ()),
        ("a.md", "x", 4, ("S", "M")),
        ("b.md", "x", 0, ()),
    ]


def test_brief_and_json_forms() -> None:
    file = SourceFile("a.md", "one\ntwo\n")
    finding = warning("x", "m", place(file, "two"), sizes=("S",), expected="e", fix="f")
    assert render_brief(finding) == "a.md:2:1: warning[x]: m"
    assert list_as_json([finding]) == [
        {
            "code": "x", "severity": "warning", "file": "a.md", "line": 2, "column": 1,
            "message": "m", "sizes": ["S"], "expected": "e", "fix": "f",
        }
    ]  # fmt: skip


def test_closing_line_counts_in_words() -> None:
    a, b = SourceFile("a.md", "x").whole(), SourceFile("b.md", "x").whole()
    errors = [error("x", "m", a), error("x", "m", b), error("y", "m", a)]
    assert render_closing([*errors, warning("z", "m", a)], "nothing was written") == (
        "3 errors and 1 warning in 2 files; nothing was written"
    )
    assert render_closing([warning("z", "m", a)]) == "1 warning in 1 file"
    assert render_closing([]) == "nothing wrong was found"
    assert has_errors(errors)
    assert not has_errors([warning("z", "m", a)])
    assert has_errors([warning("z", "m", a)], strict=True)
