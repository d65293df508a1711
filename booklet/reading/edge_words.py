"""The words for an edge of a piece, and for a fold: `Back sides`, `neck of the Front`, `lengthwise`, `at row 12`."""

import re
from functools import cache

from booklet.model.seams import AT_ROW, CROSSWISE, LENGTHWISE, SeamEdge
from booklet.reading.quantities import UnreadError
from booklet.terms import load_table

WAYS = {LENGTHWISE: LENGTHWISE, "lengthways": LENGTHWISE, CROSSWISE: CROSSWISE, "crossways": CROSSWISE}


def read_edge(words: str) -> SeamEdge:
    """edge = [piece] [name of an edge]: "Back sides", "sides of the Back", "Head" (sewn onto it), "sides"

    The longest name that the words end with is the edge.
    """
    text = re.sub(r"\s+", " ", words).strip(" .:")
    names = list_edge_names()
    turned = re.fullmatch(r"(?:the )?(.+?) of (?:the )?(.+)", text, re.IGNORECASE)
    if turned and turned.group(1).lower() in names:
        return SeamEdge(turned.group(2), names[turned.group(1).lower()])
    for name, edge in names.items():
        ending = re.fullmatch(rf"(?:(.*?)[\s,:]+)?{re.escape(name)}", text, re.IGNORECASE)
        if ending:
            return SeamEdge((ending.group(1) or "").strip(" ,:"), edge)
    return SeamEdge(text, "")


@cache
def list_edge_names() -> dict[str, str]:
    """Every name of an edge with the one that is printed, the longest first."""
    names = {said: edge for edge, facts in load_table("edges").items() for said in (edge, *facts["said"])}
    return dict(sorted(names.items(), key=lambda item: -len(item[0])))


def read_fold(words: str) -> tuple[str, int]:
    """fold = "lengthwise" | "crosswise" | ["at" | "after"] ("row" | "rnd" | "round") number

    Raises UnreadError.
    """
    text = re.sub(r"\s+", " ", words).strip().lower()
    if text in WAYS:
        return WAYS[text], 0
    row = re.fullmatch(r"(?:at |after )?(?:row|rnd|round) (\d{1,4})", text)
    if row and int(row.group(1)):
        return AT_ROW, int(row.group(1))
    raise UnreadError(f'"{words[:40]}" is no fold', "lengthwise, crosswise, or a row such as at row 12")
