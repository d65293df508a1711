"""Groups that a row says it makes ("5 dc in next ch (shell made)") against what the pattern says they are."""

import re
from collections.abc import Iterator, Sequence

from booklet.checks import messages
from booklet.findings import Finding
from booklet.model.parsed import ParsedPattern
from booklet.model.tree import Chain, Group, Node, Work, at_size
from booklet.model.work import WorkedPattern
from booklet.rows.row import list_works
from booklet.rows.walking import list_remarked
from booklet.working.beginnings import split_opening

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


def count_stitches(steps: Sequence[Node]) -> int:
    """How many stitches the steps make in their one place."""
    return sum(at_size(work.times, 0) for work in list_works(tuple(steps)))
