"""Grading held against published numbers; the source of each stands beside it."""

import math

import pytest

from booklet.pipeline import prove_text
from booklet.sizing.formula import evaluate_formula
from booklet.sizing.numbers import fit_count


def work_out(front: str, name: str) -> tuple[int, ...]:
    proof = prove_text(f"---\ntitle: Case\n{front}\n---\n\nCh 11.\n", "case.md")
    assert proof.sized is not None
    assert [f.message for f in proof.findings if f.severity.value == "error"] == []
    return proof.sized.numbers[name].values


# Hats: crown = head / pi, 22 in gives 7.00, 23 in 7.32, 13.5 in 4.30, 39.5 cm 12.57 (hookthatyarn.wordpress.com 2016,
# ohewe 2009 prints 12.58; recomputed).
@pytest.mark.parametrize(("head", "crown"), [(22, 7.00), (23, 7.32), (13.5, 4.30), (39.5, 12.57)])
def test_crowns(head: float, crown: float) -> None:
    assert evaluate_formula("across(head)", {"head": head}) == pytest.approx(crown, abs=0.006)
    assert evaluate_formula("around(across(head))", {"head": head}) == pytest.approx(head)


def test_a_hat_from_the_measure_of_the_head() -> None:
    # The same rule: 22 in snug is 21 in round; at 14 sts to 4 in 73.5 sts, to a multiple of 6: 72.
    front = "gauge: 14 sts = 4 in\nsizes: {One: {head: 22 in}}\nnumbers:\n"
    girth = "  girth: {measure: head, ease: -1 in, multiple: 6}"
    assert work_out(front + girth, "girth") == (72,)
    assert work_out(front + "  wide: {measure: across(head)}", "wide") == (round(22 / math.pi * 3.5),)


# Tunic in three sizes (pattern-knit.com): 54 (62, 68) sts = 6 + 2k + 4; two pieces at 11 hdc to 4 in are 39.3 (45.1,
# 49.5) in, 0.7 in more than the printed chest of 38½ (44½, 49) for two seams.
def test_the_tunic_in_three_sizes() -> None:
    counts = (54, 62, 68)
    assert [fit_count(sts, 2, 10) for sts in counts] == list(counts)
    assert [round(2 * sts * 4 / 11, 1) for sts in counts] == [39.3, 45.1, 49.5]
    front = (
        "gauge: 11 sts = 4 in\nsizes: {S: {chest: 38½ in}, M: {chest: 44½ in}, L: {chest: 49 in}}\n"
        "numbers:\n  half: {measure: chest / 2, ease: 0.35 in, multiple: 2}"
    )
    assert work_out(front, "half") == (54, 62, 68)


# Filet sweater (Bernhard Ulmann 341, freevintagecrochet.com): 84 (88, 92) meshes at 4 to the inch are 21 (22, 23) in,
# from chains of 254 (266, 278); sleeves and edges: 108 (112, 116), 47 (49, 51) from 44, 54 (56, 58).
def test_the_filet_sweater_in_three_sizes() -> None:
    front = (
        "gauge: 12 sts = 3 in\nsizes: {14: {back: 21 in}, 16: {back: 22 in}, 18: {back: 23 in}}\n"
        "numbers:\n  mesh: {measure: back}\n  chain: mesh * 3 + 2\n  wide: mesh + 2 * 12"
    )
    assert work_out(front, "mesh") == (84, 88, 92)
    assert work_out(front, "chain") == (254, 266, 278)
    assert work_out(front, "wide") == (108, 112, 116)


# Lace in six sizes (DROPS 136-25): 99-99-119-119-139-139 sts are 9-9-11-11-13-13 repeats of 10 and 9; chains 3 more.
def test_the_lace_in_six_sizes() -> None:
    front = "sizes: [XS, S, M, L, XL, XXL]\nnumbers:\n  repeats: [9, 9, 11, 11, 13, 13]\n"
    front += "  sts: repeats * 10 + 9\n  chain: sts + 3"
    assert work_out(front, "sts") == (99, 99, 119, 119, 139, 139)
    assert work_out(front, "chain") == (102, 102, 122, 122, 142, 142)


