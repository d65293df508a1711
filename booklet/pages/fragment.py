"""A booklet's page as a clean piece of HTML, for pasting into a content system or for an e-book.

What is left has headings from h2 down, paragraphs, lists, tables and figures. There are no styles, no
classes and no script, and every identifier begins with a prefix, so that nothing meets what is already
on the page it goes into.
"""

import re
from collections.abc import Mapping

import nh3

TAGS = {
    "a", "b", "blockquote", "br", "caption", "code", "em", "figcaption", "figure", "h2", "h3", "h4", "h5", "h6",
    "img", "li", "ol", "p", "strong", "table", "tbody", "td", "th", "thead", "tr", "ul",
}  # fmt: skip
ATTRIBUTES = {
    **{tag: {"id"} for tag in ("h2", "h3", "h4", "h5", "h6", "p")},
    "a": {"href"},
    "img": {"alt", "src"},
    "ol": {"start"},
    "th": {"scope"},
}

BREAK_HERE = "\u200b"  # zero width space

_HEADED = re.compile(r'<(?:section|div)([^>]*?) id="([^"]+)"([^>]*)>(\s*)<(h[2-6])>')
_ENTRY_HEAD = re.compile(r'(<strong class="entry-head">[^<]*?)[.:]?</strong>')  # set apart by style elsewhere
_ADDRESS = re.compile(r'(?<=">)[\w.-]+(?:/[\w.-]*)+(?=</a>)')  # as words, wider than a telephone where it does not part
_IMAGE = re.compile(r'<img(?=[^>]*? src="([^"]*)")')
_BLOCK = re.compile(r"\s*(</?(?:h[2-6]|p|ul|ol|table|thead|tbody|tr|figure|blockquote)\b[^>]*>)\s*")
_EMPTY = re.compile(r"<(p|td|li)>\s*</\1>")
_LINE_ENDS = re.compile(r"\n{2,}")
_SPACES = re.compile(r"[ \t\n]+")
_CLOSING = re.compile(r"(</(?:h[2-6]|p|ul|ol|table|figure|blockquote)>)\n")


def clean_fragment(html: str, prefix: str, pixels: Mapping[str, tuple[int, int]]) -> str:
    """The page's matter alone; a heading takes the identifier of the section or piece that it heads.

    `pixels` are width and height of the picture files by their address.
    """

    def prefix_places(tag: str, name: str, value: str) -> str:
        del tag
        if name == "id":
            return prefix + value
        return f"#{prefix}{value[1:]}" if name == "href" and value.startswith("#") else value

    def write_size(found: re.Match[str]) -> str:
        size = pixels.get(found[1])
        return f'<img width="{size[0]}" height="{size[1]}"' if size else found[0]

    headed = _HEADED.sub(r'<div\1\3>\4<\5 id="\2">', _ENTRY_HEAD.sub(r"\1:</strong>", html))
    cleaned = nh3.clean(
        headed,
        tags=TAGS,
        attributes=ATTRIBUTES,
        attribute_filter=prefix_places,
        url_schemes={"https", "mailto"},
        link_rel=None,
    )
    parted = _ADDRESS.sub(lambda found: found[0].replace("/", f"/{BREAK_HERE}"), cleaned)
    return _IMAGE.sub(write_size, _break_lines(parted))


def _break_lines(html: str) -> str:
    """One block a line, an empty line between the blocks of a page, no other white space."""
    lines = _BLOCK.sub(r"\n\1\n", _EMPTY.sub(_keep_cell, _SPACES.sub(" ", html)))
    lines = _LINE_ENDS.sub("\n", lines)
    for tag in ("h[2-6]", "p", "figcaption", "caption", "t[hd]", "li"):
        lines = re.sub(rf"\n?(<{tag}\b[^>]*>)\s*", r"\n\1", lines)
        lines = re.sub(rf"\s*(</{tag}>)", r"\1", lines)
    lines = re.sub(r" +\n", "\n", lines)
    return _CLOSING.sub(r"\1\n\n", lines).strip() + "\n"


def _keep_cell(found: re.Match[str]) -> str:
    return found[0] if found[1] == "td" else ""
