"""Every demo pattern in every theme, made once in a session and shared by all tests that look at what is made.

A test that takes `book` runs for each demo in each theme, one that takes `demo_book` for each demo in the first
theme. Where tests run side by side, all those of one book go to one worker (`pytest -n 2 --dist loadgroup`), and
all other tests of a file to one.
"""

import json
import re
import time
from dataclasses import dataclass
from functools import cached_property
from pathlib import Path

import pypdfium2
import pytest
from hypothesis import settings

from booklet.model.editions import EDITIONS
from booklet.pipeline import Order, Proof, list_sources, make_booklet, prove_file

settings.register_profile("repeatable", derandomize=True)  # the same examples in every run, on every machine
settings.register_profile("searching")  # others in each: `pytest --hypothesis-profile searching`
settings.load_profile("repeatable")

CONTENT = Path(__file__).parents[1] / "content"
DEMOS = tuple(Path(source).name for source in list_sources([str(CONTENT)]))
FIRST_THEME = "wayside"
PAPERS = {FIRST_THEME: ("A4", "Letter"), "fallow": ("A4",), "headland": ("Letter",)}
"""The papers on which each theme's books are set. The first theme has every edition of `ON_BOTH` on both."""
ON_BOTH = "lantern-hat"
IN_THEME = {"fallow": ("hedgerow-hare",), "headland": ("millpond-tee",)}
"""The demos that are made in the further themes: what differs there is style, and making all takes too long."""
FURTHER = ("print", "handout", "large-print", "folded", "tester", "web")  # editions that look different in a theme
ON_PAPER = ("print", "single-size", "handout", "large-print", "folded", "tester")
LONGEST_WAIT_S = 900.0
_FORM = re.compile(r"-U[SK]-(?P<words>.*?)(?P<paper>A4|Letter|A5|Half-Letter)(?P<folds>-to-fold-on-\w+)?\.pdf$")


@dataclass(frozen=True)
class Pdf:
    """One PDF: which edition it is, and for which of the sizes, by its place, where it is for one alone."""

    path: Path
    edition: str
    paper: str
    size: int | None
    is_imposed: bool

    @cached_property
    def document(self) -> pypdfium2.PdfDocument:
        return pypdfium2.PdfDocument(self.path)

    @cached_property
    def texts(self) -> list[str]:
        return [page.get_textpage().get_text_range() for page in self.document]


@dataclass(frozen=True)
class Book:
    """All that is made of one demo in one theme."""

    demo: str
    theme: str
    source: str
    proof: Proof
    paths: tuple[Path, ...]

    @cached_property
    def sizes(self) -> tuple[str, ...]:
        assert self.proof.pattern is not None
        return self.proof.pattern.size_names

    @property
    def alone(self) -> tuple[int, ...]:
        """By its place, each size that has a booklet of its own in the first theme."""
        return tuple(self.sizes.index(name) for name in choose_alone(self.demo, self.sizes))

    @cached_property
    def pdfs(self) -> tuple[Pdf, ...]:
        return tuple(self._read(path) for path in self.paths if path.suffix == ".pdf")

    def _read(self, path: Path) -> Pdf:
        found = _FORM.search(path.name)
        assert found is not None, path.name
        words = found["words"]
        size = next((at for at, name in enumerate(self.sizes) if name and words.startswith(f"{name}-")), None)
        form = words.removeprefix(f"{self.sizes[size]}-") if size is not None else words
        edition = form.rstrip("-") or ("folded" if found["paper"] in ("A5", "Half-Letter") else "print")
        edition = "single-size" if edition == "print" and size is not None else edition
        return Pdf(path, edition, found["paper"], size, found["folds"] is not None)

    def pick(self, ending: str) -> Path:
        """The one file of all sizes with that ending, such as `web.html`."""
        (path,) = (path for path in self.paths if re.search(rf"-v[\d.]+-U[SK]-{re.escape(ending)}$", path.name))
        return path


BOOKS = [(demo, theme) for theme in PAPERS for demo in IN_THEME.get(theme, DEMOS)]


def choose_alone(demo: str, sizes: tuple[str, ...]) -> tuple[str, ...]:
    """The sizes that get booklets of their own: all of one demo, the first and the last of the others."""
    if len(sizes) == 1:
        return ()
    return sizes if demo == ON_BOTH else (sizes[0], sizes[-1])


def choose_papers(demo: str, theme: str) -> tuple[str, ...]:
    """The papers of the theme, all of them for one demo; the others are set on one, by turns, as all take too long."""
    if demo == ON_BOTH or len(PAPERS[theme]) == 1:
        return PAPERS[theme]
    return (PAPERS[theme][DEMOS.index(demo) % len(PAPERS[theme])],)


