"""Pages as HTML: what stands in them, in which order, and that nothing else can get in."""

import re
from collections import Counter
from dataclasses import replace
from html.parser import HTMLParser
from itertools import pairwise
from pathlib import Path

import pytest

from booklet.model.amounts import Amounts
from booklet.model.pattern import Part, Pattern, Prose, RowLine, SizedPattern
from booklet.model.work import Reading, WorkedPattern
from booklet.pages.edition import WEB_EDITION, Edition, print_edition
from booklet.pages.manuscript import BookletInput
from booklet.pages.render import render_booklet
from booklet.pages.theme import Theme, load_theme
from booklet.pipeline import prove_text
from booklet.source import SourceFile

A4 = print_edition("A4")


class Elements(HTMLParser):
    """Every start tag with its attributes, the headings with their text, and the stack at each `li` and `a`."""

    def __init__(self, html: str) -> None:
        super().__init__()
        self.tags: list[tuple[str, dict[str, str | None]]] = []
        self.headings: list[tuple[int, str]] = []
        self.nested: list[tuple[str, str]] = []
        self.stack: list[str] = []
        self.feed(html)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append((tag, dict(attrs)))
        if self.stack:
            self.nested.append((self.stack[-1], tag))
        if tag not in ("meta", "link", "img", "br", "input"):
            self.stack.append(tag)
        if re.fullmatch("h[1-6]", tag):
            self.headings.append((int(tag[1]), ""))

    def handle_endtag(self, tag: str) -> None:
        while self.stack and self.stack.pop() != tag:
            pass

    def handle_data(self, data: str) -> None:
        if any(re.fullmatch("h[1-6]", tag) for tag in self.stack):
            level, text = self.headings[-1]
            self.headings[-1] = (level, text + data)


@pytest.fixture
def theme() -> Theme:
    return load_theme("")[0]


@pytest.fixture(params=["blanket", "hat"])
def manuscript(request: pytest.FixtureRequest) -> BookletInput:
    chosen: BookletInput = request.getfixturevalue(request.param)
    return chosen


@pytest.fixture(params=[A4, print_edition("Letter"), WEB_EDITION], ids=["A4", "Letter", "web"])
def edition(request: pytest.FixtureRequest) -> Edition:
    chosen: Edition = request.param
    return chosen


def test_sections_stand_in_the_customary_order(blanket: BookletInput, theme: Theme) -> None:
    page, findings = render_booklet(blanket, A4, theme)
    assert findings == ()
    assert [text for level, text in Elements(page.html).headings if level == 2] == [
        "At a glance", "Sizes", "Materials", "Colours", "Gauge", "Abbreviations", "Terms used", "Special stitches",
        "Notes", "Instructions", "Finishing", "Colour plan", "Schematic", "Care", "Safety notes", "About this pattern",
    ]  # fmt: skip


def test_headings_start_with_one_h1_and_skip_no_level(manuscript: BookletInput, edition: Edition, theme: Theme) -> None:
    levels = [level for level, _ in Elements(render_booklet(manuscript, edition, theme)[0].html).headings]
    assert levels[0] == 1
    assert levels.count(1) == 1
    assert all(after <= before + 1 for before, after in pairwise(levels))


@pytest.mark.parametrize("before", ["", "Words before any heading.\n\n"])
def test_headings_of_the_author_within_a_section_skip_no_level(before: str, theme: Theme) -> None:
    """WCAG 2.2, technique G141: headings in order, none left out."""
    body = f"{before}## Notes\n\nA.\n\n### Longer\n\nB.\n\n#### Much longer\n\nC.\n\n## Hat\n\nRow 1: Ch 5.\n"
    proof = prove_text(f"---\ntitle: Hat\nterms: US\nhook: 4 mm\n---\n\n{body}", "hat.md")
    assert proof.sized is not None
    assert proof.worked is not None
    assert proof.amounts is not None
    html = render_booklet(BookletInput(proof.sized, proof.worked, proof.amounts), A4, theme)[0].html
    headings = Elements(html).headings
    assert (3, "Longer") in headings
    assert (4, "Much longer") in headings
    assert all(after[0] <= before[0] + 1 for before, after in pairwise(headings))


def test_what_tagged_pdf_forbids_is_not_there(manuscript: BookletInput, edition: Edition, theme: Theme) -> None:
    elements = Elements(render_booklet(manuscript, edition, theme)[0].html)
    blocks = {"p", "div", "table", "ul", "ol", "figure", "section"}
    assert not [pair for pair in elements.nested if pair[0] == "li" and pair[1] in blocks - {"ul", "ol"}]
    assert not [pair for pair in elements.nested if pair == ("a", "img")]
    assert all(attributes.get("alt") for tag, attributes in elements.tags if tag == "img")
    languages = [attributes.get("lang") for tag, attributes in elements.tags if tag == "html"]
    assert languages in (["en-US"], ["en-GB"])
    identifiers = Counter(attributes["id"] for _, attributes in elements.tags if "id" in attributes)
    assert max(identifiers.values()) == 1
    links = {attributes["href"] for tag, attributes in elements.tags if tag == "a"}
    assert {link[1:] for link in links if link and link.startswith("#")} <= set(identifiers)


