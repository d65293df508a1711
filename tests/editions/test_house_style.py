"""Every edition in the style of another house, and none of it where a house has none."""

import re
from functools import cache
from pathlib import Path

import pytest

from booklet.editions.commission import Commission, take_commission
from booklet.editions.fragment import write_fragment
from booklet.editions.one_size import take_one_size
from booklet.editions.text import write_text
from booklet.pages import edition as paper
from booklet.pages.edition import WEB_EDITION, Edition, folded_edition, print_edition
from booklet.pages.render import render_booklet
from booklet.pages.theme import load_theme
from booklet.pipeline import Proof, prove_file

HOUSE = Path(__file__).parent / "houses/kittiwake.yaml"
SOURCE = """---
title: Ledge Mat
sizes: {Small: {width: 20 cm}, Large: {width: 30 cm}}
gauge: 16 sts and 16 rows = 10 cm in single crochet
hooks: 5 mm
yarn: {weight: 4, fibre: cotton, ball: 50 g = 85 m}
colours: {A: "Fog #c9ced2"}
---

## Notes

Work with a *light* hand.

- Count often.
- Turn after every row.

## Mat

With A, ch 33 (49).

Row 1 (RS): Sc in 2nd ch from hook and in each ch across, turn. (32 (48) sts)

Row 2: Ch 1, *sc in next st, (sc, ch 1, sc) in next st* twice, sc in each st across,
turn. (34 (50) sc, 2 ch-1 sps)

Row 3: Ch 1, sc in each sc across, turn. (34 (50) sts)

Row 4: Ch 1, sc in each st across, turn. (34 (50) sts)

Rep Row 4 until there are 9 rows in the mat. (34 (50) sts)
"""
EDITIONS = [
    print_edition("A4"),
    print_edition("A4", "large-print"),
    paper.tester_edition("A4"),
    folded_edition("A4"),
    WEB_EDITION,
    Edition("handout", "A4", type_pt=10),
]


@cache
def prove_mat(folder: Path, house: str) -> Proof:
    (folder / "pattern.md").write_text(SOURCE, encoding="utf-8")
    (folder / "house.yaml").write_text(house, encoding="utf-8")
    return prove_file(str(folder))


@pytest.fixture(params=["", "UK"], ids=["own terms", "UK terms"])
def terms(request: pytest.FixtureRequest) -> str:
    return str(request.param)


def commission(folder: Path, terms: str = "", house: str = "") -> Commission:
    proof = prove_mat(folder, house or HOUSE.read_text(encoding="utf-8"))
    assert proof.parsed is not None
    assert proof.worked is not None
    assert proof.amounts is not None
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr("booklet.editions.commission.draw_pictures", lambda *given: ((), ()))
        taken, _ = take_commission(proof.parsed, proof.worked, proof.amounts, load_theme("")[0], terms=terms)
    return taken


def render(taken: Commission, edition: Edition) -> str:
    page, findings = render_booklet(taken.manuscript, edition, taken.theme)
    assert findings == ()
    return page.html + "".join(part.decode() for name, part in page.resources.items() if name.endswith(".css"))


def words_of(html: str) -> str:
    return " ".join(re.sub(r"<[^>]*>", " ", html).split())


@pytest.mark.parametrize("edition", EDITIONS, ids=lambda edition: edition.name)
def test_each_page_has_the_rows_of_the_house(tmp_path: Path, edition: Edition) -> None:
    text = words_of(render(commission(tmp_path), edition)).replace("\u00a0", " ")
    assert "R1 [RS]: Sc in 2nd ch from hook and in each ch across, ch 1, turn. – 32 (48) sc." in text
    assert "[sc in next st, (sc, ch 1, sc) in next st] two times" in text.replace("[Sc", "[sc")
    assert "R3: Sc in each sc across, ch 1, turn." in text
    assert "R4: Sc in each st across, ch 1, turn. – " not in text
    assert "US H-8 (5 mm)" in text


def test_the_same_in_other_terms(tmp_path: Path) -> None:
    text = words_of(render(commission(tmp_path, "UK"), print_edition("A4"))).replace("\u00a0", " ")
    assert "R1 [RS]: Dc in 2nd ch from hook and in each ch across, ch 1, turn. – 32 (48) dc." in text
    assert "[dc in next st, (dc, ch 1, dc) in next st] two times" in text.replace("[Dc", "[dc")


