"""Prose that carries a rule: what a turning chain counts as, and stitches the pattern defines."""

import re
from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise

from booklet.model.parsed import ChainRule, ParsedPart, StitchDefinition
from booklet.model.pattern import Pattern, Prose
from booklet.model.tree import Chain, Group, Node, Skip, Where, Work
from booklet.rows.legends import SQUARES, usual_square
from booklet.rows.lexing import read_tokens
from booklet.rows.remarks import read_remark
from booklet.rows.row import find_unread, list_works, parse_text
from booklet.rows.stitches import loosen
from booklet.rows.stream import Stream
from booklet.rows.tokens import Numbers, Token
from booklet.rows.vocabulary import Vocabulary
from booklet.source import Span
from booklet.terms import load_table

DEFINED = ("shell", "v-st", "cl", "bobble", "puff", "pc", "picot")
SENTENCE = re.compile(r"[^.\n]+(?:\.|\n|$)")
# "ch 3 counts as dc, and ch 4 as dc and ch 1": the second chain has no verb of its own.
ALSO = re.compile(r"\bch(?:ain)?[\s-]?(\d{1,2})\s+as\s+(?:an?\s+|1\s+)?([A-Za-z]+)", re.IGNORECASE)
HINT = re.compile(r"count|takes the place|stands for|=", re.IGNORECASE)


def read_chain_rules(pattern: Pattern, parts: Sequence[ParsedPart], vocabulary: Vocabulary) -> list[ChainRule]:
    """What a chain of n counts as: told in the prose, in a row with "throughout", or in the front matter."""
    rules: list[ChainRule] = []
    for part in pattern.parts:
        for block in part.blocks:
            if isinstance(block, Prose) and HINT.search(block.text):
                for match in SENTENCE.finditer(block.text):
                    if HINT.search(match.group()):
                        rules.extend(_read_sentence(block.span.sub(match.start(), match.end()), vocabulary))
    for piece in parts:
        for row in piece.rows:
            rules.extend(_lasting_rules(row.steps))
    whole = pattern.source.whole()
    for words, counts in pattern.counts_as.items():
        number = re.search(r"\d+", words)
        rules.append(ChainRule(int(number[0]) if number else 0, counts, whole))
    return rules


def _lasting_rules(steps: Sequence[Node]) -> list[ChainRule]:
    """The chains that a row declares for all later rows: "ch 2 (counts as hdc here and throughout)"."""
    return [
        ChainRule(step.count[0], step.counts, step.span, step.stands_for, then=step.then)
        for step in steps
        if isinstance(step, Chain) and step.throughout and step.counts is not None and len(step.count) == 1
    ]


def _read_sentence(span: Span, vocabulary: Vocabulary) -> list[ChainRule]:
    """rule = ["the"] ("turning"|"beg")? "ch" n ["at …"] ("counts as" stitch | "does not count …") ["throughout"]"""
    tokens, _ = read_tokens(span.text, vocabulary, Numbers({}))
    chains = _chains_named(tokens)
    if chains is None:
        return []
    remark = read_remark(Stream(tokens, span))
    if remark is None or remark[4]:
        return []
    counts, stitch, _, _, _ = remark
    further = [
        ChainRule(int(chains), True, span, meaning[1])
        for chains, name in ALSO.findall(span.text)
        if (meaning := vocabulary.look_up(name.lower())) and meaning[0] == "st"
    ]
    if any(t.is_mark("=") and after.value == "ch" for t, after in pairwise(tokens)):
        return []  # "ch = chain": what the letters stand for
    when = _row_kind(tokens)
    return [*(ChainRule(number, counts, span, stitch, when) for number in chains), *further]


def _chains_named(tokens: list[Token]) -> list[int] | None:
    """The numbers of chains named before the verb; [0] for "the turning chain" of any height."""
    at = next(
        (i for i, t in enumerate(tokens) if t.is_word("counts as", "does not count") or t.is_mark("=")), len(tokens)
    )
    found: list[int] = []
    for i, token in enumerate(tokens[:at]):
        if token.kind == "chn":
            found.append(int(token.value))
        elif token.value == "ch" and i + 1 < at and tokens[i + 1].kind == "num":
            found.append(tokens[i + 1].numbers[0])
        elif token.kind == "num" and i + 1 < at and tokens[i + 1].value == "ch":
            found.append(token.numbers[0])
    if found:
        return found
    return [0] if any(t.is_word("tch") or t.value == "ch" for t in tokens[:at]) else None


def _row_kind(tokens: list[Token]) -> str:
    """The stitch in "at the start of a dc row", if the sentence has one."""
    for i, token in enumerate(tokens[:-1]):
        if token.kind == "st" and token.value != "ch" and tokens[i + 1].is_word("rows", "rounds"):
            return str(token.value)
    return ""


DEFINITION = re.compile(
    r"(?:^[\s>*_-]*|(?<=[.;]\s))(?P<name>(?:beg(?:inning)?\s+)?[A-Za-z0-9][\w -]{0,30}?)\s*"
    r"(?:[(\[](?P<short>[\w -]{1,24})[)\]])?\s*(?:\*\*|__)?\s*"
    r"[:=][ \t]*(?:\*\*|__)?[ \t]*(?P<text>\S[^\n]*?)"
    r"(?=[.;]\s+[A-Z][\w -]{1,30}(?:[(\[][\w -]{1,24}[)\]])?\s*[:=]\s|$)",
    re.MULTILINE,
)


