"""The figures of measures and yarn: the same in the proof's JSON, on the web page and in the PDF of every demo.

The expected cells are made here from the JSON, by rules written out once more; nothing of the pages is used.
"""

import html
import math
import re
from collections.abc import Sequence
from html.parser import HTMLParser
from typing import Any

import pypdfium2
import pytest

from booklet.account import proof_as_json

YARN, SIZES = "Yarn: what is needed, bought and left", "Measures by size, after blocking"
METRES_PER_YARD = 0.9144  # NIST Handbook 44, appendix C


class TableReader(HTMLParser):
    """Every table of a page by its caption: rows of cells, spaces and lines of a cell run together."""

    def __init__(self, page: str) -> None:
        super().__init__()
        self.tables: dict[str, list[list[str]]] = {}
        self.rows: list[list[str]] = []
        self.caption = ""
        self.open = ""
        self.feed(page)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        if tag == "table":
            self.rows, self.caption = [], ""
        if tag == "tr":
            self.rows.append([])
        if tag in ("td", "th"):
            self.rows[-1].append("")
        if tag in ("td", "th", "caption"):
            self.open = tag

    def handle_endtag(self, tag: str) -> None:
        if tag in ("td", "th", "caption"):
            self.open = ""
        if tag == "table":
            self.tables[self.caption.strip()] = [[squeeze(cell) for cell in row] for row in self.rows]

    def handle_data(self, data: str) -> None:
        if self.open == "caption":
            self.caption += data
        elif self.open:
            self.rows[-1][-1] += data


def squeeze(text: str) -> str:
    """The text without its spaces, thin ones too."""
    return re.sub(r"[\s\u00a0\u202f\u2009\ufffe\u00ad]+", "", html.unescape(text))


def round_up(number: float) -> int:
    return math.ceil(number - 1e-4)


def round_down(number: float) -> int:
    return math.floor(number + 1e-4)


def show_cm(cm: float) -> str:
    return f"{math.floor(cm * 2 + 0.5 + 1e-4) / 2:g}"


def show_inches(inches: float) -> str:
    quarters = math.floor(inches * 4 + 0.5 + 1e-4)
    return f"{quarters // 4 or ''}{['', '¼', '½', '¾'][quarters % 4]}" or "0"


def list_yarn_rows(plain: dict[str, Any], sizes: Sequence[str]) -> list[list[str]]:
    """The cells of each line as they must be printed, letters and names of colours aside."""
    yarn = plain["amounts"]["yarn"]
    rows = []
    for size in sizes:
        needs = [need for need in yarn["needs"] if need["size"] == size]
        # Of a single colour there is no total besides.
        for need in [*needs, yarn["totals"][size]] if len(needs) > 1 else needs:
            metres, bought, left = need["metres"], need["metres_to_buy"], need["left_metres"]
            rows.append([
                f"{round_up(metres)}m{round_up(metres / METRES_PER_YARD)}yd",
                f"{round_up(bought)}m{round_up(bought / METRES_PER_YARD)}yd,{round_up(need['grams'])}g",
                str(need["balls"]),
                f"{round_down(left)}m{round_down(left / METRES_PER_YARD)}yd",
                f"{need['how']}{round_down(need['low_metres'])}–{round_up(need['high_metres'])}m",
            ])  # fmt: skip
    return rows


def list_measure_rows(plain: dict[str, Any]) -> list[list[str]]:
    """What is planned, what comes of it, and the difference, for each measure that has a target."""
    rows = []
    for measure in plain["amounts"]["measures"]:
        pairs = list(zip(measure["cm"], measure["inches"], measure["count"], strict=True))
        if measure["target"]:
            rows.append([f"{show_cm(cm)}cm{show_inches(cm / 2.5)}in" for cm in measure["target"]])
        rows.append(
            [
                f"{show_cm(cm)}cm{show_inches(inch)}in{count}{'rnds' if measure['in_rounds'] else measure['unit']}"
                for cm, inch, count in pairs
            ]
        )
        if measure["target"]:
            rows.append([
                "0" if show_cm(abs(off)) == "0" else f"{'+' if off > 0 else '−'}{show_cm(abs(off))}cm"
                for off in measure["difference"]
            ])  # fmt: skip
    return rows


def list_planned_rows(book: Any) -> list[list[str]]:
    """What the sizes are planned to measure, where no finished measure is held against it."""
    pattern, measures = book.proof.pattern, book.proof.amounts.measures
    held = {measure.target_name for measure in measures}
    names = dict.fromkeys(name for size in pattern.sizes for name in size.measures if name not in held)
    planned = [[size.measures[name].cm for size in pattern.sizes] for name in names]
    return [[f"{show_cm(cm)}cm{show_inches(cm / 2.5)}in" for cm in cells] for cells in planned]


def drop_brackets(cell: str) -> str:
    return cell.replace("(", "").replace(")", "")


@pytest.mark.slow
def test_json_page_and_pdf_say_the_same(demo_book: Any) -> None:
    plain: dict[str, Any] = proof_as_json(demo_book.proof)
    yarn, measures = list_yarn_rows(plain, plain["sizes"]), [*list_planned_rows(demo_book), *list_measure_rows(plain)]
    tables = TableReader(demo_book.pick("web.html").read_text(encoding="utf-8")).tables
    assert [row[1:] for row in tables[YARN][1:]] == yarn
    assert [[drop_brackets(cell) for cell in row[1:]] for row in tables[SIZES][1:]] == measures

    document = pypdfium2.PdfDocument(demo_book.pick("A4.pdf"))
    printed = drop_brackets(squeeze("".join(page.get_textpage().get_text_range() for page in document)))
    for row, heads in zip((*yarn, *measures), (*tables[YARN][1:], *tables[SIZES][1:]), strict=True):
        assert drop_brackets(heads[0]) + "".join(row) in printed
