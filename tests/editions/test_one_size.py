"""One size alone: no list of sizes left, the figures those of the proof, and rows that prove again by themselves."""

import re

import pytest

from booklet.amounts.amounts import amounts_as_json
from booklet.editions.commission import Commission
from booklet.editions.one_size import choose_sizes, take_one_size
from booklet.model.pattern import RowLine
from booklet.pages.booklet_view import view_booklet
from booklet.pages.prose import fill_names
from booklet.pages.row_texts import show_row
from booklet.pages.views import BookletView
from booklet.pipeline import prove_text

from .conftest import DEMOS, SOUND, commission_once, list_sized, name_case, prove_once

SIZED = list_sized((*DEMOS, *SOUND))
LIST = re.compile(r"\d+ ?[(\[]\d+[,:)\]]")
FRONT_OF_SIZES = re.compile(r"^(?:sizes|numbers):.*\n(?:[ \t]+.*\n|\n)*", re.MULTILINE)

pytestmark = pytest.mark.parametrize(("source", "size"), SIZED, ids=name_case)


def take(source: str, size: int, terms: str = "") -> Commission:
    commission, findings = take_one_size(commission_once(source, terms), size, draws=False)
    assert findings == ()
    return commission


def list_texts(view: BookletView) -> list[str]:
    """Every text of the booklet that holds figures."""
    texts = [fact.value for section in view.sections for fact in section.facts]
    texts += [text for section in view.sections for table in section.tables for line in table.lines
              for cell in line.cells for text in cell.lines]  # fmt: skip
    texts += [note for section in view.sections for note in section.notes]
    texts += [section.lead for section in view.sections]
    for section in view.sections:
        for piece in section.pieces:
            texts += [piece.title, *(p.row.text if p.row else str(p.prose) for p in piece.passages)]
    return [str(text) for text in texts]


@pytest.mark.parametrize("terms", ["", "UK"])
def test_no_list_of_sizes_is_left(source: str, size: int, terms: str) -> None:
    commission = take(source, size, terms)
    texts = list_texts(view_booklet(commission.manuscript))
    assert [text for text in texts if LIST.search(text)] == []
    others = set(prove_once(source).pattern.size_names) - set(commission.pattern.size_names)  # type: ignore[union-attr]
    labels = [text.partition(":")[0] for text in texts if re.match(r"(?:Row|Rnd|Next)", text)]
    assert not [label for label in labels if any(re.search(rf"\b{re.escape(name)}\b", label) for name in others)]


def test_the_summary_and_what_is_said_of_other_sizes(source: str, size: int) -> None:
    commission = take(source, size)
    view = view_booklet(commission.manuscript)
    assert not re.search(r"(two|three|five|nine) sizes", view.cover.summary)
    labels = [fact.label for section in view.sections for fact in section.facts]
    assert "Multiples" not in labels  # they are for a size of one's own, from the booklet of all sizes


def test_every_figure_is_that_of_the_proof(source: str, size: int) -> None:
    """Against what `proof --json` prints."""
    whole, alone = prove_once(source), take(source, size)
    assert whole.amounts is not None
    assert whole.pattern is not None
    expected, found = amounts_as_json(whole.amounts), amounts_as_json(alone.manuscript.amounts)
    for measure, one in zip(expected["measures"], found["measures"], strict=True):
        assert [one["cm"], one["inches"], one["count"]] == [[measure[k][size]] for k in ("cm", "inches", "count")]
    if expected["yarn"]:
        name = whole.pattern.size_names[size]
        assert found["yarn"]["needs"] == [need for need in expected["yarn"]["needs"] if need["size"] == name]
        assert found["yarn"]["totals"] == {name: expected["yarn"]["totals"][name]}


def test_its_rows_prove_again_as_a_pattern_of_one_size(source: str, size: int) -> None:
    """The printed rows, put into a source that knows no sizes, make the same stitches."""
    whole, alone = prove_once(source), take(source, size)
    assert whole.worked is not None
    parts = []
    for part in alone.pattern.parts:
        blocks = [f"{'#' * part.level} {part.title}"] if part.title else []
        for block in part.blocks:
            if isinstance(block, RowLine):
                blocks.append(show_row(block, "row", alone.manuscript, {}).text)
            else:
                blocks.append(fill_names(block.text, alone.manuscript.numbers))
        parts.append("\n\n".join(blocks))
    text = alone.pattern.source.text
    front = FRONT_OF_SIZES.sub("", text[: text.index("---", 4)]) if text.startswith("---") else "---\ntitle: One\n"
    again = prove_text(f"{front}---\n\n" + "\n\n".join(parts) + "\n", "one.md")
    assert again.worked is not None
    expected = [[(row.used, row.made, row.status) for row in part.rows[size]] for part in whole.worked.parts]
    found = [[(row.used, row.made, row.status) for row in part.rows[0]] for part in again.worked.parts]
    assert found == expected


def test_its_file_is_named_for_it(source: str, size: int) -> None:
    alone = take(source, size)
    names = prove_once(source).pattern.size_names  # type: ignore[union-attr]
    assert f"-{names[size]}-A4." in alone.name_file("A4", "pdf")
    (chosen,), findings = choose_sizes(commission_once(source), ())
    assert chosen.size == ""
    assert findings == ()
