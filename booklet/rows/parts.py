"""A sized pattern's rows, all read: the pass from prose to trees."""

import re

from booklet.findings import Finding
from booklet.model.pattern import Part, Pattern, SizedPattern
from booklet.model.tree import ParsedPart, ParsedPattern, Row
from booklet.rows.numbering import check_numbering
from booklet.rows.row import parse_row
from booklet.rows.rules import read_chain_rules, read_definitions
from booklet.rows.tokens import Numbers, Token
from booklet.rows.vocabulary import Vocabulary, build_vocabulary


def parse_pattern(sized: SizedPattern) -> tuple[ParsedPattern, tuple[Finding, ...]]:
    """Every row of every piece as a tree, with the rules that the prose gives."""
    pattern = sized.pattern
    vocabulary = pattern_vocabulary(pattern)
    numbers = Numbers({name: n.values for name, n in sized.numbers.items()}, len(pattern.size_names))
    findings: list[Finding] = []
    used: dict[str, None] = {}
    parts = []
    for part in pattern.parts:
        parsed, found = _parse_part(part, vocabulary, numbers, used)
        findings.extend(found)
        if parsed.rows:
            parts.append(parsed)
    for piece in parts:
        findings.extend(check_numbering(piece.rows))
    rules = read_chain_rules(pattern, vocabulary)
    definitions = read_definitions(pattern, vocabulary, numbers)
    return ParsedPattern(sized, tuple(parts), tuple(rules), tuple(definitions), tuple(used)), tuple(findings)


def pattern_vocabulary(pattern: Pattern) -> Vocabulary:
    """The words of the pattern's terms, its own stitches and its colour letters."""
    own = {name for special in pattern.special_stitches for name in (special.abbreviation or special.name,) if name}
    known = build_vocabulary(pattern.terms)
    fresh = tuple(sorted(name for name in own | set(pattern.abbreviations) if known.look_up(name.lower()) is None))
    letters = tuple(sorted({colour.letter for colour in pattern.colours} | _letters_in(pattern)))
    return build_vocabulary(pattern.terms, fresh, letters)


def _letters_in(pattern: Pattern) -> set[str]:
    """Colour letters that the rows use without a list of colours: "With B", "change to C", "MC"."""
    if pattern.colours:
        return set()
    found: set[str] = set()
    for part in pattern.parts:
        for line in part.rows:
            found.update(re.findall(r"\b(?:[Ww]ith|[Jj]oin|to|in|using|color|colour|yarn)\s+([A-Z]|MC|CC\d?)\b(?!-)", line.text))
    return found


def _parse_part(
    part: Part, vocabulary: Vocabulary, numbers: Numbers, used: dict[str, None]
) -> tuple[ParsedPart, list[Finding]]:
    rows: list[Row] = []
    findings: list[Finding] = []
    for line in part.rows:
        row, tokens, found = parse_row(line, vocabulary, numbers)
        rows.append(row)
        findings.extend(found)
        for token in tokens:
            _note_term(token, line.span.text, used)
    return ParsedPart(part.title, part.make, tuple(rows), part.span), findings


def _note_term(token: Token, text: str, used: dict[str, None]) -> None:
    """Stitches by their US name, other words of the trade by the parser's name for them."""
    if token.kind == "st":
        used.setdefault(str(token.value))
    elif token.kind in ("chsp", "chn"):
        used.setdefault("ch-sp")
    elif token.kind == "w":
        used.setdefault(str(token.value))
