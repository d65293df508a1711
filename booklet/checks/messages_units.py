"""The words of what is found where something is given in two units."""

from collections.abc import Sequence

from booklet.amounts.figures import print_number
from booklet.findings import Finding, warning
from booklet.reading.hook_sizes import HookPair
from booklet.source import Span

WORDS = {
    "mm": "millimetres", "cm": "centimetres", "m": "metres", "in": "inches", "ft": "feet", "yd": "yards",
    "g": "grams", "oz": "ounces",
}  # fmt: skip


def units_differ(before: float, first: str, after: float, second: str, right: float, span: Span) -> Finding:
    """`right` is what `before` comes to in the second unit."""
    step = 0.5 if second == "cm" else 0.25 if second in ("in", "oz") else 1
    shown = print_number(round(right / step) * step)
    return warning(
        "units-differ",
        f"{print_number(before)} {first} is not {print_number(after)} {second}",
        span,
        expected=f"{print_number(before)} {first} is {shown} {second}, rounded",
        fix=f'write "{shown} {second}", or correct the {WORDS[first]}',
    )


def hook_differs(pair: HookPair, sizes: Sequence[float], name: str, span: Span) -> Finding:
    """`sizes` are the shafts that the US size is given to, `name` the US size of the shaft."""
    usual = " or ".join(f"{print_number(mm)} mm" for mm in sizes)
    named = f"; {print_number(pair.mm)} mm is {name}" if name else ""
    return warning(
        "hook-size-differs",
        f"{pair.label} is not a hook of {print_number(pair.mm)} mm",
        span,
        expected=f"{pair.label} is {usual}{named}; letters differ from maker to maker, millimetres do not",
        fix=f'write "{print_number(pair.mm)} mm ({name})"' if name else f'write "{print_number(pair.mm)} mm" alone',
    )
