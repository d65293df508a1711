"""The front matter checked: a form that is always usable, and a finding for everything in it that is not.

A value that cannot be read is taken out and the rest is checked again, so that one mistake costs one
fact. The JSON Schema of the same form lets editors complete and check keys while they are typed.
"""

import json
import re
from dataclasses import dataclass
from difflib import get_close_matches
from pathlib import Path as FilePath
from typing import Any

from pydantic import ValidationError

from booklet.findings import Finding
from booklet.reading import forms, messages, yarn_forms
from booklet.reading.cost_forms import CostForm
from booklet.reading.form import Form
from booklet.reading.forms import SYNONYMS, FrontMatter, HouseForm, list_keys
from booklet.reading.grading_forms import ShapingForm, SizeTableForm
from booklet.reading.nodes import (
    Path,
    drop_empty,
    drop_path,
    find_key,
    find_node,
    list_paths,
    plain_values,
    rename_keys,
    rename_path,
    resolve_path,
)
from booklet.reading.order_forms import BandForm, LotForm, TableForm
from booklet.reading.style_form import StyleForm
from booklet.source import SourceFile, Span
from booklet.source.yaml_loader import YamlEntry, YamlMapping, YamlNode, YamlProblem, YamlSequence, read_yaml

SCHEMA_FILE = FilePath(__file__).with_name("front-matter.schema.json")

ORDER_PARTS: dict[str, type[Form]] = {"bands": BandForm, "patterns": LotForm, "size table": TableForm}

_ROUNDS = 4  # of checking again what is left, before whole keys are taken out
_NAMED = (
    "colours",
    "hooks",
    "numbers",
    "special stitches",
    "gauge",
    "shaping",
    "size tables",
    "swatch",
    "seams",
    "trimmings",
)  # name -> form
_TRUTHS = ("blocked", "rounds", "included")


@dataclass(frozen=True, slots=True)
class Places:
    """Where the facts stand: spans by the keys that lead to them."""

    tree: YamlMapping
    told: tuple[Span, ...] = ()  # where values were refused
    refused: frozenset[tuple[str, ...]] = frozenset()  # the keys that led to them

    def value(self, *path: str | int) -> Span:
        """The value at a path, or the nearest one around it."""
        return find_node(self.tree, path).span

    def key(self, *path: str | int) -> Span:
        """The key at a path, or the nearest one around it."""
        return find_key(self.tree, path)

    def lost(self, *path: str | int) -> bool:
        """Whether something at or below the path was refused, and so has been told."""
        around = self.value(*path)
        return any(around.start <= span.start and span.end <= around.end for span in self.told)


def read_front_matter(file: SourceFile, start: int, end: int) -> tuple[FrontMatter, Places, tuple[Finding, ...]]:
    """The facts that stand between two offsets of the file."""
    form, places, findings = read_form(FrontMatter, "a pattern", file, start, end)
    assert isinstance(form, FrontMatter)
    return form, places, findings


def read_house_form(file: SourceFile) -> tuple[HouseForm, Places, tuple[Finding, ...]]:
    """The facts of a house file."""
    form, places, findings = read_form(HouseForm, "the house file", file, 0, len(file.text))
    assert isinstance(form, HouseForm)
    return form, places, findings


def read_table_form(file: SourceFile) -> tuple[SizeTableForm, tuple[Finding, ...]]:
    """The table of sizes in a file of its own."""
    form, _, findings = read_form(SizeTableForm, "the table of sizes", file, 0, len(file.text))
    assert isinstance(form, SizeTableForm)
    return form, findings


