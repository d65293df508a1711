"""The front matter: facts, places, and a finding for everything that is not one."""

import json
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from booklet.findings import Finding
from booklet.model.measure import Length
from booklet.model.pattern import Publisher
from booklet.reading.front_matter import SCHEMA_FILE, front_matter_schema, write_schema
from booklet.reading.pattern import read_pattern
from booklet.source import SourceFile

from .conftest import Read

FULL = """title: Tideline Lap Blanket
summary: >
  A lap blanket
  in two colours.
designer: Wren Aldercott
for: adult
kind: Blanket
level: easy
terms: UK
version: 1.10
date: 2026-03-14
tension:
  moss: 16 sts and 17 rows = 10 cm in moss stitch, 5 mm hook, blocked
  rib: {sts: 20, rows: 14, over: 10 cm, in: rib}
yarn: {weight: 4 Medium, fiber: wool, ball: 100 g = 200 m, care: hand wash}
colors:
  A: {name: Fog, shade: "#c9ced2"}
  MC: "Kelp #abc"
sizes:
  Cot: {width: 70 cm, length: 90 cm}
  Lap: {width: 37½ in, length: 120 cm}
hooks: {body: 5 mm, edging: 4 mm}
notions: yarn needle, 4 stitch markers
numbers:
  panel: {measure: width / 2, gauge: moss, multiple: 2 + 1}
  start: 77 (83)
  same: 12
  both: [10, 14]
  wide: panel * 3 + 2
swatch: {sts: 32, rows: 34, weight: 21 g, in: moss}
margin: 15 %
special stitches:
  Shell (sh): 5 dc in next st.
abbreviations: {patt: pattern}
counts as: {ch-3: dc, ch 1: no}
has: [cord 40 cm, fringe]
paper: A4
units: imperial first"""


def told(findings: tuple[Finding, ...]) -> list[tuple[str, int, int]]:
    return [(f.code, f.span.line, f.span.column) for f in findings]


def test_a_title_alone_is_a_pattern(read: Read) -> None:
    pattern, findings = read("title: Harbour Square")
    assert findings == ()
    assert (pattern.title, pattern.slug, pattern.size_names) == ("Harbour Square", "harbour-square", ("",))
    assert (pattern.margin, pattern.papers, pattern.units_first) == (0.1, ("A4", "Letter"), "metric")


def test_all_facts_of_a_full_front_matter(read: Read) -> None:
    pattern, findings = read(FULL)
    assert findings == ()
    assert (pattern.summary, pattern.kind, pattern.terms) == ("A lap blanket in two colours.", "blanket", "UK")
    assert (pattern.version, pattern.date) == ("1.10", "2026-03-14")
    assert [size.name for size in pattern.sizes] == ["Cot", "Lap"]
    assert pattern.sizes[1].measures == {"width": Length(37.5, "in"), "length": Length(120, "cm")}
    moss, rib = pattern.gauges
    assert (moss.name, moss.sts, moss.rows, moss.stitch, moss.hook_mm, moss.blocked) == (
        "moss",
        16,
        17,
        "moss stitch",
        5,
        True,
    )
    assert (rib.name, rib.sts_per_cm, rib.rows_per_cm, rib.stitch) == ("rib", 2.0, 1.4, "rib")
    yarn = pattern.yarn
    assert (yarn.weight, yarn.weight_name, yarn.fibre, yarn.ball_grams, yarn.ball_metres) == (
        4,
        "Medium",
        "wool",
        100,
        200,
    )
    assert [(c.letter, c.name, c.shade) for c in pattern.colours] == [
        ("A", "Fog", "#c9ced2"),
        ("MC", "Kelp", "#aabbcc"),
    ]
    assert [(h.mm, h.use) for h in pattern.hooks] == [(5, "body"), (4, "edging")]
    assert pattern.notions == ("yarn needle", "4 stitch markers")
    rules = {rule.name: rule for rule in pattern.numbers}
    assert (rules["panel"].measure, rules["panel"].gauge, rules["panel"].multiple, rules["panel"].plus) == (
        "width / 2",
        "moss",
        2,
        1,
    )
    assert [rules[name].values for name in ("start", "same", "both")] == [(77, 83), (12,), (10, 14)]
    assert rules["wide"].formula == "panel * 3 + 2"
    assert (pattern.swatch.sts, pattern.swatch.grams, pattern.swatch.stitch) == (32, 21, "moss")
    assert pattern.special_stitches[0].abbreviation == "sh"
    assert pattern.counts_as == {"ch 3": True, "ch 1": False}
    assert (pattern.has, pattern.margin, pattern.papers, pattern.units_first) == (
        ("cord 40 cm", "fringe"),
        0.15,
        ("A4",),
        "imperial",
    )


