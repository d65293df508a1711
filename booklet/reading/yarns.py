"""Yarn weights by the trade body's number or name, or by a name that shops use for one: `4 Medium`, `DK`."""

import re

from booklet.reading.quantities import UnreadError
from booklet.terms import load_table

# Names that shops use beyond the table's own, in the trade's common practice.
_SHOP_NAMES = {
    "4 ply": 1,
    "4ply": 1,
    "5 ply": 2,
    "5ply": 2,
    "8 ply": 3,
    "8ply": 3,
    "double knitting": 3,
    "10 ply": 4,
    "10ply": 4,
    "12 ply": 5,
    "12ply": 5,
    "super chunky": 6,
}


def read_yarn_weight(text: str) -> tuple[int, str]:
    """Number 0-7 and the trade body's name of it: `4 Medium`, `4`, `Medium` and `worsted` give the same."""
    table = load_table("yarn_weights")
    words = re.sub(r"\s+", " ", text.strip()).strip("#() ").lower()
    if words in _SHOP_NAMES:
        return _SHOP_NAMES[words], str(table[_SHOP_NAMES[words]]["name"])
    match = re.fullmatch(r"(?:cyc\s*)?([0-7])?\s*[-,(/]?\s*(.*?)\)?", words)
    number = int(match.group(1)) if match and match.group(1) else None
    name = match.group(2) if match else words
    named = _find_numbers(name) if name else ()
    if number is None and len(named) == 1:
        number = named[0]
    if number is None or (name and number not in named):
        raise UnreadError(
            f'"{text.strip()}" is not a yarn weight',
            "one of " + ", ".join(f"{key} {entry['name']}" for key, entry in table.items()),
            _suggest_weight(number, named),
        )
    return number, str(table[number]["name"])


def _find_numbers(name: str) -> tuple[int, ...]:
    """The weights that go by a name; a shop's name may stand for two neighbours."""
    table = load_table("yarn_weights")
    found = {number for number, entry in table.items() if entry["name"].lower() == name}
    if not found:
        found = {number for number, entry in table.items() if name in (word.lower() for word in entry["types"])}
    if not found and name in _SHOP_NAMES:
        found = {_SHOP_NAMES[name]}
    return tuple(sorted(found))


def _suggest_weight(number: int | None, named: tuple[int, ...]) -> str:
    table = load_table("yarn_weights")
    choices = [n for n in (*named, number) if n is not None]
    return " or ".join(f'"{n} {table[n]["name"]}"' for n in dict.fromkeys(choices)) and (
        "write " + " or ".join(f'"{n} {table[n]["name"]}"' for n in dict.fromkeys(choices))
    )
