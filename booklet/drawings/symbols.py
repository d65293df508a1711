"""The symbol of each stitch, drawn from geometry of our own after the published descriptions.

The Craft Yarn Council describes them (as secondary pages report it): an open oval for a chain, a
filled one for a slip stitch, a cross for a single crochet, a T for the half double, and a slash
across the stem for every yarn over of the taller stitches. Stitches worked together lean to one
top, those of one place fan from one foot; a post stitch has a hook at its foot.

Everything here is in stitch widths with y downwards, ready to be scaled.
"""

import math
import re
from collections.abc import Sequence

from booklet.drawings.lay import basic_kind
from booklet.drawings.plan import Area, Point, Polyline

SLASHES = {"dc": 1, "tr": 2, "dtr": 3, "trtr": 4}
TOP = 0.33  # half of the bar across the top
SLASH = 0.27  # half of a slash
CROSS = 0.33  # half of the bar of a single crochet
FOOT_GAP, TOP_GAP = 0.16, 0.05
OVAL = 0.21  # half the breadth of a chain
TOGETHER = re.compile(r"(?:FP|BP)?[a-z ]+?\d+tog")
BUNDLE = re.compile(r"(?:(\d+)-)?.*?\b(cl|cluster|bobble|puff|pc|popcorn)\b")
SHELL = re.compile(r"(?:(\d+)-)?.*?\b(shell|v-st)\b")
USUAL_NUMBER = {"cl": 3, "cluster": 3, "bobble": 5, "puff": 3, "pc": 5, "popcorn": 5}

Points = tuple[Point, ...]


class Pen:
    """Strokes of one symbol in its own axes: along the stem and across it."""

    def __init__(self, weight: float, colour: str) -> None:
        self.weight = weight
        self.colour = colour
        self.strokes: list[Polyline | Area] = []

    def line(self, *points: Point) -> None:
        self.strokes.append(Polyline(points, self.weight, self.colour))

    def ring(self, points: Points) -> None:
        self.strokes.append(Polyline(points, self.weight, self.colour, closed=True))

    def blot(self, points: Points) -> None:
        self.strokes.append(Area((points,), self.colour))


def _ellipse(centre: Point, along: Point, length: float, breadth: float, count: int = 20) -> Points:
    """Points of an ellipse with half axes `length` along a unit vector and `breadth` across it."""
    (x, y), (ux, uy) = centre, along
    points = []
    for step in range(count):
        angle = math.tau * step / count
        a, b = length * math.cos(angle), breadth * math.sin(angle)
        points.append((x + ux * a - uy * b, y + uy * a + ux * b))
    return tuple(points)


def _towards(start: Point, end: Point) -> tuple[Point, float]:
    """Unit vector and distance; upwards where both are one point."""
    length = math.dist(start, end)
    if length < 1e-9:
        return (0.0, -1.0), 0.0
    return ((end[0] - start[0]) / length, (end[1] - start[1]) / length), length


def _on(start: Point, unit: Point, along: float, across: float = 0.0) -> Point:
    """A point `along` the way and `across` to its right."""
    return start[0] + unit[0] * along - unit[1] * across, start[1] + unit[1] * along + unit[0] * across


def draw_look(look: str, feet: Sequence[Point], head: Point, width: float, pen: Pen) -> None:
    """Adds the strokes of a symbol to the pen; `feet` and `head` in stitch widths, y downwards."""
    if look == "ch":
        unit, length = _towards(feet[0], head)
        middle = _on(feet[0], unit, length / 2)
        pen.ring(_ellipse(middle, unit, length / 2, min(OVAL, length * 0.3)))
    elif look == "sl st":
        unit, _ = _towards(feet[0], head)
        middle = _on(head, unit, -0.12)
        pen.blot(_ellipse(middle, (-unit[1], unit[0]), 0.27, 0.13))
    elif TOGETHER.fullmatch(look):
        _draw_together(look, feet, head, pen)
    elif (match := SHELL.fullmatch(look)) is not None:
        _draw_shell(look, match, feet[0], head, width, pen)
    elif (match := BUNDLE.fullmatch(look)) is not None:
        _draw_bundle(look, match, _middle(feet), head, pen)
    elif look == "stem":  # of no stitch in particular, in the key
        pen.line(_on(_middle(feet), _towards(_middle(feet), head)[0], FOOT_GAP), head)
    elif look == "spike":
        _draw_spike(_middle(feet), head, pen)
    elif look in ("sc", "rsc", "esc", "FPsc", "BPsc"):
        _draw_short(look, _middle(feet), head, pen)
    elif look.startswith("own ") or not basic_kind(look):
        low, high, unit, length = _shorten(_middle(feet), head)
        _draw_own(look, low, high, unit, length, pen)
    else:
        _draw_stem(look, _middle(feet), head, pen)


