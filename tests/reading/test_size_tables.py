"""Sizes that take their measures from a table: built in, in the house file, or in a file beside it."""

from pathlib import Path

import pytest

from booklet.findings import Finding
from booklet.model.pattern import Pattern
from booklet.pipeline import prove_file
from booklet.reading.grading_forms import read_changes, read_ease, read_range
from booklet.reading.quantities import UnreadError, read_extent

BANDS = """source: Ferry Street Hospital, ward list
date: 2026-03-01
sizes:
  Small: {head: 21-23 cm}
  Full term: {head: 33 cm, depth: 14 cm}
"""


def measure(pattern: Pattern, size: int, name: str) -> float:
    return pattern.sizes[size].measures[name].cm


def test_a_size_takes_the_middle_of_a_range(read) -> None:  # type: ignore[no-untyped-def]
    pattern, findings = read("sizes: {M: woman M, Mine: {from: woman l, bust: 100 cm}, Own: {bust: 1 m}}")
    assert findings == ()
    assert measure(pattern, 0, "bust") == pytest.approx(37 * 2.54)
    assert measure(pattern, 1, "bust") == 100
    assert (pattern.sizes[0].table, pattern.sizes[0].entry) == ("woman", "M")
    assert "bust" not in pattern.sizes[1].borrowed
    assert pattern.sizes[2].table == ""
    assert [table.name for table in pattern.size_tables] == ["woman"]


def test_a_table_for_all_sizes(read) -> None:  # type: ignore[no-untyped-def]
    pattern, findings = read("size table: heads\nsizes: [Baby, Toddler]")
    assert findings == ()
    assert [measure(pattern, at, "head") for at in (0, 1)] == pytest.approx([14 * 2.54, 16 * 2.54])


@pytest.mark.parametrize(
    ("front", "code", "fix"),
    [
        ("sizes: {M: womn M}", "unknown-size-table", 'write "woman"'),
        ("size table: hat bands\nsizes: [S]", "unknown-size-table", 'write "hats"'),
        ("sizes: {M: woman MM}", "unknown-table-size", 'write "from: woman M"'),
        ("size table: heads\nsizes: [Grown]", "unknown-table-size", ""),
        ("sizes: {M: {width: 70}}", "missing-unit", 'write "70 cm" or "70 in"'),
        ("size tables: {hats: ../hats.yaml}", "size-table-unreadable", "correct the name, or write the table out here"),
        ("size tables: {hats: {source: us}}", "wrong-value", ""),
    ],
)
def test_error_tables_that_cannot_be_used(read, front: str, code: str, fix: str) -> None:  # type: ignore[no-untyped-def]
    _, findings = read(front)
    assert [finding.code for finding in findings] == [code]
    assert findings[0].fix == fix


def prove(folder: Path, house: str, front: str) -> tuple[Pattern, tuple[Finding, ...]]:
    (folder / "house.yaml").write_text(house)
    (folder / "hat").mkdir()
    (folder / "hat" / "pattern.md").write_text(f"---\ntitle: Hat\n{front}\n---\n\nCh 11.\n")
    proof = prove_file(str(folder / "hat"))
    assert proof.pattern is not None
    told = [f for f in proof.findings if f.span.file.path.endswith(".yaml") or f.code.startswith(("unk", "size"))]
    return proof.pattern, tuple(told)


def test_a_publishers_table_takes_the_place_of_a_built_in_one(tmp_path: Path) -> None:
    table = "".join(f"    {line}\n" for line in BANDS.splitlines())
    pattern, findings = prove(
        tmp_path, f"size tables:\n  hats:\n{table}", "size table: hats\nsizes: [Small, Full term]"
    )
    assert findings == ()
    assert [measure(pattern, at, "head") for at in (0, 1)] == [22, 33]
    (used,) = pattern.size_tables
    assert (used.is_own, used.source, used.date) == (True, "Ferry Street Hospital, ward list", "2026-03-01")
    assert pattern.sizes[0].borrowed["head"].source == "Ferry Street Hospital, ward list, 2026-03-01"


def test_a_table_in_a_file_beside_the_house_file(tmp_path: Path) -> None:
    (tmp_path / "bands.yaml").write_text(BANDS)
    pattern, findings = prove(tmp_path, "size tables: {ward: bands.yaml}", "sizes: {A: ward small}")
    assert findings == ()
    assert measure(pattern, 0, "head") == 22


