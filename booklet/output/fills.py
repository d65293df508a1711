"""How each page is filled, read from the typesetter's boxes before they become a PDF."""

import math
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

HEADINGS = frozenset({"h1", "h2", "h3", "h4", "h5", "h6"})
FIELDS = frozenset({"input", "textarea", "select"})
OVER = 2.0  # pixels that nobody sees
ROW = "row"  # the class of rows, whose breaks are wishes and no rules


@dataclass(frozen=True, slots=True)
class OpeningPicture:
    """A picture that a page begins with, under headings at most.

    `height`, and `around` for what must stand on the page with it (headings above, its caption and the table
    that it is kept with), are shares of the height of the page's text; `most` is the highest that the style
    lets it be.
    """

    address: str  # as in the HTML
    height: float
    around: float
    most: float


@dataclass(frozen=True, slots=True)
class PageFill:
    """How one page is filled.

    `share` is how far down text and pictures reach, within the margins. `is_open_ended` where what ends the
    page, or one of its columns, belongs to what begins the next: a heading, a caption, the head of a table.
    `is_too_wide` where a table reaches over the right margin.
    """

    share: float
    is_open_ended: bool = False
    opening: OpeningPicture | None = None
    is_too_wide: bool = False


@dataclass(frozen=True, slots=True)
class _Leaf:
    """A line of text, a picture or a field, with the boxes it stands in, outermost first."""

    box: Any
    within: tuple[Any, ...]

    @property
    def bottom(self) -> float:
        return float(self.box.position_y + self.box.height)

    @property
    def is_picture(self) -> bool:
        return "Replaced" in type(self.box).__name__

    @property
    def is_heading(self) -> bool:
        return any(box.element_tag in HEADINGS for box in self.within)


def measure_pages(document: Any) -> tuple[PageFill, ...]:
    """The pages in order."""
    return tuple(_measure_page(page._page_box) for page in document.pages)  # noqa: SLF001 - the only way to them


def _measure_page(page: Any) -> PageFill:
    top = page.margin_top + page.border_top_width + page.padding_top
    # The text is the first child; the boxes in the margins are its sisters.
    leaves = list(_list_leaves(page.children[0], ())) if page.children and page.height else []
    if not leaves:
        return PageFill(0.0)
    share = (max(leaf.bottom for leaf in leaves) - top) / page.height
    ends = [leaf for leaf, following in zip(leaves, [*leaves[1:], None], strict=True) if _ends_column(leaf, following)]
    right = page.margin_left + page.border_left_width + page.padding_left + page.width
    return PageFill(
        max(0.0, min(1.0, float(share))),
        any(map(_asks_for_more, ends)),
        _find_opening(leaves, top, page.height),
        any(_reaches_over(leaf, right) for leaf in leaves),
    )


def _list_leaves(box: Any, within: tuple[Any, ...]) -> Iterator[_Leaf]:
    """Lines, pictures and fields in the order of the text."""
    name = type(box).__name__
    if name == "LineBox" or "Replaced" in name or box.element_tag in FIELDS:
        yield _Leaf(box, (*within, box) if "Replaced" in name else within)
        return
    for child in getattr(box, "children", ()):
        yield from _list_leaves(child, (*within, box))


def _ends_column(leaf: _Leaf, following: _Leaf | None) -> bool:
    """Is it the last on the page, or the last in a column of text?"""
    if following is None:
        return True
    columns = [box for box in leaf.within if box.is_column]
    return any(box not in following.within for box in columns)


def _reaches_over(leaf: _Leaf, right: float) -> bool:
    """Does the table that it stands in reach over the margin?"""
    tables = (box for box in leaf.within if box.element_tag == "table")
    return any(float(table.position_x + table.width) > right + OVER for table in tables)


def _asks_for_more(leaf: _Leaf) -> bool:
    for box in leaf.within:
        if box.element_tag in HEADINGS or box.element_tag in ("caption", "thead"):
            return True
        if box.element_tag == "p" and box.style["break_after"] == "avoid":
            return ROW not in (box.element.get("class") or "").split()
    return False


def _find_opening(leaves: list[_Leaf], top: float, height: float) -> OpeningPicture | None:
    """The picture, where it may be made smaller."""
    first = next((leaf for leaf in leaves if not leaf.is_heading), None)
    if first is None or not first.is_picture or first.box.element is None:
        return None
    most = first.box.style["max_height"]
    address = first.box.element.get("src") or ""
    if not address or most in ("none", "auto") or most.unit != "px" or not math.isfinite(most.value):
        return None
    whole = next((box for box in first.within if box.style["break_inside"] == "avoid"), first.box)
    # At the top of a page margins are dropped; further down they stand.
    margins = [box.style["margin_top"] for box in first.within if box.element_tag != "html"]
    gap = max((margin.value for margin in margins if margin != "auto" and margin.unit == "px"), default=0.0)
    below = float(whole.position_y + whole.height) - first.bottom
    above = float(first.box.position_y) - top
    return OpeningPicture(
        address, first.box.height / height, (gap + above + max(below, 0.0)) / height, most.value / height
    )