def _middle(feet: Sequence[Point]) -> Point:
    return sum(x for x, _ in feet) / len(feet), sum(y for _, y in feet) / len(feet)


def _shorten(foot: Point, head: Point) -> tuple[Point, Point, Point, float]:
    """Foot, head, unit vector and length of a stem that keeps clear of its neighbours."""
    unit, length = _towards(foot, head)
    gap = min(FOOT_GAP, length * 0.2)
    return _on(foot, unit, gap), _on(head, unit, -TOP_GAP), unit, max(0.1, length - gap - TOP_GAP)


def _draw_short(look: str, foot: Point, head: Point, pen: Pen) -> None:
    """Single crochet and its kin."""
    low, high, unit, length = _shorten(foot, head)
    pen.line(low, high)
    middle = length * 0.52 if length < 1.2 else length - 0.5
    pen.line(_on(low, unit, middle, -CROSS), _on(low, unit, middle, CROSS))
    if look == "rsc":
        wave = [
            (_on(high, unit, 0.17 + 0.1 * math.sin(step / 10 * math.tau), (step / 10 - 0.5) * 0.7))
            for step in range(11)
        ]
        pen.line(*wave)
    elif look == "esc":
        pen.line(_on(low, unit, middle - 0.3, -SLASH * 0.6), _on(low, unit, middle - 0.3, SLASH * 0.6))
    elif look[:2] in ("FP", "BP"):
        _draw_hook(look, low, unit, pen)


def is_own(look: str) -> bool:
    """Is it a stitch of the pattern's own, for which there is no published symbol?"""
    known = basic_kind(look) or TOGETHER.fullmatch(look) or SHELL.fullmatch(look) or BUNDLE.fullmatch(look)
    return not known or (" st" in look and look != "sl st") or _is_spike(look)


def _is_spike(look: str) -> bool:
    return any(word in look.lower() for word in ("spike", "long"))


def _draw_own(look: str, low: Point, high: Point, unit: Point, length: float, pen: Pen) -> None:
    """A stitch of the pattern's own: a stem with a sign that is told apart by its number."""
    middle = _on(low, unit, length * 0.62)
    corners = {0: 4, 1: 3, 2: 12}[(int(look.split()[1]) - 1) % 3 if look.startswith("own ") else 0]
    pen.line(low, _on(middle, unit, -0.3))
    points = []
    for step in range(corners):
        angle = math.tau * step / corners
        points.append(_on(middle, unit, 0.32 * math.cos(angle), 0.3 * math.sin(angle)))
    pen.ring(tuple(points))
    if look.startswith("own ") and int(look.split()[1]) > 3:
        pen.blot(_ellipse(middle, unit, 0.1, 0.1))


def _draw_spike(foot: Point, head: Point, pen: Pen) -> None:
    """A stitch that reaches into a row further down."""
    low, high, unit, _ = _shorten(foot, head)
    foot = _on(low, unit, -0.75)
    pen.line(foot, high)
    pen.line(_on(high, unit, -0.3, -CROSS), _on(high, unit, -0.3, CROSS))
    pen.line(_on(foot, unit, 0.22, -0.2), foot, _on(foot, unit, 0.22, 0.2))


def _draw_stem(look: str, foot: Point, head: Point, pen: Pen) -> None:
    """Half double and taller: stem, bar and slashes; a hook at the foot for a post stitch."""
    low, high, unit, length = _shorten(foot, head)
    plain = basic_kind(look)
    pen.line(low, high)
    pen.line(_on(high, unit, 0.0, -TOP), _on(high, unit, 0.0, TOP))
    _draw_slashes(low, unit, length, SLASHES.get(plain, 0), pen)
    if look[:2] in ("FP", "BP"):
        _draw_hook(look, low, unit, pen)
    elif look in ("ehdc", "edc"):
        at = 0.32
        pen.line(_on(low, unit, at, -0.2), _on(low, unit, at, 0.2))


def _draw_slashes(low: Point, unit: Point, length: float, count: int, pen: Pen) -> None:
    step = 0.3 if count < 4 else 0.26
    middle = length * 0.56
    for number in range(count):
        at = middle + (number - (count - 1) / 2) * step
        pen.line(_on(low, unit, at - 0.12, -SLASH), _on(low, unit, at + 0.12, SLASH))


def _draw_hook(look: str, low: Point, unit: Point, pen: Pen) -> None:
    """The curl at the foot: to the right for the front post, to the left for the back post."""
    side = 1 if look.startswith("FP") else -1
    radius = 0.19
    points = []
    for step in range(11):
        angle = math.pi * 1.35 * step / 10
        points.append(_on(low, unit, -radius * math.sin(angle), side * radius * (1 - math.cos(angle))))
    pen.line(*points)


