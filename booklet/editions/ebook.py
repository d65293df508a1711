"""The e-book: the page's matter in chapters, one file that any reader's own settings fit."""

from dataclasses import replace

from booklet.drawings.picture import Picture
from booklet.drawings.screen import shrink_picture
from booklet.editions.commission import Commission, Made
from booklet.editions.fragment import render_fragment
from booklet.editions.pictures import choose_pictures
from booklet.output.epub import Ebook, write_epub
from booklet.pages.booklet_view import view_booklet
from booklet.pages.edition import BOOK_EDITION
from booklet.pages.illustrations import picture_address


def write_ebook(commission: Commission) -> Made:
    """The e-book as a file; its pictures are those of the web page."""
    shown = [shrink_picture(picture) for picture in choose_pictures(commission)]
    names = {picture.name: picture_address(picture) for picture in shown}
    body, findings = render_fragment(commission, shown, names, BOOK_EDITION)
    manuscript = replace(commission.manuscript, pictures=tuple(shown))
    view = view_booklet(manuscript)
    cover = next(iter(manuscript.pictures_for("cover", "fabric", "photo", "colour-plan")), None)
    styles = commission.theme.stylesheets("ebook")
    book = Ebook(
        key=view.key,
        title=view.title,
        language=view.language,
        body=body,
        style="\n".join(path.read_text(encoding="utf-8") for path in styles),
        creator=view.designer or view.publisher,
        publisher=view.publisher,
        description=view.description,
        rights=" ".join(commission.pattern.publisher.licence.split()),
        date=view.iso_date,
        lines=(
            f"Designed by {view.designer}" if view.designer else "",
            *(f"{fact.label}: {fact.value}" for fact in view.cover.facts),
            " · ".join(words for words in (view.edition_line, view.date) if words),
        ),
        cover=names[cover.name] if cover else "",
        cover_alt=cover.alt if cover else "",
        pictures={names[picture.name]: picture.png for picture in shown if _is_used(picture, cover, names, body)},
    )
    return {commission.name_file("ebook", "epub"): write_epub(book)}, findings


def _is_used(picture: Picture, cover: Picture | None, names: dict[str, str], body: str) -> bool:
    return picture is cover or names[picture.name] in body
