"""The keys for yarn: samples, testers, unravelled lengths, seams, trimmings, strands, tails, the inch."""

import pytest

from booklet.findings import Finding
from booklet.model.measure import GRAMS_PER_OUNCE, METRES_PER_YARD, Length
from booklet.model.pattern import FinishingYarn, Pattern, Publisher, YarnAmount
from booklet.reading.pattern import read_pattern
from booklet.source import SourceFile

FRONT = """title: Mat
yarn: {weight: 4, ball: 100 g = 200 m, strands: 2 strands}
colours: {A: {name: Fog, shade: "#c9ced2", strands: 3}, B: {name: Oat, shade: "#dccfb2"}}
sizes: {Cot: {width: 70 cm}, Lap: {width: 90 cm}}
swatch: {sts: 20, rows: 20, weight: 19 g, included: no}
unravelled: {sts: 10, length: 62 cm, stitch: sc}
sample: {size: Lap, used: {A: 310 g, B: 11 oz}, measures: {length: 148 cm}}
testers:
  - {size: Cot, used: {A: 290 m}}
  - {size: Lap, used: 317 yd}
seams: {sides: 2 * width, shoulders: {length: 24 cm, colour: B, times: 2.5}}
trimmings:
  fringe: {number: panel / 2, strands: 3, cut: 32 cm, colour: A}
  pompom: {number: 2, wraps: 120, across: 6 cm}
tails: 20 cm
inch: 2.54 cm"""


def read(front: str, publisher: Publisher = Publisher()) -> tuple[Pattern, tuple[Finding, ...]]:
    source = SourceFile("mat.md", f"---\n{front}\n---\nRow 1: Sc in each st across.\n")
    pattern, findings = read_pattern(source, publisher)
    assert pattern is not None
    return pattern, findings


def test_all_keys_about_yarn() -> None:
    pattern, findings = read(FRONT)
    assert findings == ()
    assert pattern.yarn is not None
    assert pattern.yarn.strands == 2
    assert [colour.strands for colour in pattern.colours] == [3, 0]
    assert pattern.swatch is not None
    assert not pattern.swatch.included
    assert pattern.unravelled is not None
    assert (pattern.unravelled.sts, pattern.unravelled.length, pattern.unravelled.stitch) == (
        10,
        Length(62, "cm"),
        "sc",
    )
    assert pattern.sample is not None
    assert pattern.sample.report.used == {"A": YarnAmount(310, "g"), "B": YarnAmount(11 * GRAMS_PER_OUNCE, "g")}
    assert pattern.sample.measures == {"length": Length(148, "cm")}
    assert [(report.size, dict(report.used)) for report in pattern.testers] == [
        ("Cot", {"A": YarnAmount(290, "m")}),
        ("Lap", {"": YarnAmount(pytest.approx(317 * METRES_PER_YARD), "m")}),
    ]
    assert pattern.tail == Length(20, "cm")
    assert pattern.cm_per_inch == 2.54


def test_seams_and_trimmings_are_strands_of_a_length() -> None:
    def plain(item: FinishingYarn) -> tuple[object, ...]:
        return item.kind, item.number, item.strands, item.length, item.times, item.colour

    assert [plain(item) for item in read(FRONT)[0].finishing] == [
        ("seam", "1", 1, "2 * width", 3, ""),
        ("seam", "1", 1, "24 cm", 2.5, "B"),
        ("trimming", "panel / 2", 3, "32 cm", 1, "A"),
        ("trimming", "2", 120, "6 cm", 2, ""),
    ]


# NIST Handbook 44, appendix C: 1 oz is 28.349523125 g, 1 yd is 0.9144 m.
@pytest.mark.parametrize(
    ("text", "amount", "unit"),
    [("1 oz", 28.349523125, "g"), ("100 yd", 91.44, "m"), ("250 m", 250, "m"), ("5 g", 5, "g")],
)
def test_an_amount_of_yarn(text: str, amount: float, unit: str) -> None:
    pattern, _ = read(f"title: Mat\ntesters: [{{used: {text}}}]")
    (used,) = pattern.testers[0].used.values()
    assert (used.amount, used.unit) == (pytest.approx(amount), unit)