def test_facts_point_at_their_own_words(read: Read) -> None:
    pattern, _ = read(FULL)
    assert pattern.gauges[0].span.text.startswith("16 sts and 17 rows")
    assert pattern.sizes[1].span.text == "Lap"
    assert pattern.colours[0].span.text == "A"
    assert [rule.span.text for rule in pattern.numbers][1:3] == ["77 (83)", "12"]


@pytest.mark.parametrize(
    ("front", "code", "line", "column", "fix"),
    [
        ("levle: easy", "unknown-key", 3, 1, 'write "level"'),
        ("gauge: {sts: 16, ovre: 10 cm}", "unknown-key", 3, 18, 'write "over"'),
        ("level: beginner", "wrong-value", 3, 8, 'write "basic"'),
        ("for: babby", "wrong-value", 3, 6, 'write "baby"'),
        ("terms: French", "wrong-value", 3, 8, ""),
        ("date: 14 March", "wrong-value", 3, 7, ""),
        ("sizes: {Cot: {width: 70}}", "missing-unit", 3, 22, 'write "70 cm" or "70 in"'),
        ("sizes: [S, S]", "wrong-value", 3, 8, ""),
        ("hook: H-8", "wrong-value", 3, 7, ""),
        ("hooks: [5 mm, 4]", "missing-unit", 3, 15, 'write "4 mm"'),
        ("margin: 10", "missing-unit", 3, 9, 'write "10 %"'),
        ("gauge: 16 sts = 10", "missing-unit", 3, 8, 'write "10 cm" or "10 in"'),
        ("yarn: {weight: 4 Light}", "wrong-value", 3, 16, 'write "3 Light" or "4 Medium"'),
        ("yarn: {ball: 100 g = 200 m (240 yd)}", "label-disagrees", 3, 14, 'write "219 yd", or "200 m" alone'),
        ("yarn: wool", "wrong-value", 3, 7, ""),
        ("swatch: {sts: 32, rows: 34}", "wrong-value", 3, 9, 'add "weight: ..."'),
        (
            "numbers: {start: 77 (83, 89)}\nsizes: [S, M, L]",
            "yaml-syntax",
            3,
            18,
            'write "77 (83, 89)" with the quotes',
        ),
        (
            "gauge: {moss: 16 sts, 17 rows = 10 cm, rib: 9 sts = 10 cm}",
            "yaml-syntax",
            3,
            15,
            'write "16 sts, 17 rows = 10 cm" with the quotes',
        ),
        ("hooks: [5 mm (H, 8), 4 mm]", "yaml-syntax", 3, 9, 'write "5 mm (H, 8)" with the quotes'),
        ("numbers:\n  start: 77 (83, 89)", "size-count-differs", 4, 10, 'add "sizes:" with one name for each number'),
        ("numbers: {my number: 7}", "wrong-value", 3, 11, 'write "my_number"'),
        ("numbers: {start: {multiple: 2}}", "wrong-value", 3, 18, ""),
        ("numbers: {start: {measure: 9 cm, multiple: two}}", "wrong-value", 3, 44, ""),
        ("colours: {A: {name: Fog, shade: grey}}", "wrong-value", 3, 33, ""),
        ("colours: {A: {name: Fog, shade: #c9ced2}}", "value-in-comment", 3, 33, 'write "#c9ced2" with the quotes'),
        ("colours: {A: Fog}", "missing-shade", 3, 14, 'write {name: Fog, shade: "#d8d2c4"} with the right shade'),
        ("colours: {main one: 'Fog #c9ced2'}", "wrong-value", 3, 11, ""),
        ("counts as: {ch 3: sometimes}", "wrong-value", 3, 19, ""),
        ("notions: {needle: 1}", "wrong-value", 3, 10, ""),
        ("gauge: 16 sts = 10 cm\ntension: 17 sts = 10 cm", "yaml-duplicate-key", 4, 1, "delete one of the two"),
        ("level: easy\nlevel: basic", "yaml-duplicate-key", 4, 1, "delete one of the two"),
        ("summary: one: two", "yaml-syntax", 3, 13, 'write summary: "one: two"'),
        ("care: no", "yaml-trap", 3, 7, 'write "no" with the quotes'),
        ("cover: ../secret.png", "missing-picture", 3, 8, ""),
        ("has: [fringe, smal parts]", "unknown-hazard", 3, 15, 'write "small parts"'),
        ("has: glow", "unknown-hazard", 3, 6, "say it in the notes if it needs care"),
        ("images: [a.png]", "missing-picture", 3, 10, ""),
    ],
)
def test_error_one_mistake_is_one_finding_at_its_own_place(
    read: Read, front: str, code: str, line: int, column: int, fix: str
) -> None:
    _, findings = read(front)
    assert told(findings) == [(code, line, column)]
    assert findings[0].fix == fix
    assert findings[0].expected
    assert len(findings[0].message) <= 90
    assert not findings[0].message.endswith(".")