def read_form(
    form: type[Form], called: str, file: SourceFile, start: int, end: int
) -> tuple[Form, Places, tuple[Finding, ...]]:
    """The form filled in from between two offsets of a file; `called` is what its keys belong to."""
    mapping, problems = read_yaml(file, start, end)
    tree = mapping or YamlMapping((), Span(file, start, start))
    tree, doubled = _name_keys(tree, list_keys(form))
    findings = [messages.same_key_twice(first.key.text, second.key.span, first.key.span) for first, second in doubled]
    written = drop_empty(tree)
    checked, read, mistakes = _check(form, called, written)
    findings += mistakes
    taken = {finding.span for finding in mistakes}
    findings += [messages.yaml_finding(p) for p in problems if _matters(p, tree, taken)]
    refused = list_paths(written) - list_paths(read)
    refused |= {(name,) for p in problems if p.kind == "syntax" and (name := _find_broken_key(p, start))}
    return checked, Places(read, tuple(taken), refused), tuple(findings)


def _find_broken_key(problem: YamlProblem, start: int) -> str:
    """The top-level key in whose lines the text cannot be read."""
    if problem.cause == "comma":  # read as it was meant
        return ""
    file = problem.span.file
    first = file.place(start)[0]
    for line in reversed(file.lines[first - 1 : problem.span.line]):
        head = re.match(r"(\w[\w -]*?)[ \t]*:", line)
        if head:
            name = re.sub(r"[\s_-]+", " ", head.group(1)).lower()
            return SYNONYMS.get(name, name)
    return ""


def _matters(problem: YamlProblem, tree: YamlMapping, taken: set[Span]) -> bool:
    """Whether a trap is worth telling: not where yes and no are asked for, not where an error stands."""
    if problem.kind != "trap":
        return True
    if problem.span in taken:
        return False
    for entry in tree.entries:
        if entry.value.span.start <= problem.span.start < max(entry.value.span.end, entry.value.span.start + 1):
            return entry.key.text != "counts as" and not any(
                problem.span == inner.value.span and inner.key.text in _TRUTHS for inner in _list_entries(entry.value)
            )
    return True


def _list_entries(node: YamlNode) -> list[YamlEntry]:
    if isinstance(node, YamlSequence):
        return [entry for item in node.items for entry in _list_entries(item)]
    if isinstance(node, YamlMapping):
        return [entry for e in node.entries for entry in (e, *_list_entries(e.value))]
    return []


def _name_keys(tree: YamlMapping, keys: tuple[str, ...]) -> tuple[YamlMapping, list[tuple[YamlEntry, YamlEntry]]]:
    """Synonyms resolved at the top and inside the forms below it."""
    top, doubled = rename_keys(tree, keys, SYNONYMS)
    twice = list(doubled)
    entries: list[YamlEntry] = []
    for entry in top.entries:
        value, found = _name_inner_keys(entry.key.text, entry.value)
        twice += found
        entries.append(YamlEntry(entry.key, value))
    return YamlMapping(tuple(entries), top.span), twice


def _name_inner_keys(name: str, node: YamlNode) -> tuple[YamlNode, list[tuple[YamlEntry, YamlEntry]]]:
    form = _form_at((name,))
    if form is None:
        return node, []
    keys = list_keys(form)
    if isinstance(node, YamlSequence):
        pairs = [rename_keys(i, keys, SYNONYMS) if isinstance(i, YamlMapping) else (i, ()) for i in node.items]
        return YamlSequence(tuple(p[0] for p in pairs), node.span), [d for p in pairs for d in p[1]]
    if not isinstance(node, YamlMapping):
        return node, []
    alone = name not in _NAMED or any(key in ("sts", "size") and node.entry(key) for key in keys)
    if alone:
        renamed, doubled = rename_keys(node, keys, SYNONYMS)
        return renamed, list(doubled)
    entries: list[YamlEntry] = []
    twice: list[tuple[YamlEntry, YamlEntry]] = []
    for entry in node.entries:
        value: YamlNode = entry.value
        if isinstance(value, YamlMapping):
            value, found = rename_keys(value, keys, SYNONYMS)
            twice += found
        entries.append(YamlEntry(entry.key, value))
    return YamlMapping(tuple(entries), node.span), twice


