"""Lists of figures in prose that do not hold one for each size."""

from collections.abc import Iterator

from booklet.checks import messages
from booklet.findings import Finding
from booklet.model.parsed import ParsedPattern
from booklet.model.pattern import Pattern, Prose
from booklet.model.work import WorkedPattern
from booklet.sizing.size_lists import find_measure_lists

LEAST = 3  # figures that make a list; of two one cannot say what they mean


def check_prose_lists(parsed: ParsedPattern, worked: WorkedPattern) -> Iterator[Finding]:
    """The booklet of one size prints its own figure of a list, where the list has as many as there are sizes."""
    del worked
    pattern = parsed.sized.pattern
    sizes = len(pattern.size_names)
    if sizes < 2:
        return
    told: set[tuple[int, int]] = set()
    for text, at in _list_texts(pattern):
        for one in find_measure_lists(text):
            words = text[one.start : one.end]
            start = pattern.source.text.find(words, at)
            if LEAST <= len(one.slots) != sizes and (start, len(words)) not in told:
                told.add((start, len(words)))
                span = pattern.source.span(start, start + len(words)) if start >= 0 else pattern.source.whole()
                yield messages.prose_list_differs(span, len(one.slots), sizes)


def _list_texts(pattern: Pattern) -> Iterator[tuple[str, int]]:
    """The author's sentences, each with the place in the source from which on it is to be looked for."""
    for text in (pattern.summary, pattern.summary_of_one_size, pattern.construction, pattern.care, *pattern.notions):
        yield text, 0
    for stitch in pattern.special_stitches:
        yield stitch.text, stitch.span.start
    for part in pattern.parts:
        for block in part.blocks:
            if isinstance(block, Prose):
                yield block.text, block.span.start
