"""Numbers for several sizes as the trade writes them, smallest size first.

The forms in use: `77 (83, 89)`, groups `40 (44, 48) (52, 56)` or `40 (44, 48) [52, 56]`, the
British colon form `62 (66: 70: 74)`, and hyphens without brackets, `90-96-102-108`, or inside
them, `33 (36-39)`.
"""

import re
from dataclasses import dataclass

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


# Measures in prose: `51.4 (56.2, 61) cm`, `20 cm (22 cm, 24 cm)`, `8 in/20 cm (8½ in/22 cm, 9 in/23 cm)`.

_FRACTION = "[½¼¾⅓⅔⅛⅜⅝⅞]"
_AMOUNT = rf"(?:\d{{1,6}}(?:\.\d+)?(?:\s?{_FRACTION}|[ -]\d/\d+)?|{_FRACTION}|\d/\d+)"
_UNIT = r"(?:cm|mm|metres?|meters?|m|inch(?:es)?|in|yards?|yds?|yd|ft|feet|grams?|g|oz|%|[\"″”′'’])(?![A-Za-z])"
_FIGURE = rf"{_AMOUNT}(?:\s?[–-]\s?{_AMOUNT})?(?:[\s-]?{_UNIT})?"
_CONVERTED = rf"(?:\s?/\s?{_AMOUNT}\s?{_UNIT}|\s?[\[(]{_AMOUNT}\s?{_UNIT}[\])])"
_MEASURE = rf"{_FIGURE}{_CONVERTED}?"
_MEASURES = rf"{_MEASURE}(?:\s*[,:;]\s*{_MEASURE})*"
_MEASURE_LIST = re.compile(
    rf"(?<![\w.,/½¼¾{{-])(?P<first>{_MEASURE})(?P<groups>(?:\s*\(\s*{_MEASURES}\s*\)|\s*\[\s*{_MEASURES}\s*\])+)"
    rf"(?![\w½¼¾])"
)
_ONE_MEASURE = re.compile(_MEASURE)
_UNIT_AT_END = re.compile(rf"[\s-]?({_UNIT})(?:{_CONVERTED})?$")
_SAME_UNIT = {"inches": "in", "inch": "in", '"': "in", "″": "in", "”": "in", "metres": "m", "meters": "m", "grams": "g"}


@dataclass(frozen=True, slots=True)
class MeasureList:
    """A list of figures for the sizes in prose: where it stands in the text, and what it says for each size."""

    start: int
    end: int
    slots: tuple[str, ...]
    is_plain: bool  # whole numbers alone, which rows read as well


def find_measure_lists(text: str) -> tuple[MeasureList, ...]:
    """Every list in the text that looks as if it held a figure for each size.

    A length in two units, `38 cm (15 in)`, is none. A unit that stands behind the first figure alone is each's.
    """
    found = (_read_measures(match) for match in _MEASURE_LIST.finditer(text))
    return tuple(one for one in found if one is not None)


def _read_measures(match: re.Match[str]) -> MeasureList | None:
    slots = [match["first"].strip(), *(slot[0].strip() for slot in _ONE_MEASURE.finditer(match["groups"]))]
    units = [found[1] if (found := _UNIT_AT_END.search(slot)) else "" for slot in slots]
    if len({_SAME_UNIT.get(unit, unit) for unit in units if unit}) > 1:
        return None
    if units[0] and not any(units[1:]):
        tail = _UNIT_AT_END.search(slots[0])
        slots[1:] = [f"{slot}{tail[0] if tail else ''}" for slot in slots[1:]]
    return MeasureList(match.start(), match.end(), tuple(slots), all(slot.isdigit() for slot in slots))