def _form_at(path: Path) -> type[Form] | None:
    """The form whose keys stand at a path of the front matter; None where names are free."""
    below: dict[str | int, type[Form]] = {
        "gauge": forms.GaugeForm,
        "yarn": yarn_forms.YarnForm,
        "colours": forms.ColourForm,
        "hooks": forms.HookForm,
        "numbers": forms.NumberForm,
        "swatch": yarn_forms.SwatchForm,
        "unravelled": yarn_forms.UnravelledForm,
        "sample": yarn_forms.SampleForm,
        "testers": yarn_forms.TesterForm,
        "seams": yarn_forms.SeamForm,
        "trimmings": yarn_forms.TrimmingForm,
        "shaping": ShapingForm,
        "size tables": SizeTableForm,
        "special stitches": forms.StitchForm,
        "images": forms.ImageForm,
        "cover": forms.ImageForm,
        "costs": CostForm,
        "style": StyleForm,
    }
    for step in reversed(path[:-1]):  # a kit order's tables stand at any depth
        if step in ORDER_PARTS:
            return ORDER_PARTS[str(step)]
    return below.get(path[0]) if path else None


def _check(form: type[Form], called: str, tree: YamlMapping) -> tuple[Form, YamlMapping, list[Finding]]:
    """The form filled in with all that can be read, its nodes, and a finding for each value that cannot.

    A misspelt key is told once and then read as the key that was meant.
    """
    findings: list[Finding] = []
    told: set[tuple[str, Span]] = set()
    for round_ in range(_ROUNDS + len(tree.entries)):
        node: YamlNode = tree
        try:
            return form.model_validate(plain_values(tree)), tree, findings
        except ValidationError as caught:
            mistakes = caught.errors(include_url=False, include_input=False)
            meant = _find_misspelt(form, mistakes, tree)
            for mistake in mistakes:
                path: Path = tuple(mistake["loc"])
                if mistake["type"] == "missing" and path in meant.values():
                    continue
                finding = _describe(form, called, mistake, tree)
                follows = round_ > 0 and any(_holds(finding.span, f.span) for f in findings)
                if (finding.code, finding.span) not in told and not follows:
                    told.add((finding.code, finding.span))
                    findings.append(finding)
                lost = path[:-1] if mistake["type"] == "missing" else path
                if path in meant:
                    node = rename_path(node, path, str(meant[path][-1]))
                else:
                    node = drop_path(node, lost if round_ < _ROUNDS else path[:1])
            assert isinstance(node, YamlMapping)
            tree = node
    return form.model_construct() if form is SizeTableForm else form(), tree, findings


def _holds(around: Span, inside: Span) -> bool:
    """A value that lacks what was taken out of it is not a second mistake."""
    return around.start <= inside.start and inside.end <= around.end


def _find_misspelt(form: type[Form], mistakes: list[Any], node: YamlNode) -> dict[Path, Path]:
    """The paths of unknown keys with the path that was meant, where one is close and not there itself."""
    meant: dict[Path, Path] = {}
    for mistake in mistakes:
        path: Path = tuple(mistake["loc"])
        if mistake["type"] != "extra_forbidden":
            continue
        keys = list_keys((len(path) > 1 and _form_at(path)) or form)
        for key in get_close_matches(str(path[-1]).lower(), keys, 1, 0.6):
            right = (*path[:-1], key)
            if resolve_path(node, right) == resolve_path(node, path[:-1]) and right not in meant.values():
                meant[path] = right
    return meant


