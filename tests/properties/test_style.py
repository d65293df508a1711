"""Whatever the house, a row means the same: every style of every row reads back to the row's tree.

All rows of the demos, the whole patterns and the case files, over all combinations of the settings that touch a
row's words; and trees made up at random. What is compared is the tree without the marks of its repeats, which
are what the style chooses.
"""

import importlib.util
import sys
from dataclasses import replace
from functools import cache
from itertools import cycle, islice, product
from pathlib import Path
from types import ModuleType
from typing import Any

import pytest
from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st

from booklet.model.parsed import Row
from booklet.model.pattern import Pattern
from booklet.model.style import Style
from booklet.model.tree import ANY_STITCH, Repeat
from booklet.pipeline import list_sources, prove_file
from booklet.rows.parts import pattern_vocabulary
from booklet.rows.print import PrintedRow, print_row
from booklet.rows.print_styled import Printer
from booklet.rows.tokens import Numbers
from booklet.rows.vocabulary import Vocabulary, build_vocabulary
from booklet.working.rearranged import arrange_rows, style_rows

ROOT = Path(__file__).parents[2]


def load_printing() -> ModuleType:
    """test_printing.py, which knows all rows and how trees are made up."""
    name = "style_printing"
    spec = importlib.util.spec_from_file_location(name, Path(__file__).with_name("test_printing.py"))
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    sys.modules[name] = module
    spec.loader.exec_module(module)
    return module


printing = load_printing()
brackets = {
    "repeats": ("", "round", "square", "stars"),
    "groups": ("", "round", "square"),
    "nested": ("", "round", "square", "other"),
    "times": ("", "digits", "words", "plain words"),
    "numbers": ("", "digits", "words"),
}
frames = {
    "counts": ("", "round", "square", "dash", "equals sign", "full stop"),
    "count_place": ("", "own line"),
    "rounds": ("", "Rnd", "Round"),
    "sides": ("", "square"),
}


def list_styles(**choices: tuple[str, ...]) -> list[Style]:
    return [Style(**dict(zip(choices, chosen, strict=True)), words_up_to=20) for chosen in product(*choices.values())]


def drop_marks(tree: Any) -> Any:
    """What `settle` gives, without the marks of repeats, the last of their fields."""
    if not isinstance(tree, tuple):
        return tree
    kept = tree[:-1] if tree[:1] == ("Repeat",) else tree
    return tuple(map(drop_marks, kept))


def settle(row: Row, terms: str) -> Any:
    return drop_marks(printing.settle(row, terms))


@cache
def vocabulary_of(at: int) -> Vocabulary:
    return pattern_vocabulary(printing.list_rows()[at][1])


def read_back(line: str, at: int, pattern: Pattern) -> Row:
    return printing.read_back(line, vocabulary_of(at), len(pattern.size_names), pattern.size_names)


def test_all_styles_of_all_rows_read_back() -> None:
    """Each row in a share of all combinations, so that every combination meets rows and every row meets many."""
    styles = list_styles(**brackets)
    rows = printing.list_rows()
    share = 6
    assert len(rows) * share > len(styles) * 10
    differing = []
    chosen = cycle(styles)
    for at, (name, pattern, row) in enumerate(rows):
        for style in islice(chosen, share):
            line = print_row(row, pattern.terms, written_in=pattern.terms, style=style).text
            if settle(read_back(line, at, pattern), pattern.terms) != settle(row, pattern.terms):
                differing.append(f"{name}: {' '.join(row.span.text.split())}\n  printed: {line}\n  {style}")
        next(chosen)  # another share for the next row of the same kind
    assert differing == []


@pytest.mark.slow
def test_all_styles_of_the_demos_rows_read_back() -> None:
    """Every row of the demos in every combination."""
    differing = []
    seen: set[str] = set()
    for at, (name, pattern, row) in enumerate(printing.list_rows()):
        if not name.endswith("/pattern.md") or row.span.text in seen:
            continue
        seen.add(row.span.text)
        known: set[str] = set()
        for style in list_styles(**brackets):
            line = print_row(row, pattern.terms, written_in=pattern.terms, style=style).text
            if line not in known and settle(read_back(line, at, pattern), pattern.terms) != settle(row, pattern.terms):
                differing.append(f"{name}: printed: {line}\n  {style}")
            known.add(line)
    assert differing == []
    assert len(seen) > 80


def test_all_frames_of_all_rows_read_back_or_give_way() -> None:
    """A dash behind "Rep Row 2" would make a range of it: there a full stop goes before it, and nothing is lost."""
    styles = list_styles(**frames)
    given_way = []
    for at, (name, pattern, row) in enumerate(printing.list_rows()):
        printer = Printer(
            Style(), vocabulary_of(at), Numbers({}, len(pattern.size_names), names=pattern.size_names), pattern.terms
        )
        for style in islice(cycle(styles), at, at + 5):
            printed = replace(printer, style=style).print_row(row)
            plain = print_row(row, pattern.terms, written_in=pattern.terms).text
            if printed is None:
                # Whatever the style, the tree of such a row says less than its words.
                assert replace(printer, style=Style()).print_row(row) is None, f"{name}: {plain}"
                continue
            marks = {"dash": "– ", "equals sign": "= ", "square": "["}
            shapes = row.stated is not None and {"inc", "dec"} & {what.kind for _, what in row.stated.items}
            if shapes and style.counts in ("dash", "equals sign"):
                continue  # "– 24 inc" would be work
            if printed.count and not printed.count.startswith(marks.get(style.counts, "")):
                given_way.append(printed.text)
    assert given_way == []