# Ribbed pullover in six sizes (craftorator 674): 65 (69-75-83-91-103) sts at 13 to 4 in are 20.0 (21.2, 23.1, 25.5,
# 28.0, 31.7) in; all are odd, as the row pattern needs.
def test_the_pullover_in_six_sizes() -> None:
    widths = (20.0, 21.2, 23.1, 25.5, 28.0, 31.7)
    names = ("XS", "S", "M", "L", "XL", "XXL")
    sizes = ", ".join(f"{name}: {{width: {width} in}}" for name, width in zip(names, widths, strict=True))
    front = f"gauge: 13 sts = 4 in\nsizes: {{{sizes}}}\nnumbers:\n  sts: {{measure: width, multiple: odd}}"
    assert work_out(front, "sts") == (65, 69, 75, 83, 91, 103)


# Raglan set-up (Lily Chin, "Focus on Fit"): neck 22 in = 102 sts, bust 40 in = 184, sleeve 13 in = 60, all at 4.6 sts
# to the inch; the increases between neck and bust are shared by lines, two stitches to each.
def test_the_raglan() -> None:
    front = (
        "gauge: 23 sts = 5 in\nsizes: {One: {neck: 22 in, bust: 40 in, sleeve: 13 in}}\nnumbers:\n"
        "  neck: {measure: neck, multiple: 2}\n  bust: {measure: bust, multiple: 2}\n"
        "  sleeve: {measure: sleeve, multiple: 2}"
    )
    assert [work_out(front, name) for name in ("neck", "bust", "sleeve")] == [(102,), (184,), (60,)]


# Stripes (leaflet BRC0502): 7 of 12 rows and 10 more are 94; filet, 4 solid squares are 13 dc (3n + 1, a 19th-century
# manual by an open course); border rounds of sc on 140 with 4 corners of 3: 148, 156, 164 (computed).
def test_counts_of_leaflets() -> None:
    assert evaluate_formula("7 * (10 + 2) + 10", {}) == 94 == fit_count(94, 12, 10)
    assert [fit_count(3 * squares + 1, 3, 1) for squares in (2, 3, 4)] == [7, 10, 13]
    assert [evaluate_formula("base + 8 * rounds", {"base": 140, "rounds": n}) for n in (1, 2, 3)] == [148, 156, 164]


# A queen cover with a drop of 15 in is 90 in wide (justastitchaway.blogspot.com 2008; computed).
def test_a_cover_for_a_bed() -> None:
    front = "gauge: 14 sts = 4 in\nsizes: {Queen: beds Queen}\nnumbers:\n  wide: {measure: mattress width + 2 * 15 in}"
    assert work_out(front, "wide") == (90 * 14 // 4,)


# A warm-air jacket (Aunt Lydia's) steps by one repeat of 12: chains of 111 (123, 135, 147, 159).
def test_chains_that_step_by_a_repeat() -> None:
    assert [fit_count(chain, 12, 3) for chain in (111, 123, 135, 147, 159)] == [111, 123, 135, 147, 159]


def test_keeping_parity_keeps_the_multiple() -> None:
    front = (
        "gauge: 10 sts and 10 rows = 10 cm\nsizes: {S: {length: 50 cm}, M: {length: 53 cm}, L: {length: 56 cm}}\n"
        "numbers:\n  rows: {measure: length, direction: rows, multiple: 3, keep: parity}"
    )
    assert work_out(front, "rows") == (51, 51, 57)


# Motifs: 3 in each, a chair back of 12 x 18 in takes 4 x 6 = 24 (freevintagecrochet.com 7310); New Orleans, 12 x 19 of
# 5 3/4 in are 69 x 109 1/4 in (E41 of the same collection).
def test_motifs_from_a_gauge_of_motifs() -> None:
    front = (
        "gauge: {motif: 1 motif = 3 in}\nsizes: {Back: {width: 12 in, length: 18 in}}\nnumbers:\n"
        "  across: {measure: width, gauge: motif}\n  down: {measure: length, gauge: motif}\n  motifs: across * down"
    )
    assert work_out(front, "motifs") == (24,)
    spread = (
        "gauge: {square: 1 square = 5¾ in}\nsizes: {One: {width: 69 in, length: 109¼ in}}\nnumbers:\n"
        "  across: {measure: width, gauge: square}\n  down: {measure: length, gauge: square}\n  squares: across * down"
    )
    assert work_out(spread, "squares") == (228,)
