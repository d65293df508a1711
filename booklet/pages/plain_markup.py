"""Safe HTML as lines of plain text: a paragraph, a list item or a table row each on its own."""

import re
from html.parser import HTMLParser

from markupsafe import Markup

_BLOCKS = {"p", "li", "br", "tr", "blockquote", "ul", "ol", "table", "div"}


def list_lines(text: str | Markup) -> list[str]:
    """The lines of a text; items of a numbered list keep their numbers, cells of a table are set apart by commas."""
    if not isinstance(text, Markup):
        return [" ".join(text.split())] if text.strip() else []
    reader = _Reader()
    reader.feed(str(text))
    reader.close()
    return [line for line in (" ".join(line.split()) for line in "".join(reader.pieces).split("\n")) if line]


class _Reader(HTMLParser):
    def __init__(self) -> None:
        super().__init__(convert_charrefs=True)
        self.pieces: list[str] = []
        self.lists: list[int] = []  # numbers of the lists that are open, 0 for one without numbers

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        if tag in _BLOCKS:
            self.pieces.append("\n")
        if tag == "ol":
            start = dict(attrs).get("start") or "1"
            self.lists.append(int(start) if re.fullmatch(r"\d{1,6}", start) else 1)
        elif tag == "ul":
            self.lists.append(0)
        elif tag == "li" and self.lists and self.lists[-1]:
            self.pieces.append(f"{self.lists[-1]}. ")
            self.lists[-1] += 1

    def handle_endtag(self, tag: str) -> None:
        if tag in ("ul", "ol") and self.lists:
            self.lists.pop()
        if tag in ("td", "th"):
            self.pieces.append(", ")
        elif tag in _BLOCKS:
            self.pieces.append("\n")

    def handle_data(self, data: str) -> None:
        self.pieces.append(data.replace("\n", " "))
