"""The usual shapes: their rows are read and worked without findings, and their counts are those of handbooks."""

import itertools
import math
import re
from collections.abc import Callable, Iterable, Iterator

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from booklet.pipeline import Proof, prove_text
from booklet.shapes.chains import count_chains, list_flat, list_oval
from booklet.shapes.corners import list_granny, list_hexagon, list_square
from booklet.shapes.planning import count_rounds, plan_crown
from booklet.shapes.rounds import list_circle, list_crown, list_sphere
from booklet.shapes.stitches import ShapeError, find_increase, find_stitch, name_stitch

STITCHES = ("sc", "hdc", "dc", "tr")


def prove(lines: Iterable[str], terms: str = "US") -> Proof:
    facts = f"terms: {terms}\ngauge: 14 sts and 14 rows = 10 cm\nyarn: {{weight: 4 Medium, ball: 100 g = 200 m}}"
    body = "\n\n".join(lines)
    return prove_text(f"---\ntitle: A shape\n{facts}\n---\n\n## Piece\n\n{body}\n", "shape.md")


def counts(lines: Iterable[str], terms: str = "US") -> list[int]:
    """What each row makes, the foundation left out, once the proof has no findings."""
    proof = prove(lines, terms)
    assert [finding.message for finding in proof.findings] == []
    assert proof.worked is not None
    rows = [row for part in proof.worked.parts for row in part.rows[0]]
    assert {row.status for row in rows} == {"worked"}
    assert all(row.stated in (None, row.made) for row in rows)
    return [row.made for row in rows if row.kind != "foundation"]


def sc() -> object:
    return name_stitch("sc")


# Rounds n of a circle hold k x n stitches: 6, 12, 18, 24, 30 in sc (thecrochetbag.blogspot.com 2013, craftymaria
# 2009), 48 dc in round 4 (12 x 4, computed from the same rule).
def test_circles_of_the_rule_of_thumb() -> None:
    assert counts(list_circle(name_stitch("sc"), 5)) == [6, 12, 18, 24, 30]
    assert counts(list_circle(name_stitch("dc"), 4))[3] == 48
    assert counts(list_circle(name_stitch("hdc"), 3)) == [8, 16, 24]


# A 1918 tam grows by 7 in each round (Needlecraft handbook, Gutenberg 26113): 7, 14, 21, 28, 35, 42.
def test_a_circle_with_its_own_increase() -> None:
    assert counts(list_circle(name_stitch("sc"), 6, by=7)) == [7, 14, 21, 28, 35, 42]


# Staggered crown: "sc 2, inc, (sc 4, inc) 5 times, sc 2" and its like (jaskcrochet.com 2016): 30 to 36, 42 to 48.
def test_a_staggered_crown() -> None:
    lines = list(list_circle(name_stitch("sc"), 10, is_spiral=True, is_staggered=True))
    assert counts(lines) == [6, 12, 18, 24, 30, 36, 42, 48, 54, 60]
    assert lines[5].startswith("Rnd 6: Sc in next 2 sts, 2 sc in next st, (sc in next 4 sts, 2 sc in next st) 5 times")
    assert lines[7].startswith("Rnd 8: Sc in next 3 sts")
    assert lines[9].startswith("Rnd 10: Sc in next 4 sts")


# Ball of 30: 6, 12, 18, 24, 30, five even rounds, 24, 18, 12, 6 (amigurumisfaciles.com).
def test_a_ball() -> None:
    assert counts(list_sphere(name_stitch("sc"), 30)) == [6, 12, 18, 24, 30, 30, 30, 30, 30, 30, 24, 18, 12, 6]


# Oval round a chain of 6: 12, 18, 24, 30, 36 (krazykabbage.com; sistertwist.org 2018 for the places).
def test_an_oval() -> None:
    assert counts(list_oval(name_stitch("sc"), 6, 5)) == [12, 18, 24, 30, 36]
    lines = list(list_oval(name_stitch("sc"), 6, 2))
    assert "sc in next 3 ch, 3 sc in last ch" in lines[1]


# Baby's shoe sole of 1918 (Gutenberg 26113): a chain of 33 gives 68 with 3 at either end, 31 along each side.
def test_an_oval_of_a_longer_chain() -> None:
    # One stitch of the first end is made with the side here: 2 x 30 + 6.
    assert counts(list_oval(name_stitch("sc"), 33, 1)) == [66]


# Solid square: 12, 28, 44 dc (vcrochetpatterns.com day 320; 12 + 16(n - 1) computed); sc grows by 8.
def test_solid_squares() -> None:
    assert _dc(list_square(name_stitch("dc"), 3)) == [12, 28, 44]
    assert _dc(list_square(name_stitch("sc"), 4), "sc") == [8, 16, 24, 32]