def _describe(form: type[Form], called: str, mistake: Any, tree: YamlMapping) -> Finding:
    """The finding for one of pydantic's errors, placed at the key or value concerned."""
    path: Path = tuple(mistake["loc"])
    kind = mistake["type"]
    facts = mistake.get("ctx", {})
    if kind == "extra_forbidden":
        inner = _form_at(path) if len(path) > 1 else None
        where = _name_path(resolve_path(tree, path)[:-1]) or called
        return messages.unknown_key(str(path[-1]), where, list_keys(inner or form), find_key(tree, path))
    if kind == "missing":
        inner = _form_at(path)
        expected = inner.expected if inner else ""
        return messages.missing_key(str(path[-1]), _name_path(path[:-1]), expected, find_key(tree, path[:-1]))
    where = _name_path(resolve_path(tree, path))
    span = find_node(tree, path).span
    if "message" in facts:
        return messages.wrong_value(kind, facts["message"], where, span, facts["expected"], facts["fix"])
    expected = {
        "dict_type": "names with values, one to a line",
        "tuple_type": "a list, such as [a, b]",
        "list_type": "a list, such as [a, b]",
    }.get(kind, "a value that fits the key")
    return messages.wrong_value("wrong-value", "the value cannot be read", where, span, expected, "")


def _name_path(path: Path) -> str:
    """`sizes, Lap, width` from the keys that lead to a value; list positions are left out."""
    return ", ".join(str(step) for step in path if not str(step).isdigit())


def front_matter_schema() -> dict[str, Any]:
    """The JSON Schema of the front matter, with its short forms and synonyms, for editors."""
    schema = FrontMatter.model_json_schema()
    schema["$schema"] = "https://json-schema.org/draft/2020-12/schema"
    schema["title"] = "Front matter of a crochet pattern"
    short: dict[str, list[dict[str, Any]]] = {
        "GaugeForm": [{"type": "string"}],
        "ColourForm": [{"type": "string"}],
        "HookForm": [{"type": "string"}],
        "NumberForm": [{"type": ["string", "integer", "array"]}],
        "StitchForm": [{"type": "string"}],
        "ImageForm": [{"type": "string"}],
        "SeamForm": [{"type": ["string", "array"]}],
        "SizeForm": [{"type": ["string", "null"]}],
        "SizeTableForm": [{"type": "string"}],
    }
    for name, short_forms in short.items():
        full = schema["$defs"][name]
        schema["$defs"][name] = {"description": full.pop("description", ""), "anyOf": [*short_forms, full]}
    alone = {
        "gauge": "GaugeForm",
        "hooks": "HookForm",
        "images": "ImageForm",
        "testers": "TesterForm",
        "swatch": "SwatchForm",
    }
    properties = schema["properties"]
    for key, name in alone.items():
        value = properties[key]
        about = {word: value.pop(word) for word in ("description", "title", "default") if word in value}
        several = [value] + ([{"type": "array", "items": {"$ref": f"#/$defs/{name}"}}] if key == "hooks" else [])
        properties[key] = about | {"anyOf": [{"$ref": f"#/$defs/{name}"}, *several]}
    sizes = properties["sizes"]
    about = {word: sizes.pop(word) for word in ("description", "title", "default") if word in sizes}
    properties["sizes"] = about | {"anyOf": [sizes, {"type": ["string", "array"]}]}
    for key in ("paper", "editions"):
        properties[key]["type"] = ["array", "string"]
    for name in ("SampleForm", "TesterForm"):
        used = schema["$defs"][name]["properties"]["used"]
        schema["$defs"][name]["properties"]["used"] = {"anyOf": [{"type": "string"}, used]}
    _add_synonyms(properties)
    for full in schema["$defs"].values():
        for keyed in (full, *full.get("anyOf", ())):
            _add_synonyms(keyed.get("properties", {}))
    schema["required"] = ["title"]
    return schema


def _add_synonyms(properties: dict[str, Any]) -> None:
    """The other words for each key; defaults are left out, as they are not written the way an author does."""
    for value in properties.values():
        value.pop("default", None)
    for word, key in SYNONYMS.items():
        if key in properties and word not in properties:
            properties[word] = {**properties[key], "description": f"The same as {key}."}


def write_schema(path: FilePath = SCHEMA_FILE) -> None:
    """Write the JSON Schema to a file."""
    path.write_text(json.dumps(front_matter_schema(), indent=2, ensure_ascii=False) + "\n", encoding="utf-8")
