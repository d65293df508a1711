"""The page's matter as clean HTML, for pasting into a content system, with its pictures beside it."""

from collections.abc import Sequence
from dataclasses import replace

from booklet.drawings.picture import Picture
from booklet.drawings.screen import count_pixels
from booklet.editions.commission import Commission, Made
from booklet.editions.pictures import choose_pictures, is_symbol, name_picture
from booklet.findings import Finding
from booklet.output.files import make_safe
from booklet.pages.edition import BOOK_EDITION, FRAGMENT_EDITION, Edition
from booklet.pages.fragment import clean_fragment
from booklet.pages.house_marks import mark_fragment
from booklet.pages.illustrations import picture_address
from booklet.pages.render import render_booklet

SYMBOL_HEIGHT = 44  # pixels


def write_fragment(commission: Commission) -> Made:
    """The fragment as one file, and each picture that it shows."""
    pictures = choose_pictures(commission)
    names = {picture.name: name_picture(commission, picture) for picture in pictures}
    html, findings = render_fragment(commission, pictures, names, FRAGMENT_EDITION)
    files = {commission.name_file("fragment", "html"): html.encode("utf-8")}
    shown = {names[picture.name]: picture.png for picture in pictures if names[picture.name] in html}
    return files | shown, findings


def render_fragment(
    commission: Commission, pictures: Sequence[Picture], names: dict[str, str], edition: Edition = BOOK_EDITION
) -> tuple[str, tuple[Finding, ...]]:
    """The clean HTML; `names` are the files of the pictures by the pictures' own names."""
    manuscript = replace(commission.manuscript, pictures=tuple(pictures))
    addresses = {picture_address(picture): names[picture.name] for picture in pictures}
    page, findings = render_booklet(manuscript, edition, commission.theme, addresses)
    prefix = f"{make_safe(commission.pattern.slug, 'pattern').lower()}-"
    pixels = {names[picture.name]: _size_on_page(picture) for picture in pictures}
    return clean_fragment(mark_fragment(page.html, commission.pattern.style), prefix, pixels), findings


def _size_on_page(picture: Picture) -> tuple[int, int]:
    """Width and height as the page states them: its pixels, and a symbol as high as two lines of words."""
    width, height = count_pixels(picture)
    return (width * SYMBOL_HEIGHT // height, SYMBOL_HEIGHT) if is_symbol(picture) else (width, height)
