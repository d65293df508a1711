"""What a token is, and the numbers per size that a row may use."""

from collections.abc import Mapping
from dataclasses import dataclass

from booklet.model.tree import PerSize
from booklet.sizing.formula import FormulaError, evaluate_formula

SAME_LENGTH = str.maketrans(
    {
        "×": "x",
        "✕": "x",
        "–": "-",
        "—": "-",
        "−": "-",
        "‑": "-",
        "‒": "-",
        "‘": "'",
        "’": "'",
        "“": '"',
        "”": '"',
        "″": '"',
        "\u00a0": " ",
        "\u202f": " ",
        "\u2009": " ",
        "‡": "+",
        "†": "+",
        "＊": "*",
        "∗": "*",
        "•": " ",
        "\t": " ",
        "\n": " ",
        "ı": "i",
        "…": ".",
        "→": "-",
    }
)


@dataclass(frozen=True, slots=True)
class Token:
    """`kind` is num, ord, st, w, chsp, chn, colour, star, p, or word (a word nobody defined)."""

    kind: str
    value: str | int
    start: int
    end: int
    numbers: PerSize = ()
    plain: bool = False  # an everyday word, or one of the author's own

    def is_word(self, *values: str) -> bool:
        return self.kind == "w" and self.value in values

    @property
    def is_strange(self) -> bool:
        """Is it a word that is no term of the trade, no everyday word and none of the author's own?"""
        return self.kind == "word" and str(self.value).isalpha() and not self.plain

    def is_mark(self, *values: str) -> bool:
        return self.kind == "p" and self.value in values


@dataclass(frozen=True, slots=True)
class Numbers:
    """Named numbers of the pattern per size, and how many sizes there are."""

    values: Mapping[str, PerSize]
    sizes: int = 1
    refused: frozenset[str] = frozenset()  # names whose rule is wrong, which has been told already
    names: tuple[str, ...] = ()  # of the sizes
    scope: tuple[int, ...] = ()  # places of the sizes that the row is for, where it is not for all

    def spread(self, values: PerSize) -> PerSize:
        """A number for every size, of a list that has one for each size the row is for; as it is otherwise."""
        if not self.scope or len(values) in (1, self.sizes) or len(values) != len(self.scope):
            return values
        known = dict(zip(self.scope, values, strict=True))
        return tuple(known.get(at, values[0]) for at in range(self.sizes))

    def evaluate(self, formula: str) -> PerSize:
        """The formula's whole-number value in every size. Raises FormulaError with plain words."""
        results = []
        for size in range(self.sizes):
            names = {name: float(v[size] if len(v) > 1 else v[0]) for name, v in self.values.items()}
            value = evaluate_formula(formula, names)
            if abs(value - round(value)) > 1e-9:
                raise FormulaError(f"{formula} comes to {value:g}, not a whole number")
            results.append(round(value))
        return tuple(results) if len(set(results)) > 1 else (results[0],)


@dataclass(frozen=True, slots=True)
class TokenTrouble:
    """A place in the text that could not become a token: `kind` is formula, told or size-count."""

    kind: str
    start: int
    end: int
    text: str
    found: int = 0
