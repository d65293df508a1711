"""Quantities as the trade writes them: `27½ in`, `4" (10 cm)`, `100 g`, `5 mm (H-8)`, `10 %`.

A text that cannot be read raises `UnreadError`, which carries the words of the finding.
"""

import re

from booklet.model.measure import GRAMS_PER_OUNCE, METRES_PER_YARD, Length
from booklet.model.pattern import YarnAmount

FRACTIONS = {"¼": 1 / 4, "½": 1 / 2, "¾": 3 / 4, "⅓": 1 / 3, "⅔": 2 / 3}
FRACTIONS |= {"⅛": 1 / 8, "⅜": 3 / 8, "⅝": 5 / 8, "⅞": 7 / 8}

_VULGAR = "[" + "".join(FRACTIONS) + "]"
AMOUNT = rf"(?:\d+\s?{_VULGAR}|{_VULGAR}|\d+[ -]\d+/\d+|\d+/\d+|\d{{1,3}},\d{{3}}(?!\d)|\d+(?:[.,]\d+)?|\.\d+)"

_UNITS = {
    "mm": r"mm|millimet(?:re|er)s?",
    "cm": r"cms?|centimet(?:re|er)s?",
    "m": r"m|met(?:re|er)s?",
    "in": r"ins?\.?|inch(?:es)?|\"|″|”|''",
    "ft": r"ft\.?|feet|foot|′",
    "yd": r"yds?\.?|yards?",
}
_UNIT = "|".join(_UNITS.values())
LENGTH = rf"(?:{AMOUNT}\s*-?\s*(?:{_UNIT}))(?![A-Za-z])"
_LENGTH = re.compile(rf"({AMOUNT})\s*-?\s*({_UNIT})(?![A-Za-z])", re.IGNORECASE)
_BOTH = re.compile(rf"\s*({LENGTH})\s*(?:[(\[/,=]|or\b)?\s*({LENGTH})?\s*[)\]]?\s*", re.IGNORECASE)
_BARE = re.compile(rf"\s*{AMOUNT}\s*")
_MASS = re.compile(rf"({AMOUNT})\s*-?\s*(grams?|grm?s?|gms?|g|ounces?|ozs?\.?)(?![A-Za-z])", re.IGNORECASE)
_SHARE = re.compile(rf"({AMOUNT})\s*(%|percent|per cent)?", re.IGNORECASE)

# The trade writes 4 in for 10 cm and 60 in for 150 cm: 2.5 cm to the inch against 2.54, and each
# figure may be rounded. Beyond this share two figures are two lengths.
SAME_LENGTH = 0.04
# Short lengths are rounded to a quarter inch and half a centimetre: half of each may be off at once.
SAME_CM = 0.36
# Labels round too, but no further than this.
SAME_LABEL = 0.03

MAX_CM = 10_000.0
HOOK_MM = (0.3, 40.0)


class UnreadError(ValueError):
    """A value that cannot be read: what is wrong with it, what stands there instead."""

    def __init__(self, message: str, expected: str = "", fix: str = "", code: str = "wrong-value") -> None:
        super().__init__(message)
        self.message = message
        self.expected = expected
        self.fix = fix
        self.code = code


def read_amount(text: str) -> float:
    """A number with a fraction, a decimal point or comma, or thousands: `27½`, `4 3/8`, `2,5`, `1,200`."""
    text = text.strip()
    if re.fullmatch(r"\d{1,3},\d{3}", text):
        return float(text.replace(",", ""))
    if text and text[-1] in FRACTIONS:
        return float(text[:-1].strip() or 0) + FRACTIONS[text[-1]]
    whole, _, part = re.sub(r"[ -]", " ", text).rpartition(" ")
    if "/" in part:
        above, below = part.split("/")
        if not int(below):
            raise UnreadError(f'"{text}" divides by 0', "a fraction such as 1/2")
        return float(whole or 0) + int(above) / int(below)
    return float(text.replace(",", "."))


