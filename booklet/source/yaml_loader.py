"""YAML read into nodes that know their place, bounded in size and depth.

Every scalar keeps the text its author typed: YAML's own guesses (`no` as false, `12:30` as 750,
`010` as 8, `1.10` as 1.1) change what a pattern says, so none is made here. Aliases and tags are
refused. Mistakes come back as `YamlProblem` facts; whoever reads the nodes puts them into words.

Where the text as a whole is broken, each top-level key is read alone, so that one broken line
costs one key.
"""

import re
from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import TypeAlias

import yaml

from booklet.source.files import SourceFile, Span

MAX_CHARACTERS = 100_000
MAX_NODES = 5_000
MAX_DEPTH = 32

# What YAML 1.1 readers turn into something that is not the text. Dates are left out: as text they
# mean what they say.
TRAPS = (
    ("true or false", re.compile(r"(?:yes|no|on|off)", re.IGNORECASE)),
    ("a time in seconds", re.compile(r"[-+]?\d+(?::[0-5]?\d)+(?:\.\d*)?")),
    ("a number to the base 8", re.compile(r"[-+]?0o?[0-7_]+")),
    ("a number to the base 16", re.compile(r"[-+]?0x[0-9a-fA-F_]+")),
    ("a number to the base 2", re.compile(r"[-+]?0b[01_]+")),
    ("a number without its underscores", re.compile(r"[-+]?\d[\d_]*_[\d_]*(?:\.\d*)?")),
    ("a power of ten", re.compile(r"[-+]?\d+(?:\.\d*)?[eE][-+]?\d+")),
)
_NULL = frozenset(("", "~", "null", "Null", "NULL"))
_WHOLE = re.compile(r"-?(?:0|[1-9]\d{0,8})")
_DECIMAL = re.compile(r"-?\d{1,9}\.\d{1,9}")
_TOP_KEY = re.compile(r"^[^\s#\-\[\]{},&*!|>%@`].*$", re.MULTILINE)
_BARE_SHADE = re.compile(r"(?<=[ \t])#(?=(?:[0-9a-fA-F]{6}|[0-9a-fA-F]{3})(?:[\s,}\])]|$))")
_HASH = "\ue000"  # stands for a "#" that would begin a comment where a shade was meant


@dataclass(frozen=True, slots=True)
class YamlScalar:
    """One value as typed; `plain` tells that it stands without quotes."""

    text: str
    span: Span
    plain: bool = True

    @property
    def is_empty(self) -> bool:
        """Nothing was given: no text, `~` or `null`, unquoted."""
        return self.plain and self.text in _NULL

    @property
    def value(self) -> str | int | float | bool | None:
        """The text, or the number, truth value or nothing that it plainly is."""
        if not self.plain:
            return self.text
        if self.is_empty:
            return None
        if self.text in ("true", "false"):
            return self.text == "true"
        if _WHOLE.fullmatch(self.text):
            return int(self.text)
        return float(self.text) if _DECIMAL.fullmatch(self.text) else self.text


@dataclass(frozen=True, slots=True)
class YamlSequence:
    """A list."""

    items: tuple["YamlNode", ...]
    span: Span


@dataclass(frozen=True, slots=True)
class YamlEntry:
    """A key and its value."""

    key: YamlScalar
    value: "YamlNode"


@dataclass(frozen=True, slots=True)
class YamlMapping:
    """Keys with values, in the order written; each key stands once."""

    entries: tuple[YamlEntry, ...]
    span: Span

    def entry(self, key: str) -> YamlEntry | None:
        return next((entry for entry in self.entries if entry.key.text == key), None)


YamlNode: TypeAlias = YamlScalar | YamlSequence | YamlMapping


@dataclass(frozen=True, slots=True)
class YamlProblem:
    """One mistake as a fact.

    `kind` is "syntax", "duplicate", "trap" or "comment". `cause` says which mistake in syntax it
    is, or what a trap is taken for elsewhere. `other` is a second place that explains the first.
    """

    kind: str
    span: Span
    cause: str = ""
    text: str = ""
    other: Span | None = None


