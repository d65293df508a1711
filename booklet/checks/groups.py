"""Groups that a row says it makes ("5 dc in next ch (shell made)") or begins with its chain, against what they are."""

import re
from collections.abc import Iterator, Sequence

from booklet.checks import messages
from booklet.findings import Finding
from booklet.model.parsed import ParsedPattern
from booklet.model.tree import Chain, Group, Node, Repeat, Work, at_size
from booklet.model.work import WorkedPattern
from booklet.rows.row import list_works
from booklet.rows.walking import list_remarked, walk_steps
from booklet.working.beginnings import SPACES, split_opening

MADE = re.compile(r"^[(\[]\s*(?:1\s+)?(?P<name>[\w -]+?)s?\s+made\s*[)\]]$", re.IGNORECASE)


def check_groups(parsed: ParsedPattern, worked: WorkedPattern) -> Iterator[Finding]:
    """A "(shell made)" behind more or fewer stitches than the pattern's shell has; one finding for each row."""
    sizes = {
        definition.name.lower(): (definition, count_stitches(definition.steps))
        for definition in parsed.definitions
        if definition.steps and definition.in_one_place and not definition.assumed
    }
    for part in parsed.parts:
        for row in part.rows:
            begun = next((step for step in row.steps if isinstance(step, Work | Group)), None)
            for made, remark in list_remarked(row.steps):
                if made is begun and isinstance(split_opening(row.steps).chain, Chain):
                    continue  # the chain at the start may be one of its stitches
                match = MADE.match(remark.text)
                known = sizes.get(match["name"].lower()) if match else None
                if known and known[1] != count_stitches([made]):
                    definition, number = known
                    yield messages.group_differs(
                        row.label.text or "this row", definition.name.lower(), count_stitches([made]), number, made.span
                    )
                    break


def check_begun_groups(parsed: ParsedPattern, worked: WorkedPattern) -> Iterator[Finding]:
    """A corner begun with chains in the space that slip stitches lead to, and gone on with in the next one."""
    for part in parsed.parts:
        for row in part.rows:
            if group := find_group_apart(row.steps):
                yield messages.group_apart(row.label.text or "this row", group.where.what[0], group.span)


def find_group_apart(steps: Sequence[Node]) -> Group | None:
    """The "(2 dc, ch 2, 3 dc) in next sp" behind "sl st in ch-2 sp, ch 3" that is one corner with its chain.

    With it it is what the repeated groups are, "(3 dc, ch 2, 3 dc)"; alone in the next space it is one stitch short.
    """
    opening = split_opening(steps)
    slips = [step for step in opening.before if isinstance(step, Work)]
    led = bool(slips) and (slips[-1].also or slips)[-1].where.what[0].kind in SPACES
    first = next((step for step in opening.rest if isinstance(step, Work | Group | Repeat)), None)
    if not led or opening.chain is None or min(opening.chain.count) < 2 or not isinstance(first, Group):
        return None
    if first.where.how != "next" or first.where.what[0].kind not in SPACES or first.where.count != (1,):
        return None
    others = [step for step in walk_steps(opening.rest) if isinstance(step, Group) and step is not first]
    return first if any(_begins_short(first.steps, other.steps) for other in others) else None


def _begins_short(steps: Sequence[Node], others: Sequence[Node]) -> bool:
    """Are the steps those others with one stitch fewer at the start?"""
    short, whole = [_form(step) for step in steps], [_form(step) for step in others]
    if len(short) != len(whole) or len(short) < 2 or short[1:] != whole[1:]:
        return False
    return short[0][0] == whole[0][0] != "" and short[0][1] + 1 == whole[0][1]


def _form(step: Node) -> tuple[str, int]:
    """What a step of a group makes, and how many."""
    if isinstance(step, Work):
        return step.stitch, at_size(step.times, 0) * at_size(step.where.count, 0)
    return ("ch", at_size(step.count, 0)) if isinstance(step, Chain) else ("", 0)


def count_stitches(steps: Sequence[Node]) -> int:
    """How many stitches the steps make in their one place."""
    return sum(at_size(work.times, 0) for work in list_works(tuple(steps)))
