"""The finished sample held against its own gauge: what it measures, and what its stitches and rows come to.

Where the two disagree the swatch was not the fabric: every other size then comes out as wrong as this one.
"""

from collections.abc import Iterator, Sequence

from booklet.amounts import messages
from booklet.amounts.targets import Aim, find_unit_of
from booklet.findings import Finding
from booklet.model.measure import CM_PER_INCH
from booklet.model.pattern import SizedPattern
from booklet.model.work import WorkedPart

# The share by which a piece off the needle or the hook may differ from its swatch, and the least that a tape shows.
SAMPLE_DOUBT = 0.03
LEAST_CM = 0.5


def compare_sample(sized: SizedPattern, part: WorkedPart, aims: Sequence[Aim]) -> Iterator[Finding]:
    """A finding for each measure of the sample that its stitches or rows do not come to at the gauge."""
    sample, names = sized.pattern.sample, sized.pattern.size_names
    if sample is None:
        return
    name = sample.report.size or (names[0] if len(names) == 1 else "")
    at = next((at for at, size in enumerate(names) if size.lower() == name.lower()), None)
    if at is None:
        return
    for words, length in sample.measures.items():
        aim = next((aim for aim in aims if words.lower() in (aim.name.lower(), aim.measure.name.lower())), None)
        if aim is None:
            continue
        unit = find_unit_of((length,))
        came = (aim.measure.inches if unit == "in" else aim.measure.cm)[at]
        if came is None:
            continue
        stated = length.cm / CM_PER_INCH if unit == "in" else length.cm
        least = LEAST_CM / CM_PER_INCH if unit == "in" else LEAST_CM
        if abs(came - stated) > max(SAMPLE_DOUBT * stated, least):
            yield messages.sample_off(sized.pattern, part, aim.measure, at, unit, came, stated, sample.span)
