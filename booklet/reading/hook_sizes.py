"""Hooks given twice, in millimetres and by a US size: whether the two are one hook.

Letters differ by maker, so a size is never turned into millimetres; it is only held against the sizes that the
table gives to hooks of about that shaft.
"""

import re
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache

from booklet.reading.quantities import AMOUNT, read_amount
from booklet.terms import load_table

# Neighbouring hooks lie 0.25 mm apart, and makers differ by as much.
SAME_MM = 0.26

_NUMBER = r"\d{1,2}(?:\s?½|\.5|\s1/2)?"
_LETTER = r"[A-Z](?:/[A-Z])?"
_LABEL = (
    rf"(?:US\s*)?(?:size\s*)?"
    rf"(?P<label@>(?:{_LETTER}\s?[-/]?\s?{_NUMBER}|{_LETTER}(?![A-Za-z]))|US\s?{_NUMBER})"
)
_MM = rf"(?P<mm@>{AMOUNT})\s*-?\s*mm\b"
_PAIR = re.compile(
    rf"(?:{_MM.replace('@', '1')}\s*[(\[/,]\s*{_LABEL.replace('@', '1')}\s*[)\]]?|"
    rf"(?<![\w-]){_LABEL.replace('@', '2')}\s*(?:[(\[/,=]|\bhook\s*[(\[]?|-\s)\s*{_MM.replace('@', '2')})"
)


@dataclass(frozen=True, slots=True)
class HookPair:
    """A hook in millimetres and the US size beside it; `start` and `end` are offsets in the text."""

    mm: float
    label: str
    start: int
    end: int


def find_hook_pairs(text: str) -> Iterator[HookPair]:
    """Every hook given in both: `5 mm (H-8)`, `US H/8 [5 mm]`. Steel hooks are left out: they have several scales."""
    for match in _PAIR.finditer(text):
        at = "1" if match["mm1"] else "2"
        around = text[max(0, match.start() - 12) : match.end() + 12].lower()
        if "steel" not in around and _names_size(match, text[match.end() :], at):
            yield HookPair(read_amount(match[f"mm{at}"]), match[f"label{at}"].strip(), *match.span())


def _names_size(match: re.Match[str], after: str, at: str) -> bool:
    """Whether the label is a hook's: a letter alone may be a colour's, "with B (6 mm hook)"."""
    if any(character.isdigit() for character in match[f"label{at}"]):
        return True
    is_told = re.search(r"\b(?:US|size)\b", match.group()) is not None
    return is_told or (at == "1" and re.match(r"\s*(?:crochet\s+)?hook", after) is not None)


def find_millimetres(label: str) -> tuple[float, ...]:
    """The shafts that a US size is given to, smallest first; none where no list has it.

    `I-9` is the size of both; only where no list has both do `I` and `9` alone count.
    """
    letters, number = _split_label(label)
    sizes = [
        (mm, numbered)
        for mm, others, numbered in _list_sizes()
        if (not letters or letters & others)
        and (not number or not numbered or number == numbered)
        and (letters or number == numbered)
    ]
    exact = [mm for mm, numbered in sizes if numbered == number]
    return tuple(dict.fromkeys(exact or [mm for mm, _ in sizes]))


def name_hook(mm: float) -> str:
    """The US size of a shaft, "" where it has none."""
    return next((str(entry["us"]) for entry in load_table("hooks")["regular"] if entry["mm"] == mm), "")


def is_same_hook(pair: HookPair) -> bool:
    """Whether the two are one hook, or the size is in no list."""
    sizes = find_millimetres(pair.label)
    return not sizes or any(abs(mm - pair.mm) <= SAME_MM for mm in sizes)


@cache
def _list_sizes() -> tuple[tuple[float, frozenset[str], str], ...]:
    """Millimetres, letters and number of every US size in the table, other makers' names for it included."""
    sizes = []
    for entry in load_table("hooks")["regular"]:
        for name in (entry["us"], *entry.get("also", ())):
            if name:
                letters, number = _split_label(name)
                sizes.append((float(entry["mm"]), letters, number))
    return tuple(sizes)


def _split_label(label: str) -> tuple[frozenset[str], str]:
    """`M/N-13` as its letters and its number, "" where it has none."""
    words = re.sub(r"^US\s*", "", label.strip())
    number = re.search(r"\d{1,2}(?:\s?½|\.5|\s1/2)?", words)
    letters = frozenset(re.findall(r"[A-Z]", words[: number.start()] if number else words))
    plain = re.sub(r"\s?½|\s1/2", ".5", number.group()) if number else ""
    return letters, plain
