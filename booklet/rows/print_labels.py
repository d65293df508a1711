"""What stands before and behind a row: its label and its count."""

import re
from collections.abc import Sequence

from booklet.findings import join_words
from booklet.model.tree import Label, Stated
from booklet.rows.print_names import Manner, print_number, print_what


def print_stated(stated: Stated | None, manner: Manner) -> str:
    """The count at the end: `(24 sc)`, `(12 dc, 11 ch-1 sps)`, `(+6 sts)`."""
    if stated is None:
        return ""
    items = ", ".join(
        f"{print_number(count, manner)} {print_what(what, count, manner)}" for count, what in stated.items
    )
    counting = {None: "", True: ", including tch", False: ", not counting tch"}[stated.includes_chain]
    return f"({'+' if stated.plus else ''}{items}{counting})"


def print_label(label: Label, manner: Manner) -> str:
    """`Row 1 (RS)`, `Rnds 5-12`, `Rows 6, 8 and 10`, `Row 2 and all even rows`, `Next row`, `Foundation`."""
    if not label.text:
        return ""
    words = _print_label_words(label, manner)
    if label.side and not label.every:
        words += f" ({label.side})"
    if label.count:
        words += f" ({label.count} {manner.word}s)"
    if label.sizes and "size" not in label.name:
        words += f" (size{'s' if len(label.sizes) > 1 else ''} {join_words(label.sizes)} only)"
    return words


def _print_label_words(label: Label, manner: Manner) -> str:
    if label.kind == "foundation" or not label.numbers:
        return re.sub(r"\s*[(\[].*", "", label.text)
    noun = "Rnd" if label.kind == "round" else "Row"
    runs = _join_runs(label.numbers)
    listed = [str(first) if first == last else f"{first}-{last}" for first, last in runs]
    numbers = join_words(listed)
    at = label.text.lower().find(label.name)  # the name in the author's letters
    name = f"{label.text[at : at + len(label.name)] if at >= 0 else label.name} " if label.name else ""
    plural = "s" if len(label.numbers) > 1 else ""
    words = f"{name}R{numbers}" if label.kind == "r" else f"{name}{noun}{plural} {numbers}"
    if label.every:
        parity = label.side or ("even" if label.numbers[-1] % 2 == 0 else "odd")
        words += f" and all {parity} {manner.word}s"
    return words


def _join_runs(numbers: Sequence[int]) -> list[tuple[int, int]]:
    """Numbers that follow one another as pairs of first and last."""
    runs: list[tuple[int, int]] = []
    for number in numbers:
        if runs and number == runs[-1][1] + 1:
            runs[-1] = (runs[-1][0], number)
        else:
            runs.append((number, number))
    return runs