def test_the_web_page_asks_for_nothing(manuscript: BookletInput, theme: Theme) -> None:
    page, _ = render_booklet(manuscript, WEB_EDITION, theme)
    assert page.resources == {}
    assert re.findall("<script[^>]*>", page.html) == ["<script>"]  # its own, of which the policy holds the hash
    elements = Elements(page.html)
    sources = [attributes.get("src", "") for tag, attributes in elements.tags if tag == "img"]
    assert all(source and source.startswith("data:image/") for source in sources)
    assert all((attributes.get("href") or "").startswith("data:") for tag, attributes in elements.tags if tag == "link")
    assert not re.findall(r"url\((?!data:)|@import", page.html)


def test_every_file_that_the_printed_booklet_names_comes_with_it(manuscript: BookletInput, theme: Theme) -> None:
    page, _ = render_booklet(manuscript, A4, theme)
    elements = Elements(page.html)
    named = {attributes["src"] for tag, attributes in elements.tags if tag == "img"}
    named |= {attributes["href"] for tag, attributes in elements.tags if tag == "link"}
    assert named == set(page.resources)


def test_the_same_input_gives_the_same_page(manuscript: BookletInput, edition: Edition, theme: Theme) -> None:
    assert render_booklet(manuscript, edition, theme) == render_booklet(manuscript, edition, theme)


def test_each_row_of_the_web_page_has_a_box_with_a_name(blanket: BookletInput, theme: Theme) -> None:
    elements = Elements(render_booklet(blanket, WEB_EDITION, theme)[0].html)
    boxes = [attributes["aria-label"] for tag, attributes in elements.tags if tag == "input"]
    assert boxes[:3] == ["Foundation done", "Row 1 (RS) done", "Row 2 (WS) done"]
    assert len(boxes) == len(set(boxes)) == 124


def test_rules_that_the_counts_decided_are_printed_once_without_their_reason(
    blanket: BookletInput, theme: Theme
) -> None:
    span = blanket.pattern.source.span(0, 3)
    told = "ch 2 at the start of a row counts as a stitch (decided by the count of {})"
    readings = (Reading(told.format("Row 2"), span), Reading(told.format("Row 9"), span))
    settled = replace(blanket, worked=replace(blanket.worked, readings=readings))
    html = render_booklet(settled, A4, theme)[0].html
    notes = html[html.index('id="notes"') : html.index('id="instructions"')]
    assert notes.count("Ch 2 at the start of a row counts as a stitch.") == 1
    assert "decided by" not in html
    assert "Ch 1 at the start of a row does not count as a stitch." in notes  # the author's own stands as written


def test_the_instructions_say_how_their_numbers_are_read(blanket: BookletInput, theme: Theme) -> None:
    html = render_booklet(blanket, A4, theme)[0].html
    start = html[html.index('id="instructions"') : html.index('id="piece-1"')]
    assert "Cot (Lap, Throw)" in start
    assert "width, a multiple of 2 sts plus 1" in start


def test_sizes_are_named_above_the_lists_of_their_numbers(hat: BookletInput, theme: Theme) -> None:
    html = render_booklet(hat, A4, theme)[0].html
    pieces = html.split('<div class="piece"')[1:]
    names = '<p class="size-order only">Baby (Toddler, Child, Adult S, Adult L)</p>'
    named = [piece for piece in pieces if names in piece]
    assert named
    assert all("56 (62, 66, 72, 78)" in piece for piece in named)


def test_sizes_are_named_once_for_a_piece_whose_rows_stand_under_smaller_headings(
    blanket: BookletInput, theme: Theme
) -> None:
    web = render_booklet(blanket, WEB_EDITION, theme)[0].html
    whole, *parts = re.findall(r'<p class="size-order only( of-parts)?">Cot \(Lap, Throw\)</p>', web)
    assert whole == " of-parts"
    assert parts
    assert not any(parts)  # a style hides these where their piece says it


def test_cautions_are_told_at_a_glance_with_the_way_to_them(
    blanket: BookletInput, hat: BookletInput, theme: Theme
) -> None:
    for edition in (A4, WEB_EDITION):
        html = render_booklet(blanket, edition, theme)[0].html
        glance = html[html.index('id="at-a-glance"') : html.index('id="sizes"')]
        assert 'See the <a href="#safety">safety notes</a>' in glance
        assert ": not in the cot of a sleeping baby; loose ends and holes" in glance
        assert "Safety" not in render_booklet(hat, edition, theme)[0].html  # which has no cautions


def test_pictures_on_the_screen_keep_their_room_and_wait(blanket: BookletInput, theme: Theme) -> None:
    images = [attributes for tag, attributes in Elements(render_booklet(blanket, WEB_EDITION, theme)[0].html).tags
              if tag == "img"]  # fmt: skip
    assert all(int(image["width"] or 0) > 0 and int(image["height"] or 0) > 0 for image in images)
    assert [image.get("loading") for image in images] == [None, *["lazy"] * (len(images) - 1)]


