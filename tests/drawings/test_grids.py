"""Filet and colourwork as squares."""

from pathlib import Path

import pytest

from booklet.drawings.grid_repeat import find_stretch
from booklet.drawings.grids import OPEN, SOLID, Grid, describe_grid, find_grid, grid_table, mirror_grid, plan_grid
from booklet.drawings.palette import mix_palette
from booklet.drawings.picture import Ink
from booklet.drawings.plan import Area, Rect, overlap, shape_box
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


def grid_of_file(name: str) -> Grid:
    proof = prove_file(str(SOUND / f"{name}.md"))
    assert proof.worked
    grid = find_grid(proof.worked.parts[0].rows[0])
    assert grid is not None
    return grid


@pytest.mark.parametrize("name", ["overlay-mosaic", "inset-mosaic"])
def test_mosaic_shows_the_colour_that_is_seen(name: str) -> None:
    """A long stitch hides what it is worked over (common practice): squares change from the row's colour to its own."""
    proof = prove_file(str(SOUND / f"{name}.md"))
    assert proof.worked
    rows = proof.worked.parts[0].rows[0][1:]
    grid = grid_of_file(name)
    for number, row in enumerate(rows):
        own = {site.colour for site in row.fabric.sites}.pop()
        assert grid.letters[number] == own
        hidden = 0
        for above in rows[number + 1 : number + 3]:
            reach = above.fabric.counts.get("dc", 0)
            far = max((stitch.down for stitch in above.fabric.stitches), default=0)
            hidden += reach if above.number and row.number and above.number - row.number < far else 0
        assert grid.rows[number].count(own) == row.made - hidden
        assert len(grid.rows[number]) == row.made == 27


def test_overlay_mosaic_square_by_square() -> None:
    """Worked out by hand from the rows: dc of Row 3 in sts 4, 8, 12 ..., of Row 4 in sts 2, 6, 10 ..."""
    grid = grid_of_file("overlay-mosaic")
    row2 = "".join(grid.rows[1])[::-1]  # from the first stitch, at the right
    row3 = "".join(grid.rows[2])[::-1]
    assert row2 == "BBB" + "ABBB" * 6
    assert row3 == "AB" + "AAAB" * 6 + "A"
    assert set(grid.directions) == {-1}  # every row begins at the right
    assert {column for row, column in grid.joined if row == 1} == {26 - at for at in (3, 7, 11, 15, 19, 23)}


def test_inset_mosaic_stitches_reach_down_to_the_stitch_passed_over() -> None:
    grid = grid_of_file("inset-mosaic")
    assert "".join(grid.rows[2])[::-1] == "BBB" + "ABBB" * 6
    assert grid.rows[2] == grid.rows[3]
    assert {(2, 23), (3, 23)} <= grid.joined  # the 4th stitch from the right of Rows 3 and 4
    assert grid.directions[:4] == (-1, 1, -1, 1)


@pytest.mark.parametrize(("name", "across", "upwards"), [("overlay-mosaic", 4, 2), ("inset-mosaic", 4, 4)])
def test_repeats_are_found_and_bracketed(name: str, across: int, upwards: int, ink: Ink) -> None:
    grid = grid_of_file(name)
    found = [stretch.period for stretch in grid.repeats if stretch]
    assert found == [across, upwards]
    texts = [text.text for text in plan_grid(grid, mix_palette(()), ink).texts]
    assert f"repeat: {across} sts" in texts
    assert f"repeat: {upwards} rows" in texts
    assert f"Across, {across} stitches repeat 6 times" in describe_grid(grid, "Panel", "")[1]


@pytest.mark.parametrize(
    ("lines", "found"),
    [("abababab", (0, 2, 4)), ("xabcabcabcy", (1, 3, 3)), ("aaaaaa", None), ("abcdef", None), ("ab", None)],
)
def test_a_stretch_is_the_shortest_repeat(lines: str, found: tuple[int, int, int] | None) -> None:
    stretch = find_stretch(lines, 2)
    assert (stretch and (stretch.start, stretch.period, stretch.times)) == found


@pytest.mark.parametrize("name", ["overlay-mosaic", "inset-mosaic", "tapestry-motif", "filet-runner"])
def test_labels_of_squares_keep_apart_and_in_the_frame(name: str, ink: Ink) -> None:
    plan = plan_grid(grid_of_file(name), mix_palette(()), ink)
    boxes = [shape_box(text) for text in plan.texts]
    for at, one in enumerate(boxes):
        assert one[0] >= 0
        assert one[1] >= 0
        assert one[2] <= plan.width
        assert one[3] <= plan.height
        assert not any(overlap(one, other) for other in boxes[at + 1 :])


def test_every_colour_but_the_first_has_a_hatch(ink: Ink) -> None:
    proof = prove_file(str(SOUND / "tapestry-motif.md"))
    assert proof.pattern
    palette = mix_palette(proof.pattern.colours)
    plan = plan_grid(grid_of_file("tapestry-motif"), palette, ink)
    (hatched,) = [shape for shape in plan.shapes if isinstance(shape, Area)]
    assert hatched.hatch == palette["B"].hatch != palette["A"].hatch
    assert len(hatched.polygons) == 7 + 9 + 11 + 1 + 5 + 4 + 3 + 2 + 1  # the boat, counted in its rows


