"""What stands before and behind a row: its label and its count."""

import re
from collections.abc import Sequence
from dataclasses import replace

from booklet.findings import join_words
from booklet.model.parsed import Label, Stated
from booklet.model.style import Style
from booklet.model.tree import ANY_STITCH, PerSize
from booklet.rows.print_names import Manner, print_digits, print_number, print_what

OPEN_COUNTS = {"dash": "– ", "equals sign": "= ", "full stop": ""}


def print_stated(stated: Stated | None, manner: Manner) -> str:
    """The count at the end: `(24 sc)`, `(12 dc, 11 ch-1 sps)`, `(+6 sts)`; framed as the house has it."""
    if stated is None:
        return ""
    bare = manner.style.count_form == "number" and len(stated.items) == 1
    items = ", ".join(
        print_digits(count, manner) + ("" if bare and what == ANY_STITCH else f" {print_what(what, count, manner)}")
        for count, what in stated.items
    )
    if stated.series:
        items = ", ".join([*(print_digits(count, manner) for count in stated.series[:-1]), items])
    counting = {None: "", True: ", including tch", False: ", not counting tch"}[stated.includes_chain]
    return frame_count(f"{items}{counting}", manner.style, stated.plus)


def frame_count(words: str, style: Style, plus: bool = False) -> str:
    """`(24 sc)`, `[24 sc]`, `– 24 sc.`, `= 24 sc.`, `24 sc.`; what a row adds stands in brackets: `(+6 sts)`."""
    if style.counts == "square":
        return f"[{'+' if plus else ''}{words}]"
    if plus or style.counts not in OPEN_COUNTS:
        return f"({'+' if plus else ''}{words})"
    return f"{OPEN_COUNTS[style.counts]}{words}."


def close_before(body: str, count: str, style: Style) -> str:
    """A row's words before its count: a dash or an equals sign on the same line goes on with the sentence."""
    if style.count_place == "own line":
        return body
    return body.rstrip(" .") if count.startswith(tuple(filter(None, OPEN_COUNTS.values()))) else body


def print_label(label: Label, manner: Manner) -> str:
    """`Row 1 (RS)`, `Rnds 5-12`, `Rows 6, 8 and 10`, `Row 2 and all even rows`, `Next row`, `Foundation`."""
    if not label.text:
        return ""
    words = _print_label_words(label, manner)
    if label.side and not label.every:
        words += f" [{label.side}]" if manner.style.sides == "square" else f" ({label.side})"
    if label.count and label.numbers:
        words += f" ({label.count} {manner.word}s)"
    if label.sizes and "size" not in label.name:
        words += f" (size{'s' if len(label.sizes) > 1 else ''} {join_words(label.sizes)} only)"
    return words


def _print_label_words(label: Label, manner: Manner) -> str:
    if label.counts:  # "Next 2 (4, 6) rows"
        return re.sub(r"\d+\s*[(\[][^)\]]*[)\]]", print_number(label.counts, manner), label.text)
    if label.kind == "foundation" or not label.numbers:
        return re.sub(r"\s*[(\[].*", "", label.text)
    if manner.size is not None:
        label = replace(label, numbers=label.numbers_in(manner.size), varied=())
    noun = (manner.style.rounds or "Rnd") if label.kind == "round" else (manner.style.rows or "Row")
    listed = [
        print_digits(first, manner) if first == last else f"{print_digits(first, manner)}-{print_digits(last, manner)}"
        for first, last in list_runs(label)
    ]
    numbers = join_words(listed)
    at = label.text.lower().find(label.name)  # the name in the author's letters
    name = f"{label.text[at : at + len(label.name)] if at >= 0 else label.name} " if label.name else ""
    plural = "s" if any(len(numbers) > 1 for numbers in label.varied or (label.numbers,)) else ""
    is_short = label.kind == "r" or (noun == "R" and not name and not label.every)
    numbers = numbers.replace("-", "–") if is_short and label.kind != "r" else numbers  # "R3-4" is not set as a range
    noun = {"R": "Rnd" if label.kind == "round" else "Row"}.get(noun, noun)
    words = f"{name}R{numbers}" if is_short else f"{name}{noun}{plural} {numbers}"
    if label.every:
        parity = label.side or ("even" if label.numbers[-1] % 2 == 0 else "odd")
        words += f" and all {parity} {manner.word}s"
    return words


def list_runs(label: Label) -> list[tuple[PerSize, PerSize]]:
    """The first and last number of each stretch, with one number or one for every size.

    Where the sizes do not have as many stretches, the label stands for the numbers from its first to its last.
    """
    if not label.varied:
        return [((first,), (last,)) for first, last in _join_runs(label.numbers)]
    sizes = [_join_runs(numbers) for numbers in label.varied]
    if len({len(runs) for runs in sizes}) != 1:
        sizes = [[(numbers[0], numbers[-1])] for numbers in label.varied if numbers]
    return [(_one(tuple(a for a, _ in runs)), _one(tuple(b for _, b in runs))) for runs in zip(*sizes, strict=True)]


def _one(values: PerSize) -> PerSize:
    return values if len(set(values)) > 1 else values[:1]


def _join_runs(numbers: Sequence[int]) -> list[tuple[int, int]]:
    """Numbers that follow one another as pairs of first and last."""
    runs: list[tuple[int, int]] = []
    for number in numbers:
        if runs and number == runs[-1][1] + 1:
            runs[-1] = (runs[-1][0], number)
        else:
            runs.append((number, number))
    return runs