# Granny square, round 5: 60 dc in 20 groups, 16 spaces along the sides (12n, 4(n - 1), computed from rigsbystudio.com).
def test_the_granny_square() -> None:
    lines = list(list_granny(name_stitch("dc"), 5))
    assert _dc(lines) == [12, 24, 36, 48, 60]
    assert lines[4].endswith("(60 dc, 4 ch-2 sps, 16 ch-1 sps)")


# Hexagon of two dc a side: 12 in round 1 (offthehookforyou.co.uk 2020), 12 more in each (DROPS 136, sectors + 2).
def test_a_hexagon() -> None:
    assert _dc(list_hexagon(name_stitch("dc"), 4)) == [12, 24, 36, 48]


# A regular shape of N sides whose inner circle has the radius a has sides of 2 a tan(pi / N) (Euclid). Heights of
# stitches in widths: sc 0.955, hdc 1.273, dc 1.91 (craftymaria 2009), tr 2.546 (from memory: 16 lie flat).
HEIGHTS = {"sc": 0.955, "hdc": 1.273, "tr": 2.546}
SHAPES = [(list_square, 4, "hdc"), (list_square, 4, "tr"), *((list_hexagon, 6, kind) for kind in HEIGHTS)]


@pytest.mark.parametrize(("write", "sides", "kind"), SHAPES, ids=lambda value: getattr(value, "__name__", str(value)))
def test_a_shape_with_corners_lies_flat(write: Callable[..., Iterator[str]], sides: int, kind: str) -> None:
    """Worked to 16 rounds, every side is within half a stitch of the side of its depth."""
    made = _dc(write(name_stitch(kind), 16), kind)
    for number, stitches in enumerate(made, start=1):
        side = 2 * number * HEIGHTS[kind] * math.tan(math.pi / sides)
        assert stitches % sides == 0
        assert stitches / sides == pytest.approx(side, abs=0.51)


@pytest.mark.parametrize(("write", "sides", "kind"), SHAPES, ids=lambda value: getattr(value, "__name__", str(value)))
def test_the_finished_measure_of_a_shape_with_corners(
    write: Callable[..., Iterator[str]], sides: int, kind: str
) -> None:
    """Twice as deep as its rounds, it is as wide across as a shape with such sides is, within a stitch of its gauge."""
    lines = "\n\n".join(write(name_stitch(kind), 12))
    front = f"---\ntitle: A shape\ngauge: 14 sts and {14 / HEIGHTS[kind]:.2f} rows = 10 cm\n---\n\n## Piece\n\n"
    proof = prove_text(front + lines, "shape.md")
    assert proof.amounts is not None
    assert proof.worked is not None
    across = next(measure.cm[0] for measure in proof.amounts.measures if measure.name == "width across")
    side = proof.worked.parts[0].rows[0][-1].fabric.counts[kind] / sides * 10 / 14
    assert side == pytest.approx((across or 0) * math.tan(math.pi / sides), abs=0.51 * 10 / 14)


@pytest.mark.parametrize(("write", "kind"), [(list_square, "hdc"), (list_square, "tr"), (list_hexagon, "tr")])
def test_corners_stay_in_line(write: Callable[..., Iterator[str]], kind: str) -> None:
    """Over the rounds as many stitches are made behind a corner as before it, but for one."""
    lines = list(write(name_stitch(kind), 16))
    drift = 0
    for line in lines[1:]:
        group = re.search(r"\((?:(\d+) )?\w+, ch \d, (?:(\d+) )?\w+\) in next", line)
        assert group
        drift += int(group.group(1) or 1) - int(group.group(2) or 1)
        assert abs(drift) <= 1


@pytest.mark.parametrize("kind", ["sc", "hdc"])
def test_a_corner_of_one_stitch_stays_in_the_middle_of_its_side(kind: str) -> None:
    place = rf"(?:{kind} in next (?:(\d+) sts|st), )?\d {kind} in next st(?:, {kind} in next (?:(\d+) sts|st))?"
    for line in list(list_hexagon(name_stitch(kind), 16))[3:]:
        sides = re.search(rf"\({place}\) 6 times", line)
        assert sides
        assert abs(int(sides.group(1) or 1) - int(sides.group(2) or 1)) <= 1


def test_a_hexagon_in_sc_and_hdc_has_a_stitch_at_each_corner() -> None:
    lines = list(list_hexagon(name_stitch("sc"), 5))
    assert counts(lines) == [6, 12, 18, 24, 36]
    assert "(sc in next st, 3 sc in next st, sc in next 2 sts) 6 times" in lines[4]
    assert counts(list_hexagon(name_stitch("hdc"), 5)) == [6, 18, 24, 36, 42]


