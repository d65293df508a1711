"""How large it is when it is done, in a few lines: the piece, or the largest of several."""

from collections.abc import Sequence
from dataclasses import dataclass

from markupsafe import Markup

from booklet.findings import join_words
from booklet.model.amounts import Measure
from booklet.pages.figures import list_in_unit, print_both
from booklet.pages.manuscript import BookletInput
from booklet.pages.typography import NO_BREAK_SPACE, set_type

MAX_SIZES_IN_LINE = 4
MOST_PIECES = (4, 2, 2, 2)  # with one size, two ...; with more sizes the largest alone
ACROSS, ALONG = ("width", "circumference"), ("length", "depth")


@dataclass(frozen=True, slots=True)
class _Piece:
    """Pieces that measure the same, with the first measure across and the first along."""

    names: tuple[str, ...]
    measures: tuple[Measure, ...]

    @property
    def area(self) -> float:
        """In the last size; what has one measure alone counts as a strip of 1 cm."""
        sides = [measure.cm[-1] or 0.0 for measure in self.measures]
        return sides[0] * (sides[1] if len(sides) > 1 else 1.0)


def list_finished_sizes(manuscript: BookletInput) -> Markup | str:
    """A line a size, or a line a measure where sizes are many; empty where a gauge is missing.

    Of several pieces the largest are given with their figures and the others are named.
    """
    pieces = _list_pieces(manuscript.amounts.measures)
    if not pieces:
        return ""
    sizes = len(manuscript.pattern.size_names)
    shown = sorted(pieces, key=lambda piece: -piece.area)[: dict(enumerate(MOST_PIECES, start=1)).get(sizes, 1)]
    shown = [piece for piece in pieces if piece in shown]
    smaller = [name for piece in pieces if piece not in shown for name in piece.names]
    lines = _list_by_measure(manuscript, shown, len(pieces) > 1) if sizes > MAX_SIZES_IN_LINE else []
    lines = lines or _list_by_size(manuscript, shown, len(pieces) > 1)
    if smaller:
        lines.append(set_type(f"Smaller pieces: {join_words([name.lower() for name in smaller])}"))
    return Markup("<br>").join(lines)


def _list_pieces(measures: Sequence[Measure]) -> list[_Piece]:
    """In the order of the pattern; those with equal figures together."""
    found: dict[tuple[object, ...], _Piece] = {}
    for part in dict.fromkeys(measure.part for measure in measures):
        own = [measure for measure in measures if measure.part == part]
        chosen = [*[m for m in own if m.axis in ACROSS][:1], *[m for m in own if m.axis in ALONG][:1]]
        if not chosen or any(value is None for measure in chosen for value in (*measure.cm, *measure.inches)):
            continue
        key = tuple((measure.axis, measure.cm, measure.inches) for measure in chosen)
        names = (*(found[key].names if key in found else ()), part)
        found[key] = _Piece(names, tuple(chosen))
    return list(found.values())


def _name(piece: _Piece, follows: bool = False) -> str:
    """`Back and front`, in small letters where it follows others."""
    first, *others = piece.names
    return join_words([first.lower() if follows else first, *(name.lower() for name in others)])


def _list_by_measure(manuscript: BookletInput, pieces: Sequence[_Piece], is_named: bool) -> list[str]:
    """`Back and front, width: 45 (50, 55) cm or 17¾ (19¾, 21¾) in`"""
    lines: list[str] = []
    for piece in pieces:
        for measure in piece.measures:
            head = f"{_name(piece)}, {measure.name}" if is_named else measure.name[:1].upper() + measure.name[1:]
            units = zip(*_print_measure(measure, manuscript), strict=True)
            lines.append(set_type(head) + ": " + " or ".join(list_in_unit(figures) for figures in units))
    return lines


def _list_by_size(manuscript: BookletInput, pieces: Sequence[_Piece], is_named: bool) -> list[str]:
    """`Lap: 90 × 110 cm (36 × 44 in)`, or `Head 20 around × 8 cm (8 around × 3¼ in); body …`"""
    lines: list[str] = []
    names = manuscript.pattern.size_names
    for size, name in enumerate(names if len(names) > 1 else ("",)):
        told: list[str] = []
        for piece in pieces:
            figures = [_print_measure(measure, manuscript)[size] for measure in piece.measures]
            around = is_named and piece.measures[0].axis == "circumference"
            first, second = (_join_sides([both[unit] for both in figures], around) for unit in (0, 1))
            words = f"{first} ({second})"
            told.append(f"{set_type(_name(piece, bool(told or name)))} {words}" if is_named else words)
        lines.append(f"{set_type(name)}: {'; '.join(told)}" if name else "; ".join(told))
    return lines


def _print_measure(measure: Measure, manuscript: BookletInput) -> list[tuple[str, ...]]:
    """Both units of the measure in every size."""
    first = manuscript.pattern.units_first
    return [print_both(cm, inches, first) for cm, inches in zip(measure.cm, measure.inches, strict=True)]


def _join_sides(figures: Sequence[str], around: bool) -> str:
    """Width by length, the unit once: `70.5 × 71 cm`."""
    *sides, last = figures
    if not sides:
        return f"{last} around" if around else last
    told = f"{sides[0].rpartition(NO_BREAK_SPACE)[0]}{' around' if around else ''}"
    return f"{told} × {last}"