def read_yaml(
    file: SourceFile, start: int = 0, end: int | None = None
) -> tuple[YamlMapping | None, tuple[YamlProblem, ...]]:
    """The mapping that stands in a stretch of the file, None where nothing of it can be read."""
    end = len(file.text) if end is None else end
    if end - start > MAX_CHARACTERS:
        return None, (YamlProblem("syntax", file.span(start), "too long", str(MAX_CHARACTERS)),)
    mapping, problems = _Reader(file, start, end).read()
    if mapping is not None:
        return mapping, problems
    return _read_keys_alone(file, start, end) or (None, problems)


def _read_keys_alone(file: SourceFile, start: int, end: int) -> tuple[YamlMapping, tuple[YamlProblem, ...]] | None:
    """Each top-level key read by itself; None where that does not bring the mistake to light."""
    heads = [start + match.start() for match in _TOP_KEY.finditer(file.text[start:end])]
    if not heads:
        return None
    entries: list[YamlEntry] = []
    problems: list[YamlProblem] = []
    for head, after in zip(heads, [*heads[1:], end], strict=True):
        mapping, found = _Reader(file, head, after).read()
        problems.extend(found)
        for entry in mapping.entries if mapping else ():
            first = next((e for e in entries if e.key.text == entry.key.text), None)
            if first is None:
                entries.append(entry)
            else:
                problems.append(YamlProblem("duplicate", entry.key.span, other=first.key.span, text=entry.key.text))
    if not any(problem.kind == "syntax" for problem in problems):
        return None
    return YamlMapping(tuple(entries), Span(file, start, end)), tuple(problems)


class _StopError(Exception):
    """Reading cannot go on; carries the problem."""

    def __init__(self, problem: YamlProblem) -> None:
        super().__init__(problem.cause)
        self.problem = problem


