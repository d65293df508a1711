"""The web page: one file that holds its pictures and fonts."""

from collections.abc import Mapping
from dataclasses import replace

from booklet.drawings.picture import Picture
from booklet.drawings.screen import shrink_picture
from booklet.editions.commission import Commission, Made, draw_for_narrow_screens
from booklet.pages.edition import WEB_EDITION
from booklet.pages.render import render_booklet

FOR_PAPER = ("code-", "measuring")  # a page has links, and no true size


def write_page(commission: Commission) -> Made:
    """The page as a file; its pictures are made ready for a screen."""
    shown = (picture for picture in commission.manuscript.pictures if not picture.name.startswith(FOR_PAPER))
    narrow = draw_for_narrow_screens(commission)
    pictures = tuple(_fit_screens(picture, narrow) for picture in shown)
    on_screen = replace(commission.manuscript, pictures=pictures, parsed=commission.parsed)
    page, findings = render_booklet(on_screen, WEB_EDITION, commission.theme)
    return {commission.name_file("web", "html"): page.html.encode("utf-8")}, findings


def _fit_screens(picture: Picture, narrow: Mapping[str, Picture]) -> Picture:
    """The picture for usual screens; with the one for narrow screens where it would be too small there."""
    small = narrow.get(picture.name)
    if small is None or picture.width_mm <= small.width_mm:
        return shrink_picture(picture)
    return replace(shrink_picture(picture), narrow=shrink_picture(replace(small, name=f"{picture.name}-narrow")))
