"""How much room a stitch takes where no gauge says so: from a finished measure, and the stitches that fill it.

What a published pattern often gives is the size alone. The yarn of a stitch goes by the area that it covers, so an
area and the number of stitches in it are as good as a gauge, whichever way the rows run: a granny square, diagonal
blocks and ripples too.
"""

from collections import Counter
from collections.abc import Mapping, Sequence

from booklet.amounts.gauges import count_width, is_row
from booklet.model.measure import CM_PER_INCH, Length
from booklet.model.pattern import Pattern
from booklet.model.work import WorkedPart, WorkedPattern

# What lies flat in one layer, so that its width and length are its area.
FLAT_KINDS = (
    "blanket", "throw", "afghan", "coverlet", "bedspread", "cover", "scarf", "wrap", "stole", "cloth", "washcloth",
    "dishcloth", "tablecloth", "runner", "rug", "mat", "placemat", "square",
)  # fmt: skip
SIDES = (("width", "length"), ("width", "depth"), ("width", "height"))
SQUARE_MOTIFS = ("square", "block")


def find_room(pattern: Pattern, worked: WorkedPattern, size: int) -> tuple[float, str] | None:
    """Square inches for one stitch, and whether by "size" or by "motif"; None where neither is given."""
    if pattern.gauges:
        return None
    area = find_area(pattern, size)
    if area:
        places = sum(count_places(part, size) * part.make for part in worked.parts)
        return (area / places, "size") if places else None
    return find_motif(pattern, worked.parts, size)


def find_area(pattern: Pattern, size: int) -> float | None:
    """Width times length of a flat piece, in square inches."""
    words = pattern.kind.lower().split()
    if words and not any(word in FLAT_KINDS for word in words):
        return None
    sides = find_sides(pattern, size)
    return sides[0].cm * sides[1].cm / CM_PER_INCH**2 if sides else None


def find_sides(pattern: Pattern, size: int) -> tuple[Length, ...]:
    """Width and length of a size; () where it does not have both."""
    measures: Mapping[str, Length] = pattern.sizes[size].measures if size < len(pattern.sizes) else {}
    named = {name.lower().removeprefix("finished "): length for name, length in measures.items()}
    return next(((named[one], named[other]) for one, other in SIDES if one in named and other in named), ())


def suggest_gauge(pattern: Pattern, worked: WorkedPattern) -> str:
    """The gauge that a size and its rows come to, as it would be written; "" but for a single flat piece in rows."""
    pieces = [part for part in worked.parts if part.make == 1]
    if pattern.gauges or len(pieces) != 1 or len(worked.parts) != 1 or not find_area(pattern, 0):
        return ""
    rows = [row for row in pieces[0].rows[0] if is_row(row)]
    if any(row.kind == "round" for row in rows):
        return ""
    widths = Counter(count_width(row.fabric) for row in rows)
    width, length = find_sides(pattern, 0)
    over, unit = (4.0, "in") if width.unit in ("in", "ft", "yd") else (10.0, "cm")
    per = over * (CM_PER_INCH if unit == "in" else 1.0)
    sts, number = widths.most_common(1)[0][0] * per / width.cm, len(rows) * per / length.cm
    return f"gauge: {round(sts, 1):g} sts and {round(number, 1):g} rows = {over:g} {unit}"


def find_motif(pattern: Pattern, parts: Sequence[WorkedPart], size: int) -> tuple[float, str] | None:
    """A square of known side, and the stitches of the piece that is called so, or of the only piece."""
    for gauge in pattern.motif_gauges:
        word = gauge.motif.lower().rstrip("s")
        if gauge.sts <= 0 or not word.endswith(SQUARE_MOTIFS):
            continue
        named = [part for part in parts if word.split()[-1] in part.title.lower()] or list(parts[:1])
        places = count_places(named[0], size) if named else 0
        side = gauge.over.cm / CM_PER_INCH / gauge.sts
        if places:
            return side * side / places, "motif"
    return None


def count_places(part: WorkedPart, size: int) -> int:
    """Stitches side by side over all rows of one such piece."""
    return sum(count_width(row.fabric) for row in part.rows[size] if is_row(row))
