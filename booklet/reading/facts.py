"""From the checked front matter to the facts of the model, each with its place."""

import re
from collections.abc import Callable, Sequence
from dataclasses import replace

from booklet.findings import Finding
from booklet.model.costs import CostFacts
from booklet.model.editions import Handout
from booklet.model.pattern import (
    Colour,
    Colourway,
    Hook,
    Image,
    SpecialStitch,
    Yarn,
)
from booklet.reading import messages
from booklet.reading.forms import FrontMatter, ImageForm
from booklet.reading.front_matter import Places
from booklet.reading.handout_form import HandoutForm
from booklet.reading.pictures import find_picture, suggest_picture
from booklet.source import SourceFile
from booklet.terms import load_table

COLOUR_LETTER = re.compile(r"[A-Za-z][A-Za-z0-9]{0,7}")
# Quiet yarn colours, far apart in lightness, for a colour whose shade is not given.
SPARE_SHADES = ("#d8d2c4", "#6f7f8c", "#a9674f", "#44543f", "#c9a95b", "#7b6a8a", "#9fb4a6", "#3b4252")

Tell = Callable[[Finding], None]


def find_handout(form: HandoutForm | None) -> Handout | None:
    return None if form is None else Handout(**form.model_dump())


def find_yarn(front: FrontMatter, places: Places) -> Yarn | None:
    form = front.yarn
    if form is None:
        return None
    return Yarn(
        span=places.value("yarn"),
        name=form.name,
        weight=form.weight[0] if form.weight else None,
        weight_name=form.weight[1] if form.weight else "",
        fibre=form.fibre,
        ball_grams=form.ball[0] if form.ball else None,
        ball_metres=form.ball[1] if form.ball else None,
        care=form.care,
        strands=form.strands,
    )


def list_colours(front: FrontMatter, places: Places, tell: Tell) -> tuple[Colour, ...]:
    colours: list[Colour] = []
    for at, (letter, form) in enumerate(front.colours.items()):
        span = places.key("colours", letter)
        if not COLOUR_LETTER.fullmatch(letter):
            tell(messages.wrong_name(letter, "a colour", "a letter or a short name without spaces: A, MC, CC1", span))
            continue
        shade = form.shade
        if shade is None:
            shade = SPARE_SHADES[at % len(SPARE_SHADES)]
            # Where the shade was refused, that has been told already.
            if not places.lost("colours", letter, "shade"):
                tell(messages.missing_shade(letter, form.name, shade, places.value("colours", letter)))
        colours.append(Colour(letter, form.name, shade, span, form.strands))
    return tuple(colours)


def list_colourways(front: FrontMatter, places: Places, colours: Sequence[Colour], tell: Tell) -> tuple[Colourway, ...]:
    """Every colourway with a colour for each letter; the pattern's own where it names none for one."""
    colourways: list[Colourway] = []
    letters = [colour.letter for colour in colours]
    for name, forms in front.colourways.items():
        for letter in forms:
            if letter not in letters:
                wanted = f"a letter of `colours:`: {', '.join(letters)}"
                tell(
                    messages.wrong_name(
                        letter, "a colour of the pattern", wanted, places.key("colourways", name, letter)
                    )
                )
        others = []
        for colour in colours:
            form = forms.get(colour.letter)
            shade = (form.shade if form else None) or colour.shade
            others.append(replace(colour, name=form.name if form else colour.name, shade=shade))
        colourways.append(Colourway(name, tuple(others), places.key("colourways", name)))
    return tuple(colourways)


def list_hooks(front: FrontMatter, places: Places) -> tuple[Hook, ...]:
    """The hooks of the pattern; those of its gauges where it lists none."""
    if not front.hooks:
        sizes = {form.hook: name for name, form in reversed(front.gauge.items()) if form.hook is not None}
        return tuple(Hook(mm, "", places.value("gauge", name)) for mm, name in reversed(sizes.items()))
    return tuple(Hook(form.size, form.use, places.value("hooks", key)) for key, form in front.hooks.items())