def test_an_authors_text_is_escaped_everywhere(blanket: BookletInput, theme: Theme) -> None:
    evil = "<script>alert('{{ 7 * 7 }}')</script>"
    pattern = replace(
        blanket.pattern, title=evil, summary=evil, designer=evil, level=evil, care=evil, kind=evil, notions=(evil,),
        publisher=replace(blanket.pattern.publisher, name=evil, contact=evil, licence=evil),
        colours=(replace(blanket.pattern.colours[0], name=evil, letter='"><script>', shade="red;}</style><script>"),),
    )  # fmt: skip
    hostile = replace(blanket, sized=replace(blanket.sized, pattern=pattern))
    for edition in (A4, WEB_EDITION):
        html = render_booklet(hostile, edition, theme)[0].html
        assert html.count("<script") == (edition == WEB_EDITION)
        assert "49" not in re.findall(r"<title>(.*?)</title>", html)[0]


def test_a_pattern_with_nothing_but_a_title_and_rows_can_be_laid_out(theme: Theme, edition: Edition) -> None:
    source = SourceFile("plain.md", "---\ntitle: Plain\n---\nRow 1: 5 sc. (5)\n")
    at = source.text.index("Row 1")
    row = RowLine(source.text[at:-1], source.span(at, len(source.text) - 1))
    part = Part("", 2, (row,), row.span)
    sized = SizedPattern(Pattern(source, "plain", "Plain", (part,), made_for=""), {})
    plain = BookletInput(sized, WorkedPattern(()), Amounts((), None, (), (), ()))
    page, findings = render_booklet(plain, edition, theme)
    assert findings == ()
    assert [text for level, text in Elements(page.html).headings if level < 3] == [
        "Plain", "At a glance", "Terms used", "Instructions",
    ]  # fmt: skip


def test_sizes_become_lines_where_there_are_many(blanket: BookletInput, theme: Theme) -> None:
    names = tuple(f"Size {number}" for number in range(1, 10))
    size = blanket.pattern.sizes[0]
    pattern = replace(
        blanket.pattern,
        sizes=tuple(replace(size, name=name) for name in names),
        publisher=replace(blanket.pattern.publisher),
    )
    measures = tuple(
        replace(m, cm=m.cm[:1] * 9, inches=m.inches[:1] * 9, count=m.count[:1] * 9) for m in blanket.amounts.measures
    )
    many = replace(
        blanket,
        sized=replace(blanket.sized, pattern=pattern),
        amounts=replace(blanket.amounts, measures=measures, yarn=None),
    )
    html = render_booklet(many, A4, theme)[0].html
    table = html[html.index('id="sizes"') : html.index("</table>", html.index('id="sizes"'))]
    assert table.count("<tr>") == 1 + 9
    assert '<th scope="row" class="whole">Size 9</th>' in table


def test_error_a_name_in_prose_without_value_is_told(blanket: BookletInput, theme: Theme) -> None:
    source = blanket.pattern.source
    at = source.text.index("{width} sc)")
    prose = Prose("{widht}", source.span(at, at + 7))
    part = Part("Notes", 2, (prose,), source.span(at))
    odd = replace(blanket, sized=replace(blanket.sized, pattern=replace(blanket.pattern, parts=(part,))))
    _, (finding,) = render_booklet(odd, A4, theme)
    assert (finding.code, finding.fix) == ("name-not-filled", 'write "{width}"')


@pytest.mark.parametrize(
    ("template", "line"),
    [
        ("<p>\n{{ book.titel }}</p>", 2),
        ("<p>\n{% if %}</p>", 2),
        ("{{ range(3) }}", 1),
        ("{{ book.__class__ }}", 1),
        ("{% include '../../theme.yaml' %}", 1),
        ("{{ 1 / 0 }}", 1),
        ("{% include 'print.html' %}", 1),
    ],
)
def test_error_a_template_that_fails_is_a_finding(tmp_path: Path, hat: BookletInput, template: str, line: int) -> None:
    folder = tmp_path / "shop"
    (folder / "templates").mkdir(parents=True)
    (folder / "theme.yaml").write_text("based on: wayside\n", encoding="utf-8")
    (folder / "templates" / "print.html").write_text(template, encoding="utf-8")
    theme, none = load_theme("shop", [tmp_path])
    assert none == ()
    page, (finding,) = render_booklet(hat, A4, theme)
    assert page.html == ""
    assert finding.code == "template-wrong"
    assert finding.span.file.path == str(folder / "templates" / "print.html")
    assert finding.span.line == line


def test_error_css_that_is_no_text_is_a_finding(tmp_path: Path, hat: BookletInput) -> None:
    folder = tmp_path / "shop"
    (folder / "css").mkdir(parents=True)
    (folder / "theme.yaml").write_text("based on: wayside\n", encoding="utf-8")
    (folder / "css" / "print.css").write_bytes(b"\xff\xfe\xff")
    page, (finding,) = render_booklet(hat, A4, load_theme("shop", [tmp_path])[0])
    assert (page.html, finding.code) == ("", "theme-wrong")
