"""How often, in words: steps again within a row, and whole rows again."""

import re

from booklet.findings import join_words
from booklet.model.measure import CM_PER_INCH, are_inches
from booklet.model.tree import PerSize, Repeat, RepeatRows
from booklet.rows.print_names import (
    Manner,
    is_one,
    print_digits,
    print_number,
    print_sizes,
    print_stitches,
    spell_number,
)
from booklet.rows.print_places import ONE, print_extent, print_goal

QUARTERS = {0: "", 1: "¼", 2: "½", 3: "¾"}
ORDINALS = {1: "st", 2: "nd", 3: "rd", 21: "st", 22: "nd", 23: "rd"}
ONCE = {"1": "once", "2": "twice"}


def name_times(count: PerSize, manner: Manner) -> str:
    """`once`, `twice`, `6 times`, `5 (6, 7) times`; as the house has it `2 times`, `six times`, `two times`"""
    words = _count_times(count, manner)
    return {"1": "1 time", "one": "one time"}.get(words, words if words in ONCE.values() else f"{words} times")


def name_more(count: PerSize, manner: Manner) -> str:
    """`once more`, `twice more`, `5 more times`; as the house has it `2 more times`, `five more times`"""
    words = _count_times(count, manner)
    one = {"1": "1 more time", "one": "one more time"}
    return one.get(words, f"{words} more" if words in ONCE.values() else f"{words} more times")


def _count_times(count: PerSize, manner: Manner) -> str:
    """`once`, `twice`, or the number in digits or words."""
    figures = print_digits(count, manner)
    if manner.style.times in ("", "words") and figures in ONCE:
        return ONCE[figures]
    return figures if manner.style.times in ("", "digits") else spell_number(count, manner)


def print_often(step: Repeat, manner: Manner) -> str:
    """The words behind a bracket or behind "rep from *"."""
    if step.until == "more":
        return name_more(step.count, manner)
    if step.until in ("times", "open"):
        return name_times(step.count, manner)
    if step.until == "up to":
        return print_goal(step.count, step.what, manner)
    return print_extent(step.count if step.until == "last" else (0,), step.what, manner)


def print_rows_again(step: RepeatRows, manner: Manner) -> str:
    """`rep Rows 2 and 3, 6 more times`, `rep last row until there are 34 rows`, `work 5 rows even`

    A comma parts the number of a row from a number of times, so that the two are not read as one.
    """
    if step.even:
        return _print_even_rows(step, manner)
    nth = "other" if step.every == 2 else f"{step.every}{ORDINALS.get(step.every, 'th')}"
    every = f" every {nth} {manner.word}" if step.every > 1 else ""
    verb = "work" if step.until == "all" else "rep"
    named, often = f"{verb} {_name_rows(step, manner)}{every}", _print_until(step, manner)
    comma = "," if named[-1].isdigit() and often[1:2].isdigit() else ""
    return f"{named}{comma}{often}{_print_ending(step, manner)}"


def _print_ending(step: RepeatRows, manner: Manner) -> str:
    if step.ending.isdigit():
        return f", ending with {manner.word.capitalize()} {step.ending}"
    return f", ending with a {step.ending} {manner.word}" if step.ending else ""


def _print_even_rows(step: RepeatRows, manner: Manner) -> str:
    if step.until == "length":
        return f"work even for {print_length(step.length_cm, manner)}"
    if step.until in ("height", "rows"):
        stitch = f" in {print_stitches(step.stitch, ONE, manner)}" if step.stitch else ""
        words = f"work even{stitch}{_print_until(step, manner)}"
        return f"{words}{_print_ending(step, manner)}"
    how = f"in {print_stitches(step.stitch, ONE, manner)}" if step.stitch else "even"
    more = " more" if step.until == "more" else ""
    rows = f"{manner.word}{'' if is_one(step.count, manner) else 's'}"
    return f"work {print_number(step.count, manner)}{more} {rows} {how}{_print_ending(step, manner)}"


def _name_rows(step: RepeatRows, manner: Manner) -> str:
    """`last row`, `last 2 rows`, `Row 4`, `Rows 2 and 3`, `Rows 2-5 and 8`"""
    if step.names:
        return _name_by_name(step, manner)
    if step.lasts:
        return f"last {print_number(step.lasts, manner)} {manner.word}s"
    if step.last:
        return f"last {manner.word}" if step.last == 1 else f"last {step.last} {manner.word}s"
    noun = manner.noun
    refs = [str(first) if first == last else f"{first}-{last}" for first, last in step.rows]
    several = len(refs) > 1 or any(first != last for first, last in step.rows)
    return f"{noun}{'s' if several else ''} {join_words(refs)}".rstrip()


def _name_by_name(step: RepeatRows, manner: Manner) -> str:
    """`Rows A and B`, `Inc Row`"""
    noun = manner.noun
    if all(re.fullmatch("row [a-z]", name) for name in step.names):
        letters = [name[-1].upper() for name in step.names]
        return f"{noun}{'s' if len(letters) > 1 else ''} {join_words(letters)}"
    return f"{step.names[0].removesuffix(' row').title()} {noun}"


def _print_until(step: RepeatRows, manner: Manner) -> str:
    if step.until in ("length", "height"):
        return f" until piece measures {print_length(step.length_cm, manner)}"
    if step.until == "sts":
        return f" until {print_number(step.count, manner)} sts remain"
    if step.until == "rows":
        return f" until there are {print_digits(step.count, manner)} {manner.word}s"
    if step.until == "more":
        return f" {name_more(step.count, manner)}"
    if step.until == "open":
        return f" {name_times(step.count, manner)}"
    if step.until == "all":
        return f" a total of {print_digits(step.count, manner)} times"
    if step.until == "times":
        once = is_one(step.count, manner) and manner.style.times in ("", "words")
        figures = spell_number if "words" in manner.style.times else print_digits
        one = "" if not is_one(step.count, manner) else "time in all"
        return " once" if once else f" {figures(step.count, manner)} {one or 'times in all'}"
    return ""


def print_length(cm: tuple[float, ...], manner: Manner) -> str:
    """A length per size, in the unit in which it is a round number: `20 cm`, `5½ in`."""
    values = cm if manner.size is None else (cm[manner.size if len(cm) > 1 else 0],)
    if manner.places and len(values) > 1:
        values = tuple(values[place] for place in manner.places)
    if are_inches(values):
        return f"{print_sizes([_print_quarters(value / CM_PER_INCH) for value in values])} in"
    return f"{print_sizes([f'{value:.6g}' for value in values])} cm"


def _print_quarters(value: float) -> str:
    whole, part = divmod(round(value * 4), 4)
    return f"{whole or ''}{QUARTERS[part]}" or "0"