def test_one_tester_needs_no_list() -> None:
    assert len(read("title: Mat\ntesters: {used: 30 g}")[0].testers) == 1


@pytest.mark.parametrize(("words", "cm"), [("2.5 cm", 2.5), ("trade", 2.5), ("exact", 2.54), ("2,54 cm", 2.54)])
def test_an_inch(words: str, cm: float) -> None:
    pattern, findings = read(f"title: Mat\ngauge: 16 sts = 10 cm\ninch: {words}")
    assert (pattern.cm_per_inch, pattern.gauges[0].cm_per_inch, findings) == (cm, cm, ())


def test_the_houses_inch_holds_where_the_pattern_says_nothing() -> None:
    house = Publisher(cm_per_inch=2.54)
    assert read("title: Mat", house)[0].cm_per_inch == 2.54
    assert read("title: Mat\ninch: trade", house)[0].cm_per_inch == 2.5
    assert read("title: Mat")[0].cm_per_inch == 2.5


@pytest.mark.parametrize(
    ("line", "code"),
    [
        ("inch: 2.6 cm", "wrong-value"),
        ("testers: [{size: Cot}]", "wrong-value"),
        ("testers: [{used: 30}]", "missing-unit"),
        ("testers: [{used: 0 g}]", "wrong-value"),
        ("sample: {used: {A: lots}}", "wrong-value"),
        ("trimmings: {fringe: {number: 20}}", "wrong-value"),
        ("trimmings: {fringe: {cut: 30 cm, wraps: 20, across: 5 cm}}", "wrong-value"),
        ("yarn: {strands: 0}", "wrong-value"),
        ("unravelled: {sts: 10}", "wrong-value"),
        ("tails: long", "wrong-value"),
        ("sample: {sise: Cot}", "unknown-key"),
    ],
)
def test_error_a_value_that_cannot_be_meant(line: str, code: str) -> None:
    _, findings = read(f"title: Mat\n{line}")
    assert code in {finding.code for finding in findings}
    assert all(finding.span.line == 3 for finding in findings)


def test_a_seam_names_its_edges() -> None:
    front = """title: Tee
seams:
  shoulders: {edges: [Back shoulders, Front shoulders], length: 24 cm}
  ears: [the neck of the Front, "Ear, last rnd", Head]
  sides: [Side Panel long edges]
folds: {Sleeve: Lengthwise, Hem: at row 6, Cuff: rnd 3}"""
    pattern, findings = read(front)
    assert findings == ()
    assert [finishing.name for finishing in pattern.finishing] == ["shoulders", "ears", "sides"]
    assert [finishing.length for finishing in pattern.finishing] == ["24 cm", "", ""]  # as long as their edges
    told = {seam.name: [(edge.piece, edge.edge) for edge in seam.edges] for seam in pattern.seams}
    assert told == {
        "shoulders": [("Back", "shoulders"), ("Front", "shoulders")],
        "ears": [("Front", "neck"), ("Ear", "last round"), ("Head", "")],
        "sides": [("Side Panel", "sides")],
    }
    assert [(fold.piece, fold.way, fold.row) for fold in pattern.folds] == [
        ("Sleeve", "lengthwise", 0),
        ("Hem", "at row", 6),
        ("Cuff", "at row", 3),
    ]


@pytest.mark.parametrize(
    ("front", "place", "words"),
    [
        ("seams: {sides: {colour: A}}", "{colour: A}", "no length and no edges"),
        ("folds: {Sleeve: backwards}", "backwards", '"backwards" is no fold'),
        ("folds: {Sleeve: at row 0}", "at row 0", '"at row 0" is no fold'),
    ],
)
def test_error_a_seam_or_fold_that_says_nothing(front: str, place: str, words: str) -> None:
    _, (finding,) = read(f"title: Tee\n{front}")
    assert finding.code == "wrong-value"
    assert words in finding.message
    assert finding.span.text == place
