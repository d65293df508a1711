"""Money and spans of time as people write them: `USD 20`, `€6.50`, `2.5 to 4 s`."""

import re

from booklet.model.costs import Money, Range
from booklet.reading.quantities import AMOUNT, UnreadError, read_amount, read_share

_CURRENCY = r"[A-Z]{3}|[$€£¥₹]"
_MONEY = re.compile(rf"\s*(?P<before>{_CURRENCY})?\s*(?P<amount>{AMOUNT})\s*(?P<after>{_CURRENCY})?\s*")
_RANGE = re.compile(
    rf"\s*(?P<low>{AMOUNT})(?:\s*(?:to|-|–|—)\s*(?P<high>{AMOUNT}))?\s*(?P<unit>[a-z.]*)\s*", re.IGNORECASE
)
SECONDS = ("", "s", "sec", "second", "seconds")
MINUTES = {"": 1.0, "min": 1.0, "minute": 1.0, "minutes": 1.0, "h": 60.0, "hour": 60.0, "hours": 60.0}
SECONDS_A_STITCH = (0.2, 120.0)
MOST_MINUTES = 100_000


def read_money(text: str) -> Money:
    """money = [currency] amount [currency]: `450`, `USD 20`, `6.50 €`."""
    match = _MONEY.fullmatch(text)
    if match is None or (match["before"] and match["after"]):
        raise UnreadError(
            f'"{text}" is not an amount of money', "an amount with its currency, such as USD 20 or 6.50 €"
        )
    return Money(read_amount(match["amount"]), match["before"] or match["after"] or "")


def read_fees(text: str) -> tuple[Money | None, float]:
    """fees = percentage | money: `12 %` of the price, or `0.95` a sale."""
    if "%" in text:
        return None, read_share(text)
    return read_money(text), 0.0


def read_seconds(text: str) -> Range:
    """seconds = low ["to" high] ["s"]: what one stitch takes, from a quick to an easy pace."""
    low, high, unit = _read_range(text)
    if unit not in SECONDS or not SECONDS_A_STITCH[0] <= low <= high <= SECONDS_A_STITCH[1]:
        least, most = SECONDS_A_STITCH
        raise UnreadError(f'"{text}" are no seconds a stitch', f"from {least:g} to {most:g}, such as 2.5 to 4")
    return low, high


def read_minutes(text: str) -> Range:
    """minutes = low ["to" high] ["min" | "hours"]: what finishing one item takes."""
    low, high, unit = _read_range(text)
    if unit not in MINUTES or not 0 <= low <= high or high * MINUTES[unit] > MOST_MINUTES:
        raise UnreadError(f'"{text}" is not a time', "minutes or hours, such as 30 to 45 min")
    return low * MINUTES[unit], high * MINUTES[unit]


def _read_range(text: str) -> tuple[float, float, str]:
    match = _RANGE.fullmatch(text)
    if match is None:
        raise UnreadError(f'"{text}" is not a number', "one number, or two with to between them")
    low = read_amount(match["low"])
    return low, read_amount(match["high"]) if match["high"] else low, match["unit"].rstrip(".").lower()