def find_costs(front: FrontMatter) -> CostFacts:
    form = front.costs
    if form is None:
        return CostFacts(seconds=front.making_time)
    return CostFacts(
        seconds=form.seconds or front.making_time,
        finishing=form.finishing,
        rate=form.rate,
        ball_price=form.ball_price,
        other=form.other,
        profit=form.profit,
        spent=form.spent,
        price=form.price,
        fees=form.fees[0],
        fee_share=form.fees[1],
        sales=form.sales,
    )


def list_special_stitches(front: FrontMatter, places: Places) -> tuple[SpecialStitch, ...]:
    """`Shell (sh): 5 dc in next st` gives the abbreviation in brackets."""
    stitches: list[SpecialStitch] = []
    for key, form in front.special_stitches.items():
        name, abbreviation = split_abbreviation(key)
        span = places.value("special stitches", key)
        stitches.append(SpecialStitch(name, form.text, span, form.abbreviation or abbreviation))
    return tuple(stitches)


def split_abbreviation(text: str) -> tuple[str, str]:
    """`Shell (sh)` is the name `Shell` and the abbreviation `sh`."""
    match = re.fullmatch(r"(.+?)\s*[(\[](?:abbreviated\s+)?([^()\[\]]{1,20})[)\]]", text.strip())
    return (text.strip(), "") if match is None else (match.group(1), match.group(2).strip())


def tidy_turning_chains(front: FrontMatter) -> dict[str, bool]:
    """`ch-3`, `ch3`, `3 ch` and `chain 3` are all `ch 3`."""
    tidy: dict[str, bool] = {}
    for key, counts in front.counts_as.items():
        match = re.fullmatch(
            r"(?:(?:beg|turning)\s+)?(?:ch(?:ain)?s?[\s-]*(\d+)|(\d+)[\s-]*ch(?:ain)?s?)", key.strip().lower()
        )
        tidy[f"ch {match.group(1) or match.group(2)}" if match else key.strip()] = counts
    return tidy


def check_hazards(front: FrontMatter, places: Places, tell: Tell) -> None:
    """A hazard that goes by no known word gets no safety note, so it is told."""
    hazards = load_table("cautions")["hazards"]
    words = [word for hazard, named in hazards.items() for word in (hazard, *named)]
    for at, has in enumerate(front.has):
        if not any(_names_hazard(has, word) for word in words):
            tell(messages.unknown_hazard(has, tuple(hazards), words, places.value("has", at)))


def _names_hazard(has: str, words: str) -> bool:
    """Whether all the words stand in what the author wrote, in any order, one or several of each."""
    return all(re.search(rf"\b{re.escape(word)}(?:s|es)?\b", has, re.IGNORECASE) for word in re.split(r"[\s-]+", words))


def list_images(front: FrontMatter, places: Places, source: SourceFile, tell: Tell) -> tuple[Image, ...]:
    found = (
        _find_image(form, front.title, ("images", at), places, source, tell) for at, form in enumerate(front.images)
    )
    return tuple(image for image in found if image is not None)


def find_cover(front: FrontMatter, places: Places, source: SourceFile, tell: Tell) -> Image | None:
    if front.cover is None:
        return None
    return _find_image(front.cover, front.title, ("cover",), places, source, tell)


def _find_image(
    form: ImageForm, title: str, path: tuple[str | int, ...], places: Places, source: SourceFile, tell: Tell
) -> Image | None:
    span = places.value(*path, "file")
    _, problem = find_picture(source.folder, form.file)
    if problem:
        close = suggest_picture(source.folder, form.file) if problem == "is not there" else ""
        tell(messages.missing_picture(form.file, problem, span, close))
        return None
    if not form.alt:
        tell(messages.missing_alt(form.file, span))
    return Image(form.file, form.alt or form.caption or title, form.caption, span)
