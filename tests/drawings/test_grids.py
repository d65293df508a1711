"""Filet and colourwork as squares."""

from pathlib import Path

import pytest

from booklet.drawings import Ink
from booklet.drawings.grids import OPEN, SOLID, Grid, describe_grid, find_grid, grid_table, plan_grid
from booklet.drawings.palette import mix_palette
from booklet.drawings.plan import Rect, overlap, shape_box
from booklet.pipeline import prove_file, prove_text

SOUND = Path(__file__).parents[1] / "patterns" / "sound"
COLOURS = 'colours:\n  A: {name: Fog, shade: "#c9ced2"}\n  B: {name: Kelp, shade: "#5b6b3a"}\n'
PLAIN = "ch 1 (does not count as a st), turn,"
CHECKS = f"""
With A, ch 13.

Row 1: Sc in 2nd ch from hook and in each ch across. (12 sc)

Row 2: {PLAIN.capitalize()} *with A, sc in next 3 sts, with B, sc in next st; rep from * across. (12 sc)

Row 3: {PLAIN.capitalize()} *with B, sc in next 2 sts, with A, sc in next 2 sts; rep from * across. (12 sc)

Row 4: {PLAIN.capitalize()} *with A, sc in next st, with B, sc in next 3 sts; rep from * across. (12 sc)
"""


def grid_of(text: str) -> Grid | None:
    proof = prove_text(f"---\ntitle: Case\n{COLOURS}---\n{text}", "case.md")
    assert proof.worked
    return find_grid(proof.worked.parts[0].rows[0])


def test_filet_follows_the_rule_of_solid_squares() -> None:
    """A run of n solid squares is 3n + 1 dc (a 19th-century manual): 1 -> 4, 2 -> 7, 3 -> 10, 9 -> 28."""
    proof = prove_file(str(SOUND / "filet-runner.md"))
    assert proof.worked
    whole = proof.worked.parts[0].rows[0]
    rows = [row for row in whole if row.kind != "foundation"]
    grid = find_grid(whole)
    assert grid is not None
    assert grid.stitches == 3
    for line, row in zip(grid.rows, rows, strict=True):
        chains = sum(site.kind == "ch" for site in row.fabric.sites)
        assert chains == 2 * line.count(OPEN)
        # posts between squares are shared: every run of solid squares adds 3 dc a square to the posts that are there
        assert row.fabric.counts["dc"] == len(line) + 1 + 2 * line.count(SOLID)
    assert grid.rows[1] == (OPEN,) * 3 + (SOLID,) * 3 + (OPEN,) * 3  # Row 2: 3 sps, 3 bls, 3 sps
    assert grid.rows[0] == (SOLID,) * 9
    assert rows[0].fabric.counts["dc"] == 28


def test_colourwork_has_a_square_for_every_stitch_in_its_colour(ink: Ink) -> None:
    grid = grid_of(CHECKS)
    assert grid is not None
    assert grid.rows == (
        ("A",) * 12,
        ("A", "A", "A", "B") * 3,  # a wrong-side row, worked from left to right
        ("A", "A", "B", "B") * 3,
        ("A", "B", "B", "B") * 3,
    )
    palette = mix_palette(())
    plan = plan_grid(grid, palette, ink)
    squares = [shape for shape in plan.shapes if isinstance(shape, Rect)]
    assert len(squares) == 48
    letters = [text.text for text in plan.texts if text.text in "AB"]
    assert (letters.count("A"), letters.count("B")) == (30, 18)


def test_the_words_go_the_way_the_row_is_worked() -> None:
    grid = grid_of(CHECKS)
    assert grid is not None
    assert grid_table(grid)[3] == ("Row 3", "(2 B, 2 A) 3 times")
    alt, caption = describe_grid(grid, "Coaster", "")
    assert alt.startswith("Colour chart of Coaster, 12 squares wide, 4 rows high. In working order, Row 1: 12 A.")
    assert "read from the side where its number stands" in caption


@pytest.mark.parametrize("name", ["filet-runner", "checks"])
def test_labels_of_grids_keep_clear(name: str, ink: Ink) -> None:
    proof = prove_file(str(SOUND / f"{name}.md")) if name != "checks" else None
    grid = find_grid(proof.worked.parts[0].rows[0]) if proof and proof.worked else grid_of(CHECKS)
    assert grid is not None
    plan = plan_grid(grid, mix_palette(()), ink)
    boxes = [shape_box(text) for text in plan.texts]
    assert all(box[0] >= 0 and box[1] >= 0 and box[2] <= plan.width and box[3] <= plan.height for box in boxes)
    assert not any(overlap(one, other) for at, one in enumerate(boxes) for other in boxes[:at])


@pytest.mark.parametrize("name", ["moss-scarf", "shell-blanket", "vstitch-scarf", "granny-square", "spike-stripes"])
def test_other_fabrics_are_no_grids(name: str) -> None:
    proof = prove_file(str(SOUND / f"{name}.md"))
    assert proof.worked
    assert find_grid(proof.worked.parts[0].rows[0]) is None
