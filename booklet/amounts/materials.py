"""The materials list: yarn by colour, hooks, notions, and the needle for the ends."""

import math
from collections.abc import Sequence

from booklet.amounts.figures import print_metres, print_number, print_sizes, print_yards
from booklet.findings import counted
from booklet.model.amounts import Material, YarnNeed, YarnUse
from booklet.model.pattern import Hook, Pattern, Yarn
from booklet.terms import load_table

SMALLEST_REGULAR_MM = 2.0


def list_materials(pattern: Pattern, yarn: YarnUse | None) -> tuple[Material, ...]:
    """The lines in the order in which a maker shops: yarn, hook, notions."""
    return (*list_yarn(pattern, yarn), *list_hooks(pattern), *list_notions(pattern, yarn))


def list_yarn(pattern: Pattern, use: YarnUse | None) -> tuple[Material, ...]:
    lines: list[Material] = []
    if pattern.yarn is not None:
        about = describe_yarn(pattern.yarn, pattern.units_first)
        if about:
            lines.append(Material("Yarn", about))
    if use is not None:
        for letter in dict.fromkeys(need.letter for need in use.needs):
            needs = [need for need in use.needs if need.letter == letter]
            lines.append(Material("Yarn", describe_needs(pattern, letter, needs), letter))
    return tuple(lines)


def describe_yarn(yarn: Yarn, units_first: str) -> str:
    """`4 Medium, wool, 100 g = 200 m (219 yd) a ball`; "" where nothing is known of it."""
    weight = f"{yarn.weight} {yarn.weight_name}".strip() if yarn.weight is not None else yarn.weight_name
    ball = describe_ball(yarn, units_first)
    return ", ".join(word for word in (yarn.name, weight, yarn.fibre, ball) if word)


def describe_ball(yarn: Yarn, units_first: str) -> str:
    grams = f"{print_number(yarn.ball_grams)} g" if yarn.ball_grams else ""
    length = ""
    if yarn.ball_metres:
        metres, yards = f"{print_number(yarn.ball_metres)} m", f"{round_yards(yarn.ball_metres)} yd"
        length = f"{yards} ({metres})" if units_first == "imperial" else f"{metres} ({yards})"
    ball = " = ".join(word for word in (grams, length) if word)
    return f"{ball} a ball" if ball else ""


def round_yards(metres: float) -> int:
    """A label's yards: the nearest whole yard, as labels print it, not rounded up as a need is."""
    return math.floor(metres / 0.9144 + 0.5)


def describe_needs(pattern: Pattern, letter: str, needs: Sequence[YarnNeed]) -> str:
    """`Fog: 3 (4, 5) balls, 520 (700, 910) m / 569 (766, 996) yd`; one figure for each size."""
    metres = f"{print_sizes([print_metres(need.metres_to_buy) for need in needs])} m"
    yards = f"{print_sizes([print_yards(need.metres_to_buy) for need in needs])} yd"
    length = f"{yards} / {metres}" if pattern.units_first == "imperial" else f"{metres} / {yards}"
    balls = [need.balls for need in needs if need.balls is not None]
    words = [length]
    if balls:
        noun = "ball" if set(balls) == {1} else "balls"
        words.insert(0, f"{print_sizes([str(number) for number in balls])} {noun}")
    name = next((colour.name for colour in pattern.colours if colour.letter == letter), "") or letter
    return f"{name}: {', '.join(words)}" if name else ", ".join(words)


def list_hooks(pattern: Pattern) -> tuple[Material, ...]:
    """The hooks listed, else those that the gauges name."""
    us_first = pattern.style.hooks == "US first"
    lines = [describe_hook(hook, us_first) for hook in pattern.hooks]
    if not lines:
        sizes = dict.fromkeys(gauge.hook_mm for gauge in pattern.gauges if gauge.hook_mm)
        lines = [name_hook(mm, us_first) for mm in sizes]
    if lines and pattern.gauges:
        lines[0] += ", or the size that gives the gauge"
    return tuple(Material("Hook", line) for line in lines)


def describe_hook(hook: Hook, us_first: bool = False) -> str:
    return ", ".join(filter(None, (name_hook(hook.mm, us_first), hook.use)))


def name_hook(mm: float, us_first: bool = False) -> str:
    """`5 mm (US H-8)`, or `US H-8 (5 mm)`; the millimetres alone where the US set leaves the size out."""
    size = find_us_size(mm)
    if size and us_first:
        return f"{size} ({print_number(mm)} mm)"
    return f"{print_number(mm)} mm ({size})" if size else f"{print_number(mm)} mm"


def find_us_size(mm: float) -> str:
    """`US H-8`, `US steel 8`; "" where there is none. A fine hook is a steel one."""
    table = load_table("hooks")
    for entry in table["regular"]:
        if math.isclose(entry["mm"], mm) and entry["us"]:
            return f"US {entry['us']}"
    for entry in table["steel"]:
        if mm < SMALLEST_REGULAR_MM and math.isclose(entry["mm"], mm):
            return f"US steel {entry['us']}"
    return ""


def list_notions(pattern: Pattern, use: YarnUse | None) -> tuple[Material, ...]:
    """The author's notions, and a needle where ends are left and none is listed."""
    lines = [Material("Notions", notion) for notion in pattern.notions]
    if use is not None and not any("needle" in notion.lower() for notion in pattern.notions):
        ends = [total.ends for total in use.totals.values()]
        if any(ends):
            shown = print_sizes([str(number) for number in ends])
            noun = counted(max(ends), "end").split()[1]
            lines.append(Material("Notions", f"yarn needle, to weave in about {shown} {noun}"))
    return tuple(lines)