def read_definitions(pattern: Pattern, vocabulary: Vocabulary, numbers: Numbers) -> list[StitchDefinition]:
    """The pattern's own stitches as steps; a stitch told in movements of the hook has no steps and makes one.

    They stand in the front matter, under a heading of special stitches, or as a line of prose that
    names a stitch and tells what it is ("Shell: 5 dc in same st").
    """
    found = []
    for special in pattern.special_stitches:
        span = special.span if special.span.text == special.text else _text_span(special.span, special.text)
        for name in dict.fromkeys((special.abbreviation, special.name)):
            if name and not _is_its_name(name, special.text, vocabulary):
                found += [_define(_canonical(name, vocabulary), special.text, span, vocabulary, numbers)]
    for name, text in pattern.abbreviations.items():
        at = pattern.source.text.find(text)
        if at >= 0 and _is_group(name, vocabulary) and re.search(r"\d", text):
            span = pattern.source.span(at, at + len(text))
            found.append(_define(_canonical(name, vocabulary), text, span, vocabulary, numbers))
    for part in pattern.parts:
        for block in part.blocks:
            if isinstance(block, Prose):
                found.extend(_read_prose_definitions(block, vocabulary, numbers))
    return _without_circles(found)


def define_usual_squares(vocabulary: Vocabulary, defined: set[str], numbers: Numbers) -> list[StitchDefinition]:
    """The squares of filet that the rows use and the pattern does not define, in their usual form."""
    missing = [name for name in dict.fromkeys(vocabulary.squares.values()) if name in SQUARES and name not in defined]
    found = []
    for name in missing:
        span = usual_square(name, vocabulary.dialect)
        found.append(replace(_define(name, span.text, span, vocabulary, numbers), assumed=True))
    return found


def _is_its_name(name: str, text: str, vocabulary: Vocabulary) -> bool:
    """Does the entry only spell the abbreviation out: "ch = chain", "FPdc: front post double crochet"?"""
    meaning = vocabulary.look_up(re.sub(r"[\s.;]+", " ", text.lower()).strip())
    if meaning is None:
        return False
    short = vocabulary.look_up(name.lower())
    return meaning == short or meaning[1] == vocabulary.compound(name)


def _without_circles(definitions: list[StitchDefinition]) -> list[StitchDefinition]:
    """Definitions that lead back to themselves have no steps: the stitch is then one stitch of its own."""
    uses = {d.name: {step.stitch for step in list_works(d.steps)} for d in definitions}

    def reaches(name: str, start: str, passed: frozenset[str]) -> bool:
        following = uses.get(name, set()) - passed
        return start in following or any(reaches(other, start, passed | following) for other in following)

    return [replace(d, steps=()) if reaches(d.name, d.name, frozenset()) else d for d in definitions]


def _read_prose_definitions(block: Prose, vocabulary: Vocabulary, numbers: Numbers) -> list[StitchDefinition]:
    found = []
    text = re.sub(r"(?im)^(\W*special stitch(?:es)?\s*:)(?=[ \t]*\S)", lambda match: " " * len(match[1]), block.text)
    for match in DEFINITION.finditer(text):
        given = [name for name in (match["short"], match["name"]) if name]
        names = [name for name in given if _is_group(name, vocabulary) or name.lower() in vocabulary.squares]
        span = block.span.sub(match.start("text"), match.end("text"))
        found += [_define(_canonical(name, vocabulary), match["text"], span, vocabulary, numbers) for name in names]
    return found


def _is_group(name: str, vocabulary: Vocabulary) -> bool:
    """Does the name stand for a stitch that a pattern has to define: a shell, a cluster, a stitch of its own?"""
    kind = vocabulary.look_up(name.lower())
    return kind is not None and kind[0] == "st" and (kind[1] in DEFINED or kind[1] not in load_table("stitches"))


def _canonical(name: str, vocabulary: Vocabulary) -> str:
    kind = vocabulary.look_up(name.lower())
    return kind[1] if kind and kind[0] == "st" else name


def _define(name: str, text: str, span: Span, vocabulary: Vocabulary, numbers: Numbers) -> StitchDefinition:
    steps, _, _, _ = parse_text(span, vocabulary, numbers)
    usable = bool(steps) and not find_unread(steps) and any(isinstance(s, Work | Group) for s in steps)
    if re.search(r"\b(yo|yarn over|yrh|yoh|insert hook|draw up|pull through|pull up)\b", text, re.IGNORECASE):
        usable = False
    return StitchDefinition(name, tuple(in_one_place(steps)) if usable else (), text, span, _is_one_place(steps))


def _text_span(span: Span, text: str) -> Span:
    at = span.text.find(text)
    return span.sub(at, at + len(text)) if at >= 0 else span


def _is_one_place(steps: list[Node]) -> bool:
    """One target for the whole definition?"""
    placed = [
        s
        for s in steps
        if isinstance(s, Work | Group) and s.where.how in ("next", "nth") and not getattr(s.where, "bare", False)
    ]
    passes = any(isinstance(s, Skip) for s in steps)
    return len(placed) <= 1 and not passes and all(s.where.count == (1,) or s.where.how == "nth" for s in placed)


def in_one_place(steps: list[Node]) -> list[Node]:
    """The steps as they are worked in the one place that each use of the stitch names."""
    if not _is_one_place(steps):
        return steps
    opened: list[Node] = []
    for step in steps:
        if isinstance(step, Group):
            opened.extend(step.steps)
        elif isinstance(step, Work):
            opened.append(loosen(step) if step.where.bare else replace(step, where=Where("same")))
        elif isinstance(step, Chain):
            opened.append(step)
    return opened
