"""The rows of a shaping: pasted into the pattern they come out in every size."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from booklet.pipeline import prove_text
from booklet.shapes.sides import list_shaping
from booklet.shapes.stitches import find_stitch

HEAD = """---
title: Sleeve
terms: {terms}
sizes: [S, M, L]
gauge: 14 sts and 16 rows = 10 cm
yarn: {{weight: 4 Medium, ball: 100 g = 200 m}}
numbers:
  cuff: {cuff}
  top: {top}
  over: {over}
shaping:
  sleeve: {{from: cuff, to: top, over: over, every: {every}, first: {first}, by: {by}}}
---

## Sleeve

Ch {{cuff + 1}}.

Row 1: {name} in 2nd ch from hook and in each ch across. ({{cuff}} {short})

"""


def paste(
    cuff: str, top: str, over: str, every: int = 1, first: int = 0, by: str = "each end", terms: str = "US"
) -> tuple[list[list[int]], list[str]]:
    """The counts of each size's rows behind Row 1, and the findings, with the rows pasted in."""
    short = "dc" if terms == "UK" else "sc"
    head = HEAD.format(
        cuff=cuff,
        top=top,
        over=over,
        every=every,
        first=first,
        by=by,
        terms=terms,
        name=short.capitalize(),
        short=short,
    )
    proof = prove_text(head, "sleeve.md")
    assert proof.sized is not None
    (shaping,) = proof.sized.shaping
    rows = list_shaping(shaping, ("S", "M", "L"), find_stitch(short, terms))
    full = prove_text(head + "\n\n".join(rows) + "\n", "sleeve.md")
    assert full.worked is not None
    made = [[row.made for row in size[2:]] for size in full.worked.parts[0].rows]
    return made, [finding.message for finding in full.findings]


@pytest.mark.parametrize("terms", ["US", "UK"])
def test_rows_of_increases_in_all_sizes(terms: str) -> None:
    made, findings = paste("30 (32, 34)", "46 (50, 54)", "40 (44, 40)", terms=terms)
    assert findings == []
    assert [size[-1] for size in made] == [46, 50, 54]
    assert [len(size) for size in made] == [40, 44, 40]


def test_rows_of_decreases_from_the_first_row() -> None:
    made, findings = paste("46 (50, 54)", "30 (32, 34)", "17", first=1)
    assert findings == []
    assert [size[0] for size in made] == [44, 48, 52]
    assert [size[-1] for size in made] == [30, 32, 34]


# The classic: 8 increases at each end over 38 rows, right side only: every 4th row 5 times, then every 6th 3 times.
def test_the_classic_sleeve() -> None:
    made, findings = paste("30", "46", "38", every=2)
    assert findings == []
    grown = [at for at, (a, b) in enumerate(zip([30, *made[0]], made[0], strict=False), 1) if b > a]
    assert grown == [4, 8, 12, 16, 20, 26, 32, 38]


@settings(max_examples=8, deadline=None)
@given(
    cuff=st.integers(10, 60),
    changes=st.tuples(*[st.integers(0, 12)] * 3),
    rows=st.integers(12, 50),
    every=st.integers(1, 2),
    by=st.sampled_from((1, 2)),
)
def test_any_shaping_comes_to_its_count(
    cuff: int, changes: tuple[int, int, int], rows: int, every: int, by: int
) -> None:
    ends = [cuff + by * more for more in changes]
    over = max(rows, every * max(changes) + 1)
    made, findings = paste(
        str(cuff), f"{ends[0]} ({ends[1]}, {ends[2]})", str(over), every, by="one end" if by == 1 else "each end"
    )
    assert [size[-1] for size in made] == ends
    assert [len(size) for size in made] == [over] * 3
    assert [words for words in findings if "counts do not rise" not in words] == []
