"""What drawings say to those who do not see them, and what stands beneath them."""

from collections.abc import Sequence

from booklet.drawings.lay import Lay
from booklet.drawings.measured import write_measure
from booklet.drawings.palette import Palette, Tint, find_tint
from booklet.drawings.pieces import CROWN
from booklet.drawings.schematic import measures_of
from booklet.findings import counted, join_words
from booklet.model.amounts import Measure

SHAPES = {
    "tube": "a tube pressed flat",
    CROWN: "its crown from above",
    "circle": "a circle worked from its centre",
}
OWN_COLOURS = "As in the list"  # the pattern's own colours, among its colourways
PIECES_IN_WORDS = 6  # more pieces than that are told by the table alone


def name_shape(piece: Lay, has_crown: bool = False) -> str:
    """The piece's shape in words; `has_crown` where its crown is shown from above besides."""
    if piece.shape == "dome" or _begins_closed(piece):
        closed = "with a closed crown" if has_crown else "that is closed at one end"
        return f"a piece {closed}, pressed flat"
    if piece.shape == "flat":
        widths = [band.top.point(1)[0] - band.top.point(0)[0] for band in piece.bands]
        if max(widths) - min(widths) < piece.stitch_cm / 2:
            return "a rectangle"
        first, last = widths[0], widths[-1]
        if abs(first - last) < piece.stitch_cm / 2:
            return "a shaped piece"
        return "a piece that grows wider" if last > first else "a piece that grows narrower"
    return SHAPES.get(piece.shape, f"a {piece.shape} worked from its centre")


def name_tint(tint: Tint) -> str:
    """A colour as words say it: `A Chalk`."""
    return " ".join(word for word in (tint.letter, tint.name) if word) or "the yarn"


def _panels(piece: Lay, palette: Palette) -> str:
    runs = piece.bands[len(piece.bands) // 2].runs()
    if not 2 <= len(runs) <= 8:
        return ""
    names = join_words([name_tint(find_tint(palette, run.letter)) for run in runs])
    return f"; half way up, from left to right, {names}"


def _begins_closed(piece: Lay) -> bool:
    """Does a piece that lies as a tube begin with a round about a chain?"""
    return piece.shape == "tube" and piece.start == "start"


def _direction(piece: Lay, has_crown: bool) -> str:
    if _begins_closed(piece) or (piece.shape == "dome" and not piece.goes_up and not has_crown):
        return ", worked from its closed end"
    if piece.shape in ("flat", "tube") or piece.goes_up:
        return ", worked upwards from the foundation edge"
    return ", worked downwards from the centre of the crown" if piece.shape == "dome" else ""


def describe_schematic(
    pieces: Sequence[Lay], measures: Sequence[Measure], size: int, sizes: Sequence[str], palette: Palette
) -> tuple[str, str]:
    """Alt text and caption of the schematic."""
    crowns = frozenset(piece.title for piece in pieces if piece.shape == CROWN)
    told = []
    for piece in pieces[:PIECES_IN_WORDS]:
        crowned = piece.title in crowns
        figures = [f"letter {m.key}, {m.name} {write_measure(m, size)}" for m in measures_of(piece, measures, crowns)]
        head = f"{piece.title}: " if piece.title and len(pieces) > 1 else ""
        shape = name_shape(piece, crowned) + _direction(piece, crowned)
        told.append(f"{head}{shape}; {', '.join(figures)}{_panels(piece, palette)}.")
    if len(pieces) > PIECES_IN_WORDS:
        told.append(f"{counted(len(pieces) - PIECES_IN_WORDS, 'more piece')} in the table.")
    in_size = f" in size {sizes[size]}" if len(sizes) > 1 else ""
    alt = f"Schematic{in_size}. {' '.join(told)}"
    is_to_scale = all(piece.is_to_scale for piece in pieces)
    caption = f"The finished {'pieces' if len(pieces) - len(crowns) > 1 else 'piece'}"
    caption += f", right side facing, {'drawn' if is_to_scale else 'not'} to scale{in_size}."
    if len(sizes) > 1:
        caption += " The letters lead to the table of all sizes."
    if any(piece.shape in ("tube", "dome") for piece in pieces):
        caption += " “½” marks half of what is measured all round, from fold to fold."
    return _capitalise_sentences(alt), caption


def _capitalise_sentences(text: str) -> str:
    return ". ".join(part[:1].upper() + part[1:] for part in text.split(". "))


def describe_plan(pieces: Sequence[Lay], palette: Palette) -> tuple[str, str]:
    """Alt text and caption of the colour plan."""
    letters = dict.fromkeys(run.letter for piece in pieces for band in piece.all_bands for run in band.runs())
    names = [name_tint(find_tint(palette, letter)) for letter in letters]
    told = []
    for piece in pieces[:PIECES_IN_WORDS]:
        head = f"{piece.title}: " if piece.title and len(pieces) > 1 else ""
        told.append(f"{head}{_tell_rows(piece, palette)}.")
    alt = f"Colour plan in {join_words(names)}. {' '.join(told)}"
    caption = "Where each colour lies, seen from the right side."
    if any(band.shown for piece in pieces for band in piece.bands):
        caption += " A long stitch is seen down to the row that it is worked into."
    if not all(piece.is_to_scale for piece in pieces):
        caption += " Proportions are usual ones, since the pattern gives no gauge for every row."
    return _capitalise_sentences(alt), caption


def describe_colourways(ways: Sequence[tuple[str, Palette]]) -> tuple[str, str]:
    """Alt text and caption of the colourways."""
    told = []
    for name, palette in ways:
        colours = [name_tint(tint) for tint in palette.values()]
        told.append(f"{name}: {join_words(colours)}.")
    alt = f"The colour plan in {len(ways)} colourways, side by side. {' '.join(told)}"
    return alt, "The same plan in other colours. Letters and rows stay as they are; only the yarns change."


def _tell_rows(piece: Lay, palette: Palette) -> str:
    """How many rows, and how the colours begin, run in the middle and end."""
    bands = piece.all_bands
    unit = "round" if bands[0].row.kind == "round" else "row"
    letters = {run.letter for band in bands for run in band.runs()}
    if len(letters) == 1:
        return f"{counted(len(bands), unit)}, all in {name_tint(find_tint(palette, *letters))}"
    places = (("begins in", bands[0]), ("has half way", bands[len(bands) // 2]), ("ends in", bands[-1]))
    parts = []
    for verb, band in places:
        names = list(dict.fromkeys(name_tint(find_tint(palette, run.letter)) for run in band.runs()))
        if len(names) <= 6:
            parts.append(f"{verb} {join_words(names)}")
        else:
            parts.append(f"{verb} {counted(len(names), 'colour')}")
    return f"{counted(len(bands), unit)}; {join_words(parts)}"


def describe_fabric(piece: Lay, title: str, palette: Palette, shown_cm: tuple[float, float] | None) -> tuple[str, str]:
    """Alt text and caption of the fabric picture; `shown_cm` where it is a part of the piece."""
    letters = dict.fromkeys(run.letter for band in piece.all_bands for run in band.runs())
    names = join_words([name_tint(find_tint(palette, letter)) for letter in letters])
    what = title or piece.title or "The piece"
    if shown_cm:
        what = f"{what}, a part of about {shown_cm[0]:.0f} by {shown_cm[1]:.0f} cm"
    alt = f"{what}, drawn stitch by stitch from the pattern, in {names}."
    return alt, "Drawn from the pattern, stitch by stitch."
