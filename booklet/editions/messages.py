"""What can keep an edition from being made as it was asked for."""

import difflib
from collections.abc import Sequence

from booklet.findings import Finding, error
from booklet.source import Span


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
