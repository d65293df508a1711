"""Stripes that come again and again, in the table of the colour plan: every row has its colour, in few lines.

By the rows of the shawl: A but for Rows 5, 8, 11 … of each band and the last row.
"""

from pathlib import Path

import pytest

from booklet.drawings.colour_plan import colour_table
from booklet.drawings.palette import mix_palette
from booklet.drawings.pieces import lay_pieces
from booklet.pipeline import prove_file

SHAWL = Path(__file__).parents[2] / "content" / "saltmarsh-shawl"


@pytest.mark.parametrize(("size", "again", "last"), [(0, "Rows 8–37", "Row 42"), (1, "Rows 8–61", "Row 66")])
def test_stripes_that_come_again_are_told_once(size: int, again: str, last: str) -> None:
    proof = prove_file(str(SHAWL))
    assert proof.pattern is not None
    assert proof.worked is not None
    _, *rows = colour_table(lay_pieces(proof.pattern, proof.worked, size), mix_palette(proof.pattern.colours))
    times = 10 if size == 0 else 18
    assert rows[:4] == [
        ("Rows 1–4", "A Marram"),
        ("Row 5", "B Sea lavender"),
        ("Rows 6–7", "A Marram"),
        (again, f"as Rows 5–7, {times} more times"),
    ]
    assert rows[-1] == (last, "B Sea lavender")
