"""Groups that a row names where it first makes them: "5 dc in next ch (shell made)"."""

import re
from collections.abc import Sequence

from booklet.model.parsed import ParsedPart, Row, StitchDefinition
from booklet.model.tree import Aside, Chain, Group, Work
from booklet.rows.rules import DEFINED, in_one_place
from booklet.rows.vocabulary import Vocabulary
from booklet.rows.walking import list_remarked

MADE = re.compile(
    r"^\W*(?:(?:first|1|one|makes?)\s+)*(?P<name>[A-Za-z][\w-]*(?:\s+st(?:itch)?)?)\s*(?P<made>made|completed|formed)?\W*$",
    re.IGNORECASE,
)


def define_made(
    parts: Sequence[ParsedPart], vocabulary: Vocabulary, known: Sequence[StitchDefinition]
) -> list[StitchDefinition]:
    """The groups that rows tell by name behind their stitches, and that the pattern defines nowhere else."""
    names = {definition.name for definition in known}
    found: list[StitchDefinition] = []
    for row in (row for part in parts for row in part.rows):
        for made, remark in list_made(row):
            name = _name_of(remark.text, vocabulary)
            if name and name not in names and _is_whole(made):
                names.add(name)
                steps = tuple(in_one_place([made]))
                found.append(StitchDefinition(name, steps, made.span.text, made.span, assumed=True))
    return found


def list_made(row: Row) -> list[tuple[Work | Group, Aside]]:
    """Each stitch or group with the remark right behind it; none whose first stitch may be the chain at the start."""
    begun = next((step for step in row.steps if isinstance(step, Work | Group)), None)
    opens = (
        any(isinstance(step, Chain) for step in row.steps[: row.steps.index(begun)]) if begun in row.steps else False
    )
    return [(made, remark) for made, remark in list_remarked(row.steps) if not (opens and made is begun)]


def _name_of(text: str, vocabulary: Vocabulary) -> str:
    """ "shell" of "(shell made)", "(V-st)"; "" for other remarks"""
    match = MADE.match(text)
    meaning = vocabulary.look_up(match["name"].lower()) if match else None
    return str(meaning[1]) if meaning and meaning[0] == "st" and meaning[1] in DEFINED and meaning[1] != "picot" else ""


def _is_whole(made: Work | Group) -> bool:
    """Is it all in one place, and more than one stitch?"""
    if isinstance(made, Group):
        return True
    return made.times[0] > 1 and len(made.times) == 1 and made.where.count == (1,) and made.where.how != "each"
