"""What a row made, held against what it states."""

import re
from collections.abc import Mapping, Sequence
from itertools import pairwise

from booklet.model.parsed import Stated
from booklet.model.tree import What, at_size
from booklet.model.work import Fabric
from booklet.working.group_counts import (
    COUNTED,
    FLOWERS,
    NO_FORMS,
    SHELLS,
    UNCOUNTED,
    Form,
    count_in_groups,
    list_possible,
)
from booklet.working.kinds import is_of_kind
from booklet.working.problems import Problem
from booklet.working.walk import find_corner_spaces

SIZED_SHELL = re.compile(r"(\d+)-\w+ shell")
PLAIN = ("sc", "hdc", "dc", "tr", "dtr")
GROUP_WORDS = ("picot", *COUNTED, *UNCOUNTED)
NO_TOTAL = tuple(kind for kind in GROUP_WORDS if kind not in ("cl", "bobble", "puff", "pc"))
LONG_CHAIN = 7  # at the end of a row: stitches to be, where a shorter one is a turning chain
TOGETHER = re.compile(r"\d+tog$")
FOUNDATION_STITCHES = {"fsc": "sc", "fhdc": "hdc", "fdc": "dc", "ftr": "tr"}


def count_of(fabric: Fabric, what: What) -> int | None:
    """How many of a kind the row made, as a maker would count them; None where that is not known."""
    if what.kind == "st":
        return fabric.made
    if what.kind == "sp":
        corners = count_corner_spaces(fabric) if what.chains else 0
        return corners or sum(fabric.spaces.values())
    if what.kind == "ch-sp":
        return fabric.spaces.get(what.chains, 0) if what.chains else sum(fabric.spaces.values())
    if what.kind == "ch":
        plain = fabric.counts.get("ch", 0)
        return plain or sum(chains * number for chains, number in fabric.spaces.items())
    if what.kind == "picot":
        return count_picots(fabric) or None
    if what.kind in ("tch", "ring", "row end"):
        return None
    named = FOUNDATION_STITCHES.get(what.kind, what.kind)
    return sum(number for kind, number in fabric.counts.items() if is_of_kind(kind, named))


def count_corner_spaces(fabric: Fabric) -> int:
    """Spaces at corners, as the next row would meet them."""
    return sum(fabric.sites[index].at == 0 for index in find_corner_spaces(fabric))


def count_picots(fabric: Fabric) -> int:
    """Chains that a slip stitch closes on themselves."""
    return sum(a.kind == "picot ch" and b.kind == "sl st" for a, b in pairwise(fabric.stitches))


def _grouped(fabric: Fabric, what: What) -> int:
    return sum(number for kind, number in fabric.grouped.items() if is_of_kind(kind, what.kind))


def _named_beside(fabric: Fabric, what: What, others: Sequence[What]) -> int:
    """The post stitches of the kind that the count lists under their own name: "5 FPdc, 5 dc"."""
    if what.kind not in PLAIN:
        return 0
    posts = [other for other in others if other.kind in (f"FP{what.kind}", f"BP{what.kind}")]
    return sum(count_of(fabric, post) or 0 for post in posts)


def check_stated(
    stated: Stated | None,
    fabric: Fabric,
    made_below: int,
    size: int,
    forms: Mapping[str, Form] = NO_FORMS,
    added: int = 0,
) -> list[Problem]:
    """The first item of a stated count that the row does not make.

    `added` are the chains at the row's end, which the next row works into: "…, ch 11, turn. (20 sc, 11 ch)". A single
    number with a stitch name ("42 dc") is right if that many of the kind were made, or if it is the row's total:
    makers write it for both.
    """
    if stated is None:
        return []
    items = [(at_size(values, size), what) for values, what in stated.items]
    if stated.plus:
        gained = fabric.made - made_below
        needs = items[0][0]
        return [] if gained == needs else [Problem("count", stated.span, gained, needs, detail="plus")]
    items = _add_up(items)
    groups = any(what.kind in (*SHELLS, *FLOWERS) for _, what in items)
    for needs, named in items:
        what = _as_written_out(named, fabric)
        if _is_group(what, fabric, forms):
            possible = list_possible(fabric, what, forms)
            if possible is not None and not possible.has(needs):
                return [Problem("count", stated.span, possible.numbers[0], needs, what=what)]
            continue
        has = count_of(fabric, what)
        if has is not None:
            has -= _named_beside(fabric, what, [other for _, other in items])
        if has is not None and what.kind == "ch":
            has += added
        if has is None or has == needs or (what.kind == "st" and added >= LONG_CHAIN and has + added == needs):
            continue
        if len(items) > 1 and fabric.counts.get(what.kind, 0) == needs:
            continue  # the other forms of the stitch are counted beside it ("10 FPdc, 22 dc")
        if len(items) > 1 and has - _grouped(fabric, what) == needs:
            continue  # the groups are counted under their own name beside it
        if groups and has - needs in count_in_groups(fabric, what.kind):
            continue  # the same, of groups written out
        slips = 0 if what.kind in ("st", "sl st") else fabric.counts.get("sl st", 0)  # no one's sc or dc
        if len(items) == 1 and fabric.made - slips == needs and (what.kind == "st" or _is_mixed(fabric, what)):
            continue
        if what.kind == "st" and len(items) > 1 and needs == sum(fabric.counts.values()):
            continue
        return [Problem("count", stated.span, has, needs, what=what)]
    return []


