"""YAML as typed, with places, within bounds."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from booklet.source import SourceFile
from booklet.source.yaml_loader import MAX_DEPTH, MAX_NODES, YamlScalar, read_yaml, walk_nodes


def read(text: str, lead: str = "---\n"):
    """The mapping and problems of a text that stands below a line of hyphens."""
    return read_yaml(SourceFile("pattern.md", lead + text + "---\n"), len(lead), len(lead) + len(text))


@pytest.mark.parametrize("word", ["no", "yes", "12:30", "010", "2026-01-02", "1e3", "1_000", "0x1F", "1.10"])
def test_a_plain_word_stays_the_text_it_is(word: str) -> None:
    mapping, _ = read(f"key: {word}\n")
    value = mapping.entry("key").value
    assert isinstance(value, YamlScalar)
    assert value.text == word


@pytest.mark.parametrize(
    ("text", "value"),
    [
        ("12", 12),
        ("-3", -3),
        ("2.5", 2.5),
        ("true", True),
        ("", None),
        ("~", None),
        ('"12"', "12"),
        ("no", "no"),
        ("9" * 5000, "9" * 5000),
    ],
)
def test_values_are_numbers_only_where_they_plainly_are(text: str, value: object) -> None:
    mapping, _ = read(f"key: {text}\n")
    assert mapping.entry("key").value.value == value


def test_places_count_from_the_start_of_the_file() -> None:
    mapping, problems = read("title: Harbour\nsizes:\n  Cot: {width: 70 cm}\n")
    width = mapping.entry("sizes").value.entry("Cot").value.entry("width")
    assert problems == ()
    assert (width.key.span.line, width.key.span.column, width.key.span.text) == (4, 9, "width")
    assert (width.value.span.line, width.value.span.column, width.value.span.text) == (4, 16, "70 cm")
    assert mapping.entry("sizes").value.entry("Cot").value.span.text == "{width: 70 cm}"


def test_error_a_key_twice_keeps_the_first() -> None:
    mapping, (problem,) = read("level: easy\nlevel: basic\n")
    assert mapping.entry("level").value.text == "easy"
    assert (problem.kind, problem.span.line, problem.other.line) == ("duplicate", 3, 2)


@pytest.mark.parametrize(
    ("text", "cause", "line", "column"),
    [
        ("title: Harbour: a hat\n", "colon in value", 2, 15),
        ('title: "open\nlevel: easy\n', "quote not closed", 2, 8),
        ("sizes: [a, b\nlevel: easy\n", "bracket not closed", 2, 8),
        ("yarn:\n\tweight: 4\n", "tab", 3, 1),
        ('title: "A" b\n', "indent", 2, 12),
        ("care: *wool\n", "alias", 2, 7),
        ("care: @home\n", "start", 2, 7),
        ("care: !!python/name:os.system x\n", "tag", 2, 7),
        ("- a\n- b\n", "no keys", 2, 1),
        ("care: \x01\n", "character", 2, 7),
        ("? [a]\n: 2\n", "key", 2, 3),
    ],
)
def test_error_broken_lines_are_named_where_they_break(text: str, cause: str, line: int, column: int) -> None:
    _, problems = read(text)
    found = problems[0]
    assert (found.kind, found.cause, found.span.line, found.span.column) == ("syntax", cause, line, column)


def test_error_one_broken_key_leaves_the_others_readable() -> None:
    mapping, problems = read("title: A: b\nlevel: easy\nyarn: [x\nterms: UK\n")
    assert [entry.key.text for entry in mapping.entries] == ["level", "terms"]
    assert [problem.span.line for problem in problems] == [2, 4]


@pytest.mark.parametrize("text", ["shade: #5b6b3a\n", "A: {name: Kelp, shade: #5b6b3a}\n", "A: Kelp #5b6b3a\n"])
def test_error_a_shade_without_quotes_is_read_and_told(text: str) -> None:
    mapping, (problem,) = read(text)
    scalars = [node.text for _, node in walk_nodes(mapping) if isinstance(node, YamlScalar)]
    assert any("#5b6b3a" in scalar for scalar in scalars)
    assert (problem.kind, problem.span.text) == ("comment", "#5b6b3a")


@pytest.mark.parametrize(
    "text", ["a: 1 # a note\n", "# shade: #5b6b3a\na: 1\n", "a: 1 # was #5b6b3a\n", 'a: "#5b6b3a"\n']
)
def test_comments_stay_comments(text: str) -> None:
    _, problems = read(text)
    assert problems == ()


@pytest.mark.parametrize(
    ("text", "taken_for"),
    [
        ("no", "true or false"),
        ("12:30", "a time in seconds"),
        ("010", "a number to the base 8"),
        ("1e3", "a power of ten"),
    ],
)
def test_traps_are_told_only_as_plain_values(text: str, taken_for: str) -> None:
    _, (problem,) = read(f"key: {text}\n")
    assert (problem.kind, problem.cause) == ("trap", taken_for)
    assert read(f'key: "{text}"\n')[1] == ()
    assert read(f'"{text}": value\n')[1] == ()


@pytest.mark.parametrize(
    ("text", "cause"),
    [
        ("a: " + "[" * 10_000 + "]" * 10_000, "too deep"),
        ("a: " + "{a: " * (MAX_DEPTH + 1), "too deep"),
        ("a: [" + "x, " * MAX_NODES + "x]", "too many values"),
        ("a: " + "x" * 100_001, "too long"),
    ],
)
def test_error_bounds_hold(text: str, cause: str) -> None:
    _, problems = read(text + "\n")
    assert problems[-1].cause == cause


@given(st.text(max_size=200))
def test_no_text_raises_and_every_place_lies_in_the_file(text: str) -> None:
    file = SourceFile("pattern.md", text)
    mapping, problems = read_yaml(file)
    spans = [problem.span for problem in problems]
    spans += [node.span for _, node in walk_nodes(mapping)] if mapping else []
    assert all(0 <= span.start <= span.end <= len(text) for span in spans)


@given(
    st.lists(
        st.sampled_from(
            [
                "a: 1",
                "b: {c: ",
                "}",
                "[",
                "]",
                '"',
                "'",
                "- x",
                "  d: e",
                "#f",
                "# g",
                "*h",
                "&i j",
                "\t",
                ": ",
                "? ",
                "|",
                ">",
                "\n",
            ]
        ),
        max_size=12,
    )
)
def test_no_jumble_of_yaml_raises(pieces: list[str]) -> None:
    text = "\n".join(pieces)
    mapping, problems = read_yaml(SourceFile("pattern.md", text))
    assert mapping is not None or problems