def find_lengths(text: str) -> tuple[Length, ...]:
    """Every length in a text, in order."""
    return tuple(Length(read_amount(match.group(1)), _name_unit(match.group(2))) for match in _LENGTH.finditer(text))


def read_length(text: str) -> Length:
    """A length with its unit; a second one, in brackets, must be the same length: `27½ in (70 cm)`."""
    if _BARE.fullmatch(text):
        bare = text.strip()
        raise UnreadError(
            f'"{bare}" has no unit',
            "a length with its unit, such as 70 cm or 27½ in",
            f'write "{bare} cm" or "{bare} in"',
            "missing-unit",
        )
    match = _BOTH.fullmatch(text)
    if match is None:
        raise UnreadError(f'"{text}" is not a length', "one length with its unit, such as 70 cm or 27½ in")
    lengths = find_lengths(text)
    if not 0 < lengths[0].cm <= MAX_CM:
        raise UnreadError(f'"{text}" is out of range', f"a length above 0, up to {MAX_CM / 100:g} m")
    if len(lengths) == 2 and not agree(lengths[0].cm, lengths[1].cm, SAME_LENGTH, SAME_CM):
        raise UnreadError(
            f'"{text}" gives two different lengths',
            f"{lengths[0].amount:g} {lengths[0].unit} is {lengths[0].cm:.1f} cm",
            f'write "{match.group(1)}" alone',
        )
    return lengths[0]


def read_extent(text: str) -> tuple[Length, Length]:
    """Width and length of a piece, the unit once or twice: `14 x 16 cm`, `5½ in by 6¼ in`."""
    match = re.fullmatch(r"\s*(.+?)\s*(?:[x×]|\bby\b)\s*(.+?)\s*", text, re.IGNORECASE)
    if match is None:
        raise UnreadError(f'"{text}" is no width and length', "width and length with their unit, such as 14 x 16 cm")
    second = read_length(match.group(2))
    first = match.group(1)
    return read_length(f"{first} {second.unit}" if _BARE.fullmatch(first) else first), second


def read_grams(text: str) -> float:
    """A weight in grams, from grams or ounces."""
    match = _MASS.fullmatch(text.strip())
    if match is not None:
        return _weigh(match)
    if _BARE.fullmatch(text):
        bare = text.strip()
        raise UnreadError(
            f'"{bare}" has no unit',
            "a weight with its unit, such as 21 g or ¾ oz",
            f'write "{bare} g" or "{bare} oz"',
            "missing-unit",
        )
    raise UnreadError(f'"{text}" is not a weight', "a weight with its unit, such as 21 g or ¾ oz")


def read_yarn_amount(text: str) -> YarnAmount:
    """Yarn that was used, by weight or by length: `310 g`, `11 oz`, `290 m`, `317 yd`."""
    match = _LENGTH.fullmatch(text.strip())
    if match is not None and _name_unit(match.group(2)) in ("m", "yd"):
        amount = YarnAmount(Length(read_amount(match.group(1)), _name_unit(match.group(2))).cm / 100, "m")
    else:
        amount = YarnAmount(read_grams(text), "g")
    if amount.amount <= 0:
        raise UnreadError(f'"{text.strip()}" is out of range', "a weight or a length above 0")
    return amount


def read_ball(text: str) -> tuple[float, float]:
    """Grams and metres of one ball: `100 g = 200 m`, `3.5 oz (100 g) / 219 yd (200 m)`.

    Where a label gives a figure in both systems the metric one is taken, and the other must agree.
    """
    masses = [(_weigh(match), match.group()) for match in _MASS.finditer(text)]
    lengths = [
        (Length(read_amount(match.group(1)), _name_unit(match.group(2))), match.group())
        for match in _LENGTH.finditer(text)
    ]
    metres = [(length.cm / 100, shown) for length, shown in lengths if length.unit in ("m", "yd")]
    if not masses or not metres:
        missing = "weight" if metres else "length"
        raise UnreadError(
            f'"{text}" gives no {missing} of the ball',
            "weight and length of one ball, such as 100 g = 200 m",
            code="missing-unit" if re.search(r"\d", text) else "wrong-value",
        )
    return _check_label(masses), _check_label(metres)


