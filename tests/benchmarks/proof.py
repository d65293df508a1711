"""How long a proof takes, and what it grows with.

A blanket of five colour blocks in five sizes, 230 stitches by 220 rows in the largest, written out in
memory. A second table makes the same blanket 3 and 10 times as long by repeating its rows more often: a row
that stands on equal places is worked once, so the time may hardly grow. A third writes more and more
rows that differ from one another, which must cost in proportion.

    python tests/benchmarks/proof.py [profile]
"""

import cProfile
import pstats
import statistics
import sys
import time
from collections.abc import Iterable

from booklet.findings.render import has_errors
from booklet.pipeline import prove_text

SIZES = {"Cot": (130, 120), "Pram": (155, 145), "Lap": (180, 170), "Throw": (205, 195), "Bed": (230, 220)}
COLOURS = {"A": "#55677a", "B": "#dccfb2", "C": "#a9552f", "D": "#2f5443", "E": "#884455"}
RUNS = 5
TARGET = 0.3  # seconds


def write_blanket(times: int = 1, distinct: int = 0) -> str:
    """The source of the blanket: so many times as many rows, with so many rows in front that are each their own."""
    bands = [[rows * times // 5 - 2 for _, rows in SIZES.values()] for _ in COLOURS]
    letters = list(COLOURS)
    front = [
        "---",
        "title: Five Fields",
        "for: adult",
        "terms: US",
        "gauge: 14 sts and 16 rows = 10 cm in single crochet, 5 mm hook",
        "yarn: {weight: 4 Medium, fibre: wool, ball: 100 g = 190 m}",
        "swatch: {sts: 20, rows: 20, weight: 17 g}",
        "colours:",
        *(f'  {letter}: {{name: Colour {letter}, shade: "{shade}"}}' for letter, shade in COLOURS.items()),
        f"sizes: [{', '.join(SIZES)}]",
        "---",
        "",
    ]
    panels = [width // 5 for width, _ in SIZES.values()]
    total = _list_sizes([5 * panel for panel in panels])
    chains = [f"with {letter}, ch {_list_sizes(panels)}" for letter in letters[:-1]]
    chains.append(f"with {letters[-1]}, ch {_list_sizes([panel + 1 for panel in panels])}")
    rows = [
        f"Foundation: {'; '.join(chains)}.",
        f"Row 1: Sc in 2nd ch from hook and in each ch across, in colours as established. {total} sc.",
    ]
    rows += [_write_own_row(number, total) for number in range(distinct)]
    for band, more in enumerate(bands):
        order = letters[band:] + letters[:band]
        steps = ", ".join(f"with {letter}, sc in next {_list_sizes(panels)} sts" for letter in order)
        rows.append(f"Next row: Ch 1, turn, {steps}. {total} sc.")
        rows.append(f"Next row: Ch 1, turn, sc in each st across, in colours as established. {total} sc.")
        rows.append(f"Rep last row {_list_sizes(more)} more times. {total} sc.")
    return "\n".join(front) + "\n" + "\n\n".join(rows) + "\n"


def _list_sizes(numbers: Iterable[int]) -> str:
    first, *others = numbers
    return f"{first} ({', '.join(map(str, others))})"


def _write_own_row(number: int, total: str) -> str:
    return (
        f"Next row: Ch 1, turn, sc in next {number + 1} sts, 2 sc in next st, sc2tog, sc in each st across, "
        f"in colours as established. {total} sts."
    )


def measure(text: str) -> tuple[float, int]:
    """Seconds for one proof, the middle one of several, and how many rows were worked in all sizes."""
    times = []
    for _ in range(RUNS):
        start = time.perf_counter()
        proof = prove_text(text, "blanket.md")
        times.append(time.perf_counter() - start)
    assert proof.worked is not None
    assert not has_errors(proof.findings), [finding.message for finding in proof.findings]
    return statistics.median(times), sum(len(rows) for part in proof.worked.parts for rows in part.rows)


def main(arguments: list[str]) -> None:
    """Prints the tables, or with "profile" where the time goes."""
    text = write_blanket()
    prove_text(text, "blanket.md")  # loads the modules and the tables of terms
    if "profile" in arguments:
        profile = cProfile.Profile()
        profile.runcall(prove_text, text, "blanket.md")
        pstats.Stats(profile).sort_stats("cumulative").print_stats(45)
        pstats.Stats(profile).sort_stats("tottime").print_stats(25)
        return
    seconds, rows = measure(text)
    print(f"five sizes, 230 stitches by 220 rows in the largest: {seconds:.3f} s (target {TARGET} s), {rows} rows")
    for times in (1, 3, 10):
        seconds, rows = measure(write_blanket(times))
        print(f"rows x{times:<3} {rows:6} rows in all sizes {seconds:7.3f} s")
    for distinct in (0, 10, 30, 100):
        seconds, rows = measure(write_blanket(1, distinct))
        print(f"{distinct:3} rows of their own {rows:6} rows in all sizes {seconds:7.3f} s")


if __name__ == "__main__":
    main(sys.argv[1:])