class _Reader:
    """Builds nodes from the events of one stretch of YAML."""

    def __init__(self, file: SourceFile, start: int, end: int) -> None:
        self.file = file
        self.start = start
        self.end = end
        self.nodes = 0
        self.problems: list[YamlProblem] = []
        self.open: list[int] = []  # offsets of the brackets that are still open

    def read(self) -> tuple[YamlMapping | None, tuple[YamlProblem, ...]]:
        try:
            return self._read_document(), tuple(self.problems)
        except _StopError as stop:
            return None, (*self.problems, stop.problem)
        except yaml.MarkedYAMLError as mistake:
            return None, (*self.problems, self._describe_mistake(mistake))
        except yaml.reader.ReaderError as mistake:
            place = self._place(mistake.position, mistake.position + 1)
            shown = f"U+{mistake.character:04X}" if isinstance(mistake.character, int) else "?"
            return None, (YamlProblem("syntax", place, "character", shown),)

    def _place(self, start: int, end: int) -> Span:
        """A span from offsets in the stretch, kept inside it."""
        first = min(self.start + start, self.end)
        return Span(self.file, first, max(first, min(self.start + end, self.end)))

    def _read_document(self) -> YamlMapping | None:
        text = self.file.text[self.start : self.end]
        if _HASH not in text:
            text = _BARE_SHADE.sub(_keep_shade, text)
        loader = yaml.SafeLoader(text)
        try:
            loader.get_event()  # the start of the stream
            if loader.check_event(yaml.StreamEndEvent):
                return YamlMapping((), Span(self.file, self.start, self.start))
            loader.get_event()  # the start of the document
            node = self._read_node(loader, 0)
            loader.get_event()
            if not loader.check_event(yaml.StreamEndEvent):
                mark = loader.peek_event().start_mark.index
                self._stop("second document", mark, mark + 3)
        finally:
            loader.dispose()
        if isinstance(node, YamlScalar) and node.is_empty:
            return YamlMapping((), node.span)
        if not isinstance(node, YamlMapping):
            raise _StopError(YamlProblem("syntax", node.span, "no keys"))
        return node

    def _stop(self, cause: str, start: int, end: int, text: str = "") -> None:
        raise _StopError(YamlProblem("syntax", self._place(start, end), cause, text))

    def _read_node(self, loader: yaml.SafeLoader, depth: int) -> YamlNode:
        event = loader.get_event()
        first, last = event.start_mark.index, event.end_mark.index
        self.nodes += 1
        if depth > MAX_DEPTH:
            self._stop("too deep", first, last, str(MAX_DEPTH))
        if self.nodes > MAX_NODES:
            self._stop("too many values", first, last, str(MAX_NODES))
        if isinstance(event, yaml.AliasEvent):
            self._stop("alias", first, last, self._place(first, last).text)
        if getattr(event, "tag", None) is not None:
            self._stop("tag", first, last, str(event.tag))
        if isinstance(event, yaml.ScalarEvent):
            return self._read_scalar(event, self._place(first, last))
        if isinstance(event, yaml.SequenceStartEvent):
            return self._read_sequence(loader, depth, first, last)
        return self._read_mapping(loader, depth, first, last)

    def _read_scalar(self, event: yaml.ScalarEvent, place: Span) -> YamlScalar:
        if event.style is None and _HASH in event.value:
            shade = place.text.index("#")
            self.problems.append(YamlProblem("comment", place.sub(shade, len(place.text)), text=place.text))
        return YamlScalar(event.value.replace(_HASH, "#"), place, event.style is None)

    def _read_sequence(self, loader: yaml.SafeLoader, depth: int, first: int, last: int) -> YamlSequence:
        items: list[YamlNode] = []
        self._open_bracket(first)
        while not loader.check_event(yaml.SequenceEndEvent):
            item = self._read_node(loader, depth + 1)
            items.append(item)
            self._look_for_traps(item)
        closing = loader.get_event().end_mark.index
        end = items[-1].span.end - self.start if items else last
        span = self._closed(first, end, closing)
        return YamlSequence(self._join_items(items) if span.text[:1] == "[" else tuple(items), span)

    def _read_mapping(self, loader: yaml.SafeLoader, depth: int, first: int, last: int) -> YamlMapping:
        entries: list[YamlEntry] = []
        seen: dict[str, Span] = {}
        self._open_bracket(first)
        while not loader.check_event(yaml.MappingEndEvent):
            key = self._read_node(loader, depth + 1)
            if not isinstance(key, YamlScalar):
                raise _StopError(YamlProblem("syntax", key.span, "key"))
            value = self._read_node(loader, depth + 1)
            if self._is_rest(key, value, entries):
                entries[-1] = YamlEntry(entries[-1].key, self._join_values(entries[-1].value, key))
                continue
            self._look_for_traps(value)
            if key.text in seen:
                self.problems.append(YamlProblem("duplicate", key.span, other=seen[key.text], text=key.text))
                continue
            seen[key.text] = key.span
            entries.append(YamlEntry(key, value))
        closing = loader.get_event().end_mark.index
        end = entries[-1].value.span.end - self.start if entries else last
        return YamlMapping(tuple(entries), self._closed(first, end, closing))

    def _open_bracket(self, first: int) -> None:
        if self.file.text[self.start + first : self.start + first + 1] in ("[", "{"):
            self.open.append(first)

    def _is_rest(self, key: YamlScalar, value: YamlNode, entries: list[YamlEntry]) -> bool:
        """Whether a key is really the rest of the value before it, cut off by a comma inside { }.

        `{start: 77 (83, 89)}` gives the key `89)`, which has no colon behind it.
        """
        if not entries or not key.plain or not (isinstance(value, YamlScalar) and value.is_empty):
            return False
        before = entries[-1].value
        has_colon = self.file.text[key.span.end : self.end].lstrip().startswith(":")
        return not has_colon and isinstance(before, YamlScalar) and before.plain and not before.is_empty

    def _join_items(self, items: list[YamlNode]) -> tuple[YamlNode, ...]:
        """Items of [ ] with those joined again that a comma inside round brackets has cut: `[77 (83, 89)]`."""
        joined: list[YamlNode] = []
        for item in items:
            before = joined[-1] if joined else None
            if isinstance(item, YamlScalar) and isinstance(before, YamlScalar) and item.plain and _is_cut(before):
                joined[-1] = self._join_values(before, item)
            else:
                joined.append(item)
        return tuple(joined)

    def _join_values(self, value: YamlNode, rest: YamlScalar) -> YamlScalar:
        span = value.span.to(rest.span)
        text = " ".join(span.text.split())
        self.problems = [p for p in self.problems if p.cause != "comma" or p.span.start != span.start]
        self.problems.append(YamlProblem("syntax", span, "comma", text))
        return YamlScalar(text, span)

    def _closed(self, first: int, end: int, closing: int) -> Span:
        """Up to the closing bracket of a flow collection, or the end of the last value of a block one."""
        if self.open and self.open[-1] == first:
            end = closing
            self.open.pop()
        return self._place(first, max(first, end))

    def _look_for_traps(self, node: YamlNode) -> None:
        if not isinstance(node, YamlScalar) or not node.plain:
            return
        if node.is_empty:
            # `care: #1` gives no value: the rest of the line is a comment.
            rest = self.file.text[node.span.end : self.end].split("\n", 1)[0]
            comment = re.match(r"[ \t]+(#\S+)", rest)
            if comment:
                place = node.span.sub(comment.start(1), comment.end(1))
                self.problems.append(YamlProblem("comment", place, text=comment.group(1)))
            return
        for taken_for, form in TRAPS:
            if form.fullmatch(node.text) and node.text != "0":
                self.problems.append(YamlProblem("trap", node.span, taken_for, node.text))
                return

    def _describe_mistake(self, mistake: yaml.MarkedYAMLError) -> YamlProblem:
        """The problem behind one of the library's errors, placed where the author has to edit."""
        cause = _name_cause(mistake.problem or "", mistake.context or "")
        problem = mistake.problem_mark.index if mistake.problem_mark else 0
        context = mistake.context_mark.index if mistake.context_mark else problem
        if cause in ("quote not closed", "bracket not closed", "colon missing"):
            opening = self._place(context, context + 1)
            if cause == "bracket not closed" and self.open:
                opening = self._place(self.open[-1], self.open[-1] + 1)
            if cause == "colon missing":
                opening = self._rest_of_line(context)
            return YamlProblem("syntax", opening, cause, opening.text, self._place(problem, problem))
        place = self._place(problem, problem + 1)
        if cause in ("indent", "colon in value"):
            place = self._rest_of_line(problem)
        return YamlProblem("syntax", place, cause, place.text if cause != "other" else mistake.problem or "")

    def _rest_of_line(self, index: int) -> Span:
        begin = self.start + index
        line_end = self.file.text.find("\n", begin)
        stop = line_end if 0 <= line_end <= self.end else self.end
        text = self.file.text[begin:stop].rstrip()
        return Span(self.file, begin, begin + max(1, len(text)))


