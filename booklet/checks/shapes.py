"""Sides of a motif that ought to be equal, and pieces that ought to mirror each other."""

import re
from collections import Counter
from collections.abc import Iterator, Sequence
from itertools import pairwise

from booklet.checks import messages
from booklet.findings import Finding
from booklet.model.parsed import ParsedPattern
from booklet.model.work import Fabric, WorkedPart, WorkedPattern, WorkedRow
from booklet.rows.row import list_works

CORNERS = range(3, 9)  # a triangle to an octagon
HAND = re.compile(r"\b(left|right)\b", re.IGNORECASE)


def check_sides(parsed: ParsedPattern, worked: WorkedPattern) -> Iterator[Finding]:
    """A round with corners in which one side has another number of stitches than all the others.

    A motif joined to another as it goes has corners of two kinds, and is left out.
    """
    lines = [row for part in parsed.parts for row in part.rows]
    joined = {row.span.start for row in lines if any(work.where.how == "elsewhere" for work in list_works(row.steps))}
    for part in worked.parts:
        told: set[int] = set(joined)
        for rows in part.rows:
            for row in rows:
                if row.kind != "round" or row.status != "worked" or row.span.start in told:
                    continue
                odd = find_odd_side(row.fabric)
                if odd is not None:
                    told.add(row.span.start)
                    yield messages.sides_differ(row.label, odd[0], odd[1], row.span)


def find_odd_side(fabric: Fabric) -> tuple[int, int] | None:
    """(stitches of the one side that differs, stitches of all the others); None where the sides agree or are few.

    Corners are chain spaces of one size, two chains or more, that are not in the count. The round is a
    ring, so the stitches before the first corner belong to the side that ends it.
    """
    begun = [site for site in fabric.sites[:1] if site.chains]  # a chain at the start, which is no side's space
    begins_cluster = bool(begun) and any(kind.endswith("tog") for kind in fabric.counts)
    sites = fabric.sites[1:] if begun and (begun[0].kind == "ch" or begins_cluster) else fabric.sites
    runs = Counter(site.run for site in sites if site.kind == "ch" and site.run > 1 and site.at == 0)
    if len(runs) != 1 or next(iter(runs.values())) not in CORNERS:
        return None
    sides: list[int] = [0]
    for site in sites:
        if site.kind == "ch" and site.run > 1:
            if site.at == 0:
                sides.append(0)
        else:
            sides[-1] += 1
    sides[0] += sides.pop()
    sizes = Counter(sides)
    if len(sizes) != 2 or min(sizes.values()) != 1 or (len(sides) < 4 and max(sizes.values()) < 2):
        return None
    (usual, _), (odd, _) = sizes.most_common(2)
    return (odd, usual) if odd else None  # a round of loops is joined in its first one


def check_mirrors(parsed: ParsedPattern, worked: WorkedPattern) -> Iterator[Finding]:
    """A left and a right piece with different rows or counts, or shaped at an end that no mirror image has."""
    pairs: dict[str, WorkedPart] = {}
    for part in worked.parts:
        if not HAND.search(part.title):
            continue
        name = HAND.sub("", part.title).strip().lower()
        other = pairs.setdefault(name, part)
        if other is part or other.title.lower() == part.title.lower():
            continue
        for size, (rows, others) in enumerate(zip(part.rows, other.rows, strict=True)):
            if any(row.status != "worked" for row in (*rows, *others)) or _joins_pieces(parsed, part, other):
                continue
            if len(rows) != len(others):
                sizes = _size_name(parsed, size)
                yield messages.mirror_rows_differ(
                    part.title, len(rows), other.title, len(others), part.span, other.span, sizes
                )
                break
            different = next((pair for pair in zip(rows, others, strict=True) if pair[0].made != pair[1].made), None)
            if different is not None:
                row, twin = different
                yield messages.mirror_differs(
                    row.label, row.made, other.title, twin.made, row.span, twin.span, _size_name(parsed, size)
                )
                break
            if found := find_one_sided(rows, others):
                row, twin, others_mirrored = found
                yield messages.mirror_sides_differ(
                    row.label, other.title, others_mirrored, row.span, twin.span, _size_name(parsed, size)
                )
                break


def find_one_sided(rows: Sequence[WorkedRow], others: Sequence[WorkedRow]) -> tuple[WorkedRow, WorkedRow, bool] | None:
    """The first row shaped at one end that is alike in both pieces where rows before it are mirrored, or the other way.

    The last is whether the rows before are mirrored. Rows shaped at both ends alike say nothing; nor do rows that
    are neither alike nor mirrored, such as those with buttonholes.
    """
    before: bool | None = None
    for (below, row), (under, twin) in zip(pairwise(rows), pairwise(others), strict=True):
        ends, twins = _gain_at_ends(below, row), _gain_at_ends(under, twin)
        if ends is None or twins is None or row.turned != twin.turned or ends[0] == ends[1]:
            continue
        mirrored = ends == twins[::-1]
        if not mirrored and ends != twins:
            continue
        if before is not None and mirrored != before:
            return row, twin, before
        before = mirrored
    return None


def _gain_at_ends(below: WorkedRow, row: WorkedRow) -> tuple[int, int] | None:
    """Stitches gained in the first and in the last half of a row, fewer below 0; None where it is no row over that."""
    if row.kind != "row" or row.over is not None or row.along or below.kind == "foundation":
        return None
    number = len(below.fabric.sites)
    half = number // 2
    made = [0, 0]
    at = 0.0
    for stitch in row.fabric.stitches:
        if stitch.into:
            at = sum(stitch.into) / len(stitch.into)
            at = number - 1 - at if row.turned else at
        if stitch.top >= 0 and row.fabric.sites[stitch.top].counts:
            made[0] += at < half
            made[1] += at > number - 1 - half
    under = [site.counts for site in (below.fabric.sites[::-1] if row.turned else below.fabric.sites)]
    return made[0] - sum(under[:half]), made[1] - sum(under[number - half :])


def _joins_pieces(parsed: ParsedPattern, *parts: WorkedPart) -> bool:
    """Does one of the pieces go on over the other, as a yoke does?"""
    titles = {part.title for part in parts}
    rows = (row for part in parsed.parts if part.title in titles for row in part.rows)
    return any(work.where.how == "piece" for row in rows for work in list_works(row.steps))


def _size_name(parsed: ParsedPattern, size: int) -> tuple[str, ...]:
    name = parsed.sized.pattern.size_names[size]
    return (name,) if name else ()
