"""What the booklet says of how its yarn came about."""

import pytest

from booklet.pages.yarn_tables import tell_origin
from booklet.pipeline import prove_text

ROWS = "\n---\nRow 1: Fsc 60.\n\nRow 2: Ch 1 (does not count as a st), turn, sc in each st across.\n\nRep last row.\n"


# A figure says what stands in for a gauge that is not stated.
@pytest.mark.parametrize(
    ("front", "words"),
    [
        ("gauge: 14 sts and 16 rows = 10 cm\nyarn: {weight: 4}", "for this weight and gauge"),
        ("sizes: {One: {width: 30 cm, length: 20 cm}}\nyarn: {weight: 4}", "the size given"),
        ("gauge: 1 square = 20 cm\nyarn: {weight: 4}", "in a motif of the size given"),
        ("yarn: {weight: 4}", "usual for this weight of yarn"),
        ("hook: 5 mm", "usual for this hook"),
        ("yarn: {ball: 100 g = 200 m}", "usual for a yarn of this length"),
        ("swatch: {sts: 20, rows: 20, weight: 19 g}\nyarn: {weight: 4, ball: 100 g = 200 m}", "a weighed swatch of 20"),
    ],
)
def test_the_origin_of_the_lengths(front: str, words: str) -> None:
    proof = prove_text(f"---\ntitle: Square\n{front}{ROWS}", "square.md")
    assert proof.pattern is not None
    assert proof.amounts is not None
    assert proof.amounts.yarn is not None
    told = tell_origin(proof.amounts.yarn, proof.pattern)
    assert words in told
    assert ("is stated" in told) == (proof.amounts.yarn.gauge_from != "gauge" and "swatch of" not in told)