def _as_written_out(what: What, fabric: Fabric) -> What:
    """ "4 5-dc shells" where the row has no stitch of that name, but groups of five written out: these are meant"""
    sized = SIZED_SHELL.fullmatch(what.kind)
    if sized is None or fabric.counts.get(what.kind, 0):
        return what
    written = What("shell", int(sized[1]))
    return written if list_possible(fabric, written) is not None else what


def _add_up(items: list[tuple[int, What]]) -> list[tuple[int, What]]:
    """Each kind once: what is named twice, "6 hdc, 12 sc, 6 hdc", with both of its numbers together."""
    whats = list(dict.fromkeys(what for _, what in items))
    return [(sum(number for number, other in items if other == what), what) for what in whats]


def _is_group(what: What, fabric: Fabric, forms: Mapping[str, Form]) -> bool:
    """Is it counted as a group, by a word of the trade or a name that the pattern gives?"""
    if what.kind == "picot":
        return False
    return what.kind in GROUP_WORDS or what.kind in fabric.groups or what.kind in forms


def find_other_kinds(stated: Stated | None, fabric: Fabric, size: int) -> list[tuple[str, int]]:
    """Stitches of other kinds in a row whose total is stated under the name of one: "(48 dc)" with 12 hdc in it.

    Post stitches, decreases and gathered stitches go by the name of what they are built on: a dc2tog is no hdc.
    """
    if stated is None or stated.plus or len(stated.items) != 1:
        return []
    values, what = stated.items[0]
    if what.kind not in PLAIN or fabric.made != at_size(values, size) or count_of(fabric, what) == fabric.made:
        return []
    bases = {kind: TOGETHER.sub("", kind) for kind in fabric.counts}
    return [(kind, n) for kind, n in fabric.counts.items() if bases[kind] in PLAIN and bases[kind] != what.kind and n]


def _is_mixed(fabric: Fabric, what: What) -> bool:
    """Does the row hold the named kind and other kinds beside it?"""
    return any(is_of_kind(kind, what.kind) for kind in fabric.counts) and len(fabric.counts) > 1


def is_compared(stated: Stated, fabric: Fabric, size: int, forms: Mapping[str, Form] = NO_FORMS) -> bool:
    """Is anything of the count held against the row, or is it all of things that cannot be told in it?

    A single one of them, such as the first block of a corner, needs no count.
    """
    if stated.plus or all(at_size(values, size) == 1 for values, _ in stated.items):
        return True
    for _, what in stated.items:
        if _is_group(what, fabric, forms):
            if list_possible(fabric, what, forms) is not None:
                return True
        elif count_of(fabric, what) is not None:
            return True
    return False


def stated_total(stated: Stated | None, made_below: int, size: int) -> int | None:
    """The number of stitches that the row says it has; None where it says nothing that can be a total."""
    if stated is None:
        return None
    items = [(at_size(values, size), what) for values, what in stated.items]
    if stated.plus:
        return made_below + items[0][0]
    totals = [number for number, what in items if what.kind == "st"]
    if totals:
        return totals[0]
    stitches = [number for number, what in items if what.kind not in ("sp", "ch-sp", "tch", *NO_TOTAL)]
    if len(items) == 1:
        return items[0][0] if items[0][1].kind not in NO_TOTAL else None
    spaces = sum(number * what.chains for number, what in items if what.kind == "ch-sp")
    return sum(stitches) + spaces if stitches else None
