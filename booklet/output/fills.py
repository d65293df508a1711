"""How far down each page is filled, read from the typesetter's boxes before they become a PDF."""

from typing import Any


def measure_fills(document: Any) -> tuple[float, ...]:
    """For each page the share of its height, within the margins, that text and pictures reach down to."""
    return tuple(_measure_page(page._page_box) for page in document.pages)  # noqa: SLF001 - the only way to them


def _measure_page(page: Any) -> float:
    top = page.margin_top + page.border_top_width + page.padding_top
    if not page.children or not page.height:
        return 0.0
    lowest = _find_lowest(page.children[0])  # the text; the boxes in the margins are its sisters
    share = float((lowest - top) / page.height)
    return max(0.0, min(1.0, share))


def _find_lowest(box: Any) -> float:
    """The lower edge of the lowest line or picture."""
    children = getattr(box, "children", ())
    name = type(box).__name__
    if name == "LineBox" or "Replaced" in name:
        return float(box.position_y + box.height)
    return max((_find_lowest(child) for child in children), default=0.0)
