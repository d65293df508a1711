"""The listing text, written when all that it lists has been made."""

from booklet.drawings.faces import NoFontError
from booklet.drawings.picture import Picture
from booklet.drawings.screen import count_pixels
from booklet.editions.commission import Commission, Made
from booklet.editions.pictures import choose_pictures, draw_commission_cards, name_picture
from booklet.model.editions import EDITIONS
from booklet.output.page_count import count_pages
from booklet.pages.listing import OfferedFile, write_listing

OFFERED = {  # where a buyer is told more than a command says
    "folded": (
        "the booklet at half the size, without measuring aids and the figures in full, and its pages in order for "
        "folding and stapling: print those on both sides, turned over the short edge"
    ),
}
NOT_OFFERED = ("fragment", "tester")  # for the publisher's own use


def write_listing_text(commission: Commission) -> Made:
    """One text file with the words for a shop or a page, and the files made before it in this run."""
    pictures = {name_picture(commission, picture): picture for picture in _find_pictures(commission)}
    files = [
        _describe(name, edition, data, pictures.get(name))
        for edition, made in commission.made.items()
        if edition not in NOT_OFFERED
        for name, data in made.items()
    ]
    text = write_listing(commission.manuscript, files, {**EDITIONS, **OFFERED})
    return {commission.name_file("listing", "txt"): text.encode("utf-8")}, ()


def _find_pictures(commission: Commission) -> list[Picture]:
    if "pictures" not in commission.made:
        return []
    try:
        cards = draw_commission_cards(commission)
    except NoFontError:  # told where the pictures were made
        cards = ()
    return [*choose_pictures(commission), *cards]


def _describe(name: str, edition: str, data: bytes, picture: Picture | None) -> OfferedFile:
    if picture is not None:
        return OfferedFile(name, edition, len(data), pixels=count_pixels(picture), alt=picture.alt)
    return OfferedFile(name, edition, len(data), count_pages(data) if name.endswith(".pdf") else 0)