def test_a_mirrored_grid_begins_on_the_other_side() -> None:
    grid = grid_of_file("inset-mosaic")
    left = mirror_grid(grid)
    assert left.directions == tuple(-way for way in grid.directions)
    assert grid_table(left) == grid_table(grid)  # worked in the same order, the other way
    assert left.rows[0] == grid.rows[0][::-1]
    assert mirror_grid(left) == grid


@pytest.mark.parametrize("chains", [2, 3])
def test_two_stitches_behind_one_space_fill_its_columns(chains: int) -> None:
    grid = grid_of(f"""
With A, ch 15.

Row 1: Sc in 2nd ch from hook and in each ch across. (14 sc)

Row 2: {PLAIN.capitalize()} sc in each st across. (14 sc)

Row 3: With B, {PLAIN} sc in first 2 sts, *ch {chains}, sk next 2 sts, sc in next 2 sts; rep from * across.

Row 4: {PLAIN.capitalize()} sc in first 2 sc, *ch {chains}, sk next ch-{chains} sp, sc in next 2 sc; rep from * across.

Row 5: With A, {PLAIN} sc in first 2 sc, *dc in next 2 skipped sts 3 rows below, sc in next 2 sc; rep from * across.
""")
    assert grid is not None
    assert grid.rows[2] == grid.rows[3] == tuple("BBAABBAABBAABB")
    assert grid.rows[4] == ("A",) * 14


def test_mosaic_in_rounds_is_told_in_rounds(ink: Ink) -> None:
    grid = grid_of("""
With A, ch 24, join with sl st in first ch.

Rnd 1: Ch 1, sc in each ch around, join with sl st in first sc. (24 sc)

Rnd 2: With B, ch 1, sc in BLO of each st around, join with sl st in first sc. (24 sc)

Rnd 3: With A, ch 1, *sc in BLO of next 3 sts, dc in FLO of next st 2 rnds below; rep from * around, join with sl st in
first sc. (24 sts)

Rnd 4: With B, ch 1, *sc in BLO of next st, dc in FLO of next st 2 rnds below, sc in BLO of next 2 sts; rep from *
around, join with sl st in first sc. (24 sts)

Rnds 5-8: Rep Rnds 3 and 4.
""")
    assert grid is not None
    assert set(grid.directions) == {-1}
    assert "".join(grid.rows[1])[::-1] == "BBBA" * 6  # from the first stitch
    assert "".join(grid.rows[2])[::-1] == "ABAA" * 6
    assert grid_table(grid)[2] == ("Round 2, worked in B", "(3 B, 1 A) 6 times")
    assert "repeat: 2 rounds" in [text.text for text in plan_grid(grid, mix_palette(()), ink).texts]


def test_a_grid_too_large_is_cut_to_its_repeats(ink: Ink) -> None:
    body = ["With A, ch 152.", "Row 1: Sc in 2nd ch from hook and in each ch across. (151 sc)"]
    for number in range(2, 150, 2):
        body.append(
            f"Row {number}: {PLAIN.capitalize()} *with A, sc in next 3 sts, with B, sc in next st; rep from * to last "
            "3 sts, with A, sc in last 3 sts. (151 sc)"
        )
        body.append(f"Row {number + 1}: {PLAIN.capitalize()} with A, sc in each st across. (151 sc)")
    grid = grid_of("\n" + "\n\n".join(body) + "\n")
    assert grid is not None
    assert grid.full is not None
    assert (grid.full.width, len(grid.full.rows)) == (151, 149)
    assert "".join(grid.rows[1]) == "AAAB" * 2 + "AAA"  # two repeats of 37, and the edge
    assert len(grid.rows) < 10
    assert [stretch.times for stretch in grid.repeats if stretch] == [37, 74]
    alt, caption = describe_grid(grid, "Panel", "")
    assert "151 squares wide, 149 rows high" in alt
    assert "Row 2: (3 A, 1 B) 37 times, 3 A" in alt
    assert "Across, 4 stitches repeat 37 times; the chart leaves some of them out" in caption
    assert "are drawn once" in caption
    plan = plan_grid(grid, mix_palette(()), ink)
    assert plan.width < 150
    left = mirror_grid(grid)
    assert left.full == mirror_grid(grid.full)


def test_a_grid_too_large_that_repeats_nothing_is_left_out() -> None:
    steps, group = [], 1
    while sum(range(1, group + 1)) + group < 150:
        steps.append(f"with {'AB'[group % 2]}, sc in next {group} sts")
        group += 1
    rest = 150 - sum(range(1, group))
    row = f"{PLAIN.capitalize()} {', '.join(steps)}, sc in next {rest} sts. (150 sc)"
    rows = "\n\n".join(f"Row {number}: {row}" for number in (2, 3, 4, 5))
    assert grid_of(f"\nWith A, ch 151.\n\nRow 1: Sc in 2nd ch from hook and in each ch across.\n\n{rows}\n") is None
