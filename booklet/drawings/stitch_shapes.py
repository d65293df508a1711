"""How each stitch lies in the fabric: strands of yarn for its front and for its back.

Shapes are ours, drawn from what a stitch looks like: a single crochet from the front is a V under
the strand of its top; from the back a bar over two short legs; taller stitches are posts with one
slanting wrap for each yarn over; post stitches stand out or lie back.
"""

import re
from functools import lru_cache

from booklet.drawings.lay import basic_kind
from booklet.drawings.plan import Point
from booklet.drawings.strands import Strand

BUNDLES = re.compile(r"bobble|puff|popcorn|\bpc\b|cluster|\bcl\b|shell|\d+tog")
Shape = tuple[Strand, ...]


def _mirror(strand: Strand) -> Strand:
    return Strand(tuple((-u, v) for u, v in strand.path), strand.thickness, strand.shift, strand.rooted)


def _pair(strand: Strand) -> Shape:
    return strand, _mirror(strand)


TOP = Strand(((-0.56, 0.92), (-0.2, 0.83), (0.18, 0.85), (0.56, 0.97)), 0.29, -4)
SC_FRONT: Shape = (
    *_pair(Strand(((-0.05, -0.16), (-0.16, 0.2), (-0.34, 0.62), (-0.42, 0.84)), 0.37, rooted=True)),
    TOP,
)
SC_BACK: Shape = (
    *_pair(Strand(((-0.14, -0.1), (-0.2, 0.2), (-0.2, 0.6)), 0.34, -12, rooted=True)),
    Strand(((-0.56, 0.96), (0.0, 0.9), (0.56, 0.96)), 0.29, -14),
    Strand(((-0.56, 0.46), (-0.3, 0.6), (0.3, 0.62), (0.56, 0.5)), 0.39, 8),
)
HDC_FRONT: Shape = (
    *_pair(Strand(((-0.05, -0.12), (-0.15, 0.22), (-0.33, 0.6), (-0.42, 0.84)), 0.36, rooted=True)),
    Strand(((-0.42, 0.36), (-0.1, 0.46), (0.36, 0.62)), 0.28, 6),
    TOP,
)
HDC_BACK: Shape = (
    *_pair(Strand(((-0.14, -0.1), (-0.19, 0.2), (-0.18, 0.6)), 0.34, -8, rooted=True)),
    Strand(((-0.56, 0.95), (0.0, 0.9), (0.56, 0.95)), 0.27, -14),
    Strand(((-0.54, 0.36), (0.0, 0.43), (0.54, 0.36)), 0.3, 2),
    Strand(((-0.55, 0.64), (-0.2, 0.72), (0.2, 0.72), (0.55, 0.64)), 0.33, 8),
)
CHAIN: Shape = (
    Strand(((-0.52, 0.82), (-0.15, 1.02), (0.5, 0.9)), 0.33, -4),
    Strand(((-0.5, 0.74), (-0.05, 0.6), (0.54, 0.8)), 0.33, 4),
)
SLIP: Shape = (
    Strand(((-0.5, 0.5), (-0.1, 0.85), (0.5, 0.6)), 0.32),
    Strand(((-0.5, 0.4), (0.0, 0.2), (0.5, 0.55)), 0.32, 6),
)


@lru_cache(maxsize=16)
def _tall(wraps: int, is_front: bool) -> Shape:
    """A post of two strands with `wraps` slanting wraps, and its top."""
    slant = 1 if is_front else -1
    post = ((-0.04, -0.1), (-0.19, 0.16), (-0.16, 0.5), (-0.3, 0.86))
    legs = _pair(Strand(post, 0.36, 0 if is_front else -8, rooted=True))
    bands = []
    for wrap in range(wraps):
        v = 0.2 + 0.46 * (wrap + 0.5) / wraps
        rise = 0.13 / wraps
        bands.append(Strand(((-0.33, v - rise * slant), (0.0, v), (0.33, v + rise * slant)), 0.29, 8))
    top = TOP if is_front else Strand(((-0.56, 0.92), (0.0, 0.86), (0.56, 0.92)), 0.32, 2)
    return (*legs, *bands, top)


def _post(is_raised: bool) -> Shape:
    """A stitch round the post below: raised it stands before its neighbours, else behind their tops."""
    if is_raised:
        return (
            TOP,
            *_pair(Strand(((-0.09, -0.42), (-0.2, -0.1), (-0.2, 0.4), (-0.21, 0.92)), 0.42, 12, rooted=True)),
            Strand(((-0.36, 0.2), (0.0, 0.32), (0.36, 0.46)), 0.33, 20),
        )
    return (
        *_pair(Strand(((-0.13, -0.05), (-0.2, 0.4), (-0.22, 0.9)), 0.36, -30, rooted=True)),
        Strand(((-0.55, 0.92), (0.0, 0.86), (0.55, 0.92)), 0.31, -12),
        Strand(((-0.52, 0.3), (0.0, 0.37), (0.52, 0.3)), 0.33, -16),
    )


@lru_cache(maxsize=16)
def _bundle(posts: int, is_gathered: bool) -> Shape:
    """Several posts with one top: spread at the foot for stitches worked together, a pod for a bobble."""
    strands = []
    for post in range(posts):
        at = (2 * post / (posts - 1) - 1) if posts > 1 else 0.0
        path: tuple[Point, ...]
        if is_gathered:
            path = ((at * 0.12, -0.05), (at * 0.5, 0.32), (at * 0.46, 0.62), (at * 0.08, 0.9))
        else:
            path = ((at * 0.46, -0.12), (at * 0.3, 0.4), (at * 0.1, 0.86))
        strands.append(Strand(path, 0.34, 14 if is_gathered else 0, rooted=True))
    order = sorted(strands, key=lambda strand: -abs(strand.path[1][0]))
    return (*order, TOP)


WRAPS = {"dc": 1, "tr": 2, "dtr": 3, "trtr": 4}


def find_shape(kind: str, is_front: bool) -> Shape:
    """The strands of a stitch by its US abbreviation, seen from its front or its back."""
    together = re.search(r"(\d+)tog", kind)
    if together:
        return _bundle(min(5, int(together.group(1))), False)
    if BUNDLES.search(kind):
        return _bundle(4, True)
    plain = basic_kind(kind)
    if kind.startswith(("FP", "BP")) and plain in WRAPS | {"sc": 0, "hdc": 0}:
        return _post(kind.startswith("FP") == is_front)
    if plain in WRAPS:
        return _tall(WRAPS[plain], is_front)
    if plain == "hdc":
        return HDC_FRONT if is_front else HDC_BACK
    if plain == "ch":
        return CHAIN
    if plain == "sl st":
        return SLIP
    return SC_FRONT if is_front else SC_BACK