def read_share(text: str) -> float:
    """A share of 1 from a percentage: `10 %` is 0.1. A bare number is read as a share below 1 only."""
    match = _SHARE.fullmatch(text.strip())
    if match is None:
        raise UnreadError(f'"{text}" is not a percentage', "a percentage, such as 10 %")
    amount = read_amount(match.group(1))
    if match.group(2) is None and amount >= 1:
        raise UnreadError(
            f'"{text.strip()}" has no unit',
            "a percentage, such as 10 %",
            f'write "{text.strip()} %"',
            "missing-unit",
        )
    share = amount / 100 if match.group(2) else amount
    if share > 1:
        raise UnreadError(f'"{text}" is out of range', "a percentage from 0 % to 100 %")
    return share


def read_hook(text: str) -> float:
    """The shaft of a hook in millimetres; a maker's letter may stand beside it: `H-8 (5 mm)`."""
    sizes = [length for length in find_lengths(text) if length.unit == "mm"]
    if len(sizes) == 1:
        low, high = HOOK_MM
        if not low <= sizes[0].amount <= high:
            raise UnreadError(f'"{text}" is out of range', f"a hook from {low:g} mm to {high:g} mm")
        return sizes[0].amount
    if _BARE.fullmatch(text):
        bare = text.strip()
        raise UnreadError(
            f'"{bare}" has no unit', "a hook in millimetres, such as 5 mm", f'write "{bare} mm"', "missing-unit"
        )
    raise UnreadError(
        f'"{text}" gives no hook in millimetres',
        "the shaft in millimetres, such as 5 mm; letters and numbers differ from maker to maker",
    )


def read_whole(text: str) -> int:
    """A whole number, not negative; a word may follow it: `32`, `32 sts`."""
    match = re.fullmatch(r"(\d{1,6})(?:\s*(?:sts?|stitches|rows?|rnds?|rounds?))?", text.strip())
    if match is None:
        raise UnreadError(f'"{text}" is not a whole number', "a whole number, such as 32")
    return int(match.group(1))


def _weigh(match: re.Match[str]) -> float:
    amount = read_amount(match.group(1))
    return amount * GRAMS_PER_OUNCE if match.group(2).lower().startswith("o") else amount


def _check_label(figures: list[tuple[float, str]]) -> float:
    """The metric figure of a label (the first where there is none), once the others agree with it."""
    value, shown = next((f for f in figures if re.search(r"g|\bm|\dm|met", f[1], re.IGNORECASE)), figures[0])
    for other, words in figures:
        if not agree(value, other, SAME_LABEL):
            raise UnreadError(
                f'"{shown}" and "{words}" are not the same',
                f"{shown} is {_convert(value, words)}",
                f'write "{_convert(value, words)}", or "{shown}" alone',
                "label-disagrees",
            )
    if value <= 0:
        raise UnreadError(f'"{shown}" is out of range', "a figure above 0")
    return value


def _convert(value: float, words: str) -> str:
    """A metric figure in the unit that other words use, as a label prints it."""
    if re.search(r"oz|ounce", words, re.IGNORECASE):
        return f"{value / GRAMS_PER_OUNCE:.2g} oz"
    if re.search(r"y", words, re.IGNORECASE):
        return f"{value / METRES_PER_YARD:.0f} yd"
    return f"{value:.0f} {'g' if re.search('g', words, re.IGNORECASE) else 'm'}"


def _name_unit(text: str) -> str:
    return next(name for name, form in _UNITS.items() if re.fullmatch(form, text, re.IGNORECASE))


def agree(first: float, second: float, share: float = SAME_LENGTH, least: float = 0.0) -> bool:
    """Whether two figures are one, each rounded as the trade rounds: by a share, or by `least` where that is more."""
    return abs(first - second) <= max(share * max(first, second), least)
