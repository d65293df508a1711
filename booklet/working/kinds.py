"""Facts about kinds of stitches that working a row relies on, read from the table of stitches."""

import re
from dataclasses import dataclass
from functools import cache

from booklet.terms import load_table

TOGETHER = re.compile(r"(FP|BP)?([a-z ]+?)(\d)tog")
GATHERED = re.compile(r"(\d+)-([a-z]+) (cl|bobble|puff|pc|shell|v-st)")
DECREASES = {"dec": 2, "inv dec": 2}
FOUNDATION = {"fsc": "sc", "fhdc": "hdc", "fdc": "dc"}


@dataclass(frozen=True, slots=True)
class Kind:
    """`uses` places of the row below, leaves `tops` places for the next; `base` is the plain stitch it is built on."""

    name: str
    base: str
    uses: int = 1
    tops: int = 1


@cache
def kind_of(name: str) -> Kind:
    """The facts for a stitch by its US name; an unknown one uses one place and leaves one."""
    together = TOGETHER.fullmatch(name)
    if together:
        return Kind(name, together[2].strip(), int(together[3]))
    gathered = GATHERED.fullmatch(name)
    if gathered:
        tops = int(gathered[1]) if gathered[3] in ("shell", "v-st") else 1
        return Kind(name, gathered[2], 1, tops)
    if name[:2] in ("FP", "BP") and len(name) > 2:
        return Kind(name, name[2:])
    return Kind(name, name)


@cache
def height_of(name: str) -> int:
    """Chains that stand for the stitch at the start of a row; 0 where it has no height of its own."""
    entry = load_table("stitches").get(kind_of(name).base, {})
    return int(entry.get("chains", 0) or 0)


def is_of_kind(made: str, named: str) -> bool:
    """Would a maker call the stitch `made` by the name `named`?"""
    if made == named or made == "any":
        return True
    kind = kind_of(made)
    if named == "cl" and kind.uses > 1 and kind.base != "sc":
        return True  # "dc3tog" is a cluster by another name
    return kind.base == named or (named in ("cl", "bobble", "puff", "pc", "shell", "v-st") and made.endswith(named))


@cache
def is_own(name: str) -> bool:
    """Is it a stitch that no table knows, so that the pattern has to define it?"""
    return kind_of(name).base == name and name not in load_table("stitches")
