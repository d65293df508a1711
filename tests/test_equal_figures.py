"""The figures of measures and yarn: the same in the proof's JSON, on the web page and in the PDFs of every demo.

Buyers get what is to be bought and what the piece measures, testers the plan, the need and how sure it is as well.

The expected cells are made here from the JSON, by rules written out once more; nothing of the pages is used.
"""

import html
import math
import re
from collections.abc import Callable, Sequence
from html.parser import HTMLParser
from pathlib import Path
from typing import Any

import pypdfium2
import pytest

from booklet.account import proof_as_json
from booklet.pipeline import Order, make_booklet, prove_file

CONTENT = Path(__file__).parents[1] / "content"
SOURCES = sorted(str(folder) for folder in CONTENT.iterdir() if folder.is_dir())
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
    """The cells of each line of a tester's copy, heads aside; totals as a reader adds them up."""
    yarn = plain["amounts"]["yarn"]
    rows = []
    ways = {need["how"] for need in [*yarn["needs"], *yarn["totals"].values()]}
    said = "" if len(ways) == 1 else "{how}"  # told once at the head of the column
    for size in sizes:
        of_size = [need for need in yarn["needs"] if need["size"] == size]
        for needs, whole in [*(([need], need) for need in of_size), (of_size, yarn["totals"][size])]:
            need, bought, left = ([one[key] for one in needs] for key in ("metres", "metres_to_buy", "left_metres"))
            lows = sum(round_down(one["low_metres"]) for one in needs)
            highs = sum(round_up(one["high_metres"]) for one in needs)
            rows.append([
                add_up(need, round_up),
                f"{add_up(bought, round_up)},{sum(round_up(one['grams']) for one in needs)}g",
                str(whole["balls"]),
                add_up(left, round_down),
                f"{said.format(how=whole['how'])}{lows}–{highs}m",
            ])  # fmt: skip
    return rows


def add_up(metres: Sequence[float], rounded: Callable[[float], int]) -> str:
    return f"{sum(map(rounded, metres))}m{sum(rounded(length / METRES_PER_YARD) for length in metres)}yd"


def list_buys(plain: dict[str, Any]) -> set[str]:
    """The cells of the table of what to buy, in no order."""
    yarn = plain["amounts"]["yarn"]
    by_size = [[need for need in yarn["needs"] if need["size"] == size] for size in plain["sizes"]]
    groups = [*([need] for need in yarn["needs"]), *by_size]
    cells = set()
    for needs in groups:
        grams, balls = sum(round_up(need["grams"]) for need in needs), sum(need["balls"] for need in needs)
        length = add_up([need["metres_to_buy"] for need in needs], round_up)
        cells.add(f"{length}{grams}g{balls}ball{'' if balls == 1 else 's'}")
    return cells


def list_own_rows(plain: dict[str, Any]) -> list[list[str]]:
    """What the sizes themselves give and no finished measure stands for, such as a bust."""
    return [
        [f"{show_cm(cm)}cm{show_inches(inch)}in" for cm, inch in zip(own["cm"], own["inches"], strict=True)]
        for own in plain["own_measures"]
    ]


def list_measure_rows(plain: dict[str, Any], with_plan: bool) -> list[list[str]]:
    """What comes of each measure; for testers between what is planned and the difference, where it has a target."""
    rows = []
    for measure in plain["amounts"]["measures"]:
        pairs = list(zip(measure["cm"], measure["inches"], measure["count"], strict=True))
        if measure["target"] and with_plan:
            rows.append([f"{show_cm(cm)}cm{show_inches(cm / 2.5)}in" for cm in measure["target"]])
        rows.append(
            [
                f"{show_cm(cm)}cm{show_inches(inch)}in{count}{'rnds' if measure['in_rounds'] else measure['unit']}"
                for cm, inch, count in pairs
            ]
        )
        if measure["target"] and with_plan:
            rows.append([
                "0" if show_cm(abs(off)) == "0" else f"{'+' if off > 0 else '−'}{show_cm(abs(off))}cm"
                for off in measure["difference"]
            ])  # fmt: skip
    return rows


def drop_brackets(cell: str) -> str:
    return cell.replace("(", "").replace(")", "")


@pytest.mark.slow
@pytest.mark.parametrize("source", SOURCES)
def test_json_page_and_pdf_say_the_same(source: str, tmp_path: Path) -> None:
    proof = prove_file(source)
    plain: dict[str, Any] = proof_as_json(proof)
    paths, _ = make_booklet(proof, Order(tmp_path, ("print", "tester", "web"), ("A4",)))
    (page,) = (path for path in paths if path.suffix == ".html")
    tables = TableReader(page.read_text(encoding="utf-8")).tables
    sizes, buy = take_table(tables, "Measures"), take_table(tables, "Yarn to buy")
    measures = [*list_own_rows(plain), *list_measure_rows(plain, with_plan=False)]
    assert [[drop_brackets(cell) for cell in row[1:]] for row in sizes] == measures
    buys = [drop_brackets(cell) for row in buy for cell in row[1:]]
    assert {buy.replace("g,", "g") for buy in buys} == list_buys(plain)

    tester, book = sorted((path for path in paths if path.suffix == ".pdf"), key=lambda path: "tester" not in path.name)
    printed = read_pages(book)
    for row, heads in zip(measures, sizes, strict=True):
        assert stands_in(printed, drop_brackets(heads[0]), row)
    assert all(cell in printed for cell in buys)
    told = read_pages(tester)
    for row in (*list_yarn_rows(plain, plain["sizes"]), *list_measure_rows(plain, with_plan=True)):
        assert "".join(row) in told


def take_table(tables: dict[str, list[list[str]]], caption: str) -> list[list[str]]:
    """The lines of the table whose caption begins so, a line for each measure or colour: its head line aside."""
    (lines,) = (lines for name, lines in tables.items() if name.startswith(caption))
    return lines[1:]


def stands_in(printed: str, head: str, row: list[str]) -> bool:
    """Whether the line stands there, whole or in the two parts of a table too wide for its page, its head in each."""
    return any(
        all(head + "".join(part) in printed for part in (row[:cut], row[cut:]) if part)
        for cut in range(1, len(row) + 1)
    )


def read_pages(book: Path) -> str:
    """All text of a PDF without its spaces and brackets."""
    document = pypdfium2.PdfDocument(book)
    return drop_brackets(squeeze("".join(page.get_textpage().get_text_range() for page in document)))
