"""Names in braces that stand in prose and mean nothing: told, since a maker would read the braces."""

from booklet.findings import Finding
from booklet.model.pattern import Prose
from booklet.pages import messages
from booklet.pages.manuscript import BookletInput
from booklet.pages.prose import NAME_IN_BRACES


def find_unknown_names(manuscript: BookletInput) -> tuple[Finding, ...]:
    """One finding for each name in the prose that is no number of the pattern."""
    return tuple(
        messages.unknown_name_in_text(found[1].strip(), list(manuscript.numbers), block.span.sub(*found.span()))
        for part in manuscript.pattern.parts
        for block in part.blocks
        if isinstance(block, Prose)
        for found in NAME_IN_BRACES.finditer(block.text)
        if found[1].strip() not in manuscript.numbers
    )
