"""A teaching sample written as a source of its own, which is read and proved like any other.

Rows keep their author's words, with the sample's numbers in place of names in braces. Only a row that holds a
list of sizes, or is for some sizes alone, is printed anew from its tree. Facts of the front matter are taken
over as they stand; those about sizes, the finished sample and its pictures are left out.
"""

import json
import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import fields, replace

from booklet.amounts.figures import print_number
from booklet.answers.samples import Sample
from booklet.model.parsed import Row, Stated
from booklet.model.pattern import Part, Pattern, Prose, RowLine
from booklet.model.tree import Node, Where
from booklet.reading.document import read_document
from booklet.reading.forms import SYNONYMS
from booklet.rows.parts import pattern_vocabulary
from booklet.rows.print import print_row
from booklet.rows.row import parse_row
from booklet.rows.tokens import Numbers
from booklet.rows.vocabulary import Vocabulary
from booklet.sizing.formula import FormulaError, evaluate_formula
from booklet.source import SourceFile
from booklet.source.yaml_loader import read_yaml

KEPT = (
    "designer", "for", "kind", "construction", "level", "terms", "date", "licence", "contact", "website", "errata",
    "gauge", "yarn", "colours", "hooks", "notions", "swatch", "unravelled", "tails", "inch", "special stitches",
    "abbreviations", "counts as", "care", "has", "theme",
)  # fmt: skip
IN_BRACES = re.compile(r"\{([^{}\n]{1,200})\}")
COUNTED_FIELDS = ("count", "times", "leave")


def write_sample(sample: Sample, summary: str) -> str:
    """The text of the source; `summary` is what its cover says."""
    pattern = sample.full.pattern
    front = "".join(_write_front(pattern, summary))
    body = "\n\n".join(block for part in pattern.parts for block in _write_part(part, sample))
    return f"---\n{front}---\n\n{body}\n"


def _write_front(pattern: Pattern, summary: str) -> Iterator[str]:
    yield f"title: {_quote(f'{pattern.title}: teaching sample')}\n"
    yield f"summary: {_quote(summary)}\n"
    yield from _keep_facts(pattern.source)
    yield f"margin: {print_number(pattern.margin * 100)} %\n"
    yield f"units: {pattern.units_first} first\n"
    yield f"paper: [{', '.join(pattern.papers)}]\n"


def _quote(text: str) -> str:
    """The text in double quotes; what JSON writes, YAML reads."""
    return json.dumps(text, ensure_ascii=False)


def _keep_facts(source: SourceFile) -> Iterator[str]:
    """The lines of the facts that hold for the sample too, as their author wrote them."""
    document, _ = read_document(source)
    tree, _ = read_yaml(source, document.front_start, document.front_end)
    entries = tree.entries if tree else ()
    ends = [*(entry.key.span.start for entry in entries[1:]), document.front_end]
    for entry, end in zip(entries, ends, strict=True):
        name = re.sub(r"[\s_-]+", " ", entry.key.text.strip()).lower()
        if SYNONYMS.get(name, name) in KEPT:
            text = source.text[entry.key.span.start : end].rstrip()
            yield f"{text.removesuffix('---').rstrip()}\n"


def _write_part(part: Part, sample: Sample) -> Iterator[str]:
    values = {name: float(number.values[0]) for name, number in sample.trial.parsed.sized.numbers.items()}
    writer = _RowWriter(sample, values)
    if part.title:
        make = f" (make {part.make})" if part.make > 1 else ""
        yield f"{'#' * part.level} {part.title}{make}"
    for block in part.blocks:
        if isinstance(block, Prose):
            if words := block.text.strip():
                yield fill_braces(words, values)
        elif (text := writer.write(block)) is not None:
            yield text


class _RowWriter:
    """Writes lines of rows for the sample's size."""

    def __init__(self, sample: Sample, values: Mapping[str, float]) -> None:
        self.pattern = sample.full.pattern
        self.values, self.retyped = values, sample.retyped
        self.rows = [row for part in sample.trial.parsed.parts for row in part.rows]
        self.counts = {row.span.start: row.stated for part in sample.full.parsed.parts for row in part.rows}
        self.others = {row.span.start for part in sample.full.parsed.parts for row in part.rows}
        self.others -= {row.span.start for row in self.rows}
        self.vocabulary: Vocabulary = pattern_vocabulary(self.pattern)

    def write(self, line: RowLine) -> str | None:
        """The line; None where it is for other sizes."""
        rows = [row for row in self.rows if line.span.start <= row.span.start < line.span.end]
        if not rows and any(line.span.start <= start < line.span.end for start in self.others):
            return None
        if any(row.label.sizes for row in rows):
            return self._print(rows)
        text = fill_braces(self._retype(line, rows) or "", self.values)
        return self._print(rows) if rows and (not text or self._holds_list(text)) else text

    def _retype(self, line: RowLine, rows: Sequence[Row]) -> str | None:
        """The author's line with its typed number and its count changed; None where they cannot be told apart."""
        changed = [row for row in rows if row.span.start in self.retyped]
        if not changed:
            return line.text
        if len(rows) > 1 or line.text != line.span.text:
            return None
        row, stated = rows[0], self.counts.get(rows[0].span.start)
        text, count = line.text, ""
        if stated is not None:
            at = stated.span.start - line.span.start
            count = text[at:] if row.stated == stated else self._state(row)
            text = text[:at]
        old, new = self.retyped[row.span.start]
        if old:
            text, number = re.subn(rf"(?<!\d){old}(?!\d)", str(new), text)
            if number != 1:
                return None
        return text + count

    def _state(self, row: Row) -> str:
        return print_row(replace(row, steps=()), self.pattern.terms, 0, self.pattern.terms).count

    def _print(self, rows: Sequence[Row]) -> str:
        terms = self.pattern.terms
        plain = (replace(row, label=replace(row.label, sizes=())) for row in rows)
        return " ".join(print_row(row, terms, 0, terms).text for row in plain)

    def _holds_list(self, text: str) -> bool:
        """Does the line, its names filled in, still give one number for each size?"""
        span = SourceFile("sample.md", text).span(0, len(text))
        row, _, _ = parse_row(
            RowLine(text, span),
            self.vocabulary,
            Numbers({}, len(self.pattern.size_names), names=self.pattern.size_names),
        )
        return any(_list_lists(row))


def _list_lists(value: object) -> Iterator[bool]:
    """True for every number of the row that differs from size to size."""
    if isinstance(value, tuple):
        for inner in value:
            yield from _list_lists(inner)
    elif isinstance(value, Stated):
        yield any(len(count) > 1 for count, _ in value.items)
    elif isinstance(value, Row):
        yield from _list_lists((value.steps, value.stated))
    elif isinstance(value, Node | Where):
        for field in fields(value):
            inner = getattr(value, field.name)
            if field.name in COUNTED_FIELDS:
                yield isinstance(inner, tuple) and len(inner) > 1
            else:
                yield from _list_lists(inner)


def fill_braces(text: str, values: Mapping[str, float]) -> str:
    """Names and formulas in braces as their values; what has none stays as it stands."""

    def fill(found: re.Match[str]) -> str:
        try:
            return print_number(evaluate_formula(found[1], values))
        except FormulaError:
            return found[0]

    return IN_BRACES.sub(fill, text)
