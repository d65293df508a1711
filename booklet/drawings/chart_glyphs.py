"""What a laid chart consists of: symbols between points, in units of one stitch, y upwards."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from booklet.drawings.chart_marks import Mark
from booklet.drawings.lay import basic_kind
from booklet.drawings.plan import Point
from booklet.working.kinds import kind_of

CHAIN_STEP = 0.84  # from chain to chain along a run
HEIGHTS = {"sl st": 0.5, "ch": 0.5, "sc": 1.0, "hdc": 1.5, "dc": 2.1, "tr": 2.8, "dtr": 3.5, "trtr": 4.2}
EXTENDED = {"esc": 1.35, "ehdc": 1.8, "edc": 2.5}
LEAST_RISE = 0.76  # share of its height to which a leaning stitch may come down


@dataclass(frozen=True, slots=True)
class Glyph:
    """One symbol. `kind` is the worked stitch, by its US name; `look` names the drawing that stands for it.

    A chain lies between `feet[0]` and `head`; a stitch stands on its feet with its top at the head.
    `row` is the index of the chart row that it belongs to. `loop` is the sign at its feet, as seen from the right
    side; `deep` the point further down that it goes into.
    """

    kind: str
    look: str
    row: int
    feet: tuple[Point, ...]
    head: Point
    width: float = 1.0
    loop: str = ""
    deep: Point | None = None


def height_of(kind: str) -> float:
    """How tall a stitch is drawn, in stitch widths."""
    if kind == "any":  # a row taken on trust: room for words
        return 2.0
    if kind in EXTENDED:
        return EXTENDED[kind]
    plain = basic_kind(kind_of(kind).base) or basic_kind(kind)
    if plain:
        return HEIGHTS[plain]
    return 2.0 if kind in ("bobble", "pc", "puff", "cl", "shell", "v-st") else 1.2


def rise(kind: str, lean: float) -> float:
    """How far up a stitch reaches whose top lies `lean` beside its foot."""
    height = height_of(kind)
    return max(math.sqrt(max(0.0, height * height - lean * lean)), LEAST_RISE * height)


def lay_chain(start: Point, end: Point, chains: int, row: int, bulge: Point, kind: str = "ch") -> list[Glyph]:
    """A run of chains from one point to another: straight where there is room, else on an arch towards `bulge`.

    `bulge` is a unit vector; the arch is part of a circle as long as the chains.
    """
    path = _arch(start, end, chains * CHAIN_STEP, bulge)
    length = CHAIN_STEP * 0.94
    glyphs = []
    for number in range(chains):
        (x, y), (dx, dy) = path((number + 0.5) / chains)
        half = min(length, math.dist(start, end) / chains * 1.6 if chains == 1 else length) / 2
        half = max(half, 0.3)
        glyphs.append(Glyph(kind, "ch", row, ((x - dx * half, y - dy * half),), (x + dx * half, y + dy * half)))
    return glyphs


def _arch(start: Point, end: Point, length: float, bulge: Point):  # type: ignore[no-untyped-def]
    """A function from share to (point, unit direction) along an arc of at least `length` from start to end."""
    (x0, y0), (x1, y1) = start, end
    chord = math.dist(start, end)
    if chord < 1e-6:
        chord, x1 = 1e-3, x0 + 1e-3
    ux, uy = (x1 - x0) / chord, (y1 - y0) / chord
    nx, ny = -uy, ux
    if nx * bulge[0] + ny * bulge[1] < 0:
        nx, ny = -nx, -ny
    if length <= chord * 1.02:
        return lambda share: ((x0 + (x1 - x0) * share, y0 + (y1 - y0) * share), (ux, uy))
    half = _half_angle(chord / length)
    radius = chord / 2 / math.sin(half)
    middle = ((x0 + x1) / 2 - nx * radius * math.cos(half), (y0 + y1) / 2 - ny * radius * math.cos(half))

    def at(share: float) -> tuple[Point, Point]:
        angle = (2 * share - 1) * half
        across, up = math.sin(angle), math.cos(angle)
        point = (middle[0] + radius * (ux * across + nx * up), middle[1] + radius * (uy * across + ny * up))
        return point, (ux * up - nx * across, uy * up - ny * across)

    return at


def _half_angle(ratio: float) -> float:
    """Half the angle of an arc whose chord is `ratio` of its length: sin(a) / a = ratio, by halving."""
    low, high = 1e-4, math.pi * 0.94
    for _ in range(30):
        angle = (low + high) / 2
        if math.sin(angle) / angle > ratio:
            low = angle
        else:
            high = angle
    return (low + high) / 2


def mean_point(points: Sequence[Point]) -> Point:
    """The middle of some points."""
    return sum(x for x, _ in points) / len(points), sum(y for _, y in points) / len(points)


def look_of(mark: Mark, is_back: bool) -> str:
    """The drawing for a stitch as it looks from the right side: worked from the back, front post is back post."""
    kind = mark.kind
    if is_back and kind[:2] in ("FP", "BP"):
        return ("BP" if kind.startswith("FP") else "FP") + kind[2:]
    return kind
