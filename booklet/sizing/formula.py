"""Formulas over named numbers: `panel * 3 + 2`, `ceil(rows / 2)`.

Only arithmetic is evaluated: + - * / // % with brackets, round, floor, ceil, min and max, the circle's
`across` and `around`, and the rates of shaping: `every(changes, rows, step)` and its like. There are no
powers, so no formula can grow beyond what its length allows.
"""

import ast
import math
from collections.abc import Callable, Mapping
from difflib import get_close_matches
from functools import lru_cache

from simpleeval import InvalidExpression, SimpleEval

from booklet.sizing.rates import RateError, spread_changes

MAX_LENGTH = 200
MAX_VALUE = 1e9

_OPERATORS: dict[type[ast.operator | ast.unaryop], Callable[..., float]] = {
    ast.Add: lambda a, b: a + b,
    ast.Sub: lambda a, b: a - b,
    ast.Mult: lambda a, b: a * b,
    ast.Div: lambda a, b: a / b,
    ast.FloorDiv: lambda a, b: a // b,
    ast.Mod: lambda a, b: a % b,
    ast.USub: lambda a: -a,
    ast.UAdd: lambda a: a,
}
_SIGNS = {"×": "*", "·": "*", "÷": "/", "−": "-", "–": "-"}


def _round_half_up(value: float, digits: float = 0) -> float:
    """As the trade rounds: a half goes up, never to the even neighbour."""
    scale = 10.0 ** int(digits)
    return math.floor(value * scale + 0.5) / scale


def _rate(what: str) -> Callable[..., float]:
    """One figure of the rate at which changes are spread over rows: `every(8, 38, 2)` is 4."""

    def work_out(changes: float, rows: float, step: float = 1) -> float:
        if any(value != int(value) for value in (changes, rows, step)):
            raise FormulaError("changes, rows and step of a shaping rate are whole numbers")
        try:
            return float(getattr(spread_changes(int(changes), int(rows), int(step)), what))
        except RateError as wrong:
            raise FormulaError(str(wrong)) from None

    return work_out


_FUNCTIONS: dict[str, Callable[..., float]] = {
    "round": _round_half_up,
    "floor": math.floor,
    "ceil": math.ceil,
    "min": min,
    "max": max,
    "across": lambda around: around / math.pi,  # a circle measures so much across
    "around": lambda across: across * math.pi,
    "every": _rate("every"),
    "times": _rate("times"),
    "then_every": _rate("then_every"),
    "then_times": _rate("then_times"),
    "rest": _rate("rest"),
}
# How many numbers each takes, at least and at most; two to twenty where nothing is said.
_TAKES = {"round": (1, 2)} | dict.fromkeys(("floor", "ceil", "across", "around"), (1, 1))
_TAKES |= dict.fromkeys(("every", "times", "then_every", "then_times", "rest"), (2, 3))
_ALLOWED = (
    ast.Expression,
    ast.BinOp,
    ast.UnaryOp,
    ast.Constant,
    ast.Name,
    ast.Call,
    ast.Load,
    *_OPERATORS,
)


class FormulaError(ValueError):
    """A formula that has no value; says why in plain words.

    `name` is the unknown name where that is the reason, `close` a known one that is like it.
    """

    def __init__(self, message: str, name: str = "", close: str = "") -> None:
        super().__init__(message)
        self.name = name
        self.close = close


def evaluate_formula(text: str, names: Mapping[str, float]) -> float:
    """The value of a formula, with the numbers that its names stand for.

    Raises FormulaError in plain words where it is too long, is no arithmetic, calls an unknown
    name, divides by 0, or comes to more than `MAX_VALUE`.
    """
    tree = _parse_formula(text)
    for name in list_names(text):
        if name not in names:
            close = get_close_matches(name, [*names], 1, 0.6)
            raise FormulaError(f'no number is called "{name}"', name, close[0] if close else "")
    evaluator = SimpleEval(operators=_OPERATORS, functions=_FUNCTIONS, names=dict(names))
    try:
        value = float(evaluator.eval(text, previously_parsed=tree.body))
    except FormulaError:
        raise
    except ZeroDivisionError:
        raise FormulaError("the formula divides by 0") from None
    except OverflowError:
        raise FormulaError("the formula comes to more than can be counted") from None
    except (InvalidExpression, TypeError, ValueError):
        raise FormulaError("the formula cannot be worked out") from None
    if not math.isfinite(value) or abs(value) > MAX_VALUE:
        raise FormulaError("the formula comes to more than can be counted")
    return value


def list_names(text: str) -> tuple[str, ...]:
    """The names of numbers that a formula calls, in order, each once; raises FormulaError."""
    tree = _parse_formula(text)
    called = {id(node.func) for node in ast.walk(tree) if isinstance(node, ast.Call)}
    nodes = [node for node in ast.walk(tree) if isinstance(node, ast.Name) and id(node) not in called]
    nodes.sort(key=lambda node: node.col_offset)
    return tuple(dict.fromkeys(node.id for node in nodes))


@lru_cache(maxsize=512)
def _parse_formula(text: str) -> ast.Expression:
    if len(text) > MAX_LENGTH:
        raise FormulaError(f"the formula is longer than {MAX_LENGTH} characters")
    written = text.strip()
    for sign, plain in _SIGNS.items():
        written = written.replace(sign, plain)
    if not written:
        raise FormulaError("the formula is empty")
    if not written.isascii():
        odd = next(character for character in written if not character.isascii())
        raise FormulaError(f'"{odd}" has no meaning in a formula')
    try:
        tree = ast.parse(written, mode="eval")
    except (SyntaxError, ValueError, RecursionError, MemoryError):
        raise FormulaError("the formula is not arithmetic") from None
    for node in ast.walk(tree):
        _check_node(node)
    return tree


def _check_node(node: ast.AST) -> None:
    if isinstance(node, ast.Pow) or not isinstance(node, _ALLOWED):
        raise FormulaError("only + - * / // % and brackets have a meaning in a formula")
    if isinstance(node, ast.Constant):
        value = node.value
        if isinstance(value, bool) or not isinstance(value, int | float):
            raise FormulaError("only numbers and names have a meaning in a formula")
        if abs(value) > MAX_VALUE:
            raise FormulaError("the formula holds a number that is too large")
    if isinstance(node, ast.Call):
        name = node.func.id if isinstance(node.func, ast.Name) else ""
        if name not in _FUNCTIONS:
            raise FormulaError(f"only {', '.join(_FUNCTIONS)} can be called" + (f', not "{name}"' if name else ""))
        few, many = _TAKES.get(name, (2, 20))
        if node.keywords or not few <= len(node.args) <= many:
            raise FormulaError(f"{name} takes {'1 number' if many == 1 else f'{few} to {many} numbers'}")
