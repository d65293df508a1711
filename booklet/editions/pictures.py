"""Pictures as files of their own, ready for a page, and the cards that point to a pattern."""

from booklet.drawings.cards import CardStyle, CardWords, draw_cards
from booklet.drawings.faces import NoFontError
from booklet.drawings.messages import fonts_missing
from booklet.drawings.picture import Picture
from booklet.drawings.screen import widen_picture
from booklet.editions.commission import Commission, Made
from booklet.pages.booklet_view import LOGO
from booklet.pages.front import name_yarn
from booklet.pages.typography import set_type

SMALL = ("patch", "code", "measuring", LOGO)  # stand in a line of words or are for paper
MAX_NAMED = 3  # sizes that a card names one by one


def write_pictures(commission: Commission) -> Made:
    """Every picture of the booklet 800 to 1200 pixels wide, symbols of the key as they are, and both cards."""
    files = {name_picture(commission, picture): picture.png for picture in choose_pictures(commission)}
    try:
        cards = draw_commission_cards(commission)
    except NoFontError as found:
        return files, (fonts_missing(str(found), commission.at),)
    return files | {name_picture(commission, card): card.png for card in cards}, ()


def choose_pictures(commission: Commission) -> list[Picture]:
    """The pictures that a page shows, each as a file of its own."""
    pictures = commission.manuscript.pictures
    chosen = [picture for picture in pictures if picture.name.partition("-")[0] not in SMALL]
    return [picture if is_symbol(picture) else widen_picture(picture) for picture in chosen]


def is_symbol(picture: Picture) -> bool:
    """Whether it stands in a line of the key to the symbols, and stays as small as that."""
    return picture.name.startswith("symbol-")


def name_picture(commission: Commission, picture: Picture) -> str:
    """`slug-v1.0-US-schematic.png`"""
    stem, _, ending = picture.file_name.rpartition(".")
    return commission.name_file(stem, ending)


def draw_commission_cards(commission: Commission) -> tuple[Picture, ...]:
    """The cards with the theme's colours and the face of its titles. Raises NoFontError."""
    theme, pattern = commission.theme, commission.pattern
    display = next(iter(theme.fonts["display"].web_files.values()), None)
    style = CardStyle(theme.ink(), theme.colours["paper"], theme.colours["warm"], display)
    names = [set_type(name) for name in pattern.size_names if name]
    sizes = ", ".join(names) if len(names) <= MAX_NAMED else f"{len(names)} sizes, {names[0]} to {names[-1]}"
    level = f"{pattern.level.capitalize()} level" if pattern.level else ""
    yarn = name_yarn(commission.manuscript)
    facts = (sizes, f"{yarn} yarn" if yarn else "", ", ".join(x for x in (level, f"{pattern.terms} terms") if x))
    words = CardWords(
        "Crochet pattern",
        set_type(pattern.title),
        tuple(fact for fact in facts if fact),
        set_type(pattern.publisher.name or pattern.designer),
    )
    shown = commission.manuscript.pictures_for("cover", "fabric", "photo", "colour-plan")
    return draw_cards(words, [colour.shade for colour in pattern.colours], shown[0] if shown else None, style)
