"""A garment in one size, laid on A4: what only its many steps and measures show."""

from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from booklet.editions.commission import take_commission
from booklet.editions.one_size import take_one_size
from booklet.output.pdf import LaidPages, PrintJob, lay_pages
from booklet.pages.edition import print_edition
from booklet.pages.render import render_booklet
from booklet.pages.theme import load_theme
from booklet.pipeline import prove_file

TEE = Path(__file__).parents[2] / "content" / "millpond-tee"


@pytest.fixture(scope="module")
def laid() -> LaidPages:
    """Without pictures, which would only take time."""
    proof = prove_file(str(TEE))
    assert proof.parsed is not None
    assert proof.worked is not None
    assert proof.amounts is not None
    theme, _ = load_theme("")
    commission, _ = take_commission(proof.parsed, proof.worked, proof.amounts, theme)
    alone, _ = take_one_size(commission, 2, draws=False)
    page, _ = render_booklet(replace(alone.manuscript, pictures=()), print_edition("A4"), theme)
    return lay_pages(PrintJob("print", page.html, page.resources, theme.font_folders, proof.source.whole()))


def list_boxes(box: Any) -> Iterator[Any]:
    yield box
    for child in getattr(box, "children", ()):
        yield from list_boxes(child)


def test_no_table_reaches_over_the_margin(laid: LaidPages) -> None:
    assert [number for number, page in enumerate(laid.pages, start=1) if page.is_too_wide] == []


def test_each_step_begins_a_line_of_its_own(laid: LaidPages) -> None:
    """Those without a label too: "Rep last row once more", then "Fasten off"."""
    rows = [
        box
        for page in laid.document.pages
        for box in list_boxes(page._page_box)
        if box.element_tag == "p" and "row" in (box.element.get("class") or "").split()
    ]
    assert len(rows) > 60
    assert {type(box).__name__ for box in rows} - {"LineBox", "TextBox"} == {"BlockBox"}
