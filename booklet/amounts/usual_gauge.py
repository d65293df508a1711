"""The stitches that are usual over 4 in where a pattern states no gauge: from its hook, its yarn weight or its ball.

The trade body's guide gives each weight a band of stitches and a band of hooks. In the middle of the bands, stitches
times hook come to nearly the same for all weights from lace to bulky (72 to 76 for 4 in and millimetres): a stitch
is about as wide as its hook lets it be. A maker who takes another hook than the middle one gets about half of
the difference, for the yarn has its say as well.
"""

import math
from collections.abc import Mapping
from typing import Any

from booklet.model.pattern import Pattern, Yarn
from booklet.terms import load_table

# How much of a difference in hooks shows in the stitches: published gauges of worsted on hooks of 4 to 9 mm.
HOOK_POWER = 0.5
LIGHTEST, HEAVIEST = 0, 5  # the weights whose bands agree on stitches times hook


def estimate_stitches(pattern: Pattern) -> tuple[float, str] | None:
    """Stitches in 4 in, and what they are taken from: "weight", "hook" or "ball"; None where nothing tells."""
    hook = pattern.hooks[0].mm if pattern.hooks else None
    yarn = pattern.yarn
    entry = load_table("yarn_weights").get(yarn.weight) if yarn and yarn.weight is not None else None
    told = "weight"
    if entry is None and hook:
        return find_hook_rule() / hook, "hook"
    if entry is None:
        entry, told = find_weight(yarn), "ball"
    if entry is None:
        return None
    # Strands held together lie side by side: n of them are as thick as the root of n.
    thicker = math.sqrt(yarn.strands) if yarn else 1.0
    stitches = middle(entry["sc_per_4in"]) / thicker
    if hook:
        stitches *= (middle(entry["hook_mm"]) * thicker / hook) ** HOOK_POWER
    return stitches, told


def find_weight(yarn: Yarn | None) -> Mapping[str, Any] | None:
    """The weight whose metres in 100 g the ball's label tells; None where there is no ball."""
    if yarn is None or not yarn.ball_grams or not yarn.ball_metres:
        return None
    metres = yarn.ball_metres / yarn.ball_grams * 100
    entries = [entry for entry in load_table("yarn_weights").values() if entry.get("metres_per_100g")]
    return next((entry for entry in entries if metres >= entry["metres_per_100g"][0]), None)


def find_hook_rule() -> float:
    """Stitches in 4 in times the millimetres of the hook, in the mean of the weights that agree on it."""
    table = load_table("yarn_weights")
    weights = [table[number] for number in range(LIGHTEST, HEAVIEST + 1)]
    return sum(middle(entry["sc_per_4in"]) * middle(entry["hook_mm"]) for entry in weights) / len(weights)


def middle(band: tuple[float | None, float | None]) -> float:
    """The middle of a band, its one end where the other is open."""
    ends = [end for end in band if end is not None]
    return sum(ends) / len(ends)