def test_error_every_mistake_is_told_in_one_run_and_the_rest_is_kept(read: Read) -> None:
    pattern, findings = read(
        "level: hard\nterms: UK\nsizes: {S: {width: 70}, M: {width: 80 cm}}\nhook: 5\nmargin: 12 %"
    )
    assert {(f.code, f.span.line) for f in findings} == {("wrong-value", 3), ("missing-unit", 5), ("missing-unit", 6)}
    assert (pattern.terms, pattern.margin) == ("UK", 0.12)
    assert [(s.name, len(s.measures)) for s in pattern.sizes] == [("S", 0), ("M", 1)]


def test_a_misspelt_key_is_read_as_the_one_that_was_meant(read: Read) -> None:
    pattern, _ = read("guage: 16 sts = 10 cm\ncolours: {A: {nmae: Fog, shade: '#c9ced2'}}")
    assert pattern.gauges[0].sts == 16
    assert pattern.colours[0].name == "Fog"


def test_keys_without_values_are_not_there_yet(read: Read) -> None:
    pattern, findings = read("yarn:\nsizes:\nlevel:\ncare: ~")
    assert findings == ()
    assert (pattern.yarn, pattern.sizes, pattern.level) == (None, (), "")


@pytest.mark.parametrize(
    ("text", "line", "fix"),
    [
        ("---\nlevel: easy\n---\n", 1, 'write "title: Harbour Hat" below the first ---'),
        ("---\nlevel: easy\ntitle:\n---\n", 3, 'write "title: Harbour Hat" below the first ---'),
        ("# Gull\n\nRow 1: Sc.\n", 1, 'write three lines at the top: ---, then "title: Gull", then ---'),
    ],
)
def test_error_a_missing_title(text: str, line: int, fix: str) -> None:
    pattern, findings = read_pattern(SourceFile("gull-hat.md", text), Publisher())
    finding = next(f for f in findings if f.code == "missing-title")
    assert (pattern.title, finding.span.line, finding.fix) == ("Gull hat", line, fix)


def test_an_empty_source_is_no_pattern() -> None:
    pattern, (finding,) = read_pattern(SourceFile("gull.md", " \n"), Publisher())
    assert (pattern, finding.code) == (None, "source-unreadable")