# Trees at random

styles = st.builds(
    Style,
    **{name: st.sampled_from(values) for name, values in (brackets | frames).items()},
    words_up_to=st.integers(1, 20),
)


@settings(max_examples=300, deadline=None, suppress_health_check=[HealthCheck.too_slow, HealthCheck.filter_too_much])
@given(printing.labels, printing.whole_rows, printing.stated, styles, st.sampled_from(["US", "UK"]))
@pytest.mark.filterwarnings("ignore:Generating overly large repr")
def test_any_tree_in_any_style_reads_back(label: Any, steps: Any, count: Any, style: Style, terms: str) -> None:
    kinds = [what.kind for _, what in count.items] if count else []
    assume(len(set(kinds)) == len(kinds))  # a kind named twice is no list of counts
    row = Row(label, steps, count, printing.HERE, printing.HERE)
    vocabulary = build_vocabulary(terms, (), printing.LETTERS)
    printed = Printer(style, vocabulary, Numbers({}, 3), terms).print_row(row)
    assert printed is not None, print_row(row, terms, written_in=terms, style=style).text
    back = printing.read_back(printed.text, vocabulary, 3)
    assert settle(back, terms) == settle(row, terms), printed.text
    listed = style.counts == "full stop" and len(kinds) > 1  # "1 sc, 1 st." with no bracket round it is work
    if style.counts not in ("dash", "equals sign") and style.repeats != "stars" and not listed:
        # nothing had to give way
        assert printed.text == print_row(row, terms, written_in=terms, style=style).text


# Whole patterns


ARRANGEMENTS = [
    Style(turning_chain=chain, count_form=form, count_rows=which, rows=rows, rounds=rounds, repeats=repeats)
    for chain, form, which, rows, rounds, repeats in [
        ("row before", "total", "changed", "R", "R", "square"),
        ("start of row", "number", "all", "Row", "Round", "stars"),
        ("row before", "stitches", "changed", "", "R", "round"),
    ]
]
SOURCES = list_sources([str(ROOT / "content")]) + tuple(
    str(path) for path in sorted((ROOT / "tests/patterns/sound").glob("*.md"))
)


@cache
def prove_once(source: str) -> Any:
    return prove_file(source)


@pytest.mark.slow
@pytest.mark.parametrize("style", ARRANGEMENTS, ids=["before", "start", "stitches"])
def test_arranged_patterns_print_rows_that_read_back_as_arranged(style: Style) -> None:
    """Chains that are moved, counts in another form, counts left out: each printed row is the arranged one."""
    moved = printed = 0
    for source in SOURCES:
        proof = prove_once(source)
        styled, _ = style_rows(proof.parsed, proof.worked, style, proof.pattern)
        vocabulary = pattern_vocabulary(proof.pattern)
        names = proof.pattern.size_names
        values = {number.name: number.values for number in proof.sized.numbers.values()}
        numbers = Numbers(values, len(names), names=names)
        kept = {row.span.start for row in styled.kept}
        for row in (row for part in proof.parsed.parts for row in part.rows):
            wanted = styled.arranged.take(row)
            moved += wanted.steps != row.steps
            line = styled.carried.printed.get((row.span.start, row.span.end))
            if row.span.start in kept:
                assert wanted.steps == row.steps, "a row whose chain has been moved is not printed"
            elif isinstance(line, PrintedRow):
                back = printing.parse_row(
                    printing.RowLine(line.text, printing.SourceFile("a.md", line.text).span(0, len(line.text))),
                    vocabulary,
                    numbers,
                )[0]
                assert back.stated == wanted.stated
                settled = settle(replace(back, label=row.label), proof.pattern.terms)
                assert settled == settle(wanted, proof.pattern.terms), line.text
                printed += 1
    assert printed > 150
    assert moved > 20 or style.turning_chain != "row before"


@pytest.mark.slow
@pytest.mark.parametrize("source", SOURCES, ids=lambda source: Path(source).stem)
def test_a_count_in_another_form_is_the_worked_one(source: str) -> None:
    """`total` and `number` keep the figure; only the kind of a count of one kind is left out."""
    proof = prove_once(source)
    arranged = arrange_rows(proof.parsed, proof.worked, Style(count_form="number"))
    for row in (row for part in proof.parsed.parts for row in part.rows):
        taken = arranged.take(row)
        assert (taken.stated is None) == (row.stated is None)
        if taken.stated and row.stated and taken.stated != row.stated:
            assert [count for count, _ in taken.stated.items] == [count for count, _ in row.stated.items]
            assert taken.stated.items[0][1] == ANY_STITCH
    assert not any(isinstance(step, Repeat) and not step.steps for part in proof.parsed.parts for step in part.rows)
