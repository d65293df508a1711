"""Numbers for several sizes as the trade writes them, smallest size first.

The forms in use: `77 (83, 89)`, groups `40 (44, 48) (52, 56)` or `40 (44, 48) [52, 56]`, the
British colon form `62 (66: 70: 74)`, and hyphens without brackets, `90-96-102-108`, or inside
them, `33 (36-39)`.
"""

import re

MAX_SIZES = 40

_NUMBER = r"\d{1,6}"
_SLOT = rf"(?:{_NUMBER}|[-–—](?=\s*[,:;)\]]))"
_SEPARATOR = r"\s*[,:;]\s*"
_SLOTS = rf"(?:{_SLOT}(?:{_SEPARATOR}{_SLOT})*|{_NUMBER}(?:\s*[-–]\s*{_NUMBER})+)"
_GROUP = rf"\s*(?:\(\s*{_SLOTS}\s*\)|\[\s*{_SLOTS}\s*\])"
SIZE_LIST = rf"{_NUMBER}(?:{_GROUP})+|{_NUMBER}(?:[-–]{_NUMBER})+"
_SIZE_LIST = re.compile(rf"\s*(?:{SIZE_LIST}|{_NUMBER})\s*")
_LISTED = re.compile(rf"\s*{_NUMBER}(?:\s*,\s*{_NUMBER})+\s*")
_VALUE = re.compile(rf"{_NUMBER}|{_SLOT}")


def read_size_list(text: str) -> tuple[int, ...] | None:
    """One number per size, in order; a single number gives one; None where the text is no such list.

    A dash in a slot says that nothing is worked in that size, and is 0.
    """
    if not _SIZE_LIST.fullmatch(text) and not _LISTED.fullmatch(text):
        return None
    numbers = tuple(int(slot) if slot.isdigit() else 0 for slot in _VALUE.findall(text))
    return numbers if len(numbers) <= MAX_SIZES else None
