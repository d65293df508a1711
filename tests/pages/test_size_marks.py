"""Numbers marked by size: what is found, in every form of the trade, and what is left alone."""

import re
from dataclasses import replace
from pathlib import Path

import pytest
from markupsafe import Markup

from booklet.editions.commission import take_commission
from booklet.model.tree import PerSize
from booklet.pages.edition import WEB_EDITION
from booklet.pages.render import render_booklet
from booklet.pages.row_texts import group_worked_rows, show_row
from booklet.pages.size_marks import (
    find_numbers,
    list_repeats,
    mark_numbers,
    mark_sections,
    name_sizes,
    write_size_rules,
)
from booklet.pages.theme import load_theme
from booklet.pages.views import Cell, Fact, Line, Section, Table
from booklet.pipeline import list_sources, prove_file, prove_text

SOURCES = list_sources([str(Path(__file__).parents[2] / "content")])

PATTERN = """---
title: Trial
terms: US
hook: 4 mm
sizes: [S, M, L]
numbers:
  wide: [10, 14, 18]
---

Row 1: Ch {wide + 1}, sc in 2nd ch from hook and in each ch across. ({wide} sc)

Row 2: Ch 1 (does not count as a st), turn, sc in next 4 (6, 8) sts, 2 sc in next st, sc in each st to end.
(11-15-19 sc)

Row 3: Ch 1, turn, (sc in next st, 2 sc in next st) 3 times, *sc in next st; rep from * across. (14 (18, 22) sc)
"""


def show(text: str, size: int) -> str:
    """The marked text as a reader sees it who chose the size, by the rules of the style sheet."""
    kept = re.sub(
        r'<span class="only([^"]*)">([^<]*)</span>',
        lambda found: found[2] if f"size-{size}" in found[1].split() else "",
        text,
    )
    return re.sub("<[^>]*>", "", kept)


@pytest.mark.parametrize(
    ("text", "sizes", "shown"),
    [
        ("ch 77 (83, 89) and turn", 3, "ch 83 and turn"),
        ("40 (44, 48) (52, 56)", 5, "44"),
        ("12¼ (14¾, 17¼) in", 3, "14¾ in"),
        ("5½ (6, 6½) × 3 (4, 5)", 3, "6 × 4"),
        ("9 800 (12\u202f400, 14\u202f000) m", 3, "9 12\u202f400 m"),
        ("(28 (30, 32) sc)", 3, "(30 sc)"),
        ("<b>1 (2, 3)</b> times", 3, "2 times"),
        # These are no lists of three sizes.
        ("Rnd 1 (2 sc)", 3, "Rnd 1 (2 sc)"),
        ("see rows 3 (4)", 3, "see rows 3 (4)"),
        ("4 (5, 6, 7)", 3, "4 (5, 6, 7)"),
        ("10 cm (4 in)", 2, "10 cm (4 in)"),
    ],
)
def test_lists_as_they_are_printed(text: str, sizes: int, shown: str) -> None:
    marked = mark_numbers(Markup(text), sizes)  # noqa: S704 - HTML of this table
    assert show(str(marked), 2) == shown
    assert re.sub("<[^>]*>", "", str(marked)) == re.sub("<[^>]*>", "", text)  # all of it is still there


def test_other_forms_are_known_by_the_tree() -> None:
    known: list[PerSize] = [(11, 15, 19), (20, 24, 28)]
    assert show(str(mark_numbers(Markup("(11-15-19 sc)"), 3, known)), 3) == "(19 sc)"
    assert show(str(mark_numbers(Markup("11/15/19 sc"), 3, known)), 3) == "19 sc"
    assert show(str(mark_numbers(Markup("ch 20 [24, 28]"), 3, known)), 1) == "ch 20"
    assert show(str(mark_numbers(Markup("111-15-19"), 3, known)), 1) == "111-15-19"


def test_the_numbers_of_a_tree_are_found_and_its_repeats() -> None:
    proof = prove_text(PATTERN, "trial.md")
    assert proof.parsed is not None
    rows = proof.parsed.parts[0].rows
    assert find_numbers(rows[:1]) == [(11, 15, 19), (10, 14, 18)]
    assert find_numbers(rows[1:2]) == [(4, 6, 8), (11, 15, 19)]
    assert list_repeats(rows[2:3]) == ("3", "")
    assert list_repeats(rows[:2]) == ()