def test_the_same_in_one_size(tmp_path: Path) -> None:
    alone, _ = take_one_size(commission(tmp_path), 1, draws=False)
    text = words_of(render(alone, print_edition("A4")))
    assert "R1 [RS]: Sc in 2nd ch from hook and in each ch across, ch 1, turn. – 48 sc." in text
    assert "R2: [Sc in next st, (sc, ch 1, sc) in next st] two times, sc in each st across, ch 1, turn. – 50 sc" in text


def test_a_row_that_its_tree_does_not_hold_keeps_its_words_in_the_frame_of_the_house(tmp_path: Path) -> None:
    proof = prove_mat(tmp_path, HOUSE.read_text(encoding="utf-8"))
    assert proof.styled is not None
    assert [row.span.line for row in proof.styled.kept] == [30]
    text = words_of(render(commission(tmp_path), print_edition("A4")))
    assert "Rep Row 4 until there are 9 rows in the mat." in text


@pytest.mark.parametrize("edition", EDITIONS, ids=lambda edition: edition.name)
def test_what_is_looked_up_stands_behind_the_rows(tmp_path: Path, edition: Edition) -> None:
    html = render(commission(tmp_path), edition)
    if edition.name == "handout":
        assert html.index("<h2>What is needed</h2>") > html.index("<h2>Instructions</h2>")
    else:
        places = [html.index(f'<section id="{anchor}"') for anchor in ("notes", "instructions", "materials", "gauge")]
        assert places == sorted(places)


def test_letters_and_lists_are_those_of_the_house_but_not_in_large_print(tmp_path: Path) -> None:
    """No italics and no bullets for readers with low vision: the rules that the edition names itself."""
    taken = commission(tmp_path)
    page = render(taken, print_edition("A4"))
    assert "b.label{font-weight:400}" in page
    assert ".note,.section-notes .prose" in page
    assert ".prose ul{list-style:none" in page
    large = render(taken, print_edition("A4", "large-print"))
    assert "b.label{font-weight:400}" in large
    assert "font-style:italic" not in large
    assert ".prose ul{list-style:none;padding-left:0}" not in large
    bullets = HOUSE.read_text(encoding="utf-8").replace("lists: plain", "lists: bullets")
    folder = tmp_path / "bullets"
    folder.mkdir()
    assert "list-style:disc" not in render(commission(folder, house=bullets), print_edition("A4", "large-print"))


def test_the_fragment_says_it_with_tags(tmp_path: Path) -> None:
    files, _ = write_fragment(commission(tmp_path))
    html = next(data for name, data in files.items() if name.endswith(".html")).decode()
    assert re.search(
        r"<p id=\"[^\"]*\">R1 \[RS\]: Sc in 2nd ch.*?turn\.<br><strong>– 32 \(48\) sc\.</strong></p>", html
    )
    assert "<p>Count often.</p>" in html
    assert "<li>Count often.</li>" not in html
    assert "<p><em>Work a swatch larger" in html
    assert html.index(">Instructions</h2>") < html.index(">Materials</h2>")


def test_upright_notes_have_no_slanted_letter(tmp_path: Path) -> None:
    house = HOUSE.read_text(encoding="utf-8").replace("notes: italic", "notes: upright")
    files, _ = write_fragment(commission(tmp_path, house=house))
    html = next(data for name, data in files.items() if name.endswith(".html")).decode()
    assert "<em>" not in html
    assert "a <strong>light</strong> hand" in html


def test_plain_text_keeps_its_sentences_and_the_order_of_the_house(tmp_path: Path) -> None:
    files, _ = write_text(commission(tmp_path))
    text = next(data for name, data in files.items() if name.endswith("US-text.txt")).decode()
    assert "Row 1, right side." in text
    assert "Chain 1. Turn.\nSize Small: You have 32 single crochets." in text
    row_4 = next(line for line in text.splitlines() if line.startswith("Row 4."))
    assert row_4 == "Row 4. Single crochet in each stitch across. Chain 1. Turn."
    assert "R1" not in text
    assert text.index("\nHook: US H-8") > 0
    assert re.search(r"^\d+\. Instructions$.*^\d+\. Materials$", text, re.MULTILINE | re.DOTALL)


def test_without_a_style_nothing_is_printed_from_trees(tmp_path: Path) -> None:
    taken = commission(tmp_path, house="name: Plain\n")
    assert taken.manuscript.rows == {}
    page, _ = render_booklet(taken.manuscript, print_edition("A4"), taken.theme)
    assert "css/house.css" not in page.resources
    assert "house.css" not in page.html
    assert "Row 1 (RS):" in words_of(page.html)


def test_the_same_source_and_style_give_the_same_page(tmp_path: Path) -> None:
    assert render(commission(tmp_path), WEB_EDITION) == render(commission(tmp_path), WEB_EDITION)
