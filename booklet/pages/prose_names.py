"""Names in braces that stand in prose and have no value: told, since a maker would read the braces."""

from collections.abc import Iterator

from booklet.findings import Finding
from booklet.model.pattern import Prose
from booklet.pages import messages
from booklet.pages.manuscript import BookletInput
from booklet.pages.prose import NAME_IN_BRACES, work_out_names
from booklet.sizing.formula import FormulaError


def find_unfilled_names(manuscript: BookletInput) -> tuple[Finding, ...]:
    """One finding for each name or formula in the prose that has no value."""
    return tuple(_find(manuscript))


def _find(manuscript: BookletInput) -> Iterator[Finding]:
    blocks = (block for part in manuscript.pattern.parts for block in part.blocks if isinstance(block, Prose))
    for block in blocks:
        captions = (words for image in block.images for words in (image.alt, image.caption))
        for found in NAME_IN_BRACES.finditer(manuscript.say_shaping(" ".join((block.text, *captions)))):
            try:
                work_out_names(found[1], manuscript.numbers)
            except FormulaError as reason:
                # In other terms the words before it have other lengths; the braces are the author's own.
                at = block.span.text.find(found[0])
                place = block.span.sub(at, at + len(found[0])) if at >= 0 else block.span
                yield messages.name_not_filled(found[0], reason.close, list(manuscript.numbers), place)
