"""How long each question takes, in proofs of the same pattern: `python tests/benchmarks/answers.py`."""

import time
from collections.abc import Callable
from pathlib import Path

from booklet.answers.asked import read_fewer, read_other_gauge, read_other_number, read_other_yarn
from booklet.answers.costs import count_costs
from booklet.answers.kits import list_kits
from booklet.answers.running_out import measure_stock
from booklet.answers.samples import find_sample
from booklet.answers.supposing import Known, know, suppose_gauge, suppose_number, suppose_yarn
from booklet.model.costs import CostFacts
from booklet.model.kits import KitOrder, Lot
from booklet.pipeline import prove_file

CONTENT = Path(__file__).parents[2] / "content"
RUNS = 3


def take_time(run: Callable[[], object]) -> float:
    """The shortest of some runs, in seconds."""
    times = []
    for _ in range(RUNS):
        start = time.perf_counter()
        run()
        times.append(time.perf_counter() - start)
    return min(times)


def list_questions(known: Known) -> dict[str, Callable[[], object]]:
    number = next(iter(known.sized.numbers))
    at = known.pattern.source.whole()
    order = KitOrder(known.pattern.source, "kits", 25, (Lot("", at),))
    return {
        "another gauge": lambda: suppose_gauge(known, read_other_gauge(f"{known.pattern.gauges[0].sts - 1}")),
        "a number changed": lambda: suppose_number(known, read_other_number(f"{number}+2")),
        "another yarn": lambda: suppose_yarn(known, read_other_yarn("3")),
        "a ball less": lambda: measure_stock(known, read_fewer(known.pattern.colours[0].letter)),
        "kits for 25": lambda: list_kits(order, [known]),
        "teaching sample": lambda: find_sample(known),
        "time and cost": lambda: count_costs(known, CostFacts()),
    }


for source in sorted(CONTENT.glob("*/pattern.md")):
    known = know(prove_file(str(source.parent)))
    if known is None or len(known.pattern.gauges) != 1 or not known.pattern.colours or not known.sized.numbers:
        continue
    proof = take_time(lambda source=source: prove_file(str(source.parent)))  # type: ignore[misc]
    print(f"{known.pattern.title}: a proof takes {proof:.2f} s")
    for name, ask in list_questions(known).items():
        print(f"  {name:<18} {take_time(ask) / proof:6.1f} proofs")
