"""The stated stitch multiple against the foundation chain and the first row."""

from collections.abc import Iterator

from booklet.checks import messages
from booklet.findings import Finding
from booklet.model.parsed import Multiple, ParsedPattern
from booklet.model.work import WorkedPart, WorkedPattern


def check_multiples(parsed: ParsedPattern, worked: WorkedPattern) -> Iterator[Finding]:
    """One multiple for one piece: the chain, or the stitches of the first row, are a multiple of it in every size.

    A text seldom says whether it counts chains or stitches, so either will do unless it does say.
    With several multiples or pieces it is not known which belongs to which, and nothing is checked.
    """
    if len(parsed.multiples) != 1 or len(worked.parts) != 1:
        return
    multiple, part = parsed.multiples[0], worked.parts[0]
    names = parsed.sized.pattern.size_names
    wrong = [(at, counts) for at, counts in enumerate(_list_starts(part)) if counts and not _fits(multiple, counts)]
    if wrong:
        first = wrong[0][1]
        sizes = tuple(names[at] for at, _ in wrong if names[at])
        row = part.rows[wrong[0][0]][0]
        yield messages.multiple_differs(
            multiple.every, multiple.plus + multiple.chains, first[0], multiple.span, row.span, sizes
        )


def _list_starts(part: WorkedPart) -> list[tuple[int, ...]]:
    """For each size the count of the foundation chain and of the first row on it; () where there is none."""
    starts: list[tuple[int, ...]] = []
    for rows in part.rows:
        sound = [row for row in rows[:2] if row.status == "worked"]
        has_chain = len(rows) > 1 and rows[0].kind == "foundation" and len(sound) == 2
        starts.append(tuple(row.made for row in sound) if has_chain else ())
    return starts


def _fits(multiple: Multiple, counts: tuple[int, ...]) -> bool:
    chain, stitches = counts[0], counts[1]
    wanted = multiple.plus % multiple.every
    fits_chain = chain % multiple.every == (multiple.plus + multiple.chains) % multiple.every
    if multiple.chains or multiple.of_chains:
        return fits_chain
    return fits_chain or stitches % multiple.every == wanted