def _dc(lines: Iterable[str], kind: str = "dc") -> list[int]:
    proof = prove(lines)
    assert [finding.message for finding in proof.findings] == []
    assert proof.worked is not None
    return [row.fabric.counts[kind] for part in proof.worked.parts for row in part.rows[0]]


# Base chains: 105 sc from 106 (leaflet BRC0502), 15 dc from 17 with the chain counted (Craft Yarn Council by an open
# course), 11 hdc from 12 counted or 13 not (forum.knittinghelp 72046).
@pytest.mark.parametrize(
    ("kind", "sts", "is_counted", "chains"),
    [("sc", 105, False, 106), ("dc", 15, True, 17), ("hdc", 11, True, 12), ("hdc", 11, False, 13)],
)
def test_base_chains(kind: str, sts: int, is_counted: bool, chains: int) -> None:
    stitch = name_stitch(kind)
    assert count_chains(stitch, sts, is_counted) == chains
    assert counts(list_flat(stitch, sts, 3, is_counted)) == [sts] * 3


# Crowns: head / pi across, a snug hat 1 in smaller, 0.4 of the head deep (hookthatyarn.wordpress.com 2016):
# 22 in gives 7.00 and 8.8 in, 23 in 9.2 in, 13.5 in 5.4 in.
@pytest.mark.parametrize(("head", "deep"), [(22, 8.8), (23, 9.2), (13.5, 5.4)])
def test_the_depth_of_a_hat(head: float, deep: float) -> None:
    plan = plan_crown(f"{head} in", "14 sts and 12 rows = 10 cm")
    assert f"hat {deep * 2.54:.1f} cm deep" in plan.words
    assert plan.around == round((head - 1) * 2.54 * 1.4)


def test_a_circle_by_its_width() -> None:
    assert count_rounds("18 cm", "14 sts and 10 rows = 10 cm") == 9


# k = 2 pi x height / width: 0.955 gives 6, 1.273 gives 8, 1.91 gives 12 (computed; craftymaria 2009).
@pytest.mark.parametrize(("ratio", "increase"), [(0.955, 6), (1.273, 8), (1.91, 12), (2.546, 16)])
def test_what_lies_flat(ratio: float, increase: int) -> None:
    assert find_increase(ratio, 1.0) == pytest.approx(increase, abs=0.01)


def test_uk_terms() -> None:
    assert counts(list_circle(name_stitch("dc", "UK"), 3), "UK") == [12, 24, 36]
    assert find_stitch("tr", "UK").kind == "dc"


Writer = Callable[[], Iterator[str]]


@pytest.mark.parametrize(
    "write",
    [
        lambda: list_circle(name_stitch("sc"), 0),
        lambda: list_circle(name_stitch("sc"), 10_000),
        lambda: list_circle(name_stitch("sc"), 5, by=2),
        lambda: list_crown(name_stitch("hdc"), 5, 2),
        lambda: list_sphere(name_stitch("sc"), 31),
        lambda: list_square(name_stitch("tr"), 100),
        lambda: list_hexagon(name_stitch("sc"), 0),
        lambda: list_granny(name_stitch("sc"), 3),
        lambda: list_oval(name_stitch("sc"), 3, 2),
        lambda: list_flat(name_stitch("sc"), 10, 2, True),
        lambda: iter([name_stitch("fur").name]),
        lambda: iter([find_stitch("bobble", "US").name]),
    ],
)
def test_error_shapes_that_cannot_be_made(write: Writer) -> None:
    with pytest.raises(ShapeError):
        list(write())


@settings(max_examples=15, deadline=None)
@given(kind=st.sampled_from(STITCHES), around=st.integers(20, 120), even=st.integers(0, 4), spiral=st.booleans())
def test_any_crown_comes_to_its_stitches(kind: str, around: int, even: int, spiral: bool) -> None:
    made = counts(list_crown(name_stitch(kind), around, even, is_spiral=spiral))
    assert made[-1] == around
    assert made == sorted(made)


@settings(max_examples=10, deadline=None)
@given(kind=st.sampled_from(("sc", "hdc", "dc")), chains=st.integers(6, 30), rounds=st.integers(1, 5))
def test_any_oval_grows_by_its_ends(kind: str, chains: int, rounds: int) -> None:
    stitch = name_stitch(kind)
    made = counts(list_oval(stitch, chains, rounds))
    assert [b - a for a, b in itertools.pairwise(made)] == [stitch.flat] * (rounds - 1)
