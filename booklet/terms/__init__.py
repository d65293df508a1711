"""The trade's vocabulary as data: one YAML file a table, each entry with its source and how far it is trusted.

`trust` is one of seen (read in the source named), secondary (read in a page that repeats it), memory
(not seen; check before relying on it) and computed (worked out from the entries named).
"""

from collections.abc import Mapping
from functools import cache
from importlib.resources import files
from types import MappingProxyType
from typing import Any, cast

import yaml

__all__ = ["load_table", "load_words"]


@cache
def load_table(name: str) -> Mapping[Any, Any]:
    """A table by its file name without ending, such as "hooks"; read once, frozen all the way down.

    Raises FileNotFoundError where there is no such table.
    """
    text = (files("booklet.terms") / f"{name}.yaml").read_text(encoding="utf-8")
    # The package's own files, never an author's.
    return cast(Mapping[Any, Any], freeze_tree(yaml.load(text, Loader=yaml.CSafeLoader)))


@cache
def load_words(name: str) -> frozenset[str]:
    """A plain list of words, one or several to a line; lines that start with "#" are left out."""
    text = (files("booklet.terms") / f"{name}.txt").read_text(encoding="utf-8")
    return frozenset(word for line in text.splitlines() if not line.startswith("#") for word in line.split())


def freeze_tree(tree: object) -> object:
    """The same tree with read-only mappings and tuples in place of dicts and lists."""
    if isinstance(tree, dict):
        return MappingProxyType({key: freeze_tree(value) for key, value in tree.items()})
    if isinstance(tree, list):
        return tuple(freeze_tree(value) for value in tree)
    return tree
