"""The web page: one file that holds its pictures and fonts."""

from dataclasses import replace

from booklet.drawings.screen import shrink_picture
from booklet.editions.commission import Commission, Made
from booklet.pages.edition import WEB_EDITION
from booklet.pages.render import render_booklet

FOR_PAPER = ("code-", "measuring")  # a page has links, and no true size


def write_page(commission: Commission) -> Made:
    """The page as a file; its pictures are made ready for a screen."""
    # Codes are for paper, as the page has links; what is measured with needs a true size, which no screen has.
    pictures = commission.manuscript.pictures
    shown = (picture for picture in pictures if not picture.name.startswith(("code-", "measuring")))
    pictures = tuple(map(shrink_picture, shown))
    on_screen = replace(commission.manuscript, pictures=pictures, parsed=commission.parsed)
    page, findings = render_booklet(on_screen, WEB_EDITION, commission.theme)
    return {commission.name_file("web", "html"): page.html.encode("utf-8")}, findings
