"""How long an item takes: stitches times seconds a stitch, as a range. Only worked out where it is asked for."""

from booklet.amounts.tally import count_size
from booklet.model.costs import Range
from booklet.model.pattern import Pattern
from booklet.model.work import WorkedPattern
from booklet.terms import load_table

SECONDS_AN_HOUR = 3600
WHOLE_HOURS_FROM = 10  # below it a time is told to five minutes


def usual_seconds() -> tuple[Range, str]:
    """The range that is taken where no pace is given, and where it comes from."""
    table = load_table("making_time")["seconds_per_stitch"]
    usual, easy = table["usual"], table["easy"]
    return (float(usual["value"]), float(easy["value"])), f"{usual['source']}; {easy['source']}"


def count_stitches(pattern: Pattern, worked: WorkedPattern, size: int) -> int:
    """All stitches of one size, every piece as often as it is made, chains left out as in the published figures."""
    left_out = load_table("making_time")["left_out"]
    tally = count_size(pattern, worked, size)
    return sum(number for (_, _, kind), number in tally.worked.items() if kind not in left_out)


def count_hours(stitches: int, seconds: Range, minutes: Range = (0.0, 0.0)) -> Range:
    """From the quick pace to the easy one, minutes of finishing included."""
    low, high = (stitches * pace / SECONDS_AN_HOUR + rest / 60 for pace, rest in zip(seconds, minutes, strict=True))
    return low, high


def list_hours(pattern: Pattern, worked: WorkedPattern) -> tuple[Range, ...]:
    """The making time of every size at the pattern's own pace; () where the pattern does not ask for it."""
    if pattern.making_time is None:
        return ()
    return tuple(
        count_hours(count_stitches(pattern, worked, size), pattern.making_time)
        for size in range(len(pattern.size_names))
    )


def print_hours(hours: Range) -> str:
    """`2 h 40 min to 4 h 5 min`, `12 to 19 h`: to five minutes below ten hours, to whole hours above."""
    low, high = (_print_time(time) for time in hours)
    if low == high:
        return low
    for unit in (" h", " min"):
        if low.endswith(unit) and high.endswith(unit) and " h " not in low + high:
            return f"{low.removesuffix(unit)} to {high}"
    return f"{low} to {high}"


def _print_time(hours: float) -> str:
    if hours >= WHOLE_HOURS_FROM:
        return f"{round(hours)} h"
    whole, rest = divmod(max(5, 5 * round(hours * 12)), 60)
    return " ".join(word for word in (f"{whole} h" if whole else "", f"{rest} min" if rest else "") if word)
