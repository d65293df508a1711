"""An author's Markdown made into safe HTML, set as a printer would set it.

Raw HTML is not passed through: the two Markdown rules that would are taken out, and what comes out
is cleaned against a short list of tags once more. Links may lead to https, mailto and places in the
booklet itself.
"""

import re
from collections.abc import Mapping

import markdown
import nh3
from markupsafe import Markup

from booklet.amounts.figures import print_number
from booklet.pages.figures import print_size_list
from booklet.pages.typography import set_type
from booklet.sizing.formula import FormulaError, evaluate_formula

MAX_CHARACTERS = 20_000
MAX_BRACKETS = 200  # Markdown takes time that grows with the square of their number: 3,000 take two seconds
MAX_DEPTH = 8  # of lists and quotations in one another; the typesetter fails on far deeper ones

_BLOCK_TAGS = {"p", "ul", "ol", "li", "strong", "em", "code", "a", "br", "blockquote", "table", "thead",
               "tbody", "tr", "th", "td"}  # fmt: skip
_LINE_TAGS = {"strong", "em", "code", "a", "br"}
_DEEP_MARKERS = re.compile(
    rf"^((?:[ \t]*(?:>|[-*+](?=[ \t]))){{{MAX_DEPTH}}})(?:[ \t]*(?:>|[-*+](?=[ \t])))+", re.MULTILINE
)
_LINK_RULES = ("link", "image_link", "reference", "image_reference", "short_reference", "short_image_ref")
_TAG = re.compile(r"(<[^>]*>)")
NAME_IN_BRACES = re.compile(r"\{([^{}\n]{1,200})\}")
_LOOSE_ITEM = re.compile(r"<li>\s*<p>(.*?)</p>", re.DOTALL)
_ITEM_PARAGRAPH = re.compile(r"</p>\s*<p>")


def render_prose(text: str, numbers: Mapping[str, tuple[int, ...]] | None = None) -> Markup:
    """Paragraphs, lists and tables. Names in braces become their values in every size."""
    text = fill_names(text, numbers or {})[:MAX_CHARACTERS]
    cleaned = nh3.clean(
        _tighten_items(_convert(text)),
        tags=_BLOCK_TAGS,
        attributes={"a": {"href"}, "ol": {"start"}},
        url_schemes={"https", "mailto"},
        link_rel=None,
    )
    return Markup(_number_lists(_set_text_nodes(_drop_relative_links(cleaned))))  # noqa: S704 - cleaned just above


def render_line(text: str, numbers: Mapping[str, tuple[int, ...]] | None = None) -> Markup:
    """The same for a text that stands inside a line: no paragraphs, no lists."""
    text = fill_names(" ".join(text.split()), numbers or {})[:MAX_CHARACTERS]
    cleaned = nh3.clean(
        _convert(text), tags=_LINE_TAGS, attributes={"a": {"href"}}, url_schemes={"https", "mailto"}, link_rel=None
    )
    return Markup(_set_text_nodes(_drop_relative_links(cleaned)).strip())  # noqa: S704 - cleaned just above


def fill_names(text: str, numbers: Mapping[str, tuple[int, ...]]) -> str:
    """`{panel}` becomes `77 (83, 89)`, and so does a formula; what has no value stays as it stands."""

    def fill(found: re.Match[str]) -> str:
        try:
            return print_size_list(work_out_names(found[1], numbers))
        except FormulaError:
            return found[0]

    return NAME_IN_BRACES.sub(fill, text)


def work_out_names(formula: str, numbers: Mapping[str, tuple[int, ...]]) -> list[str]:
    """The value of a name or formula in every size. Raises FormulaError where it has none."""
    sizes = max((len(values) for values in numbers.values()), default=1)
    return [
        print_number(
            evaluate_formula(formula, {name: values[min(size, len(values) - 1)] for name, values in numbers.items()})
        )
        for size in range(sizes)
    ]


def _convert(text: str) -> str:
    converter = markdown.Markdown(extensions=["tables", "sane_lists"])
    converter.preprocessors.deregister("html_block")
    converter.inlinePatterns.deregister("html")
    for link in _LINK_RULES if text.count("[") > MAX_BRACKETS else ():
        converter.inlinePatterns.deregister(link)
    converter.parser.blockprocessors.deregister("code")  # an indented line in a pattern is never program code
    return converter.convert(_settle_indents(_DEEP_MARKERS.sub(lambda found: found[1], text)))


def _settle_indents(text: str) -> str:
    """Lists indented by two or three spaces, as most people type them, made four, as Markdown's converter wants."""
    lines = text.expandtabs(4).split("\n")
    indents = [len(line) - len(line.lstrip(" ")) for line in lines]
    step = min((indent for indent, line in zip(indents, lines, strict=True) if indent > 1 and line.strip()), default=4)
    return "\n".join(
        " " * 4 * min(round(indent / min(step, 4)), MAX_DEPTH) + line.lstrip(" ") if indent > 1 else line
        for indent, line in zip(indents, lines, strict=True)
    )


def _tighten_items(html: str) -> str:
    """Paragraphs inside list items become lines: PDF/UA allows no block directly in an item."""
    while (tight := _LOOSE_ITEM.sub(r"<li>\1", html)) != html:
        html = tight
    return re.sub(
        r"<li>((?:(?!</li>|<[uo]l>).)*)",
        lambda item: "<li>" + _ITEM_PARAGRAPH.sub("<br>", item[1]).replace("<p>", "<br>").replace("</p>", ""),
        html,
        flags=re.DOTALL,
    )


_LIST_START = re.compile(r'<ol start="(\d{1,6})">')


def _number_lists(html: str) -> str:
    """Lists that begin with another number than one say so in a style too: the typesetter goes by nothing else."""
    return _LIST_START.sub(
        lambda found: f'<ol start="{found[1]}" style="counter-reset:list-item {int(found[1]) - 1}">', html
    )


_RELATIVE_LINK = re.compile(r'<a href="(?!https:|mailto:|#)[^"]*">(.*?)</a>', re.DOTALL)


def _drop_relative_links(html: str) -> str:
    """A link to a file beside the source leads nowhere from a booklet: its words stay."""
    return re.sub(r"<a>(.*?)</a>", r"\1", _RELATIVE_LINK.sub(r"\1", html), flags=re.DOTALL)


def _set_text_nodes(html: str) -> str:
    """Typography for the text between tags; code is left as typed."""
    pieces: list[str] = []
    before, in_code = "", False
    for piece in _TAG.split(html):
        if piece.startswith("<"):
            in_code = piece == "<code>" or (in_code and piece != "</code>")
            if piece in ("<p>", "<li>", "<br>", "<td>", "<th>"):
                before = ""
        elif piece:
            if not in_code:
                piece = _escape(set_type(_unescape(piece), before))
            before = piece[-1]
        pieces.append(piece)
    return "".join(pieces)


def _unescape(text: str) -> str:
    return text.replace("&quot;", '"').replace("&lt;", "<").replace("&gt;", ">").replace("&amp;", "&")


def _escape(text: str) -> str:
    return text.replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;")
