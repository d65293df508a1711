"""The drawings of every size, for a page on which one size can be chosen."""

from collections.abc import Mapping, Sequence
from dataclasses import replace

from booklet.drawings.faces import NoFontError
from booklet.drawings.pattern import draw_work
from booklet.drawings.picture import OWN, STAYS, WAITS, Picture
from booklet.drawings.pieces import pick_size
from booklet.drawings.screen import drop_colour, fit_screens
from booklet.drawings.trimming import trim_picture
from booklet.editions.commission import Commission, draw_for_narrow_screens
from booklet.editions.one_size import take_one_size

MAX_MORE_BYTES = 2_500_000  # that the drawings of further sizes may take: a page is read on the way, too
WORK = ("schematic", "colour-plan", "chart", "grid")
SYMBOL = "symbol"
FIRST = ("chart", "grid", "colour-plan", "schematic")  # a maker goes wrong soonest by the chart of another size

Drawn = Mapping[int, Picture]
"""One drawing by the sizes that have it."""


def add_each_size(commission: Commission, pictures: Sequence[Picture]) -> tuple[Picture, ...]:
    """The pictures of a page, and behind each drawing those of the other sizes; each says which sizes it is for.

    A drawing that is the same in all sizes stands once. Where the further ones would make the page heavy it has
    those of some kinds, the charts first; the other drawings say that they stay.
    """
    names = commission.pattern.size_names
    if len(names) < 2 or commission.place is not None:
        return tuple(pictures)
    sizes, own = len(names), pick_size(commission.pattern)
    drawn = {size: _draw_size(commission, size) for size in range(sizes) if size != own}
    drawn[own] = {picture.name: picture for picture in pictures if _stem(picture)}
    joined: dict[str, list[Picture]] = {stem: [] for stem in (*WORK, SYMBOL)}
    for name, stem in _list_names(drawn, own):
        by_size = {size: of_size[name] for size, of_size in sorted(drawn.items()) if name in of_size}
        joined[stem] += _join_sizes(by_size, own, names)
    joined[SYMBOL] = _join_symbols(drawn, own)
    room = MAX_MORE_BYTES
    for stem in FIRST:
        weight = sum(map(_weigh, joined[stem]))
        if weight > room:
            joined[stem] = _let_stay(joined[stem], own)
        else:
            room -= weight
    others = [picture for picture in pictures if not _stem(picture)]
    return (*others, *(picture for each in joined.values() for picture in each))


def _draw_size(commission: Commission, size: int) -> Mapping[str, Picture]:
    """The drawings of one size by name, fit for screens; none where the theme has no fonts."""
    alone, _ = take_one_size(commission, size, draws=False)
    book, theme = alone.manuscript, commission.theme
    try:
        pictures = draw_work(book.pattern, book.worked, book.amounts, theme.ink())
    except NoFontError:  # told where the booklet is drawn
        return {}
    narrow = draw_for_narrow_screens(alone)
    dressed: dict[str, Picture] = {}
    for picture in pictures:
        trimmed = trim_picture(picture) if picture.table else picture
        grey = drop_colour(trimmed) if theme.pictures == "grey" else trimmed
        dressed[picture.name] = fit_screens(grey, narrow.get(picture.name))
    return dressed


def _stem(picture: Picture) -> str:
    """Which kind of drawing it is; "" for a picture that is no drawing of the work."""
    return next((stem for stem in (*WORK, SYMBOL) if f"{picture.name}-".startswith(f"{stem}-")), "")


def _list_names(drawn: Mapping[int, Mapping[str, Picture]], own: int) -> list[tuple[str, str]]:
    """The names of all drawings with their kinds; those that the drawn size lacks come behind its own."""
    named = {name: _stem(picture) for size in (own, *sorted(drawn)) for name, picture in drawn[size].items()}
    return [(name, stem) for name, stem in named.items() if stem != SYMBOL]


def _join_sizes(by_size: Drawn, own: int, names: Sequence[str]) -> list[Picture]:
    """One drawing in all sizes: once, or the one of the drawn size and then what the others have."""
    first = by_size.get(own)
    others = {size: picture for size, picture in by_size.items() if size != own}
    plain = _name_no_size(first, names[own]) if first else None
    if plain and len(by_size) == len(names) and all(_show(plain) == _show(other) for other in others.values()):
        return [plain]
    groups: dict[object, list[int]] = {}
    for size, picture in others.items():
        groups.setdefault(_show(picture), []).append(size)
    further = [
        replace(
            _rename(others[group[0]], f"-size-{group[0] + 1}"),
            sizes=tuple(group),
            showing=WAITS,
        )
        for group in groups.values()
    ]
    return [*([replace(first, sizes=(own,), showing=OWN)] if first else ()), *further]


def _show(picture: Picture) -> object:
    """All that a reader has of it."""
    small = picture.narrow.png if picture.narrow else b""
    return picture.png, small, picture.table, picture.alt, picture.caption


def _name_no_size(picture: Picture, name: str) -> Picture:
    """The picture of the drawn size in the words of a pattern of that size alone."""
    alt, caption = (
        words.replace(f" in size {name}", "").replace(f" For size {name}.", "")
        for words in (picture.alt, picture.caption)
    )
    return replace(picture, alt=alt, caption=caption)


def _rename(picture: Picture, ending: str) -> Picture:
    narrow = picture.narrow
    return replace(
        picture,
        name=picture.name + ending,
        narrow=replace(narrow, name=narrow.name + ending) if narrow else None,
    )


def _join_symbols(drawn: Mapping[int, Mapping[str, Picture]], own: int) -> list[Picture]:
    """The key of the drawn size, and the symbols that only charts of other sizes have."""
    keys = {size: [one for one in of_size.values() if _stem(one) == SYMBOL] for size, of_size in drawn.items()}
    known = {symbol.caption for symbol in keys[own]}
    sizes: dict[str, list[int]] = {}
    symbols: dict[str, Picture] = {}
    for size, key in sorted(keys.items()):
        for symbol in key:
            if symbol.caption not in known:
                sizes.setdefault(symbol.caption, []).append(size)
                symbols.setdefault(symbol.caption, _rename(symbol, f"-size-{size + 1}"))
    further = (replace(symbols[name], sizes=tuple(of), showing=WAITS) for name, of in sizes.items())
    return [*keys[own], *further]


def _weigh(picture: Picture) -> int:
    """Bytes that a drawing of further sizes takes in the page, where it is written in letters."""
    if picture.showing != WAITS:
        return 0
    return (len(picture.png) + (len(picture.narrow.png) if picture.narrow else 0)) * 4 // 3


def _let_stay(pictures: Sequence[Picture], own: int) -> list[Picture]:
    """The drawings of the drawn size alone."""
    return [
        replace(picture, showing=STAYS) if picture.showing else picture
        for picture in pictures
        if not picture.showing or own in picture.sizes
    ]