class Shelf:
    """Books by demo and theme, each made when it is first asked for, once for all workers of a session."""

    def __init__(self, out: Path) -> None:
        self.out = out
        self.books: dict[tuple[str, str], Book] = {}

    def take(self, demo: str, theme: str = FIRST_THEME) -> Book:
        if (demo, theme) not in self.books:
            self.books[demo, theme] = self._fetch(demo, theme)
        return self.books[demo, theme]

    def _fetch(self, demo: str, theme: str) -> Book:
        """The book as another worker has made it, or made here where none has begun."""
        source = str(CONTENT / demo)
        done = self._begin(demo, theme)
        until = time.monotonic() + LONGEST_WAIT_S
        while not done.exists():
            assert time.monotonic() < until, f"no worker has made {demo} in {theme}"
            if not self._help():
                time.sleep(0.5)
        paths = tuple(Path(path) for path in json.loads(done.read_text()))
        assert paths, f"{demo} was not made in {theme}"
        return Book(demo, theme, source, prove_file(source), paths)

    def _help(self) -> bool:
        """Makes a book that nobody has begun, while another worker makes the one that is wanted here."""
        for demo, theme in reversed(BOOKS):
            if not (self.out / f"{demo}-{theme}.begun").exists():
                self._begin(demo, theme)
                return True
        return False

    def _begin(self, demo: str, theme: str) -> Path:
        """Makes the book unless it has been begun; gives the file that lists what was made, once it is."""
        begun, done = self.out / f"{demo}-{theme}.begun", self.out / f"{demo}-{theme}.json"
        try:
            begun.mkdir(parents=True)
        except FileExistsError:
            return done
        made: list[str] = []
        try:
            made = [str(path) for path in self._make(prove_file(str(CONTENT / demo)), demo, theme)]
        finally:  # one that fails fails for all: nobody waits for it
            waiting = done.with_suffix(".part")
            waiting.write_text(json.dumps(made))
            waiting.rename(done)
        return done

    def _make(self, proof: Proof, demo: str, theme: str) -> tuple[Path, ...]:
        assert proof.pattern is not None
        papers, sizes = choose_papers(demo, theme), proof.pattern.size_names
        editions, alone = FURTHER, sizes[-1:] if len(sizes) > 1 else ()
        if theme == FIRST_THEME:
            editions, alone = tuple(name for name in EDITIONS if name != "single-size"), choose_alone(demo, sizes)
        orders = [Order(self.out / theme, editions, papers, theme)]
        if alone:
            orders.append(Order(self.out / theme, ("print",), papers[:1], theme, sizes=alone))
        paths: dict[Path, None] = {}
        for order in orders:
            made, findings = make_booklet(proof, order)
            assert [finding.message for finding in findings] == [], (demo, theme)
            paths |= dict.fromkeys(made)
        return tuple(paths)


@pytest.fixture(scope="session")
def shelf(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> Shelf:
    base = tmp_path_factory.getbasetemp()
    return Shelf((base.parent if hasattr(request.config, "workerinput") else base) / "shelf")


def name_book(demo: str, theme: str = FIRST_THEME) -> str:
    return f"{demo}-{theme}"


@pytest.fixture(
    scope="session",
    params=BOOKS,
    ids=[name_book(demo, theme) for demo, theme in BOOKS],
)
def book(request: pytest.FixtureRequest, shelf: Shelf) -> Book:
    return shelf.take(*request.param)


@pytest.fixture(scope="session", params=DEMOS)
def demo_book(request: pytest.FixtureRequest, shelf: Shelf) -> Book:
    return shelf.take(request.param)


@pytest.hookimpl(tryfirst=True)  # what runs tests side by side reads the groups in the same hook
def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Which worker a test goes to. Those of books come first, since they take longest."""
    items.sort(key=lambda item: _name_book_of(item) == "")
    for item in items:
        group = _name_book_of(item) or str(item.path.relative_to(item.config.rootpath))
        item.add_marker(pytest.mark.xdist_group(group.replace("@", "-")))


def _name_book_of(item: pytest.Item) -> str:
    """The book that a test looks at: by its parameter or by the marker `of_book`."""
    mark = item.get_closest_marker("of_book")
    if mark is not None:
        return name_book(*mark.args)
    params = getattr(getattr(item, "callspec", None), "params", {})
    if "book" in params:
        return name_book(*params["book"])
    return name_book(params["demo_book"]) if "demo_book" in params else ""
