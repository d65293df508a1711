"""The front matter's nodes: as plain values to check, with places to point at."""

import re
from collections.abc import Collection, Mapping
from dataclasses import replace

from booklet.source import Span
from booklet.source.yaml_loader import YamlEntry, YamlMapping, YamlNode, YamlScalar, YamlSequence, rename_key

Path = tuple[str | int, ...]


def plain_values(node: YamlNode) -> object:
    """Dicts, lists and texts; None where nothing is given."""
    if isinstance(node, YamlMapping):
        return {entry.key.text: plain_values(entry.value) for entry in node.entries}
    if isinstance(node, YamlSequence):
        return [plain_values(item) for item in node.items]
    return None if node.is_empty else node.text


def resolve_path(node: YamlNode, path: Path) -> Path:
    """The steps of a path that exist. Steps that only the full form of a value has are passed over."""
    found: list[str | int] = []
    for step in path:
        child = _child(node, step)
        if child is not None:
            found.append(step)
            node = child
    return tuple(found)


def find_node(node: YamlNode, path: Path) -> YamlNode:
    """The node at the steps of a path that exist."""
    for step in path:
        child = _child(node, step)
        node = node if child is None else child
    return node


def find_key(node: YamlNode, path: Path) -> Span:
    """The place of the key that a path ends in; of the value itself inside a list."""
    found = resolve_path(node, path)
    parent = find_node(node, found[:-1])
    entry = parent.entry(str(found[-1])) if found and isinstance(parent, YamlMapping) else None
    return find_node(node, path).span if entry is None else entry.key.span


def drop_path(node: YamlNode, path: Path) -> YamlNode:
    """The tree without the deepest node that a path leads to; the root itself stays."""
    found = resolve_path(node, path)
    return _drop(node, found) if found else node


def rename_path(node: YamlNode, path: Path, name: str) -> YamlNode:
    """The tree with the key that a path ends in under another name; as it is where what it stood in was taken out."""
    found = resolve_path(node, path)
    if not found:
        return node
    *above, last = found
    return _rename(node, tuple(above), str(last), name)


def rename_keys(
    mapping: YamlMapping, keys: Collection[str], synonyms: Mapping[str, str]
) -> tuple[YamlMapping, tuple[tuple[YamlEntry, YamlEntry], ...]]:
    """Keys under their one name, whatever their case, hyphens and synonyms.

    Also the pairs of entries that turn out to be the same key; the second of each is left out.
    """
    kept: dict[str, YamlEntry] = {}
    doubled: list[tuple[YamlEntry, YamlEntry]] = []
    for entry in mapping.entries:
        name = re.sub(r"[\s_-]+", " ", entry.key.text.strip()).lower()
        name = name if name in keys else synonyms.get(name, "")
        name = name if name in keys else entry.key.text
        if name in kept:
            doubled.append((kept[name], entry))
        else:
            kept[name] = rename_key(entry, name)
    return replace(mapping, entries=tuple(kept.values())), tuple(doubled)


def _child(node: YamlNode, step: str | int) -> YamlNode | None:
    if isinstance(node, YamlMapping):
        entry = node.entry(str(step))
        return entry.value if entry else None
    if isinstance(node, YamlSequence) and str(step).isdigit() and int(step) < len(node.items):
        return node.items[int(step)]
    return None


def _drop(node: YamlNode, path: Path) -> YamlNode:
    step, rest = path[0], path[1:]
    if isinstance(node, YamlMapping):
        entries = [
            replace(entry, value=_drop(entry.value, rest)) if rest and entry.key.text == step else entry
            for entry in node.entries
            if rest or entry.key.text != step
        ]
        return replace(node, entries=tuple(entries))
    if isinstance(node, YamlSequence):
        items = [
            _drop(item, rest) if rest and at == int(step) else item
            for at, item in enumerate(node.items)
            if rest or at != int(step)
        ]
        return replace(node, items=tuple(items))
    return node


def _rename(node: YamlNode, above: Path, last: str, name: str) -> YamlNode:
    if isinstance(node, YamlMapping):
        entries = []
        for entry in node.entries:
            if above and entry.key.text == str(above[0]):
                entry = replace(entry, value=_rename(entry.value, above[1:], last, name))
            elif not above and entry.key.text == last:
                entry = rename_key(entry, name)
            entries.append(entry)
        return replace(node, entries=tuple(entries))
    if isinstance(node, YamlSequence) and above:
        items = (
            _rename(item, above[1:], last, name) if at == int(above[0]) else item for at, item in enumerate(node.items)
        )
        return replace(node, items=tuple(items))
    return node


def list_paths(node: YamlNode, above: tuple[str, ...] = ()) -> frozenset[tuple[str, ...]]:
    """The keys that lead to every value, down to the third level; lists are not entered."""
    if not isinstance(node, YamlMapping) or len(above) == 3:
        return frozenset()
    paths = {(*above, entry.key.text) for entry in node.entries}
    return frozenset(paths).union(*(list_paths(entry.value, (*above, entry.key.text)) for entry in node.entries))


def drop_empty(mapping: YamlMapping, keep: Collection[str] = ()) -> YamlMapping:
    """Without the keys that have nothing behind them: a blank form is filled in bit by bit."""
    entries = tuple(
        entry
        for entry in mapping.entries
        if entry.key.text in keep or not (isinstance(entry.value, YamlScalar) and entry.value.is_empty)
    )
    return replace(mapping, entries=entries)
