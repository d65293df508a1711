"""Answers as text in columns, and figures as they stand there."""

from collections.abc import Iterator, Sequence

from booklet.amounts.figures import print_cm, print_inches, print_metres, print_sizes, print_yards

GAP = "  "
UNKNOWN = "–"


def lay_columns(head: Sequence[str], lines: Sequence[Sequence[str]]) -> Iterator[str]:
    """A table as lines of text; a column that is empty throughout is left out."""
    rows = [tuple(head), *(tuple(line) for line in lines)]
    kept = [at for at in range(len(head)) if any(row[at] for row in rows[1:])]
    widths = [max(len(row[at]) for row in rows) for at in kept]
    for row in rows:
        cells = (row[at].ljust(width) for at, width in zip(kept, widths, strict=True))
        yield (GAP + GAP.join(cells)).rstrip()


def print_length(cm: float | None, inches: float | None, units_first: str) -> str:
    """`91.5 cm (36½ in)`, the pattern's own unit first."""
    if cm is None or inches is None:
        return UNKNOWN
    metric, imperial = f"{print_cm(cm)} cm", f"{print_inches(inches)} in"
    return f"{imperial} ({metric})" if units_first == "imperial" else f"{metric} ({imperial})"


def print_difference(cm: float | None, inches: float | None, units_first: str) -> str:
    """`+7 cm (+2¾ in)`; `none` where a ruler shows none."""
    if cm is None or inches is None:
        return ""
    metric, imperial = _sign(cm, print_cm, "cm"), _sign(inches, print_inches, "in")
    first, second = (imperial, metric) if units_first == "imperial" else (metric, imperial)
    return f"{first} ({second})" if first != second else first


def _sign(number: float, form: object, unit: str) -> str:
    assert callable(form)
    figure = form(abs(number))
    return "none" if figure == "0" else f"{'+' if number > 0 else '−'}{figure} {unit}"


def print_yarn(metres: float, units_first: str) -> str:
    """`420 m (459 yd)`, both rounded up."""
    metric, imperial = f"{print_metres(metres)} m", f"{print_yards(metres)} yd"
    return f"{imperial} ({metric})" if units_first == "imperial" else f"{metric} ({imperial})"


def print_balls(balls: int | None) -> str:
    if balls is None:
        return ""
    return "1 ball" if balls == 1 else f"{balls} balls"


def print_values(values: Sequence[int]) -> str:
    """One value a size in the trade's form."""
    return print_sizes([str(value) for value in values])
