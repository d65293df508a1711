"""The web page: one file that holds its pictures and fonts."""

from dataclasses import replace

from booklet.drawings.screen import fit_screens
from booklet.editions.commission import Commission, Made, draw_for_narrow_screens
from booklet.editions.each_size import add_each_size
from booklet.pages.edition import WEB_EDITION
from booklet.pages.render import render_booklet

FOR_PAPER = ("code-", "measuring")  # a page has links, and no true size


def write_page(commission: Commission) -> Made:
    """The page as a file; its pictures are made ready for a screen, and the drawings are those of every size."""
    shown = (picture for picture in commission.manuscript.pictures if not picture.name.startswith(FOR_PAPER))
    narrow = draw_for_narrow_screens(commission)
    pictures = add_each_size(commission, [fit_screens(picture, narrow.get(picture.name)) for picture in shown])
    on_screen = replace(commission.manuscript, pictures=pictures, parsed=commission.parsed)
    page, findings = render_booklet(on_screen, WEB_EDITION, commission.theme)
    return {commission.name_file("web", "html"): page.html.encode("utf-8")}, findings
