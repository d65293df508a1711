"""The finished sample held against its own gauge: what it measures, and what its stitches and rows come to.

Where the two disagree the swatch was not the fabric: every other size then comes out as wrong as this one.
"""

from collections.abc import Iterator, Sequence

from booklet.amounts import messages
from booklet.amounts.targets import Aim, find_unit_of
from booklet.findings import Finding
from booklet.model.measure import CM_PER_INCH
from booklet.model.pattern import Sample, SizedPattern
from booklet.model.work import WorkedPart

# The share by which a piece off the needle or the hook may differ from its swatch, and the least that a tape shows.
SAMPLE_DOUBT = 0.03
LEAST_CM = 0.5


def compare_sample(sized: SizedPattern, aims: Sequence[tuple[WorkedPart, Sequence[Aim]]]) -> Iterator[Finding]:
    """A finding for each measure of the sample that its stitches or rows do not come to at the gauge.

    `aims` are the measures of each piece; a measure goes by its own name or by its target's.
    """
    sample = sized.pattern.sample
    if sample is None or not aims:
        return
    at = find_size(sized, sample)
    if at is None:
        return  # told with the yarn, or nothing was weighed either
    listed = [(part, aim) for part, of_part in aims for aim in of_part]
    for words, length in sample.measures.items():
        named = [(part, aim) for part, aim in listed if words.lower() in (aim.name.lower(), aim.measure.name.lower())]
        if not named:
            known = tuple(dict.fromkeys(aim.measure.name for _, aim in listed))
            yield messages.yarn_unplaced("the sample", sample.span, "measure", words, known)
            continue
        part, aim = named[0]
        unit = find_unit_of((length,))
        came = (aim.measure.inches if unit == "in" else aim.measure.cm)[at]
        stated = length.cm / CM_PER_INCH if unit == "in" else length.cm
        least = LEAST_CM / CM_PER_INCH if unit == "in" else LEAST_CM
        if came is not None and abs(came - stated) > max(SAMPLE_DOUBT * stated, least):
            yield messages.sample_off(sized.pattern, part, aim.measure, at, unit, came, stated, sample.span)


def find_size(sized: SizedPattern, sample: Sample) -> int | None:
    """The number of the sample's size; of the only one where it names none."""
    names = sized.pattern.size_names
    name = sample.report.size or (names[0] if len(names) == 1 else "")
    return next((at for at, size in enumerate(names) if size.lower() == name.lower()), None)
