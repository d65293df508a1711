"""What the booklet says of tables, ease, swatches, motif gauges and shaping."""

import re
from pathlib import Path

import pytest

from booklet.account import proof_as_json
from booklet.pages.manuscript import BookletInput
from booklet.pages.reference import show_gauge
from booklet.pages.size_sources import explain_sizes, list_table_lines
from booklet.pages.swatches import say_swatch
from booklet.pipeline import Order, make_booklet, prove_file, prove_text

TUNIC = """---
title: Tunic
sizes: {S: woman S, M: woman M}
units: imperial first
gauge: {sc: 14 sts and 16 rows = 4 in in sc, square: 1 square = 4½ in}
yarn: {weight: 4 Medium, ball: 100 g = 190 m}
swatch: {sts: 20, rows: 20, stitch: sc, before: 14 x 12.3 cm, after: 14.5 x 12.7 cm, weight: 12 g}
numbers:
  body: {measure: bust / 2, ease: 2 in, gauge: sc, multiple: 2}
  top: {measure: upper arm, ease: 10 %, gauge: sc, multiple: 2}
shaping:
  side: {from: body - 10, to: body, over: 20}
---

## Body

The sides: {side}.

Ch {body + 1}.

Row 1: Sc in 2nd ch from hook and in each ch across. ({body} sc)
"""


def write(text: str) -> BookletInput:
    proof = prove_text(text, "tunic.md")
    assert proof.sized is not None
    assert proof.worked is not None
    assert proof.amounts is not None
    return BookletInput(proof.sized, proof.worked, proof.amounts)


def test_measures_from_a_table_are_printed_as_such() -> None:
    manuscript = write(TUNIC)
    heads = [str(line.head) for line in list_table_lines(manuscript)]
    assert heads == ["To fit bust", "To fit upper arm"]  # and none of those that nothing is worked out from
    bust = list_table_lines(manuscript)[0].cells[0].lines
    # Craft Yarn Council, woman S: bust 32-34 in, 81-86 cm (half centimetres of the exact 81.28 and 86.36).
    assert [re.sub(r"\s", " ", str(words)) for words in bust] == ["32–34 in", "81.5–86.5 cm"]
    notes = " ".join(explain_sizes(manuscript))
    assert "from the table “Women's body measures”" in notes
    assert "Of a range the middle is taken." in notes
    assert "Not checked against the source: upper arm." in notes
    assert re.sub(r"\s", " ", notes).count("Body: 2 in (5 cm) more than bust / 2.") == 1
    assert "Top: 10% more than upper arm." in notes
    assert "the larger where two are equally near" in notes


def test_gauges_of_motifs_and_swatches_are_printed() -> None:
    section = show_gauge(write(TUNIC))
    assert section is not None
    texts = [re.sub(r"\s", " ", str(entry.text)) for entry in section.entries]
    assert texts[1] == "1 square = 4½ in"
    assert texts[2] == (
        "20 sts and 20 rows in sc: 14 × 12.3 cm before blocking, 14.5 × 12.7 cm after (4% wider, 3% longer); 12 g"
    )


@pytest.mark.parametrize(
    ("swatch", "words"),
    [
        ("{sts: 20, rows: 20, after: 6 x 5½ in}", "20 sts and 20 rows: 6 × 5.5 in after blocking"),
        (
            "{sts: 20, rows: 20, before: 6 x 5 in, after: 6 x 5 in}",
            "before blocking, 6 × 5 in after (blocking changes nothing)",
        ),
        ("{sts: 20, rows: 20, before: 10 x 10 cm, after: 9.5 x 10 cm}", "(5% narrower)"),
        ("{sts: 9, rows: 8, before: 10 x 10 cm, rounds: true}", "9 sts and 8 rnds: 10 × 10 cm before blocking"),
    ],
)
def test_swatches_in_words(swatch: str, words: str) -> None:
    manuscript = write(f"---\ntitle: Cloth\nswatch: {swatch}\n---\n\nCh 11.\n")
    assert words in re.sub(r"\s", " ", say_swatch(manuscript.pattern.swatches[0]))


def test_a_shaping_in_braces_becomes_a_sentence_and_json_says_the_same(tmp_path: Path) -> None:
    source = tmp_path / "tunic.md"
    source.write_text(TUNIC)
    proof = prove_file(str(source))
    files, findings = make_booklet(proof, Order(tmp_path / "out", ("web",)))
    assert {finding.code for finding in findings} == {"size-table-unchecked"}
    page = re.sub(r"\s+", " ", re.sub(r"<[^>]+>", "", files[0].read_text(encoding="utf-8")))
    words = "increase 1 stitch at each end of every 4th row 5 times: 64 (72) sts"
    assert f"The sides: {words}." in page
    told = proof_as_json(proof)
    shaping, numbers, tables = told["shaping"], told["numbers"], told["size_tables"]
    assert isinstance(shaping, list)
    assert isinstance(numbers, list)
    assert isinstance(tables, list)
    assert shaping[0]["words"] == words
    body = next(number for number in numbers if number["name"] == "body")
    assert (body["values"], body["ease_cm"], body["tie"]) == ([64, 72], [5.08, 5.08], "up")
    assert [figure["measure"] for figure in tables[0]["figures"]] == ["bust", "upper arm"] * 2
    assert {figure["trust"] for figure in tables[0]["figures"]} == {"seen", "memory"}