@pytest.mark.parametrize("source", SOURCES)
@pytest.mark.parametrize("terms", ["US", "UK"])
def test_every_number_of_every_tree_stands_in_the_page_for_its_size(source: str, terms: str) -> None:
    proof = prove_file(source)
    assert proof.parsed is not None
    assert proof.worked is not None
    assert proof.amounts is not None
    commission, _ = take_commission(proof.parsed, proof.worked, proof.amounts, load_theme("")[0], terms=terms)
    shown = replace(commission.manuscript, parsed=proof.parsed)
    html = render_booklet(shown, WEB_EDITION, load_theme("")[0])[0].html
    lists = {
        tuple(re.findall(r'size-\d+">([^<]+)<', found))
        for found in re.findall(r'<span class="sizes[^"]*">(?:<span[^>]*>[^<]*</span>)+</span>', html)
    }
    for part in proof.parsed.parts:
        for values in find_numbers(part.rows):
            assert tuple(map(str, values)) in lists


@pytest.mark.parametrize("source", SOURCES)
def test_the_count_shown_for_a_size_is_the_one_that_was_worked(source: str) -> None:
    """As `proof --json` has it: the stitches made in the last row that a line stands for, in that size."""
    proof = prove_file(source)
    assert proof.parsed is not None
    assert proof.worked is not None
    assert proof.amounts is not None
    commission, _ = take_commission(proof.parsed, proof.worked, proof.amounts, load_theme("")[0])
    shown = replace(commission.manuscript, parsed=proof.parsed)
    html = render_booklet(shown, WEB_EDITION, load_theme("")[0])[0].html
    compared = 0
    worked = group_worked_rows(shown)
    lines = [line for part in shown.pattern.parts for line in part.rows]
    views = [show_row(line, "row", shown, worked) for line in lines]
    for line, view in zip(lines, views, strict=True):
        for size, rows in enumerate(worked.get(line.span.start, [])):
            numbers = re.findall(r"\d+", show(str(view.count), size + 1))
            if len(numbers) == 1 and rows and rows[-1].stated is not None and "+" not in view.count:
                assert int(numbers[0]) == rows[-1].made, (view.label, size)
                assert f'<span class="count">{view.count}</span>' in html
                compared += 1
    assert compared > 20


def test_what_belongs_to_all_sizes_has_no_class() -> None:
    assert name_sizes([0, 2], 3) == "only size-1 size-3"
    assert name_sizes([0, 1, 2], 3) == name_sizes([], 3) == ""


def test_style_rules_hide_what_is_of_other_sizes() -> None:
    assert write_size_rules(1) == ""
    assert write_size_rules(2) == (
        '[data-size="1"] .only:not(.size-1),[data-size="1"] .alone:not(.size-1),'
        '[data-size="2"] .only:not(.size-2),[data-size="2"] .alone:not(.size-2),'
        ":root:not([data-size]) .alone{display:none!important}"
    )


def test_tables_know_where_their_sizes_are() -> None:
    cells = (Cell(("1",)), Cell(("2",)))
    across = Table("", "Measure", ("Small", "Large"), (Line("Width", cells),))
    down = Table("", "Size", ("Width", "Length"), (Line("Small", cells), Line("Large", cells)))
    other = Table("", "Colour", ("Width", "Length"), (Line("Small", cells),))
    (section,) = mark_sections([Section("sizes", "Sizes", "sizes", tables=(across, down, other))], ["Small", "Large"])
    assert [table.sizes_in for table in section.tables] == ["columns", "lines", ""]


def test_a_fact_of_one_line_a_size_is_shown_line_by_line() -> None:
    fact = Fact("Finished size", Markup("A &amp; B: 3 cm<br>Large: 5 cm"))
    (section,) = mark_sections([Section("glance", "At a glance", "glance", facts=(fact,))], ["A & B", "Large"])
    assert show(str(section.facts[0].value), 1) == "A &amp; B: 3 cm"
    assert show(str(section.facts[0].value), 2) == "Large: 5 cm"