@pytest.mark.parametrize(
    ("text", "code"),
    [
        ("sizes:\n  Small: {head: 22 cm}\n", "size-table-unsourced"),
        (BANDS.replace("21-23 cm", "23-21 cm"), "wrong-value"),
        (BANDS.replace("21-23 cm", "22"), "missing-unit"),
        ("source: us\ndate: 2026\n", "wrong-value"),
        ("\x00", "yaml-syntax"),
        ("a: [", "yaml-syntax"),
    ],
)
def test_error_a_file_that_is_no_table(tmp_path: Path, text: str, code: str) -> None:
    (tmp_path / "bands.yaml").write_text(text)
    _, findings = prove(tmp_path, "size tables: {ward: bands.yaml}", "sizes: [A]")
    assert code in [finding.code for finding in findings]


def test_error_a_file_that_is_not_there(tmp_path: Path) -> None:
    _, findings = prove(tmp_path, "size tables: {ward: bands.yaml}", "sizes: {A: ward A}")
    assert {finding.code for finding in findings} == {"size-table-unreadable", "unknown-size-table"}


@pytest.mark.parametrize(
    ("text", "cm", "share"),
    [
        ("5 cm", 5, 0),
        ("+2 in", 5.08, 0),
        ("-1 in", -2.54, 0),
        ("−5 %", 0, -0.05),
        ("10 percent", 0, 0.1),
        ("minus 2½ cm", -2.5, 0),
        ("5 cm negative ease", -5, 0),
        ("none", 0, 0),
    ],
)
def test_ease(text: str, cm: float, share: float) -> None:
    ease = read_ease(text)
    assert (ease.cm, ease.share) == pytest.approx((cm, share))


@pytest.mark.parametrize("text", ["5", "a little", "5 kg", ""])
def test_error_ease(text: str) -> None:
    with pytest.raises(UnreadError):
        read_ease(text)


def test_ranges_and_extents_and_changes() -> None:
    assert [length.cm for length in read_range("8¾ to 9½ in")] == pytest.approx([22.225, 24.13])
    assert [length.cm for length in read_range("22 cm")] == [22, 22]
    assert [length.cm for length in read_extent("14 x 16 cm")] == [14, 16]
    assert [length.cm for length in read_extent("5½ in by 6 in")] == pytest.approx([13.97, 15.24])
    assert [read_changes(words) for words in ("each end", "at one end", "4 sts", "3")] == [2, 1, 4, 3]


@pytest.mark.parametrize("text", ["0", "both", ""])
def test_error_changes(text: str) -> None:
    with pytest.raises(UnreadError):
        read_changes(text)


def test_a_swatch_gives_the_gauge_where_none_is_stated(read) -> None:  # type: ignore[no-untyped-def]
    pattern, findings = read("swatch: {sts: 24, rows: 26, stitch: moss, after: 15 x 16 cm, weight: 20 g}")
    assert findings == ()
    (gauge,) = pattern.gauges
    assert (gauge.name, gauge.sts, gauge.rows, gauge.blocked) == ("moss", 16, 16.25, True)
    inches, _ = read("swatch: {sts: 21, rows: 24, before: 6 x 6 in}")
    assert (inches.gauges[0].sts, inches.gauges[0].rows, inches.gauges[0].over.amount) == pytest.approx((14, 16, 4))


def test_several_swatches_and_motif_gauges(read) -> None:  # type: ignore[no-untyped-def]
    pattern, findings = read(
        "gauge: {moss: 16 sts and 18 rows = 10 cm, square: '1 square = 11 cm, 5 mm hook', "
        "flower: Rnds 1-4 = 4 in (10 cm) across}\n"
        "swatch: {moss: {sts: 24, rows: 26, after: 15 x 16 cm}, square: {sts: 9, rows: 9, weight: 12 g}}"
    )
    assert findings == ()
    assert [gauge.name for gauge in pattern.gauges] == ["moss"]
    assert [(gauge.motif, gauge.over.cm) for gauge in pattern.motif_gauges] == [
        ("square", 11), ("Rnds 1-4", pytest.approx(10.16)),
    ]  # fmt: skip
    assert pattern.swatch is not None
    assert pattern.swatch.stitch == "square"