def _draw_together(look: str, feet: Sequence[Point], head: Point, pen: Pen) -> None:
    """Stems from their own feet to one top."""
    plain = basic_kind(look)
    number = int(re.search(r"(\d+)tog", look)[1])  # type: ignore[index]
    if len(feet) < number:
        x, y = _middle(feet)
        spread = max(0.8, max(px for px, _ in feet) - min(px for px, _ in feet))
        feet = [(x + spread * (at / (number - 1) - 0.5), y) for at in range(number)]
    unit, _ = _towards(_middle(feet), head)
    top = _on(head, unit, -TOP_GAP)
    for foot in feet:
        way, length = _towards(foot, top)
        low = _on(foot, way, FOOT_GAP)
        pen.line(low, top)
        if plain == "sc":
            at = length * 0.42
            pen.line(_on(low, way, at, -CROSS * 0.6), _on(low, way, at, CROSS * 0.6))
        else:
            _draw_slashes(low, way, (length - FOOT_GAP) * 0.95, SLASHES.get(plain, 0), pen)
        if look[:2] in ("FP", "BP"):
            _draw_hook(look, low, way, pen)
    if plain != "sc":
        pen.line(_on(top, unit, 0.0, -TOP), _on(top, unit, 0.0, TOP))


def _draw_bundle(look: str, match: re.Match[str], foot: Point, head: Point, pen: Pen) -> None:
    """Cluster, bobble, puff and popcorn: stems that part and meet again, in the shape of a bud."""
    low, high, unit, length = _shorten(foot, head)
    family = match[2]
    count = min(5, int(match[1] or USUAL_NUMBER[family]))
    is_popcorn = family in ("pc", "popcorn")
    top = length - (0.26 if is_popcorn else 0.0)
    wide = 0.4 if count > 3 else 0.34
    for number in range(count):
        side = 2 * number / (count - 1) - 1 if count > 1 else 0.0
        path = [
            _on(low, unit, top * share / 12, side * wide * math.sin(math.pi * (share / 12) ** 0.85))
            for share in range(13)
        ]
        pen.line(*path)
    if is_popcorn:
        pen.ring(_ellipse(_on(low, unit, top + 0.13), (-unit[1], unit[0]), 0.27, 0.13))
    else:
        pen.line(_on(high, unit, 0.0, -TOP), _on(high, unit, 0.0, TOP))
    if family != "puff" and basic_kind(look.split("-")[-1].split(" ")[0]) != "hdc":
        pen.line(_on(low, unit, top * 0.5 - 0.08, -wide - 0.06), _on(low, unit, top * 0.5 + 0.08, wide + 0.06))


def _draw_shell(look: str, match: re.Match[str], foot: Point, head: Point, width: float, pen: Pen) -> None:
    """Stems that fan from one foot; in a V-stitch two with a chain between them."""
    unit, _ = _towards(foot, head)
    plain = basic_kind(look) if match[1] else "dc"
    number = 2 if match[2] == "v-st" else int(match[1] or max(3, round(width)))
    reach = max(width - 1, 0.9) / 2
    for at in range(number):
        side = 2 * at / (number - 1) - 1 if number > 1 else 0.0
        _draw_stem(plain or "dc", foot, _on(head, unit, -0.2 * side * side, side * reach), pen)
    if match[2] == "v-st":
        pen.ring(_ellipse(_on(head, unit, -0.1), (-unit[1], unit[0]), 0.3, 0.15))


def say_look(look: str) -> str:
    """The symbol in words, for those who do not see it."""
    plain = basic_kind(look)
    slashes = {0: "", 1: " with one slash", 2: " with two slashes", 3: " with three slashes", 4: " with four slashes"}
    bars = slashes[SLASHES.get(plain, 0)]
    if look == "ch":
        return "an open oval"
    if look == "sl st":
        return "a small filled oval"
    if look == "spike":
        return "a cross on a long stem that ends in an arrow"
    if look.startswith("own "):
        shape = ("diamond", "triangle", "circle")[(int(look.split()[1]) - 1) % 3]
        return f"a stem with an open {shape}{' and a dot in it' if int(look.split()[1]) > 3 else ''}"
    if (match := re.search(r"(\d+)tog", look)) is not None:
        return f"{match[1]} stems{bars or (' with cross bars' if plain == 'sc' else '')} that lean to one top"
    if (match := SHELL.fullmatch(look)) is not None:
        return (
            "two stems from one foot with an oval between their tops"
            if match[2] == "v-st"
            else "stems that fan from one foot"
        )
    if (match := BUNDLE.fullmatch(look)) is not None:
        end = "an open oval" if match[2] in ("pc", "popcorn") else "a bar"
        return f"curved stems joined at foot and top, like a bud, under {end}"
    hook = {"FP": " and a hook to the right at its foot", "BP": " and a hook to the left at its foot"}.get(look[:2], "")
    if plain == "sc":
        extra = {"rsc": " under a wave", "esc": " with a short bar below"}.get(look, "")
        return f"an upright cross{extra}{hook}"
    return f"a T{bars}{hook}"
