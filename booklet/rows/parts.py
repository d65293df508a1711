"""A sized pattern's rows, all read: the pass from prose to trees."""

import re
from dataclasses import replace
from functools import cache

from booklet.findings import Finding
from booklet.model.pattern import Part, Pattern, SizedPattern
from booklet.model.tree import (
    Aside,
    Chain,
    FastenOff,
    Group,
    Label,
    Node,
    ParsedPart,
    ParsedPattern,
    Ring,
    Row,
    TakeColour,
    Unread,
    Work,
)
from booklet.rows.numbering import check_numbering
from booklet.rows.row import parse_row
from booklet.rows.rules import read_chain_rules, read_definitions
from booklet.rows.tokens import Numbers, Token
from booklet.rows.vocabulary import Vocabulary, build_vocabulary
from booklet.terms import load_table

LETTER = re.compile(
    r"\b(?:[Ww]ith|[Jj]oin|[Cc]hang(?:e|ing) to|[Ss]witch(?:ing)? to|[Uu]sing|[Cc]olou?r|[Yy]arn)"
    r"\s+([A-Z]|MC|CC\d?)\b(?![-'])"
)


def parse_pattern(sized: SizedPattern) -> tuple[ParsedPattern, tuple[Finding, ...]]:
    """Every row of every piece as a tree, with the rules that the prose gives."""
    pattern = sized.pattern
    vocabulary = pattern_vocabulary(pattern)
    numbers = Numbers({name: n.values for name, n in sized.numbers.items()}, len(pattern.size_names))
    findings: list[Finding] = []
    used: dict[str, None] = {}
    parts: list[ParsedPart] = []
    umbrella = ParsedPart("", 1, (), pattern.source.whole())
    for part in pattern.parts:
        parsed, found = _parse_part(part, vocabulary, numbers, used)
        findings.extend(found)
        if part.level <= 2:
            umbrella = parsed
        if not parsed.rows:
            continue
        if parts and not starts_afresh(parsed):
            title = parts[-1].title
            if umbrella.title not in ("", title):
                title = pattern.kind.capitalize() or title
            parts[-1] = replace(parts[-1], title=title, rows=(*parts[-1].rows, *parsed.rows))
        else:
            parts.append(replace(parsed, title=umbrella.title or parsed.title, make=max(umbrella.make, parsed.make)))
    for piece in parts:
        findings.extend(check_numbering(piece.rows))
    rules = read_chain_rules(pattern, vocabulary)
    definitions = read_definitions(pattern, vocabulary, numbers)
    return ParsedPattern(sized, tuple(parts), tuple(rules), tuple(definitions), tuple(used)), tuple(findings)


def starts_afresh(part: ParsedPart) -> bool:
    """Does the section start a piece of its own: with a chain, a ring or foundation stitches?

    A section that does not goes on from the last row of the one before ("## Brim" after "## Crown").
    """
    for row in part.rows:
        steps = [step for step in row.steps if not isinstance(step, Aside | TakeColour | FastenOff | Unread)]
        if not steps:
            continue
        if (row.label.kind == "foundation" and row.label.name.startswith("foundation")) or is_ring_start(steps):
            return True
        first = steps[0]
        if isinstance(first, Work):
            return first.stitch in ("fsc", "fhdc", "fdc") or first.where.from_hook
        if isinstance(first, Chain):
            others = [step for step in steps if not isinstance(step, Chain)]
            return not others or (
                isinstance(others[0], Work) and (others[0].where.from_hook or others[0].stitch == "sl st")
            )
        return False
    return False


def is_ring_start(steps: list[Node]) -> bool:
    """Is a ring made, or worked into?"""
    return any(isinstance(s, Ring) or (isinstance(s, Work | Group) and s.where.how == "ring") for s in steps[:3])


def pattern_vocabulary(pattern: Pattern) -> Vocabulary:
    """The words of the pattern's terms, its own stitches and its colour letters."""
    own = {name for special in pattern.special_stitches for name in (special.abbreviation or special.name,) if name}
    known = build_vocabulary(pattern.terms)
    fresh = tuple(sorted(name for name in own | set(pattern.abbreviations) if known.look_up(name.lower()) is None))
    letters = tuple(sorted({colour.letter for colour in pattern.colours} | _letters_in(pattern)))
    return build_vocabulary(pattern.terms, fresh, letters)


def _letters_in(pattern: Pattern) -> set[str]:
    """Colour letters that the rows name, listed or not: "With B", "change to C", "MC"."""
    found: set[str] = set()
    for part in pattern.parts:
        for line in part.rows:
            found.update(LETTER.findall(line.text))
    return found


def _parse_part(
    part: Part, vocabulary: Vocabulary, numbers: Numbers, used: dict[str, None]
) -> tuple[ParsedPart, list[Finding]]:
    rows: list[Row] = []
    findings: list[Finding] = []
    for line in part.rows:
        row, tokens, found = parse_row(line, vocabulary, numbers)
        rows.append(replace(row, section=part.title))
        findings.extend(found)
        _note_label(row.label, used)
        for token in tokens:
            _note_term(token, row.words.text, used)
    return ParsedPart(part.title, part.make, tuple(rows), part.span), findings


def _note_term(token: Token, text: str, used: dict[str, None]) -> None:
    """Stitches by their US name; other abbreviations of the trade as its table of words spells them."""
    if token.kind == "st":
        used.setdefault(str(token.value))
    elif token.kind in ("chsp", "chn"):
        used.setdefault("ch-sp")
    elif token.kind == "w":
        _note_word(text[token.start : token.end], used)


def _note_word(word: str, used: dict[str, None]) -> None:
    abbreviation = _abbreviations().get(word.lower().rstrip("."))
    if abbreviation:
        used.setdefault(abbreviation)


@cache
def _abbreviations() -> dict[str, str]:
    """The table's abbreviations, in small letters, one and several ("st", "sts")."""
    table = load_table("words")
    return {form: key for key in table for form in (key.lower(), f"{key.lower()}s")}


def _note_label(label: Label, used: dict[str, None]) -> None:
    for word in re.findall(r"[A-Za-z]+", label.text):
        _note_word(word, used)
