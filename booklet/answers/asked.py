"""What is asked, read from the words of the command line: `13 sts and 11 rows`, `panel + 4`, `B 2 balls`.

A text that cannot be read raises `UnreadError`, which says what was expected.
"""

import re
from dataclasses import dataclass

from booklet.model.measure import METRES_PER_YARD, Length
from booklet.reading.gauges import read_gauge
from booklet.reading.quantities import AMOUNT, UnreadError, find_lengths, read_amount, read_ball, read_grams
from booklet.reading.size_lists import read_size_list
from booklet.reading.yarns import read_yarn_weight

_NAMED = re.compile(r"\s*(?P<name>[^:=]*?[A-Za-z][^:=]*?)\s*:\s*(?P<rest>.+)", re.DOTALL)
_COUNTS = re.compile(
    rf"\s*(?P<sts>{AMOUNT})\s*(?:sts?|stitch(?:es)?)?"
    rf"(?:\s*(?:,|&|×|/|\bx\b|\bby\b|\band\b)\s*(?P<rows>{AMOUNT})\s*(?:rows?|rnds?|rounds?)?)?\s*",
    re.IGNORECASE,
)
_NUMBER = re.compile(r"\s*(?P<name>[^\W\d]\w*)\s*(?P<sign>[-+=−–])\s*(?P<values>.+?)\s*")
_BALLS = re.compile(r"(\d{1,4})\s*(?:balls?|skeins?)?", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class OtherGauge:
    """A gauge that came out otherwise. `name` is "" for the pattern's only gauge; without `rows` they are as stated."""

    name: str
    sts: float
    rows: float | None = None
    over: Length | None = None
    hook_mm: float | None = None


@dataclass(frozen=True, slots=True)
class OtherNumber:
    """A named number made larger by `plus` in every size, or set to `values` (one a size, or one for all)."""

    name: str
    plus: int = 0
    values: tuple[int, ...] = ()


@dataclass(frozen=True, slots=True)
class OtherYarn:
    """A yarn of another weight; grams and metres of its ball are None where they were not given."""

    weight: int
    weight_name: str
    ball_grams: float | None = None
    ball_metres: float | None = None


@dataclass(frozen=True, slots=True)
class Stock:
    """What there is of a colour: `balls`, `metres` or `grams`; `fewer` balls than the pattern asks for.

    `letter` is "" for the only colour.
    """

    letter: str
    fewer: int = 0
    balls: int | None = None
    metres: float | None = None
    grams: float | None = None


def read_other_gauge(text: str) -> OtherGauge:
    """gauge = [name ":"] stitches ["and" rows] ["=" length]: `13`, `13 sts and 11 rows`, `moss: 15 sts = 4 in`."""
    named = _NAMED.fullmatch(text)
    name, words = (named["name"], named["rest"]) if named else ("", text)
    if counts := _COUNTS.fullmatch(words):
        gauge = OtherGauge(name, read_amount(counts["sts"]), read_amount(counts["rows"]) if counts["rows"] else None)
    else:
        line = read_gauge(words)
        gauge = OtherGauge(name, line.sts, line.rows, line.over, line.hook_mm)
    if gauge.sts <= 0 or gauge.rows == 0:
        raise UnreadError(f'"{text}" is not a gauge', "stitches, and rows if they were counted, above 0")
    return gauge


def read_other_number(text: str) -> OtherNumber:
    """number = name ("+" | "-") whole | name "=" size list: `panel + 4`, `band=40`, `panel = 36 (44, 60)`."""
    match = _NUMBER.fullmatch(text)
    values = read_size_list(match["values"]) if match else None
    if match is None or values is None or (match["sign"] != "=" and len(values) > 1):
        raise UnreadError(
            f'"{text}" is not a change of a number', "its name and the change: panel+4, panel-2, panel=36"
        )
    if match["sign"] == "=":
        return OtherNumber(match["name"], values=values)
    return OtherNumber(match["name"], plus=values[0] if match["sign"] == "+" else -values[0])


def read_other_yarn(text: str) -> OtherYarn:
    """yarn = weight ["," ball]: `3 Light`, `DK, 50 g = 120 m`."""
    words, _, ball = text.partition(",")
    weight, name = read_yarn_weight(words)
    grams, metres = read_ball(ball) if ball.strip() else (None, None)
    return OtherYarn(weight, name, grams, metres)


def read_fewer(text: str) -> Stock:
    """fewer = [letter] [balls]: `B`, `B 2`, `B 2 balls`; one ball where no number is given."""
    letter, rest = _split_letter(text)
    balls = _BALLS.fullmatch(rest) if rest else None
    if rest and (balls is None or not int(balls[1])):
        raise UnreadError(f'"{text}" is not a number of balls', "a colour and how many balls fewer: B, or B 2 balls")
    return Stock(letter, fewer=int(balls[1]) if balls else 1)


def read_stock(text: str) -> Stock:
    """stock = [letter] (balls | length | weight): `B 3 balls`, `A 240 m`, `A 260 yd`, `C 85 g`."""
    letter, rest = _split_letter(text)
    if balls := _BALLS.fullmatch(rest):
        return Stock(letter, balls=int(balls[1]))
    lengths = find_lengths(rest)
    if len(lengths) == 1 and lengths[0].unit in ("m", "yd"):
        per_unit = METRES_PER_YARD if lengths[0].unit == "yd" else 1.0
        return Stock(letter, metres=lengths[0].amount * per_unit)
    try:
        return Stock(letter, grams=read_grams(rest))
    except UnreadError:
        expected = "a colour and what there is of it: B 3 balls, B 240 m, B 85 g"
        raise UnreadError(f'"{text}" is not an amount of yarn', expected) from None


def _split_letter(text: str) -> tuple[str, str]:
    """The colour's letter, "" where none is named, and the words behind it."""
    match = re.fullmatch(r"\s*(?:([A-Za-z]\w*)(?=\s|[:=]|$))?\s*[:=]?\s*(.*?)\s*", text, re.DOTALL)
    return ("", text.strip()) if match is None else (match[1] or "", match[2])
