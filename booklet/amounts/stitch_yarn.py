"""How much yarn one stitch takes in a given fabric.

The model, its measurements and how well it holds stand in `terms/yarn_lengths.yaml`: a stitch is a chain
along the top of the row and a stem of loops under it, which is what clusters and decreases are put together
from; in another fabric all of it grows as its loops do. Everything here is in inches of yarn, because the
measurements are.
"""

import math
import re
from dataclasses import dataclass
from functools import cache

from booklet.terms import load_table

LONG = re.compile(r"(?P<rows>\d+)-row long (?P<plain>.+)")
COMPOUND = re.compile(r"(?P<post>FP|BP)?(?P<plain>[a-z]+(?: [a-z]+)?)(?:(?P<together>\d+)tog)?")
CLUSTER = re.compile(r"(?:(?P<number>\d+)-)?(?:(?P<plain>[a-z]+) )?(?P<family>cl|bobble|puff|pc|shell|v-st)")
# A group that says neither how many nor of what is taken as the trade's commonest.
GROUP_OF = {
    "cl": (3, "dc"), "bobble": (5, "dc"), "puff": (3, "hdc"), "pc": (5, "dc"), "shell": (5, "dc"), "v-st": (2, "dc"),
}  # fmt: skip


@dataclass(frozen=True, slots=True)
class StitchYarn:
    """A stitch at the reference gauge: inches of yarn lying along the row, inches standing, row height in inches."""

    along: float
    standing: float
    height: float


@dataclass(frozen=True, slots=True)
class Scale:
    """A fabric against the reference: how many times as wide its stitches and as high its rows are."""

    width: float
    height: float

    @property
    def loop(self) -> float:
        """How many times as large its loops are: they show in the width of a stitch as much as in its height."""
        return math.sqrt(self.width * self.height)


@cache
def reference_width() -> float:
    """Width of a stitch in inches at the reference gauge."""
    return 1 / float(load_table("yarn_lengths")["reference"]["sts_per_in"])


@cache
def describe_stitch(kind: str) -> StitchYarn | None:
    """The yarn of a stitch by its US abbreviation: plain, FP and BP, Ntog, clusters, long; None for any other."""
    plain = describe_plain(kind)
    if plain is not None:
        return plain
    return describe_compound(kind) or describe_cluster(kind) or describe_long(kind)


def describe_plain(kind: str) -> StitchYarn | None:
    table = load_table("yarn_lengths")
    entry = table["stitches"].get(kind)
    if entry is None:
        return None
    top = table["reference"]["top_per_in"]
    width = reference_width()
    return StitchYarn(top * width, (entry["per_in"] - top) * width, entry["height_in"])


def describe_compound(kind: str) -> StitchYarn | None:
    """`FPdc`, `BPhdc`, `sc2tog`, `FPdc3tog`: n stems under one top, a post stitch longer and lower."""
    match = COMPOUND.fullmatch(kind)
    plain = describe_plain(match["plain"]) if match else None
    if match is None or plain is None:
        return None
    standing, height = plain.standing, plain.height
    if match["post"]:
        rule = load_table("yarn_lengths")["rules"]["post"]
        standing, height = standing * rule["stem"], height * rule["height"]
    return StitchYarn(plain.along, standing * int(match["together"] or 1), height)


def describe_cluster(kind: str) -> StitchYarn | None:
    """`3-dc cl`, `5-dc bobble`: n stems, one top; `puff`: a chain more. `pc`, `shell`, `v-st`: n whole stitches."""
    match = CLUSTER.fullmatch(kind)
    if match is None:
        return None
    usual_number, usual_plain = GROUP_OF[match["family"]]
    number = int(match["number"] or usual_number)
    plain = describe_plain(match["plain"] or usual_plain)
    if plain is None:
        return None
    rules = load_table("yarn_lengths")["rules"]
    whole = {"pc": rules["popcorn"]["extra_tops"], "v-st": rules["v-st"]["extra_tops"], "shell": 0}
    closing = rules["puff" if match["family"] == "puff" else "cluster"]["tops"]
    tops = number + whole[match["family"]] if match["family"] in whole else closing
    return StitchYarn(plain.along * tops, plain.standing * number, plain.height)


def describe_long(kind: str) -> StitchYarn | None:
    """`1-row long sc`: worked so many rows further down than usual, its loop drawn up to the height of the row.

    A stitch that is tall enough to reach takes no more than it does anywhere.
    """
    match = LONG.fullmatch(kind)
    plain = describe_stitch(match["plain"]) if match else None
    row = describe_plain("sc")
    if match is None or plain is None or row is None:
        return None
    drawn_up = max(0.0, (int(match["rows"]) + 1) * row.height - plain.height)
    strands = load_table("yarn_lengths")["rules"]["long"]["strands"]
    return StitchYarn(plain.along, plain.standing + strands * drawn_up, plain.height)


def measure_stitch(stitch: StitchYarn, scale: Scale) -> float:
    """Inches of yarn in one stitch of the fabric.

    Chains and slip stitches, which have no height, are as large as the other loops, but never shorter than
    the stitch that they lie over.
    """
    times = scale.loop if stitch.height else max(scale.loop, scale.width)
    return (stitch.along + stitch.standing) * times
