"""What can keep an edition from being made as it was asked for."""

import difflib
from collections.abc import Sequence

from booklet.findings import Finding, error, warning
from booklet.source import Span


def handout_too_long(at: Span, paper: str) -> Finding:
    """A pattern that does not go on the two sides of a sheet at a size that can be read."""
    return warning(
        "handout-too-long",
        f"the pattern does not fit on two sides of {paper}"[:72],
        at,
        label="the handout is not made on this paper",
        expected="one sheet in type of at least 8½ point",
        fix="shorten the notes, or print the booklet in place of the handout",
    )


def size_unknown(at: Span, name: str, names: Sequence[str]) -> Finding:
    """A size asked for on the command line that the pattern does not have."""
    known = [known for known in names if known]
    near = difflib.get_close_matches(name.casefold(), [known.casefold() for known in known], n=1)
    meant = next((known for known in known if near and known.casefold() == near[0]), "")
    return error(
        "size-unknown",
        f'the pattern has no size "{name}"'[:72],
        at,
        expected=f"one of its sizes: {', '.join(known)}" if known else "no --size, as the pattern has one size only",
        fix=f'write --size "{meant}"' if meant else "",
    )