def test_a_pattern_without_rows_says_so_unless_it_is_a_guide(read: Read) -> None:
    _, findings = read("level: easy", body="Some prose.\n")
    assert [f.code for f in findings] == ["no-rows"]
    assert read("kind: guide", body="Some prose.\n")[1] == ()


def test_the_publisher_fills_in_what_the_pattern_leaves_open(read: Read) -> None:
    house = Publisher(
        name="Lantern Lane",
        contact="a@b.example",
        licence="Be kind.",
        margin=0.2,
        papers=("Letter",),
        units_first="imperial",
    )
    pattern, _ = read("level: easy", house)
    assert (pattern.licence, pattern.margin, pattern.papers, pattern.units_first) == (
        "Be kind.",
        0.2,
        ("Letter",),
        "imperial",
    )
    pattern, _ = read("licence: All yours.\nmargin: 5 %\ncontact: c@d.example", house)
    assert (pattern.licence, pattern.margin) == ("All yours.", 0.05)
    assert (pattern.publisher.name, pattern.publisher.contact) == ("Lantern Lane", "c@d.example")


def test_pictures_are_found_in_the_pattern_s_own_folder_only(read: Read, tmp_path: Path) -> None:
    (tmp_path / "square.png").write_bytes(b"")
    (tmp_path / "notes.txt").write_bytes(b"")
    outside = tmp_path.parent / f"{tmp_path.name}-outside.png"
    outside.write_bytes(b"")
    (tmp_path / "link.png").symlink_to(outside)
    (tmp_path / "loop.png").symlink_to(tmp_path / "loop.png")
    pattern, findings = read("cover: {file: square.png, alt: A square}")
    assert (pattern.cover.file, pattern.cover.alt, findings) == ("square.png", "A square", ())
    assert told(read("cover: square.png")[1]) == [("missing-alt", 3, 8)]
    for name in (
        "link.png",
        "loop.png",
        f"../{outside.name}",
        str(outside),
        "notes.txt",
        ".",
        "Square.png",
        '"a\\0b.png"',
    ):
        pattern, findings = read(f"cover: {name}")
        assert pattern.cover is None
        assert [f.code for f in findings] == ["missing-picture"]
    assert read("cover: sqare.png")[1][0].fix == 'write "square.png"'


def test_the_schema_file_is_the_generated_schema(tmp_path: Path) -> None:
    assert json.loads(SCHEMA_FILE.read_text(encoding="utf-8")) == front_matter_schema()
    write_schema(tmp_path / "schema.json")
    assert (tmp_path / "schema.json").read_bytes() == SCHEMA_FILE.read_bytes()


def test_the_schema_knows_every_key_and_its_other_words() -> None:
    schema = front_matter_schema()
    assert schema["required"] == ["title"]
    assert not schema["additionalProperties"]
    assert {"gauge", "tension", "colours", "colors", "counts as", "for", "licence", "license"} <= set(
        schema["properties"]
    )
    assert "fiber" in schema["$defs"]["YarnForm"]["properties"]


LINES = FULL.split("\n")


@settings(max_examples=60)
@given(
    st.lists(
        st.tuples(
            st.integers(0, len(LINES) - 1),
            st.integers(0, 40),
            st.sampled_from([":", "{", "]", '"', "#", "x", " ", "\t", "\n", "-9", "[", "&", "0"]),
        ),
        min_size=1,
        max_size=4,
    )
)
def test_no_slip_of_the_pen_raises(slips: list[tuple[int, int, str]]) -> None:
    lines = list(LINES)
    for line, at, letter in slips:
        lines[line] = lines[line][:at] + letter + lines[line][at + 1 :]
    text = "---\n" + "\n".join(lines) + "\n---\nRow 1: Sc.\n"
    pattern, findings = read_pattern(SourceFile("x.md", text), Publisher())
    assert pattern is not None
    assert all(0 <= f.span.start <= f.span.end <= len(text) for f in findings)