def _keep_shade(match: re.Match[str]) -> str:
    """`shade: #5b6b3a` would lose its value to a comment; a real comment has no text before it, or a space after #."""
    before = match.string[match.string.rfind("\n", 0, match.start()) + 1 : match.start()]
    return _HASH if before.strip() and " #" not in f" {before.lstrip()}" else "#"


def _is_cut(value: YamlScalar) -> bool:
    return value.plain and value.text.count("(") > value.text.count(")")


_CAUSES = (
    ("cannot start any token", "start"),
    ("mapping values are not allowed", "colon in value"),
    ("could not find expected ':'", "colon missing"),
    ("unexpected end of stream", "quote not closed"),
    ("unexpected document separator", "quote not closed"),
    ("expected ',' or", "bracket not closed"),
    ("unknown escape character", "backslash"),
    ("expected <block end>", "indent"),
    ("sequence entries are not allowed", "indent"),
    ("expected alphabetic or numeric", "start"),
)


def _name_cause(problem: str, context: str) -> str:
    if "'\\t'" in problem:
        return "tab"
    if "flow" in context and ("expected the node content" in problem or "did not find" in problem):
        return "bracket not closed"
    return next((cause for words, cause in _CAUSES if words in problem), "other")


def walk_nodes(node: YamlNode, path: tuple[str | int, ...] = ()) -> Iterator[tuple[tuple[str | int, ...], YamlNode]]:
    """Every node with the keys and positions that lead to it, the node itself first."""
    yield path, node
    if isinstance(node, YamlMapping):
        for entry in node.entries:
            yield from walk_nodes(entry.value, (*path, entry.key.text))
    elif isinstance(node, YamlSequence):
        for at, item in enumerate(node.items):
            yield from walk_nodes(item, (*path, at))


def rename_key(entry: YamlEntry, name: str) -> YamlEntry:
    """The entry under another key, its places unchanged."""
    return replace(entry, key=replace(entry.key, text=name))
