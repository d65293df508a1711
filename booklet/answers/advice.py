"""What to do where a gauge comes out otherwise: which hook to try, which size to work."""

from collections.abc import Sequence
from dataclasses import dataclass

from booklet.amounts.materials import find_us_size
from booklet.answers.comparison import MeasureThen
from booklet.model.pattern import Gauge, Pattern
from booklet.terms import load_table

HAIR = 1e-9
ACROSS = ("circumference", "width")  # what a size is chosen by


@dataclass(frozen=True, slots=True)
class HookAdvice:
    """The hook to make the next swatch with; `direction` is larger or smaller than the hook that was used."""

    direction: str
    used_mm: float
    try_mm: float
    us: str  # "" where the US set has no such size


@dataclass(frozen=True, slots=True)
class SizeChoice:
    """The size whose rows come nearest to what another one was to measure."""

    wanted: str
    wanted_cm: float
    wanted_inches: float
    work: str
    cm: float
    inches: float


def advise_hook(pattern: Pattern, stated: Gauge, then: Gauge) -> HookAdvice | None:
    """More stitches than stated ask for a larger hook, fewer for a smaller one; None where no hook is known.

    The width of a stitch is taken to go with the hook; of the sizes that are sold the nearest is named, at
    least one size away. [Direction: the trade body's course, as reported in two shops' guides. How far:
    common practice, from memory; only another swatch tells.]
    """
    used = then.hook_mm or stated.hook_mm or next((hook.mm for hook in pattern.hooks), None)
    ratio = then.sts_per_cm / stated.sts_per_cm
    if used is None or abs(ratio - 1) < HAIR:
        return None
    sold = [float(entry["mm"]) for entry in load_table("hooks")["regular"]]
    away = [mm for mm in sold if (mm > used + HAIR if ratio > 1 else mm < used - HAIR)]
    if not away:
        return None
    best = min(away, key=lambda mm: abs(mm - used * ratio))
    return HookAdvice("larger" if ratio > 1 else "smaller", used, best, find_us_size(best))


def choose_sizes(measures: Sequence[MeasureThen]) -> tuple[SizeChoice, ...]:
    """For each size the one to work, by the first measure across that is known; () for a pattern of one size."""
    lead = next((measure for measure in measures if any(word in measure.name for word in ACROSS)), None)
    line = [m for m in measures if lead is not None and (m.part, m.name) == (lead.part, lead.name)]
    if len(line) < 2:
        return ()
    choices: list[SizeChoice] = []
    for wanted in line:
        if wanted.cm is None or wanted.inches is None:
            continue
        known = [other for other in line if other.then_cm is not None]
        best = min(known, key=lambda other: abs((other.then_cm or 0.0) - (wanted.cm or 0.0)), default=None)
        if best is not None and best.then_cm is not None and best.then_inches is not None:
            choices.append(SizeChoice(wanted.size, wanted.cm, wanted.inches, best.size, best.then_cm, best.then_inches))
    return tuple(choices)
